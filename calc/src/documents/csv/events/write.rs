//! Events as rows.

use super::super::write::line;
use super::columns::{self, Column, Columns};
use crate::documents::record::kinds::{CORRECTION, KINDS, Kind};
use crate::documents::record::{Event, Held, Record, Typed};
use crate::engine::quantity::Unit;
use crate::engine::sheet::{Field, Shape};
use std::collections::BTreeMap;

/// The events of a kind as they were written down, those that were corrected later among them: the corrections are a kind of
/// their own, and a column names them.
///
/// # Example
/// ```
/// use calc::documents::{csv::events, record::{Record, kinds::READING}};
/// let record = Record::open(r#"{ "format": "tapside-record", "version": 2, "events": [
///     { "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "fields": { "product-flow": "0,86 L/min" } }
/// ] }"#).unwrap();
/// let text = events::write(&record, &READING);
/// assert!(text.starts_with("Event id,Date and time,Place,Who,"), "{text}");
/// assert!(text.contains("Product flow (L/min)") && text.contains("e1,2026-11-12T07:00+01:00,"), "{text}");
/// ```
pub fn write(record: &Record, kind: &'static Kind) -> String {
    let Some(columns) = columns::of(kind) else { return String::new() };
    let events: Vec<&Event> =
        record.events().map(std::rc::Rc::as_ref).filter(|event| event.kind == kind).collect();
    let units = units(columns, kind, &events);
    let places = Places::of(record);
    let head = columns.fields.iter().zip(&units).map(|(field, unit)| match unit {
        Some(unit) if !unit.symbol.is_empty() => format!("{} ({})", field.term.name, unit.symbol),
        _ => field.term.name.to_owned(),
    });
    let mut text = line(head);
    let by = withdrawn_by(record);
    for event in events {
        let written = Written { record, event, places: &places, withdrawn: &by };
        for row in 0..lines(event) {
            let cells = columns.columns.iter().zip(&units);
            text += &line(cells.map(|(column, unit)| written.cell(*column, row, *unit)));
        }
    }
    text
}

/// The unit of the first number in each column; the others name their own.
fn units(columns: &Columns, kind: &'static Kind, events: &[&Event]) -> Vec<Option<&'static Unit>> {
    let in_column = |column: &Column| match *column {
        Column::Field(index) => {
            let id = kind.fields[index].id;
            events.iter().find_map(|event| typed(event, id)?.read_unit())
        }
        Column::Cell(index, cell) => {
            let id = kind.fields[index].id;
            let of = |event: &&Event| match event.fields.get(id)?.as_ref() {
                Held::Rows(rows) => (0..rows.counted()).find_map(|row| rows.cell(row, cell)?.read_unit()),
                Held::One(_) => None,
            };
            events.iter().find_map(of)
        }
        _ => None,
    };
    columns.columns.iter().map(in_column).collect()
}

pub(super) fn typed<'a>(event: &'a Event, id: &str) -> Option<&'a Typed> {
    match event.fields.get(id)?.as_ref() {
        Held::One(typed) => Some(typed),
        Held::Rows(_) => None,
    }
}

/// Before the kind, in all lines of an event but its last: an event of which lines are cut off is seen to be one.
pub(super) const MORE: &str = "more below: ";

/// How many lines an event has.
pub(super) fn lines(event: &Event) -> usize {
    let rows = event.fields.entries().values().map(|held| match held.as_ref() {
        Held::Rows(rows) => rows.counted(),
        Held::One(_) => 1,
    });
    let most = if event.kind == &CORRECTION { rows.len() } else { rows.max().unwrap_or(0) };
    most.max(1)
}

/// How places are called in rows: by a name that only one of them has, else by their id.
pub(super) struct Places<'a>(Vec<(&'a str, &'a str)>);

impl<'a> Places<'a> {
    pub fn of(record: &'a Record) -> Self {
        let name = |index: usize| record.places()[index].fields.word("place-name");
        let ids = record.places().iter().enumerate().map(|(index, place)| {
            let is_own = |name: &&str| {
                let same = |other: usize| other != index && called(record, other, name);
                !(0..record.places().len()).any(same)
            };
            (&*place.id, name(index).filter(is_own).unwrap_or(&place.id))
        });
        Self(ids.collect())
    }

    pub fn name(&self, id: &'a str) -> &'a str {
        self.0.iter().find(|(own, _)| *own == id).map_or(id, |(_, name)| name)
    }

    /// The id of the place that is called so.
    pub fn id(&self, name: &str) -> Option<&'a str> {
        let by = |is_it: fn(&(&str, &str), &str) -> bool| self.0.iter().find(|place| is_it(place, name));
        by(|place, name| place.1 == name).or_else(|| by(|place, name| place.0 == name)).map(|place| place.0)
    }
}

