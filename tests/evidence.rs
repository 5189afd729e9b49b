//! What the kinds of evidence mean: which check values count as printed elsewhere and computed here.

use calc::engine::sheet::Value;
use calc::program::catalogue::SHEETS;
use calc::program::evidence::{ENOUGH, EVIDENCE};
use tests::rows::{self, Kind, Row};

/// Outputs that are read from a printed table in the code: a row that compares them with the page is a copy.
const LOOKED_UP: [(&str, &str); 4] = [
    ("chemical-limits", "judgements[].limit"),
    ("ion-passage", "contaminants[].tabled"),
    ("softener", "resin-capacity-counted"),
    ("temperature-correction", "table-factors"),
];

fn published() -> Vec<Row> {
    let mut rows = rows::all().unwrap_or_else(|why| panic!("{why}"));
    rows.retain(|row| row.kind == Kind::Published);
    rows
}

fn assert_none(failures: &[String]) {
    assert!(failures.is_empty(), "{} failures:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn every_sheet_says_how_much_is_printed_elsewhere() {
    let rows = published();
    assert!(
        SHEETS.iter().map(|entry| entry.declaration.id).eq(EVIDENCE.iter().map(|evidence| evidence.sheet)),
        "calc/src/program/evidence.rs has one line for each sheet, in the order of the catalogue"
    );
    let wrong = EVIDENCE.iter().filter_map(|evidence| {
        let counted = rows.iter().filter(|row| row.sheet == evidence.sheet).count();
        let right = evidence.published == counted && evidence.why.is_empty() == (counted >= ENOUGH);
        (!right).then(|| format!("{evidence:?}: {counted} rows of the kind published"))
    });
    assert_none(&wrong.collect::<Vec<_>>());
}

#[test]
fn few_sheets_have_no_printed_value() {
    let without: Vec<&str> =
        EVIDENCE.iter().filter(|evidence| evidence.published == 0).map(|evidence| evidence.sheet).collect();
    println!("{} sheets without a printed value: {}", without.len(), without.join(", "));
    assert!(without.len() <= 8, "{without:?}");
}

/// A state compares a number with a limit that stands in the code; the printed limit is a copy then, whatever the state.
#[test]
fn a_judgement_is_no_published_value() {
    let judged = published().into_iter().filter(|row| row.output.contains(':'));
    assert_none(
        &judged
            .map(|row| format!("{}: {} is transcribed or by hand", row.at, row.output))
            .collect::<Vec<_>>(),
    );
}

#[test]
fn what_is_looked_up_in_a_printed_table_is_no_published_value() {
    let is_copy = |row: &Row| {
        let (id, cell) = row.path().unwrap_or_default();
        let column = cell.map(|(_, column)| format!("{id}[].{column}"));
        LOOKED_UP.iter().any(|(sheet, output)| {
            row.sheet == *sheet && (*output == id || column.as_deref() == Some(*output))
        })
    };
    let copies = published().into_iter().filter(is_copy);
    assert_none(&copies.map(|row| format!("{}: {} is transcribed", row.at, row.output)).collect::<Vec<_>>());
}

/// A number that is computed from others follows at least one of them; a limit or a label that is only repeated does not.
#[test]
fn a_published_value_follows_its_inputs() {
    let still = published().into_iter().filter_map(|row| match follows(&row) {
        Ok(true) => None,
        Ok(false) => Some(format!("{}: {} stays the same whatever is entered", row.at, row.output)),
        Err(why) => Some(why),
    });
    assert_none(&still.collect::<Vec<_>>());
}

/// Whether any one input, made larger, changes the answer.
fn follows(row: &Row) -> Result<bool, String> {
    let entry = row.entry()?;
    let values = row.filled()?.values;
    let answer = |values: &[Option<Value>]| row.answer(entry, &entry.figures(values, false));
    let original = answer(&values)?;
    let changed = |values: &[Option<Value>]| answer(values).is_ok_and(|other| other != original);
    for index in 0..values.len() {
        for factor in [1.01, 2.0] {
            let mut tried = values.clone();
            match &mut tried[index] {
                Some(Value::Table(rows)) => {
                    let rows = rows.clone();
                    for (line, cells) in rows.iter().enumerate() {
                        for cell in 0..cells.len() {
                            let mut rows = rows.clone();
                            if !enlarge(&mut rows[line][cell], factor) {
                                continue;
                            }
                            tried[index] = Some(Value::Table(rows));
                            if changed(&tried) {
                                return Ok(true);
                            }
                        }
                    }
                }
                value => {
                    if enlarge(value, factor) && changed(&tried) {
                        return Ok(true);
                    }
                }
            }
        }
    }
    Ok(false)
}

/// Makes a number larger and a date later; anything else stays.
fn enlarge(value: &mut Option<Value>, factor: f64) -> bool {
    match value {
        Some(Value::Number(si)) if *si != 0.0 => *si *= factor,
        Some(Value::Date(date)) => match date.succ_opt() {
            Some(next) => *date = next,
            None => return false,
        },
        _ => return false,
    }
    true
}
