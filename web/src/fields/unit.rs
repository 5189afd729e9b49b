//! The choice of a unit.

use super::chosen_of;
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Field, Shape};
use yew::prelude::*;

/// The select beside a number, or over a column; nothing where there is no choice. `name` is what is measured, for who
/// does not see where the select stands.
pub fn unit_select(
    id: String,
    name: &'static str,
    units: Vec<&'static Unit>,
    unit: Option<&'static Unit>,
    on_unit: Callback<&'static Unit>,
) -> Html {
    if units.is_empty() {
        return Html::default();
    }
    let shown = unit.map_or("", |unit| unit.symbol);
    // The property follows the state after a person has chosen; the attribute is for the first time.
    let options = units.iter().map(|unit| {
        html! {
            <option value={unit.symbol} selected={unit.symbol == shown}>{ symbol(unit) }</option>
        }
    });
    let options: Html = options.collect();
    let onchange = Callback::from(move |event: Event| {
        let symbol = chosen_of(event);
        if let Some(unit) = units.iter().find(|unit| unit.symbol == symbol) {
            on_unit.emit(unit);
        }
    });
    html! {
        <select class="unit" {id} aria-label={fill(WORDS.unit_of, &[("name", name)])} ~value={shown} {onchange}>
            { options }
        </select>
    }
}

/// A fraction has no sign of its own.
fn symbol(unit: &'static Unit) -> &'static str {
    if unit.symbol == "1" { say(unit.words) } else { unit.shown() }
}

/// The units of a field: the one of this practice, that of the other, then the rest. None where there is no choice.
pub fn units_of(field: &'static Field, set: UnitSet) -> Vec<&'static Unit> {
    let Shape::Number(kind) = field.shape else { return Vec::new() };
    if kind.is_bare() {
        return Vec::new();
    }
    let us = set == UnitSet::Us;
    let mut units: Vec<&'static Unit> = Vec::with_capacity(kind.units.len());
    let usual = [field.term.unit(us), field.term.unit(!us)];
    for unit in usual.into_iter().flatten().chain(kind.units) {
        if !units.iter().any(|other| other.symbol == unit.symbol) {
            units.push(unit);
        }
    }
    units
}
