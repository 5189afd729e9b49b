//! The JSON Schema of a record, generated from the declarations: what this version writes. More may stand in a record.
//!
//! `REWRITE_SCHEMA=1 cargo test -p tests --test record` writes it to `examples/record.schema.json`.

use super::{FORMAT, VERSION};
use crate::documents::reading::LONGEST_TEXT;
use crate::engine::quantity::Kind;
use crate::engine::sheet::{Field, Shape};
use crate::program::catalogue;
use serde_json::{Map, Value as Json, json};

/// The schema (JSON Schema 2020-12) of a record of this version. RO and places hold the fields of the plan.
pub fn schema() -> Json {
    let fields = catalogue::find("plan").map_or(&[][..], |entry| entry.declaration.inputs);
    let mut definitions = Map::from_iter([
        ("fields".to_owned(), json!({ "type": "object", "properties": properties(fields) })),
        (
            "reading".to_owned(),
            json!({
                "description": "What was read on one day at one place. One reading may be marked as the anchor, at which the RO was measured: its temperature, product and reject flow.",
                "type": "object",
                "required": ["date", "place"],
                "properties": {
                    "date": { "type": "string", "format": "date" },
                    "place": { "description": "The name of one of the places.", "type": "string" },
                    "anchor": { "type": "boolean" },
                },
                "$ref": "#/$defs/fields",
            }),
        ),
    ]);
    for kind in kinds(fields) {
        definitions.insert(definition(kind), number(kind));
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Record of one RO with its places and readings",
        "type": "object",
        "required": ["format", "version"],
        "properties": {
            "format": { "const": FORMAT },
            "version": { "const": VERSION },
            "invented": { "description": "True where RO and places are no real ones.", "type": "boolean" },
            "ro": { "$ref": "#/$defs/fields" },
            "places": { "type": "array", "items": { "$ref": "#/$defs/fields" } },
            "readings": { "type": "array", "items": { "$ref": "#/$defs/reading" } },
        },
        "$defs": definitions,
    })
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
