//! The working as JSON: each step with its formula in symbols and in numbers.

use crate::engine::quantity::UnitSet;
use crate::engine::sheet::formula::{self, Node};
use crate::engine::sheet::{Bound, How, Step};
use serde_json::{Number, Value as Json, json};

/// One step. Its numbers stand in one coherent set of units: the wished one where the formula holds in it, else SI.
/// A `procedure` has no formula; what was `done` is said instead.
pub fn step(step: &Step, wished: UnitSet) -> Json {
    let set = step.coherent(wished);
    let unit = step.unit(set);
    let value = unit.of_si(step.result.value);
    let symbol = step.result.symbol;
    let result = format!("{} {}", formula::shown(value), unit.symbol);
    let numbers_give = |numbers: String| format!("{symbol} = {numbers} = {}", result.trim_end());
    let (how, formula, with_numbers, done) = match &step.how {
        How::Formula { text, .. } => {
            let node = step.node();
            let symbols =
                node.as_ref().map_or_else(|| (*text).to_owned(), |node| in_symbols(step, node, set));
            let numbers = node.map(|node| numbers_give(in_numbers(step, &node, set)));
            ("formula", Some(symbols), numbers, None)
        }
        How::Conversion { from } => {
            let numbers = numbers_give(with_unit(from, set));
            ("conversion", Some(from.symbol.to_owned()), Some(numbers), None)
        }
        How::Procedure { what } => ("procedure", None, None, Some(what.show(set))),
    };
    json!({
        "sheet": step.sheet,
        "case": super::named(step.case.id),
        "season": super::named(step.season.id),
        "name": name_in_words(step.result.name),
        "symbol": symbol,
        "how": how,
        "formula": formula.map(|formula| format!("{symbol} = {formula}")),
        "with-numbers": with_numbers,
        "done": done,
        "where": used(step).iter().map(|bound| bound_json(bound, set)).collect::<Vec<_>>(),
        "value": Number::from_f64(value),
        "unit": unit.symbol,
    })
}

fn in_symbols(step: &Step, node: &Node, set: UnitSet) -> String {
    node.text(set, &|name| step.bound(name).map_or(name, |bound| bound.symbol).to_owned())
}

fn in_numbers(step: &Step, node: &Node, set: UnitSet) -> String {
    node.text(set, &|name| step.bound(name).map_or_else(|| name.to_owned(), |bound| shown(bound, set)))
}

/// What a name of the code says: `in_first` is `in first`.
pub fn name_in_words(name: &str) -> String {
    name.replace('_', " ")
}

/// The values that the step uses.
fn used(step: &Step) -> Vec<Bound> {
    match &step.how {
        How::Formula { bound, .. } => bound.clone(),
        How::Conversion { from } => vec![*from],
        How::Procedure { .. } => Vec::new(),
    }
}

fn bound_json(bound: &Bound, set: UnitSet) -> Json {
    let unit = bound.kind.unit_in(set);
    json!({
        "name": name_in_words(bound.name),
        "symbol": bound.symbol,
        "value": Number::from_f64(unit.of_si(bound.value)),
        "unit": unit.symbol,
    })
}

/// The number within a formula; one that has a sign or a power of ten in parentheses.
fn shown(bound: &Bound, set: UnitSet) -> String {
    let text = formula::shown(bound.kind.unit_in(set).of_si(bound.value));
    if text.starts_with('−') || text.contains('×') { format!("({text})") } else { text }
}

fn with_unit(bound: &Bound, set: UnitSet) -> String {
    let unit = bound.kind.unit_in(set);
    format!("{} {}", formula::shown(unit.of_si(bound.value)), unit.symbol)
}
