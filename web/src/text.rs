//! The page's own words, each sentence one field, so that another language is one more constant.
//!
//! What a sheet says stands in its declaration. `{…}` are places that the page fills.

mod chart;
pub mod store;
mod tools;

/// The words of the page in one language.
pub struct Words {
    /// What a chart says.
    pub chart: chart::Chart,
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
    /// The sections of the page.
    pub sections: &'static str,
    /// The section of what is entered.
    pub place: &'static str,
    /// The section of whether it fits.
    pub fit: &'static str,
    /// The section of what is kept.
    pub records: &'static str,
    /// What the sheets are.
    pub about_sheets: &'static str,
    /// One step back.
    pub undo: &'static str,
    /// One step forth.
    pub redo: &'static str,
    /// A place without a name.
    pub unnamed_place: &'static str,
    /// Before the list of places.
    pub which_place: &'static str,
    /// One more place.
    pub add_place: &'static str,
    /// How the form of a place is used.
    pub about_place: &'static str,
    /// Over the folded groups.
    pub in_detail: &'static str,
    /// What the folded groups are.
    pub about_detail: &'static str,
    /// How much of a group is filled.
    pub filled: &'static str,
    /// Over the lines beside the form.
    pub so_far: &'static str,
    /// The way to the answer.
    pub to_fit: &'static str,
    /// Value and limit on one line.
    pub line_numbers: &'static str,
    /// What is missing, on one line.
    pub line_needs: &'static str,
    /// Before the name of the open record.
    pub open_now: &'static str,
    /// The way to all numbers of the plan.
    pub every_number: &'static str,
    /// Over the lines of the stages.
    pub by_stage: &'static str,
    /// Stages whose worst check is not met.
    pub falls_short: &'static str,
    /// Stages of which something is not known.
    pub cannot_be_told: &'static str,
    /// Stages whose worst check is close.
    pub is_close: &'static str,
    /// No stage falls short, and everything is known.
    pub nothing_short: &'static str,
    /// The water's way.
    pub way: &'static str,
    /// What only a test tells.
    pub by_test: &'static str,
    /// The checks of one stage.
    pub all_checks: &'static str,
    /// The allowance without which a check would be met.
    pub owed_to: &'static str,
    /// No single allowance, but all of them.
    pub owed_to_all: &'static str,
    /// No allowance.
    pub owed_to_none: &'static str,
    /// While the mends are computed.
    pub looking_for_mends: &'static str,
    /// Over the mends.
    pub would_mend: &'static str,
    /// A mend: from, to.
    pub mend_to: &'static str,
    /// What a mend makes worse.
    pub worsens: &'static str,
    /// The stack of allowances.
    pub allowances: &'static str,
    /// What the allowances are.
    pub about_allowances: &'static str,
    /// What if the water changes.
    pub changes: &'static str,
    /// What stands in the list of changes.
    pub about_changes: &'static str,
    /// Nothing gets worse.
    pub no_state_changes: &'static str,
    /// A check before and after.
    pub becomes: &'static str,
    /// The button that prints the place sheet.
    pub print_sheet: &'static str,
    /// The button that prints a card to be filled at the tap.
    pub print_card: &'static str,
    /// The head of the printed sheet.
    pub place_sheet: &'static str,
    /// The head of the printed card.
    pub card: &'static str,
    /// What the card is for.
    pub about_card: &'static str,
    /// The date of the print.
    pub printed_on: &'static str,
    /// Before the name of the RO.
    pub ro: &'static str,
    /// Over the numbers that were entered.
    pub entered: &'static str,
    /// The heads of the printed table of checks.
    pub check_head: &'static str,
    /// The heads of the printed table of checks.
    pub state_head: &'static str,
    /// The heads of the printed table of checks.
    pub value_head: &'static str,
    /// The heads of the printed table of checks.
    pub limit_head: &'static str,
    /// The heads of the printed table of checks.
    pub source_head: &'static str,
    /// A place to sign.
    pub measured_by: &'static str,
    /// A place to sign.
    pub decided_by: &'static str,
    /// The months in one line of the printed sheet.
    pub months_by_state: &'static str,
    /// The chart of the months.
    pub months_chart: &'static str,
    /// Along the chart of the months.
    pub month: &'static str,
    /// Upwards in the chart of the months.
    pub product_flow: &'static str,
    /// A line of the chart.
    pub after_allowances: &'static str,
    /// A line of the chart.
    pub clean: &'static str,
    /// The limit in the chart.
    pub asked_flow: &'static str,
    /// The chart of the forms.
    pub forms_chart: &'static str,
    /// Along the chart of the forms.
    pub water_temperature: &'static str,
    /// Upwards in the chart of the forms.
    pub ratio_to_reading: &'static str,
    /// A mark in the chart of the forms.
    pub coldest: &'static str,
    /// A mark in the chart of the forms.
    pub warmest: &'static str,
    /// A row for each value of the first column.
    pub each_row: &'static str,
    /// The store is being opened.
    pub opening_store: &'static str,
    /// There is nothing to save.
    pub nothing_to_keep: &'static str,
    /// An invented room is shown.
    pub invented_not_kept: &'static str,
    /// What was typed is not saved yet.
    pub not_yet_saved: &'static str,
    /// The record is saved.
    pub saved_at: &'static str,
    /// The button beside what is not kept.
    pub export_now: &'static str,
    /// The way out of a conflict that keeps both.
    pub keep_both: &'static str,
    /// The way out of a conflict that drops what is here.
    pub take_other: &'static str,
    /// A blank record.
    pub new_record: &'static str,
    /// The open record as a file.
    pub export: &'static str,
    /// Over the records of this device.
    pub kept_records: &'static str,
    /// When it was saved.
    pub kept_on: &'static str,
    /// The button that opens a record.
    pub open_record_of: &'static str,
    /// The button that puts a record away.
    pub to_bin: &'static str,
    /// Over the records in the bin.
    pub bin: &'static str,
    /// The button that takes a record out of the bin.
    pub from_bin: &'static str,
    /// The button that empties the bin.
    pub empty_bin: &'static str,
    /// What lies there and is not ours.
    pub foreign_in_store: &'static str,
    /// Over the earlier states.
    pub states: &'static str,
    /// What the earlier states are.
    pub about_states: &'static str,
    /// The button that restores a state.
    pub go_back_to: &'static str,
    /// No earlier state.
    pub no_states: &'static str,
    /// No record is kept.
    pub none_kept: &'static str,
    /// A record without a name.
    pub unnamed_record: &'static str,
    /// Steps and units, over every view.
    pub at_hand: &'static str,
    /// The button that takes out what cannot be opened.
    pub export_entry: &'static str,
    /// What could not be done with a record.
    pub not_done: &'static str,
    /// The checks of the printed sheet that are not known.
    pub all_not_known: &'static str,
    /// An empty table of answers.
    pub no_rows: &'static str,
}

