//! Opening a record, and one sentence for each way in which a file can fail to be one.

use super::fold::{Chunk, Events};
use super::kinds::{self, Kind, Names};
use super::write::{field_of_sheet, instrument};
use super::{
    Becomes, Event, FORMAT, Fault, Fields, Filled, Id, LARGEST, Record, Thing, VERSION, When, field, given,
    migrate,
};
use crate::documents::json::cause;
use crate::engine::calendar::Moment;
use crate::engine::sheet::{Field, Sentence, Slot};
use serde_json::{Map, Value as Json, error::Category};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// Why a file is not opened. Nothing is changed then.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Refused {
    /// Larger than any record.
    TooLarge,
    /// Nested more deeply than any record.
    TooDeep,
    /// Nothing in it.
    Empty,
    /// Ends too early.
    CutShort {
        /// The last line.
        line: usize,
        /// What it ends with.
        after: String,
    },
    /// No JSON.
    NotJson {
        /// Where, counted from 1.
        line: usize,
        /// Where, counted from 1.
        column: usize,
        /// What the reader of JSON says.
        why: String,
    },
    /// JSON of something else.
    NotARecord,
    /// No version that there ever was.
    UnknownVersion(String),
    /// A member that holds something else than it should.
    Damaged(&'static str),
}

impl Refused {
    /// What is wrong, and what to do.
    pub fn sentence(&self) -> Sentence {
        match self {
            Self::TooLarge => {
                Sentence::plain("this file is larger than {most} MB, which no record is: choose another file")
                    .with("most", Slot::Count((LARGEST / 1_000_000) as i64))
            }
            Self::TooDeep => {
                Sentence::plain("this file is nested more deeply than any record: choose another file")
            }
            Self::Empty => Sentence::plain("this file is empty: copy it again from where it came from"),
            Self::CutShort { line, after } => Sentence::plain(
                "this file ends too early, in line {line} after “{after}”: copy it again from where it came from",
            )
            .with("line", Slot::Count(*line as i64))
            .with("after", Slot::Text(after.clone())),
            Self::NotJson { line, column, why } => Sentence::plain(
                "this file is no record: it is no JSON from line {line}, column {column} on ({why})",
            )
            .with("line", Slot::Count(*line as i64))
            .with("column", Slot::Count(*column as i64))
            .with("why", Slot::Text(why.clone())),
            Self::NotARecord => {
                Sentence::plain("this file is JSON, but no record: its “format” is not “{format}”")
                    .with("format", Slot::Text(FORMAT.to_owned()))
            }
            Self::UnknownVersion(version) => Sentence::plain(
                "this record has the version “{version}”, which there never was: take the file as it was saved",
            )
            .with("version", Slot::Text(version.clone())),
            Self::Damaged(member) => Sentence::plain(
                "this record is damaged: its “{member}” is not what a record holds there; take the file as it was saved",
            )
            .with("member", Slot::Text((*member).to_owned())),
        }
    }
}

impl Record {
    /// Opens the text of a file. One of a newer program is opened, and cannot be changed; one of version 1 becomes one of
    /// this version.
    ///
    /// # Errors
    /// Where it is no record, with the reason.
    ///
    /// # Example
    /// ```
    /// use calc::documents::record::{Record, Refused};
    /// let text = r#"{"format": "tapside-record", "version": 2, "ro": {}, "places": [], "events": []}"#;
    /// assert!(Record::open(text).is_ok());
    /// assert!(matches!(Record::open(&text[..50]), Err(Refused::CutShort { line: 1, .. })));
    /// assert_eq!(Record::open("[]"), Err(Refused::NotARecord));
    /// ```
    pub fn open(text: &str) -> Result<Record, Refused> {
        Self::from_document(parsed(text)?)
    }

    /// The record that a document is.
    ///
    /// # Errors
    /// Where it is none.
    pub fn from_document(document: Json) -> Result<Record, Refused> {
        let Json::Object(document) = document else { return Err(Refused::NotARecord) };
        if document.get("format").and_then(Json::as_str) != Some(FORMAT) {
            return Err(Refused::NotARecord);
        }
        let version = document.get("version");
        match version.and_then(Json::as_u64) {
            Some(1) => {
                damaged(&document, &["places", "readings"])?;
                let (document, faults) = migrate::from_1(document);
                let mut record = opened(document);
                record.faults = Rc::new(faults.into_iter().chain(record.faults.iter().cloned()).collect());
                Ok(record)
            }
            Some(VERSION) => {
                damaged(&document, &["places", "instruments", "sheets", "events"])?;
                Ok(opened(document))
            }
            Some(newer) if newer > VERSION => {
                let kept = Rc::new(document.clone());
                let mut record = opened(document);
                record.newer = Some((newer, kept));
                Ok(record)
            }
            _ => Err(Refused::UnknownVersion(version.map_or_else(String::new, short))),
        }
    }
}

