//! What every declaration of the catalogue owes: evidence, sane ranges, words, permanent ids with one meaning.

use calc::documents::record::LockReason;
use calc::documents::record::kinds::KINDS;
use calc::engine::sheet::{Answer, Assessment, Check, Declaration, Field, Shape, Stage, State, Tolerance};
use calc::program::catalogue::{SHEETS, find};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use tests::rows::{self, Kind};

fn declarations() -> impl Iterator<Item = &'static Declaration> {
    SHEETS.iter().map(|entry| entry.declaration)
}

/// All fields of a sheet with the columns of its tables.
fn fields(list: &'static [Field]) -> Vec<&'static Field> {
    list.iter()
        .flat_map(|field| {
            let columns: &'static [Field] = match field.shape {
                Shape::Table(columns) => columns,
                _ => &[],
            };
            std::iter::once(field).chain(columns)
        })
        .collect()
}

fn assert_none(failures: Vec<String>) {
    assert!(failures.is_empty(), "{} failures:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn every_sheet_has_its_evidence() {
    let rows = rows::all().unwrap();
    assert_none(
        declarations()
            .filter_map(|sheet| {
                let of_sheet: Vec<_> =
                    rows.iter().filter(|row| row.sheet == sheet.id && row.kind != Kind::Error).collect();
                let evidence = of_sheet.iter().filter(|row| row.kind.is_evidence()).count();
                (of_sheet.len() < 3 || evidence < 1)
                    .then(|| format!("{}: {} rows, {evidence} from outside", sheet.id, of_sheet.len()))
            })
            .collect(),
    );
}

#[test]
fn every_output_number_is_checked_somewhere() {
    let rows = rows::all().unwrap();
    let checked = |sheet: &Declaration, id: &str| {
        rows.iter().any(|row| {
            row.sheet == sheet.id && row.output.split('[').next() == Some(id) && row.kind != Kind::Error
        })
    };
    assert_none(
        declarations()
            .flat_map(|sheet| {
                let open = sheet.outputs.iter().filter(|field| !checked(sheet, field.id));
                open.map(|field| format!("{}: no row for {}", sheet.id, field.id)).collect::<Vec<_>>()
            })
            .collect(),
    );
}

#[test]
fn ranges_are_sane() {
    let mut failures = Vec::new();
    for sheet in declarations() {
        for field in fields(sheet.inputs) {
            let mut say = |what: &str| failures.push(format!("{} {}: {what}", sheet.id, field.id));
            let Some(kind) = field.term.kind else { continue };
            let ((low, high), (from, to)) = (field.term.possible, field.term.plausible);
            if !low.is_finite() || !high.is_finite() || low >= high {
                say("the possible range has no ends");
            }
            if from.is_finite() && to.is_finite() && !(low <= from && from < to && to <= high) {
                say("the plausible range does not lie within the possible one");
            }
            if kind.true_zero && low < 0.0 && !["rise", "time"].contains(&field.id) {
                say("less than nothing is possible");
            }
            match field.term.tolerance {
                Tolerance::Absolute(half) | Tolerance::Relative(half)
                    if !(half > 0.0 && half.is_finite()) =>
                {
                    say("the tolerance is none")
                }
                Tolerance::Relative(half) if half >= 0.5 => say("the tolerance is half of the value"),
                Tolerance::Relative(_) if !kind.true_zero => {
                    say("a share of a value whose zero is arbitrary")
                }
                _ => {}
            }
        }
    }
    assert_none(failures);
}

#[test]
fn every_field_says_what_it_is() {
    let mut failures = Vec::new();
    for sheet in declarations() {
        let mut say = |what: String| failures.push(format!("{}: {what}", sheet.id));
        if sheet.name.is_empty() || !sheet.about.trim().ends_with('.') {
            say("no name, or no sentence of what it answers".into());
        }
        if sheet.sources.is_empty() || sheet.cautions.is_empty() {
            say("no source or no caution".into());
        }
        for field in fields(sheet.inputs).into_iter().chain(fields(sheet.outputs)) {
            if field.term.name.is_empty() {
                say(format!("{} has no name", field.id));
            }
            if field.term.kind.is_some() && field.term.symbol.is_empty() {
                say(format!("{} has no symbol", field.id));
            }
        }
        for field in sheet.inputs {
            if field.needed && field.term.kind.is_some() && field.term.help.is_empty() {
                say(format!("{} is needed, and nothing says how to measure it", field.id));
            }
            if !field.needed && field.term.help.is_empty() && field.term.assumed.is_empty() {
                say(format!("{} says neither what it is nor what holds without it", field.id));
            }
        }
    }
    assert_none(failures);
}

fn is_kebab_case(id: &str) -> bool {
    !id.is_empty()
        && id.starts_with(|c: char| c.is_ascii_lowercase())
        && id.split('-').all(|part| {
            !part.is_empty() && part.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        })
}

/// The ids of fields, their columns and choices, after what they belong to.
fn ids_of(fields: &[Field], of: &str) -> Vec<String> {
    let mut lines = Vec::new();
    for field in fields {
        let of = format!("{of} {}", field.id);
        match field.shape {
            Shape::Table(columns) => lines.extend(ids_of(columns, &format!("{of} column"))),
            Shape::Choice(named) => lines.extend(named.iter().map(|one| format!("{of} choice {}", one.id))),
            _ => {}
        }
        lines.push(of);
    }
    lines
}

/// Every permanent id with what it is: one line each.
fn ids() -> BTreeSet<String> {
    let mut lines = BTreeSet::new();
    for sheet in declarations() {
        lines.insert(format!("{} sheet", sheet.id));
        lines.extend(ids_of(sheet.inputs, &format!("{} input", sheet.id)));
        lines.extend(ids_of(sheet.outputs, &format!("{} output", sheet.id)));
        lines.extend(sheet.criteria.iter().map(|one| format!("{} criterion {}", sheet.id, one.id)));
        lines.extend(sheet.cautions.iter().map(|one| format!("{} caution {}", sheet.id, one.id)));
    }
    for kind in KINDS {
        lines.insert(format!("{} event", kind.id));
        lines.extend(ids_of(kind.fields, &format!("{} event field", kind.id)));
    }
    lines.extend(LockReason::NAMED.iter().map(|reason| format!("{} lock", reason.id)));
    for kind in calc::engine::quantity::kinds::all() {
        lines.extend(
            kind.units.iter().map(|unit| format!("{} unit {}", kind.id, unit.symbol).trim_end().to_owned()),
        );
    }
    lines.extend(calc::engine::sheet::source::ALL.iter().map(|source| format!("{} source", source.key)));
    lines.extend(Stage::ALL.iter().map(|stage| format!("{} stage", stage.id())));
    lines
}

#[test]
fn ids_are_permanent() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("ids.txt");
    let kept = std::fs::read_to_string(path).unwrap();
    let kept: BTreeSet<String> = kept.lines().map(str::to_owned).collect();
    let ours = ids();
    let lost: Vec<_> = kept.difference(&ours).cloned().collect();
    let new: Vec<_> = ours.difference(&kept).cloned().collect();
    assert!(
        lost.is_empty() && new.is_empty(),
        "an id is in saved files and addresses for ever.\n\
         Gone, which breaks them:\n{}\nNew, to be added to tests/ids.txt once they are final:\n{}",
        lost.join("\n"),
        new.join("\n")
    );
}

