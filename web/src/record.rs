//! Records as the page opens them: into what was typed, so that it stands in the form as it stood when it was kept.

use crate::state::{Entry, Filling, Opened, Rows, Typed, named_unit};
use crate::text::{WORDS, fill};
use calc::catalogue;
use calc::quantity::show::exact;
use calc::quantity::{Unit, UnitSet};
use calc::reading::typed_number;
use calc::record::{LARGEST, Part, Record, Refused, VERSION};
use calc::sheet::{Declaration, Field, Shape, Stage};
use serde_json::{Map, Value as Json};
use std::rc::Rc;

/// An invented room that is part of the page.
#[derive(Debug, Clone, Copy)]
pub struct Room {
    /// Of its button.
    pub id: &'static str,
    /// Its record.
    pub text: &'static str,
}

/// The invented rooms; their names stand among the page's words.
pub const ROOMS: [Room; 3] = [
    Room { id: "room-a", text: include_str!("../../examples/ostrin-vale.json") },
    Room { id: "room-b", text: include_str!("../../examples/quillon-flats.json") },
    Room { id: "room-c", text: include_str!("../../examples/tolby-marsh.json") },
];

/// What a record brings to the page.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// What it fills.
    pub filling: Filling,
    /// What it is called.
    pub opened: Opened,
}

/// The sheet that a record fills.
pub fn plan() -> Option<&'static Declaration> {
    catalogue::of_stage(Stage::Plan).next()
}

/// Asked before a file is read: whether a record can be so large.
pub fn may_be_one(bytes: f64) -> Result<(), String> {
    if bytes > LARGEST as f64 { Err(Refused::TooLarge.sentence().show(UnitSet::Metric)) } else { Ok(()) }
}

/// Opens the text of a file for a sheet, or says why not.
pub fn open(text: &str, file: &str, sheet: &'static Declaration) -> Result<Found, String> {
    let record = Record::open(text).map_err(|refused| refused.sentence().show(UnitSet::Metric))?;
    if record.read_only().is_some() {
        let version = record.document().get("version").map(Json::to_string).unwrap_or_default();
        return Err(fill(WORDS.newer_record, &[("version", &version), ("known", &VERSION.to_string())]));
    }
    let name = record.word(Part::Place(0), "place-name").unwrap_or(file).to_owned();
    let filling = filling(sheet, &record.members(sheet, 0));
    // What is wrong with an entry is found again where it stands.
    let problems = record.fill(sheet, 0).problems.into_iter();
    let problems = problems.filter(|problem| !filling.entries.contains_key(problem.field)).collect();
    Ok(Found { filling, opened: Opened { name, invented: record.is_invented(), problems } })
}

/// What is wrong in a record is said at once: nobody is typing.
fn filling(sheet: &'static Declaration, members: &Map<String, Json>) -> Filling {
    let kept = |field: &'static Field| Some((field.id, Rc::new(entry(field, members.get(field.id)?))));
    let entries = sheet.inputs.iter().filter_map(kept).collect();
    let left = sheet.inputs.iter().map(|field| field.id.to_owned()).collect();
    Filling { entries: Rc::new(entries), left: Rc::new(left) }
}

fn entry(field: &'static Field, member: &Json) -> Entry {
    match (field.shape, member) {
        (Shape::Table(columns), Json::Array(rows)) => Entry::Rows(table(columns, rows)),
        _ => {
            let (text, unit) = typed(field, member);
            Entry::One(Typed { text, unit, insisted: false })
        }
    }
}

/// A column has the unit of its first cell; a cell in another unit names its own.
fn table(columns: &'static [Field], members: &[Json]) -> Rows {
    let kept = |row: &Json, column: &'static Field| row.get(column.id).map(|member| typed(column, member));
    let of_column = |column| members.iter().find_map(|row| kept(row, column).and_then(|(_, unit)| unit));
    let units: Vec<_> = columns.iter().map(of_column).collect();
    let cells = members.iter().map(|row| {
        let cell = |(column, column_unit): (&'static Field, &Option<&'static Unit>)| match kept(row, column) {
            Some((text, Some(unit))) if Some(unit) != *column_unit => format!("{text} {}", unit.symbol),
            Some((text, _)) => text,
            None => String::new(),
        };
        Rc::new(columns.iter().zip(&units).map(cell).collect())
    });
    Rows { cells: cells.collect(), units }
}

/// The text and the unit beside it.
fn typed(field: &'static Field, member: &Json) -> (String, Option<&'static Unit>) {
    let Json::Object(kept) = member else {
        let text = member.as_str().map_or_else(|| member.to_string(), str::to_owned);
        let unit = named_unit(field, &text);
        return (beside(field, text, unit), unit);
    };
    let text = kept.get("typed").and_then(Json::as_str).unwrap_or_default().to_owned();
    let unit = kept.get("unit").and_then(Json::as_str);
    let unit = unit.and_then(|unit| field.term.kind?.written(unit)).filter(|unit| !unit.symbol.is_empty());
    match kept.get("value").and_then(Json::as_f64) {
        Some(value) => {
            let text = beside(field, text, unit);
            // Value and unit count: read again in another place the text could be another number.
            let read = typed_number(field, &text, unit).ok().flatten();
            let below = kept.get("below") == Some(&Json::Bool(true));
            let same = read.is_some_and(|typed| {
                (typed.value, typed.below) == (value, below) && unit.is_none_or(|unit| typed.unit == unit)
            });
            let sign = if below { "<" } else { "" };
            (if same { text } else { format!("{sign}{}", exact(value)) }, unit)
        }
        None => (text, unit),
    }
}

