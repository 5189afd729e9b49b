//! Finds sheets by what people call what they look for: a name, a symbol, a usual abbreviation, a unit.

use super::catalogue::SHEETS;
use crate::engine::sheet::{Declaration, Field, Shape};
use std::sync::LazyLock;

/// A sheet that was found.
#[derive(Debug, Clone, Copy)]
pub struct Found {
    /// The sheet.
    pub sheet: &'static Declaration,
    /// Its number that was found, where it was not the name of the sheet: what it asks or what it answers.
    pub field: Option<&'static Field>,
}

/// How much a place counts in which a word is found. The sum over all words puts the sheets in order.
mod weight {
    pub const NAME: u32 = 16;
    pub const ANSWER: u32 = 8;
    pub const ASKED: u32 = 4;
    pub const UNIT: u32 = 2;
    pub const TEXT: u32 = 1;
}

/// The words of a sheet, made plain once.
struct Indexed {
    sheet: &'static Declaration,
    names: Vec<String>,
    about: Vec<String>,
    /// Answers first: of two numbers that are found alike, the one that the sheet gives.
    numbers: Vec<Number>,
}

/// A number of a sheet; of a table, its columns too.
struct Number {
    field: &'static Field,
    weight: u32,
    words: Vec<String>,
    units: Vec<String>,
}

static INDEX: LazyLock<Vec<Indexed>> =
    LazyLock::new(|| SHEETS.iter().map(|entry| Indexed::of(entry.declaration)).collect());

/// The sheets in which every word is found, the best first; none where nothing is asked.
///
/// # Example
/// ```
/// use calc::program::search::search;
/// let best = |asked| search(asked).first().map(|found| found.sheet.id);
/// assert_eq!(best("EBCT"), Some("carbon-contact-time"));
/// assert_eq!(best("A0"), Some("heat-dose"));
/// assert_eq!(best("xyzzy"), None);
/// ```
pub fn search(asked: &str) -> Vec<Found> {
    let asked = words(asked);
    if asked.is_empty() {
        return Vec::new();
    }
    let mut found: Vec<(u32, Found)> = INDEX.iter().filter_map(|sheet| sheet.find(&asked)).collect();
    found.sort_by_key(|(score, _)| std::cmp::Reverse(*score));
    found.into_iter().map(|(_, found)| found).collect()
}

impl Indexed {
    fn of(sheet: &'static Declaration) -> Self {
        let answers = sheet.outputs.iter().map(|field| Number::of(field, weight::ANSWER));
        let asked = sheet.inputs.iter().map(|field| Number::of(field, weight::ASKED));
        Self {
            sheet,
            names: sheet.also.iter().copied().chain([sheet.name]).flat_map(words).collect(),
            about: words(sheet.about),
            numbers: answers.chain(asked).collect(),
        }
    }

    /// With its score, where it has every word.
    fn find(&self, asked: &[String]) -> Option<(u32, Found)> {
        let of_name = |word: &String| match () {
            () if says(&self.names, word) => weight::NAME,
            () if says(&self.about, word) => weight::TEXT,
            () => 0,
        };
        let mut scores: Vec<u32> = asked.iter().map(of_name).collect();
        let is_named = scores.iter().all(|score| *score == weight::NAME);
        // the number that has most of the words, and of those the first
        let mut best: Option<(usize, &'static Field)> = None;
        for number in &self.numbers {
            let found: Vec<u32> = asked.iter().map(|word| number.score(word)).collect();
            let count = found.iter().filter(|score| **score > 0).count();
            if count > best.map_or(0, |(most, _)| most) {
                best = Some((count, number.field));
            }
            for (score, found) in scores.iter_mut().zip(found) {
                *score = found.max(*score);
            }
        }
        let found = Found { sheet: self.sheet, field: best.filter(|_| !is_named).map(|(_, field)| field) };
        scores.iter().all(|score| *score > 0).then(|| (scores.iter().sum(), found))
    }
}

impl Number {
    fn of(field: &'static Field, weight: u32) -> Self {
        let mut number = Self { field, weight, words: Vec::new(), units: Vec::new() };
        let columns: &[Field] = if let Shape::Table(columns) = field.shape { columns } else { &[] };
        for field in std::iter::once(field).chain(columns) {
            number.words.extend(words(field.term.name));
            number.words.extend([plain(field.term.symbol)].into_iter().filter(|symbol| !symbol.is_empty()));
            let units = field.term.kind.map_or(&[][..], |kind| kind.units);
            let called = units.iter().flat_map(|unit| unit.aliases.iter().copied().chain([unit.symbol]));
            number.units.extend(called.map(plain));
        }
        number
    }

    fn score(&self, word: &String) -> u32 {
        match () {
            () if says(&self.words, word) => self.weight,
            () if self.units.contains(word) => weight::UNIT,
            () => 0,
        }
    }
}

/// Whether one of the words begins so; plural and singular are the same.
fn says(words: &[String], word: &str) -> bool {
    let is_it =
        |one: &String| one.starts_with(word) || word.strip_suffix('s').is_some_and(|word| one == word);
    words.iter().any(is_it)
}

fn words(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| !(c.is_alphanumeric() || "_/°".contains(c)));
    parts.map(plain).filter(|word| !word.is_empty()).collect()
}

/// `A_0`, `A₀` and `a0` are the same.
fn plain(text: &str) -> String {
    text.chars()
        .filter(|c| !matches!(c, '_' | ',' | ' '))
        .map(|c| match c {
            '₀'..='₉' => char::from_digit(u32::from(c) - u32::from('₀'), 10).unwrap_or(c),
            _ => c,
        })
        .flat_map(char::to_lowercase)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(asked: &str) -> Vec<&'static str> {
        search(asked).iter().map(|found| found.sheet.id).collect()
    }

    #[test]
    fn a_usual_abbreviation_finds_its_sheet_first() {
        for (asked, sheet) in [
            ("EBCT", "carbon-contact-time"),
            ("ebct ", "carbon-contact-time"),
            ("TCF", "temperature-correction"),
            ("LSI", "scale-tendency"),
            ("SDI", "silt-density-index"),
            ("A0", "heat-dose"),
            ("A₀", "heat-dose"),
            ("GPD", "machine-demand"),
            ("bucket test", "timed-jug"),
            ("endotoxin", "microbial-limits"),
        ] {
            assert_eq!(ids(asked).first(), Some(&sheet), "{asked}: {:?}", ids(asked));
        }
        assert!(ids("gpg").contains(&"hardness") && ids("gpg").contains(&"softener"));
    }

    #[test]
    fn a_number_is_found_by_its_name_and_named() {
        let found = search("longest gap");
        let heat = found.iter().find(|found| found.sheet.id == "heat-dose").unwrap();
        assert!(heat.field.unwrap().term.name.to_lowercase().contains("gap"), "{}", heat.field.unwrap().id);
        // the name of a sheet needs no number beside it
        assert!(search("softener")[0].field.is_none());
    }

    #[test]
    fn every_sheet_is_found_first_by_its_own_name() {
        for entry in SHEETS {
            let sheet = entry.declaration;
            assert!(
                ids(sheet.name).iter().take(2).any(|id| *id == sheet.id),
                "{}: {:?}",
                sheet.name,
                ids(sheet.name)
            );
            for also in sheet.also {
                assert!(ids(also).contains(&sheet.id), "{also}");
            }
        }
    }

    #[test]
    fn what_nobody_says_finds_nothing() {
        for asked in ["", "  ", "?!", "xyzzy", "softener xyzzy"] {
            assert!(ids(asked).is_empty(), "{asked}");
        }
    }
}