#[test]
fn ids_are_kebab_case_and_unique() {
    let mut failures = Vec::new();
    let mut seen = BTreeSet::new();
    for sheet in declarations() {
        if !seen.insert(sheet.id) {
            failures.push(format!("{} stands twice", sheet.id));
        }
        let lists = [sheet.inputs, sheet.outputs].into_iter().chain(
            [sheet.inputs, sheet.outputs].into_iter().flatten().filter_map(|field| match field.shape {
                Shape::Table(columns) => Some(columns),
                _ => None,
            }),
        );
        for list in lists {
            let mut seen = BTreeSet::new();
            failures.extend(
                list.iter()
                    .filter(|field| !is_kebab_case(field.id) || !seen.insert(field.id))
                    .map(|field| format!("{}: {} stands twice or is not kebab-case", sheet.id, field.id)),
            );
            let choices = list.iter().filter_map(|field| match field.shape {
                Shape::Choice(named) => Some(named),
                _ => None,
            });
            failures.extend(
                choices
                    .flatten()
                    .filter(|one| !is_kebab_case(one.id))
                    .map(|one| format!("{}: {}", sheet.id, one.id)),
            );
        }
        let others = sheet.criteria.iter().map(|one| one.id).chain(sheet.cautions.iter().map(|one| one.id));
        failures.extend(others.filter(|id| !is_kebab_case(id)).map(|id| format!("{}: {id}", sheet.id)));
    }
    assert_none(failures);
}

