//! Checks that can fail: every criterion stands in rows on both sides of its limit, at it and one step beside it; every
//! column of every output table and every warning has rows. What no row can show stands in `sides.txt`, with the reason.

use calc::engine::sheet::{Answer, Assessment, Check, Criterion, Shape, Side, State};
use calc::program::catalogue::SHEETS;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::OnceLock;
use tests::rows::{self, Kind, Row, word};

/// Every row that is not refused, with what its sheet says to it.
fn judged() -> &'static [(Row, Assessment)] {
    static JUDGED: OnceLock<Vec<(Row, Assessment)>> = OnceLock::new();
    JUDGED.get_or_init(|| {
        let mut judged: Vec<(Row, Assessment)> = Vec::new();
        for row in rows::all().unwrap_or_else(|why| panic!("{why}")) {
            if row.kind == Kind::Error {
                continue;
            }
            let same = judged.last().filter(|(last, _)| last.sheet == row.sheet && last.inputs == row.inputs);
            let assessed = match same {
                Some((_, assessed)) => assessed.clone(),
                None => row.assessed().unwrap_or_else(|why| panic!("{why}")),
            };
            judged.push((row, assessed));
        }
        judged
    })
}

/// Fails with what is lacking and is no exception of `sides.txt`, and with every exception that is none any more.
fn compare(what: &str, lacking: BTreeSet<String>) {
    let excused: BTreeSet<String> = include_str!("sides.txt")
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .filter_map(|line| {
            let (one, why) = line.split_once("; ").unwrap_or_else(|| panic!("no reason: {line}"));
            assert!(!why.is_empty(), "no reason: {line}");
            one.strip_prefix(what)?.strip_prefix(' ').map(str::to_owned)
        })
        .collect();
    let new: Vec<_> = lacking.difference(&excused).map(|one| format!("{what} {one}")).collect();
    let gone: Vec<_> = excused.difference(&lacking).map(|one| format!("{what} {one}")).collect();
    assert!(
        new.is_empty() && gone.is_empty(),
        "{} have no row:\n{}\nThese have one now, take them out of sides.txt:\n{}",
        new.len(),
        new.join("\n"),
        gone.join("\n")
    );
}

/// Whether a number lies beside its limit, a step of a tenth at most; of what is counted and of a scale without a true
/// zero, one unit of it.
fn is_beside(check: &Check, is_counted: bool) -> bool {
    let step = if check.kind.true_zero && !is_counted { 0.1 * check.limit.abs() } else { 1.0 };
    let step = step * (1.0 + 1e-9);
    check.distance().abs() <= step
}

/// Whether it is the limit, to the last bits of a computed number.
fn is_at(check: &Check) -> bool {
    check.distance().abs() <= 1e-9 * check.limit.abs()
}

#[test]
fn every_criterion_stands_on_both_sides_at_its_limit_and_beside_it() {
    let mut criteria: BTreeMap<&str, &Criterion> = BTreeMap::new();
    for entry in SHEETS {
        criteria.extend(entry.declaration.criteria.iter().map(|one| (one.id, *one)));
    }
    let mut rows: BTreeMap<&str, Vec<&Check>> = BTreeMap::new();
    for (row, assessed) in judged() {
        let Some(id) = row.output.strip_prefix("check:") else { continue };
        if let Some(check) = assessed.checks.iter().find(|check| check.id() == id) {
            rows.entry(check.criterion.id).or_default().push(check);
        }
    }
    let none = Vec::new();
    let mut lacking = BTreeSet::new();
    for (id, criterion) in criteria {
        let rows = rows.get(id).unwrap_or(&none);
        let is_right = |check: &&&Check| matches!(check.state, State::Met | State::Marginal);
        let is_wrong = |check: &&&Check| check.state == State::NotMet;
        let mut ask = |what: &str, found: bool| {
            if !found {
                lacking.insert(format!("{id}: {what}"));
            }
        };
        ask("met", rows.iter().any(|check| is_right(&check)));
        ask("not met", rows.iter().any(|check| is_wrong(&check)));
        let limit_is_right = match criterion.side {
            Side::AtLeast | Side::AtMost => true,
            Side::Above | Side::Below => false,
            Side::Answered => continue,
        };
        let at = rows.iter().filter(|check| if limit_is_right { is_right(check) } else { is_wrong(check) });
        ask("at the limit", at.into_iter().any(|check| is_at(check)));
        let beside =
            rows.iter().filter(|check| if limit_is_right { is_wrong(check) } else { is_right(check) });
        // what is counted is whole in every row, like the carbons in series
        let is_whole = |check: &&Check| check.kind.id == "number" && check.value.fract() == 0.0;
        let is_counted = rows.iter().filter(|check| check.value.is_finite()).all(is_whole);
        ask("one step beside it", beside.into_iter().any(|check| is_beside(check, is_counted)));
    }
    compare("criterion", lacking);
}

