//! The language in which the page speaks. It is chosen once, before anything is shown, by the address:
//! `index.html?language=accented`.

use calc::engine::language::{Language, Reader, Table};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Sentence;
use calc::engine::sheet::source::{HowKnown, Source};
use std::ops::Deref;
use std::sync::OnceLock;

/// Each language beside English: how the address calls it, and its table. One more is one more line here; a test holds
/// each against the English texts.
pub const TABLES: &[(&str, &str)] = &[];

static SPOKEN: OnceLock<Language> = OnceLock::new();

/// Chooses the language that is asked for; English where there is no such language.
pub fn speak(asked: &str) {
    // what is shown already would stay in its language
    let _ = SPOKEN.set(named(asked));
}

fn named(asked: &str) -> Language {
    let table = TABLES.iter().find(|(name, _)| *name == asked).and_then(|(_, lines)| Table::read(lines).ok());
    match table {
        Some(table) => Language::Translated(Box::leak(Box::new(table))),
        None if asked == "accented" => Language::Accented,
        None => Language::English,
    }
}

fn language() -> Language {
    *SPOKEN.get().unwrap_or(&Language::English)
}

/// A text that is declared in English.
pub fn say(english: &'static str) -> &'static str {
    language().of(english)
}

/// A sentence with its numbers in these units.
pub fn tell(sentence: &Sentence, units: UnitSet) -> String {
    sentence.tell(Reader { units, language: language() })
}

/// The title of a source: a document keeps its own, whatever the language.
pub fn called(source: &Source) -> &'static str {
    match source.known {
        HowKnown::Read | HowKnown::Quoted | HowKnown::Memory => source.title,
        HowKnown::CommonPractice | HowKnown::Derived | HowKnown::Entered => say(source.title),
    }
}

/// Words of the page, made once in its language.
pub struct Spoken<T: 'static> {
    english: &'static T,
    other: OnceLock<T>,
}

impl<T> Spoken<T> {
    pub const fn new(english: &'static T) -> Self {
        Self { english, other: OnceLock::new() }
    }
}

impl<T: InLanguage> Deref for Spoken<T> {
    type Target = T;

    // asked for at hundreds of places, each of which would have a copy
    #[inline(never)]
    fn deref(&self) -> &T {
        match language() {
            Language::English => self.english,
            other => self.other.get_or_init(|| self.english.in_language(other)),
        }
    }
}

/// What has texts in it.
pub trait InLanguage {
    /// The same in another language.
    fn in_language(&self, language: Language) -> Self;
}

impl InLanguage for &'static str {
    fn in_language(&self, language: Language) -> Self {
        language.of(self)
    }
}

impl<T: InLanguage, const N: usize> InLanguage for [T; N] {
    fn in_language(&self, language: Language) -> Self {
        self.each_ref().map(|one| one.in_language(language))
    }
}

impl InLanguage for (&'static str, Option<&'static str>) {
    /// A text with an id.
    fn in_language(&self, language: Language) -> Self {
        (language.of(self.0), self.1)
    }
}

/// Words that can be had in any language.
macro_rules! words {
    ($(#[$doc:meta])* pub struct $name:ident { $( $(#[$note:meta])* pub $field:ident: $type:ty, )+ }) => {
        $(#[$doc])*
        pub struct $name { $( $(#[$note])* pub $field: $type ),+ }

        impl $crate::text::language::InLanguage for $name {
            fn in_language(&self, language: calc::engine::language::Language) -> Self {
                Self { $( $field: self.$field.in_language(language) ),+ }
            }
        }
    };
}
