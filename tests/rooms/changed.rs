//! What a room's answers become when something is changed: by a lever that mends a check, by a field that is left empty.

use crate::{COLD, WARM, WELL, plan, request};
use calc::documents::json;
use serde_json::{Value, json};

/// What it takes of one lever to mend a check, in the unit of the answer, and what that would worsen.
#[track_caller]
fn mend(
    record: &str,
    units: &str,
    changes: &[(&str, Value)],
    check: &str,
    lever: &str,
) -> (f64, Vec<String>) {
    let mut request = request(record, units, changes);
    request["mends"] = json!(true);
    let answer = json::answer_request(&request);
    let mends = answer["mends"].as_array().unwrap_or_else(|| panic!("no mends in {answer}"));
    let one = mends.iter().find(|mend| mend["check"] == check && mend["field"] == lever);
    let one = one.unwrap_or_else(|| panic!("{check} has no mend by {lever}"));
    let worsens = one["worsens"].as_array().into_iter().flatten().filter_map(Value::as_str);
    (one["to"]["value"].as_f64().unwrap_or(f64::NAN), worsens.map(str::to_owned).collect())
}

#[test]
fn a_mend_says_what_it_breaks() {
    // half recovery in August: reject = product there, 0.28 · 1.816 = 0.5086 gal/min; contact falls to 5.1 min, and the
    // softener lasts 6.4 h instead of 8.2
    let bound = [("highest-recovery", json!("50 %")), ("rule", json!("contact-time"))];
    let (reject, worsens) = mend(WARM, "us", &bound, "recovery", "reject-flow");
    assert!((reject - 0.5086).abs() < 0.0005, "{reject}");
    assert_eq!(worsens, ["softener-capacity", "contact-time-running", "final-contact-time-running"]);
}

#[test]
fn levers_mend_as_by_hand() {
    let (tempered, worsens) = mend(COLD, "si", &[], "capacity-coldest", "tempered-temperature");
    assert!((tempered - 4.96).abs() < 0.005 && worsens.is_empty(), "{tempered} {worsens:?}");
    // August flush at 5.147 L/min: 2.1 − 0.55 · 0.5147² = 1.9543 bar at the tap, 0.2 · (5.147/3)^1.75 = 0.5145 in the line,
    // so the filter may take 0.4398 bar there: over 1.7158 · 0.7734 (flow, viscosity of 22 and 12 °C) 0.331 at 3.0 L/min
    let loaded = [("filter-drop", json!("0.40 bar"))];
    let (drop, _) = mend(WELL, "si", &loaded, "inlet-pressure-flush", "filter-drop");
    assert!((drop - 0.331).abs() < 0.0005, "{drop}");
    // ten minutes of 3.647 L/min
    let (bed, _) = mend(WELL, "si", &[], "contact-time-running", "bed-volume");
    assert!((bed - 36.47).abs() < 0.01, "{bed}");
}

