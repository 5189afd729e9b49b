//! Rows of a table from a text and back: comma, semicolon or tabulator between the cells (RFC 4180), a head that names the
//! columns with their units, decimal point or comma.
//!
//! Nothing is lost in silence. A cell that cannot be read stays as it is written, to be mended in the table; a line that
//! has no place there is told with its number and left out; a unit that nobody knows refuses the whole text, since every
//! number of its column would be another one.

mod cells;
pub mod events;
mod head;
mod records;
mod write;

pub use write::write;

use crate::documents::reading::read_text;
use crate::engine::quantity::Unit;
use crate::engine::sheet::{Field, Sentence, Slot};
use head::Head;
use records::Record;

/// The longest text that is read, in bytes; a year of readings every quarter of an hour has a third of it.
pub const LONGEST: usize = 2_000_000;
/// The most rows; ten years of daily readings are 3,650.
pub const MOST_ROWS: usize = 5_000;
/// The most characters of a cell.
const LONGEST_CELL: usize = 200;
/// How many remarks are told.
const MOST_REMARKS: usize = 20;

/// What stands in a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// The unit over each column, where the head names one.
    pub units: Vec<Option<&'static Unit>>,
    /// Texts of the cells, in the order of the columns.
    pub rows: Vec<Vec<String>>,
    /// Whether the text has each of the columns.
    pub found: Vec<bool>,
    /// Heads of the text that are no column of the table.
    pub ignored: Vec<String>,
    /// What is to be known of single lines, at most twenty.
    pub remarks: Vec<Remark>,
    /// How many lines have been left out.
    pub left_out: usize,
}

/// Something to be known of one line.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Counted from 1, as editors count.
    pub line: u64,
    /// In which column, in words; empty where it is the line.
    pub column: &'static str,
    /// What is wrong.
    pub sentence: Sentence,
}

/// Reads the rows of a table whose columns these are.
///
/// # Errors
/// One sentence, where nothing of it can be taken.
///
/// # Example
/// ```
/// use calc::{program::catalogue, documents::csv, engine::sheet::Shape};
/// let report = catalogue::find("chemical-limits").unwrap().declaration.inputs[0];
/// let Shape::Table(columns) = report.shape else { panic!() };
/// let read = csv::read(columns, "Analyte;Result (mg/L)\nNitrate, as N;1,7\nAluminium;<0,005\n").unwrap();
/// assert_eq!(read.rows, [["nitrate-n", "1,7"], ["aluminium", "<0,005"]]);
/// assert_eq!(read.units[1].map(|unit| unit.symbol), Some("mg/L"));
/// ```
pub fn read(columns: &'static [Field], text: &str) -> Result<Read, Sentence> {
    if text.len() > LONGEST {
        return Err(Sentence::plain(
            "this text is too long for a table: paste only the rows that are needed",
        ));
    }
    let records = records::of(text)?;
    let Some(first) = records.first() else {
        return Err(Sentence::plain("there is no line with anything in it"));
    };
    let (head, body) = match Head::of(columns, first)? {
        Some(head) => (head, &records[1..]),
        None => (Head::in_order(columns, first)?, &records[..]),
    };
    let mut found = vec![false; columns.len()];
    for column in head.columns.iter().flatten() {
        found[*column] = true;
    }
    let mut read = Read {
        units: head.units.clone(),
        rows: Vec::new(),
        found,
        ignored: head.ignored.clone(),
        remarks: Vec::new(),
        left_out: 0,
    };
    let mut clock = cells::Clock::default();
    for record in body {
        if read.rows.len() == MOST_ROWS {
            return Err(Sentence::plain("there are more than {most} rows: paste only those that are needed")
                .with("most", Slot::Count(MOST_ROWS as i64)));
        }
        match row(columns, &head, record, &mut clock) {
            Ok(cells) => read.add(columns, cells, record.line),
            Err(remark) => {
                read.left_out += 1;
                read.remark(remark);
            }
        }
    }
    if read.rows.is_empty() {
        let sentence = read.remarks.into_iter().next().map(|remark| remark.sentence);
        return Err(sentence.unwrap_or(Sentence::plain("there are column names and no rows under them")));
    }
    Ok(read)
}

impl Read {
    fn remark(&mut self, remark: Remark) {
        if self.remarks.len() < MOST_REMARKS {
            self.remarks.push(remark);
        }
    }

    /// A row is kept also where a cell of it cannot be read: it is mended in the table.
    fn add(&mut self, columns: &'static [Field], cells: Vec<String>, line: u64) {
        for ((column, text), unit) in columns.iter().zip(&cells).zip(&self.units) {
            let unit = unit.or_else(|| column.term.unit(false));
            if let Err(problem) = read_text(column, text, unit)
                && self.remarks.len() < MOST_REMARKS
            {
                self.remarks.push(Remark { line, column: column.term.name, sentence: problem.sentence });
            }
        }
        self.rows.push(cells);
    }
}

/// The cells of one line in the order of the columns.
fn row(
    columns: &'static [Field],
    head: &Head,
    record: &Record,
    clock: &mut cells::Clock,
) -> Result<Vec<String>, Remark> {
    let told = |column, sentence| Remark { line: record.line, column, sentence };
    if record.cells.len() > head.columns.len() {
        let sentence = Sentence::plain("{found} cells stand under a head of {wanted}; a decimal comma between commas needs quotation marks")
            .with("found", Slot::Count(record.cells.len() as i64))
            .with("wanted", Slot::Count(head.columns.len() as i64));
        return Err(told("", sentence));
    }
    let mut row = vec![String::new(); columns.len()];
    for (cell, column) in record.cells.iter().zip(&head.columns) {
        let Some(column) = column else { continue };
        let field = &columns[*column];
        let text = cell.trim();
        if text.chars().count() > LONGEST_CELL {
            let sentence = Sentence::plain("a cell with more than {most} characters")
                .with("most", Slot::Count(LONGEST_CELL as i64));
            return Err(told(field.term.name, sentence));
        }
        row[*column] =
            cells::text_of(field, text, clock).map_err(|sentence| told(field.term.name, sentence))?;
    }
    if let Some((place, column)) = head.unit_cell {
        let (field, unit) = (&columns[column], record.cells.get(place).map_or("", |cell| cell.trim()));
        row[column] = cells::with_unit(field, &row[column], unit)
            .map_err(|sentence| told(field.term.name, sentence))?;
    }
    Ok(row)
}

#[cfg(test)]
mod tests;
