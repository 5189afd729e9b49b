//! What was typed as JSON text, for the person who needs it when the program stops.

use super::{Entry, Filling, Rows, named_unit};
use calc::quantity::Unit;
use calc::sheet::{Declaration, Field, Shape};
use serde_json::{Map, Value as Json};

/// What was typed into a sheet, under the ids of its fields; numbers with their units. Empty where nothing was typed.
pub fn kept(declaration: &'static Declaration, filling: &Filling) -> String {
    let members: Map<String, Json> = declaration
        .inputs
        .iter()
        .filter_map(|field| {
            let json = match filling.entries.get(field.id)?.as_ref() {
                Entry::One(typed) if typed.is_empty() => return None,
                Entry::One(typed) => Json::String(with_unit(field, &typed.text, typed.unit)),
                Entry::Rows(rows) if rows.counted() == 0 => return None,
                Entry::Rows(rows) => table(field, rows),
            };
            Some((field.id.to_owned(), json))
        })
        .collect();
    if members.is_empty() { String::new() } else { Json::Object(members).to_string() }
}

fn table(field: &'static Field, rows: &Rows) -> Json {
    let Shape::Table(columns) = field.shape else { return Json::Null };
    let row = |row: usize| {
        let cell = |(index, column): (usize, &'static Field)| {
            let text = rows.text(row, index);
            (!text.trim().is_empty())
                .then(|| (column.id.to_owned(), Json::String(with_unit(column, text, rows.unit(index)))))
        };
        Json::Object(columns.iter().enumerate().filter_map(cell).collect())
    };
    Json::Array((0..rows.counted()).map(row).collect())
}

/// The text as it was typed, with the unit beside it unless it names its own.
fn with_unit(field: &'static Field, text: &str, unit: Option<&'static Unit>) -> String {
    let text = text.trim();
    // Asked first what costs nothing: this runs at every key press for every field.
    let bare = |text: &str| text.ends_with(|c: char| c.is_ascii_digit()) || named_unit(field, text).is_none();
    match unit {
        Some(unit) if bare(text) => format!("{text} {}", unit.symbol),
        _ => text.to_owned(),
    }
}
