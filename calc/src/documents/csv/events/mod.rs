//! The events of a kind as rows of a text, out and in.
//!
//! The columns follow from the kind's declaration: its fields with their units, and what every event has besides: id, moment
//! with its offset, place, who, note, moment of typing. An event with a table (a log, a report) has a line for each row of
//! it; a correction has a line for each field that it corrects. The kind stands at the end of each line, so that a line that
//! is cut off is seen to be.
//!
//! Nothing that is in the record is ever changed by rows that come in. A row whose id is in the record with other values is
//! left out and named, like every row of which a cell cannot be read; what a spreadsheet made of a date or a number is
//! refused there and not guessed.

mod columns;
mod read;
mod write;

pub use read::{Import, LONGEST, read};
pub use write::write;

#[cfg(test)]
mod tests;