/// The JSON that a text is.
pub(super) fn parsed(text: &str) -> Result<Json, Refused> {
    if text.len() > 2 * LARGEST {
        return Err(Refused::TooLarge);
    }
    // some programs put a byte order mark in front, which JSON does not know
    let text = text.trim_start_matches('\u{feff}');
    if text.trim().is_empty() {
        return Err(Refused::Empty);
    }
    serde_json::from_str(text).map_err(|error| match error.classify() {
        Category::Eof => Refused::CutShort { line: error.line(), after: end(text) },
        _ if error.to_string().starts_with("recursion limit") => Refused::TooDeep,
        _ => Refused::NotJson { line: error.line(), column: error.column(), why: cause(&error) },
    })
}

/// The first member that is not of the shape that a record has.
fn damaged(document: &Map<String, Json>, lists: &[&'static str]) -> Result<(), Refused> {
    let is_list = |member: &str| match document.get(member) {
        None => true,
        // what is no event is told and kept
        Some(Json::Array(items)) => member == "events" || items.iter().all(Json::is_object),
        Some(_) => false,
    };
    match lists.iter().find(|member| !is_list(member)) {
        _ if !document.get("ro").is_none_or(Json::is_object) => Err(Refused::Damaged("ro")),
        Some(member) => Err(Refused::Damaged(member)),
        None => Ok(()),
    }
}

/// From a document of which the shape is known to be right, or which a newer program wrote: what cannot be taken is left.
fn opened(mut document: Map<String, Json>) -> Record {
    let mut faults = Vec::new();
    let mut take = |member: &str| match document.shift_remove(member) {
        Some(Json::Array(items)) => items,
        _ => Vec::new(),
    };
    let places = things(take("places"), "place", field, &mut faults);
    let instruments = things(take("instruments"), "instrument", instrument, &mut faults);
    let sheets =
        take("sheets").into_iter().enumerate().filter_map(|(index, sheet)| filled(index, sheet)).collect();
    let events = take("events");
    let ro = match document.shift_remove("ro") {
        Some(Json::Object(members)) => Fields::open(members, field),
        _ => Fields::default(),
    };
    document.shift_remove("format");
    document.shift_remove("version");
    let id = document.get("id").and_then(Json::as_str).filter(|id| !id.is_empty()).map(Id::from);
    if id.is_some() {
        document.shift_remove("id");
    }
    let mut record = Record {
        id,
        ro,
        places: Rc::new(places),
        instruments: Rc::new(instruments),
        sheets: Rc::new(sheets),
        others: Rc::new(document),
        ..Record::default()
    };
    let read = ReadEvents::read(events);
    faults.extend(read.faults);
    record.unread = Rc::new(read.unread);
    record.take(read.events.into_iter().map(Rc::new).collect(), &mut faults);
    faults.extend(record.look_around());
    record.faults = Rc::new(faults);
    record
}

fn things(
    items: Vec<Json>,
    what: &str,
    find: impl Fn(&str) -> Option<&'static Field> + Copy,
    faults: &mut Vec<Fault>,
) -> Vec<Thing> {
    let mut seen = BTreeSet::new();
    let mut things = Vec::new();
    for (index, item) in items.into_iter().enumerate() {
        let Json::Object(mut members) = item else { continue };
        let own = members.shift_remove("id").and_then(|id| id.as_str().map(Id::from));
        let id = own.unwrap_or_else(|| format!("{what}-{}", index + 1).into());
        if !seen.insert(Rc::clone(&id)) {
            faults.push(Fault::TwoThings(Rc::clone(&id)));
        }
        things.push(Thing { id, fields: Fields::open(members, find) });
    }
    things
}

fn filled(index: usize, sheet: Json) -> Option<Filled> {
    let Json::Object(mut members) = sheet else { return None };
    let mut word = |member: &str| match members.get(member) {
        Some(Json::String(word)) => {
            let word = word.clone();
            members.shift_remove(member);
            Some(word)
        }
        _ => None,
    };
    let sheet = word("sheet").unwrap_or_default();
    let id = word("id").unwrap_or_else(|| format!("sheet-{}", index + 1));
    let kept = members.get("kept").and_then(Json::as_str).and_then(|text| Moment::read(text).ok());
    if kept.is_some() {
        members.shift_remove("kept");
    }
    let place = members.get("place").and_then(Json::as_str).map(Id::from);
    if place.is_some() {
        members.shift_remove("place");
    }
    let fields = match members.shift_remove("fields") {
        Some(Json::Object(fields)) => Fields::open(fields, |id| field_of_sheet(&sheet, id)),
        _ => Fields::default(),
    };
    let given = given::open(&mut members, |id| Some(field_of_sheet(&sheet, id)?.id));
    Some(Filled { id: id.into(), sheet: sheet.into(), kept, place, fields, given, others: Rc::new(members) })
}

/// The events of a file, as far as they can be read.
#[derive(Default)]
struct ReadEvents {
    events: Vec<Event>,
    unread: Vec<Json>,
    faults: Vec<Fault>,
}

impl ReadEvents {
    fn read(items: Vec<Json>) -> Self {
        // a correction has the fields of what it corrects, which may stand after it
        let word = |item: &Json, member: &str| item.get(member).and_then(Json::as_str).map(str::to_owned);
        let known: BTreeMap<String, &'static Kind> = items
            .iter()
            .filter_map(|item| Some((word(item, "id")?, kinds::kind(&word(item, "kind")?)?)))
            .collect();
        let mut read = Self::default();
        for item in items {
            match heading(&item) {
                Ok(heading) => read.events.push(event(heading, item, &known)),
                Err(fault) => {
                    read.faults.push(fault);
                    read.unread.push(item);
                }
            }
        }
        read
    }
}

/// What an event cannot be without.
type Heading = (String, &'static Kind, When);

fn heading(item: &Json) -> Result<Heading, Fault> {
    let no_event = || Fault::NoEvent(short(item));
    let members = item.as_object().ok_or_else(no_event)?;
    let word = |member: &str| members.get(member).and_then(Json::as_str);
    let id = word("id").filter(|id| !id.is_empty()).ok_or_else(no_event)?.to_owned();
    let kind = word("kind").unwrap_or_default();
    let Some(kind) = kinds::kind(kind) else { return Err(Fault::UnknownKind(id, kind.to_owned())) };
    let when = word("at").and_then(When::read).ok_or_else(|| Fault::NoMoment(id.clone()))?;
    Ok((id, kind, when))
}

fn event((id, kind, when): Heading, item: Json, known: &BTreeMap<String, &'static Kind>) -> Event {
    let Json::Object(mut members) = item else { return Event::new(id, kind, when, None) };
    let mut word = |member: &str| match members.get(member) {
        Some(Json::String(_)) => {
            members.shift_remove(member).and_then(|word| word.as_str().map(str::to_owned))
        }
        _ => None,
    };
    for member in ["id", "kind", "at"] {
        word(member);
    }
    let mut event = Event::new(id, kind, when, word("place").map(Id::from));
    event.of = word("of").map(Id::from);
    event.who = word("who").unwrap_or_default();
    event.note = word("note").unwrap_or_default();
    let typed = members.get("typed").and_then(Json::as_str).and_then(|typed| Moment::read(typed).ok());
    if typed.is_some() {
        members.shift_remove("typed");
    }
    event.typed = typed;
    if event.is_correction() {
        event.becomes = becomes(&mut members);
    }
    let of_fields = event.of.as_deref().filter(|_| event.is_correction());
    let of_fields = of_fields.and_then(|of| known.get(of)).copied().unwrap_or(kind);
    if members.get("fields").is_some_and(Json::is_object)
        && let Some(Json::Object(fields)) = members.shift_remove("fields")
    {
        event.fields = Fields::open(fields, |id| of_fields.field(id));
    }
    event.others = Rc::new(members);
    event
}

fn becomes(members: &mut Map<String, Json>) -> Becomes {
    let Some(Json::Object(becomes)) = members.get("becomes") else { return Becomes::default() };
    let word = |member: &str| becomes.get(member).and_then(Json::as_str);
    let read = Becomes {
        withdrawn: becomes.get("withdrawn") == Some(&Json::Bool(true)),
        when: word("at").and_then(When::read),
        place: word("place").map(Id::from),
    };
    members.shift_remove("becomes");
    read
}

impl Record {
    /// Takes events in. Of two with one id both count, one of them under an id of its own: which, and that id, follow from
    /// what they say, so that it is the same in any order, also when a third comes later.
    pub(super) fn take(&mut self, events: Vec<Rc<Event>>, faults: &mut Vec<Fault>) {
        let kinds: BTreeMap<Id, &'static Kind> =
            events.iter().map(|event| (Rc::clone(&event.id), event.kind)).collect();
        let said = |event: &Event| {
            let corrected = event.of.as_ref().filter(|_| event.is_correction()).and_then(|of| kinds.get(of));
            event.json_as(corrected.unwrap_or(&event.kind)).to_string()
        };
        let mut by_id: BTreeMap<Id, Vec<Rc<Event>>> = BTreeMap::new();
        for event in events {
            by_id.entry(Rc::clone(&event.id)).or_default().push(event);
        }
        let shared: Vec<Id> =
            by_id.iter().filter(|(_, same)| same.len() > 1).map(|(id, _)| Rc::clone(id)).collect();
        for id in shared {
            let mut same: Vec<(String, Rc<Event>)> =
                by_id.remove(&id).into_iter().flatten().map(|event| (said(&event), event)).collect();
            same.sort_by(|a, b| a.0.cmp(&b.0));
            let count = same.len();
            same.dedup_by(|a, b| a.0 == b.0);
            if same.len() < count {
                faults.push(Fault::Twice(Rc::clone(&id)));
            }
            let mut same = same.into_iter();
            by_id.insert(Rc::clone(&id), same.next().map(|(_, event)| event).into_iter().collect());
            for (text, event) in same {
                let mut number = fingerprint(&text);
                loop {
                    let mut own = event.as_ref().clone();
                    own.id = format!("{id}~{number:08x}").into();
                    let taken = by_id.entry(Rc::clone(&own.id)).or_default();
                    if taken.is_empty() {
                        taken.push(Rc::new(own));
                        break;
                    }
                    // it was taken in before
                    if taken.iter().any(|there| said(there) == said(&own)) {
                        break;
                    }
                    number = number.wrapping_add(1);
                }
            }
        }
        let mut chunks: BTreeMap<i32, Vec<Rc<Event>>> = BTreeMap::new();
        for mut event in by_id.into_values().flatten() {
            // what a correction corrects may have come only now
            let corrected = event.of.as_ref().filter(|_| event.is_correction()).and_then(|of| kinds.get(of));
            if let Some(fields) = corrected.and_then(|kind| event.fields.reread(|id| kind.field(id))) {
                Rc::make_mut(&mut event).fields = fields;
            }
            chunks.entry(event.when.year()).or_default().push(event);
        }
        for chunk in chunks.values_mut() {
            chunk.sort_by(|a, b| a.order().cmp(&b.order()));
        }
        // a year in which nothing came is the same as before, so that it need not be written again
        let before = Rc::clone(&self.events);
        let chunk = |(year, chunk): (i32, Vec<Rc<Event>>)| {
            let same = |before: &&Chunk| {
                before.len() == chunk.len() && before.iter().zip(&chunk).all(|(a, b)| Rc::ptr_eq(a, b))
            };
            let kept = before.chunks().get(&year).filter(same).cloned();
            (year, kept.unwrap_or_else(|| Rc::new(chunk)))
        };
        self.events = Rc::new(Events::of(chunks.into_iter().map(chunk).collect()));
    }

    /// What does not fit together.
    pub(super) fn look_around(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        let places: BTreeSet<&str> = self.places.iter().map(|place| &*place.id).collect();
        let instruments: BTreeSet<&str> = self.instruments.iter().map(|one| &*one.id).collect();
        let events: BTreeSet<&str> = self.events().map(|event| &*event.id).collect();
        for event in self.events() {
            let id = || Rc::clone(&event.id);
            // until one of the two is withdrawn
            let counts = |id: &str| events.contains(id) && !self.is_withdrawn(id);
            if let Some(first) = first_of_its_id(&event.id).filter(|first| counts(first) && counts(&event.id))
            {
                faults.push(Fault::TwoOfOneId(first.into(), id()));
            }
            for place in event.place.iter().chain(&event.becomes.place) {
                if !places.contains(&**place) {
                    faults.push(Fault::NoPlace(id(), place.to_string()));
                }
            }
            let named = match event.kind.of {
                Names::Event => Some(&events),
                Names::Instrument => Some(&instruments),
                Names::Nothing => None,
            };
            if let (Some(of), Some(named)) = (&event.of, named)
                && !named.contains(&**of)
            {
                faults.push(Fault::NamesNothing(id(), of.to_string()));
            }
            let is_in_force =
                event.is_correction() && !event.becomes.withdrawn && !self.is_withdrawn(&event.id);
            let corrected = event.of.as_deref().filter(|_| is_in_force).and_then(|of| self.event(of));
            if let Some(corrected) = corrected.filter(|of| of.is_correction()) {
                faults.push(Fault::CorrectsACorrection(id(), Rc::clone(&corrected.id)));
            }
            if let (When::At(at), Some(typed)) = (event.when, event.typed)
                && at.since(typed).si() > 0.0
            {
                faults.push(Fault::BeforeItHappened(id()));
            }
        }
        faults
    }
}

/// Of an event that got an id of its own since another had the same: that one's id.
fn first_of_its_id(id: &str) -> Option<&str> {
    let (first, own) = id.rsplit_once('~')?;
    (own.len() == 8 && own.bytes().all(|digit| digit.is_ascii_hexdigit())).then_some(first)
}

/// Tells two texts apart (FNV-1a, 32 bits).
fn fingerprint(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

/// The last thing that a text says, to find the place in the file.
fn end(text: &str) -> String {
    let text: Vec<char> = text.trim_end().chars().rev().take(40).collect();
    text.into_iter().rev().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

fn short(value: &Json) -> String {
    value.to_string().chars().take(40).collect()
}
