//! The one list of sheets, by stage in the order of the water's way.

use crate::carbon;
use crate::sheet::{Declaration, Entry, Stage};

/// Every sheet.
pub static SHEETS: &[Entry] = &[Entry::of::<carbon::ContactTime>()];

/// A sheet by its id.
pub fn find(id: &str) -> Option<&'static Entry> {
    SHEETS.iter().find(|entry| entry.declaration.id == id)
}

/// The sheets of one stage.
pub fn of_stage(stage: Stage) -> impl Iterator<Item = &'static Declaration> {
    SHEETS.iter().map(|entry| entry.declaration).filter(move |declaration| declaration.stage == stage)
}
