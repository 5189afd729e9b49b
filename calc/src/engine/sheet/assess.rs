//! From values to everything that is said of them: refusals, warnings, answers, checks.

use super::case::Case;
use super::criterion::{Check, State};
use super::missing::{Missing, Problem, Stop};
use super::sentence::{Sentence, Slot};
use super::shape::{Caution, Declaration, Field, Named, Shape};
use super::value::{Answer, Value};
use super::working::{Step, Warning, Working};
use super::{Known, Sheet};
use crate::engine::{decided, uncertainty};
use std::collections::BTreeMap;

/// Reads the inputs of one sheet into its own type.
type Fill = fn(&[Option<Value>]) -> Known<Box<dyn Case>>;

/// A sheet in the catalogue.
#[derive(Debug, Clone, Copy)]
pub struct Entry {
    /// Of the sheet.
    pub declaration: &'static Declaration,
    fill: Fill,
}

/// Everything that is said of one filling of a sheet.
#[derive(Debug, Clone, Default)]
pub struct Assessment {
    /// What cannot be so. While there is any in a needed field, the answers are not known.
    pub problems: Vec<Problem>,
    /// In the order of the declared outputs.
    pub answers: Vec<Answer>,
    /// Worst first.
    pub checks: Vec<Check>,
    /// What must be known.
    pub warnings: Vec<Warning>,
    /// The inputs that are empty and for which something is taken; their terms say what.
    pub assumed: Vec<&'static Field>,
    /// What to beware of: always, and because of these inputs.
    pub cautions: Vec<&'static Caution>,
    /// The arithmetic, where it was asked for.
    pub steps: Vec<Step>,
}

impl Entry {
    /// The entry of a sheet.
    pub const fn of<S: Sheet>() -> Self {
        Self { declaration: S::DECLARATION, fill: |values| Ok(Box::new(S::read(values)?)) }
    }

    /// The sheet with these inputs, in the order of the declaration.
    pub fn fill(&self, values: &[Option<Value>]) -> Known<Box<dyn Case>> {
        (self.fill)(values)
    }

    /// Everything that is said of these inputs. A refused value stops the sheet, or in a plan the stages that would
    /// count with it, also where it may be left out.
    pub fn assess(&self, values: &[Option<Value>], with_working: bool) -> Assessment {
        let mut assessment = self.figures(values, with_working);
        self.settle(values, &mut assessment);
        assessment
    }

    /// The same without the 95 % intervals, which cost dozens of evaluations: what is `marginal` is still `met`.
    pub fn figures(&self, values: &[Option<Value>], with_working: bool) -> Assessment {
        let mut values = values.to_vec();
        values.resize(self.declaration.inputs.len(), None);
        let (problems, warnings) = examine(self.declaration, &mut values);
        let mut assessment = Assessment { problems, warnings, ..Assessment::default() };
        let empty = self.declaration.inputs.iter().zip(&values).filter(|(_, value)| value.is_none());
        assessment.assumed =
            empty.map(|(field, _)| field).filter(|field| !field.term.assumed.is_empty()).collect();
        assessment.cautions.extend(self.declaration.cautions);
        match self.fill(&values) {
            Ok(case) => assessment.run(case.as_ref(), with_working),
            Err(missing) => assessment.stop(self.declaration, missing),
        }
        assessment.checks.sort_by(Check::worse);
        assessment
    }

    /// Finds the 95 % intervals of the checks of these values, with them what is `marginal`, and what is decided though
    /// one field is empty.
    pub fn settle(&self, values: &[Option<Value>], assessment: &mut Assessment) {
        let mut values = values.to_vec();
        values.resize(self.declaration.inputs.len(), None);
        examine(self.declaration, &mut values);
        if let Ok(case) = self.fill(&values) {
            uncertainty::settle(case.as_ref(), &mut assessment.checks);
        }
        decided::decide(self, &values, &mut assessment.checks);
        assessment.checks.sort_by(Check::worse);
    }
}

impl Assessment {
    /// Takes the intervals of other values of the same sheet, which a moment ago were these: until their own are
    /// found, what was marginal stays so, and what was decided.
    pub fn settle_as(&mut self, before: &[Check]) {
        for check in &mut self.checks {
            let before = before.iter().find(|before| before.is_same(check));
            if let Some(uncertainty) = before.and_then(|before| before.uncertainty) {
                check.settle(uncertainty);
            }
            let waits_for = check.missing.map(|missing| missing.field);
            if let Some((field, before)) = before.and_then(|before| Some((before.decided?, before)))
                && check.state == State::NotKnown
                && waits_for == Some(field.id)
            {
                (check.state, check.decided) = (before.state, before.decided);
            }
        }
        self.checks.sort_by(Check::worse);
    }

