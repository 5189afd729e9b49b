//! The ids of elements, on which the browser tests and the links rest; they stay.
//!
//! | Element | id |
//! | --- | --- |
//! | link to a sheet, in the navigation | `sheet-<sheet id>` |
//! | links to the sections | `start`, `section-place`, `section-room-check`, `section-records`, `section-sheets` |
//! | steps back and forth | `undo`, `redo`; on a phone they and the units are unfolded by `more` |
//! | the place that is shown, and one more | `place`, `add-place` |
//! | groups of fields of a place | `group-<group id>` |
//! | the line of a stage | `line-<stage id>`, with the state of its worst check in `data-state`; in Room check its fold: `fold-<stage id>` |
//! | every check as a bar | `bars`, `bars-summary`, `bars-table` (a `details`) |
//! | a declared figure | `figure-<figure id>`; in Room check its fold: `fold-<figure id>`; `<figure id>-time`, `<figure id>-case`, `<figure id>-part` (lists), `<figure id>-month` (a slider), `<figure id>-summary`; on Place `where-to-read` (a `details`) |
//! | folded sections of Room check | `year`, `forms`, `behind-the-membrane`, `allowances`, `changes`, `assumed` |
//! | invented rooms on the start view | `room-a`, `room-b`, `room-c` |
//! | file input for a record | `open-record`; why it was refused: `open-record-error` |
//! | a file of the open record | `same-record`, with `merge-record`, `open-separately`, `merge-cancel`, `merge-conflicts`, `merge-faults`; afterwards `merged` |
//! | events as rows | `event-rows` (the heading), `save-<kind id>`, `event-rows-file`, `event-rows-kind`, `event-rows-found`, `event-rows-left-out`, `event-rows-remarks`, `add-events` |
//! | finding a calculation | `find` (the field), `found` (a list) |
//! | the questions on the start view | `questions` (the heading) |
//! | what is wrong in the open record | `record-faults`, each in `record-faults-list`; events dated later than now: `dated-later` |
//! | answers in SI or US units | `units-si`, `units-us` (radio buttons) |
//! | name of the view | `view` |
//! | number, date, text, long choice | `<field id>` |
//! | unit beside a number | `<field id>-unit` |
//! | short choice | `<field id>` (the group), `<field id>-<choice id>`, `<field id>-not-entered` (radio buttons) |
//! | table | `<field id>` (the group), `<field id>-<row>-<column id>` (cells, rows from 0), `<field id>-<column id>-unit` |
//! | rows of a table | `<field id>-add`, `<field id>-each` (one for each value of the first column), `<field id>-remove-<row>` |
//! | rows of a table from a text | `<field id>-rows` (a `details`), `<field id>-text`, `<field id>-file`, `<field id>-found`, `<field id>-take`; as a file: `<field id>-save` |
//! | what belongs to a field | `<field id>-hint`, `<field id>-error`, `<field id>-origin` (from where it was filled), `<field id>-warning` |
//! | a sheet and the record | `fill-from-record`, `keep-sheet`, `last-kept`; in Records `kept-sheets`, each line `kept-<id>` |
//! | numbers for other sheets | `hand-over` (a `details`), each button `hand-<sheet id>-<field id>`; beside the empty field `by-<field id>` |
//! | all errors | `error-summary` |
//! | empty the sheet | `clear` |
//! | answers | `answers`; each value: `out-<output id>`; each caution: `caution-<caution id>` |
//! | entries that the answers leave out | `left-out` |
//! | checks | `check-<check id>`, with the state's id in `data-state` |
//! | the arithmetic | `working` (a `details`), its steps `step-<n>` from 0 |
//! | a number drawn over an entry | `sweep` (a `details`), `sweep-number`, `sweep-along` (lists); the chart `sweep-chart` |
//! | solving backwards | `backwards` (a `details`), `backwards-number`, `backwards-freed` (lists), `backwards-wish`, `backwards-wish-unit`, `backwards-found` |
//! | shares of the uncertainty | `shares` (a `details`), `shares-number` (a list), `shares-found` |
//! | the arithmetic and these three, of one stage in Fit | the same with `<stage id>-` before it; the fold around the three: `<stage id>-tools` |
//! | parts of a chart | `<chart id>-title`, `-summary`, `-reading` (what the cursor says), `-table` (a `details`) |
//! | the answer in a sentence | `verdict` |
//! | switches of allowances | `switch-<field id>` |
//! | changes of the water | `change-<change id>` |
//! | for paper | `print-sheet`, `place-sheet`, `print-card`, `card` |

