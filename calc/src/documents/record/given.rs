//! From where a field of a sheet was filled, when nobody typed it. It is kept with the sheet by ids, never as words, and holds
//! until something else stands in the field.

use super::{Id, Origin};
use crate::program::catalogue;
use serde_json::{Map, Value as Json, json};
use std::collections::BTreeMap;
use std::rc::Rc;

/// From where a field was filled.
#[derive(Debug, Clone, PartialEq)]
pub enum Given {
    /// From what is typed with the RO.
    Ro,
    /// From what is typed with a place.
    Place(Id),
    /// From an event.
    Event(Id),
    /// A row from each of these events.
    Events(Vec<Id>),
    /// It follows from the series that was chosen.
    Series,
    /// Worked out by another sheet.
    Sheet(&'static str),
}

/// The fields of a sheet that nobody typed, by their ids.
pub type Givens = BTreeMap<&'static str, Given>;

impl Given {
    /// The same as a record says it; what was asked for is typed by nobody and kept by nobody.
    pub fn of(origin: &Origin) -> Option<Given> {
        match origin {
            Origin::Ro => Some(Given::Ro),
            Origin::Place(id) => Some(Given::Place(Rc::clone(id))),
            Origin::Event(event) => Some(Given::Event(Rc::clone(&event.id))),
            Origin::Events(events) => {
                Some(Given::Events(events.iter().map(|event| Rc::clone(&event.id)).collect()))
            }
            Origin::Series => Some(Given::Series),
            Origin::Asked => None,
        }
    }

    fn read(member: &Json) -> Option<Given> {
        let id = || member.get("id").and_then(Json::as_str);
        match member.get("from")?.as_str()? {
            "ro" => Some(Given::Ro),
            "place" => Some(Given::Place(id()?.into())),
            "event" => Some(Given::Event(id()?.into())),
            "events" => {
                let ids = member.get("ids")?.as_array()?.iter();
                Some(Given::Events(ids.map(|id| id.as_str().map(Id::from)).collect::<Option<_>>()?))
            }
            "series" => Some(Given::Series),
            "sheet" => Some(Given::Sheet(catalogue::find(id()?)?.declaration.id)),
            _ => None,
        }
    }

    fn json(&self) -> Json {
        match self {
            Given::Ro => json!({ "from": "ro" }),
            Given::Place(id) => json!({ "from": "place", "id": **id }),
            Given::Event(id) => json!({ "from": "event", "id": **id }),
            Given::Events(ids) => {
                json!({ "from": "events", "ids": ids.iter().map(|id| &**id).collect::<Vec<_>>() })
            }
            Given::Series => json!({ "from": "series" }),
            Given::Sheet(id) => json!({ "from": "sheet", "id": id }),
        }
    }
}

/// Takes out of the members of a filled sheet what this version knows; the rest stays there.
pub(super) fn open(
    members: &mut Map<String, Json>,
    field: impl Fn(&str) -> Option<&'static str>,
) -> Rc<Givens> {
    let Some(Json::Object(from)) = members.get_mut("from") else { return Rc::default() };
    let known: Givens =
        from.iter().filter_map(|(id, member)| Some((field(id)?, Given::read(member)?))).collect();
    from.retain(|id, _| !known.contains_key(id.as_str()));
    if from.is_empty() {
        members.shift_remove("from");
    }
    Rc::new(known)
}

/// As they stand in a file, with what was left there.
pub(super) fn json(givens: &Givens, left: Option<&Json>) -> Option<Json> {
    let left = left.and_then(Json::as_object).into_iter().flatten();
    let left = left.map(|(id, member)| (id.clone(), member.clone()));
    let all: Map<String, Json> =
        givens.iter().map(|(id, given)| ((*id).to_owned(), given.json())).chain(left).collect();
    (!all.is_empty()).then_some(Json::Object(all))
}
