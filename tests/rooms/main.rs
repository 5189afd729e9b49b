//! The three invented rooms, against answers that were worked out by hand.
//!
//! By hand: correction factors A of exp(K · (1/298.15 − 1/T)), K = 3020 below and 2640 above 25 °C; capacity = product ·
//! ratio · 0.85; feed = product + set reject; p(Q) = p₀ − (p₀ − p₁)(Q/Q₁)². Each number within the rounding it was written
//! down with.

mod answers;
mod changed;

use calc::documents::json;
use serde_json::{Value, json};

/// A record put to the plan, after some of the RO's and the place's fields were set anew.
pub fn request(record: &str, units: &str, changes: &[(&str, Value)]) -> Value {
    let mut record: Value = serde_json::from_str(record).expect("the examples are JSON");
    for (field, value) in changes {
        // product and reject are those of the reading that was chosen for the plan
        let events = record["events"].as_array_mut().expect("events");
        let choice = events
            .iter()
            .find(|event| event["kind"] == "reference-chosen")
            .map(|choice| choice["of"].clone());
        let anchor = events.iter_mut().find(|event| Some(&event["id"]) == choice.as_ref());
        if let (Some(anchor), "product-flow" | "reject-flow") = (anchor, *field) {
            anchor["fields"][*field] = value.clone();
            continue;
        }
        record["ro"].as_object_mut().expect("an RO").shift_remove(*field);
        record["places"][0][*field] = value.clone();
    }
    json!({"sheet": "plan", "record": record, "units": units})
}

/// The plan's answer to it.
pub fn plan(record: &str, units: &str, changes: &[(&str, Value)]) -> Value {
    json::answer_request(&request(record, units, changes))
}

/// The number at `output`, or at `output/row/column`, where a row is found by its first cell.
pub fn number(answer: &Value, path: &str) -> (f64, String) {
    let mut parts = path.split('/');
    let mut at = &answer["outputs"][parts.next().unwrap_or_default()];
    if let (Some(row), Some(column)) = (parts.next(), parts.next()) {
        let rows = at["value"].as_array().unwrap_or_else(|| panic!("{path}: no table in {at}"));
        let named =
            |cells: &&Value| ["season", "month", "analyte"].iter().any(|key| cells[*key]["value"] == row);
        at = &rows.iter().find(named).unwrap_or_else(|| panic!("{path}: no such row"))[column];
    }
    let value = at["value"].as_f64().unwrap_or_else(|| panic!("{path}: no number in {at}"));
    (value, at["unit"].as_str().unwrap_or_default().to_owned())
}

/// Compares within half a unit of the last digit that stands in `expected`.
#[track_caller]
pub fn is(answer: &Value, path: &str, expected: &str) {
    let (digits, unit) = expected.split_once(' ').unwrap_or((expected, ""));
    let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let wanted: f64 = digits.parse().expect("a number");
    let (value, found) = number(answer, path);
    let value = if (found.as_str(), unit) == ("min", "s") { value * 60.0 } else { value };
    let half = 0.5 * 10f64.powi(-(decimals as i32)) * (1.0 + 1e-9);
    assert!((value - wanted).abs() <= half, "{path}: {value} {found}, by hand {expected}");
    assert!(found == unit || (found == "min" && unit == "s"), "{path}: in {found}, by hand in {unit}");
}

/// The state of a check.
#[track_caller]
pub fn state(answer: &Value, check: &str) -> String {
    let checks = answer["checks"].as_array().expect("checks");
    let check =
        checks.iter().find(|other| other["id"] == check).unwrap_or_else(|| panic!("no check {check}"));
    check["state"].as_str().unwrap_or_default().to_owned()
}

/// A cold reservoir.
pub const COLD: &str = include_str!("../../examples/ostrin-vale.json");
/// Hot, hard desert water.
pub const WARM: &str = include_str!("../../examples/quillon-flats.json");
/// A well with little pressure.
pub const WELL: &str = include_str!("../../examples/tolby-marsh.json");
