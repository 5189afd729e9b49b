//! From what was typed to values.

use super::{Entry, Filling, Rows, Typed};
use crate::text::WORDS;
use calc::documents::reading::{moment_in_full, read_cell, read_text_at, remark};
use calc::engine::calendar::Moment;
use calc::engine::sheet::{Declaration, Field, Problem, Sentence, Shape, Slot, Value, Warning};

/// The values of a sheet as far as they could be read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reading {
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

/// Reads every field of a sheet; all problems at once.
pub fn read(declaration: &'static Declaration, filling: &Filling) -> Reading {
    let mut reading = Reading { now: now(filling), ..Reading::default() };
    for field in declaration.inputs {
        let value = filling.entries.get(field.id).and_then(|entry| match entry.as_ref() {
            Entry::One(typed) => reading.one(field, typed),
            Entry::Rows(rows) => reading.table(field, rows),
        });
        reading.values.push(value);
    }
    reading
}

/// What stands in the field for the present moment.
fn now(filling: &Filling) -> Option<Moment> {
    match filling.entries.get("now")?.as_ref() {
        Entry::One(typed) => Moment::read(&typed.text).ok(),
        Entry::Rows(_) => None,
    }
}

impl Reading {
    fn one(&mut self, field: &'static Field, typed: &Typed) -> Option<Value> {
        if let Some((own, chosen)) = typed.contradicts(field) {
            let sentence = Sentence::plain(WORDS.two_units)
                .with("own", Slot::Word(own.shown()))
                .with("chosen", Slot::Word(chosen.shown()));
            self.problems.push(Problem::new(field.id, sentence));
            return Some(Value::Refused);
        }
        self.remarks.extend(remark(field, &typed.text, typed.unit));
        self.remarks.extend(self.now.and_then(|now| moment_in_full(field, &typed.text, now)));
        read_text_at(field, &typed.text, typed.unit, self.now).unwrap_or_else(|problem| {
            self.problems.push(problem);
            Some(Value::Refused)
        })
    }

    /// A table with a cell that could not be read is not computed with: the cell would count as empty. Where each row
    /// stands for itself, as in a laboratory's report, only that row is left out; one "ND" hides no other result.
    fn table(&mut self, field: &'static Field, rows: &Rows) -> Option<Value> {
        let Shape::Table(columns) = field.shape else { return None };
        let before = self.problems.len();
        let counted = rows.counted();
        let mut kept = Vec::new();
        let values = (0..counted).filter_map(|row| {
            let before = self.problems.len();
            let cell = |(index, column): (usize, &'static Field)| {
                read_cell(field, (row, column), rows.text(row, index), rows.unit(index))
            };
            let cells = columns.iter().enumerate().map(cell);
            let cells: Vec<Option<Value>> =
                cells.map(|cell| cell.unwrap_or_else(|problem| self.refuse(problem))).collect();
            let is_left_out = field.term.rows_alone && self.problems.len() > before;
            if !is_left_out {
                kept.push(row);
            }
            (!is_left_out).then_some(cells)
        });
        let values: Vec<Vec<Option<Value>>> = values.collect();
        if self.problems.len() > before && (!field.term.rows_alone || values.is_empty()) {
            return Some(Value::Refused);
        }
        if kept.len() < counted {
            self.kept.push((field.id, kept));
        }
        (!values.is_empty()).then_some(Value::Table(values))
    }

    /// The row as it stands on the page, of one that the sheet counts without those left out.
    pub fn on_the_page(&self, mut problem: Problem) -> Problem {
        let kept = self.kept.iter().find(|(field, _)| *field == problem.field);
        if let (Some((_, kept)), Some((row, _))) = (kept, &mut problem.cell) {
            *row = kept.get(*row).copied().unwrap_or(*row);
        }
        problem
    }

    fn refuse(&mut self, problem: Problem) -> Option<Value> {
        self.problems.push(problem);
        None
    }
}
