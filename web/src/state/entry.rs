//! What a person typed, kept as it was typed: the text and the unit beside it. Numbers are derived, never written back.

use calc::documents::reading::typed_number;
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Field, Shape};
use std::rc::Rc;

/// What stands in one field.
#[derive(Debug, Clone, PartialEq)]
pub enum Entry {
    /// Anything but a table.
    One(Typed),
    /// A table.
    Rows(Rows),
}

/// A text with the unit beside it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Typed {
    /// As it was typed; of a choice, its id.
    pub text: String,
    /// The unit beside the field, from the moment something stands in it.
    pub unit: Option<&'static Unit>,
    /// Whether the unit was chosen while the text named one: if they differ, neither is taken.
    pub insisted: bool,
}

/// The rows of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rows {
    /// The unit over each column, from the moment something stands in it.
    pub units: Vec<Option<&'static Unit>>,
    /// The texts, row by row in the order of the columns. A row may be shorter than the table is wide.
    pub cells: Vec<Rc<Vec<String>>>,
}

impl Typed {
    /// Whether nothing but spaces stands in it.
    pub fn is_empty(&self) -> bool {
        self.text.trim().is_empty()
    }

    /// The unit that the text itself names: `1,5 gpm`.
    pub fn own_unit(&self, field: &'static Field) -> Option<&'static Unit> {
        named_unit(field, &self.text)
    }

    /// The unit in which the text is read, and which is shown beside it.
    pub fn shown_unit(&self, field: &'static Field, set: UnitSet) -> Option<&'static Unit> {
        let own = if self.insisted { None } else { self.own_unit(field) };
        own.or(self.unit).or_else(|| offered(field, set))
    }

    /// Whether the text names one unit and another was chosen beside it.
    pub fn contradicts(&self, field: &'static Field) -> Option<(&'static Unit, &'static Unit)> {
        let (own, chosen) = (self.own_unit(field)?, self.unit?);
        (self.insisted && own != chosen).then_some((own, chosen))
    }
}

impl Rows {
    /// The text of a cell.
    pub fn text(&self, row: usize, column: usize) -> &str {
        self.cells.get(row).and_then(|cells| cells.get(column)).map_or("", String::as_str)
    }

    /// The unit chosen over a column.
    pub fn unit(&self, column: usize) -> Option<&'static Unit> {
        self.units.get(column).copied().flatten()
    }

    /// Whether nothing stands in a column.
    pub fn is_empty_column(&self, column: usize) -> bool {
        (0..self.cells.len()).all(|row| self.text(row, column).trim().is_empty())
    }

    /// The rows that count: all but empty ones at the end.
    pub fn counted(&self) -> usize {
        let filled = |cells: &Rc<Vec<String>>| cells.iter().any(|text| !text.trim().is_empty());
        self.cells.iter().rposition(filled).map_or(0, |last| last + 1)
    }

    pub(super) fn set(&mut self, row: usize, column: usize, text: String) {
        while self.cells.len() <= row {
            self.cells.push(Rc::default());
        }
        let cells = Rc::make_mut(&mut self.cells[row]);
        if cells.len() <= column {
            cells.resize(column + 1, String::new());
        }
        cells[column] = text;
    }

    pub(super) fn set_unit(&mut self, column: usize, unit: Option<&'static Unit>) {
        if self.units.len() <= column {
            self.units.resize(column + 1, None);
        }
        self.units[column] = unit;
    }
}

/// The unit first offered in an empty field.
pub fn offered(field: &'static Field, set: UnitSet) -> Option<&'static Unit> {
    match field.shape {
        Shape::Number(kind) if !kind.is_bare() => field.term.unit(set == UnitSet::Us),
        _ => None,
    }
}

/// The unit that a text names.
pub fn named_unit(field: &'static Field, text: &str) -> Option<&'static Unit> {
    match field.shape {
        Shape::Number(kind) if !kind.is_bare() => {
            typed_number(field, text, None).ok().flatten().map(|typed| typed.unit)
        }
        _ => None,
    }
}