/// Which outputs may change when a field is emptied; all others must not.
const NEEDED_BY: &[(&str, &[&str])] = &[
    (
        "machines",
        &[
            "sessions-that-fit",
            "day-time",
            "day-course",
            "spare-time",
            "carbon-days",
            "carbon-whole-sessions",
            "day-feed-volume",
            "bought-volume",
            "session-cost",
            "demand",
            "lowest-workable-temperature",
            "allowances",
            "months",
            "drained",
        ],
    ),
    (
        "dialysate-flow",
        &[
            "bought-volume",
            "session-cost",
            "demand",
            "lowest-workable-temperature",
            "allowances",
            "months",
            "drained",
            "needed-heater-power",
            "inlet-temperature",
        ],
    ),
    ("peak-draw", &["demand", "lowest-workable-temperature", "allowances", "months", "drained"]),
    ("shut-pressure", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("open-flow", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("open-pressure", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("least-inlet-pressure", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("filter-drop", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("filter-drop-flow", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("filter-drop-temperature", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("line-drop", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    ("line-drop-flow", &["inlet", "line-spare", "filter-limits", "lowest-filter-limit"]),
    (
        "total-chlorine",
        &["combined-chlorine", "carbon-life", "carbon-whole-sessions", "carbon-days", "day-course"],
    ),
    ("bed-volume", &["carbon", "carbon-life", "carbon-whole-sessions", "carbon-days", "day-course"]),
    ("source", &[]),
    ("feed-report", &["scale", "contaminants"]),
    ("feed-ph", &["scale"]),
    ("limit-set", &[]),
    (
        "time-around-session",
        &[
            "sessions-that-fit",
            "day-time",
            "day-course",
            "spare-time",
            "carbon-days",
            "carbon-whole-sessions",
            "day-feed-volume",
            "bought-volume",
            "session-cost",
        ],
    ),
    ("day-hours", &["sessions-that-fit", "spare-time"]),
    ("water-price", &[]),
    ("building-dosing", &[]),
    ("disinfectant", &[]),
    ("conductivity", &["low-salt", "high-salt"]),
    ("resin-volume", &["scale", "contaminants", "softener", "softener-hours"]),
    ("carbon-kind", &["carbon-life", "carbon-whole-sessions", "carbon-days", "day-course"]),
    ("cartridges", &[]),
    ("cartridge-length", &[]),
    ("heater-power", &[]),
    ("breaker-rating", &[]),
    ("drain-flow", &[]),
    ("machine-effluent", &["drained"]),
    ("surplus", &["drained"]),
    (
        "flush-reject-flow",
        &[
            "needed-ten-inch-equivalents",
            "flush-warmest",
            "seasons",
            "inlet",
            "line-spare",
            "filter-limits",
            "lowest-filter-limit",
            "carbon",
            "months",
            "drained",
        ],
    ),
    (
        "months",
        &[
            "contaminants",
            "scale",
            "day-feed-volume",
            "bought-volume",
            "session-cost",
            "needed-ten-inch-equivalents",
            "product-coldest",
            "capacity-coldest",
            "feed-warmest",
            "flush-warmest",
            "recovery-warmest",
            "allowances",
            "form-band",
            "seasons",
            "inlet",
            "line-spare",
            "filter-limits",
            "lowest-filter-limit",
            "carbon",
            "softener",
            "softener-hours",
            "carbon-life",
            "carbon-days",
            "carbon-whole-sessions",
            "day-course",
            "months",
            "drained",
            "needed-heater-power",
            "inlet-temperature",
        ],
    ),
    (
        "tap-temperature",
        &[
            "needed-ten-inch-equivalents",
            "seasons",
            "inlet",
            "line-spare",
            "filter-limits",
            "carbon",
            "softener",
            "softener-hours",
            "carbon-life",
            "drained",
        ],
    ),
];

#[test]
fn an_empty_field_stops_only_the_stages_that_need_it() {
    let whole = plan(WELL, "si", &[]);
    let outputs = whole["outputs"].as_object().expect("outputs");
    for (field, needing) in NEEDED_BY {
        let blanked = plan(WELL, "si", &[(field, Value::Null)]);
        for (id, before) in outputs {
            let after = &blanked["outputs"][id];
            if !needing.contains(&id.as_str()) {
                assert_eq!(after, before, "without {field}, {id} has changed");
            }
        }
        // what is missing now names the very field
        let text = blanked["outputs"].to_string();
        let missing_before = whole["outputs"].to_string().matches("not-known").count();
        if text.matches("not-known").count() > missing_before {
            let named = text.contains(&format!("\"field\":\"{field}\""))
                || (*field == "months" && text.contains("\"field\":\"coldest-temperature\""));
            assert!(named, "without {field}: {text}");
        }
    }
}

/// A figure that is drawn of a month lets the water of that month run from the tap: the plan then says of today what it
/// says of the month itself.
#[test]
fn today_with_the_water_of_a_month_is_that_month() {
    for (record, tempered) in
        [(COLD, json!(null)), (WARM, json!(null)), (WELL, json!(null)), (COLD, json!("10 °C"))]
    {
        let year = plan(record, "si", &[("tempered-temperature", tempered.clone())]);
        let months = year["outputs"]["months"]["value"].as_array().expect("months");
        assert_eq!(months.len(), 12);
        for month in months {
            let water = format!("{} °C", month["temperature"]["value"]);
            let changes = [("tap-temperature", json!(water)), ("tempered-temperature", tempered.clone())];
            let then = plan(record, "si", &changes);
            let seasons = then["outputs"]["seasons"]["value"].as_array().expect("seasons");
            let today = seasons.iter().find(|row| row["season"]["value"] == "today").expect("today");
            for column in ["feed", "flush", "recovery"] {
                let (a, b) = (today[column]["value"].as_f64(), month[column]["value"].as_f64());
                // an RO that never flushes has no flush in any month
                assert!(
                    a.is_some() == b.is_some() && (a.is_some() || column == "flush"),
                    "{column} of {month}"
                );
                assert!(
                    a.zip(b).is_none_or(|(a, b)| (a / b - 1.0).abs() < 1e-9),
                    "{column} of {month}: {a:?}"
                );
            }
        }
    }
}
