//! Declarations as JSON: what there is to ask, and how.

use super::named;
use crate::engine::quantity::Kind;
use crate::engine::sheet::{Criterion, Declaration, Field, Shape, Source, Term, Tolerance};
use crate::program::catalogue;
use serde_json::{Map, Number, Value as Json, json};

/// Every sheet with the ids of its fields.
pub(super) fn list() -> Map<String, Json> {
    let ids = |fields: &'static [Field]| fields.iter().map(|field| field.id).collect::<Vec<_>>();
    let sheets: Vec<Json> = catalogue::SHEETS
        .iter()
        .map(|entry| {
            let sheet = entry.declaration;
            json!({
                "id": sheet.id,
                "name": sheet.name,
                "stage": sheet.stage.id(),
                "inputs": ids(sheet.inputs),
                "outputs": ids(sheet.outputs),
            })
        })
        .collect();
    Map::from_iter([("sheets".to_owned(), Json::Array(sheets))])
}

/// One sheet with everything that is declared of it.
pub(super) fn sheet(sheet: &'static Declaration) -> Map<String, Json> {
    let cautions: Vec<Json> =
        sheet.cautions.iter().map(|caution| json!({ "id": caution.id, "message": caution.text })).collect();
    Map::from_iter([
        ("sheet".to_owned(), json!(sheet.id)),
        ("name".to_owned(), json!(sheet.name)),
        ("about".to_owned(), json!(sheet.about.trim())),
        ("stage".to_owned(), json!(sheet.stage.id())),
        ("inputs".to_owned(), sheet.inputs.iter().map(|one| field(one, true)).collect()),
        ("outputs".to_owned(), sheet.outputs.iter().map(|one| field(one, false)).collect()),
        ("criteria".to_owned(), sheet.criteria.iter().map(|one| criterion(one)).collect()),
        ("cautions".to_owned(), Json::Array(cautions)),
        ("sources".to_owned(), sheet.sources.iter().map(|one| source(one)).collect()),
    ])
}

/// An input with everything that is declared of it; an output, which is not measured, with less.
fn field(field: &'static Field, is_input: bool) -> Json {
    let mut told = Map::from_iter([
        ("id".to_owned(), json!(field.id)),
        ("name".to_owned(), json!(field.term.name)),
        ("symbol".to_owned(), named(field.term.symbol)),
        ("help".to_owned(), named(field.term.help)),
    ]);
    if is_input {
        told.insert("needed".into(), json!(field.needed));
        told.insert("assumed".into(), named(field.term.assumed));
    }
    match field.shape {
        Shape::Number(kind) => number(&mut told, field.term, kind, is_input),
        Shape::Choice(choices) => {
            told.insert("shape".into(), json!("choice"));
            let choices = choices.iter().map(|one| json!({ "id": one.id, "name": one.name }));
            told.insert("choices".into(), choices.collect());
        }
        Shape::Date => {
            told.insert("shape".into(), json!("date"));
        }
        Shape::Moment => {
            told.insert("shape".into(), json!("moment"));
        }
        Shape::Text => {
            told.insert("shape".into(), json!("text"));
        }
        Shape::Table(columns) => {
            told.insert("shape".into(), json!("table"));
            told.insert("columns".into(), columns.iter().map(|one| self::field(one, is_input)).collect());
        }
    }
    Json::Object(told)
}

fn number(told: &mut Map<String, Json>, term: &Term, kind: &'static Kind, is_input: bool) {
    let [metric, us] = term.units;
    told.insert("shape".into(), json!("number"));
    told.insert("kind".into(), json!({ "id": kind.id, "name": kind.name }));
    told.insert("unit".into(), json!({ "si": metric, "us": us }));
    if is_input {
        told.insert("units".into(), kind.units.iter().map(|unit| unit.symbol).collect());
        told.insert("plausible".into(), range(term.plausible, metric, kind));
        told.insert("possible".into(), range(term.possible, metric, kind));
        told.insert("tolerance".into(), tolerance(term.tolerance, metric, kind));
        told.insert("instrument".into(), named(term.instrument));
        told.insert("below".into(), json!(term.below));
    }
}

/// Both ends in the unit of SI practice; an open end is `null`.
fn range((low, high): (f64, f64), unit: &'static str, kind: &'static Kind) -> Json {
    let end = |si: f64| Number::from_f64(kind.unit(unit).of_si(si));
    json!({ "low": end(low), "high": end(high), "unit": unit })
}

/// A half-width, of a temperature without the offset of its scale.
fn tolerance(tolerance: Tolerance, unit: &'static str, kind: &'static Kind) -> Json {
    match tolerance {
        Tolerance::None => Json::Null,
        Tolerance::Relative(share) => json!({ "value": Number::from_f64(share * 100.0), "unit": "%" }),
        Tolerance::Absolute(si) => {
            let unit = match kind.difference {
                Some(difference) => difference.unit(difference.metric),
                None => kind.unit(unit),
            };
            json!({ "value": Number::from_f64(si / unit.factor), "unit": unit.symbol })
        }
    }
}

fn criterion(criterion: &'static Criterion) -> Json {
    json!({
        "id": criterion.id,
        "sentence": criterion.sentence,
        "stage": criterion.stage.id(),
        "side": criterion.side.words(),
        "forecast": criterion.forecast,
        "levers": criterion.levers,
        "source": source(criterion.source),
    })
}

fn source(source: &'static Source) -> Json {
    json!({ "key": source.key, "title": source.title, "known": source.known.words() })
}