/// Sheets are filled from events by these ids.
#[test]
fn an_event_and_a_sheet_mean_the_same_by_one_id() {
    let mut failures = Vec::new();
    let mut shared = 0;
    for (kind, field) in KINDS.iter().flat_map(|kind| kind.fields.iter().map(move |field| (kind, field))) {
        if !is_kebab_case(field.id) || !is_kebab_case(kind.id) {
            failures.push(format!("{}: {} is not kebab-case", kind.id, field.id));
        }
        for sheet in declarations() {
            for input in sheet.inputs.iter().filter(|input| input.id == field.id) {
                shared += 1;
                let kinds = (input.term.kind.map(|kind| kind.id), field.term.kind.map(|kind| kind.id));
                if kinds.0 != kinds.1
                    || std::mem::discriminant(&input.shape) != std::mem::discriminant(&field.shape)
                {
                    failures.push(format!("{} of the event {} and of {}", field.id, kind.id, sheet.id));
                }
            }
        }
    }
    assert!(shared > 100, "{shared} fields of events fill a field of a sheet");
    assert_none(failures);
}

#[test]
fn one_id_means_one_thing_everywhere() {
    let mut inputs: BTreeMap<&str, (&Declaration, &Field)> = BTreeMap::new();
    let mut all: BTreeMap<&str, (&Declaration, &Field)> = BTreeMap::new();
    let mut failures = Vec::new();
    let mut say = |id: &str, a: &Declaration, b: &Declaration, what: &str| {
        failures.push(format!("{id}: {what} in {} and in {}", a.id, b.id));
    };
    for sheet in declarations() {
        for field in sheet.inputs.iter().chain(sheet.outputs) {
            let (other_sheet, other) = *all.entry(field.id).or_insert((sheet, field));
            let kinds = (field.term.kind.map(|kind| kind.id), other.term.kind.map(|kind| kind.id));
            if kinds.0 != kinds.1
                || std::mem::discriminant(&field.shape) != std::mem::discriminant(&other.shape)
            {
                say(field.id, sheet, other_sheet, "of another kind");
            }
            if let (Shape::Choice(ours), Shape::Choice(theirs)) = (field.shape, other.shape)
                && ours != theirs
            {
                say(field.id, sheet, other_sheet, "other choices");
            }
        }
        for field in sheet.inputs {
            let (other_sheet, other) = *inputs.entry(field.id).or_insert((sheet, field));
            let (term, theirs) = (field.term, other.term);
            if term.possible != theirs.possible || term.plausible != theirs.plausible {
                say(field.id, sheet, other_sheet, "another range");
            }
            if term.units != theirs.units {
                say(field.id, sheet, other_sheet, "other units first");
            }
            if term.tolerance != theirs.tolerance || term.instrument != theirs.instrument {
                say(field.id, sheet, other_sheet, "another instrument");
            }
        }
    }
    assert_none(failures);
}

#[test]
fn one_caution_and_one_criterion_have_one_wording() {
    let mut failures = Vec::new();
    let mut cautions: BTreeMap<&str, &str> = BTreeMap::new();
    let mut criteria: BTreeMap<&str, &str> = BTreeMap::new();
    let inputs: BTreeSet<&str> =
        declarations().flat_map(|sheet| sheet.inputs).map(|field| field.id).collect();
    for sheet in declarations() {
        for caution in sheet.cautions {
            if *cautions.entry(caution.id).or_insert(caution.text) != caution.text {
                failures.push(format!("{}: another text of {}", sheet.id, caution.id));
            }
            if !caution.text.ends_with('.') {
                failures.push(format!("{}: {} is no sentence", sheet.id, caution.id));
            }
        }
        for criterion in sheet.criteria {
            if *criteria.entry(criterion.id).or_insert(criterion.sentence) != criterion.sentence {
                failures.push(format!("{}: another sentence of {}", sheet.id, criterion.id));
            }
            let unknown = criterion.levers.iter().filter(|lever| !inputs.contains(*lever));
            failures.extend(
                unknown.map(|lever| format!("{}: {lever} is no input that mends {}", sheet.id, criterion.id)),
            );
        }
    }
    assert_none(failures);
}

