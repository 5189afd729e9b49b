//! A request that hands over a record: which of its places is asked, and which of its members nobody knows.

use super::{Filled, Refusal, computed, fill, nearest, refused};
use crate::documents::reading::quoted;
use crate::documents::record::kinds::KINDS;
use crate::documents::record::{Chosen, Event, LockReason, Origin, Record, schema};
use crate::engine::calendar::Moment;
use crate::engine::quantity::Kind;
use crate::engine::quantity::UnitSet;
use crate::engine::quantity::kinds::{NUMBER, VOLUME};
use crate::engine::sheet::{Entry, Known, Sentence, Slot, Warning};
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
    let (record, warnings) = opened(document)?;
    let at = moment(members, "at")?;
    // beside the record, what it does not hold
    let none = Map::new();
    let inputs = members.get("inputs").and_then(Json::as_object).unwrap_or(&none);
    let at_place = |place| {
        let mut from = record.fill(entry.declaration, place, at);
        if let Some(series) = inputs.get("series").and_then(Json::as_str) {
            from.follow(entry.declaration, &record, place, at, series);
        }
        let read = from.read(entry.declaration);
        let typed = fill(entry.declaration, inputs);
        if let Some(both) = inputs.keys().find(|id| *id != "series" && from.origins.contains_key(id.as_str()))
        {
            let sentence = Sentence::plain("the record fills “{field}” itself: leave it out of the inputs");
            return Err(vec![Refusal::of(both, sentence.with("field", quoted(both)))]);
        }
        let mut filled = Filled::of(read).with(typed);
        filled.warnings.extend(warnings.iter().cloned());
        let mut answer = computed(entry, filled, members, set)?;
        let origins = from.origins.iter().map(|(field, origin)| ((*field).to_owned(), told_origin(origin)));
        answer.insert("from".into(), Json::Object(origins.collect()));
        // without a moment all that stands in the record counts, also what is dated later than today
        answer.insert("at".into(), json!(at.map(|at| at.to_string())));
        Ok(answer)
    };
    match asked(&record, members).map_err(|refusal| vec![refusal])? {
        Asked::One(place) => at_place(place),
        Asked::All => {
            let each = (0..record.places().len()).map(|place| {
                let mut told = Map::new();
                told.insert("place".into(), json!(name_of(&record, place)));
                told.extend(at_place(place).unwrap_or_else(|refusals: Vec<Refusal>| refused(&refusals, set)));
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
            let count = record.places().len();
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

fn name_of(record: &Record, place: usize) -> Option<&str> {
    record.places().get(place)?.fields.word("place-name")
}

/// The record, and what is to be known of it.
fn opened(document: &Json) -> Result<(Record, Vec<Warning>), Vec<Refusal>> {
    let record = Record::from_document(document.clone())
        .map_err(|refused| vec![Refusal::of("record", refused.sentence())])?;
    let read_only = record.read_only().into_iter().map(|sentence| ("read-only", sentence));
    let faults = record.faults().iter().map(|fault| ("fault", fault.sentence()));
    let unknown = unknown(&record.document()).into_iter().map(|sentence| ("unknown-member", sentence));
    let warnings = read_only
        .chain(faults)
        .chain(unknown)
        .map(|(id, sentence)| Warning { field: "record", id, sentence, assumed: false })
        .collect();
    Ok((record, warnings))
}

/// The moment as of which is asked.
fn moment(members: &Map<String, Json>, member: &'static str) -> Result<Option<Moment>, Vec<Refusal>> {
    let refused = || {
        let sentence = Sentence::plain(
            "“{member}” is a moment with its offset from UTC, such as 2026-11-12T08:30+01:00",
        );
        vec![Refusal::of(member, sentence.with("member", Slot::Word(member)))]
    };
    match members.get(member) {
        None | Some(Json::Null) => Ok(None),
        Some(Json::String(text)) => Moment::read(text).map(Some).map_err(|_| refused()),
        Some(_) => Err(refused()),
    }
}

fn told_origin(origin: &Origin) -> Json {
    match origin {
        Origin::Ro => json!({ "from": "ro" }),
        Origin::Place(id) => json!({ "from": "place", "id": **id }),
        Origin::Event(event) => {
            json!({ "from": event.kind.id, "id": *event.id, "at": event.when.to_string(), "place": event.place.as_deref() })
        }
        Origin::Events(events) => {
            let ids: Vec<&str> = events.iter().map(|event| &*event.id).collect();
            json!({ "from": events.first().map(|event| event.kind.id), "ids": ids })
        }
        Origin::Series => json!({ "from": "series" }),
        Origin::Asked => json!({ "from": "at" }),
    }
}

/// What is true as of a moment: `{"record": {…}, "now": "2026-11-12T08:30+01:00"}`.
pub(super) fn now(members: &Map<String, Json>, set: UnitSet) -> Result<Map<String, Json>, Vec<Refusal>> {
    let (record, warnings) = opened(members.get("record").unwrap_or(&Json::Null))?;
    let Some(at) = moment(members, "now")? else {
        return Err(vec![Refusal::of("now", "\"now\" is the moment that is asked for")]);
    };
    let place = match asked(&record, members).map_err(|refusal| vec![refusal])? {
        Asked::One(place) => record.places().get(place).map(|place| &*place.id),
        Asked::All => return Err(vec![Refusal::of("places", "what is true now is asked for one place")]),
    };
    let now = record.now(at, place);
    let event = |event: &Event| record.json_of(event);
    let chosen = |chosen: &Option<Chosen>| {
        chosen.as_ref().map(|Chosen { by, reading }| json!({ "by": **by, "reading": event(reading) }))
    };
    let counted = |known: Known<f64>, kind: &'static Kind| match known {
        Ok(si) => {
            let unit = kind.unit(if set == UnitSet::Us { kind.us } else { kind.metric });
            json!({ "value": unit.of_si(si), "unit": unit.symbol })
        }
        Err(missing) => {
            json!({ "value": null, "missing": "not-known", "field": missing.field, "why": missing.why })
        }
    };
    let latest = now.latest.iter().map(|latest| (latest.kind.id.to_owned(), event(latest))).collect();
    let parts: Vec<Json> = now
        .parts
        .iter()
        .map(|part| {
            json!({
                "part": part.part.id, "changed": *part.changed.id, "days": part.days,
                "volume": counted(part.volume, &VOLUME), "sessions": counted(part.sessions, &NUMBER),
            })
        })
        .collect();
    let locks: Vec<Json> = now
        .locks
        .iter()
        .map(|lock| {
            json!({ "id": lock.reason.id(), "since": lock.since.when.to_string(), "event": *lock.since.id, "message": LockReason::NAMED.iter().find(|named| named.id == lock.reason.id()).map(|named| named.name) })
        })
        .collect();
    let due: Vec<Json> = now
        .due
        .iter()
        .map(|due| json!({ "kind": due.last.kind.id, "last": *due.last.id, "by": due.by.map(|day| day.to_string()) }))
        .collect();
    let pending: Vec<&str> = now.pending.iter().map(|sample| &*sample.id).collect();
    let warnings: Vec<Json> = warnings
        .iter()
        .map(|warning| json!({ "field": warning.field, "id": warning.id, "message": warning.sentence.show(set) }))
        .collect();
    Ok(Map::from_iter([
        ("now".to_owned(), json!(at.to_string())),
        ("place".to_owned(), json!(now.place.as_deref())),
        ("latest".to_owned(), Json::Object(latest)),
        ("anchor".to_owned(), json!(chosen(&now.anchor))),
        ("baseline".to_owned(), json!(chosen(&now.baseline))),
        ("parts".to_owned(), json!(parts)),
        ("locks".to_owned(), json!(locks)),
        ("pending".to_owned(), json!(pending)),
        ("due".to_owned(), json!(due)),
        (
            "limits".to_owned(),
            json!(now.limits.as_ref().map(|(set, by)| json!({ "limit-set": set, "by": **by }))),
        ),
        ("warnings".to_owned(), json!(warnings)),
    ]))
}

/// The place of that id or name; two of one name are told apart by their ids and numbers.
fn named(record: &Record, name: &str) -> Result<usize, Refusal> {
    if let Some(place) = record.place(name) {
        return Ok(place);
    }
    let name_of = |place| name_of(record, place).unwrap_or("");
    let found: Vec<usize> =
        (0..record.places().len()).filter(|place| name_of(*place).trim() == name.trim()).collect();
    match found.as_slice() {
        [place] => Ok(*place),
        [] => {
            let near = nearest::to(name, (0..record.places().len()).map(name_of));
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
                        // what RO and place hold for another sheet than the plan, and the fields of events
                        None if catalogue::SHEETS
                            .iter()
                            .any(|entry| entry.declaration.input(name).is_some())
                            || KINDS.iter().any(|kind| kind.field(name).is_some()) => {}
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
