//! The words about a sheet and the record: what it is filled with, where that comes from, what is kept of it.

words! {
    /// The words in one language.
    pub struct Kept {
        /// Fills the empty fields: one, `{count}`.
        pub fill_from_record: [&'static str; 2],
        /// What filling does, and of which place: `{place}`.
        pub about_filling: &'static str,
        /// The same where there is one place, or it has no name.
        pub about_filling_here: &'static str,
        /// A field filled from what is typed with the RO.
        pub from_ro: &'static str,
        /// From what is typed with a place: `{place}`.
        pub from_place: &'static str,
        /// From an event: `{kind}`, `{when}`.
        pub from_event: &'static str,
        /// From an event at a place: `{kind}`, `{when}`, `{place}`.
        pub from_event_at: &'static str,
        /// From an event that does not count any more.
        pub from_withdrawn: &'static str,
        /// A series: `{kind}`, `{count}`, `{first}`, `{last}`.
        pub from_events: [&'static str; 2],
        /// What follows from the number that was chosen.
        pub from_series: &'static str,
        /// From another sheet: `{sheet}`.
        pub from_sheet: &'static str,
        /// Keeps what stands in a sheet.
        pub keep: &'static str,
        /// Where a sheet was kept last: `{when}`.
        pub last_kept: &'static str,
        /// The way to the kept ones.
        pub see_kept: &'static str,
        /// Over the kept sheets.
        pub kept_sheets: &'static str,
        /// What they are.
        pub about_kept_sheets: &'static str,
        /// When one was kept: `{when}`.
        pub kept_on: &'static str,
        /// What stood in it.
        pub entries: [&'static str; 2],
        /// Copies it into the sheet.
        pub use_as_start: &'static str,
        /// The same read aloud: `{sheet}`, `{when}`.
        pub use_as_start_of: &'static str,
        /// A sheet that this version does not know: `{sheet}`.
        pub unknown_sheet: &'static str,
        /// The rows of a table.
        pub rows: [&'static str; 2],
        /// Over the numbers that other sheets ask for.
        pub hand_over: &'static str,
        /// One of them: `{number}`, `{field}`, `{sheet}`.
        pub hand_to: &'static str,
    }
}

/// English.
pub const ENGLISH: Kept = Kept {
    fill_from_record: ["Fill from the record (1 entry)", "Fill from the record ({count} entries)"],
    about_filling: "Fills empty fields only, with what the record knows of {place}. What was read together is filled together or not at all.",
    about_filling_here: "Fills empty fields only. What was read together is filled together or not at all.",
    from_ro: "From the record: the RO's own entries",
    from_place: "From the record: {place}",
    from_event: "From the record: {kind}, {when}",
    from_event_at: "From the record: {kind}, {when}, {place}",
    from_withdrawn: "From the record: an event that was withdrawn since. Check this entry.",
    from_events: [
        "From the record: {kind}, 1 event, {first}",
        "From the record: {kind}, {count} events, {first} to {last}",
    ],
    from_series: "From the record: follows from the number chosen",
    from_sheet: "From the calculation: {sheet}",
    keep: "Keep in the record",
    last_kept: "Last kept {when}.",
    see_kept: "Kept calculations",
    kept_sheets: "Kept calculations of the open record",
    about_kept_sheets: "As they stood when they were kept. They never change. Answers are worked out again from the kept entries.",
    kept_on: "kept {when}",
    entries: ["1 entry", "{count} entries"],
    use_as_start: "Use as a start",
    use_as_start_of: "Use as a start: {sheet}, {when}",
    unknown_sheet: "Calculation of a newer version: {sheet}",
    rows: ["1 row", "{count} rows"],
    hand_over: "Use this result in another calculation",
    hand_to: "Use {number} as {field} in {sheet}",
};
