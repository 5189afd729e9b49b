//! The JSON Schema of a record, generated from the declarations: what this version writes. More may stand in a record.
//!
//! `REWRITE_SCHEMA=1 cargo test -p tests --test record` writes it to `examples/record.schema.json`.

use super::kinds::{INSTRUMENT, KINDS, Names};
use super::{FORMAT, VERSION};
use crate::documents::reading::LONGEST_TEXT;
use crate::engine::quantity::Kind;
use crate::engine::sheet::{Field, Shape};
use crate::program::catalogue;
use serde_json::{Map, Value as Json, json};

/// The schema (JSON Schema 2020-12) of a record of this version. RO and places hold the fields of the plan, each event those
/// of its kind.
pub fn schema() -> Json {
    let plan = catalogue::find("plan").map_or(&[][..], |entry| entry.declaration.inputs);
    let moment = json!({ "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}" });
    let mut definitions = Map::from_iter([
        ("fields".to_owned(), json!({ "type": "object", "properties": properties(plan) })),
        (
            "place".to_owned(),
            json!({ "type": "object", "required": ["id"], "properties": { "id": { "type": "string" } }, "$ref": "#/$defs/fields" }),
        ),
        (
            "instrument".to_owned(),
            json!({ "type": "object", "required": ["id"], "properties": with_id(properties(INSTRUMENT)) }),
        ),
        (
            "sheet".to_owned(),
            json!({
                "description": "What was typed into a sheet. With “kept” it stands there as it was then; else it is being worked on.",
                "type": "object",
                "required": ["id", "sheet", "fields"],
                "properties": {
                    "id": { "type": "string" },
                    "sheet": { "enum": catalogue::SHEETS.iter().map(|entry| entry.declaration.id).collect::<Vec<_>>() },
                    "kept": moment,
                    "place": { "description": "Of a kept sheet, the place at which the RO was then.", "type": "string" },
                    "fields": { "type": "object" },
                    "from": {
                        "description": "The fields that nobody typed, each with where it was filled from.",
                        "type": "object",
                        "additionalProperties": {
                            "type": "object",
                            "required": ["from"],
                            "properties": {
                                "from": { "enum": ["ro", "place", "event", "events", "series", "sheet"] },
                                "id": { "type": "string" },
                                "ids": { "description": "Of each row its event.", "type": "array", "items": { "type": "string" } },
                            },
                        },
                    },
                },
            }),
        ),
        ("event".to_owned(), event(&moment)),
    ]);
    let mut numbers = kinds(plan);
    for kind in KINDS {
        let fields = json!({ "type": "object", "properties": properties(kind.fields) });
        definitions.insert(format!("fields-of-{}", kind.id), fields);
        numbers.extend(kinds(kind.fields));
    }
    for kind in numbers {
        definitions.entry(definition(kind)).or_insert_with(|| number(kind));
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Record of one RO: its places, instruments, sheets and events",
        "type": "object",
        "required": ["format", "version"],
        "properties": {
            "format": { "const": FORMAT },
            "version": { "const": VERSION },
            "id": { "description": "Drawn when the record was begun: two files of one id are two states of one record.", "type": "string" },
            "invented": { "description": "True where RO and places are no real ones.", "type": "boolean" },
            "ro": { "$ref": "#/$defs/fields" },
            "places": { "type": "array", "items": { "$ref": "#/$defs/place" } },
            "instruments": { "type": "array", "items": { "$ref": "#/$defs/instrument" } },
            "sheets": { "type": "array", "items": { "$ref": "#/$defs/sheet" } },
            "events": { "type": "array", "items": { "$ref": "#/$defs/event" } },
        },
        "$defs": definitions,
    })
}

