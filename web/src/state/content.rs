//! What stands on the page at one moment: the open record, one of its places, and what was typed into each sheet.

use super::change::Change;
use super::{Entry, Filling, Sheets};
use crate::record;
use crate::store::Id;
use calc::documents::record::{Part, Record};
use calc::engine::sheet::{Declaration, Field, Problem, Stage};
use calc::trade::plan::walk::water_of;
use std::rc::Rc;

/// What stands on the page at one moment.
#[derive(Debug, Clone)]
pub struct Content {
    /// The document.
    pub record: Rc<Record>,
    /// Its name among the records that are kept on this device; none until the store is open.
    pub id: Option<Id>,
    /// Whether nobody has changed it yet: an invented room or a blank is kept only from its first change on.
    pub is_fresh: bool,
    /// How many characters its file has, as it was opened.
    pub size: usize,
    /// Which of its places is shown.
    pub place: usize,
    /// What was typed into each sheet; for the plan, the view of the record's place.
    pub sheets: Rc<Sheets>,
    /// What is wrong with fields that the record leaves empty; each counts until something is typed there.
    pub problems: Rc<Vec<Problem>>,
}

impl Default for Content {
    fn default() -> Self {
        Self {
            record: Rc::new(record::blank()),
            id: None,
            is_fresh: true,
            size: 0,
            place: 0,
            sheets: Rc::default(),
            problems: Rc::default(),
        }
    }
}

/// Whether a sheet is the plan, which shows the record.
pub fn is_plan(sheet: &Declaration) -> bool {
    sheet.stage == Stage::Plan
}

impl Content {
    /// What was typed into a sheet.
    pub fn filling(&self, sheet: &str) -> Filling {
        self.sheets.get(sheet).cloned().unwrap_or_default()
    }

    /// The name of the shown place, or of its RO; empty where neither has one.
    pub fn name(&self) -> &str {
        let word =
            |part, member| self.record.word(part, member).map(str::trim).filter(|name| !name.is_empty());
        word(Part::Place(self.place), "place-name").or_else(|| word(Part::Ro, "ro-name")).unwrap_or_default()
    }

    /// The same sheets with another record, or another place of it, in the plan.
    pub fn showing(&self, record: Rc<Record>, place: usize) -> Content {
        let mut sheets = Rc::clone(&self.sheets);
        let mut problems = Vec::new();
        if let Some(plan) = record::plan() {
            let shown = record::shown(&record, place, plan);
            Rc::make_mut(&mut sheets).insert(plan.id, shown.filling);
            problems = shown.problems;
        }
        Content { record, place, sheets, problems: Rc::new(problems), ..self.clone() }
    }

    /// A record as the store has it, with the same place of it where it is the one that is shown.
    pub(super) fn loaded(&self, record: Rc<Record>, id: Id) -> Content {
        let place = if self.id.as_ref() == Some(&id) { self.place } else { 0 };
        let place = place.min(record.places().saturating_sub(1));
        let size = record.text().len();
        Content { id: Some(id), is_fresh: false, size, ..self.showing(record, place) }
    }

    /// What was typed here into the plan, over another content.
    pub(super) fn typed_over(&self, other: &Content) -> Content {
        let Some(plan) = record::plan() else { return other.clone() };
        let (typed, mut filling) = (self.filling(plan.id), other.filling(plan.id));
        let mut content = other.clone();
        for field in plan.inputs.iter().filter(|field| !typed.is_empty_at(field.id)) {
            let Some(entry) = typed.entries.get(field.id) else { continue };
            Rc::make_mut(&mut filling.entries).insert(field.id, Rc::clone(entry));
            content = content.keeping(field, entry, &Change::AddRow);
        }
        content.with(plan, filling)
    }

    /// The same with another filling of one sheet.
    pub(super) fn with(&self, sheet: &'static Declaration, filling: Filling) -> Content {
        let mut sheets = Rc::clone(&self.sheets);
        Rc::make_mut(&mut sheets).insert(sheet.id, filling);
        Content { sheets, ..self.clone() }
    }

    /// With a reading that is typed, the tap's temperature of the moment as that of its water, where nothing stands
    /// there: when the RO is moved, the reading keeps it.
    pub(super) fn with_its_water(
        self,
        sheet: &'static Declaration,
        field: &'static Field,
        change: &Change,
    ) -> Content {
        let of_reading = matches!(change, Change::Text(_)).then(|| water_of(field.id)).flatten();
        let water = of_reading.and_then(|id| sheet.inputs.iter().find(|input| input.id == id));
        let mut filling = self.filling(sheet.id);
        let tap = filling.entries.get("tap-temperature").map(Rc::clone);
        let (Some(water), Some(tap)) = (water, tap) else { return self };
        if filling.is_empty_at(field.id)
            || filling.is_empty_at("tap-temperature")
            || !filling.is_empty_at(water.id)
        {
            return self;
        }
        Rc::make_mut(&mut filling.entries).insert(water.id, Rc::clone(&tap));
        self.with(sheet, filling).keeping(water, &tap, change)
    }

    /// Writes what now stands in a field of the plan into the record.
    pub(super) fn keeping(mut self, field: &'static Field, entry: &Entry, change: &Change) -> Content {
        let spot = self.record.home(field, self.place);
        record::write(Rc::make_mut(&mut self.record), spot, entry, change);
        self.is_fresh = false;
        self
    }
}
