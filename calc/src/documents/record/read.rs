//! The one reader: from what stands in fields to the values of a sheet. The page, the record and the JSON interface share it.

use super::{Entries, Held, Rows, Typed};
use crate::documents::reading::{Naming, moment_in_full, read_at, remark};
use crate::engine::calendar::Moment;
use crate::engine::sheet::{Field, Problem, Sentence, Shape, Value, Warning};
use std::rc::Rc;

/// The values of a sheet as far as they could be read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Read {
    /// In the order of the declaration.
    pub values: Vec<Option<Value>>,
    /// What could not be read.
    pub problems: Vec<Problem>,
    /// What was read without doubt, and may still be meant otherwise.
    pub remarks: Vec<Warning>,
    /// The present moment, where the sheet asks for it: beside it others may be told by the clock alone.
    now: Option<Moment>,
    /// Of tables in which rows were left out: the field, and which of its rows were not.
    pub kept: Vec<(&'static str, Vec<usize>)>,
}

/// Reads every field; all problems at once.
pub fn read(fields: &'static [Field], entries: &Entries) -> Read {
    let mut read = Read { now: now(entries), ..Read::default() };
    for field in fields {
        let value = entries.get(field.id).map(Rc::as_ref).and_then(|held| read.field(field, held));
        read.values.push(value);
    }
    read
}

/// What stands in the field for the present moment.
fn now(entries: &Entries) -> Option<Moment> {
    match entries.get("now")?.as_ref() {
        Held::One(typed) => Moment::read(&typed.text).ok(),
        Held::Rows(_) => None,
    }
}

impl Read {
    fn field(&mut self, field: &'static Field, held: &Held) -> Option<Value> {
        match (held, field.shape) {
            (Held::One(typed), _) => self.one(field, typed),
            (Held::Rows(rows), Shape::Table(columns)) => self.table(field, columns, rows),
            (Held::Rows(_), _) => self.refuse(Problem::new(
                field.id,
                Sentence::plain("{name} is no table: enter it again").of(field),
            )),
        }
    }

    fn one(&mut self, field: &'static Field, typed: &Typed) -> Option<Value> {
        self.remarks.extend(remark(field, typed.shown(), typed.unit));
        self.remarks.extend(self.now.and_then(|now| moment_in_full(field, &typed.text, now)));
        self.value(field, typed).unwrap_or_else(|sentence| self.refuse(Problem::new(field.id, sentence)))
    }

    /// Beside the present moment others may be told by the clock alone.
    fn value(&self, field: &'static Field, typed: &Typed) -> Result<Option<Value>, Sentence> {
        match field.shape {
            Shape::Moment if self.now.is_some() => read_at(field, &typed.text, None, self.now),
            _ => typed.value(field),
        }
    }

    /// A table with a cell that could not be read is not computed with: the cell would count as empty. Where each row
    /// stands for itself, as in a laboratory's report, only that row is left out; one "ND" hides no other result.
    fn table(&mut self, field: &'static Field, columns: &'static [Field], rows: &Rows) -> Option<Value> {
        let before = self.problems.len();
        let counted = rows.counted();
        let mut kept = Vec::new();
        let mut values = Vec::new();
        for row in 0..counted {
            let before = self.problems.len();
            let cells: Vec<Option<Value>> = columns
                .iter()
                .enumerate()
                .map(|(index, column)| {
                    self.value(column, rows.cell(row, index)?).unwrap_or_else(|sentence| {
                        self.refuse(Problem { field: field.id, cell: Some((row, column.id)), sentence })
                    })
                })
                .collect();
            if !field.term.rows_alone || self.problems.len() == before {
                kept.push(row);
                values.push(cells);
            }
        }
        if self.problems.len() > before && (!field.term.rows_alone || values.is_empty()) {
            return Some(Value::Refused);
        }
        if kept.len() < counted {
            self.kept.push((field.id, kept));
        }
        (!values.is_empty()).then_some(Value::Table(values))
    }

    /// The row as it stands on the page, of one that the sheet counts without those left out.
    pub fn on_the_page(&self, problem: Problem) -> Problem {
        on_the_page(&self.kept, problem)
    }

    /// What was entered and cannot be read is not the same as nothing.
    fn refuse(&mut self, problem: Problem) -> Option<Value> {
        self.problems.push(problem);
        Some(Value::Refused)
    }
}

/// The same problem in the row as it was given, of one that a sheet counts without those left out.
pub(crate) fn on_the_page(kept: &[(&'static str, Vec<usize>)], mut problem: Problem) -> Problem {
    let kept = kept.iter().find(|(field, _)| *field == problem.field);
    if let (Some((_, kept)), Some((row, _))) = (kept, &mut problem.cell) {
        *row = kept.get(*row).copied().unwrap_or(*row);
    }
    problem
}
