//! The page's own words, each sentence one field, so that another language is one more constant.
//!
//! What a sheet says stands in its declaration. `{…}` are places that the page fills.

mod chart;
mod rows;
mod sections;
pub mod store;
mod tools;

/// The words of the page in one language.
pub struct Words {
    /// Of the sections.
    pub section: sections::Sections,
    /// What a chart says.
    pub chart: chart::Chart,
    /// What is said of rows from a text.
    pub rows: rows::Rows,
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
    /// Two units for one number.
    pub two_units: &'static str,
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
    /// Wrong side, by so much.
    pub short_by: &'static str,
    /// The limit itself, on the wrong side.
    pub at_limit: &'static str,
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

/// English.
pub const ENGLISH: Words = Words {
    section: sections::ENGLISH,
    chart: chart::ENGLISH,
    rows: rows::ENGLISH,
    tools: tools::ENGLISH,
    purpose: [
        "Tapside computes whether the tap of a room can feed a portable reverse-osmosis unit, through flush, winter and summer, and whether the carbon in front of it is big enough.",
        "Every number can be opened down to its arithmetic and its source; what is not known is never guessed.",
    ],
    rooms: "Invented rooms",
    rooms_are_invented: "Places and numbers are made up, to show what the plan finds.",
    invented: "invented",
    open_record: "Open a record file",
    open_record_hint: "The file is read on this device and goes nowhere. It fills the plan.",
    refused: "Not opened:",
    nothing_changed: "Nothing on the page was changed.",
    room_names: [
        "Ostrin Vale Infirmary: a cold reservoir",
        "Quillon Flats Hospital: hot, hard desert water",
        "Tolby Marsh clinic: a well with little pressure",
    ],
    newer_record: "a newer version of this program wrote the record (format {version}, this one knows {known}): open it with that version",
    unreadable_file: "the browser could not read this file: choose it again, or copy it to this device first",
    begin_plan: "Plan a place",
    start: "Start",
    sheets: "Sheets",
    skip: "Skip to the content",
    units: "Units",
    si: "SI",
    us: "US",
    no_such_view: "This address leads to no view of the page",
    to_start: "To the start",
    entries: "What to enter",
    left_empty: "Left empty:",
    may_be_empty: "May be left empty.",
    not_entered: "Not entered",
    date_hint: "Year-month-day, such as 2026-11-12.",
    no_patient: "Enter no patient's name.",
    unit_of: "Unit of: {name}",
    cell_of: "{column}, row {row}",
    row: "Row {row}",
    table_of: "Table: {name}",
    add_row: "Add a row",
    remove_row: "Remove",
    remove_row_number: "Remove row {row}",
    error: "To mend:",
    warning: "Look again:",
    errors: ["One entry needs mending", "{count} entries need mending"],
    two_units: "the text names {own} and beside it stands {chosen}, so neither is taken: write the number alone, or choose {own}",
    clear: "Empty this sheet",
    from_record: "From the record",
    answers: "Answers",
    left_out: "Not counted with, since they need mending",
    intervals: "± tells the 95 % interval that follows from the usual tolerances of the instruments.",
    checks: "Checks, worst first",
    values: "Values",
    cautions: "Take care",
    assumed: "Assumed for empty fields",
    look_again: "Look again at these entries",
    sources: "Sources",
    published: [
        "This sheet is tested with no published value: {why}. Its check values are worked by hand, follow from definitions or come from reference libraries.",
        "Published values with which this sheet is tested: {count} alone, since {why}.",
        "Published values with which this sheet is tested: {count}.",
    ],
    working: "The arithmetic",
    no_working: "There is no arithmetic to show until the fields that the sheet needs are filled.",
    with: "with",
    not_known: "not known",
    needs: "needs",
    see: "see",
    none_exists: "none exists:",
    asked: "asked: {limit}",
    to_spare: "{distance} to spare",
    short_by: "wrong side by {distance}",
    at_limit: "the limit itself is the wrong side",
    interval: "known to ± {interval} (95 %)",
    instead: "Relied on instead: {criterion}",
    source: "Source:",
    counted: "{count} {state}",
    to_answers: "Answers",
    no_rows: "no rows",
};

/// The words of this build.
pub const WORDS: &Words = &ENGLISH;

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
