//! A sheet with its inputs filled in, whichever sheet it is, and the dials by which it can be turned.

use super::missing::Stop;
use super::shape::{Declaration, Field, Shape, Tolerance};
use super::value::{Answer, Held, Shift};
use super::working::Working;
use super::{Evaluate, Outputs, Sheet};
use std::any::Any;

/// A sheet with its inputs filled in.
pub trait Case: Any {
    /// Of the sheet.
    fn declaration(&self) -> &'static Declaration;
    /// The answers, in the order of the declaration.
    fn answers(&self, w: &mut Working) -> Result<Vec<Answer>, Stop>;
    /// Only the numbers among them, which needs no allocation once the sink has its size.
    fn numbers(&self, w: &mut Working, sink: &mut Vec<f64>) -> Result<(), Stop>;
    /// Only the judgements, which are in the working afterwards.
    fn judge(&self, w: &mut Working) -> Result<(), Stop>;
    /// A number input in SI.
    fn number(&self, field: usize) -> Option<f64>;
    /// How many rows of readings an input has; anything but a table has one, an empty one none.
    fn rows(&self, field: usize) -> usize;
    /// Shifts a number input, or one column of a table.
    fn shift(&mut self, field: usize, column: usize, by: Shift);
    /// Sets one input to exactly what it is in another filling of the same sheet.
    fn restore(&mut self, field: usize, from: &dyn Case);
    /// A copy to be turned.
    fn copy(&self) -> Box<dyn Case>;
    /// The instrument with which an input or a column was read; empty: one of its own.
    fn instrument(&self, of: &'static Field) -> &'static str;
}

impl<S: Sheet> Case for S {
    fn declaration(&self) -> &'static Declaration {
        S::DECLARATION
    }
    fn answers(&self, w: &mut Working) -> Result<Vec<Answer>, Stop> {
        self.run(w).map(|outputs| outputs.answers())
    }
    fn numbers(&self, w: &mut Working, sink: &mut Vec<f64>) -> Result<(), Stop> {
        self.run(w).map(|outputs| outputs.numbers(sink))
    }
    fn judge(&self, w: &mut Working) -> Result<(), Stop> {
        self.run(w).map(|_| ())
    }
    fn number(&self, field: usize) -> Option<f64> {
        self.held(field).and_then(Held::number)
    }
    fn rows(&self, field: usize) -> usize {
        self.held(field).map_or(0, Held::rows)
    }
    fn shift(&mut self, field: usize, column: usize, by: Shift) {
        if let Some(held) = self.held_mut(field) {
            held.shift(column, by);
        }
    }
    fn restore(&mut self, field: usize, from: &dyn Case) {
        let from = (from as &dyn Any).downcast_ref::<S>().and_then(|from| from.held(field));
        if let (Some(held), Some(from)) = (self.held_mut(field), from) {
            held.restore(from);
        }
    }
    fn copy(&self) -> Box<dyn Case> {
        Box::new(self.clone())
    }
    fn instrument(&self, of: &'static Field) -> &'static str {
        Evaluate::instrument(self, of)
    }
}

/// What can be turned: a number input, or the shift common to all readings in a column of a table.
#[derive(Debug, Clone, Copy)]
pub struct Dial {
    /// The index of the input.
    pub field: usize,
    /// The index of the column; 0 for a number.
    pub column: usize,
    /// The number that is there, in SI; none for a column, and for an input that was left out.
    pub value: Option<f64>,
    /// The field or column itself.
    pub of: &'static Field,
}

impl Dial {
    /// All dials of a case whose numbers are there.
    pub fn all(case: &dyn Case) -> Vec<Dial> {
        let mut dials = Vec::new();
        for (field, of) in case.declaration().inputs.iter().enumerate() {
            match of.shape {
                Shape::Number(_) => {
                    if let Some(value) = case.number(field) {
                        dials.push(Dial { field, column: 0, value: Some(value), of });
                    }
                }
                Shape::Table(columns) if case.rows(field) > 0 => {
                    let numbers = columns.iter().enumerate().filter(|(_, column)| column.term.kind.is_some());
                    dials.extend(numbers.map(|(column, of)| Dial { field, column, value: None, of }));
                }
                _ => {}
            }
        }
        dials
    }

    /// The dial of a number input, also of one that was left out.
    pub fn of(case: &dyn Case, id: &str) -> Option<Dial> {
        let field = case.declaration().input(id)?;
        let of = &case.declaration().inputs[field];
        let is_number = matches!(of.shape, Shape::Number(_));
        is_number.then(|| Dial { field, column: 0, value: case.number(field), of })
    }

    /// Whether it is the shift common to a column of readings, and no single number.
    pub fn is_column(&self, case: &dyn Case) -> bool {
        case.declaration().inputs.get(self.field).is_some_and(|field| matches!(field.shape, Shape::Table(_)))
    }

    /// The standard uncertainty as a shift: the half-width of a rectangle over √3 (JCGM 100, 4.3.7).
    pub fn standard_uncertainty(&self) -> Option<Shift> {
        match self.of.term.tolerance {
            Tolerance::None => None,
            Tolerance::Absolute(half) => Some(Shift::By(half / 3f64.sqrt())),
            Tolerance::Relative(half) => Some(Shift::Share(half / 3f64.sqrt())),
        }
    }

    /// Whether the shifted number would still be possible.
    pub fn allows(&self, shift: Shift) -> bool {
        let (low, high) = self.of.term.possible;
        self.value.is_none_or(|value| (low..=high).contains(&shift.of(value)))
    }

    /// Turns it.
    pub fn turn(&self, case: &mut dyn Case, shift: Shift) {
        case.shift(self.field, self.column, shift);
    }

    /// Sets a number, exactly; a column, which has no single one, is left as it is.
    pub fn set(&self, case: &mut dyn Case, value: f64) {
        if !self.is_column(case) {
            case.shift(self.field, self.column, Shift::To(value));
        }
    }
}

impl Shift {
    /// The same in the other direction; what is put to a number has none.
    pub fn back(self) -> Shift {
        match self {
            Shift::By(step) => Shift::By(-step),
            Shift::Share(share) => Shift::Share(-share),
            Shift::To(number) => Shift::To(number),
        }
    }
}
