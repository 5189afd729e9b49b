//! What stands on the page at one moment: the open record, and which of its places is shown.

use super::{Filling, Left};
use crate::state::record;
use crate::store::Id;
use calc::documents::record::{Event, FromRecord, Held, Offer, Part, Record};
use calc::engine::calendar::Moment;
use calc::engine::sheet::{Declaration, Field, Problem, Stage};
use calc::program::catalogue;
use calc::trade::plan::walk::water_of;
use std::rc::Rc;

/// What stands on the page at one moment. What is typed into any sheet stands in the record itself, and nowhere else.
#[derive(Debug, Clone)]
pub struct Content {
    /// The record: a copy shares all its parts.
    pub record: Rc<Record>,
    /// Its name among the records that are kept on this device; none until the store is open.
    pub id: Option<Id>,
    /// Whether nobody has changed it yet: an invented room or a blank is kept only from its first change on.
    pub is_fresh: bool,
    /// Which of its places is shown.
    pub place: usize,
    /// The present moment, as far as the page was told: what is dated later does not count yet.
    pub at: Option<Moment>,
    /// What is wrong with fields of the plan that the record leaves empty; each counts until something is typed there.
    pub problems: Rc<Vec<Problem>>,
    /// The fields of the plan as the record fills them for this place, worked out anew with every change.
    pub plan: Rc<FromRecord>,
    pub(super) left: Rc<Left>,
}

impl Default for Content {
    fn default() -> Self {
        Self::showing(record::blank().into(), 0, Rc::default(), None)
    }
}

/// Whether a sheet is the plan, which is filled from RO, place and the reading that was chosen for it.
pub fn is_plan(sheet: &Declaration) -> bool {
    sheet.stage == Stage::Plan
}

impl Content {
    /// A record nobody has changed yet, without a name in the store.
    pub(super) fn showing(record: Rc<Record>, place: usize, left: Rc<Left>, at: Option<Moment>) -> Content {
        // an invented room is the same on any day
        let as_of = at.filter(|_| !record.is_invented());
        let plan = record::plan().map(|plan| record.fill(plan, place, as_of)).unwrap_or_default();
        let problems = Rc::new(plan.problems.clone());
        Content { record, id: None, is_fresh: true, place, at, problems, plan: Rc::new(plan), left }
    }

    /// What stands in a sheet.
    pub fn filling(&self, sheet: &'static Declaration) -> Filling {
        let worked_on = self.record.worked_on(sheet.id).and_then(|part| self.record.filled(part));
        let (entries, given) = match worked_on {
            _ if is_plan(sheet) => (Rc::clone(&self.plan.entries), Rc::default()),
            Some(filled) => (Rc::clone(filled.fields.entries()), Rc::clone(&filled.given)),
            None => Default::default(),
        };
        Filling { entries, given, left: self.left.get(sheet.id).cloned().unwrap_or_default() }
    }

    /// The name of the shown place, or of its RO; empty where neither has one.
    pub fn name(&self) -> &str {
        let place = self.record.places().get(self.place).and_then(|place| place.fields.word("place-name"));
        place.or_else(|| self.record.ro().word("ro-name")).unwrap_or_default()
    }

    /// The same with another record, or another place of it.
    pub(super) fn with(&self, record: Rc<Record>, place: usize) -> Content {
        let (id, is_fresh) = (self.id.clone(), self.is_fresh);
        Content { id, is_fresh, ..Self::showing(record, place, Rc::clone(&self.left), self.at) }
    }

    /// The same as of another moment.
    pub(super) fn as_of(&self, at: Option<Moment>) -> Content {
        Content { at, ..self.clone() }.with(Rc::clone(&self.record), self.place)
    }

    /// The same with an id by which the record is told from others, once somebody has changed it: its name in the store, which
    /// was drawn by chance.
    pub(super) fn identified(self) -> Content {
        match &self.id {
            Some(id) if !self.is_fresh && self.record.id().is_none() => {
                let mut record = self.record.as_ref().clone();
                record.identify(id.text());
                Content { record: Rc::new(record), ..self }
            }
            _ => self,
        }
    }

    /// The same with events that came from elsewhere.
    pub(super) fn adding(&self, events: &[Event]) -> Option<Content> {
        let mut record = self.record.as_ref().clone();
        record.add_events(events.to_vec()).ok()?;
        Some(Content { is_fresh: false, ..self.opened(Rc::new(record), self.place) })
    }

    /// The same with another record, or another place of it. What is wrong in it is said at once: nobody is typing.
    pub(super) fn opened(&self, record: Rc<Record>, place: usize) -> Content {
        let mut left = Rc::clone(&self.left);
        let sheets = record.sheets().iter().filter_map(|filled| catalogue::find(&filled.sheet));
        for sheet in sheets.map(|entry| entry.declaration).chain(record::plan()) {
            let all = sheet.inputs.iter().map(|field| field.id.to_owned()).collect();
            Rc::make_mut(&mut left).insert(sheet.id, Rc::new(all));
        }
        Content { left, ..self.with(record, place) }
    }

