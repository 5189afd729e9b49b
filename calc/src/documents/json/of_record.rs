//! A request that hands over a record: which of its places is asked, and which of its members nobody knows.

use super::{Refusal, computed, nearest, refused};
use crate::documents::reading::quoted;
use crate::documents::record::{Part, Record, schema};
use crate::engine::quantity::UnitSet;
use crate::engine::sheet::{Entry, Sentence, Slot, Warning};
use crate::program::catalogue;
use serde_json::{Map, Value as Json, json};
use std::sync::OnceLock;

/// Which places are asked.
enum Asked {
    /// One, counted from 0.
    One(usize),
    All,
}

/// The sheet filled from the record, for the place or the places that are asked.
pub(super) fn evaluate(
    entry: &Entry,
    document: &Json,
    members: &Map<String, Json>,
    set: UnitSet,
) -> Result<Map<String, Json>, Vec<Refusal>> {
    let unknown = unknown(document);
    let record = Record::from_document(document.clone())
        .map_err(|refused| vec![Refusal::of("record", refused.sentence())])?;
    let read_only = record.read_only().into_iter().map(|sentence| ("read-only", sentence));
    let unknown = unknown.into_iter().map(|sentence| ("unknown-member", sentence));
    let warnings: Vec<Warning> = read_only
        .chain(unknown)
        .map(|(id, sentence)| Warning { field: "record", id, sentence, assumed: false })
        .collect();
    let at_place = |place| {
        let mut filled = record.fill(entry.declaration, place);
        filled.warnings.extend(warnings.iter().cloned());
        computed(entry, filled, members, set)
    };
    match asked(&record, members).map_err(|refusal| vec![refusal])? {
        Asked::One(place) => at_place(place),
        Asked::All => {
            let each = (0..record.places()).map(|place| {
                let mut told = Map::new();
                told.insert("place".into(), json!(record.word(Part::Place(place), "place-name")));
                told.extend(at_place(place).unwrap_or_else(|refusals| refused(&refusals, set)));
                Json::Object(told)
            });
            Ok(Map::from_iter([("places".to_owned(), each.collect())]))
        }
    }
}

fn asked(record: &Record, members: &Map<String, Json>) -> Result<Asked, Refusal> {
    let all = members.get("places") == Some(&Json::Bool(true));
    match members.get("place").filter(|place| !place.is_null()) {
        None if all => Ok(Asked::All),
        None => Ok(Asked::One(0)),
        Some(_) if all => Err(Refusal::of("place", "a request asks one place or all places, not both")),
        Some(Json::String(name)) => named(record, name).map(Asked::One),
        Some(place) => {
            let count = record.places();
            let index = place.as_u64().and_then(|place| usize::try_from(place).ok()).unwrap_or(0);
            (1..=count).contains(&index).then_some(Asked::One(index.wrapping_sub(1))).ok_or_else(|| {
                let sentence = Sentence::plain(
                    "a place is chosen by its name or by its number among the record's places, of which there {count?is|are} {count}",
                );
                Refusal::of("place", sentence.with("count", Slot::Count(count as i64)))
            })
        }
    }
}

/// The place of that name; two of one name are told apart by their numbers alone.
fn named(record: &Record, name: &str) -> Result<usize, Refusal> {
    let name_of = |place| record.word(Part::Place(place), "place-name").unwrap_or("");
    let found: Vec<usize> =
        (0..record.places()).filter(|place| name_of(*place).trim() == name.trim()).collect();
    match found.as_slice() {
        [place] => Ok(*place),
        [] => {
            let near = nearest::to(name, (0..record.places()).map(name_of));
            let sentence = Sentence::plain("the record has no place “{place}”; the nearest: {near}")
                .with("place", quoted(name))
                .with("near", Slot::Text(near.join(", ")));
            Err(Refusal::of("place", sentence))
        }
        several => {
            let sentence = Sentence::plain(
                "{count} places of the record have the name “{place}”: choose one by its number among the places",
            );
            Err(Refusal::of(
                "place",
                sentence.with("count", Slot::Count(several.len() as i64)).with("place", quoted(name)),
            ))
        }
    }
}

/// The members of a record that neither its schema nor any sheet knows, each once: they are kept, and not computed with.
fn unknown(document: &Json) -> Vec<Sentence> {
    static SCHEMA: OnceLock<Json> = OnceLock::new();
    let schema = SCHEMA.get_or_init(schema);
    let mut walk = Walk { schema, found: Vec::new() };
    walk.look(document, schema, "record");
    walk.found.into_iter().map(|(.., sentence)| sentence).collect()
}

struct Walk<'a> {
    schema: &'a Json,
    /// The part, the member, what is said of it.
    found: Vec<(String, String, Sentence)>,
}

impl Walk<'_> {
    fn look(&mut self, document: &Json, schema: &Json, part: &str) {
        let shared = schema["$ref"].as_str().and_then(|name| self.schema.pointer(name.strip_prefix('#')?));
        match document {
            Json::Object(members) => {
                let known = [Some(schema), shared].into_iter().flatten();
                let known: Vec<(&String, &Json)> =
                    known.filter_map(|schema| schema["properties"].as_object()).flatten().collect();
                for (name, member) in members {
                    match known.iter().find(|(id, _)| *id == name) {
                        Some((_, schema)) => self.look(member, schema, name),
                        // what RO and place hold for another sheet than the plan
                        None if catalogue::SHEETS
                            .iter()
                            .any(|entry| entry.declaration.input(name).is_some()) => {}
                        None => self.tell(part, name, &known),
                    }
                }
            }
            Json::Array(items) => {
                for item in items {
                    self.look(item, &schema["items"], part);
                }
            }
            _ => {}
        }
    }

    fn tell(&mut self, part: &str, name: &str, known: &[(&String, &Json)]) {
        if self.found.iter().any(|(of, member, _)| of == part && member == name) {
            return;
        }
        let near = nearest::to(name, known.iter().map(|(id, _)| id.as_str()));
        let sentence = Sentence::plain(
            "“{part}” has a member “{member}” that is not known and was not computed with; the nearest: {near}",
        )
        .with("part", quoted(part))
        .with("member", quoted(name))
        .with("near", Slot::Text(near.join(", ")));
        self.found.push((part.to_owned(), name.to_owned(), sentence));
    }
}
