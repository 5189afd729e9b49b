//! Rows as a text that the same reader reads, and that no spreadsheet takes for a formula.

use crate::engine::quantity::Unit;
use crate::engine::quantity::text::number_of;
use crate::engine::sheet::{Field, Shape};

/// A head with the units, then the rows; cells that name their own unit keep it.
pub fn write(columns: &'static [Field], units: &[Option<&'static Unit>], rows: &[Vec<String>]) -> String {
    let head = columns.iter().enumerate().map(|(index, column)| {
        match units.get(index).copied().flatten().filter(|unit| !unit.symbol.is_empty()) {
            Some(unit) => format!("{} ({})", column.term.name, unit.symbol),
            None => column.term.name.to_owned(),
        }
    });
    let mut text = line(head);
    for row in rows {
        text += &line(columns.iter().enumerate().map(|(index, column)| {
            let cell = row.get(index).map_or("", String::as_str);
            match column.shape {
                Shape::Choice(named) => {
                    named.iter().find(|one| one.id == cell).map_or(cell, |one| one.name).to_owned()
                }
                _ => cell.to_owned(),
            }
        }));
    }
    text
}

/// One line of cells.
pub(super) fn line(cells: impl Iterator<Item = String>) -> String {
    let mut line = cells.map(|cell| quoted(&harmless(cell))).collect::<Vec<_>>().join(",");
    line += "\r\n";
    line
}

/// A cell that a spreadsheet would compute gets an apostrophe before it, and so does one that has it already. A number with
/// its sign is none, as long as nothing but a unit stands behind it: `-1 +SUM(A1)` is computed.
fn harmless(cell: String) -> String {
    let computed = cell.trim_start_matches('\'').starts_with(['=', '+', '-', '@', '\t', '\r']);
    let is_number = || {
        let (number, unit) = cell.split_once(' ').unwrap_or((&cell, ""));
        number_of(number).is_ok() && !unit.contains(['=', '+', '(', '|', '!'])
    };
    if computed && !is_number() { format!("'{cell}") } else { cell }
}

/// The text as it was before it was made harmless to a spreadsheet.
pub(super) fn plain_text(text: &str) -> &str {
    match text.strip_prefix('\'') {
        Some(rest) if rest.trim_start_matches('\'').starts_with(['=', '+', '-', '@']) => rest,
        _ => text,
    }
}

fn quoted(cell: &str) -> String {
    let needs = cell.contains([',', ';', '\t', '"', '\n', '\r']) || cell.trim() != cell;
    if needs { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell.to_owned() }
}
