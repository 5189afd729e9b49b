//! Changing a record. An event is only ever added; what is typed without a date stands with the RO, a place, an instrument or a
//! sheet.

use super::fill::is_of_anchor;
use super::kinds::{REFERENCE_CHOSEN, Reference};
use super::{Event, Fields, Filled, Given, Held, Id, Offer, Part, Record, Thing, series};
use crate::engine::calendar::Moment;
use crate::engine::sheet::{Field, Sentence};
use std::collections::BTreeSet;
use std::rc::Rc;

impl Record {
    /// Something else stands in a field from now on.
    ///
    /// # Errors
    /// Where nothing was changed, with the reason.
    pub fn set(&mut self, part: Part, field: &'static Field, held: Held) -> Result<(), Sentence> {
        self.fields_mut(part)?.set(field, held);
        if let Part::Sheet(index) = part
            && self.sheets.get(index).is_some_and(|filled| filled.given.contains_key(field.id))
        {
            let filled = &mut Rc::make_mut(&mut self.sheets)[index];
            Rc::make_mut(&mut filled.given).remove(field.id);
        }
        self.forget_series(part, field.id);
        Ok(())
    }

    /// With another number, what was filled with the one before goes: nothing is called by another name than its own.
    fn forget_series(&mut self, part: Part, changed: &str) {
        let Part::Sheet(index) = part else { return };
        let Some(filled) = self.sheets.get(index).filter(|filled| series::is_choice(&filled.sheet, changed))
        else {
            return;
        };
        let is_given = |given: &Given| matches!(given, Given::Events(_) | Given::Series);
        let given = filled.given.iter().filter(|(id, given)| series::follows(id) && is_given(given));
        let given: Vec<&'static str> = given.map(|(id, _)| *id).collect();
        if given.is_empty() {
            return;
        }
        let filled = &mut Rc::make_mut(&mut self.sheets)[index];
        for id in given {
            filled.fields.clear(id);
            Rc::make_mut(&mut filled.given).remove(id);
        }
    }

    /// Nothing stands in any field of a part from now on.
    ///
    /// # Errors
    /// Where nothing was changed, with the reason.
    pub fn empty(&mut self, part: Part) -> Result<(), Sentence> {
        *self.fields_mut(part)? = Fields::default();
        if let Part::Sheet(index) = part {
            Rc::make_mut(&mut self.sheets)[index].given = Rc::default();
        }
        Ok(())
    }

    fn fields_mut(&mut self, part: Part) -> Result<&mut Fields, Sentence> {
        self.writable()?;
        match part {
            Part::Ro => Some(&mut self.ro),
            Part::Place(index) => {
                Rc::make_mut(&mut self.places).get_mut(index).map(|place| &mut place.fields)
            }
            Part::Instrument(index) => {
                Rc::make_mut(&mut self.instruments).get_mut(index).map(|instrument| &mut instrument.fields)
            }
            Part::Sheet(index) => {
                Rc::make_mut(&mut self.sheets).get_mut(index).map(|sheet| &mut sheet.fields)
            }
        }
        .ok_or_else(|| NO_PART.into())
    }

    /// Adds a place and answers with its index.
    ///
    /// # Errors
    /// Where nothing may be changed, or the id is another place's.
    pub fn add_place(&mut self, id: impl Into<Id>) -> Result<usize, Sentence> {
        self.writable()?;
        add(&mut self.places, id.into())
    }

    /// Adds an instrument and answers with its index.
    ///
    /// # Errors
    /// Where nothing may be changed, or the id is another instrument's.
    pub fn add_instrument(&mut self, id: impl Into<Id>) -> Result<usize, Sentence> {
        self.writable()?;
        add(&mut self.instruments, id.into())
    }

    /// The part that holds what is being typed into a sheet; made where there is none.
    ///
    /// # Errors
    /// Where nothing may be changed.
    pub fn sheet_part(&mut self, sheet: &str) -> Result<Part, Sentence> {
        if let Some(part) = self.worked_on(sheet) {
            return Ok(part);
        }
        self.writable()?;
        let sheets = Rc::make_mut(&mut self.sheets);
        // the sheet that is being worked on is one, so that its own name tells it apart
        let id = sheet.into();
        sheets.push(Filled {
            id,
            sheet: sheet.into(),
            kept: None,
            place: None,
            fields: Fields::default(),
            given: Rc::default(),
            others: Rc::default(),
        });
        Ok(Part::Sheet(sheets.len() - 1))
    }

    /// The part that holds what is being typed into a sheet.
    pub fn worked_on(&self, sheet: &str) -> Option<Part> {
        let index = self.sheets.iter().position(|filled| *filled.sheet == *sheet && filled.kept.is_none())?;
        Some(Part::Sheet(index))
    }