/// The check that judges an output, and the output, of a sheet as it is filled.
fn judged_outputs<'a>(
    declared: &'static Declaration,
    said: &'a Assessment,
) -> impl Iterator<Item = (&'a Check, &'static str, Option<f64>)> {
    said.checks.iter().flat_map(move |check| {
        let outputs = check.criterion.judges.outputs().filter(|(case, _)| *case == check.case.id);
        outputs.filter_map(move |(_, id)| match said.answers.get(declared.output(id)?)? {
            Answer::Number(si, _) => Some((check, id, Some(*si))),
            _ => Some((check, id, None)),
        })
    })
}

#[test]
fn every_criterion_names_outputs_that_exist() {
    let mut failures = Vec::new();
    for sheet in declarations() {
        for criterion in sheet.criteria {
            let mut outputs = criterion.judges.outputs().peekable();
            let has = |(_, id): (&str, &str)| sheet.output(id).is_some();
            // the plan tells many numbers in tables, one row for each time of the year
            if sheet.id != "plan" && outputs.peek().is_some() && !outputs.any(has) {
                failures.push(format!("{}: no output that {} judges", sheet.id, criterion.id));
            }
            for (case, id) in criterion.judges.outputs() {
                if !declarations().any(|other| {
                    other.output(id).is_some() && other.criteria.iter().any(|one| one.id == criterion.id)
                }) {
                    failures.push(format!("{}: no sheet that judges it answers {id}", criterion.id));
                }
                if !criterion.cases.is_empty() && !criterion.cases.iter().any(|one| one.id == case) {
                    failures.push(format!("{}: there is no case “{case}”", criterion.id));
                }
            }
        }
    }
    assert_none(failures);
}

#[test]
fn every_criterion_judges_the_output_that_it_names() {
    let mut failures = Vec::new();
    let mut seen = BTreeSet::new();
    for row in rows::all().unwrap() {
        let (Ok(said), Some(entry)) = (row.assessed(), find(&row.sheet)) else { continue };
        for (check, id, output) in judged_outputs(entry.declaration, &said) {
            // what is only known to be missing, or judged on another ground, has no number to compare
            if check.value.is_finite() {
                seen.insert((check.criterion.id, id));
                // a least current that is too much already is not met, whatever the whole of it is
                let is_bound = output.is_none() && check.state == State::NotMet;
                if output != Some(check.value) && !is_bound {
                    failures.push(format!(
                        "{}: {} judges {}, and {id} is {output:?}",
                        row.at,
                        check.id(),
                        check.value
                    ));
                }
            }
        }
    }
    let declared = declarations().flat_map(|sheet| {
        sheet.criteria.iter().flat_map(|one| one.judges.outputs().map(|(_, id)| (one.id, id)))
    });
    let never: BTreeSet<_> = declared.filter(|pair| !seen.contains(pair)).collect();
    failures.extend(never.iter().map(|(criterion, id)| format!("no row shows that {criterion} judges {id}")));
    assert_none(failures);
}

#[test]
fn what_an_output_holds_in_every_row_is_declared() {
    // of each criterion that names no output: in how many rows it was judged, and in how many each output was the same number
    let mut judged: BTreeMap<&str, BTreeSet<u64>> = BTreeMap::new();
    let mut same: BTreeMap<(&str, &str), BTreeSet<u64>> = BTreeMap::new();
    for row in rows::all().unwrap() {
        let (Ok(said), Some(entry)) = (row.assessed(), find(&row.sheet)) else { continue };
        for check in said.checks.iter().filter(|check| check.value.is_finite() && check.value != 0.0) {
            if check.criterion.judges.outputs().next().is_some() {
                continue;
            }
            judged.entry(check.criterion.id).or_default().insert(check.value.to_bits());
            for (field, answer) in entry.declaration.outputs.iter().zip(&said.answers) {
                if matches!(answer, Answer::Number(si, kind) if kind.id == check.kind.id && *si == check.value)
                {
                    same.entry((check.criterion.id, field.id)).or_default().insert(check.value.to_bits());
                }
            }
        }
    }
    let held = same.iter().filter(|((criterion, _), numbers)| judged[criterion].len() == numbers.len());
    assert_none(
        held.map(|((criterion, output), _)| format!("{criterion} judges {output}, and does not say so"))
            .collect(),
    );
}
