//! Which cell of a line is which column, and in which unit.

use super::cells::plain;
use super::records::Record;
use crate::documents::reading::read_text;
use crate::engine::quantity::Unit;
use crate::engine::sheet::{Field, Sentence, Shape, Slot};

/// The columns in the order of the cells.
pub(super) struct Head {
    /// `None` for a cell that is no column of the table.
    pub columns: Vec<Option<usize>>,
    /// By column.
    pub units: Vec<Option<&'static Unit>>,
    /// The cell that holds the unit of each line, and the column of numbers for which it stands.
    pub unit_cell: Option<(usize, usize)>,
    /// Cells of the head that are no column of the table.
    pub ignored: Vec<String>,
}

impl Head {
    fn empty(columns: &'static [Field]) -> Self {
        Self { columns: Vec::new(), units: vec![None; columns.len()], unit_cell: None, ignored: Vec::new() }
    }

    /// The head of the text; `None` where its first line names no column.
    pub fn of(columns: &'static [Field], first: &Record) -> Result<Option<Self>, Sentence> {
        let mut head = Self::empty(columns);
        for (place, cell) in first.cells.iter().enumerate() {
            let (name, unit) = name_and_unit(columns, cell);
            let column = named(columns, &name);
            if let Some(twice) = column.filter(|column| head.columns.contains(&Some(*column))) {
                return Err(Sentence::plain("two columns are named {column}: remove one of them")
                    .with("column", Slot::Word(columns[twice].term.name)));
            }
            match column {
                Some(_) => {}
                None if ["unit", "units"].contains(&plain(&name).as_str()) => {
                    head.unit_cell = Some((place, the_measured(columns)?));
                }
                None if name.is_empty() => {}
                None => head.ignored.push(name.chars().take(40).collect()),
            }
            if let (Some(column), Some(unit)) = (column, &unit) {
                head.units[column] = Some(unit_of(&columns[column], unit)?);
            }
            head.columns.push(column);
        }
        Ok(head.columns.iter().any(Option::is_some).then_some(head))
    }

    /// Without a head the cells stand in the order of the columns, if the first of them can be read so.
    pub fn in_order(columns: &'static [Field], first: &Record) -> Result<Self, Sentence> {
        let can_be = |(column, cell): (&'static Field, &String)| match column.shape {
            Shape::Choice(_) => super::cells::choice(column, cell.trim()).is_ok(),
            _ => !cell.trim().is_empty() && read_text(column, cell, column.term.unit(false)).is_ok(),
        };
        let fits = first.cells.len() <= columns.len() && columns.iter().zip(&first.cells).all(can_be);
        if fits {
            let columns_found = (0..first.cells.len()).map(Some).collect();
            return Ok(Self { columns: columns_found, ..Self::empty(columns) });
        }
        let names: Vec<&str> = columns.iter().map(|column| column.term.name).collect();
        Err(Sentence::plain("the first line names no column of this table: put the column names in the first line, for example: {names}")
            .with("names", Slot::Words(names)))
    }
}

/// The one column of numbers that has units: of several, a column of units could mean any.
fn the_measured(columns: &'static [Field]) -> Result<usize, Sentence> {
    let measured = |column: &Field| column.term.kind.is_some_and(|kind| !kind.is_bare());
    let mut with_units = columns.iter().enumerate().filter(|(_, column)| measured(column));
    match (with_units.next(), with_units.next()) {
        (Some((index, _)), None) => Ok(index),
        _ => Err(Sentence::plain(
            "a column of units cannot be read here: put the unit in brackets after the name of each column of numbers",
        )),
    }
}

/// A name may have brackets of its own: "First carbon (worker)". What stands in them is the unit where the rest is a name,
/// also where it has no letter, as per cent has none.
fn name_and_unit(columns: &'static [Field], cell: &str) -> (String, Option<String>) {
    let whole = (cell.trim().to_owned(), None);
    if columns.iter().any(|column| column.term.name == whole.0) {
        return whole;
    }
    let (name, unit) = split(cell);
    let is_whole = exactly(columns, &name).is_none() && exactly(columns, cell).is_some();
    if is_whole { whole } else { (name, unit) }
}

/// A name and the unit behind it, in brackets.
fn split(cell: &str) -> (String, Option<String>) {
    let cell = cell.trim();
    let brackets = [('(', ')'), ('[', ']')];
    let split = brackets.into_iter().find_map(|(open, close)| {
        let (name, rest) = cell.rsplit_once(open)?;
        Some((name.trim().to_owned(), rest.trim_end().strip_suffix(close)?.trim().to_owned()))
    });
    match split {
        Some((name, unit)) => (name, Some(unit).filter(|unit| !unit.is_empty())),
        None => (cell.to_owned(), None),
    }
}

/// The column that is called so: by its id, its name or its symbol, or by the beginning of one name only.
fn named(columns: &'static [Field], name: &str) -> Option<usize> {
    let name = plain(name);
    if name.is_empty() {
        return None;
    }
    exactly(columns, &name).or_else(|| {
        // two letters begin too many words
        let begins = |column: &&Field| name.chars().count() > 2 && plain(column.term.name).starts_with(&name);
        let mut matching = columns.iter().enumerate().filter(|(_, column)| begins(column));
        matching.next().filter(|_| matching.next().is_none()).map(|(index, _)| index)
    })
}

/// The column whose id, name or symbol it is.
fn exactly(columns: &'static [Field], name: &str) -> Option<usize> {
    let name = plain(name);
    let names = |column: &Field| [plain(column.id), plain(column.term.name), plain(column.term.symbol)];
    columns.iter().position(|column| !name.is_empty() && names(column).contains(&name))
}

fn unit_of(column: &'static Field, unit: &str) -> Result<&'static Unit, Sentence> {
    let known = column.term.kind.and_then(|kind| kind.written(unit));
    known.ok_or_else(|| {
        Sentence::plain("“{unit}” over {column} is no unit that is known for it: every number under it would be another one")
            .with("unit", Slot::Text(unit.chars().take(40).collect()))
            .with("column", Slot::Word(column.term.name))
    })
}
