//! What every sheet answers with, whatever possible inputs are drawn: finite, in its shape, in whole sentences.

use calc::engine::reason;
use calc::engine::sheet::{
    Answer, Assessment, Declaration, Field, How, Missing, Sentence, Shape, Stage, Value,
};
use calc::program::catalogue::SHEETS;
use tests::draw::Draw;

/// How many fillings of each sheet are drawn.
const DRAWN: u64 = 500;

fn declarations() -> impl Iterator<Item = &'static Declaration> {
    SHEETS.iter().map(|entry| entry.declaration)
}

/// Asks something of many fillings of every sheet, drawn from its possible ranges.
fn of_drawn_fillings(seed: u64, ask: impl Fn(&'static Declaration, &Assessment) -> Result<(), String>) {
    let mut failures = Vec::new();
    for entry in SHEETS {
        let sheet = entry.declaration;
        for round in 0..DRAWN {
            let values = Draw::new(seed << 32 | round).possible(sheet);
            let assessment = entry.assess(&values, true);
            if let Err(why) = ask(sheet, &assessment) {
                failures.push(format!("{}, round {round}: {why}\n  {values:?}", sheet.id));
                break;
            }
        }
    }
    assert!(failures.is_empty(), "{} failures:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn every_answer_is_finite_and_in_its_shape() {
    fn shape(field: &Field, answer: &Answer) -> Result<(), String> {
        match (answer, field.shape) {
            (Answer::Number(si, kind) | Answer::Below(si, kind), Shape::Number(declared))
                if kind.id == declared.id && si.is_finite() =>
            {
                Ok(())
            }
            (Answer::Choice(one), Shape::Choice(named)) if named.contains(one) => Ok(()),
            (Answer::Date(_), Shape::Date)
            | (Answer::Moment(_), Shape::Moment)
            | (Answer::Text(_) | Answer::Word(_), Shape::Text) => Ok(()),
            (Answer::Table(rows), Shape::Table(columns)) => rows.iter().try_for_each(|cells| {
                if cells.len() != columns.len() {
                    return Err(format!("{} has {} cells", field.id, cells.len()));
                }
                columns.iter().zip(cells).try_for_each(|(column, cell)| shape(column, cell))
            }),
            (Answer::Missing(Missing { why, .. }), _) if !why.contains("no finite result") => Ok(()),
            _ => Err(format!("{} is {answer:?}", field.id)),
        }
    }
    of_drawn_fillings(1, |sheet, assessment| {
        if assessment.answers.len() != sheet.outputs.len() {
            return Err(format!("{} answers", assessment.answers.len()));
        }
        sheet.outputs.iter().zip(&assessment.answers).try_for_each(|(field, answer)| shape(field, answer))
    });
}

#[test]
fn every_sentence_is_whole() {
    of_drawn_fillings(2, |sheet, assessment| {
        let done = assessment.steps.iter().filter_map(|step| match &step.how {
            How::Procedure { what } => Some(what.clone()),
            _ => None,
        });
        let missing = assessment.answers.iter().filter_map(|answer| match answer {
            Answer::Missing(missing) => Some(reason::of_missing(missing, sheet)),
            _ => None,
        });
        let sentences: Vec<Sentence> = assessment
            .problems
            .iter()
            .map(|problem| problem.sentence.clone())
            .chain(assessment.warnings.iter().map(|warning| warning.sentence.clone()))
            .chain(assessment.checks.iter().map(|check| reason::of_check(check, sheet)))
            .chain(done)
            .chain(missing)
            .collect();
        sentences.iter().try_for_each(|sentence| match sentence.open_places().as_slice() {
            [] if !sentence.template.is_empty() => Ok(()),
            open => Err(format!("“{}” leaves {open:?} open", sentence.template)),
        })
    });
}

#[test]
fn what_is_said_names_fields_that_exist() {
    // the plan hands on what a sheet of a stage lacks, which is a field of that sheet
    let known = |sheet: &Declaration, id: &str| {
        id.is_empty()
            || sheet.input(id).is_some()
            || (sheet.stage == Stage::Plan && declarations().any(|other| other.input(id).is_some()))
    };
    of_drawn_fillings(3, |sheet, assessment| {
        for problem in &assessment.problems {
            let column =
                match (problem.cell, sheet.input(problem.field).map(|index| sheet.inputs[index].shape)) {
                    (Some((_, column)), Some(Shape::Table(columns))) => {
                        columns.iter().any(|one| one.id == column)
                    }
                    (None, Some(_)) => true,
                    _ => false,
                };
            if !column {
                return Err(format!("a problem of {} {:?}", problem.field, problem.cell));
            }
        }
        if let Some(warning) = assessment.warnings.iter().find(|warning| !known(sheet, warning.field)) {
            return Err(format!("a warning of “{}”", warning.field));
        }
        for answer in &assessment.answers {
            if let Answer::Missing(missing) = answer
                && !known(sheet, missing.field)
            {
                return Err(format!("an answer that lacks “{}”", missing.field));
            }
        }
        let declared = |id| sheet.criteria.iter().any(|criterion| criterion.id == id);
        match assessment.checks.iter().find(|check| !declared(check.criterion.id)) {
            Some(check) => Err(format!("{} is judged and not declared", check.id())),
            None => Ok(()),
        }
    });
}

#[test]
fn recording_changes_nothing() {
    for entry in SHEETS {
        for round in 0..200 {
            let values = Draw::new(4 << 32 | round).possible(entry.declaration);
            let (with, without) = (entry.assess(&values, true), entry.assess(&values, false));
            assert_eq!(with.answers, without.answers, "{}, round {round}", entry.declaration.id);
            assert!(without.steps.is_empty());
        }
    }
}

#[test]
fn a_refused_value_is_as_an_empty_one_or_stops_by_its_name() {
    for entry in SHEETS {
        let sheet = entry.declaration;
        let values = Draw::new(5).plausible(sheet);
        for (index, field) in sheet.inputs.iter().enumerate().filter(|(_, field)| field.term.kind.is_some()) {
            let (mut refused, mut empty) = (values.clone(), values.clone());
            refused[index] = Some(Value::Number(2.0 * field.term.possible.1.abs() + 1.0));
            empty[index] = None;
            let (refused, empty) = (entry.assess(&refused, false), entry.assess(&empty, false));
            // what may be left out is not left out when it is refused: it stops what would count with it, by its name
            let whole = entry.assess(&values, false);
            for ((after, without), before) in refused.answers.iter().zip(&empty.answers).zip(&whole.answers) {
                let names = || format!("{after:?}").contains(&format!("field: \"{}\"", field.id));
                assert!(
                    after == without || after == before || names(),
                    "{} {}: {after:?}",
                    sheet.id,
                    field.id
                );
            }
            assert!(
                refused.problems.iter().any(|problem| problem.field == field.id),
                "{} {}",
                sheet.id,
                field.id
            );
        }
    }
}
