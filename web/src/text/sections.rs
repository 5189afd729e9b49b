//! The words of the sections that show the open record, of what is kept of it, and of what is printed.

words! {
    /// The words in one language.
    pub struct Sections {
        /// The water path on Place.
        pub where_to_read: &'static str,
        /// A month in which the RO makes too little.
        pub short_month: &'static str,
        /// The sections of the page.
        pub sections: &'static str,
        /// The section of what is entered.
        pub place: &'static str,
        /// The section of whether it fits.
        pub room_check: &'static str,
        /// The section of what is kept.
        pub records: &'static str,
        /// What the sheets are.
        pub about_sheets: &'static str,
        /// Unfolds the steps and the units on a phone.
        pub more: &'static str,
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
        pub to_room_check: &'static str,
        /// Value and limit on one line.
        pub line_numbers: &'static str,
        /// What is missing, on one line.
        pub line_needs: &'static str,
        /// Before the name of the open record.
        pub open_now: &'static str,
        /// How many things were found wrong in the open record: one, several.
        pub faults: [&'static str; 2],
        /// Where they stand.
        pub see_faults: &'static str,
        /// Of a long list, how many are not shown.
        pub more_faults: &'static str,
        /// The way to all numbers of the plan.
        pub every_number: &'static str,
        /// Over the lines of the stages.
        pub by_stage: &'static str,
        /// Stages of which something is not known.
        pub cannot_be_told: &'static str,
        /// Stages whose worst check is marginal.
        pub is_marginal: &'static str,
        /// Stages of which nothing is checked yet: `{stages}`.
        pub not_checked: &'static str,
        /// Stages of which some checks wait for an entry: `{stages}`.
        pub checked_in_part: &'static str,
        /// A state that rests on some of the checks: `{state}`.
        pub state_in_part: &'static str,
        /// Behind the number of checks that wait for an entry.
        pub waiting: &'static str,
        /// Over what waits for an entry.
        pub not_checked_yet: &'static str,
        /// A place of which nobody has entered anything.
        pub nothing_entered: &'static str,
        /// Before the fields for which it waits.
        pub enter: &'static str,
        /// Stages beside the worst one that are not met: `{stages}`.
        pub also_not_met: &'static str,
        /// Where the building doses what carbon and a chlorine test do not answer, or nobody knows what.
        pub hold: &'static str,
        /// That no estimate decides.
        pub estimate: &'static str,
        /// What only a test tells.
        pub by_test: &'static str,
        /// The checks of one stage.
        pub all_checks: [&'static str; 2],
        /// The allowance without which a check would be met.
        pub owed_to: &'static str,
        /// No single allowance, but all of them.
        pub owed_to_all: &'static str,
        /// No allowance.
        pub owed_to_none: &'static str,
        /// While the mends are computed.
        pub looking_for_mends: &'static str,
        /// Over the levers of which none is enough.
        pub no_mend: &'static str,
        /// Over the mends.
        pub would_mend: [&'static str; 2],
        /// A mend: from, to.
        pub mend_to: &'static str,
        /// What a mend makes worse.
        pub worsens: &'static str,
        /// A check that does not apply, on paper: `{check}`, `{instead}`.
        pub set_aside: &'static str,
        /// The way back.
        pub back_to_place: &'static str,
        /// Numbers that the plan asks for.
        pub take_over: &'static str,
        /// One of them: `{number}`, `{field}`.
        pub take_as: &'static str,
        /// The way to the sheet that works a field out: `{sheet}`.
        pub worked_out: &'static str,
        /// What is expected of each contaminant.
        pub behind_membrane: &'static str,
        /// What such an expectation is worth.
        pub about_behind_membrane: &'static str,
        /// The numbers of one allowance: `{on}`, `{factor}`.
        pub of_allowance: &'static str,
        /// It does not count.
        pub switched_off: &'static str,
        /// The numbers of one of them: `{feed}`, `{limit}`, `{needed}`, `{expected}`.
        pub of_contaminant: &'static str,
        /// Those of which nothing is asked: `{analytes}`.
        pub no_more_asked: &'static str,
        /// The stack of allowances.
        pub allowances: &'static str,
        /// What the allowances are.
        pub about_allowances: &'static str,
        /// What if the water changes.
        pub changes: &'static str,
        /// What stands in the list of changes.
        pub about_changes: &'static str,
        /// How many changes make a check worse: `{count}`, `{all}`.
        pub count_changes: &'static str,
        /// Every allowance counts.
        pub all_kept: &'static str,
        /// Some are switched off.
        pub count_off: [&'static str; 2],
        /// So many entries are to be looked at again.
        pub count_look_again: [&'static str; 2],
        /// So many empty fields have an assumption.
        pub count_assumed: [&'static str; 2],
        /// Contaminants that the membrane leaves above their limits: `{analytes}`.
        pub expected_above: &'static str,
        /// There is none.
        pub none_above: &'static str,
        /// Over the chart of the months.
        pub year: &'static str,
        /// Over the chart of the published forms.
        pub forms: &'static str,
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
        /// Who else can read what is kept.
        pub who_can_read: &'static str,
        /// No record is kept.
        pub none_kept: &'static str,
        /// A record without a name.
        pub unnamed_record: &'static str,
        /// Steps and units, over every view.
        pub at_hand: &'static str,
        /// The button that takes out what cannot be opened.
        pub export_entry: &'static str,
        /// Takes out what cannot be opened: `{key}`.
        pub delete_entry: &'static str,
        /// What could not be done with a record.
        pub not_done: &'static str,
        /// The checks of the printed sheet that are not known.
        pub all_not_known: &'static str,
    }
}

/// English.
pub const ENGLISH: Sections = Sections {
    where_to_read: "Where to measure",
    short_month: "short",
    sections: "Sections",
    place: "Place",
    room_check: "Room check",
    records: "Records",
    about_sheets: "One calculation per page, in the order of the water path. What you type here is saved with the open record.",
    more: "More",
    undo: "Undo",
    redo: "Redo",
    unnamed_place: "Unnamed place",
    which_place: "Place shown",
    add_place: "Add another place for this RO",
    about_place: "In the order of a walk to the tap. Every field is optional. If a field is empty, what depends on it is not checked, or uses the value named under the field.",
    in_detail: "More detail",
    about_detail: "From labels and paperwork, when there is time. Each entry replaces an assumption or adds a check.",
    filled: "{filled} of {all} filled in",
    so_far: "Result so far, worst first",
    to_room_check: "Go to Room check",
    line_numbers: "{value}, needs {limit}",
    line_needs: "Enter: {why}",
    open_now: "Open record:",
    faults: [
        "1 thing in this record needs a look. Nothing was taken out of it.",
        "{count} things in this record need a look. Nothing was taken out of it.",
    ],
    see_faults: "See what under Records",
    more_faults: "And {count} more.",
    every_number: "All numbers of this room check, with arithmetic and sources",
    by_stage: "Along the water path, worst first",
    cannot_be_told: "Not known: {stages}.",
    is_marginal: "Marginal: {stages}.",
    not_checked: "Not checked yet: {stages}.",
    checked_in_part: "Checked in part: {stages}.",
    state_in_part: "{state} so far",
    waiting: "not checked",
    not_checked_yet: "Not checked yet",
    nothing_entered: "Nothing is entered yet.",
    enter: "Enter:",
    also_not_met: "Also not met: {stages}.",
    hold: "Hold: building water treatment. Ask facilities (estates) and the medical director before this tap is used.",
    estimate: "This is an estimate. A water test decides.",
    by_test: "by test only",
    all_checks: ["1 check", "All {count} checks"],
    owed_to: "Without {allowance} it would be met.",
    owed_to_all: "Without all the allowances together it would be met.",
    owed_to_none: "It is not met even without the allowances.",
    looking_for_mends: "Looking for a fix …",
    no_mend: "No single entry fixes it:",
    would_mend: ["Fix:", "Any one of these fixes it:"],
    mend_to: "{value} (now {now}).",
    worsens: "That makes worse: {checks}.",
    set_aside: "Does not apply: {check}. Relied on instead: {instead}.",
    back_to_place: "Back to Place",
    take_over: "Use this result in Place",
    take_as: "Use {number} as {field}",
    worked_out: "Work it out with: {sheet}",
    behind_membrane: "Expected in the product water",
    about_behind_membrane: "From the feed water report and typical rejections, at the highest recovery of the year. This is an estimate. A laboratory test of the product water decides.",
    of_allowance: "{on}: × {factor}.",
    switched_off: "Switched off: counts as 1.",
    of_contaminant: "Expected in the product water {expected}, limit {limit}. In the feed {feed}. Rejection needed {needed}.",
    no_more_asked: "Already within the limit in the feed, or without a limit in this set: {analytes}.",
    allowances: "Allowances",
    about_allowances: "Margins kept on purpose. Switch one off to see the number without it.",
    changes: "What if the water changes",
    about_changes: "Each change on its own, added to what you entered. The worst check comes first.",
    count_changes: "{count} of {all} changes make a check worse.",
    all_kept: "All counted.",
    count_off: ["1 is switched off.", "{count} are switched off."],
    count_look_again: ["1 remark.", "{count} remarks."],
    count_assumed: ["1 assumption.", "{count} assumptions."],
    expected_above: "expected above the limit, or not removed: {analytes}.",
    none_above: "no contaminant of the report is expected above its limit.",
    year: "Month by month",
    forms: "Temperature corrections",
    no_state_changes: "No check changes.",
    becomes: "{check}: {before}, then {after} ({numbers})",
    print_sheet: "Print the place sheet",
    print_card: "Print a blank tap card",
    place_sheet: "Place sheet",
    card: "Tap card",
    about_card: "Fill it in at the tap, in this order. Write the unit after each number. Type it in later. Do not write a patient's name.",
    printed_on: "Printed {date}",
    ro: "RO: {name}",
    entered: "Entered",
    check_head: "Check",
    state_head: "State",
    value_head: "Value",
    limit_head: "Needs",
    source_head: "Rule",
    measured_by: "Measured by, date",
    decided_by: "Accepted / rejected by, date",
    months_by_state: "Product flow by month: {months}.",
    months_chart: "Product flow through the year and what is required",
    month: "Month",
    product_flow: "Product flow",
    after_allowances: "after allowances",
    clean: "without allowances",
    asked_flow: "at least {flow}",
    coldest: "coldest here",
    warmest: "warmest here",
    each_row: "Add all {count} rows",
    opening_store: "Opening the records on this device …",
    nothing_to_keep: "What you type into Place is saved on this device automatically.",
    invented_not_kept: "An invented room is saved on this device only after you change it.",
    not_yet_saved: "Saving …",
    saved_at: "Saved on this device at {time}.",
    export_now: "Export now",
    keep_both: "Keep mine as a separate record",
    take_other: "Show what the other window saved",
    new_record: "Start a new record",
    export: "Export to a file",
    kept_records: "Saved on this device",
    kept_on: "saved {when}",
    open_record_of: "Open {name}",
    to_bin: "Delete {name} (kept in the bin)",
    bin: "Bin",
    from_bin: "Restore {name}",
    empty_bin: "Empty the bin (cannot be undone)",
    foreign_in_store: "Damaged, or not from this program. It was not opened and not changed. Export it, then delete it if nobody needs it.",
    states: "Earlier versions of the open record",
    about_states: "The last 20 versions: one each time the record is opened, and one a minute while you type. Going back keeps the present version too.",
    go_back_to: "Go back to {when}",
    no_states: "No earlier version yet.",
    who_can_read: "Every other local file that is opened in this browser can read these records. Never enter a patient’s name. On a shared computer, export your record and delete it here.",
    none_kept: "No record is saved yet.",
    unnamed_record: "unnamed record",
    at_hand: "Undo, redo, units",
    export_entry: "Export {key} as it is",
    delete_entry: "Delete {key} for good",
    not_done: "Not done:",
    all_not_known: "Not known. Enter: {stages}.",
};
