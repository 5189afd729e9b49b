//! What a sheet answers with, as JSON. Values are unrounded, in the units of the fields that hold them.

use super::{named, steps};
use crate::engine::quantity::{Kind, Unit, UnitSet};
use crate::engine::reason;
use crate::engine::sheet::{Absence, Answer, Assessment, Check, Declaration, Field, Missing, Shape};
use serde_json::{Map, Number, Value as Json, json};

pub(super) fn assessment(
    declaration: &'static Declaration,
    assessment: &Assessment,
    set: UnitSet,
) -> Map<String, Json> {
    let outputs: Map<String, Json> = declaration
        .outputs
        .iter()
        .zip(&assessment.answers)
        .map(|(field, answer)| (field.id.to_owned(), value(field, answer, declaration, set)))
        .collect();
    let checks: Vec<Json> = assessment.checks.iter().map(|one| check(one, declaration, set)).collect();
    let warnings: Vec<Json> = assessment
        .warnings
        .iter()
        .map(|warning| {
            json!({
                "field": named(warning.field),
                "id": warning.id,
                "message": warning.sentence.show(set),
                "assumed": warning.assumed,
            })
        })
        .collect();
    let assumed: Vec<Json> = assessment
        .assumed
        .iter()
        .map(|field| json!({ "field": field.id, "message": field.term.assumed }))
        .collect();
    let cautions: Vec<Json> = assessment
        .cautions
        .iter()
        .map(|caution| json!({ "id": caution.id, "message": caution.text }))
        .collect();
    let working: Vec<Json> = assessment.steps.iter().map(|step| steps::step(step, set)).collect();
    Map::from_iter([
        ("sheet".to_owned(), json!(declaration.id)),
        ("outputs".to_owned(), Json::Object(outputs)),
        ("checks".to_owned(), Json::Array(checks)),
        ("warnings".to_owned(), Json::Array(warnings)),
        ("assumptions".to_owned(), Json::Array(assumed)),
        ("cautions".to_owned(), Json::Array(cautions)),
        ("working".to_owned(), Json::Array(working)),
    ])
}

/// One answer in the shape of its field.
pub fn value(
    field: &'static Field,
    answer: &Answer,
    declaration: &'static Declaration,
    set: UnitSet,
) -> Json {
    match answer {
        Answer::Number(si, kind) => {
            let unit = field.term.unit(set == UnitSet::Us).unwrap_or_else(|| kind.unit_in(set));
            match Number::from_f64(unit.of_si(*si)) {
                Some(value) => json!({ "value": value, "unit": unit.symbol }),
                None => {
                    missing(&Missing::none_exists("these numbers have no finite result"), declaration, set)
                }
            }
        }
        Answer::Below(si, kind) => {
            let mut told = value(field, &Answer::Number(*si, kind), declaration, set);
            told["below"] = json!(true);
            told
        }
        Answer::Choice(one) => json!({ "value": one.id }),
        Answer::Moment(moment) => json!({ "value": moment.to_string() }),
        Answer::Date(date) => json!({ "value": date.to_string() }),
        Answer::Text(text) => json!({ "value": text }),
        Answer::Word(text) => json!({ "value": text }),
        Answer::Table(rows) => {
            let columns = match field.shape {
                Shape::Table(columns) => columns,
                _ => &[],
            };
            let row = |cells: &Vec<Answer>| -> Map<String, Json> {
                let cell = |(column, cell): (&'static Field, &Answer)| {
                    (column.id.to_owned(), value(column, cell, declaration, set))
                };
                columns.iter().zip(cells).map(cell).collect()
            };
            json!({ "value": rows.iter().map(row).collect::<Vec<_>>() })
        }
        Answer::Missing(why) => missing(why, declaration, set),
    }
}

fn missing(missing: &Missing, declaration: &'static Declaration, set: UnitSet) -> Json {
    json!({
        "value": null,
        "missing": match missing.absence {
            Absence::Empty | Absence::NotKnown => "not-known",
            Absence::NoneExists => "none-exists",
        },
        "field": named(missing.field),
        "why": reason::of_missing(missing, declaration).show(set),
    })
}

fn check(check: &Check, declaration: &'static Declaration, set: UnitSet) -> Json {
    // a share is told in per cent, while in a formula it stands as a fraction
    let unit = check.kind.unit(if set == UnitSet::Us { check.kind.us } else { check.kind.metric });
    json!({
        "id": check.id(),
        "stage": check.criterion.stage.id(),
        "season": named(check.season.id),
        "state": check.state.id(),
        "value": number(unit.of_si(check.value)),
        "below": check.below,
        "limit": number(unit.of_si(check.limit)),
        "unit": unit.symbol,
        "margin": check.margin().and_then(number),
        "distance": difference(check.distance(), check.kind, unit, set),
        "uncertainty": check.uncertainty.and_then(|u| difference(u, check.kind, unit, set)),
        "reason": reason::of_check(check, declaration).show(set),
        "source": check.criterion.source.title,
        "source-key": check.criterion.source.key,
        "decided": check.decided.map(|field| field.id),
        "field": named(check.missing.map_or("", |missing| missing.field)),
        "levers": check.criterion.levers,
        "instead": named(check.instead.map_or("", |criterion| criterion.id)),
    })
}

/// A difference of two values of that kind: of temperatures, one without the offset of their scale.
fn difference(si: f64, kind: &'static Kind, unit: &'static Unit, set: UnitSet) -> Option<Json> {
    let unit = match kind.difference {
        Some(difference) => difference.unit_in(set),
        None => unit,
    };
    number(si / unit.factor).map(|value| json!({ "value": value, "unit": unit.symbol }))
}

fn number(value: f64) -> Option<Number> {
    Number::from_f64(value)
}
