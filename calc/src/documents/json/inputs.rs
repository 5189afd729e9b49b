//! The inputs of a sheet from a JSON object whose members are the ids of its fields.
//!
//! A number is text with its unit, a bare number where the kind has no unit or, below 1, for a share (`0.02` is `2 %`), or
//! `{"typed", "value", "unit"}` as the record keeps it. A choice is its id, a date or a moment ISO 8601 or with its month as a
//! word, beside the sheet's `now` a moment the clock alone, a table an array of objects. Absent and `null` are not known.
//!
//! What stands in the members is held and read as what stands in the fields of the page.

use super::nearest;
use crate::documents::reading::{Naming, quoted};
use crate::documents::record::{Entries, Held, Read, on_the_page, read};
use crate::engine::quantity::kinds::RATIO;
use crate::engine::quantity::text::number_of;
use crate::engine::sheet::{Declaration, Field, Problem, Sentence, Shape, Slot, Value, Warning};
use serde_json::{Map, Value as Json, json};
use std::rc::Rc;

/// The inputs of a sheet as far as they could be read.
#[derive(Debug, Clone, Default)]
pub struct Filled {
    /// In the order of the declaration.
    pub values: Vec<Option<Value>>,
    /// What could not be read.
    pub problems: Vec<Problem>,
    /// What could not be read in rows that stand for themselves: these rows were left out, and the others are computed with.
    pub left_out: Vec<Problem>,
    /// Members that are no field of the sheet.
    pub unknown: Vec<Unknown>,
    /// What was read without doubt, and may still be meant otherwise.
    pub warnings: Vec<Warning>,
    /// Of tables in which rows were left out: the field, and which of its rows were not.
    kept: Vec<(&'static str, Vec<usize>)>,
}

/// A member that is no field of the sheet, or no column of its table.
#[derive(Debug, Clone)]
pub struct Unknown {
    /// The table and the row, counted from 0, in which it stands.
    pub within: Option<(&'static Field, usize)>,
    /// As it was written.
    pub name: String,
}

impl Unknown {
    /// What it may have meant.
    pub fn sentence(&self, declaration: &'static Declaration) -> Sentence {
        let (of, fields) = match self.within {
            Some((Field { term, shape: Shape::Table(columns), .. }, _)) => (term.name, *columns),
            _ => (declaration.name, declaration.inputs),
        };
        let near = nearest::to(&self.name, fields.iter().map(|field| field.id));
        Sentence::plain("“{of}” has no “{member}”; the nearest: {near}. {\"describe\": …} names them all")
            .with("of", Slot::Word(of))
            .with("member", quoted(&self.name))
            .with("near", Slot::Text(near.join(", ")))
    }
}

/// Reads every member; all problems are reported at once.
///
/// # Example
/// ```
/// use calc::{program::catalogue, documents::json::fill};
/// let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
/// let inputs = serde_json::json!({ "bed-volume": "28.3 L", "flow": "fast", "depth": "1 m" });
/// let filled = fill(sheet, inputs.as_object().unwrap());
/// assert!(filled.values[0].is_some());
/// assert_eq!(filled.problems[0].field, "flow");
/// assert_eq!(filled.unknown[0].name, "depth");
/// ```
pub fn fill(declaration: &'static Declaration, members: &Map<String, Json>) -> Filled {
    let mut entries = Entries::new();
    let mut unknown = Vec::new();
    let mut warnings = Vec::new();
    let mut no_rows = Vec::new();
    for (id, member) in members {
        let Some(index) = declaration.input(id) else {
            unknown.push(Unknown { within: None, name: id.clone() });
            continue;
        };
        let field = &declaration.inputs[index];
        let mut member = member.clone();
        match (field.shape, &mut member) {
            (Shape::Table(columns), Json::Array(rows)) => {
                for (row, cells) in rows.iter_mut().enumerate() {
                    let Json::Object(cells) = cells else {
                        no_rows.push(no_row(field, row));
                        // an empty row, so that the others are counted as they were given
                        *cells = json!({});
                        continue;
                    };
                    for (name, cell) in cells {
                        match columns.iter().find(|column| column.id == name) {
                            Some(column) => warnings.extend(spell_out(column, field.id, cell)),
                            None => unknown.push(Unknown { within: Some((field, row)), name: name.clone() }),
                        }
                    }
                }
            }
            (_, member) => warnings.extend(spell_out(field, field.id, member)),
        }
        entries.insert(field.id, Rc::new(Held::of_json(field, &member)));
    }
    let mut filled = Filled::of(read(declaration.inputs, &entries));
    for (index, field) in declaration.inputs.iter().enumerate() {
        if let (Shape::Table(columns), Some(Json::Array(rows))) = (field.shape, members.get(field.id)) {
            filled.with_empty_rows(index, columns.len(), rows.len());
        }
    }
    filled.problems.extend(no_rows);
    filled.warnings.extend(warnings);
    filled.unknown = unknown;
    filled
}

impl Filled {
    /// What was read of fields, wherever they came from.
    pub(super) fn of(read: Read) -> Self {
        let of_a_row_left_out = |problem: &Problem| {
            read.kept.iter().any(|(field, kept)| {
                *field == problem.field && problem.cell.is_some_and(|(row, _)| !kept.contains(&row))
            })
        };
        let (left_out, problems) = read.problems.into_iter().partition(of_a_row_left_out);
        Self {
            values: read.values,
            problems,
            left_out,
            warnings: read.remarks,
            kept: read.kept,
            ..Self::default()
        }
    }

