//! Sentences kept as a template and its values until somebody reads them, so that each reader gets them in his units
//! and, one day, in his language.

use crate::engine::quantity::{Kind, Quantity, UnitSet, show};

/// A template such as `at least {limit} is asked for` and what stands in its places.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence {
    /// English, with places in braces; it is also the key under which another language is found.
    pub template: &'static str,
    /// What stands in the places.
    pub values: Vec<(&'static str, Slot)>,
}

/// What can stand in a place of a template.
#[derive(Debug, Clone, PartialEq)]
pub enum Slot {
    /// A quantity, in SI.
    Number(f64, &'static Kind),
    /// Less than a quantity, in SI.
    Below(f64, &'static Kind),
    /// A number of things.
    Count(i64),
    /// The words of a person, or the name of something that a person named.
    Text(String),
    /// A word of ours.
    Word(&'static str),
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

    /// The sentence in words, with quantities in the units of the set.
    pub fn show(&self, set: UnitSet) -> String {
        // once from left to right: what a person typed may have braces of its own
        let mut shown = String::with_capacity(self.template.len() + 32);
        let mut rest = self.template;
        while let Some((before, after)) = rest.split_once('{') {
            shown.push_str(before);
            let Some((place, after)) = after.split_once('}') else { break };
            if let Some((_, slot)) = self.values.iter().find(|(name, _)| *name == place) {
                shown.push_str(&slot.show(set));
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
fn places(template: &'static str) -> impl Iterator<Item = &'static str> {
    template.split('{').skip(1).filter_map(|rest| rest.split_once('}').map(|(place, _)| place))
}

impl Slot {
    fn show(&self, set: UnitSet) -> String {
        match self {
            Slot::Number(si, kind) => {
                let unit = match set {
                    UnitSet::Us => kind.unit(kind.us),
                    _ => kind.unit(kind.metric),
                };
                format!("{} {}", show::significant(unit.of_si(*si), 3), unit.shown()).trim_end().to_owned()
            }
            Slot::Below(si, kind) => format!("<{}", Slot::Number(*si, kind).show(set)),
            Slot::Count(count) => count.to_string(),
            Slot::Text(text) => text.clone(),
            Slot::Word(word) => (*word).to_owned(),
        }
    }
}
