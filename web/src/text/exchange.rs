//! What is said of events that go out and come in as rows, and of a file that is another state of the open record.

words! {
    /// The words of the exchange.
    pub struct Exchange {
        /// Events that are dated later than now: `{count}`.
        pub dated_later: [&'static str; 2],
        /// Over the rows of events.
        pub events_as_rows: &'static str,
        /// What they are.
        pub about_rows: &'static str,
        /// No event to save.
        pub no_events: &'static str,
        /// Saves the events of a kind: `{kind}`, `{count}`.
        pub save_kind: [&'static str; 2],
        /// The label of the file.
        pub rows_file: &'static str,
        /// What may be in it.
        pub rows_hint: &'static str,
        /// Which kind the rows are, where they do not say.
        pub kind_of_rows: &'static str,
        /// They say so themselves.
        pub as_named: &'static str,
        /// What would be taken: `{kind}`, `{count}`.
        pub would_add: [&'static str; 2],
        /// Nothing would be taken.
        pub would_add_none: &'static str,
        /// What is there already: `{count}`.
        pub same: [&'static str; 2],
        /// Over the rows that are left out: `{count}`.
        pub left_out: [&'static str; 2],
        /// Over what is worth a look: `{count}`.
        pub look_at: [&'static str; 2],
        /// What is not listed any more: `{count}`.
        pub and_more: &'static str,
        /// Takes them.
        pub add: [&'static str; 2],
        /// The file is another state of the open record.
        pub same_record: &'static str,
        /// What merging would bring: `{count}`.
        pub merge_adds: [&'static str; 2],
        /// No event is new.
        pub merge_adds_none: &'static str,
        /// Over what both sides changed.
        pub conflicts: &'static str,
        /// One of them: `{where}`, `{field}`, `{here}`, `{there}`.
        pub conflict: &'static str,
        /// Nothing stands there.
        pub empty: &'static str,
        /// The RO, as a part of the record.
        pub ro: &'static str,
        /// A sheet being worked on: `{sheet}`.
        pub sheet: &'static str,
        /// Over what is wrong then.
        pub then_wrong: &'static str,
        /// Merges.
        pub merge: &'static str,
        /// Opens the file beside it.
        pub open_separately: &'static str,
        /// Does neither.
        pub cancel: &'static str,
        /// It was merged.
        pub merged: &'static str,
    }
}

/// In English.
pub const ENGLISH: Exchange = Exchange {
    dated_later: [
        "1 event is dated later than the clock of this device and does not count yet. Check its date, and the clock.",
        "{count} events are dated later than the clock of this device and do not count yet. Check their dates, and the clock.",
    ],
    events_as_rows: "Events as rows (CSV)",
    about_rows: "One file per kind of event, for a spreadsheet. An event that was corrected stands there as it was first entered; the last columns name its correction.",
    no_events: "No events in this record yet.",
    save_kind: ["{kind}: save 1 event", "{kind}: save {count} events"],
    rows_file: "Add events from a CSV file",
    rows_hint: "You see what would be added before anything is. An event that is already in the record is never changed.",
    kind_of_rows: "Kind of event in the file",
    as_named: "As the file says",
    would_add: ["{kind}: 1 new event.", "{kind}: {count} new events."],
    would_add_none: "Nothing new to add.",
    same: ["1 row is already in the record.", "{count} rows are already in the record."],
    left_out: ["1 row is left out:", "{count} rows are left out:"],
    look_at: ["Check this row:", "Check these {count} rows:"],
    and_more: "And {count} more.",
    add: ["Add this event", "Add these {count} events"],
    same_record: "This file is another copy of the record that is open.",
    merge_adds: ["Merging adds 1 event.", "Merging adds {count} events."],
    merge_adds_none: "Merging adds no event.",
    conflicts: "These entries differ. The open record keeps its own:",
    conflict: "{where}, {field}: {here} here, {there} in the file",
    empty: "empty",
    ro: "RO",
    sheet: "Sheet {sheet}",
    then_wrong: "To check after merging:",
    merge: "Merge into the open record",
    open_separately: "Open the file separately",
    cancel: "Cancel",
    merged: "Merged. Undo takes it back.",
};