    /// A record as the store has it, with the same place of it where it is the one that is shown.
    pub(super) fn loaded(&self, record: Rc<Record>, id: Id) -> Content {
        let place = if self.id.as_ref() == Some(&id) { self.place } else { 0 };
        let place = place.min(record.places().len().saturating_sub(1));
        Content { id: Some(id), is_fresh: false, ..self.opened(record, place) }
    }

    /// What was typed here, over another content.
    pub(super) fn typed_over(&self, other: &Content) -> Content {
        let mut content = other.clone();
        let sheets = self.record.sheets().iter().filter_map(|filled| catalogue::find(&filled.sheet));
        for sheet in sheets.map(|entry| entry.declaration).chain(record::plan()) {
            let typed = self.filling(sheet);
            for field in sheet.inputs.iter().filter(|field| !typed.is_empty_at(field.id)) {
                let held = typed.entries.get(field.id).map(|held| held.as_ref().clone());
                if let Some(with) = held.and_then(|held| content.holding(sheet, field, held)) {
                    content = with;
                }
            }
        }
        content
    }

    /// With a reading that is typed, the tap's temperature of the moment as that of its water, where nothing stands
    /// there: when the RO is moved, the reading keeps it.
    pub(super) fn with_its_water(self, sheet: &'static Declaration, field: &'static Field) -> Content {
        let filling = self.filling(sheet);
        let water = water_of(field.id).and_then(|id| sheet.inputs.iter().find(|input| input.id == id));
        let tap = filling.entries.get("tap-temperature").filter(|tap| !tap.is_empty());
        let (Some(water), Some(tap)) = (water.filter(|_| is_plan(sheet)), tap) else { return self };
        if filling.is_empty_at(field.id) || !filling.is_empty_at(water.id) {
            return self;
        }
        let tap = tap.as_ref().clone();
        self.holding(sheet, water, tap).unwrap_or(self)
    }

    /// The same with something else in one field of a sheet.
    pub(super) fn holding(
        &self,
        sheet: &'static Declaration,
        field: &'static Field,
        held: Held,
    ) -> Option<Content> {
        let mut record = self.record.as_ref().clone();
        let part = match is_plan(sheet) {
            true => record.home(field.id, self.place),
            false => record.sheet_part(sheet.id).ok()?,
        };
        record.set(part, field, held).ok()?;
        Some(Content { is_fresh: false, ..self.with(Rc::new(record), self.place) })
    }

    /// How many events are dated later than now: they do not count yet.
    pub fn dated_later(&self) -> usize {
        let Some(at) = self.at.filter(|_| !self.record.is_invented()) else { return 0 };
        self.record.events().rev().take_while(|event| !event.when.is_by(at)).count()
    }

    /// What the record knows of the empty fields of a sheet, at the shown place.
    pub fn offers(&self, sheet: &'static Declaration) -> Vec<Offer> {
        self.record.offers(sheet, self.place, self.at.filter(|_| !self.record.is_invented()))
    }

    /// The same with fields of a sheet filled from elsewhere. Nobody is typing there: what is wrong is said at once.
    pub(super) fn given(&self, sheet: &'static Declaration, offers: Vec<Offer>) -> Option<Content> {
        if offers.is_empty() {
            return None;
        }
        let mut left = Rc::clone(&self.left);
        let of_sheet = Rc::make_mut(&mut left).entry(sheet.id).or_default();
        Rc::make_mut(of_sheet).extend(offers.iter().map(|offer| offer.field.id.to_owned()));
        let mut record = self.record.as_ref().clone();
        record.give(sheet.id, offers).ok()?;
        Some(Content { left, is_fresh: false, ..self.with(Rc::new(record), self.place) })
    }

    /// The same with what stands in a sheet kept beside it.
    pub(super) fn keeping(&self, sheet: &'static Declaration, id: &Id, at: Moment) -> Option<Content> {
        let mut record = self.record.as_ref().clone();
        record.keep_sheet(sheet.id, id.text(), at, self.place).ok()?;
        Some(Content { is_fresh: false, ..self.with(Rc::new(record), self.place) })
    }

    /// The same with a kept sheet as what is being worked on.
    pub(super) fn starting_from(&self, kept: &str) -> Option<Content> {
        let mut record = self.record.as_ref().clone();
        record.start_from(kept).ok()?;
        Some(Content { is_fresh: false, ..self.opened(Rc::new(record), self.place) })
    }

    /// The same with an emptied sheet.
    pub(super) fn emptied(&self, sheet: &'static Declaration) -> Option<Content> {
        let mut record = self.record.as_ref().clone();
        let part: Part = record.worked_on(sheet.id)?;
        record.empty(part).ok()?;
        Some(Content { is_fresh: false, ..self.with(Rc::new(record), self.place) })
    }
}
