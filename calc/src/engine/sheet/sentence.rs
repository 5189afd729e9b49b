//! Sentences kept as a template and its values until somebody reads them, so that each reader gets them in his units
//! and in his language.

use crate::engine::calendar::Moment;
use crate::engine::language::{Language, Reader};
use crate::engine::quantity::{Kind, Quantity, Unit, UnitSet, show};

/// A template such as `at least {limit} is asked for` and what stands in its places.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence {
    /// English, with places in braces; it is also the key under which another language is found. `{rows?row|rows}` is
    /// the word for one or for several, by the count in the place `rows`.
    pub template: &'static str,
    /// What stands in the places.
    pub values: Vec<(&'static str, Slot)>,
}

/// What can stand in a place of a template.
#[derive(Debug, Clone, PartialEq)]
pub enum Slot {
    /// A quantity that was computed, in SI.
    Number(f64, &'static Kind),
    /// A quantity that somebody typed or a rule gives, in SI: it is told as it was given, 0.12 and not 0.120.
    Given(f64, &'static Kind),
    /// Less than a quantity, in SI.
    Below(f64, &'static Kind),
    /// Numbers with their units, in those of SI practice and in those of the US.
    Either([String; 2]),
    /// A number of things.
    Count(i64),
    /// A moment, by its own clock.
    Moment(Moment),
    /// The words of a person, or the name of something that a person named.
    Text(String),
    /// A text of ours.
    Word(&'static str),
    /// Several texts of ours, one after the other.
    Words(Vec<&'static str>),
    /// What another sentence says.
    Told(Box<Sentence>),
}

impl Sentence {
    /// A sentence without places.
    pub const fn plain(template: &'static str) -> Self {
        Self { template, values: Vec::new() }
    }

    /// The same sentence with one more place filled.
    pub fn with(mut self, place: &'static str, slot: Slot) -> Self {
        self.values.push((place, slot));
        self
    }

    /// The same sentence with a quantity in one more place.
    pub fn quantity<Q: Quantity>(self, place: &'static str, quantity: Q) -> Self {
        self.with(place, Slot::Number(quantity.si(), Q::KIND))
    }

    /// The sentence in English, with quantities in the units of the set.
    pub fn show(&self, set: UnitSet) -> String {
        self.tell(Reader { units: set, language: Language::English })
    }

    /// The sentence as this reader reads it: the template in his language, and only then its places filled.
    pub fn tell(&self, reader: Reader) -> String {
        // once from left to right: what a person typed may have braces of its own
        let template = reader.language.of(self.template);
        let mut shown = String::with_capacity(template.len() + 32);
        let mut rest = template;
        while let Some((before, place, after)) = next_place(rest) {
            shown.push_str(before);
            let (name, words) =
                place.split_once('?').map_or((place, None), |(name, words)| (name, Some(words)));
            let slot = self.values.iter().find(|(filled, _)| *filled == name).map(|(_, slot)| slot);
            match (slot, words.and_then(|words| words.split_once('|'))) {
                (Some(Slot::Count(count)), Some((one, many))) => {
                    shown.push_str(if *count == 1 { one } else { many });
                }
                (Some(slot), _) => shown.push_str(&slot.tell(reader)),
                (None, _) => {}
            }
            rest = after;
        }
        shown.push_str(rest);
        shown
    }

    /// The places of the template that nothing fills.
    pub fn open_places(&self) -> Vec<&'static str> {
        places(self.template).filter(|place| !self.values.iter().any(|(name, _)| name == place)).collect()
    }
}

impl From<&'static str> for Sentence {
    fn from(template: &'static str) -> Self {
        Self::plain(template)
    }
}

/// The names between braces.
pub(crate) fn places(template: &str) -> impl Iterator<Item = &str> {
    let mut rest = template;
    std::iter::from_fn(move || {
        let (_, place, after) = next_place(rest)?;
        rest = after;
        Some(place.split_once('?').map_or(place, |(name, _)| name))
    })
}

/// The next place of a template, with what stands before and behind it. Other braces, as in `{"list": true}`, are text.
pub(crate) fn next_place(template: &str) -> Option<(&str, &str, &str)> {
    let is_of_name =
        |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || matches!(byte, b'-' | b'_');
    template.match_indices('{').find_map(|(open, _)| {
        let (place, after) = template[open + 1..].split_once('}')?;
        let name = place.split_once('?').map_or(place, |(name, _)| name);
        (!name.is_empty() && name.bytes().all(is_of_name)).then(|| (&template[..open], place, after))
    })
}

/// The unit of a kind in a sentence.
pub(crate) fn shown_in(kind: &'static Kind, set: UnitSet) -> &'static Unit {
    match set {
        UnitSet::Us => kind.unit(kind.us),
        _ => kind.unit(kind.metric),
    }
}

/// The number with its unit behind it, where it has one.
pub(crate) fn with_unit(number: String, unit: &Unit) -> String {
    format!("{number} {}", unit.shown()).trim_end().to_owned()
}

impl Slot {
    fn tell(&self, reader: Reader) -> String {
        let set = reader.units;
        match self {
            Slot::Number(si, kind) => {
                let unit = shown_in(kind, set);
                with_unit(show::significant(unit.of_si(*si), 3), unit)
            }
            Slot::Given(si, kind) => {
                let unit = shown_in(kind, set);
                with_unit(show::given(unit.of_si(*si)), unit)
            }
            Slot::Below(si, kind) => format!("<{}", Slot::Given(*si, kind).tell(reader)),
            Slot::Either([metric, us]) => if set == UnitSet::Us { us } else { metric }.clone(),
            Slot::Count(count) => count.to_string(),
            Slot::Moment(moment) => moment.in_words(reader.language),
            Slot::Text(text) => text.clone(),
            Slot::Word(word) => reader.language.of(word).to_owned(),
            Slot::Words(words) => {
                words.iter().map(|word| reader.language.of(word)).collect::<Vec<_>>().join("; ")
            }
            Slot::Told(sentence) => sentence.tell(reader),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn braces_that_are_no_place_are_text() {
        let sentence = Sentence::plain("no “{id}”. {\"list\": true} names {all}, {} none")
            .with("id", Slot::Text("{all}".into()));
        assert_eq!(sentence.show(UnitSet::Metric), "no “{all}”. {\"list\": true} names , {} none");
        assert_eq!(sentence.open_places(), ["all"]);
    }

    #[test]
    fn one_is_not_said_as_several() {
        let of = |count| {
            let sentence = Sentence::plain("there {rows?is|are} {rows} {rows?row|rows}")
                .with("rows", Slot::Count(count));
            assert_eq!(sentence.open_places(), Vec::<&str>::new());
            sentence.show(UnitSet::Metric)
        };
        assert_eq!(of(1), "there is 1 row");
        assert_eq!(of(2), "there are 2 rows");
        assert_eq!(of(0), "there are 0 rows");
    }

    #[test]
    fn what_was_given_is_told_as_it_was() {
        use crate::engine::quantity::kinds::{FLOW, TEMPERATURE_DIFFERENCE, TIME};
        let of = |slot: Slot, set| Sentence::plain("{x}").with("x", slot).show(set);
        assert_eq!(of(Slot::Given(0.65e-3 / 60.0, &FLOW), UnitSet::Metric), "0.65 L/min");
        assert_eq!(of(Slot::Number(0.65e-3 / 60.0, &FLOW), UnitSet::Metric), "0.650 L/min");
        // 0.65 / 3.785411784 = 0.17171
        assert_eq!(of(Slot::Given(0.65e-3 / 60.0, &FLOW), UnitSet::Us), "0.172 gpm");
        assert_eq!(of(Slot::Given(600.0, &TIME), UnitSet::Metric), "10 min");
        assert_eq!(of(Slot::Given(5.0, &TEMPERATURE_DIFFERENCE), UnitSet::Metric), "5 °C");
    }

    #[test]
    fn a_difference_of_temperatures_is_told_in_degrees() {
        use crate::engine::quantity::kinds::TEMPERATURE_DIFFERENCE;
        let of = |set| {
            let sentence =
                Sentence::plain("{x} warmer").with("x", Slot::Number(1.0, &TEMPERATURE_DIFFERENCE));
            sentence.show(set)
        };
        // no offset: one degree Celsius more is 1.8 degrees Fahrenheit more
        assert_eq!(of(UnitSet::Metric), "1.00 °C warmer");
        assert_eq!(of(UnitSet::Si), "1.00 °C warmer");
        assert_eq!(of(UnitSet::Us), "1.80 °F warmer");
    }
}