    /// Keeps what now stands in a sheet with its date and one of the places, beside what is being worked on.
    ///
    /// # Errors
    /// Where nothing was typed into it, the id is taken, or nothing may be changed.
    pub fn keep_sheet(
        &mut self,
        sheet: &str,
        id: impl Into<Id>,
        at: Moment,
        place: usize,
    ) -> Result<(), Sentence> {
        self.writable()?;
        let id = id.into();
        let worked_on = self.worked_on(sheet).and_then(|part| self.filled(part));
        let Some(now) = worked_on.filter(|filled| !filled.fields.is_empty()) else {
            return Err("nothing was entered into this sheet yet".into());
        };
        let (fields, given) = (now.fields.clone(), Rc::clone(&now.given));
        if self.sheets.iter().any(|filled| filled.id == id) {
            return Err(TAKEN.into());
        }
        let place = self.places.get(place).map(|place| Rc::clone(&place.id));
        let kept =
            Filled { id, sheet: sheet.into(), kept: Some(at), place, fields, given, others: Rc::default() };
        Rc::make_mut(&mut self.sheets).push(kept);
        Ok(())
    }

    /// What stood in a kept sheet stands in the one being worked on, in place of what stood there.
    ///
    /// # Errors
    /// Where no sheet of this id was kept, or nothing may be changed.
    pub fn start_from(&mut self, kept: &str) -> Result<(), Sentence> {
        let found = self.sheets.iter().find(|filled| *filled.id == *kept && filled.kept.is_some());
        let Some(Filled { sheet, fields, given, .. }) = found.cloned() else { return Err(NO_PART.into()) };
        if let Part::Sheet(index) = self.sheet_part(&sheet)? {
            self.writable()?;
            let worked_on = &mut Rc::make_mut(&mut self.sheets)[index];
            (worked_on.fields, worked_on.given) = (fields, given);
        }
        Ok(())
    }

    /// Fields of a sheet are filled, each with where that comes from.
    ///
    /// # Errors
    /// Where nothing may be changed.
    pub fn give(&mut self, sheet: &str, offers: Vec<Offer>) -> Result<(), Sentence> {
        let part = self.sheet_part(sheet)?;
        for Offer { field, held, given } in offers {
            self.set(part, field, held.as_ref().clone())?;
            if let Part::Sheet(index) = part {
                let filled = &mut Rc::make_mut(&mut self.sheets)[index];
                Rc::make_mut(&mut filled.given).insert(field.id, given);
            }
        }
        Ok(())
    }

    /// Writes down what happened.
    ///
    /// # Errors
    /// Where an event of that id is there already, or nothing may be changed.
    pub fn add_event(&mut self, event: Event) -> Result<(), Sentence> {
        self.writable()?;
        if self.event(&event.id).is_some() {
            return Err(TAKEN.into());
        }
        if event.kind == &REFERENCE_CHOSEN && event.choice("reference") == Some(Reference::Anchor.id()) {
            self.forget_typed_anchor();
        }
        Rc::make_mut(&mut self.events).insert(event);
        Ok(())
    }

    /// Writes down what happened, of many events at once, such as the rows of a text.
    ///
    /// # Errors
    /// Where an event of one of the ids is there already, or nothing may be changed; then none is written down.
    pub fn add_events(&mut self, events: Vec<Event>) -> Result<(), Sentence> {
        self.writable()?;
        let known: BTreeSet<&str> = self.events().map(|event| &*event.id).chain(self.unread_ids()).collect();
        let mut new = BTreeSet::new();
        if events.iter().any(|event| known.contains(&*event.id) || !new.insert(&*event.id)) {
            return Err(TAKEN.into());
        }
        let all = self.events().cloned().chain(events.into_iter().map(Rc::new)).collect();
        self.take(all, &mut Vec::new());
        let faults = Rc::clone(&self.faults);
        self.name_faults(faults.iter());
        Ok(())
    }

    /// The plan starts from a reading again: what was typed in its place goes.
    fn forget_typed_anchor(&mut self) {
        let typed = |fields: &Fields| {
            fields.entries().keys().copied().filter(|id| is_of_anchor(id)).collect::<Vec<_>>()
        };
        for id in typed(&self.ro) {
            self.ro.clear(id);
        }
        for index in 0..self.places.len() {
            for id in typed(&self.places[index].fields) {
                Rc::make_mut(&mut self.places)[index].fields.clear(id);
            }
        }
    }

    /// No unit stands beside what is empty, so that it offers the usual one again.
    pub fn free_units(&mut self) {
        self.ro.free_units();
        for index in 0..self.places.len() {
            if self.places[index].fields.has_idle_units() {
                Rc::make_mut(&mut self.places)[index].fields.free_units();
            }
        }
        for index in 0..self.sheets.len() {
            if self.sheets[index].fields.has_idle_units() {
                Rc::make_mut(&mut self.sheets)[index].fields.free_units();
            }
        }
    }

    fn writable(&self) -> Result<(), Sentence> {
        self.read_only().map_or(Ok(()), Err)
    }
}

const NO_PART: &str = "the record has no such part any more";
const TAKEN: &str = "the record has something of this id already";

fn add(things: &mut Rc<Vec<Thing>>, id: Id) -> Result<usize, Sentence> {
    if things.iter().any(|thing| thing.id == id) {
        return Err(TAKEN.into());
    }
    let things = Rc::make_mut(things);
    things.push(Thing { id, fields: Fields::default() });
    Ok(things.len() - 1)
}
