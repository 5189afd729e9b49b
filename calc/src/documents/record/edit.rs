//! Changing a record: what was typed is kept as it was typed, whether or not it could be read.

use super::{Part, Record};
use crate::documents::reading::{read_cell, read_text, typed_number};
use crate::engine::quantity::Unit;
use crate::engine::sheet::{Field, Problem, Sentence, Shape, Value};
use chrono::NaiveDate;
use serde_json::{Map, Number, Value as Json, json};

/// A field, or one cell of a table, in a part of a record.
#[derive(Debug, Clone, Copy)]
pub struct Spot {
    /// The part.
    pub part: Part,
    /// The field.
    pub field: &'static Field,
    /// For a table: the row, counted from 0, and the column.
    pub cell: Option<(usize, &'static Field)>,
}

impl Record {
    /// Keeps what was typed; an empty text takes the field out. In a table, the row after the last one is added.
    ///
    /// Answers with what is wrong with the text, which is kept all the same.
    ///
    /// # Errors
    /// Where nothing was changed, with the reason.
    ///
    /// # Example
    /// ```
    /// use calc::{program::catalogue, documents::record::{Part, Record, Spot}};
    /// let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
    /// let mut record = Record::new();
    /// let spot = Spot { part: Part::Ro, field: &sheet.inputs[0], cell: None };
    /// assert_eq!(record.set(spot, "28,3 L", None), Ok(None));
    /// assert_eq!(
    ///     record.document()["ro"]["bed-volume"],
    ///     serde_json::json!({ "typed": "28,3 L", "value": 28.3, "unit": "L" })
    /// );
    /// ```
    pub fn set(
        &mut self,
        spot: Spot,
        text: &str,
        unit: Option<&'static Unit>,
    ) -> Result<Option<Problem>, Sentence> {
        let members = self.part_mut(spot.part)?;
        match spot.cell {
            None => {
                keep(members, spot.field, text, unit);
                Ok(read_text(spot.field, text, unit).err())
            }
            Some((row, column)) => {
                keep(row_mut(members, spot.field, row)?, column, text, unit);
                Ok(read_cell(spot.field, (row, column), text, unit).err())
            }
        }
    }

    /// Keeps a text that was refused although it could be read: it names another unit than was chosen beside it.
    ///
    /// # Errors
    /// Where nothing was changed, with the reason.
    pub fn set_refused(&mut self, spot: Spot, text: &str, unit: &'static Unit) -> Result<(), Sentence> {
        let members = self.part_mut(spot.part)?;
        members
            .insert(spot.field.id.to_owned(), json!({ "typed": text, "value": null, "unit": unit.symbol }));
        Ok(())
    }

    /// Takes a row out of a table.
    ///
    /// # Errors
    /// Where there is none, or nothing may be changed.
    pub fn remove_row(&mut self, part: Part, table: &'static Field, row: usize) -> Result<(), Sentence> {
        match self.part_mut(part)?.get_mut(table.id) {
            Some(Json::Array(rows)) if row < rows.len() => {
                rows.remove(row);
                Ok(())
            }
            _ => Err(NO_ROW.into()),
        }
    }

    /// Adds a place and answers with its index.
    ///
    /// # Errors
    /// Where nothing may be changed.
    pub fn add_place(&mut self, name: &str) -> Result<usize, Sentence> {
        self.add("places", json!({ "place-name": name }))
    }

    /// Adds the readings of a day at a place, and answers with their index.
    ///
    /// # Errors
    /// Where nothing may be changed.
    pub fn add_reading(&mut self, date: NaiveDate, place: &str) -> Result<usize, Sentence> {
        self.add("readings", json!({ "date": date.to_string(), "place": place }))
    }

    /// Marks one reading as that at which the RO was measured, and no other.
    ///
    /// # Errors
    /// Where there is no such reading, or nothing may be changed.
    pub fn mark_anchor(&mut self, reading: usize) -> Result<(), Sentence> {
        self.part_mut(Part::Reading(reading))?;
        for index in 0..self.readings() {
            let members = self.part_mut(Part::Reading(index))?;
            members.shift_remove("anchor");
            if index == reading {
                members.insert("anchor".into(), json!(true));
            }
        }
        Ok(())
    }

    fn add(&mut self, list: &str, item: Json) -> Result<usize, Sentence> {
        self.writable()?;
        match self.document.entry(list).or_insert_with(|| json!([])) {
            Json::Array(items) => {
                items.push(item);
                Ok(items.len() - 1)
            }
            _ => Err(NO_PART.into()),
        }
    }

    fn writable(&self) -> Result<(), Sentence> {
        self.read_only().map_or(Ok(()), Err)
    }

    fn part_mut(&mut self, part: Part) -> Result<&mut Map<String, Json>, Sentence> {
        self.writable()?;
        let member = match part {
            Part::Ro => Some(self.document.entry("ro").or_insert_with(|| json!({}))),
            Part::Place(index) => self.document.get_mut("places").and_then(|places| places.get_mut(index)),
            Part::Reading(index) => self.document.get_mut("readings").and_then(|list| list.get_mut(index)),
        };
        member.and_then(Json::as_object_mut).ok_or_else(|| NO_PART.into())
    }
}

const NO_PART: &str = "the record has no such place or reading any more";
const NO_ROW: &str = "the table has no such row any more";

/// The members of a row; the one after the last is new.
fn row_mut<'a>(
    members: &'a mut Map<String, Json>,
    table: &'static Field,
    row: usize,
) -> Result<&'a mut Map<String, Json>, Sentence> {
    let member = members.entry(table.id).or_insert_with(|| json!([]));
    let rows = match member {
        Json::Array(rows) => rows,
        other => {
            *other = json!([]);
            match other {
                Json::Array(rows) => rows,
                _ => return Err(NO_ROW.into()),
            }
        }
    };
    if row == rows.len() {
        rows.push(json!({}));
    }
    rows.get_mut(row).and_then(Json::as_object_mut).ok_or_else(|| NO_ROW.into())
}

fn keep(members: &mut Map<String, Json>, field: &'static Field, text: &str, unit: Option<&'static Unit>) {
    if text.trim().is_empty() {
        members.shift_remove(field.id);
        return;
    }
    if !matches!(field.shape, Shape::Number(_)) {
        // a choice is kept by its id, whatever it is called; a date and a name are their own text
        let kept = match read_text(field, text, None) {
            Ok(Some(Value::Choice(id))) => id,
            _ => text,
        };
        members.insert(field.id.to_owned(), json!(kept));
        return;
    }
    let typed = typed_number(field, text, unit).ok().flatten();
    let value = typed.and_then(|typed| Number::from_f64(typed.value));
    let unit = typed.map(|typed| typed.unit).or(unit).map(|unit| unit.symbol);
    let member = members.entry(field.id).or_insert_with(|| json!({}));
    if !member.is_object() {
        *member = json!({});
    }
    // what else stands there is not ours to take out
    member["typed"] = json!(text);
    member["value"] = json!(value);
    member["unit"] = json!(unit);
    if typed.is_some_and(|typed| typed.below) {
        member["below"] = json!(true);
    } else if let Some(member) = member.as_object_mut() {
        member.shift_remove("below");
    }
}
