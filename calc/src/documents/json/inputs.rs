//! The inputs of a sheet from a JSON object whose members are the ids of its fields; requests and records share it.
//!
//! A number is text with its unit, a bare number where the kind has no unit or, below 1, for a share (`0.02` is `2 %`), or `{"typed", "value", "unit"}` as
//! the record keeps it, of which value and unit are read and never the text; `"below": true` says that it is less than
//! the value. A choice is its id, a date or a moment ISO 8601 or
//! with its month as a word, beside the sheet's `now` a moment the clock alone, a table an array of objects. Absent and `null` are not known.

use super::nearest;
use crate::documents::reading::{Naming, moment_in_full, no_unit, quoted, read, read_at, remark};
use crate::engine::calendar::Moment;
use crate::engine::quantity::kinds::RATIO;
use crate::engine::quantity::{Kind, text::number_of};
use crate::engine::sheet::{Declaration, Field, Problem, Sentence, Shape, Slot, Value, Warning};
use serde_json::{Map, Value as Json};

/// The inputs of a sheet as far as they could be read.
#[derive(Debug, Clone, Default)]
pub struct Filled {
    /// In the order of the declaration.
    pub values: Vec<Option<Value>>,
    /// What could not be read.
    pub problems: Vec<Problem>,
    /// Members that are no field of the sheet.
    pub unknown: Vec<Unknown>,
    /// What was read without doubt, and may still be meant otherwise.
    pub warnings: Vec<Warning>,
    /// The present moment, where the sheet asks for it and it was given: beside it others may be told by the clock alone.
    now: Option<Moment>,
}

/// The input with which a sheet asks for the present moment.
const NOW: &str = "now";

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
    let now = members.get(NOW).and_then(Json::as_str).and_then(|text| Moment::read(text).ok());
    let mut filled = Filled { values: vec![None; declaration.inputs.len()], now, ..Filled::default() };
    for (id, member) in members {
        match declaration.input(id) {
            Some(index) => filled.values[index] = filled.read_field(&declaration.inputs[index], member),
            None => filled.unknown.push(Unknown { within: None, name: id.clone() }),
        }
    }
    filled
}

impl Filled {
    fn read_field(&mut self, field: &'static Field, member: &Json) -> Option<Value> {
        if let (Shape::Table(columns), Json::Array(rows)) = (field.shape, member) {
            return self.read_rows(field, columns, rows);
        }
        self.warnings.extend(member.as_str().and_then(|text| remark(field, text, None)));
        self.warnings.extend(fraction_remark(field, field.id, member));
        if let (Some(now), Some(text)) = (self.now, member.as_str()) {
            self.warnings.extend(moment_in_full(field, text, now));
        }
        shaped(field, member, self.now).unwrap_or_else(|sentence| {
            self.problems.push(Problem::new(field.id, sentence));
            None
        })
    }

    /// A table with a cell that could not be read is not computed with: the cell would count as empty.
    fn read_rows(
        &mut self,
        table: &'static Field,
        columns: &'static [Field],
        rows: &[Json],
    ) -> Option<Value> {
        let before = self.problems.len();
        let cells = rows.iter().enumerate().map(|(row, members)| {
            let Json::Object(members) = members else {
                let sentence =
                    Sentence::plain("row {row} of {name} is no object with a member for each column")
                        .with("row", Slot::Count(row as i64 + 1))
                        .of(table);
                self.problems.push(Problem { field: table.id, cell: Some((row, "")), sentence });
                return vec![None; columns.len()];
            };
            let unknown = members.keys().filter(|name| !columns.iter().any(|column| column.id == *name));
            self.unknown
                .extend(unknown.map(|name| Unknown { within: Some((table, row)), name: name.clone() }));
            columns.iter().map(|column| self.read_cell(table, row, column, members.get(column.id))).collect()
        });
        let cells = cells.collect();
        (self.problems.len() == before).then_some(Value::Table(cells))
    }

    fn read_cell(
        &mut self,
        table: &'static Field,
        row: usize,
        column: &'static Field,
        member: Option<&Json>,
    ) -> Option<Value> {
        self.warnings.extend(fraction_remark(column, table.id, member?));
        shaped(column, member?, self.now).unwrap_or_else(|sentence| {
            self.problems.push(Problem { field: table.id, cell: Some((row, column.id)), sentence });
            None
        })
    }
}