    fn run(&mut self, case: &dyn Case, with_working: bool) {
        let mut w = if with_working { Working::recording() } else { Working::silent() };
        match case.answers(&mut w) {
            Ok(answers) => {
                self.answers = answers;
                self.checks.extend_from_slice(w.checks());
            }
            Err(Stop::Missing(missing)) => self.stop(case.declaration(), missing),
            Err(Stop::Problems(problems)) => {
                let field = problems.first().map_or("", |problem| problem.field);
                self.problems.extend(problems);
                self.stop(case.declaration(), Missing::not_known(field, "what was entered cannot be so"));
            }
        }
        self.problems.extend_from_slice(w.problems());
        self.warnings.extend_from_slice(w.warnings());
        self.steps = w.steps().to_vec();
        for caution in w.cautions() {
            if !self.cautions.contains(caution) {
                self.cautions.push(caution);
            }
        }
    }

    /// Nothing was computed: every output and every declared criterion is not known.
    fn stop(&mut self, declaration: &'static Declaration, missing: Missing) {
        self.answers = declaration.outputs.iter().map(|_| Answer::Missing(missing)).collect();
        for criterion in declaration.criteria {
            self.checks.extend(Check::not_judged(criterion, Named::NONE, missing));
        }
    }
}

/// Refuses what is not possible, warns of what is not plausible.
fn examine(declaration: &'static Declaration, values: &mut [Option<Value>]) -> (Vec<Problem>, Vec<Warning>) {
    let (mut problems, mut warnings) = (Vec::new(), Vec::new());
    for (field, value) in declaration.inputs.iter().zip(values) {
        let refused = value.as_ref().is_some_and(|value| {
            let before = problems.len();
            examine_field(field, value, &mut problems, &mut warnings);
            problems.len() > before
        });
        if refused {
            *value = Some(Value::Refused);
        }
    }
    (problems, warnings)
}

fn examine_field(
    field: &'static Field,
    value: &Value,
    problems: &mut Vec<Problem>,
    warnings: &mut Vec<Warning>,
) {
    match (field.shape, value) {
        (Shape::Number(_), Value::Number(si)) => {
            problems.extend(impossible(field, *si).map(|sentence| Problem::new(field.id, sentence)));
            warnings.extend(implausible(field, *si).map(|sentence| Warning {
                field: field.id,
                id: "unusual",
                sentence,
                assumed: false,
            }));
        }
        (Shape::Number(_), Value::Below(si)) => {
            problems.extend(impossible_bound(field, *si).map(|sentence| Problem::new(field.id, sentence)));
        }
        (Shape::Table(columns), Value::Table(rows)) => {
            repeated(field, columns, rows, problems);
            for (row, cells) in rows.iter().enumerate() {
                for (column, cell) in columns.iter().zip(cells) {
                    let cell_problem =
                        |sentence| Problem { field: field.id, cell: Some((row, column.id)), sentence };
                    match cell {
                        None if column.needed => problems.push(cell_problem(
                            Sentence::plain(
                                "row {row} has nothing under {column}; fill it or remove the row",
                            )
                            .with("row", Slot::Count(row as i64 + 1))
                            .with("column", Slot::Word(column.term.name)),
                        )),
                        Some(Value::Below(si)) => {
                            problems.extend(impossible_bound(column, *si).map(cell_problem));
                        }
                        Some(Value::Number(si)) => {
                            problems.extend(impossible(column, *si).map(cell_problem));
                            warnings.extend(implausible(column, *si).map(|sentence| Warning {
                                field: field.id,
                                id: "unusual",
                                sentence,
                                assumed: false,
                            }));
                        }
                        _ => {}
                    }
                }
            }
        }
        // whoever read it has said why
        (_, Value::Refused) => {}
        (Shape::Choice(_), Value::Choice(_))
        | (Shape::Date, Value::Date(_))
        | (Shape::Moment, Value::Moment(_))
        | (Shape::Text, Value::Text(_)) => {}
        _ => problems.push(Problem::new(field.id, "this is not what the field holds; enter it again")),
    }
}

/// Two rows of one thing, where each has one: which of them counts, nobody could know.
fn repeated(
    field: &'static Field,
    columns: &'static [Field],
    rows: &[Vec<Option<Value>>],
    problems: &mut Vec<Problem>,
) {
    let Some(key) = columns.iter().position(|column| column.term.unique) else { return };
    let mut seen = BTreeMap::new();
    for (row, cells) in rows.iter().enumerate() {
        let Some(Some(Value::Choice(id))) = cells.get(key) else { continue };
        if let Some(first) = seen.insert(*id, row) {
            let name = match columns[key].shape {
                Shape::Choice(named) => named.iter().find(|one| one.id == *id).map_or(*id, |one| one.name),
                _ => id,
            };
            let sentence = Sentence::plain("{value} is in row {first} and in row {row}: keep one of them")
                .with("value", Slot::Word(name))
                .with("first", Slot::Count(first as i64 + 1))
                .with("row", Slot::Count(row as i64 + 1));
            problems.push(Problem { field: field.id, cell: Some((row, columns[key].id)), sentence });
        }
    }
}

