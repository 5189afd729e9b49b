//! The record: what is opened and refused, what survives, and what a sheet gets from it.
//!
//! `REWRITE_SCHEMA=1 cargo test -p tests --test record` writes `examples/record.schema.json` anew from the declarations.

use calc::documents::record::{Kept, LARGEST, Part, Record, Refused, Spot, schema};
use calc::engine::quantity::{Unit, UnitSet, kinds::VOLUME};
use calc::engine::sheet::{Declaration, Field, Value};
use calc::program::catalogue;
use serde_json::{Value as Json, json};
use std::path::{Path, PathBuf};

fn declaration(sheet: &str) -> &'static Declaration {
    match catalogue::find(sheet) {
        Some(entry) => entry.declaration,
        None => panic!("no sheet {sheet}"),
    }
}

fn field(sheet: &str, id: &str) -> &'static Field {
    match declaration(sheet).inputs.iter().find(|field| field.id == id) {
        Some(field) => field,
        None => panic!("{sheet} has no {id}"),
    }
}

fn column(table: &'static Field, id: &str) -> &'static Field {
    let calc::engine::sheet::Shape::Table(columns) = table.shape else { panic!("{} is no table", table.id) };
    match columns.iter().find(|column| column.id == id) {
        Some(column) => column,
        None => panic!("{} has no {id}", table.id),
    }
}

fn volume(part: Part) -> Spot {
    Spot { part, field: field("carbon-contact-time", "bed-volume"), cell: None }
}

fn refusal(text: &str) -> String {
    match Record::open(text) {
        Ok(record) => panic!("opened: {record:?}"),
        Err(refused) => {
            let sentence = refused.sentence();
            assert_eq!(sentence.open_places(), Vec::<&str>::new());
            sentence.show(UnitSet::Metric)
        }
    }
}

/// A record with members that nobody knows, in every part.
fn with_strangers() -> String {
    json!({
        "format": "tapside-record", "version": 1, "written-by": { "name": "another", "numbers": [1, 0.1, 1e-7] },
        "ro": { "ro-name": "RO 2", "colour": "blue" },
        "places": [
            { "place-name": "Ward 6", "bed-volume": { "typed": "28,3 L", "value": 28.3, "unit": "L", "by": "jug" } },
            { "place-name": "Bay 3" },
        ],
        "readings": [{ "date": "2026-11-12", "place": "Ward 6", "note": "rain" }],
    })
    .to_string()
}

#[test]
fn what_is_not_known_here_survives() {
    let mut record = Record::open(&with_strangers()).unwrap();
    record.set(volume(Part::Place(0)), "1 ft³", None).unwrap();
    record.set(volume(Part::Place(1)), "30 L", None).unwrap();
    record.mark_anchor(0).unwrap();
    let again = Record::open(&record.text()).unwrap();
    assert_eq!(again, record);
    let document = again.document();
    assert_eq!(document["written-by"], json!({ "name": "another", "numbers": [1, 0.1, 1e-7] }));
    assert_eq!(document["ro"]["colour"], "blue");
    assert_eq!(document["readings"][0]["note"], "rain");
    assert_eq!(
        document["places"][0]["bed-volume"],
        json!({ "typed": "1 ft³", "value": 1.0, "unit": "ft³", "by": "jug" })
    );
}

/// A number that is written and read again is the same to the last bit, also where its decimal text is long.
#[test]
fn numbers_survive_to_the_last_bit() {
    for value in [4.984046054490402, 0.1 + 0.2, 1.0 / 3.0, 5e-324, f64::MAX, 123456789.12345679] {
        let text = format!(r#"{{"format":"tapside-record","version":1,"kept":{value:e}}}"#);
        let record = Record::open(&text).unwrap();
        let again = Record::open(&record.text()).unwrap();
        assert_eq!(again.document()["kept"].as_f64().map(f64::to_bits), Some(value.to_bits()), "{value}");
    }
}

#[test]
fn each_refusal_says_why() {
    let whole = with_strangers();
    for end in [1, 40, whole.len() / 2, whole.len() - 1] {
        let end = (0..=end).rev().find(|end| whole.is_char_boundary(*end)).unwrap();
        assert!(refusal(&whole[..end]).starts_with("this file ends too early, in line 1 after “"), "{end}");
    }
    for empty in ["", " \r\n"] {
        assert!(refusal(empty).starts_with("this file is empty"));
    }
    assert!(refusal("date;time\n1;2").contains("line 1, column"));
    for other in ["{}", "[]", "3", r#"{"format": "other", "version": 1}"#] {
        assert!(refusal(other).contains("but no record"), "{other}");
    }
    for version in ["0", "-1", "1.5", "\"1\"", "null"] {
        let text = format!(r#"{{"format": "tapside-record", "version": {version}}}"#);
        assert!(refusal(&text).contains("which there never was"), "{version}");
    }
    for (member, value) in [("ro", "[]"), ("places", "{}"), ("places", "[1]"), ("readings", "\"many\"")] {
        let text = format!(r#"{{"format": "tapside-record", "version": 1, "{member}": {value}}}"#);
        assert!(refusal(&text).contains(&format!("its “{member}” is not")), "{text}");
    }
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    assert_eq!(Record::open(&deep), Err(Refused::TooDeep));
    assert!(refusal(&" ".repeat(LARGEST + 1)).contains("larger than 50 MB"));
}

#[test]
fn a_newer_record_is_shown_and_not_changed() {
    let text = r#"{"format": "tapside-record", "version": 2, "ro": {"ro-name": "RO 2"}, "places": {"new": "shape"}}"#;
    let mut record = Record::open(text).unwrap();
    let why = record.read_only().unwrap().show(UnitSet::Metric);
    assert!(why.contains("format 2, this one knows 1"), "{why}");
    assert_eq!(record.word(Part::Ro, "ro-name"), Some("RO 2"));
    assert_eq!(record.places(), 0);
    let before = record.clone();
    assert!(record.set(volume(Part::Ro), "1 L", None).is_err());
    assert!(record.add_place("Ward 6").is_err());
    assert!(record.mark_anchor(0).is_err());
    assert_eq!(record, before);
}

#[test]
fn what_was_typed_is_kept_as_it_was_typed() {
    let mut record = Record::new();
    let litres: Option<&'static Unit> = VOLUME.find("L");
    let place = Part::Place(record.add_place("Ward 6").unwrap());
    let kept = |record: &Record| record.kept(volume(place)).unwrap();

    assert_eq!(record.set(volume(place), "28,3", litres), Ok(None));
    assert_eq!(kept(&record), Kept { typed: "28,3".into(), unit: Some("L".into()) });
    assert_eq!(record.document()["places"][0]["bed-volume"]["value"], 28.3);

    let problem = record.set(volume(place), "1,234", litres).unwrap().unwrap();
    assert_eq!((problem.field, problem.cell), ("bed-volume", None));
    assert_eq!(kept(&record), Kept { typed: "1,234".into(), unit: Some("L".into()) });
    assert_eq!(record.document()["places"][0]["bed-volume"]["value"], json!(null));

    assert_eq!(record.set(volume(place), " ", litres), Ok(None));
    assert_eq!(record.kept(volume(place)), None);
    assert!(record.set(volume(Part::Place(7)), "1 L", None).is_err());
}

#[test]
fn what_could_not_be_read_is_said_again_when_it_is_computed() {
    let mut record = Record::new();
    record.set(volume(Part::Ro), "1,234 L", None).unwrap();
    let filled = record.fill(declaration("carbon-contact-time"), 0);
    assert_eq!(filled.values[0], None);
    assert!(filled.problems[0].sentence.show(UnitSet::Metric).contains("1.234 or 1234"));
}

#[test]
fn a_choice_is_kept_by_its_id() {
    let mut record = Record::new();
    let rule = Spot { part: Part::Ro, field: field("carbon-contact-time", "rule"), cell: None };
    assert_eq!(record.set(rule, "Test before every session", None), Ok(None));
    assert_eq!(record.document()["ro"]["rule"], "test-before-session");
    let problem = record.set(rule, "bleach", None).unwrap();
    assert!(problem.is_some());
    assert_eq!(record.document()["ro"]["rule"], "bleach");
}

#[test]
fn a_table_is_kept_cell_by_cell() {
    let mut record = Record::new();
    let hoses = field("inlet-pressure", "hoses");
    let cell = |row, id| Spot { part: Part::Ro, field: hoses, cell: Some((row, column(hoses, id))) };
    assert_eq!(record.set(cell(0, "bore"), "12.7 mm", None), Ok(None));
    assert_eq!(record.set(cell(0, "length"), "6 m", None), Ok(None));
    let problem = record.set(cell(1, "bore"), "1/2 in", None).unwrap().unwrap();
    assert_eq!(problem.cell, Some((1, "bore")));
    assert!(record.set(cell(3, "bore"), "1 in", None).is_err());
    assert_eq!(record.kept(cell(1, "bore")).unwrap().typed, "1/2 in");
    record.remove_row(Part::Ro, hoses, 1).unwrap();
    assert!(record.remove_row(Part::Ro, hoses, 1).is_err());
    let sheet = declaration("inlet-pressure");
    let filled = record.fill(sheet, 0);
    assert_eq!(filled.problems, []);
    let hoses = filled.values[sheet.input("hoses").unwrap()].clone();
    assert_eq!(
        hoses,
        Some(Value::Table(vec![vec![Some(Value::Number(12.7 * 1e-3)), Some(Value::Number(6.0)), None]]))
    );
}

/// Volumes of the place before those of the RO, and what is no field of the sheet left alone.
#[test]
fn the_place_counts_before_the_ro() {
    let document = json!({
        "format": "tapside-record", "version": 1,
        "ro": { "bed-volume": "10 L", "flow": "2 L/min", "colour": "blue" },
        "places": [{ "place-name": "Ward 6", "bed-volume": "20 L", "flow": null }],
    });
    let record = Record::from_document(document).unwrap();
    let values = |place| record.fill(declaration("carbon-contact-time"), place).values;
    assert_eq!(values(0)[0], Some(Value::Number(20.0 * 1e-3)));
    assert_eq!(values(0)[2], values(1)[2]);
    assert_eq!(values(1)[0], Some(Value::Number(10.0 * 1e-3)));
    assert!(record.fill(declaration("carbon-contact-time"), 0).unknown.is_empty());
}

#[test]
fn an_invented_record_says_so() {
    let text = r#"{"format": "tapside-record", "version": 1, "invented": true}"#;
    assert!(Record::open(text).unwrap().is_invented());
    assert!(!Record::new().is_invented());
}

/// A record of one RO at two places, with these readings.
fn with_readings(readings: Json) -> Record {
    let flow = |value: f64| json!({ "typed": "", "value": value, "unit": "L/min" });
    let document = json!({
        "format": "tapside-record", "version": 1,
        "ro": { "product-flow": flow(9.0), "reject-flow": flow(9.0), "anchor-temperature": "25 °C" },
        "places": [{ "place-name": "Ward 6", "tap-temperature": "12 °C" }, { "place-name": "Bay 3" }],
        "readings": readings,
    });
    match Record::from_document(document) {
        Ok(record) => record,
        Err(refused) => panic!("{refused:?}"),
    }
}

/// What the plan gets as the anchor: temperature in K, product and reject flow in L/min, and its problems.
fn anchor(record: &Record, place: usize) -> ([Option<f64>; 3], usize) {
    let (values, problems) = record.inputs_of_plan(place);
    let number = |id: &str, unit: f64| match values.get(declaration("plan").input(id)?)? {
        Some(Value::Number(si)) => Some((si / unit * 1e9).round() / 1e9),
        _ => None,
    };
    let flow = 1e-3 / 60.0;
    (
        [number("anchor-temperature", 1.0), number("product-flow", flow), number("reject-flow", flow)],
        problems.len(),
    )
}

#[test]
fn the_marked_reading_is_the_anchor() {
    let reading = |date: &str, place: &str, product: &str| json!({ "date": date, "place": place, "anchor": true, "tap-temperature": "8 °C", "product-flow": product, "reject-flow": "1.2 L/min" });
    let plain =
        with_readings(json!([{ "date": "2026-11-12", "place": "Ward 6", "product-flow": "1 L/min" }]));
    assert_eq!(anchor(&plain, 0), ([Some(298.15), Some(9.0), Some(9.0)], 0));

    let marked = with_readings(json!([
        reading("2026-11-12", "Ward 6", "2 L/min"),
        reading("2026-11-14", "Bay 3", "4 L/min"),
        reading("2026-11-13", "Ward 6", "3 L/min"),
        reading("2026-11-11", "Ward 6", "1 L/min"),
    ]));
    assert_eq!(anchor(&marked, 0), ([Some(281.15), Some(3.0), Some(1.2)], 0));
    assert_eq!(anchor(&marked, 1), ([Some(281.15), Some(4.0), Some(1.2)], 0));

    // the RO brings its anchor along to a place where nothing was read yet
    let elsewhere = with_readings(json!([reading("2026-11-12", "Ward 6", "2 L/min")]));
    assert_eq!(anchor(&elsewhere, 1), ([Some(281.15), Some(2.0), Some(1.2)], 0));
}

/// Flow and temperature of two moments would be a wrong anchor: what the reading lacks is not known.
#[test]
fn an_anchor_is_never_pieced_together() {
    let reading =
        json!([{ "date": "2026-11-12", "place": "Ward 6", "anchor": true, "product-flow": "2 L/min" }]);
    let record = with_readings(reading);
    assert_eq!(anchor(&record, 0), ([None, Some(2.0), None], 1));
    let problem = record.inputs_of_plan(0).1[0].clone();
    assert_eq!(problem.field, "anchor-temperature");
    assert!(problem.sentence.show(UnitSet::Metric).contains("has no tap temperature"));
}

#[test]
fn only_one_reading_is_marked() {
    let mut record = Record::open(&with_strangers()).unwrap();
    let day = chrono::NaiveDate::from_ymd_opt(2026, 11, 13).unwrap();
    let second = record.add_reading(day, "Bay 3").unwrap();
    record.mark_anchor(0).unwrap();
    record.mark_anchor(second).unwrap();
    let marked = |index| record.part(Part::Reading(index)).unwrap().get("anchor").cloned();
    assert_eq!((marked(0), marked(second)), (None, Some(json!(true))));
    assert_eq!(record.word(Part::Reading(second), "date"), Some("2026-11-13"));
}

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples")
}

/// Every record among the examples opens, is marked as invented, fills the plan and is written back unchanged.
#[test]
fn the_invented_rooms_are_records() {
    let mut found = 0;
    for entry in std::fs::read_dir(examples()).unwrap().flatten() {
        let is_json = entry.path().extension().is_some_and(|extension| extension == "json");
        if !is_json || entry.file_name() == "record.schema.json" {
            continue;
        }
        let text = std::fs::read_to_string(entry.path()).unwrap();
        let record = Record::open(&text).unwrap();
        assert!(record.is_invented(), "{:?}", entry.path());
        assert_eq!(record.inputs_of_plan(0).1, [], "{:?}", entry.path());
        assert_eq!(serde_json::from_str::<Json>(&record.text()).ok(), serde_json::from_str(&text).ok());
        found += 1;
    }
    assert!(found >= 3);
}

#[test]
fn the_schema_among_the_examples_is_the_generated_one() {
    let file = examples().join("record.schema.json");
    let generated = format!("{:#}\n", schema());
    if std::env::var_os("REWRITE_SCHEMA").is_some() {
        std::fs::write(&file, &generated).unwrap();
    }
    let kept = std::fs::read_to_string(&file).unwrap_or_default();
    assert_eq!(kept, generated, "run once with REWRITE_SCHEMA=1");
}
