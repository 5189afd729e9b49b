//! The record: the life of one RO. Its own fields, the places where it works, its instruments, the sheets that were filled
//! with it, and its dated events, in one file.
//!
//! ```json
//! {
//!   "format": "tapside-record", "version": 2,
//!   "ro": { "ro-name": "RO 2", "least-inlet-pressure": { "typed": "1,5", "value": 1.5, "unit": "bar" } },
//!   "places": [{ "id": "place-1", "place-name": "Ward 6", "source": "public" }],
//!   "instruments": [{ "id": "meter-1", "instrument-name": "meter 1" }],
//!   "sheets": [{ "id": "sheet-1", "sheet": "dilution", "fields": {} }],
//!   "events": [{ "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "typed": "2026-11-12T07:02+01:00",
//!                "place": "place-1", "who": "AB", "fields": { "product-flow": { "typed": "0.86", "value": 0.86, "unit": "L/min" } } }]
//! }
//! ```
//!
//! In the program it is typed values behind shared references, the events in one chunk for each year: a copy costs nothing,
//! and a change touches its own part alone. It becomes JSON only when a file is opened, saved or asked for. What this version
//! does not know survives. What is true now is never stored: see [`Now`].

mod event;
mod fault;
mod fields;
mod fill;
mod fold;
pub mod kinds;
mod migrate;
mod now;
mod open;
mod read;
mod typed;
mod write;

pub use event::{Becomes, Event, Id, When};
pub use fault::Fault;
pub use fields::{Entries, Fields, Held, Row, Rows, field};
pub use fill::{FromRecord, Origin};
pub use now::{Chosen, Due, Lock, LockReason, Now, PartAge};
pub use open::Refused;
pub use read::{Read, read};
pub use typed::{Typed, named_unit, offered};

use crate::engine::calendar::Moment;
use crate::engine::sheet::{Sentence, Slot};
use serde_json::{Map, Value as Json};
use std::collections::BTreeMap;
use std::rc::Rc;

/// The name by which a record is known from any other JSON document.
pub const FORMAT: &str = "tapside-record";

/// The version that this program writes. It reads version 1 too.
pub const VERSION: u64 = 2;

/// The largest record that is read, in bytes.
pub const LARGEST: usize = 50_000_000;

/// The life of one RO.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Record {
    ro: Fields,
    places: Rc<Vec<Thing>>,
    instruments: Rc<Vec<Thing>>,
    sheets: Rc<Vec<Filled>>,
    /// By year, each chunk in the order of happening.
    events: Rc<BTreeMap<i32, Rc<Vec<Rc<Event>>>>>,
    /// Events that this version cannot take for one, as they lie in the file.
    unread: Rc<Vec<Json>>,
    others: Rc<Map<String, Json>>,
    faults: Rc<Vec<Fault>>,
    /// The version of a newer program, and the document as it lies there.
    newer: Option<(u64, Rc<Map<String, Json>>)>,
}

/// A place or an instrument.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// Its own: events name it, so that it can be renamed.
    pub id: Id,
    /// What is said of it.
    pub fields: Fields,
}

/// A sheet that was filled: the one being worked on, or one that was kept with its date.
#[derive(Debug, Clone, PartialEq)]
pub struct Filled {
    /// Its own.
    pub id: Id,
    /// Which sheet.
    pub sheet: Id,
    /// When it was kept; the one being worked on has no date.
    pub kept: Option<Moment>,
    /// What was typed.
    pub fields: Fields,
    others: Rc<Map<String, Json>>,
}

/// A part of a record that holds fields.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The RO.
    Ro,
    /// A place, counted from 0.
    Place(usize),
    /// An instrument, counted from 0.
    Instrument(usize),
    /// A filled sheet, counted from 0.
    Sheet(usize),
}

impl Record {
    /// An empty record.
    pub fn new() -> Self {
        Self::default()
    }

    /// What is said of the RO.
    pub fn ro(&self) -> &Fields {
        &self.ro
    }

    /// The places where it works.
    pub fn places(&self) -> &[Thing] {
        &self.places
    }

    /// Its instruments.
    pub fn instruments(&self) -> &[Thing] {
        &self.instruments
    }

    /// The sheets that were filled.
    pub fn sheets(&self) -> &[Filled] {
        &self.sheets
    }

    /// The events as they were written down, corrections among them, in the order of happening.
    pub fn events(&self) -> impl DoubleEndedIterator<Item = &Rc<Event>> + Clone {
        self.events.values().flat_map(|chunk| chunk.iter())
    }