fn bounds(
    template: &'static str,
    field: &'static Field,
    si: f64,
    (low, high): (f64, f64),
) -> Option<Sentence> {
    let kind = field.term.kind?;
    // a range without an end on one side is said by the end that it has
    let template = if si.is_finite() { template } else { "{name} is not a finite number" };
    (!(low..=high).contains(&si)).then(|| {
        Sentence::plain(template)
            .with("name", Slot::Word(field.term.name))
            .with("value", Slot::Given(si, kind))
            .with("low", Slot::Given(low, kind))
            .with("high", Slot::Given(high, kind))
    })
}

fn impossible(field: &'static Field, si: f64) -> Option<Sentence> {
    if field.term.whole && si.fract() != 0.0 {
        return Some(
            Sentence::plain("{name} counts whole ones: enter a whole number")
                .with("name", Slot::Word(field.term.name)),
        );
    }
    let template = "{name} cannot be {value}: enter a value from {low} to {high}, and check the unit";
    bounds(template, field, si, field.term.possible)
}

/// "Less than" where there is no such thing, or less than the least that can be.
fn impossible_bound(field: &'static Field, si: f64) -> Option<Sentence> {
    if !field.term.below {
        return Some(
            Sentence::plain("{name} is a number and cannot be “less than” one: enter the number itself")
                .with("name", Slot::Word(field.term.name)),
        );
    }
    let kind = field.term.kind?;
    let (low, high) = field.term.possible;
    let is_possible = low < si && si <= high && si.is_finite();
    (!is_possible).then(|| {
        Sentence::plain(
            "{name} cannot be less than {value}: enter a reporting limit above {low} and up to {high}, and check the unit",
        )
        .with("name", Slot::Word(field.term.name))
        .with("value", Slot::Given(si, kind))
        .with("low", Slot::Given(low, kind))
        .with("high", Slot::Given(high, kind))
    })
}

/// Why a value of a field cannot be, whatever is computed with it.
pub(crate) fn why_impossible(field: &'static Field, value: &Value) -> Option<Sentence> {
    match value {
        Value::Number(si) => impossible(field, *si),
        Value::Below(si) => impossible_bound(field, *si),
        _ => None,
    }
}

/// Why a value of a field is worth a second look.
pub(crate) fn why_unusual(field: &'static Field, value: &Value) -> Option<Sentence> {
    match value {
        Value::Number(si) => implausible(field, *si),
        _ => None,
    }
}

fn implausible(field: &'static Field, si: f64) -> Option<Sentence> {
    impossible(field, si).is_none().then_some(())?;
    let template =
        "{name} of {value} is unusual (usually {low} to {high}). It was used; check number and unit";
    bounds(template, field, si, field.term.plausible)
}

#[cfg(test)]
mod tests {
    use crate::engine::sheet::{Answer, Value};
    use crate::program::catalogue::find;

    #[test]
    fn a_log_that_cannot_be_read_is_not_replaced_by_set_values() {
        let sheet = find("heat-dose").unwrap();
        let held = |log| {
            sheet.assess(&[log, Some(Value::Number(353.15)), Some(Value::Number(600.0)), None, None], false)
        };
        assert!(matches!(held(None).answers[0], Answer::Number(dose, _) if dose == 600.0));
        assert!(
            matches!(held(Some(Value::Refused)).answers[0], Answer::Missing(missing) if missing.field == "log")
        );
    }

    #[test]
    fn what_cannot_be_so_is_not_the_same_as_nothing() {
        let sheet = find("carbon-contact-time").unwrap();
        let said = sheet.assess(
            &[Some(Value::Number(0.015)), Some(Value::Number(-1.0)), Some(Value::Number(5e-5)), None],
            false,
        );
        assert_eq!(said.problems.len(), 1);
        assert!(matches!(said.answers[1], Answer::Missing(missing) if missing.field == "second-bed-volume"));
    }

    #[test]
    fn a_hose_that_cannot_be_read_stops_the_pressure_and_nothing_else() {
        let plan = find("plan").unwrap();
        let record =
            crate::documents::record::Record::open(include_str!("../../../../examples/tolby-marsh.json"))
                .unwrap();
        let (mut values, _) = record.inputs_of_plan(0);
        let whole = plan.assess(&values, false);
        values[plan.declaration.input("hoses").unwrap()] = Some(Value::Refused);
        let refused = plan.assess(&values, false);
        for (field, (before, after)) in
            plan.declaration.outputs.iter().zip(whole.answers.iter().zip(&refused.answers))
        {
            let of_pressure =
                ["inlet", "filter-limits", "lowest-filter-limit", "line-spare"].contains(&field.id);
            assert_eq!(before == after, !of_pressure, "{}", field.id);
        }
        let pressure = refused.checks.iter().find(|check| check.criterion.id == "inlet-pressure").unwrap();
        assert!(pressure.missing.is_some_and(|missing| missing.field == "hoses"));
    }
}
