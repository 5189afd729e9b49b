//! Whatever is typed, asked or opened: never a panic, never a number that is not finite.

use calc::documents::csv;
use calc::documents::json;
use calc::documents::reading::{read_text, remark};
use calc::documents::record::Record;
use calc::engine::sheet::{Field, Shape, Value};
use calc::program::catalogue;
use proptest::prelude::*;
use serde_json::{Map, Value as Json, json};

/// Every field of every sheet, the columns of tables included.
fn fields() -> Vec<&'static Field> {
    let inputs = catalogue::SHEETS.iter().flat_map(|entry| entry.declaration.inputs);
    inputs
        .flat_map(|field| match field.shape {
            Shape::Table(columns) => columns.iter().chain([field]).collect::<Vec<_>>(),
            _ => vec![field],
        })
        .collect()
}

fn is_finite(value: &Value) -> bool {
    match value {
        Value::Number(si) | Value::Below(si) => si.is_finite(),
        Value::Table(rows) => rows.iter().flatten().flatten().all(is_finite),
        _ => true,
    }
}

/// What people type, and what they should not: numbers in all spellings, units of any kind, stray letters.
fn typed() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        any::<f64>().prop_map(|number| number.to_string()),
        any::<f64>().prop_map(|number| format!("{number:e}")),
        (0.0..1000.0f64).prop_map(|number| format!("{number:.2}")),
        "[-+−0-9., eE]{0,12}",
    ];
    let unit = prop_oneof![
        proptest::sample::select(
            calc::engine::quantity::kinds::all()
                .flat_map(|kind| kind.units)
                .map(|unit| unit.symbol)
                .collect::<Vec<_>>()
        )
        .prop_map(str::to_owned),
        "\\PC{0,4}",
    ];
    prop_oneof![3 => (number, unit).prop_map(|(number, unit)| format!("{number} {unit}")), 1 => "\\PC{0,30}", 1 => any::<String>()]
}

/// A JSON value of any shape, not deep.
fn any_json() -> impl Strategy<Value = Json> {
    let leaf = prop_oneof![
        Just(Json::Null),
        any::<bool>().prop_map(Json::from),
        any::<f64>().prop_map(Json::from),
        any::<i64>().prop_map(Json::from),
        typed().prop_map(Json::from),
    ];
    leaf.prop_recursive(3, 24, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Json::from),
            prop::collection::vec((member(), inner), 0..4)
                .prop_map(|members| Json::Object(members.into_iter().collect())),
        ]
    })
}

/// The name of a member, often one that means something.
fn member() -> impl Strategy<Value = String> {
    let known = [
        "id",
        "sheet",
        "inputs",
        "record",
        "units",
        "describe",
        "list",
        "typed",
        "value",
        "unit",
        "format",
        "version",
        "ro",
        "places",
        "readings",
        "anchor",
        "place-name",
        "date",
        "place",
    ];
    let ids: Vec<&str> = known.into_iter().chain(fields().into_iter().map(|field| field.id)).collect();
    prop_oneof![4 => proptest::sample::select(ids).prop_map(str::to_owned), 1 => "\\PC{0,8}"]
}

/// A value for a field, mostly of its own shape.
fn input(field: &'static Field) -> BoxedStrategy<Json> {
    match field.shape {
        Shape::Number(kind) => {
            let unit =
                proptest::sample::select(kind.units.iter().map(|unit| unit.symbol).collect::<Vec<_>>());
            let (low, high) = field.term.possible;
            let usual = (0.0..1.0f64).prop_map(move |share| {
                let (low, high) = (low.max(-1e6), high.min(1e6));
                // small numbers as often as large ones
                let si = low + (high - low) * 10f64.powf(-8.0 * share);
                json!({ "typed": "", "value": kind.si().of_si(si), "unit": kind.si().symbol })
            });
            let any = (any::<f64>(), unit).prop_map(|(value, unit)| json!({ "value": value, "unit": unit }));
            prop_oneof![8 => usual, 1 => any, 1 => typed().prop_map(Json::from), 1 => any_json()].boxed()
        }
        Shape::Choice(named) => proptest::sample::select(named).prop_map(|one| json!(one.id)).boxed(),
        Shape::Date => "20[0-9]{2}-[01][0-9]-[0-3][0-9]".prop_map(Json::from).boxed(),
        Shape::Moment => "20[0-9]{2}-[01][0-9]-[0-3][0-9]T[0-2][0-9]:[0-5][0-9](Z|[+-]0[0-9]:00)"
            .prop_map(Json::from)
            .boxed(),
        Shape::Text => typed().prop_map(Json::from).boxed(),
        Shape::Table(columns) => prop::collection::vec(object(columns), 0..6).prop_map(Json::from).boxed(),
    }
}

fn object(fields: &'static [Field]) -> BoxedStrategy<Json> {
    let members: Vec<_> = fields
        .iter()
        .map(|field| {
            prop::option::weighted(0.85, input(field)).prop_map(|value| (field.id.to_owned(), value))
        })
        .collect();
    members
        .prop_map(|members| {
            members.into_iter().filter_map(|(id, value)| Some((id, value?))).collect::<Map<_, _>>().into()
        })
        .boxed()
}

