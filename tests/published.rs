//! Every row of the tables in `published/`: the value itself, and what a reader of its arithmetic sees.

use calc::engine::quantity::{UnitSet, show, text};
use calc::engine::sheet::{Answer, How, Shape, Value, formula};
use serde_json::{Map, Value as Json, json};
use std::collections::BTreeMap;
use std::io::Write;
use tests::formulas;
use tests::rows::{self, Kind, Row};
use tests::shown;

/// The sets of units in which a reader may want the arithmetic.
const SETS: [UnitSet; 3] = [UnitSet::Metric, UnitSet::Us, UnitSet::Si];

fn all_rows() -> Vec<Row> {
    rows::all().unwrap_or_else(|why| panic!("{why}"))
}

fn all_formulas() -> Vec<formulas::Row> {
    formulas::all().unwrap_or_else(|why| panic!("{why}"))
}

/// Asks something of every row, and fails with all that went wrong.
fn of_every_row(ask: impl Fn(&Row) -> Result<(), String>) {
    let rows = all_rows();
    let failures: Vec<String> = rows.iter().filter_map(|row| ask(row).err()).collect();
    assert!(failures.is_empty(), "{} of {} rows:\n{}", failures.len(), rows.len(), failures.join("\n"));
}

/// The same of every filling of a sheet once, however many rows it has.
fn of_every_filling(ask: impl Fn(&Row) -> Result<(), String>) {
    let mut seen: Vec<(String, Map<String, Json>)> = Vec::new();
    let mut rows = all_rows();
    rows.retain(|row| {
        let filling = (row.sheet.clone(), row.inputs.clone());
        let new = row.kind != Kind::Error && !seen.contains(&filling);
        seen.push(filling);
        new
    });
    let failures: Vec<String> = rows.iter().filter_map(|row| ask(row).err()).collect();
    assert!(failures.is_empty(), "{} of {} fillings:\n{}", failures.len(), rows.len(), failures.join("\n"));
}

#[test]
fn every_row_meets_its_value() {
    of_every_row(Row::compare);
}