    /// With what was typed besides, where nothing stands.
    pub(super) fn with(mut self, typed: Filled) -> Self {
        for (value, more) in self.values.iter_mut().zip(typed.values) {
            *value = value.take().or(more);
        }
        self.problems.extend(typed.problems);
        self.left_out.extend(typed.left_out);
        self.unknown.extend(typed.unknown);
        self.warnings.extend(typed.warnings);
        self.kept.extend(typed.kept);
        self
    }

    /// On the page empty rows at the end are none; a program that gives one is asked for what it needs.
    fn with_empty_rows(&mut self, field: usize, columns: usize, given: usize) {
        if let Some(Some(Value::Table(rows))) = self.values.get_mut(field)
            && self.kept.is_empty()
        {
            rows.resize(given.max(rows.len()), vec![None; columns]);
        }
    }

    /// A problem of the sheet, which counts the rows without those left out, in the row in which it was given.
    pub(super) fn as_given(&self, problem: &Problem) -> Problem {
        on_the_page(&self.kept, problem.clone())
    }
}

fn no_row(table: &'static Field, row: usize) -> Problem {
    let sentence = Sentence::plain("row {row} of {name} is no object with a member for each column")
        .with("row", Slot::Count(row as i64 + 1))
        .of(table);
    Problem { field: table.id, cell: Some((row, "")), sentence }
}

/// A share without a unit, written out as a fraction, and how it was read: who meant 0.5 % sees it there.
fn spell_out(field: &'static Field, id: &'static str, member: &mut Json) -> Option<Warning> {
    let share = fraction(field, member)?;
    let typed = member.as_str().map_or_else(|| member.to_string(), str::to_owned);
    *member = json!({ "typed": typed, "value": share, "unit": "" });
    let sentence = Sentence::plain("{name} without a unit was read as a fraction: {share}")
        .of(field)
        .with("share", Slot::Number(share, &RATIO));
    Some(Warning { field: id, id: "fraction", sentence, assumed: false })
}

/// A share without a unit that can only be a fraction: 2 could be 2 % and is asked back.
fn fraction(field: &'static Field, member: &Json) -> Option<f64> {
    let share = match member {
        Json::Number(number) => number.as_f64(),
        Json::String(text) => number_of(text.trim()).ok(),
        _ => None,
    };
    share.filter(|share| field.term.kind == Some(&RATIO) && (0.0..1.0).contains(share))
}
