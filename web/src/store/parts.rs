//! The parts in which a record lies in the store. A part is written once, under the revision that wrote it, and never over:
//! a state of the record is a list of parts with their revisions, and an earlier state shares with the present one all that
//! did not change since.
//!
//! A part goes when no state lists it any more. The head names the latest state that was put aside, so that one look at it
//! says whether a part that is replaced is still listed.

use super::database::{Transaction, key};
use super::{Head, Id, STATES, State, TEXTS, Trouble, opened, read_state, refused, state_key};
use calc::documents::record::{LARGEST, Record};
use serde_json::{Value as Json, json};
use std::collections::BTreeMap;
use wasm_bindgen::JsValue;

/// The parts of a state of a record, by their names.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Parts(BTreeMap<String, Written>);

/// One part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Written {
    /// Which revision of the record wrote it.
    by: u64,
    /// How long it is, in bytes.
    length: u64,
}

const FORMAT: &str = "tapside-parts";

impl Parts {
    pub(super) fn json(&self) -> Json {
        self.0.iter().map(|(name, part)| (name.clone(), json!([part.by, part.length]))).collect()
    }

    pub(super) fn read(json: &Json) -> Option<Self> {
        let part = |(name, part): (&String, &Json)| {
            let number = |index: usize| part.get(index).and_then(Json::as_u64);
            Some((name.clone(), Written { by: number(0)?, length: number(1)? }))
        };
        Some(Self(json.as_object()?.iter().map(part).collect::<Option<_>>()?))
    }

    /// As it is kept for an earlier state.
    pub(super) fn text(&self) -> String {
        json!({ "format": FORMAT, "parts": self.json() }).to_string()
    }

    /// The parts of an earlier state; none where an older program put the whole text aside.
    pub(super) fn of_state(text: &str) -> Option<Self> {
        // a whole text may be long, and says so in its first line
        let json: Json =
            serde_json::from_str(Some(text).filter(|text| text.starts_with("{\"format\":"))?).ok()?;
        (json.get("format")? == FORMAT).then(|| Self::read(json.get("parts")?)).flatten()
    }

    fn key(id: &Id, name: &str, part: Written) -> JsValue {
        key(&[id.text(), name], &[part.by as f64])
    }

    /// The record that they are.
    pub(super) async fn record(&self, look: &Transaction, id: &Id) -> Result<Record, Trouble> {
        let mut texts = BTreeMap::new();
        for (name, part) in &self.0 {
            if let Some(text) = look.value(TEXTS, &Self::key(id, name, *part)).await? {
                texts.insert(name.clone(), text.as_string().ok_or(Trouble::Foreign)?);
            }
        }
        match Record::from_parts(&texts) {
            Ok(record) if texts.len() == self.0.len() => Ok(record),
            found => {
                let why = found.err().unwrap_or(calc::documents::record::Refused::NotARecord);
                Err(refused(&why, texts.into_values().collect::<Vec<_>>().join("\n")))
            }
        }
    }
}

/// The present record.
pub(super) async fn present(look: &Transaction, head: &Head) -> Result<Record, Trouble> {
    match whole(look, &head.id).await? {
        Some(text) => opened(text.as_string().ok_or(Trouble::Foreign)?),
        None if head.parts == Parts::default() => Err(Trouble::Foreign),
        None => head.parts.record(look, &head.id).await,
    }
}

/// The whole text, where an older program saved the record last.
pub(super) async fn whole(look: &Transaction, id: &Id) -> Result<Option<JsValue>, Trouble> {
    Ok(look.value(TEXTS, &id.text().into()).await?)
}

/// An earlier state.
pub(super) async fn earlier(look: &Transaction, id: &Id, state: State) -> Result<Record, Trouble> {
    let text = look.value(STATES, &state_key(id, state)).await?.ok_or(Trouble::Gone)?;
    let text = text.as_string().ok_or(Trouble::Foreign)?;
    match Parts::of_state(&text) {
        Some(parts) => parts.record(look, id).await,
        None => opened(text),
    }
}

/// Writes what of a record is not as the store has it, for the revision of the head.
pub(super) fn put(
    change: &Transaction,
    head: &mut Head,
    record: &Record,
    before: Option<&Record>,
) -> Result<(), Trouble> {
    let id = head.id.clone();
    let is_listed = |part: &Written| part.by <= head.aside;
    let mut gone = Vec::new();
    let mut parts = head.parts.0.clone();
    // what is not listed yet is written, whatever this window believes
    let is_there = |before: &&Record| before.part_names().iter().all(|name| parts.contains_key(name));
    let before = before.filter(is_there);
    let names = record.part_names();
    parts.retain(|name, part| {
        let stays = names.contains(name);
        if !stays {
            gone.push((name.clone(), *part));
        }
        stays
    });
    let texts = record.parts_since(before);
    for (name, text) in &texts {
        let part = Written { by: head.revision, length: text.len() as u64 };
        if let Some(replaced) = parts.insert(name.clone(), part) {
            gone.push((name.clone(), replaced));
        }
    }
    if parts.values().map(|part| part.length).sum::<u64>() > LARGEST as u64 {
        return Err(Trouble::TooLarge);
    }
    for (name, text) in texts {
        change.put(TEXTS, &Parts::key(&id, &name, parts[&name]), &text.into())?;
    }
    for (name, part) in gone.iter().filter(|(_, part)| !is_listed(part)) {
        change.delete(TEXTS, &Parts::key(&id, name, *part))?;
    }
    head.parts = Parts(parts);
    // of an older program
    change.delete(TEXTS, &id.text().into())?;
    Ok(())
}

/// Puts the present state among the earlier ones, of which the oldest make room with the parts that no later one lists. A state
/// that lies there already is written over by itself.
pub(super) async fn put_aside(change: &Transaction, head: &Head) -> Result<(), Trouble> {
    let id = &head.id;
    let text = match whole(change, id).await? {
        Some(text) => text,
        None => head.parts.text().into(),
    };
    change.put(STATES, &state_key(id, State { revision: head.revision, saved: head.saved }), &text)?;
    let keys = change.keys_of(STATES, &[id.text()]).await?;
    for (oldest, next) in keys.iter().zip(&keys[1..]).take(keys.len().saturating_sub(super::RING)) {
        let (dropped, kept) = (listed(change, oldest).await?, listed(change, next).await?);
        change.delete(STATES, oldest)?;
        let (Some(dropped), Some(kept)) = (dropped, kept) else { continue };
        for (name, part) in &dropped.0 {
            if kept.0.get(name) != Some(part) {
                change.delete(TEXTS, &Parts::key(id, name, *part))?;
            }
        }
    }
    Ok(())
}

async fn listed(look: &Transaction, state: &JsValue) -> Result<Option<Parts>, Trouble> {
    debug_assert!(read_state(state).is_some(), "a key of ours");
    let text = look.value(STATES, state).await?.and_then(|text| text.as_string());
    Ok(text.and_then(|text| Parts::of_state(&text)))
}

/// What lies in the store of the parts of a record, whatever it is.
pub(super) async fn as_they_lie(look: &Transaction, id: &str) -> Result<Vec<JsValue>, Trouble> {
    let mut values = Vec::new();
    for key in look.keys_of(TEXTS, &[id]).await? {
        values.extend(look.value(TEXTS, &key).await?);
    }
    Ok(values)
}
