//! The page's own words, each sentence one field, so that another language is one more constant.
//!
//! What a sheet says stands in its declaration. `{…}` are places that the page fills.

#[macro_use]
mod language;

mod basis;
mod chart;
mod exchange;
mod figures;
mod find;
mod kept;
mod rows;
mod sections;
pub mod store;
mod tools;

pub use language::{called, say, speak, tell};

use language::Spoken;

words! {
    /// The words of the page in one language.
    pub struct Words {
        /// Of the sections.
        pub section: sections::Sections,
        /// Of what the program rests on.
        pub basis: basis::Basis,
        /// What is said of a sheet and the record.
        pub kept: kept::Kept,
        /// What a chart says.
        pub chart: chart::Chart,
        /// Of beginning and finding.
        pub find: find::Find,
        /// What the figures say that follow from a declaration.
        pub figure: figures::Figures,
        /// What is said of rows from a text.
        pub rows: rows::Rows,
        /// What is said of events and records that come from a file.
        pub exchange: exchange::Exchange,
        /// What the tools say that act on any sheet.
        pub tools: tools::Tools,
        /// What the program is for, on the start view.
        pub purpose: [&'static str; 2],
        /// Over the invented rooms.
        pub rooms: &'static str,
        /// What the invented rooms are.
        pub rooms_are_invented: &'static str,
        /// Beside everything that is invented.
        pub invented: &'static str,
        /// Over the file input.
        pub open_record: &'static str,
        /// What happens with the file.
        pub open_record_hint: &'static str,
        /// Before the reason.
        pub refused: &'static str,
        /// After the reason.
        pub nothing_changed: &'static str,
        /// The invented rooms, each with its trouble.
        pub room_names: [&'static str; 3],
        /// A record of a newer program.
        pub newer_record: &'static str,
        /// The file could not be read at all.
        pub unreadable_file: &'static str,
        /// Whether the letters of a file that is not UTF-8 are right so: `{example}`.
        pub letters: &'static str,
        /// They are.
        pub letters_yes: &'static str,
        /// They are not.
        pub letters_no: &'static str,
        /// The link to the plan.
        pub begin_plan: &'static str,
        /// The heading of the start view.
        pub start: &'static str,
        /// The navigation.
        pub sheets: &'static str,
        /// The link over everything.
        pub skip: &'static str,
        /// The units of the page.
        pub units: &'static str,
        /// SI practice.
        pub si: &'static str,
        /// US practice.
        pub us: &'static str,
        /// An address that leads nowhere.
        pub no_such_view: &'static str,
        /// The way back.
        pub to_start: &'static str,
        /// The form.
        pub entries: &'static str,
        /// Before what is taken for an empty field.
        pub left_empty: &'static str,
        /// A field that may stay empty.
        pub may_be_empty: &'static str,
        /// A choice that was not made.
        pub not_entered: &'static str,
        /// How a date is written.
        pub date_hint: &'static str,
        /// The button for the present moment, and the same read aloud: `{name}`.
        pub now: &'static str,
        /// With the name of its field.
        pub now_of: &'static str,
        /// That no patient is named.
        pub no_patient: &'static str,
        /// The unit beside a field.
        pub unit_of: &'static str,
        /// A cell of a table.
        pub cell_of: &'static str,
        /// A row of a table, at the beginning of a sentence.
        pub row: &'static str,
        /// A table that is wider than the screen.
        pub table_of: &'static str,
        /// A row more.
        pub add_row: &'static str,
        /// The head of the column of crosses, read aloud.
        pub remove_row: &'static str,
        /// A row less, read aloud.
        pub remove_row_number: &'static str,
        /// Before an error.
        pub error: &'static str,
        /// Before a warning.
        pub warning: &'static str,
        /// Over the summary of errors, for one and for several.
        pub errors: [&'static str; 2],
        /// Empties the sheet.
        pub clear: &'static str,
        /// Before the name of the record.
        pub from_record: &'static str,
        /// The answers.
        pub answers: &'static str,
        /// Over the entries that could not be taken.
        pub left_out: &'static str,
        /// What the intervals are.
        pub intervals: &'static str,
        /// The checks.
        pub checks: &'static str,
        /// The values.
        pub values: &'static str,
        /// The cautions.
        pub cautions: &'static str,
        /// What was taken for empty fields.
        pub assumed: &'static str,
        /// The warnings once more.
        pub look_again: &'static str,
        /// The sources.
        pub sources: &'static str,
        /// Of the check values of a sheet: none, too few, so many are printed elsewhere.
        pub published: [&'static str; 3],
        /// The arithmetic.
        pub working: &'static str,
        /// No step was recorded.
        pub no_working: &'static str,
        /// A step of it, for who does not see it: `{number}`.
        pub step: &'static str,
        /// Where the symbols of a formula are explained.
        pub with: &'static str,
        /// The unknown kind of a missing answer.
        pub not_known: &'static str,
        /// It needs a field.
        pub needs: &'static str,
        /// A field has more to say.
        pub see: &'static str,
        /// The other kind of a missing answer.
        pub none_exists: &'static str,
        /// Before side and limit.
        pub asked: &'static str,
        /// Right side, by so much.
        pub to_spare: &'static str,
        /// Wrong side by so much: of a minimum, of a maximum.
        pub short_by: [&'static str; 2],
        /// The limit itself, on its right side and on its wrong one.
        pub at_limit: [&'static str; 2],
        /// The interval of a forecast.
        pub interval: &'static str,
        /// What replaces a check.
        pub instead: &'static str,
        /// The source of a check.
        pub source: &'static str,
        /// How many checks are in a state.
        pub counted: &'static str,
        /// The link of the bar on a phone.
        pub to_answers: &'static str,
        /// An empty table of answers.
        pub no_rows: &'static str,
    }
}

/// English.
pub const ENGLISH: Words = Words {
    section: sections::ENGLISH,
    basis: basis::ENGLISH,
    kept: kept::ENGLISH,
    chart: chart::ENGLISH,
    find: find::ENGLISH,
    figure: figures::ENGLISH,
    rows: rows::ENGLISH,
    exchange: exchange::ENGLISH,
    tools: tools::ENGLISH,
    purpose: [
        "Tapside works out whether a room's tap can feed a portable reverse-osmosis (RO) unit, in winter, in summer and during flush, and whether the carbon tanks are large enough.",
        "Every number shows its arithmetic and its source. What is not known is never guessed.",
    ],
    rooms: "Invented example rooms",
    rooms_are_invented: "Places and numbers are made up. Each shows a different problem.",
    invented: "invented",
    open_record: "Open a record file",
    open_record_hint: "The file is read on this device and is sent nowhere.",
    refused: "Not opened:",
    nothing_changed: "Nothing on the page has changed.",
    room_names: [
        "Ostrin Vale Infirmary: a cold reservoir",
        "Quillon Flats Hospital: hot, hard desert water",
        "Tolby Marsh clinic: a well with little pressure",
    ],
    newer_record: "a newer version of this program wrote this record (format {version}; this version reads up to {known}). Open it with the newer version",
    unreadable_file: "the browser could not read this file. Choose it again, or copy it to this device first",
    letters: "This file is not in UTF-8. Read as Windows-1252 (Latin-1) it says: “{example}”. Are these letters right?",
    letters_yes: "Yes, open it",
    letters_no: "No, do not open it",
    begin_plan: "Check a room",
    start: "Start",
    sheets: "Calculations",
    skip: "Skip to content",
    units: "Units",
    si: "Metric",
    us: "US (gal, gpm)",
    no_such_view: "There is no page at this address",
    to_start: "Go to the start",
    entries: "What to enter",
    left_empty: "If empty:",
    may_be_empty: "Optional.",
    not_entered: "Not entered",
    date_hint: "Year-month-day, such as 2027-03-14.",
    now: "Now",
    now_of: "{name}: now",
    no_patient: "Do not enter a patient's name.",
    unit_of: "Unit for {name}",
    cell_of: "{column}, row {row}",
    row: "Row {row}",
    table_of: "Table: {name}",
    add_row: "Add a row",
    remove_row: "Remove",
    remove_row_number: "Remove row {row}",
    error: "Fix:",
    warning: "Check this entry:",
    errors: ["1 entry needs fixing", "{count} entries need fixing"],
    clear: "Clear this page",
    from_record: "From the record",
    answers: "Answers",
    left_out: "Not used until fixed",
    intervals: "± is the 95 % interval from the usual accuracy of the instruments.",
    checks: "Checks, worst first",
    values: "Values",
    cautions: "Cautions",
    assumed: "Assumed for empty fields",
    look_again: "Check these entries",
    sources: "Sources",
    published: [
        "No published value tests this calculation: {why}. Its test values are worked by hand, follow from definitions, or come from reference libraries.",
        "Published values that test this calculation: only {count}, because {why}.",
        "Published values that test this calculation: {count}.",
    ],
    working: "Show the arithmetic",
    no_working: "Fill in the required fields to see the arithmetic.",
    step: "Step {number}",
    with: "with",
    not_known: "not known",
    needs: "enter",
    see: "see",
    none_exists: "none exists:",
    asked: "needs {limit}",
    to_spare: "{distance} spare",
    short_by: ["Short by {distance}", "Over by {distance}"],
    at_limit: ["At the limit", "At the limit, which does not pass"],
    interval: "± {interval} (95 %)",
    instead: "Relied on instead: {criterion}.",
    source: "Rule:",
    counted: "{count} {state}",
    to_answers: "Answers",
    no_rows: "no rows",
};

/// The words of the page, in the language in which it speaks.
pub static WORDS: Spoken<Words> = Spoken::new(&ENGLISH);

/// The template with its places filled.
pub fn fill(template: &str, places: &[(&str, &str)]) -> String {
    places
        .iter()
        .fold(template.to_owned(), |text, (place, value)| text.replace(&format!("{{{place}}}"), value))
}

/// The beginning of a text that is too long for where it stands; the whole stands in its field.
pub fn shortened(text: &str, longest: usize) -> String {
    match text.char_indices().nth(longest) {
        Some((end, _)) => format!("{}…", text[..end].trim_end()),
        None => text.to_owned(),
    }
}

/// With a capital at its beginning.
pub fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map(char::to_uppercase).into_iter().flatten().chain(chars).collect()
}

/// Of a form for one and a form for several, the one for so many, with the number in its place `{count}`.
pub fn counted(forms: [&'static str; 2], count: usize) -> String {
    fill(forms[usize::from(count != 1)], &[("count", &count.to_string())])
}

/// A sentence as it stands alone: with a capital and a full stop. A symbol such as pH stays as it is.
pub fn alone(text: &str) -> String {
    let mut chars = text.trim().chars();
    let (first, rest) = (chars.next(), chars.as_str());
    let symbol = rest.starts_with(|c: char| c.is_uppercase() || c.is_ascii_digit() || c == '_');
    let mut sentence: String = match first {
        Some(first) if !symbol => first.to_uppercase().collect(),
        first => first.into_iter().collect(),
    };
    sentence.push_str(rest);
    if !sentence.ends_with(['.', '!', '?', ':']) && !sentence.is_empty() {
        sentence.push('.');
    }
    sentence
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled() {
        assert_eq!(fill("{column}, row {row}", &[("column", "Bore"), ("row", "2")]), "Bore, row 2");
    }

    #[test]
    fn one_is_singular() {
        let forms = ["1 length", "{count} lengths"];
        assert_eq!([0, 1, 2].map(|count| counted(forms, count)), ["0 lengths", "1 length", "2 lengths"]);
        assert_eq!(capital("über 3"), "Über 3");
    }

    #[test]
    fn a_long_text_is_shortened_between_its_letters() {
        assert_eq!(shortened("Ward 6", 6), "Ward 6");
        assert_eq!(shortened("Ward 6", 5), "Ward…");
        assert_eq!(shortened(&"Ω🚰".repeat(5_000), 3), "Ω🚰Ω…");
    }

    #[test]
    fn a_sentence_alone_has_its_capital_and_its_end() {
        assert_eq!(alone("row 2 has nothing under Bore"), "Row 2 has nothing under Bore.");
        assert_eq!(alone("pH cannot be 15"), "pH cannot be 15.");
        assert_eq!(alone("“1,234” could mean two numbers."), "“1,234” could mean two numbers.");
        assert_eq!(alone(""), "");
    }
}