/// The text without the unit at its end, where it then stands beside the field.
fn beside(field: &'static Field, text: String, unit: Option<&'static Unit>) -> String {
    let Some(unit) = unit else { return text };
    let alone = text.trim().trim_end_matches(unit.symbol).trim_end();
    let value = |text: &str| typed_number(field, text, Some(unit)).ok().flatten();
    if value(alone).is_some_and(|typed| Some(typed) == value(&text)) { alone.to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::{find, read};
    use calc::sheet::Value;

    fn record(ro: &str) -> String {
        format!(r#"{{"format": "tapside-record", "version": 1, "ro": {ro}, "places": [], "readings": []}}"#)
    }

    fn contact() -> &'static Declaration {
        find("carbon-contact-time").unwrap().declaration
    }

    fn shown(ro: &str, field: &str) -> (String, &'static str) {
        let found = open(&record(ro), "a.json", contact()).unwrap();
        match found.filling.entries.get(field).map(|entry| entry.as_ref().clone()) {
            Some(Entry::One(typed)) => (typed.text, typed.unit.map_or("", |unit| unit.symbol)),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn what_was_typed_stands_there_with_its_unit_beside_it() {
        for (kept, text, unit) in [
            (r#"{"typed": "28,3 L", "value": 28.3, "unit": "L"}"#, "28,3", "L"),
            (r#"{"typed": "28,3", "value": 28.3, "unit": "L"}"#, "28,3", "L"),
            (r#"{"typed": "7.5 US gallons", "value": 7.5, "unit": "gal"}"#, "7.5 US gallons", "gal"),
            // the text of another locale: the value counts
            (r#"{"typed": "1.234", "value": 1234, "unit": "L"}"#, "1234", "L"),
            (r#"{"typed": "a lot", "value": null, "unit": "L"}"#, "a lot", "L"),
            (r#""28.3 L""#, "28.3", "L"),
            ("28.3", "28.3", ""),
        ] {
            assert_eq!(
                shown(&format!(r#"{{"bed-volume": {kept}}}"#), "bed-volume"),
                (text.into(), unit),
                "{kept}"
            );
        }
    }

    #[test]
    fn what_is_no_record_is_refused_with_the_reason() {
        let whole = record("{}");
        for (text, reason) in [
            ("[]", "no record"),
            ("hello", "no JSON"),
            (&whole[..40], "ends too early"),
            (&whole.replace("\"version\": 1", "\"version\": 99"), "newer version"),
            (&whole.replace("\"ro\": {}", "\"ro\": 7"), "damaged"),
        ] {
            let refused = open(text, "a.json", contact()).unwrap_err();
            assert!(refused.contains(reason), "{refused}");
        }
        assert!(may_be_one(1e9).is_err());
        assert_eq!(may_be_one(1e6), Ok(()));
    }

    #[test]
    fn the_form_reads_what_the_record_holds() {
        let Some(plan) = plan() else { return };
        for room in ROOMS {
            let record = Record::open(room.text).unwrap();
            let kept = record.fill(plan, 0);
            let found = open(room.text, "", plan).unwrap();
            assert!(found.opened.invented, "{}", room.id);
            let shown = read(plan, &found.filling);
            assert_eq!((shown.problems, kept.problems), (vec![], vec![]), "{}", room.id);
            for ((field, shown), kept) in plan.inputs.iter().zip(&shown.values).zip(&kept.values) {
                assert!(alike(shown.as_ref(), kept.as_ref()), "{} {}: {shown:?} {kept:?}", room.id, field.id);
            }
        }
    }

    #[test]
    fn an_anchor_without_its_temperature_is_a_problem_until_it_is_typed() {
        let Some(plan) = plan() else { return };
        let record = r#"{"format": "tapside-record", "version": 1, "ro": {}, "places": [{}],
            "readings": [{"anchor": true, "product-flow": "2 L/min"}]}"#;
        let opened = open(record, "a.json", plan).unwrap().opened;
        assert_eq!(
            opened.problems.iter().map(|problem| problem.field).collect::<Vec<_>>(),
            ["anchor-temperature"]
        );
        assert_eq!(opened.name, "a.json");
    }

    fn alike(a: Option<&Value>, b: Option<&Value>) -> bool {
        match (a, b) {
            (Some(Value::Number(a)), Some(Value::Number(b))) => (a - b).abs() <= 1e-12 * b.abs(),
            (a, b) => a == b,
        }
    }
}
