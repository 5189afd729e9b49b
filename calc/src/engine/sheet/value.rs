//! Values as they come in and go out, whatever their shape, and what makes a Rust type a field of a sheet.

use super::missing::{Known, Missing};
use super::shape::{Field, Named, Shape};
use crate::engine::calendar::Moment;
use crate::engine::quantity::{Kind, Quantity};
use chrono::NaiveDate;
use std::any::Any;

/// A value that came in, already in SI and within the possible range of its field.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// In SI.
    Number(f64),
    /// Less than this, in SI: what a laboratory reports below its reporting limit.
    Below(f64),
    /// The id of a choice.
    Choice(&'static str),
    /// A date.
    Date(NaiveDate),
    /// A moment.
    Moment(Moment),
    /// A name.
    Text(String),
    /// Rows of cells in the order of the columns; a cell may be empty.
    Table(Vec<Vec<Option<Value>>>),
    /// Something was entered that cannot be read or cannot be so. It is not the same as nothing.
    Refused,
}

/// A value that goes out, or why there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// In SI.
    Number(f64, &'static Kind),
    /// Less than this, in SI.
    Below(f64, &'static Kind),
    /// One of the named values.
    Choice(&'static Named),
    /// A date.
    Date(NaiveDate),
    /// A moment.
    Moment(Moment),
    /// Words of a person.
    Text(String),
    /// A text of ours.
    Word(&'static str),
    /// Rows of cells in the order of the columns.
    Table(Vec<Vec<Answer>>),
    /// No answer.
    Missing(Missing),
}

/// By how much a reading is moved: to ask what would follow if the instrument were wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shift {
    /// By so much, in SI.
    By(f64),
    /// By a share of itself.
    Share(f64),
    /// To this number, whatever it was, in SI. An input that was left out gets it too.
    To(f64),
}

impl Shift {
    /// The moved reading.
    pub fn of(self, reading: f64) -> f64 {
        match self {
            Shift::By(step) => reading + step,
            Shift::Share(share) => reading * (1.0 + share),
            Shift::To(number) => number,
        }
    }
}

/// A type that can be an input of a sheet or a cell of an input table.
pub trait Input: Sized + Clone {
    /// What the field holds.
    const SHAPE: Shape;
    /// Whether the sheet stops without it.
    const NEEDED: bool;
    /// Whether it can hold "less than".
    const BELOW: bool = false;
    /// From what came in.
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing>;
    /// In SI, where it is a number that is there.
    fn number(&self) -> Option<f64> {
        None
    }
    /// The input that holds this number in SI, where it can hold one.
    fn of_number(_si: f64) -> Option<Self> {
        None
    }
    /// How many rows of readings there are; of anything but a table, one.
    fn rows(&self) -> usize {
        1
    }
    /// Shifts the number, or one column of the table.
    fn shift(&mut self, _column: usize, _by: Shift) {}
}

/// An input of a sheet, whatever its type: what is read off it, and how it is turned.
pub trait Held: Any {
    /// In SI, where it is a number that is there.
    fn number(&self) -> Option<f64>;
    /// How many rows of readings it has; anything but a table has one, an empty one none.
    fn rows(&self) -> usize;
    /// Shifts the number, or one column of the table.
    fn shift(&mut self, column: usize, by: Shift);
    /// Becomes exactly what the same input of another filling is.
    fn restore(&mut self, from: &dyn Held);
}

impl<T: Input + 'static> Held for T {
    fn number(&self) -> Option<f64> {
        Input::number(self)
    }
    fn rows(&self) -> usize {
        Input::rows(self)
    }
    fn shift(&mut self, column: usize, by: Shift) {
        Input::shift(self, column, by);
    }
    fn restore(&mut self, from: &dyn Held) {
        if let Some(from) = (from as &dyn Any).downcast_ref::<T>() {
            // keeps the room of a table, so that nothing is allocated
            self.clone_from(from);
        }
    }
}

/// A type that can be an output of a sheet or a cell of an output table.
pub trait Output {
    /// What the field holds.
    const SHAPE: Shape;
    /// For whoever reads it.
    fn answer(&self) -> Answer;
    /// Its numbers in their order, missing ones as "not a number"; always as many for the same rows.
    fn numbers(&self, _sink: &mut Vec<f64>) {}
    /// Whether it always is one number, also where that is missing.
    fn is_one_number(&self) -> bool {
        matches!(Self::SHAPE, Shape::Number(_))
    }
}

/// The rows of a table.
pub trait Row: Sized + Clone {
    /// Its columns.
    const COLUMNS: &'static [Field];
}

/// A row that comes in.
pub trait InputRow: Row {
    /// From the cells.
    fn read(cells: &[Option<Value>]) -> Result<Self, Missing>;
    /// Shifts the number in one column.
    fn shift(&mut self, column: usize, by: Shift);
}

/// A row that goes out.
pub trait OutputRow: Row {
    /// For whoever reads it.
    fn answers(&self) -> Vec<Answer>;
    /// Its numbers.
    fn numbers(&self, sink: &mut Vec<f64>);
}

/// An empty field that the sheet needs.
pub(super) fn needed(field: &'static Field) -> Missing {
    Missing::empty(field.id, field.term.name)
}

impl<Q: Quantity> Input for Q {
    const SHAPE: Shape = Shape::Number(Q::KIND);
    const NEEDED: bool = true;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            Some(Value::Number(si)) => Ok(Q::from_si(*si)),
            _ => Err(needed(field)),
        }
    }
    fn number(&self) -> Option<f64> {
        Some(self.si())
    }
    fn of_number(si: f64) -> Option<Self> {
        Some(Q::from_si(si))
    }
    fn shift(&mut self, _column: usize, by: Shift) {
        *self = Q::from_si(by.of(self.si()));
    }
}