/// Reads one member that is no table.
fn shaped(field: &'static Field, member: &Json, now: Option<Moment>) -> Result<Option<Value>, Sentence> {
    match (field.shape, member) {
        (_, Json::Null) => Ok(None),
        (Shape::Number(kind), Json::Number(number)) if kind.is_bare() => number
            .as_f64()
            .filter(|value| value.is_finite())
            .map(|value| Some(Value::Number(value)))
            .ok_or_else(|| {
                Sentence::plain("{name} is too large to compute with: check the number").of(field)
            }),
        (Shape::Number(_), Json::Number(_) | Json::String(_)) if fraction(field, member).is_some() => {
            Ok(fraction(field, member).map(Value::Number))
        }
        (Shape::Number(_), Json::Number(_)) => Err(no_unit(field)),
        (Shape::Number(kind), Json::Object(kept)) => kept_number(field, kind, kept),
        (Shape::Table(_), _) => {
            Err(Sentence::plain("{name} is a table: give an array of objects, one for each row").of(field))
        }
        (_, Json::String(text)) => read_at(field, text, None, now),
        (Shape::Number(_), _) => {
            Err(Sentence::plain("{name} is a number: give it as text with its unit, such as “{example}”")
                .with("example", Slot::Text(example(field)))
                .of(field))
        }
        (Shape::Choice(_) | Shape::Date | Shape::Moment | Shape::Text, _) => {
            Err(Sentence::plain("{name} is given as text in quotation marks").of(field))
        }
    }
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

/// How such a share was read: who meant 0.5 % sees it here.
fn fraction_remark(field: &'static Field, id: &'static str, member: &Json) -> Option<Warning> {
    let share = fraction(field, member)?;
    let sentence = Sentence::plain("{name} without a unit was read as a fraction: {share}")
        .of(field)
        .with("share", Slot::Number(share, &RATIO));
    Some(Warning { field: id, id: "fraction", sentence, assumed: false })
}

/// `2 L/min`, as a pattern to write by.
fn example(field: &'static Field) -> String {
    format!("2 {}", field.term.units[0]).trim_end().to_owned()
}

/// A number as the record keeps it. Its text is never read again: under another locale it could be another number.
fn kept_number(
    field: &'static Field,
    kind: &'static Kind,
    kept: &Map<String, Json>,
) -> Result<Option<Value>, Sentence> {
    let typed = match kept.get("typed") {
        None | Some(Json::Null) => "",
        Some(Json::String(typed)) => typed,
        Some(_) => return Err(Sentence::plain("{name}: “typed” is no text; enter it again").of(field)),
    };
    if !kept.contains_key("value") && !kept.contains_key("typed") {
        return Err(Sentence::plain("{name}: an object has “value” and “unit”, such as “{example}” has")
            .with("example", Slot::Text(example(field)))
            .of(field));
    }
    let value = match kept.get("value") {
        Some(Json::Number(value)) => value.as_f64().unwrap_or(f64::NAN),
        // kept as it was typed, though it could not be read
        Some(Json::Null) | None if !typed.trim().is_empty() => {
            read(field, typed, kept.get("unit").and_then(Json::as_str).and_then(|unit| kind.written(unit)))?;
            return Err(Sentence::plain(
                "{name}: “{typed}” was not understood when it was typed; enter it again",
            )
            .with("typed", quoted(typed))
            .of(field));
        }
        Some(Json::Null) | None => return Ok(None),
        Some(_) => {
            return Err(Sentence::plain("{name}: “value” is no JSON number; enter it again").of(field));
        }
    };
    let unit = match kept.get("unit") {
        None | Some(Json::Null) if kind.is_bare() => &kind.units[0],
        None | Some(Json::Null) => return Err(no_unit(field)),
        Some(unit) => unit.as_str().and_then(|unit| kind.written(unit)).ok_or_else(|| {
            Sentence::plain("{name}: “{unit}” is none of its units ({units}); enter it again")
                .with("unit", quoted(unit.as_str().unwrap_or("")))
                .with("units", Slot::Text(crate::documents::reading::units(kind)))
                .of(field)
        })?,
    };
    let si = unit.to_si(value);
    let below = match kept.get("below") {
        None | Some(Json::Null | Json::Bool(false)) => false,
        Some(Json::Bool(true)) => true,
        Some(_) => {
            return Err(
                Sentence::plain("{name}: “below” is neither true nor false; enter it again").of(field)
            );
        }
    };
    if si.is_finite() {
        Ok(Some(if below { Value::Below(si) } else { Value::Number(si) }))
    } else {
        Err(Sentence::plain("{name} is too large to compute with: check the number").of(field))
    }
}
