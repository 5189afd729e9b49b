//! What was typed as text, for the person who needs it when the program stops.

use calc::documents::record::{Entries, Held, Rows, named_unit};
use calc::engine::quantity::Unit;
use calc::engine::sheet::{Declaration, Field, Shape};
use serde_json::Value as Json;
use std::rc::Rc;

/// What stands in those fields that changed since `before`, numbers with their units, tables as JSON; empty where nothing
/// stands there any more. Without a `before` that is every field.
pub fn kept(
    declaration: &'static Declaration,
    before: Option<&Entries>,
    now: &Entries,
) -> Vec<(&'static str, String)> {
    let is_same = |field: &Field| match (before.map(|before| before.get(field.id)), now.get(field.id)) {
        (Some(Some(before)), Some(now)) => Rc::ptr_eq(before, now),
        (Some(None), None) => true,
        _ => false,
    };
    let changed = declaration.inputs.iter().filter(|field| !is_same(field));
    changed
        .map(|field| (field.id, now.get(field.id).map_or_else(String::new, |held| text(field, held))))
        .collect()
}

fn text(field: &'static Field, held: &Held) -> String {
    match held {
        Held::One(typed) if typed.is_empty() => String::new(),
        Held::One(typed) => with_unit(field, typed.shown(), typed.unit),
        Held::Rows(rows) if rows.counted() == 0 => String::new(),
        Held::Rows(rows) => table(field, rows).to_string(),
    }
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
    // Asked first what costs nothing.
    let bare = |text: &str| text.ends_with(|c: char| c.is_ascii_digit()) || named_unit(field, text).is_none();
    match unit {
        Some(unit) if bare(text) => format!("{text} {}", unit.symbol),
        _ => text.to_owned(),
    }
}