#[test]
fn every_formula_meets_its_value() {
    let of =
        |row: &formulas::Row| match (row.source.is_empty(), row.tolerance.is_empty() || !row.note.is_empty())
        {
            (true, _) => Err(format!("{}: no source", row.at)),
            (_, false) => Err(format!("{}: a tolerance of its own needs a note", row.at)),
            _ => row.compare(),
        };
    let failures: Vec<String> = all_formulas().iter().filter_map(|row| of(row).err()).collect();
    assert!(failures.is_empty(), "{} rows:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn many_rows_are_printed_elsewhere() {
    let kinds = || all_rows().into_iter().map(|row| row.kind);
    let all: Vec<Kind> = kinds().chain(all_formulas().iter().map(|row| row.kind)).collect();
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for kind in &all {
        *counts.entry(kind.word()).or_default() += 1;
    }
    let counted: Vec<String> = counts.iter().map(|(name, count)| format!("{count} {name}")).collect();
    // past the capture of the test runner: how much was checked is worth seeing
    let _ = writeln!(std::io::stderr(), "{} check values: {}", all.len(), counted.join(", "));
    assert!(counts["published"] >= 300, "too few values that are printed elsewhere");
}

#[test]
fn every_row_says_where_it_comes_from() {
    of_every_row(|row| {
        let lacks = |what: &str| Err(format!("{}: {what}", row.at));
        let printed_digits = row.tolerance.is_empty() || row.expected.parse::<f64>().is_err();
        if row.source.is_empty() {
            return lacks("no source");
        }
        if !printed_digits && row.note.is_empty() {
            return lacks("a tolerance of its own needs a note");
        }
        match row.kind {
            Kind::Error if row.note.is_empty() => lacks("why is it refused?"),
            Kind::ByHand if row.note.is_empty() => lacks("the arithmetic is not worked in the note"),
            Kind::Independent if !row.source.bytes().any(|b| b.is_ascii_digit()) => {
                lacks("a library is named with its version")
            }
            _ => Ok(()),
        }
    });
}

#[test]
fn every_shown_formula_is_read_back_into_the_same_tree() {
    of_every_filling(|row| {
        for step in &row.assessed()?.steps {
            let Some(node) = step.node() else { continue };
            for set in SETS {
                let text = node.text(set, &str::to_owned);
                if shown::read_shown(&text) != Some(shown::as_shown(&node, set)?) {
                    return Err(format!(
                        "{}: step {}: “{text}” can be read as another formula",
                        row.at, step.result.name
                    ));
                }
            }
        }
        Ok(())
    });
}

#[test]
fn every_shown_formula_gives_its_shown_result() {
    of_every_filling(|row| {
        for step in &row.assessed()?.steps {
            let said = |what: String| Err(format!("{}: step {}: {what}", row.at, step.result.name));
            if let How::Formula { text, .. } = &step.how
                && let Some(name) = formula::names(text).into_iter().find(|name| step.bound(name).is_none())
            {
                return said(format!("“{name}” of “{text}” has no value"));
            }
            for set in SETS {
                if !shown::is_coherent(step, set) {
                    return said(format!("does not hold in {set:?}"));
                }
                match shown::recompute(step, set) {
                    Ok(Some(recomputed)) if !recomputed.agrees() => {
                        return said(format!("{recomputed:?} in {set:?}"));
                    }
                    Ok(_) => {}
                    Err(why) => return said(why),
                }
            }
        }
        Ok(())
    });
}

#[test]
fn every_sentence_is_whole() {
    of_every_filling(|row| {
        let assessed = row.assessed()?;
        let declaration = row.entry()?.declaration;
        let done = assessed.steps.iter().filter_map(|step| match &step.how {
            How::Procedure { what } => Some(what.clone()),
            _ => None,
        });
        let sentences =
            assessed.warnings.iter().map(|warning| warning.sentence.clone()).chain(done).chain(
                assessed.checks.iter().map(|check| calc::engine::reason::of_check(check, declaration)),
            );
        for sentence in sentences {
            if !sentence.open_places().is_empty() {
                return Err(format!("{}: {}", row.at, sentence.show(UnitSet::Metric)));
            }
        }
        Ok(())
    });
}

#[test]
fn what_is_shown_reads_back() {
    fn back(at: &str, answer: &Answer) -> Result<(), String> {
        match answer {
            Answer::Number(si, kind) => {
                for unit in kind.units {
                    let shown = format!("{} {}", show::exact(unit.of_si(*si)), unit.symbol);
                    let read = text::read(&shown, kind, Some(unit)).map(|typed| typed.si());
                    let room = 1e-14 * si.abs().max(unit.offset.abs());
                    if !read.as_ref().is_ok_and(|read| (read - si).abs() <= room) {
                        return Err(format!("{at}: {shown} reads as {read:?}, is {si}"));
                    }
                }
                Ok(())
            }
            Answer::Table(rows) => rows.iter().flatten().try_for_each(|cell| back(at, cell)),
            _ => Ok(()),
        }
    }
    of_every_filling(|row| row.assessed()?.answers.iter().try_for_each(|answer| back(&row.at, answer)));
}

/// A number as a record keeps it.
fn kept(value: &Value, field: &'static calc::engine::sheet::Field) -> Json {
    match (value, field.shape) {
        (Value::Number(si), Shape::Number(kind)) => {
            let unit = kind.si();
            json!({ "typed": show::exact(unit.of_si(*si)), "value": unit.of_si(*si), "unit": unit.symbol })
        }
        (Value::Below(si), Shape::Number(kind)) => {
            let unit = kind.si();
            json!({ "typed": "", "value": unit.of_si(*si), "unit": unit.symbol, "below": true })
        }
        (Value::Choice(id), _) => json!(id),
        (Value::Date(date), _) => json!(date.to_string()),
        (Value::Moment(moment), _) => json!(moment.to_string()),
        (Value::Text(text), _) => json!(text),
        (Value::Table(rows), Shape::Table(columns)) => {
            let row = |cells: &Vec<Option<Value>>| -> Map<String, Json> {
                let cells = columns.iter().zip(cells);
                cells
                    .filter_map(|(column, cell)| Some((column.id.into(), kept(cell.as_ref()?, column))))
                    .collect()
            };
            rows.iter().map(row).map(Json::Object).collect()
        }
        _ => Json::Null,
    }
}

#[test]
fn what_a_record_keeps_is_what_was_entered() {
    of_every_filling(|row| {
        let declaration = row.entry()?.declaration;
        let values = row.filled()?.values;
        let members = declaration
            .inputs
            .iter()
            .zip(&values)
            .filter_map(|(field, value)| Some((field.id.to_owned(), kept(value.as_ref()?, field))))
            .collect();
        let again = calc::documents::json::fill(declaration, &members);
        if again.values == values && again.problems.is_empty() {
            Ok(())
        } else {
            Err(format!("{}: {values:?} came back as {:?}", row.at, again.values))
        }
    });
}

#[test]
fn the_json_interface_answers_the_same() {
    of_every_filling(|row| {
        let assessed = row.assessed()?;
        let declaration = row.entry()?.declaration;
        for (name, set) in [("si", UnitSet::Metric), ("us", UnitSet::Us)] {
            let request = json!({ "id": 7, "sheet": row.sheet, "inputs": row.inputs, "units": name });
            let answer = calc::documents::json::answer(&request.to_string());
            let answer: Json =
                serde_json::from_str(&answer).map_err(|error| format!("{}: {error}", row.at))?;
            for (field, ours) in declaration.outputs.iter().zip(&assessed.answers) {
                let Answer::Number(si, _) = ours else { continue };
                let output = &answer["outputs"][field.id];
                let unit = field.term.unit(set == UnitSet::Us).ok_or("a number without a unit")?;
                let value = output["value"].as_f64().map(|value| unit.to_si(value));
                let room = 1e-14 * si.abs().max(unit.offset.abs());
                if output["unit"] != unit.symbol || !value.is_some_and(|value| (value - si).abs() <= room) {
                    return Err(format!("{}: {} is {output} in JSON", row.at, field.id));
                }
            }
        }
        Ok(())
    });
}