use calc::engine::sheet::Stage;

/// The name of the view, which takes the focus when the view changes.
pub const VIEW: &str = "view";
/// The answers of a sheet.
pub const ANSWERS: &str = "answers";
/// The summary of errors.
pub const ERRORS: &str = "error-summary";
/// What says that events are dated later than now.
pub const DATED_LATER: &str = "dated-later";
/// What was found wrong in the open record.
pub const FAULTS: &str = "record-faults";
/// Each of it.
pub const FAULTS_LIST: &str = "record-faults-list";
/// Unfolds the steps and the units on a phone.
pub const MORE: &str = "more";
/// The steps and the units.
pub const AT_HAND: &str = "at-hand";
/// Where a calculation is looked for.
pub const FIND: &str = "find";
/// What was found.
pub const FOUND: &str = "found";
/// The file input for a record.
pub const OPEN_RECORD: &str = "open-record";

/// The arithmetic.
pub const WORKING: &str = "working";
/// The fold around all that can be done with the numbers of a stage.
pub const TOOLS: &str = "tools";
/// A number drawn over an entry.
pub const SWEEP: &str = "sweep";
/// Which number.
pub const SWEEP_NUMBER: &str = "sweep-number";
/// Over which entry.
pub const SWEEP_ALONG: &str = "sweep-along";
/// The drawing.
pub const SWEEP_CHART: &str = "sweep-chart";
/// Solving backwards.
pub const BACKWARDS: &str = "backwards";
/// For which number.
pub const BACKWARDS_NUMBER: &str = "backwards-number";
/// Its wished value.
pub const BACKWARDS_WISH: &str = "backwards-wish";
/// The entry that is free.
pub const BACKWARDS_FREED: &str = "backwards-freed";
/// What was found.
pub const BACKWARDS_FOUND: &str = "backwards-found";
/// The shares of the uncertainty.
pub const SHARES: &str = "shares";
/// Of which number.
pub const SHARES_NUMBER: &str = "shares-number";
/// What was found.
pub const SHARES_FOUND: &str = "shares-found";

/// What stands on a sheet once, or in Fit once for each stage.
pub fn within(stage: Option<Stage>, id: &str) -> String {
    stage.map_or_else(|| id.to_owned(), |stage| format!("{}-{id}", stage.id()))
}

/// The line of a stage.
pub fn stage_line(stage: &str) -> String {
    format!("line-{stage}")
}

/// The fold in the line of a stage.
pub fn stage_fold(stage: &str) -> String {
    format!("fold-{stage}")
}

/// A cell of a table.
pub fn cell(field: &str, row: usize, column: &str) -> String {
    format!("{field}-{row}-{column}")
}

/// The unit beside a number, or over a column.
pub fn unit(of: &str) -> String {
    format!("{of}-unit")
}

/// The help of a field.
pub fn hint(field: &str) -> String {
    format!("{field}-hint")
}

/// The error of a field.
pub fn error(field: &str) -> String {
    format!("{field}-error")
}

/// From where a field was filled.
pub fn origin(field: &str) -> String {
    format!("{field}-origin")
}

/// The warning of a field.
pub fn warning(field: &str) -> String {
    format!("{field}-warning")
}

#[cfg(test)]
mod tests {
    use calc::program::catalogue::SHEETS;

    #[test]
    fn no_field_is_named_like_a_part_of_another() {
        let parts = ["-unit", "-hint", "-error", "-warning", "-origin", "-add", "-each"];
        let own = [
            super::VIEW,
            super::ANSWERS,
            super::ERRORS,
            super::OPEN_RECORD,
            super::SWEEP,
            super::BACKWARDS,
            super::SHARES,
            "start",
            "app",
            "kept",
            "stopped",
        ];
        for entry in SHEETS {
            for field in entry.declaration.inputs {
                assert!(!parts.iter().any(|part| field.id.ends_with(part)), "{}", field.id);
                assert!(!own.contains(&field.id), "{}", field.id);
            }
        }
    }
}
