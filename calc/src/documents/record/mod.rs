//! The record: the life of one RO. Its own fields, the places where it works, its instruments, the sheets that were filled
//! with it, and its dated events, in one file.
//!
//! ```json
//! {
//!   "format": "tapside-record", "version": 2, "id": "5f0c2a91",
//!   "ro": { "ro-name": "RO 2", "least-inlet-pressure": { "typed": "1,5", "value": 1.5, "unit": "bar" } },
//!   "places": [{ "id": "place-1", "place-name": "Ward 6", "source": "public" }],
//!   "instruments": [{ "id": "meter-1", "instrument-name": "meter 1" }],
//!   "sheets": [{ "id": "sheet-1", "sheet": "dilution", "fields": {} }],
//!   "events": [{ "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "typed": "2026-11-12T07:02+01:00",
//!                "place": "place-1", "who": "AB", "fields": { "product-flow": { "typed": "0.86", "value": 0.86, "unit": "L/min" } } }]
//! }
//! ```
//!
//! Its id tells it from other records: two files of one id are two states of one record, and can be merged. It is drawn by whoever
//! begins the record, since nothing here knows chance; an older file has none.
//!
//! In the program it is typed values behind shared references, the events in one chunk for each year: a copy costs nothing,
//! and a change touches its own part alone. It becomes JSON only when a file is opened, saved or asked for. What this version
//! does not know survives. What is true now is never stored: see [`Now`].

mod edit;
mod event;
mod fault;
mod fields;
mod fill;
mod fold;
mod given;
pub mod kinds;
mod merge;
mod migrate;
mod now;
mod offer;
mod open;
mod parts;
mod read;
mod schema;
mod series;
mod typed;
mod write;

pub use event::{Becomes, Event, Id, When};
pub use fault::Fault;
pub use fields::{Entries, Fields, Held, Row, Rows, field};
pub use fill::{FromRecord, Origin};
pub use fold::Chunk;
pub use given::{Given, Givens};
pub use merge::{Conflict, Merged};
pub use now::{Chosen, Due, Lock, LockReason, Now, PartAge};
pub use offer::Offer;
pub use open::Refused;
pub(crate) use read::on_the_page;
pub use read::{Read, read};
pub use schema::schema;
pub use typed::{Typed, named_unit, offered};

use crate::engine::calendar::Moment;
use crate::engine::sheet::{Sentence, Slot};
use serde_json::{Map, Value as Json};
use std::rc::Rc;

/// The name by which a record is known from any other JSON document.
pub const FORMAT: &str = "tapside-record";

/// The version that this program writes. It reads version 1 too.
pub const VERSION: u64 = 2;

/// The largest file that is taken for a record, in bytes. What this program makes of one may be twice as long.
pub const LARGEST: usize = 50_000_000;

/// The life of one RO.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Record {
    id: Option<Id>,
    ro: Fields,
    places: Rc<Vec<Thing>>,
    instruments: Rc<Vec<Thing>>,
    sheets: Rc<Vec<Filled>>,
    events: Rc<fold::Events>,
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
    /// At which place the RO was then, as far as that was known.
    pub place: Option<Id>,
    /// What stands in it.
    pub fields: Fields,
    /// What of it nobody typed.
    pub given: Rc<Givens>,
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

    /// By which it is told from other records; none of what an older program wrote.
    pub fn id(&self) -> Option<&Id> {
        self.id.as_ref()
    }

    /// Whether both are states of one record.
    pub fn is_same_record(&self, other: &Record) -> bool {
        self.id.is_some() && self.id == other.id
    }

    /// The record has this id from now on, where it has none. It has to be drawn by chance.
    pub fn identify(&mut self, id: impl Into<Id>) {
        if self.id.is_none() && self.newer.is_none() && !self.others.contains_key("id") {
            self.id = Some(id.into());
        }
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

    /// A filled sheet.
    pub fn filled(&self, part: Part) -> Option<&Filled> {
        match part {
            Part::Sheet(index) => self.sheets.get(index),
            _ => None,
        }
    }

    /// The events as they were written down, corrections among them, in the order of happening.
    pub fn events(&self) -> impl DoubleEndedIterator<Item = &Rc<Event>> + Clone {
        self.events.all()
    }

    /// The events by the year in which they happened: of a copy that was changed only the years are others in which
    /// something was added.
    pub fn years(&self) -> impl Iterator<Item = (i32, &Chunk)> {
        self.events.chunks().iter().map(|(year, chunk)| (*year, chunk))
    }

    /// How many events there are.
    pub fn count(&self) -> usize {
        self.years().map(|(_, chunk)| chunk.len()).sum()
    }

    /// The event of that id, as it was written down.
    pub fn event(&self, id: &str) -> Option<&Rc<Event>> {
        self.events.get(id)
    }

    /// The ids of what lies among the events and is none that this version knows.
    pub(crate) fn unread_ids(&self) -> impl Iterator<Item = &str> {
        self.unread.iter().filter_map(|item| item.get("id").and_then(Json::as_str))
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
            && self.count() == 0
            && self.unread.is_empty()
            && self.others.is_empty()
    }

    /// The version of the newer program that wrote it, where one did.
    pub fn newer_version(&self) -> Option<u64> {
        self.newer.as_ref().map(|(version, _)| *version)
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
}