    /// How many events there are.
    pub fn count(&self) -> usize {
        self.events.values().map(|chunk| chunk.len()).sum()
    }

    /// The event of that id, as it was written down.
    pub fn event(&self, id: &str) -> Option<&Rc<Event>> {
        self.events().find(|event| *event.id == *id)
    }

    /// The index of a place.
    pub fn place(&self, id: &str) -> Option<usize> {
        self.places.iter().position(|place| *place.id == *id)
    }

    /// The fields of a part.
    pub fn part(&self, part: Part) -> Option<&Fields> {
        match part {
            Part::Ro => Some(&self.ro),
            Part::Place(index) => self.places.get(index).map(|place| &place.fields),
            Part::Instrument(index) => self.instruments.get(index).map(|instrument| &instrument.fields),
            Part::Sheet(index) => self.sheets.get(index).map(|sheet| &sheet.fields),
        }
    }

    /// What was found wrong when it was opened. All of it is kept as it lies in the file.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Whether its places are invented.
    pub fn is_invented(&self) -> bool {
        self.others.get("invented") == Some(&Json::Bool(true))
    }

    /// Whether nothing stands in it.
    pub fn is_blank(&self) -> bool {
        self.ro.is_empty()
            && self.places.iter().all(|place| place.fields.is_empty())
            && self.instruments.is_empty()
            && self.sheets.iter().all(|sheet| sheet.fields.is_empty())
            && self.events.is_empty()
            && self.unread.is_empty()
            && self.others.is_empty()
    }

    /// Why nothing may be changed, where a newer program wrote it.
    pub fn read_only(&self) -> Option<Sentence> {
        self.newer.as_ref().map(|(version, _)| {
            Sentence::plain(
                "a newer version of this program wrote the record (format {version}, this one knows {known}): it is shown and cannot be changed here",
            )
            .with("version", Slot::Count(i64::try_from(*version).unwrap_or(i64::MAX)))
            .with("known", Slot::Count(VERSION as i64))
        })
    }

    /// Something else stands in a field from now on.
    ///
    /// # Errors
    /// Where nothing was changed, with the reason.
    pub fn set(
        &mut self,
        part: Part,
        field: &'static crate::engine::sheet::Field,
        held: Held,
    ) -> Result<(), Sentence> {
        self.fields_mut(part)?.set(field, held);
        Ok(())
    }

    /// Nothing stands in any field of a part from now on.
    ///
    /// # Errors
    /// Where nothing was changed, with the reason.
    pub fn empty(&mut self, part: Part) -> Result<(), Sentence> {
        *self.fields_mut(part)? = Fields::default();
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
            fields: Fields::default(),
            others: Rc::default(),
        });
        Ok(Part::Sheet(sheets.len() - 1))
    }

    /// The part that holds what is being typed into a sheet.
    pub fn worked_on(&self, sheet: &str) -> Option<Part> {
        let index = self.sheets.iter().position(|filled| *filled.sheet == *sheet && filled.kept.is_none())?;
        Some(Part::Sheet(index))
    }

    /// Keeps what now stands in a sheet with its date, beside what is being worked on.
    ///
    /// # Errors
    /// Where nothing was typed into it, the id is taken, or nothing may be changed.
    pub fn keep_sheet(&mut self, sheet: &str, id: impl Into<Id>, at: Moment) -> Result<(), Sentence> {
        self.writable()?;
        let id = id.into();
        let fields =
            self.worked_on(sheet).and_then(|part| self.part(part)).filter(|fields| !fields.is_empty());
        let Some(fields) = fields.cloned() else {
            return Err("nothing was entered into this sheet yet".into());
        };
        if self.sheets.iter().any(|filled| filled.id == id) {
            return Err(TAKEN.into());
        }
        let kept = Filled { id, sheet: sheet.into(), kept: Some(at), fields, others: Rc::default() };
        Rc::make_mut(&mut self.sheets).push(kept);
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
        self.insert(event);
        Ok(())
    }

    /// Puts an event where it belongs, whatever its id.
    fn insert(&mut self, event: Event) {
        let chunk = Rc::make_mut(&mut self.events).entry(event.when.year()).or_default();
        let chunk = Rc::make_mut(chunk);
        let at = chunk.partition_point(|other| other.order() < event.order());
        chunk.insert(at, Rc::new(event));
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
