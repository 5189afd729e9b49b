//! Everything that the page knows: the open record, what was typed, the few settings. Nothing here touches a browser.
//!
//! The record holds what was typed, typed values behind shared references, and the form shows it: there is no other copy.
//! A step that can be undone shares all its parts with the next but the one that changed.

mod change;
mod content;
mod kept;
pub mod record;
#[cfg(test)]
mod tests;

pub use change::{Action, Change};
pub use content::Content;
pub use kept::kept;

use calc::documents::record::{Entries, Givens};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Declaration;
use calc::program::catalogue;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// How many steps can be undone.
const STEPS: usize = 200;

/// Everything that the page knows.
#[derive(Debug, Clone)]
pub struct State {
    /// The units of answers, and those first offered in empty fields.
    pub units: UnitSet,
    /// What stands on the page now.
    pub now: Rc<Content>,
    past: Rc<Vec<Rc<Content>>>,
    future: Rc<Vec<Rc<Content>>>,
    /// The field or cell that is being typed in: all that is typed there is one step.
    typing: Option<String>,
}

/// The fields and cells that were left, by the ids of the sheets: their errors are shown.
pub(crate) type Left = BTreeMap<&'static str, Rc<BTreeSet<String>>>;

/// What was typed into one sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Filling {
    /// By the ids of the fields.
    pub entries: Rc<Entries>,
    /// What of it nobody typed, and from where it was filled.
    pub given: Rc<Givens>,
    /// The ids of fields and cells that were left, so that their errors are shown.
    pub left: Rc<BTreeSet<String>>,
}

impl Default for State {
    fn default() -> Self {
        Self {
            units: UnitSet::Metric,
            now: Rc::new(Content::default()),
            past: Rc::default(),
            future: Rc::default(),
            typing: None,
        }
    }
}

impl PartialEq for State {
    /// The same while nothing happened: what happens makes new content.
    fn eq(&self, other: &Self) -> bool {
        self.units == other.units
            && Rc::ptr_eq(&self.now, &other.now)
            && Rc::ptr_eq(&self.past, &other.past)
            && Rc::ptr_eq(&self.future, &other.future)
            && self.typing == other.typing
    }
}

impl State {
    /// What stands in a sheet.
    pub fn filling(&self, sheet: &'static Declaration) -> Filling {
        self.now.filling(sheet)
    }

    /// Whether there is a step to undo.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a step to do again.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }
}

/// A sheet by its id.
pub fn find(id: &str) -> Option<&'static calc::engine::sheet::Entry> {
    catalogue::find(id)
}