fn request() -> impl Strategy<Value = Json> {
    let sheets: Vec<_> = catalogue::SHEETS
        .iter()
        .map(|entry| {
            let id = entry.declaration.id;
            (object(entry.declaration.inputs), any::<bool>()).prop_map(move |(inputs, us)| {
                json!({ "sheet": id, "inputs": inputs, "units": if us { "us" } else { "si" } })
            })
        })
        .collect();
    proptest::strategy::Union::new(sheets)
}

/// One line of JSON in which no sentence and no formula tells of a number that is not finite.
fn assert_sound(request: &str) {
    let line = json::answer(request);
    assert!(!line.contains('\n'), "{request}");
    let answer: Json = match serde_json::from_str(&line) {
        Ok(answer) => answer,
        Err(error) => panic!("{error} in the answer to {request}"),
    };
    let outputs = [&answer["outputs"], &answer["checks"], &answer["working"]];
    for text in outputs.map(Json::to_string) {
        for word in ["not a finite number", "NaN", "inf "] {
            assert!(!text.contains(word), "{word:?} in the answer to {request}: {text}");
        }
    }
}

proptest! {
    #[test]
    fn any_text_in_any_field_is_read_or_refused(text in typed(), index in any::<prop::sample::Index>()) {
        let field = *index.get(&fields());
        for unit in [None, field.term.unit(false), field.term.unit(true)] {
            match read_text(field, &text, unit) {
                Ok(value) => prop_assert!(value.as_ref().is_none_or(is_finite)),
                Err(problem) => {
                    prop_assert_eq!(problem.field, field.id);
                    prop_assert!(problem.sentence.open_places().is_empty());
                }
            }
            remark(field, &text, unit);
        }
    }

    #[test]
    fn any_line_is_answered(line in any::<String>()) {
        assert_sound(&line);
    }

    #[test]
    fn any_json_is_answered(request in any_json()) {
        assert_sound(&request.to_string());
    }

    #[test]
    fn any_inputs_of_any_sheet_are_answered(request in request()) {
        assert_sound(&request.to_string());
    }

    #[test]
    fn any_text_is_opened_or_refused(text in any::<String>()) {
        prop_assert!(Record::open(&text).is_err());
    }

    /// Any document with the name of a record: it is refused, or every sheet can be filled from it.
    #[test]
    fn any_record_is_filled(document in any_json(), place in 0usize..3) {
        let mut document = match document {
            Json::Object(members) => members,
            other => Map::from_iter([("ro".to_owned(), other)]),
        };
        document.insert("format".into(), json!("tapside-record"));
        document.entry("version").or_insert(json!(1 + place % 2));
        if let Ok(record) = Record::open(&Json::Object(document).to_string()) {
            for entry in catalogue::SHEETS {
                let read = record.fill(entry.declaration, place, None).read(entry.declaration);
                prop_assert!(read.values.iter().flatten().all(is_finite));
                entry.assess(&read.values, true);
            }
            prop_assert_eq!(Record::open(&record.text()).map(|again| again.text()), Ok(record.text()));
        }
    }
}

/// Every table that a sheet asks for.
fn tables() -> Vec<&'static [Field]> {
    let inputs = catalogue::SHEETS.iter().flat_map(|entry| entry.declaration.inputs);
    let columns = |field: &'static Field| match field.shape {
        Shape::Table(columns) => Some(columns),
        _ => None,
    };
    inputs.filter_map(columns).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_breaks_the_reader_of_rows(lines in proptest::collection::vec(typed(), 0..6), mark in "[,;\t\"\r]", any in any::<String>()) {
        for columns in tables() {
            let head: Vec<&str> = columns.iter().map(|column| column.term.name).collect();
            let under_its_head = format!("{}\n{}", head.join(&mark), lines.join(&mark));
            for text in [&any, &under_its_head, &lines.join("\n")] {
                if let Ok(read) = csv::read(columns, text) {
                    prop_assert!(read.rows.iter().all(|row| row.len() == columns.len()));
                }
            }
        }
    }

    #[test]
    fn rows_that_were_written_are_read_again(texts in proptest::collection::vec(typed(), 1..8)) {
        for columns in tables() {
            // of a choice one of its ids, in a clock's column a number, of the others any text without spaces at its ends
            let cell = |(index, column): (usize, &'static Field)| match column.shape {
                Shape::Choice(named) => named[index % named.len()].id.to_owned(),
                _ if column.term.elapsed => index.to_string(),
                _ => texts[index % texts.len()].trim().trim_start_matches('\'').chars().take(200).collect::<String>().trim().to_owned(),
            };
            let row: Vec<String> = columns.iter().enumerate().map(cell).collect();
            prop_assume!(row.iter().any(|cell| !cell.is_empty()));
            let text = csv::write(columns, &[], std::slice::from_ref(&row));
            let read = csv::read(columns, &text).map_err(|why| TestCaseError::fail(format!("{why:?}: {text}")))?;
            // an apostrophe before what a spreadsheet would compute is all that may differ
            let plain = |cell: &String| cell.trim_start_matches('\'').to_owned();
            let (again, before): (Vec<_>, Vec<_>) = (read.rows[0].iter().map(plain).collect(), row.iter().map(plain).collect());
            prop_assert_eq!(again, before);
        }
    }
}