fn called(record: &Record, place: usize, name: &str) -> bool {
    let place = &record.places()[place];
    place.fields.word("place-name") == Some(name) || *place.id == *name
}

/// The corrections that withdraw an event, by its id.
fn withdrawn_by(record: &Record) -> BTreeMap<&str, &str> {
    let withdrawing = record.events().filter(|event| event.becomes.withdrawn);
    withdrawing.filter_map(|event| Some((event.of.as_deref()?, &*event.id))).collect()
}

/// An event on its way into cells.
pub(super) struct Written<'a> {
    pub record: &'a Record,
    pub event: &'a Event,
    pub places: &'a Places<'a>,
    pub withdrawn: &'a BTreeMap<&'a str, &'a str>,
}

impl Written<'_> {
    /// What stands in a column, in one of the lines of the event.
    pub fn cell(&self, column: Column, row: usize, unit: Option<&'static Unit>) -> String {
        let event = self.event;
        match column {
            Column::Id => return event.id.to_string(),
            Column::Kind => {
                let more = if row + 1 < lines(event) { MORE } else { "" };
                return format!("{more}{}", event.kind.id);
            }
            Column::Cell(index, cell) => {
                let field = &event.kind.fields[index];
                let (Some(held), Shape::Table(columns)) = (event.fields.get(field.id), field.shape) else {
                    return String::new();
                };
                let Held::Rows(rows) = held.as_ref() else { return String::new() };
                let typed = rows.cell(row, cell).filter(|_| row < rows.counted());
                return typed.map_or_else(String::new, |typed| text_of(typed, &columns[cell], unit));
            }
            Column::Corrected => {
                return self.corrected(row).map_or_else(String::new, |field| field.id.to_owned());
            }
            Column::Instead => return self.instead(row),
            _ => {}
        }
        // the rest stands in the first line alone
        if row > 0 {
            return String::new();
        }
        let place = |id: &Option<crate::documents::record::Id>| {
            id.as_deref().map_or_else(String::new, |id| self.places.name(id).to_owned())
        };
        match column {
            Column::At => event.when.to_string(),
            Column::Place => place(&event.place),
            Column::Of => event.of.as_deref().unwrap_or_default().to_owned(),
            Column::Who => event.who.clone(),
            Column::Note => event.note.clone(),
            Column::Typed => event.typed.map_or_else(String::new, |at| at.to_string()),
            Column::Field(index) => {
                let field = &event.kind.fields[index];
                typed(event, field.id).map_or_else(String::new, |typed| text_of(typed, field, unit))
            }
            Column::Withdrawn => if event.becomes.withdrawn { "yes" } else { "" }.to_owned(),
            Column::BecomesAt => event.becomes.when.map_or_else(String::new, |when| when.to_string()),
            Column::BecomesPlace => place(&event.becomes.place),
            Column::CorrectedBy => self.corrected_by(),
            _ => String::new(),
        }
    }

    /// The field that a line of a correction is about.
    fn corrected(&self, row: usize) -> Option<&'static Field> {
        if self.event.kind != &CORRECTION {
            return None;
        }
        let id = self.event.fields.entries().keys().nth(row)?;
        let of = self.event.of.as_deref().and_then(|of| self.record.event(of));
        let own = of.and_then(|of| of.kind.field(id));
        own.or_else(|| KINDS.iter().find_map(|kind| kind.field(id)))
    }

    fn instead(&self, row: usize) -> String {
        let Some(field) = self.corrected(row) else { return String::new() };
        match self.event.fields.get(field.id).map(std::rc::Rc::as_ref) {
            Some(Held::One(typed)) => text_of(typed, field, None),
            // a table within a cell
            Some(held @ Held::Rows(_)) => held.json(field).to_string(),
            None => String::new(),
        }
    }

    fn corrected_by(&self) -> String {
        let withdrawn = self.record.as_corrected(&self.event.id).is_none();
        let by = if withdrawn {
            self.withdrawn.get(&*self.event.id).map(|id| vec![format!("withdrawn by {id}")])
        } else {
            None
        };
        let corrections =
            || self.record.corrections_of(&self.event.id).iter().map(|id| id.to_string()).collect();
        by.unwrap_or_else(corrections).join(" ")
    }
}

/// What stands in a field, as a text that is read back as the same.
pub(super) fn text_of(typed: &Typed, field: &'static Field, over: Option<&'static Unit>) -> String {
    match field.shape {
        Shape::Choice(named) => {
            named.iter().find(|one| one.id == typed.text).map_or(typed.shown(), |one| one.name).to_owned()
        }
        Shape::Number(_) => typed.in_a_cell(over),
        _ => typed.shown().to_owned(),
    }
}
