//! From version 1, where readings named their place and one of them was marked: places get ids, readings become events that
//! name these, and the mark becomes an event that names its reading.

use super::Fault;
use serde_json::{Map, Value as Json, json};

/// What of the RO the marked reading stood for; typed with the RO it did not count beside one.
const MEASURED: [&str; 3] = ["product-flow", "reject-flow", "anchor-temperature"];

/// A document of version 1 as one of version 2, and what has to be known of it.
pub(super) fn from_1(mut document: Map<String, Json>) -> (Map<String, Json>, Vec<Fault>) {
    let mut faults = Vec::new();
    let mut take = |member: &str| match document.shift_remove(member) {
        Some(Json::Array(items)) => items,
        _ => Vec::new(),
    };
    let (mut places, readings) = (take("places"), take("readings"));
    let mut names = Vec::new();
    for (index, place) in places.iter_mut().enumerate() {
        let id = format!("place-{}", index + 1);
        names.push((place.get("place-name").and_then(Json::as_str).map(str::to_owned), id.clone()));
        if let Json::Object(members) = place {
            set_id(members, &id);
        }
    }
    let is_marked = |reading: &Json| reading.get("anchor") == Some(&Json::Bool(true));
    if readings.iter().any(is_marked) {
        let ro = document.get_mut("ro").into_iter();
        for part in ro.chain(&mut places).filter_map(Json::as_object_mut) {
            let aside: Map<String, Json> =
                MEASURED.iter().filter_map(|id| Some(((*id).to_owned(), part.shift_remove(*id)?))).collect();
            if !aside.is_empty() {
                part.insert("not-in-use".into(), Json::Object(aside));
                faults.push(Fault::NotInUse);
            }
        }
    }
    let mut events = Vec::new();
    for (index, reading) in readings.into_iter().enumerate() {
        let Json::Object(mut fields) = reading else { continue };
        let marked = is_marked(&Json::Object(fields.clone()));
        let id = format!("reading-{}", index + 1);
        let mut event = Map::from_iter([("id".to_owned(), json!(id)), ("kind".to_owned(), json!("reading"))]);
        fields.shift_remove("anchor");
        if let Some(date) = fields.shift_remove("date") {
            event.insert("at".into(), date);
        }
        if let Some(place) = fields.shift_remove("place") {
            let named: Vec<_> = names.iter().filter(|(name, _)| name.as_deref() == place.as_str()).collect();
            match named.as_slice() {
                [(_, id)] if place.is_string() => {
                    event.insert("place".into(), json!(id));
                }
                _ => {
                    let fault = Fault::NameOfNoPlace(place.as_str().unwrap_or_default().to_owned());
                    if !faults.contains(&fault) {
                        faults.push(fault);
                    }
                    event.insert("place-named".into(), place);
                }
            }
        }
        if fields.get("note").is_some_and(Json::is_string)
            && let Some(note) = fields.shift_remove("note")
        {
            event.insert("note".into(), note);
        }
        let choice = marked.then(|| {
            let mut choice = event.clone();
            choice.shift_remove("note");
            choice.insert("id".into(), json!(format!("anchor-{}", index + 1)));
            choice.insert("kind".into(), json!("reference-chosen"));
            choice.insert("of".into(), json!(id));
            choice.insert("fields".into(), json!({ "reference": "anchor" }));
            Json::Object(choice)
        });
        event.insert("fields".into(), Json::Object(fields));
        events.push(Json::Object(event));
        events.extend(choice);
    }
    document.insert("version".into(), json!(super::VERSION));
    document.insert("places".into(), Json::Array(places));
    document.insert("events".into(), Json::Array(events));
    (document, faults)
}

/// A place of version 1 may have a member of that name, which nobody knew.
fn set_id(members: &mut Map<String, Json>, id: &str) {
    if let Some(other) = members.shift_remove("id") {
        members.insert("former-id".into(), other);
    }
    members.insert("id".into(), json!(id));
}
