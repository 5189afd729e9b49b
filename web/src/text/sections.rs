//! The words of the sections that show the open record, of what is kept of it, and of what is printed.

/// The words in one language.
pub struct Sections {
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
    /// Stages whose worst check is marginal.
    pub is_marginal: &'static str,
    /// The stages of which nothing has been looked at: `{stages}`.
    pub not_looked_at: &'static str,
    /// The stages of which something has not been looked at: `{stages}`.
    pub looked_at_in_part: &'static str,
    /// The state of a stage of which something has not been looked at: `{state}`.
    pub state_in_part: &'static str,
    /// Of how many checks nobody has looked at.
    pub waiting: &'static str,
    /// What a stage would still be judged by.
    pub waits_for: &'static str,
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
}

/// English.
pub const ENGLISH: Sections = Sections {
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
    is_marginal: "Marginal: {stages}.",
    not_looked_at: "Not looked at yet: {stages}.",
    looked_at_in_part: "Looked at in part only: {stages}.",
    state_in_part: "{state}, as far as looked at",
    waiting: "not looked at",
    waits_for: "Not looked at yet, for want of:",
    nothing_short: "Every number that was looked at is on its right side. A water test decides, not this forecast.",
    way: "The water's way",
    by_test: "a test tells",
    all_checks: "Checks of this stage: {count}",
    owed_to: "It would be met without {allowance}.",
    owed_to_all: "It would be met only without all allowances together.",
    owed_to_none: "No allowance causes this: the number itself is on the wrong side.",
    looking_for_mends: "Looking for what would mend it …",
    would_mend: "What would mend it, each alone",
    mend_to: "to {value} (now {now}).",
    worsens: "Worse with it: {checks}.",
    set_aside: "Does not apply: {check}. Relied on instead: {instead}.",
    back_to_place: "Back to the place",
    take_over: "Take it over into the place",
    take_as: "{number} as {field}",
    worked_out: "Work it out: {sheet}",
    behind_membrane: "What the membrane is expected to leave",
    about_behind_membrane: "From the report of the feed and the trade's table of rejections, at the highest recovery of the year. Expected is not tested: only a laboratory's test of the product water tells.",
    of_allowance: "{on}, times {factor}.",
    switched_off: "Switched off now: it counts as 1.",
    of_contaminant: "In the feed {feed}, limit {limit}: rejection needed {needed}; expected in the product {expected}.",
    no_more_asked: "Within the limit in the feed already, or without a limit in this set: {analytes}.",
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
};