/// English.
pub const ENGLISH: Words = Words {
    chart: chart::ENGLISH,
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
    sections: "Sections",
    place: "Place",
    fit: "Fit",
    records: "Records",
    about_sheets: "Each sheet is one calculation, in the order of the water's way. What is typed here is not part of a record.",
    undo: "Undo",
    redo: "Redo",
    unnamed_place: "A place without a name",
    which_place: "Place shown",
    add_place: "Add a place for this RO",
    about_place: "In the order of a walk to the tap. Every field may stay empty: what depends on it is then not known, or rests on what the field says is taken.",
    in_detail: "In detail",
    about_detail: "From papers and labels, in a quiet hour. Each makes an answer narrower or puts a number where an assumption stood.",
    filled: "{filled} of {all} filled",
    so_far: "So far, worst first",
    to_fit: "See whether it fits",
    line_numbers: "{value}, asked {limit}",
    line_needs: "needs {why}",
    open_now: "Open now:",
    every_number: "Every number of the plan, with its arithmetic and its sources",
    by_stage: "Stage by stage, worst first",
    falls_short: "Falls short: {stages}.",
    cannot_be_told: "Not known yet: {stages}.",
    is_close: "Close to its limit: {stages}.",
    nothing_short: "Every number is on its right side. A water test decides, not this forecast.",
    way: "The water's way",
    by_test: "a test tells",
    all_checks: "Checks of this stage: {count}",
    owed_to: "It would be met without {allowance}.",
    owed_to_all: "It would be met only without all allowances together.",
    owed_to_none: "No allowance causes this: the number itself is on the wrong side.",
    looking_for_mends: "Looking for what would mend it …",
    would_mend: "What would mend it, each alone",
    mend_to: "{value} (now {now}).",
    worsens: "Worse with it: {checks}.",
    allowances: "Allowances",
    about_allowances: "What is held back on purpose. Switched off, the bare number counts.",
    changes: "What if the water changes",
    about_changes: "Each change alone, on top of what is entered; the check that would be worst comes first.",
    no_state_changes: "No check changes its state.",
    becomes: "{check}: {before}, then {after} ({numbers})",
    print_sheet: "Print the place sheet",
    print_card: "Print a blank card for the tap",
    place_sheet: "Place sheet",
    card: "Card for the tap",
    about_card: "Fill it at the tap, in this order, and type it in afterwards. Write the unit behind each number. No patient's name belongs here.",
    printed_on: "Printed {date}",
    ro: "RO: {name}",
    entered: "Entered",
    check_head: "Check",
    state_head: "State",
    value_head: "Value",
    limit_head: "Asked",
    source_head: "Source",
    measured_by: "Measured by, date",
    decided_by: "Accepted or refused by, date",
    months_by_state: "Product flow month by month: {months}.",
    months_chart: "What the RO makes through the year, against what is asked",
    month: "Month",
    product_flow: "Product flow",
    after_allowances: "after allowances",
    clean: "clean, without allowances",
    asked_flow: "at least {flow} asked",
    forms_chart: "How far the published forms of the temperature correction agree",
    water_temperature: "Water temperature",
    ratio_to_reading: "Product flow over that of the reading",
    coldest: "coldest here",
    warmest: "warmest here",
    each_row: "All {count} rows at once",
    opening_store: "Opening what is kept on this device …",
    nothing_to_keep: "What is typed into Place is kept on this device by itself.",
    invented_not_kept: "An invented room is kept on this device only once it is changed.",
    not_yet_saved: "Saving …",
    saved_at: "Saved on this device at {time}.",
    export_now: "Export now",
    keep_both: "Keep mine as a record of its own",
    take_other: "Show what the other window saved",
    new_record: "Begin a new record",
    export: "Export as a file",
    kept_records: "Kept on this device",
    kept_on: "saved {when}",
    open_record_of: "Open {name}",
    to_bin: "Put {name} in the bin",
    bin: "In the bin",
    from_bin: "Take {name} out of the bin",
    empty_bin: "Empty the bin for good",
    foreign_in_store: "Not opened, since it is no record of this program or is damaged; it was left as it is: {keys}",
    states: "Earlier states of the open record",
    about_states: "The last twenty, taken when it was opened and once a minute while it changed. What stands there now is put among them first.",
    go_back_to: "Go back to the state of {when}",
    no_states: "There is no earlier state yet.",
    none_kept: "No record is kept yet.",
    unnamed_record: "a record without a name",
    at_hand: "Steps back and forth, units",
    export_entry: "Export what lies under {key}",
    not_done: "This could not be done:",
    all_not_known: "Not known, since something is not entered. {stages}.",
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
    fn a_sentence_alone_has_its_capital_and_its_end() {
        assert_eq!(alone("row 2 has nothing under Bore"), "Row 2 has nothing under Bore.");
        assert_eq!(alone("pH cannot be 15"), "pH cannot be 15.");
        assert_eq!(alone("“1,234” could mean two numbers."), "“1,234” could mean two numbers.");
        assert_eq!(alone(""), "");
    }
}
