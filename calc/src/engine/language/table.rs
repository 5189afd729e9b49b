//! A language as a table: one line for each text, its id and what it says, with a tab between them.

use crate::engine::sheet::places;
use std::collections::HashMap;

/// The texts of a language.
#[derive(Debug)]
pub struct Table(HashMap<u32, &'static str>);

/// Why a text is no table.
#[derive(Debug, PartialEq, Eq)]
pub struct NotATable {
    /// The line, counted from 1.
    pub line: usize,
}

/// Of a text: the same wherever it stands, and another one as soon as its English says something else (FNV-1a, 32 bits).
///
/// ```
/// use calc::engine::language::id;
/// // from the test vectors of the algorithm's authors
/// assert_eq!(id("a"), 0xe40c_292c);
/// assert_eq!(id("foobar"), 0xbf9c_f968);
/// ```
pub fn id(english: &str) -> u32 {
    english.bytes().fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

/// Whether the same places are filled in two texts, in whatever order.
pub fn have_same_places(one: &str, other: &str) -> bool {
    let of = |text| {
        let mut places: Vec<&str> = places(text).collect();
        places.sort_unstable();
        places.dedup();
        places
    };
    of(one) == of(other)
}

impl Table {
    /// From lines such as `e40c292c<TAB>ein`; a text without a translation is left out.
    ///
    /// # Errors
    /// The first line that is none.
    pub fn read(lines: &'static str) -> Result<Self, NotATable> {
        let mut texts = HashMap::new();
        for (index, line) in lines.lines().enumerate() {
            let wrong = NotATable { line: index + 1 };
            let Some((id, text)) = line.split_once('\t') else { return Err(wrong) };
            let Ok(id) = u32::from_str_radix(id, 16) else { return Err(wrong) };
            if texts.insert(id, text).is_some() {
                return Err(wrong);
            }
        }
        Ok(Self(texts))
    }

    /// A text in this language; in English where the table lacks it.
    pub fn of(&self, english: &'static str) -> &'static str {
        self.0.get(&id(english)).copied().unwrap_or(english)
    }

    /// Whether it has that text, with the same places.
    pub fn has(&self, english: &str) -> bool {
        self.0.get(&id(english)).is_some_and(|text| have_same_places(text, english))
    }

    /// How many texts it has.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether it has none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::language::{Language, Reader};
    use crate::engine::quantity::UnitSet;
    use crate::engine::sheet::{Sentence, Slot};

    #[test]
    fn a_translated_sentence_has_its_places_where_its_language_has_them() {
        const ENGLISH: &str = "{name} counts whole ones: enter a whole number";
        let line = format!("{:08x}\tNur ganze Zahlen für {{name}}\n", id(ENGLISH)).leak();
        let table: &'static Table = Box::leak(Box::new(Table::read(line).unwrap()));
        let reader = Reader { units: UnitSet::Metric, language: Language::Translated(table) };
        let sentence = Sentence::plain(ENGLISH).with("name", Slot::Text("{name}".into()));
        assert_eq!(sentence.tell(reader), "Nur ganze Zahlen für {name}");
        assert!(table.has(ENGLISH) && !table.has("Row {row}"));
        assert_eq!(Sentence::plain("not there").tell(reader), "not there");
    }

    #[test]
    fn a_table_that_is_none_is_refused_with_its_line() {
        let fault = |lines| Table::read(lines).err();
        assert_eq!(fault(""), None);
        assert_eq!(fault("0000000a\tzehn\nelf"), Some(NotATable { line: 2 }));
        assert_eq!(fault("ten\tzehn"), Some(NotATable { line: 1 }));
        assert_eq!(fault("0a\tzehn\n0a\tzehn"), Some(NotATable { line: 2 }));
    }

    #[test]
    fn a_lost_place_is_a_fault() {
        let line = format!("{:08x}\tZeile", id("Row {row}")).leak();
        assert!(!Table::read(line).unwrap().has("Row {row}"));
    }
}
