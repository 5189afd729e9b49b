//! The cells of one row of an answer that is a table, for where it is told in lines.

use crate::sheet::shown;
use crate::text::{WORDS, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Field};

/// One row with its columns.
pub struct Row<'a> {
    pub columns: &'static [Field],
    pub cells: &'a [Answer],
    pub set: UnitSet,
}

impl Row<'_> {
    fn cell(&self, column: &str) -> Option<(&'static Field, &Answer)> {
        let index = self.columns.iter().position(|field| field.id == column)?;
        Some((&self.columns[index], self.cells.get(index)?))
    }

    /// Whether the choice in this column is this one.
    pub fn is(&self, column: &str, id: &str) -> bool {
        matches!(self.cell(column), Some((_, Answer::Choice(named))) if named.id == id)
    }

    /// The choice in words.
    pub fn words(&self, column: &str) -> &'static str {
        match self.cell(column) {
            Some((_, Answer::Choice(named))) => say(named.name),
            _ => WORDS.not_known,
        }
    }

    /// The number with its unit.
    pub fn number(&self, column: &str) -> String {
        match self.cell(column) {
            Some((field, Answer::Number(si, kind))) => {
                shown::quantity(*si, shown::unit_of(field, kind, self.set))
            }
            Some((field, Answer::Below(si, kind))) => {
                format!("<{}", shown::quantity(*si, shown::unit_of(field, kind, self.set)))
            }
            _ => WORDS.not_known.to_owned(),
        }
    }
}
