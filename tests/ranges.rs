//! Where the plausible ranges and the tolerances of the inputs come from: `ranges.csv` holds one line for each.

use calc::engine::sheet::{Declaration, Field, Shape, Tolerance};
use calc::program::catalogue::SHEETS;
use std::collections::BTreeMap;
use tests::rows::records;

const COLUMNS: [&str; 6] = ["field", "from", "to", "tolerance", "unit", "source"];

/// Every input and every column of an input table.
fn fields(sheet: &'static Declaration) -> impl Iterator<Item = &'static Field> {
    sheet.inputs.iter().flat_map(|field| {
        let columns: &'static [Field] = match field.shape {
            Shape::Table(columns) => columns,
            _ => &[],
        };
        std::iter::once(field).chain(columns)
    })
}

/// A number in as few digits as say it, its last bits apart.
fn short(value: f64) -> String {
    let rounded: f64 = format!("{value:.9e}").parse().unwrap_or(value);
    rounded.to_string()
}

/// The line of a field without its source, where it has a range or a tolerance.
fn line(field: &Field) -> Option<String> {
    let unit = field.term.unit(false)?;
    let (from, to) = field.term.plausible;
    let ends = |value: f64| if value.is_finite() { short(unit.of_si(value)) } else { String::new() };
    let zero = unit.of_si(0.0);
    let tolerance = match field.term.tolerance {
        Tolerance::Absolute(half) => short(unit.of_si(half) - zero),
        Tolerance::Relative(share) => format!("{} %", short(100.0 * share)),
        Tolerance::None => String::new(),
    };
    let is_empty = !from.is_finite() && !to.is_finite() && tolerance.is_empty();
    (!is_empty).then(|| format!("{}; {}; {}; {tolerance}; {}", field.id, ends(from), ends(to), unit.symbol))
}

#[test]
fn every_range_and_every_tolerance_has_a_source() {
    let text = include_str!("ranges.csv");
    let mut sourced: BTreeMap<String, String> = BTreeMap::new();
    for (at, record) in records("ranges.csv", &COLUMNS, text).unwrap_or_else(|why| panic!("{why}")) {
        let source = record.get(5).unwrap_or("").to_owned();
        assert!(!source.is_empty(), "{at}: no source; “common practice” is one");
        let cells: Vec<&str> = record.iter().take(5).collect();
        assert!(sourced.insert(cells.join("; "), source).is_none(), "{at} stands twice");
    }
    let declared: std::collections::BTreeSet<String> =
        SHEETS.iter().flat_map(|entry| fields(entry.declaration)).filter_map(line).collect();
    let missing: Vec<&String> = declared.iter().filter(|one| !sourced.contains_key(*one)).collect();
    let gone: Vec<&String> = sourced.keys().filter(|one| !declared.contains(*one)).collect();
    assert!(
        missing.is_empty() && gone.is_empty(),
        "without a source, {} lines:\n{}\nnot declared any more:\n{}",
        missing.len(),
        missing.iter().map(|one| format!("{one}; common practice")).collect::<Vec<_>>().join("\n"),
        gone.iter().map(|one| one.as_str()).collect::<Vec<_>>().join("\n")
    );
}
