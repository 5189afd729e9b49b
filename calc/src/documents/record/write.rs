//! A record as text: one event, place and sheet a line, so that a file is small and two of them can be compared.

use super::fill::is_of_anchor;
use super::kinds::{INSTRUMENT, KINDS, Kind};
use super::{Becomes, Event, FORMAT, Fields, Filled, Record, Thing, VERSION, field, given};
use crate::engine::sheet::Field;
use crate::program::catalogue;
use serde_json::{Map, Value as Json, json};

impl Record {
    /// The text of the file.
    pub fn text(&self) -> String {
        if let Some((_, document)) = &self.newer {
            return format!("{:#}\n", Json::Object(document.as_ref().clone()));
        }
        let mut text = format!("{{\n\"format\": \"{FORMAT}\",\n\"version\": {VERSION}");
        if let Some(id) = &self.id {
            text += &format!(",\n\"id\": {}", json!(**id));
        }
        for (member, value) in self.others.iter() {
            text += &format!(",\n{}: {value}", json!(member));
        }
        text += &format!(",\n\"ro\": {}", Json::Object(self.ro.members()));
        list(&mut text, "places", self.places.iter().map(|place| place.json(field)));
        list(&mut text, "instruments", self.instruments.iter().map(|one| one.json(instrument)));
        list(&mut text, "sheets", self.sheets_as_json());
        let events = self.events().map(|event| self.json_of(event));
        list(&mut text, "events", events.chain(self.unread.iter().cloned()));
        text += "\n}\n";
        text
    }

    pub(super) fn sheets_as_json(&self) -> impl Iterator<Item = Json> {
        self.sheets.iter().filter(|sheet| !sheet.fields.is_empty()).map(Filled::json)
    }

    /// The document that the text is.
    pub fn document(&self) -> Json {
        serde_json::from_str(&self.text()).unwrap_or_default()
    }

    /// One event as it stands in a file.
    pub fn json_of(&self, event: &Event) -> Json {
        event.json_as(self.kind_of_fields(event))
    }

    /// The kind whose fields an event has: a correction those of what it corrects.
    pub(super) fn kind_of_fields(&self, event: &Event) -> &'static Kind {
        let mut kind = event.kind;
        if event.is_correction()
            && let Some(corrected) = event.of.as_deref().and_then(|id| self.event(id))
        {
            kind = corrected.kind;
        }
        kind
    }
}

impl Event {
    /// As it stands in a file, with the fields of this kind.
    pub(super) fn json_as(&self, kind: &'static Kind) -> Json {
        let mut kept = Map::from_iter([
            ("id".to_owned(), json!(*self.id)),
            ("kind".to_owned(), json!(self.kind.id)),
            ("at".to_owned(), json!(self.when.to_string())),
        ]);
        let mut put = |member: &str, value: Option<String>| {
            if let Some(value) = value.filter(|value| !value.is_empty()) {
                kept.insert(member.to_owned(), json!(value));
            }
        };
        put("typed", self.typed.map(|moment| moment.to_string()));
        put("place", self.place.as_deref().map(str::to_owned));
        put("of", self.of.as_deref().map(str::to_owned));
        put("who", Some(self.who.clone()));
        put("note", Some(self.note.clone()));
        if let Some(becomes) = becomes(&self.becomes) {
            kept.insert("becomes".into(), becomes);
        }
        // a correction of an event that is not here yet has fields of some kind
        let find = |id: &str| {
            let any = || KINDS.iter().find_map(|kind| kind.field(id)).filter(|_| self.is_correction());
            kind.field(id).or_else(any)
        };
        let fields = self.fields.json(find, |_| self.is_correction());
        if !fields.is_empty() {
            kept.insert("fields".into(), Json::Object(fields));
        }
        kept.extend(self.others.iter().map(|(member, value)| (member.clone(), value.clone())));
        Json::Object(kept)
    }
}

pub(super) fn instrument(id: &str) -> Option<&'static Field> {
    INSTRUMENT.iter().find(|field| field.id == id)
}

fn becomes(becomes: &Becomes) -> Option<Json> {
    if *becomes == Becomes::default() {
        return None;
    }
    let mut kept = Map::new();
    if becomes.withdrawn {
        kept.insert("withdrawn".into(), json!(true));
    }
    if let Some(when) = becomes.when {
        kept.insert("at".into(), json!(when.to_string()));
    }
    if let Some(place) = &becomes.place {
        kept.insert("place".into(), json!(**place));
    }
    Some(Json::Object(kept))
}

/// One member of the file that is a list.
fn list(text: &mut String, member: &str, list: impl Iterator<Item = Json>) {
    *text += &format!(",\n\"{member}\": ");
    *text += &items(list);
}

/// A list, an item a line.
pub(super) fn items(list: impl Iterator<Item = Json>) -> String {
    let mut text = "[".to_owned();
    let mut comma = "\n";
    for item in list {
        text += comma;
        text += &item.to_string();
        comma = ",\n";
    }
    text + if comma == "\n" { "]" } else { "\n]" }
}

impl Thing {
    fn json(&self, find: impl Fn(&str) -> Option<&'static Field>) -> Json {
        let mut kept = Map::from_iter([("id".to_owned(), json!(*self.id))]);
        kept.extend(self.fields.json(find, is_of_anchor));
        Json::Object(kept)
    }
}

impl Filled {
    fn json(&self) -> Json {
        let mut kept =
            Map::from_iter([("id".to_owned(), json!(*self.id)), ("sheet".to_owned(), json!(*self.sheet))]);
        if let Some(moment) = self.kept {
            kept.insert("kept".into(), json!(moment.to_string()));
        }
        if let Some(place) = &self.place {
            kept.insert("place".into(), json!(**place));
        }
        let fields = self.fields.json(|id| field_of_sheet(&self.sheet, id), |_| false);
        kept.insert("fields".into(), Json::Object(fields));
        kept.extend(self.others.iter().map(|(member, value)| (member.clone(), value.clone())));
        let stands = |id: &&str| self.fields.has(id);
        let given = self.given.iter().filter(|(id, _)| stands(id)).map(|(id, given)| (*id, given.clone()));
        if let Some(from) = given::json(&given.collect(), self.others.get("from")) {
            kept.insert("from".into(), from);
        }
        Json::Object(kept)
    }
}

/// A field of a sheet.
pub(super) fn field_of_sheet(sheet: &str, id: &str) -> Option<&'static Field> {
    catalogue::find(sheet)?.declaration.inputs.iter().find(|field| field.id == id)
}

impl Fields {
    /// The members as they stand in a file, of the RO or a place. What was typed in place of a reading and emptied again
    /// is kept: the reading does not count by itself again.
    pub fn members(&self) -> Map<String, Json> {
        self.json(field, is_of_anchor)
    }
}
