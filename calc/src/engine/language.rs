//! The languages in which a text can be read.
//!
//! English stands where a thing is declared, and is itself the key under which another language has it: a language is a
//! function from the English text to its own. A text that is changed in English is a new text, so that no language goes
//! on saying what is no longer meant.

mod accented;
mod table;

pub use accented::accented;
pub use table::{NotATable, Table, have_same_places, id};

use super::quantity::UnitSet;

/// A language.
#[derive(Debug, Clone, Copy)]
pub enum Language {
    /// As it is declared.
    English,
    /// English with accents and a third longer: it shows what was forgotten, and what has no room.
    Accented,
    /// As somebody has translated it.
    Translated(&'static Table),
}

/// Whoever reads a sentence.
#[derive(Debug, Clone, Copy)]
pub struct Reader {
    /// The units in which quantities are told.
    pub units: UnitSet,
    /// The language of everything else.
    pub language: Language,
}

impl Language {
    /// A text of ours in this language; its places stay.
    pub fn of(self, english: &'static str) -> &'static str {
        match self {
            Language::English => english,
            Language::Accented => accented::kept(english),
            Language::Translated(table) => table.of(english),
        }
    }
}