impl Input for NaiveDate {
    const SHAPE: Shape = Shape::Date;
    const NEEDED: bool = true;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            Some(Value::Date(date)) => Ok(*date),
            _ => Err(needed(field)),
        }
    }
}

impl Input for Moment {
    const SHAPE: Shape = Shape::Moment;
    const NEEDED: bool = true;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            Some(Value::Moment(moment)) => Ok(*moment),
            _ => Err(needed(field)),
        }
    }
}

impl Input for String {
    const SHAPE: Shape = Shape::Text;
    const NEEDED: bool = true;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            Some(Value::Text(text)) => Ok(text.clone()),
            _ => Err(needed(field)),
        }
    }
}

impl<T: Input> Input for Option<T> {
    const SHAPE: Shape = T::SHAPE;
    const NEEDED: bool = false;
    const BELOW: bool = T::BELOW;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            // to go on as if it had been left out would answer another question than the one that was asked
            Some(Value::Refused) => Err(needed(field)),
            _ => Ok(T::read(value, field).ok()),
        }
    }
    fn number(&self) -> Option<f64> {
        self.as_ref().and_then(T::number)
    }
    fn of_number(si: f64) -> Option<Self> {
        T::of_number(si).map(Some)
    }
    fn rows(&self) -> usize {
        self.as_ref().map_or(0, T::rows)
    }
    fn shift(&mut self, column: usize, by: Shift) {
        match (self, by) {
            (Some(inner), _) => inner.shift(column, by),
            (empty, Shift::To(si)) => *empty = T::of_number(si),
            _ => {}
        }
    }
}

impl<T: Input> Input for Known<T> {
    const SHAPE: Shape = T::SHAPE;
    const NEEDED: bool = false;
    const BELOW: bool = T::BELOW;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        Ok(T::read(value, field))
    }
    fn number(&self) -> Option<f64> {
        self.as_ref().ok().and_then(T::number)
    }
    fn of_number(si: f64) -> Option<Self> {
        T::of_number(si).map(Ok)
    }
    fn rows(&self) -> usize {
        self.as_ref().map_or(0, T::rows)
    }
    fn shift(&mut self, column: usize, by: Shift) {
        match (&mut *self, by) {
            (Ok(inner), _) => inner.shift(column, by),
            (Err(_), Shift::To(si)) => {
                if let Some(inner) = T::of_number(si) {
                    *self = Ok(inner);
                }
            }
            _ => {}
        }
    }
}

impl<R: InputRow> Input for Vec<R> {
    const SHAPE: Shape = Shape::Table(R::COLUMNS);
    const NEEDED: bool = true;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            Some(Value::Table(rows)) if !rows.is_empty() => rows.iter().map(|cells| R::read(cells)).collect(),
            _ => Err(needed(field)),
        }
    }
    fn rows(&self) -> usize {
        self.len()
    }
    fn shift(&mut self, column: usize, by: Shift) {
        for row in self {
            row.shift(column, by);
        }
    }
}

impl<Q: Quantity> Output for Q {
    const SHAPE: Shape = Shape::Number(Q::KIND);
    fn answer(&self) -> Answer {
        let si = self.si();
        if si.is_finite() {
            Answer::Number(si, Q::KIND)
        } else {
            Answer::Missing(Missing::none_exists("these numbers have no finite result"))
        }
    }
    fn numbers(&self, sink: &mut Vec<f64>) {
        sink.push(self.si());
    }
}

impl<T: Output> Output for Known<T> {
    const SHAPE: Shape = T::SHAPE;
    fn answer(&self) -> Answer {
        match self {
            Ok(value) => value.answer(),
            Err(missing) => Answer::Missing(*missing),
        }
    }
    fn numbers(&self, sink: &mut Vec<f64>) {
        match self {
            Ok(value) => value.numbers(sink),
            Err(_) if matches!(T::SHAPE, Shape::Number(_)) => sink.push(f64::NAN),
            Err(_) => {}
        }
    }
}

impl Output for NaiveDate {
    const SHAPE: Shape = Shape::Date;
    fn answer(&self) -> Answer {
        Answer::Date(*self)
    }
}

impl Output for Moment {
    const SHAPE: Shape = Shape::Moment;
    fn answer(&self) -> Answer {
        Answer::Moment(*self)
    }
}

impl Output for &'static str {
    const SHAPE: Shape = Shape::Text;
    fn answer(&self) -> Answer {
        Answer::Word(self)
    }
}

impl Output for String {
    const SHAPE: Shape = Shape::Text;
    fn answer(&self) -> Answer {
        Answer::Text(self.clone())
    }
}

impl<R: OutputRow> Output for Vec<R> {
    const SHAPE: Shape = Shape::Table(R::COLUMNS);
    fn answer(&self) -> Answer {
        Answer::Table(self.iter().map(OutputRow::answers).collect())
    }
    fn numbers(&self, sink: &mut Vec<f64>) {
        for row in self {
            row.numbers(sink);
        }
    }
}
