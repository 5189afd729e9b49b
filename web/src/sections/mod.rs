//! The sections of the page that show the open record.

mod basis;
mod event_rows;
pub mod kept_sheets;
mod paper;
mod place;
mod records;
mod room_check;
mod stages;

pub use basis::{Basis, evidence};
pub use place::Place;
pub use records::Records;
pub use room_check::RoomCheck;

use crate::page::still::Still;
use crate::state::{Action, Content};
use crate::text::{WORDS, shortened};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Entry;
use std::rc::Rc;
use yew::prelude::*;

/// How many characters of a name stand over a view; a record may hold any text.
pub const LONGEST_TITLE: usize = 120;

/// What a section shows.
#[derive(Properties, Clone)]
pub struct SectionProps {
    /// The plan.
    pub entry: Still<Entry>,
    /// What stands on the page.
    pub now: Rc<Content>,
    /// The units of the page.
    pub set: UnitSet,
    /// Hears of every change.
    pub send: Callback<Action>,
}

impl PartialEq for SectionProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.now, &other.now) && self.set == other.set && self.entry == other.entry
    }
}

/// The name of the shown place, also where it has none.
fn title(now: &Content) -> String {
    match now.name() {
        "" => WORDS.section.unnamed_place.to_owned(),
        name => shortened(name, LONGEST_TITLE),
    }
}