#[test]
fn every_column_of_every_output_table_has_a_row() {
    let mut asked: BTreeSet<(String, String, String)> = BTreeSet::new();
    for (row, assessed) in judged() {
        let Some((output, Some((key, column)))) = row.path() else { continue };
        asked.insert((row.sheet.clone(), output.to_owned(), column.to_owned()));
        // the column by whose word the row is found is read as well
        let entry = row.entry().unwrap_or_else(|why| panic!("{why}"));
        let Some(index) = entry.declaration.output(output) else { continue };
        let (Shape::Table(columns), Some(Answer::Table(cells))) =
            (entry.declaration.outputs[index].shape, assessed.answers.get(index))
        else {
            continue;
        };
        for line in cells {
            for (column, cell) in columns.iter().zip(line) {
                if word(cell) == key {
                    asked.insert((row.sheet.clone(), output.to_owned(), column.id.to_owned()));
                }
            }
        }
    }
    let mut lacking = BTreeSet::new();
    for entry in SHEETS {
        for output in entry.declaration.outputs {
            let Shape::Table(columns) = output.shape else { continue };
            for column in columns {
                let one = (entry.declaration.id.to_owned(), output.id.to_owned(), column.id.to_owned());
                if !asked.contains(&one) {
                    lacking.insert(format!("{} {} {}", one.0, one.1, one.2));
                }
            }
        }
    }
    compare("column", lacking);
}

/// The ids in `w.warn(field, "id", …)` of the code.
fn ids_in_code() -> BTreeSet<String> {
    fn of_folder(folder: &Path, ids: &mut BTreeSet<String>) {
        let entries = std::fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
        for path in entries.flatten().map(|entry| entry.path()) {
            if path.is_dir() {
                of_folder(&path, ids);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let text =
                    std::fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
                ids.extend(text.split("w.warn(").skip(1).filter_map(second_literal));
            }
        }
    }
    let mut ids = BTreeSet::new();
    of_folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../calc/src/trade"), &mut ids);
    ids
}

/// The text of the second argument, where it is a literal.
fn second_literal(call: &str) -> Option<String> {
    let (_, rest) = call.split_once(',')?;
    let rest = rest.trim_start().strip_prefix('"')?;
    Some(rest.split_once('"')?.0.to_owned())
}

#[test]
fn every_warning_is_asked_by_its_id() {
    let mut wanted = ids_in_code();
    assert!(wanted.len() > 30, "the warnings of the code are not found any more");
    let (mut raised, mut silent) = (BTreeSet::new(), BTreeSet::new());
    let mut of_field: BTreeMap<(&str, &str), BTreeSet<&str>> = BTreeMap::new();
    for (row, assessed) in judged() {
        for one in assessed.warnings.iter().filter(|one| !one.assumed) {
            wanted.insert(one.id.to_owned());
            of_field.entry((&row.sheet, one.field)).or_default().insert(one.id);
        }
        let Some((_, id)) = row.output.strip_prefix("warning:").and_then(|what| what.split_once('/')) else {
            continue;
        };
        if row.expected == "0" {
            silent.insert(id.to_owned())
        } else {
            raised.insert(id.to_owned())
        };
    }
    let lacking = |asked: &BTreeSet<String>, what: &str| {
        wanted.difference(asked).map(|id| format!("{id}: {what}")).collect::<BTreeSet<_>>()
    };
    let mut all = lacking(&raised, "raised");
    all.extend(lacking(&silent, "silent"));
    compare("warning", all);
}
