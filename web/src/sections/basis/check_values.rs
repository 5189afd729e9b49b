//! The check values of one sheet: what is printed, beside what this very program computes now.

use crate::text::{WORDS, fill, say};
use ::tests::rows::{self, Kind, Row};
use calc::engine::sheet::Declaration;
use std::sync::LazyLock;
use yew::prelude::*;

/// The rows that the build took out of the tables of the tests.
static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    let text = include_str!(concat!(env!("OUT_DIR"), "/check_values.csv"));
    rows::of_table("", text).unwrap_or_default()
});
/// How many rows of each kind there are.
const COUNTS: &[(&str, usize)] = &include!(concat!(env!("OUT_DIR"), "/check_value_counts.rs"));

/// How many rows there are of a kind.
pub fn count(kind: Kind) -> usize {
    COUNTS.iter().find(|(word, _)| *word == kind.word()).map_or(0, |(_, count)| *count)
}

/// How many rows there are.
pub fn count_all() -> usize {
    COUNTS.iter().map(|(_, count)| count).sum()
}

/// Each printed value beside the computed one; nothing where the sheet has none.
pub fn check_values(sheet: &'static Declaration) -> Html {
    let rows: Vec<&Row> = ROWS.iter().filter(|row| row.sheet == sheet.id).collect();
    if rows.is_empty() {
        return Html::default();
    }
    html! { <ul class="check-values">{ for rows.iter().map(|row| line(sheet, row)) }</ul> }
}

fn line(sheet: &'static Declaration, row: &Row) -> Html {
    let with_unit = |number: &str| format!("{number} {}", row.unit).trim_end().to_owned();
    let printed = with_unit(&row.expected);
    let (template, found, difference) = match row.beside() {
        Ok(beside) => match beside.difference {
            Some(difference) => (WORDS.basis.differs, with_unit(&beside.found), with_unit(&difference)),
            None => (WORDS.basis.beside, with_unit(&beside.found), String::new()),
        },
        Err(_) => (WORDS.basis.beside, WORDS.not_known.to_owned(), String::new()),
    };
    let numbers = fill(template, &[("printed", &printed), ("found", &found), ("difference", &difference)]);
    html! {
        <li>
            <strong>{ name(sheet, row) }</strong>
            <span class="numbers">{ numbers }</span>
            <span class="source">
                { &row.source }
                if !row.place.is_empty() { { ", " }{ &row.place } }
                if row.kind == Kind::Memory { { " (" }{ WORDS.basis.recalled }{ ")" } }
            </span>
        </li>
    }
}

/// What the row is about, in words; the cell of a table with its row.
fn name(sheet: &'static Declaration, row: &Row) -> String {
    if let Some(id) = row.output.strip_prefix("check:") {
        let (criterion, case) = id.split_once('/').unwrap_or((id, ""));
        let judged = sheet.criteria.iter().find(|one| one.id == criterion);
        let name = judged.map_or(criterion, |one| say(one.sentence));
        return if case.is_empty() { name.to_owned() } else { format!("{name} ({case})") };
    }
    if let Some(of) = row.output.strip_prefix("warning:") {
        let field = of.split_once('/').map_or(of, |(field, _)| field);
        let name = sheet.input(field).map_or(field, |index| say(sheet.inputs[index].term.name));
        return fill(WORDS.basis.warned, &[("field", name)]);
    }
    if row.output.starts_with("caution:") {
        return WORDS.cautions.to_owned();
    }
    let Some((id, cell)) = row.path() else { return row.output.clone() };
    let name = sheet.output(id).map_or(id, |index| say(sheet.outputs[index].term.name));
    match cell {
        Some((key, _)) => format!("{name}: {key}"),
        None => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calc::program::{catalogue, evidence::EVIDENCE};

    #[test]
    fn each_printed_value_is_shown_with_its_answer() {
        let shown = ROWS.iter().filter(|row| row.kind == Kind::Published).count();
        assert_eq!(shown, count(Kind::Published));
        assert_eq!(shown, EVIDENCE.iter().map(|of| of.published).sum::<usize>());
        assert!(count(Kind::Published) < count_all());
        for row in ROWS.iter() {
            assert!(row.beside().is_ok(), "{}", row.at);
            let sheet = catalogue::find(&row.sheet).unwrap().declaration;
            assert!(!name(sheet, row).contains(['[', '/']), "{}", name(sheet, row));
        }
    }
}