fn event(moment: &Json) -> Json {
    let of_kind = |kind: &&'static super::kinds::Kind| {
        let required: &[&str] = if kind.of == Names::Nothing { &[] } else { &["of"] };
        let mut then = json!({ "title": kind.name });
        // of a correction they are those of what it corrects, and a report may come without its sample
        if kind.id != "correction" {
            then["properties"] = json!({ "fields": { "$ref": format!("#/$defs/fields-of-{}", kind.id) } });
        }
        if ["correction", "reference-chosen"].contains(&kind.id) {
            then["required"] = json!(required);
        }
        json!({ "if": { "properties": { "kind": { "const": kind.id } } }, "then": then })
    };
    json!({
        "description": "What happened. It is never changed: a correction is an event that names what it corrects.",
        "type": "object",
        "required": ["id", "kind", "at"],
        "properties": {
            "id": { "type": "string", "minLength": 1 },
            "kind": { "enum": KINDS.iter().map(|kind| kind.id).collect::<Vec<_>>() },
            "at": { "description": "When it happened, with the offset from UTC; a day alone where nobody wrote down the hour.",
                "type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}($|T[0-9]{2}:[0-9]{2})" },
            "typed": moment,
            "place": { "description": "The id of one of the places.", "type": "string" },
            "of": { "description": "The id of the event or instrument that it names.", "type": "string" },
            "who": { "description": "Initials or role, never a patient.", "type": "string" },
            "note": { "type": "string" },
            "fields": { "type": "object" },
            "becomes": { "description": "Of a correction, what else it changes.", "type": "object" },
        },
        "allOf": KINDS.iter().map(of_kind).collect::<Vec<_>>(),
    })
}

fn with_id(mut properties: Map<String, Json>) -> Map<String, Json> {
    properties.insert("id".to_owned(), json!({ "type": "string" }));
    properties
}

fn properties(fields: &'static [Field]) -> Map<String, Json> {
    fields.iter().map(|field| (field.id.to_owned(), property(field))).collect()
}

fn property(field: &'static Field) -> Json {
    let mut told = Map::from_iter([("title".to_owned(), json!(field.term.name))]);
    if !field.term.help.is_empty() {
        told.insert("description".into(), json!(field.term.help));
    }
    let shape = match field.shape {
        Shape::Number(kind) if field.term.below => json!({
            "$ref": format!("#/$defs/{}", definition(kind)),
            "properties": { "below": { "description": "True where it is less than the value.", "type": "boolean" } },
        }),
        Shape::Number(kind) => json!({ "$ref": format!("#/$defs/{}", definition(kind)) }),
        Shape::Choice(choices) => json!({ "enum": choices.iter().map(|one| one.id).collect::<Vec<_>>() }),
        Shape::Date => json!({ "type": "string", "format": "date" }),
        Shape::Moment => json!({ "type": "string" }),
        Shape::Text => json!({ "type": "string", "maxLength": LONGEST_TEXT }),
        Shape::Table(columns) => {
            json!({ "type": "array", "items": { "type": "object", "properties": properties(columns) } })
        }
    };
    told.extend(shape.as_object().cloned().unwrap_or_default());
    Json::Object(told)
}

/// Every kind of number in these fields, once.
fn kinds(fields: &'static [Field]) -> Vec<&'static Kind> {
    let mut found: Vec<&'static Kind> = Vec::new();
    for field in fields {
        let of_field = match field.shape {
            Shape::Number(kind) => vec![kind],
            Shape::Table(columns) => kinds(columns),
            _ => Vec::new(),
        };
        for kind in of_field {
            if !found.contains(&kind) {
                found.push(kind);
            }
        }
    }
    found
}

fn definition(kind: &Kind) -> String {
    format!("number-{}", kind.id)
}

/// A number as it was typed, with what was read; value and unit are null where it could not be read.
fn number(kind: &'static Kind) -> Json {
    let units: Vec<Json> = kind.units.iter().map(|unit| json!(unit.symbol)).chain([Json::Null]).collect();
    json!({
        "type": "object",
        "required": ["typed", "value", "unit"],
        "properties": {
            "typed": { "type": "string" },
            "value": { "type": ["number", "null"] },
            "unit": { "enum": units },
        },
    })
}
