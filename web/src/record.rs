//! Records as the page opens them: into what was typed, so that it stands in the form as it stood when it was kept.

use crate::state::{Change, Entry, Filling, Rows, Typed, named_unit};
use crate::text::{WORDS, fill};
use calc::documents::reading::typed_number;
use calc::documents::record::{LARGEST, Record, Refused, Spot, VERSION};
use calc::engine::quantity::show::exact;
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Declaration, Field, Problem, Shape, Stage};
use calc::program::catalogue;
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

/// What a record shows of one place.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    /// What stands in the form.
    pub filling: Filling,
    /// What is wrong with fields that it leaves empty.
    pub problems: Vec<Problem>,
}

/// A record with one place and nothing in it.
pub fn blank() -> Record {
    let mut record = Record::new();
    with_a_place(&mut record);
    record
}

/// A record without a place gets one, so that there is where to type.
fn with_a_place(record: &mut Record) {
    if record.places() == 0 {
        // only a record that may not be changed refuses, and such a one is not opened
        let _ = record.add_place("");
    }
}

/// The sheet that a record fills.
pub fn plan() -> Option<&'static Declaration> {
    catalogue::of_stage(Stage::Plan).next()
}

/// The same with its arithmetic.
pub fn plan_entry() -> Option<&'static calc::engine::sheet::Entry> {
    catalogue::find(plan()?.id)
}

/// Asked before a file is read: whether a record can be so large.
pub fn may_be_one(bytes: f64) -> Result<(), String> {
    if bytes > LARGEST as f64 { Err(Refused::TooLarge.sentence().show(UnitSet::Metric)) } else { Ok(()) }
}

/// Opens the text of a file, or says why not.
pub fn open(text: &str) -> Result<Record, String> {
    let mut record = Record::open(text).map_err(|refused| refused.sentence().show(UnitSet::Metric))?;
    if record.read_only().is_some() {
        let version = record.document().get("version").map(Json::to_string).unwrap_or_default();
        return Err(fill(WORDS.newer_record, &[("version", &version), ("known", &VERSION.to_string())]));
    }
    with_a_place(&mut record);
    Ok(record)
}

/// What a record shows of one place in the form of a sheet.
pub fn shown(record: &Record, place: usize, sheet: &'static Declaration) -> Shown {
    let filling = filling(sheet, &record.members(sheet, place));
    // What is wrong with an entry is found again where it stands.
    let problems = record.fill(sheet, place).problems.into_iter();
    let problems = problems.filter(|problem| !filling.entries.contains_key(problem.field)).collect();
    Shown { filling, problems }
}

/// Keeps what stands in a field. What else the record holds there stays.
pub fn write(record: &mut Record, spot: Spot, entry: &Entry, change: &Change) {
    // A record that may not be changed is never opened, and a spot that is gone has nothing to keep: no other refusals.
    match (entry, spot.field.shape) {
        (Entry::One(typed), _) => match typed.contradicts(spot.field) {
            Some((_, chosen)) => {
                let _ = record.set_refused(spot, &typed.text, chosen);
            }
            None => {
                let _ = record.set(spot, &typed.text, typed.unit);
            }
        },
        (Entry::Rows(rows), Shape::Table(columns)) => {
            if let Change::RemoveRow(row) = change {
                let _ = record.remove_row(spot.part, spot.field, *row);
            }
            let counted = rows.counted();
            for row in 0..counted {
                for (index, column) in columns.iter().enumerate() {
                    let cell = Spot { cell: Some((row, column)), ..spot };
                    let _ = record.set(cell, rows.text(row, index), rows.unit(index));
                }
            }
            while record.remove_row(spot.part, spot.field, counted).is_ok() {}
        }
        (Entry::Rows(_), _) => {}
    }
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
            // A text that was refused since it names another unit than stands beside it stays refused.
            let unread = member.get("value").is_some_and(Json::is_null);
            let own = named_unit(field, &text);
            let insisted = unread && own.is_some() && unit.is_some() && own != unit;
            Entry::One(Typed { text, unit, insisted })
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
    let named = kept.get("unit").and_then(Json::as_str).map(str::trim).filter(|unit| !unit.is_empty());
    let known = named.and_then(|unit| field.term.kind?.written(unit));
    if let (Some(named), None) = (named, known) {
        // Without its unit the number would be read in the one that the field offers: it is shown with the unit that was
        // written, which is then refused by its name.
        let number = kept.get("value").and_then(Json::as_f64).map(exact);
        let text = number.filter(|_| !text.contains(named)).unwrap_or(text);
        let text = if text.contains(named) { text } else { format!("{text} {named}") };
        return (text.trim().to_owned(), None);
    }
    let unit = known.filter(|unit| !unit.symbol.is_empty());
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
    use super::{shown as shown_of, *};
    use crate::state::{find, read};
    use calc::engine::sheet::Value;

    fn record(ro: &str) -> String {
        format!(r#"{{"format": "tapside-record", "version": 1, "ro": {ro}, "places": [], "readings": []}}"#)
    }

    fn contact() -> &'static Declaration {
        find("carbon-contact-time").unwrap().declaration
    }

    fn shown(ro: &str, field: &str) -> (String, &'static str) {
        let found = shown_of(&open(&record(ro)).unwrap(), 0, contact());
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
            // a unit that nobody knows is not another one
            (r#"{"typed": "28.3", "value": 28.3, "unit": "firkin"}"#, "28.3 firkin", ""),
            (r#"{"typed": "28,3 firkin", "value": 28.3, "unit": "firkin"}"#, "28,3 firkin", ""),
            (r#"{"typed": "28.3", "value": 28.3, "unit": "bar"}"#, "28.3 bar", ""),
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
    fn an_unknown_unit_is_refused_by_its_name() {
        let kept = r#"{"bed-volume": {"typed": "28.3", "value": 28.3, "unit": "firkin"}}"#;
        let found = shown_of(&open(&record(kept)).unwrap(), 0, contact());
        let reading = read(contact(), &found.filling);
        let index = contact().input("bed-volume").unwrap();
        assert_eq!(reading.values[index], Some(Value::Refused));
        let said = reading.problems[0].sentence.show(UnitSet::Metric);
        assert!(said.contains("firkin"), "{said}");
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
            let refused = open(text).unwrap_err();
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
            let opened = open(room.text).unwrap();
            assert!(opened.is_invented(), "{}", room.id);
            let found = shown_of(&opened, 0, plan);
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
        let found = shown_of(&open(record).unwrap(), 0, plan);
        assert_eq!(
            found.problems.iter().map(|problem| problem.field).collect::<Vec<_>>(),
            ["anchor-temperature"]
        );
    }

    fn alike(a: Option<&Value>, b: Option<&Value>) -> bool {
        match (a, b) {
            (Some(Value::Number(a)), Some(Value::Number(b))) => (a - b).abs() <= 1e-12 * b.abs(),
            (a, b) => a == b,
        }
    }
}
