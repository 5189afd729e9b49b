//! Everything that the page knows: what was typed, and the few settings of the page. Nothing here touches a browser.

mod change;
mod entry;
mod kept;
mod read;
#[cfg(test)]
mod tests;

pub use change::{Action, Change};
pub use entry::{Entry, Rows, Typed, named_unit, offered};
pub use kept::kept;
pub use read::{Reading, read};

use calc::catalogue;
use calc::quantity::UnitSet;
use calc::sheet::Problem;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// Everything that the page knows.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// The units of answers, and those first offered in empty fields.
    pub units: UnitSet,
    /// What was typed into each sheet, by the sheet's id.
    pub sheets: Rc<Sheets>,
    /// The record that fills the plan.
    pub record: Option<Opened>,
    /// What stood there before a record was opened or a sheet emptied.
    pub before: Option<Before>,
}

/// What was typed, by the ids of the sheets.
pub type Sheets = BTreeMap<&'static str, Filling>;

/// What was typed into one sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Filling {
    /// By the ids of the fields.
    pub entries: Rc<BTreeMap<&'static str, Rc<Entry>>>,
    /// The ids of fields and cells that were left, so that their errors are shown.
    pub left: Rc<BTreeSet<String>>,
}

/// What an action replaced, and what it was called.
#[derive(Debug, Clone, PartialEq)]
pub struct Before {
    /// What was typed then.
    pub sheets: Rc<Sheets>,
    /// The record of that time.
    pub record: Option<Opened>,
}

/// A record that fills the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// Its name, or that of its file.
    pub name: String,
    /// Whether place and numbers are invented.
    pub invented: bool,
    /// What is wrong with fields that it leaves empty; each counts until something is typed there.
    pub problems: Vec<Problem>,
}

impl Default for State {
    fn default() -> Self {
        Self { units: UnitSet::Metric, sheets: Rc::default(), record: None, before: None }
    }
}

impl State {
    /// What was typed into a sheet.
    pub fn filling(&self, sheet: &str) -> Filling {
        self.sheets.get(sheet).cloned().unwrap_or_default()
    }
}

/// A sheet by its id.
pub fn find(id: &str) -> Option<&'static calc::sheet::Entry> {
    catalogue::find(id)
}
