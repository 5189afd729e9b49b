//! Which number of one sheet is what a field of another asks for.
//!
//! A term has one id everywhere, so that it is enough to say once, of a field, which output works it out: every other sheet
//! that asks for the field may take the number. Ids that two things share by chance are named too, and nothing is handed over
//! there; a test wants each shared id on one of the two lists.

use super::catalogue;
use crate::engine::sheet::{Declaration, Field, Stage};
use crate::trade::plan::walk::{WORKED_OUT, WorkedOut};

/// A number of one sheet that another sheet asks for.
#[derive(Debug, Clone, Copy)]
pub struct Handed {
    /// The sheet that works it out.
    pub by: &'static Declaration,
    /// Its output, by its index.
    pub output: usize,
    /// The sheet that asks for it.
    pub to: &'static Declaration,
    /// The field there.
    pub field: &'static Field,
}

const fn by(sheet: &'static str, output: &'static str, field: &'static str) -> WorkedOut {
    WorkedOut { field, sheet, output }
}

/// Besides those that the plan declares with its own fields.
static MORE: &[WorkedOut] = &[
    by("timed-jug", "timed-flow", "rinse-flow"),
    by("timed-jug", "timed-flow", "drain-flow"),
    by("hardness", "hardness-by-report", "hardness"),
    by("hardness", "hardness-by-drops", "softened-hardness"),
    by("recovery", "recovery", "recovery"),
    by("recovery", "feed-flow", "running-flow"),
    by("rejection", "salt-passage", "salt-passage"),
    by("normalized-performance", "salt-passage", "salt-passage"),
    by("inlet-pressure", "inlet-pressure-running", "inlet-pressure-running"),
    by("inlet-pressure", "inlet-pressure-flush", "inlet-pressure-flush"),
    by("softener", "volume-between-regenerations", "volume-between-regenerations"),
    by("machine-demand", "demand", "demand"),
    by("machine-demand", "session-volume", "product-volume"),
    by("day-plan", "session-running-time", "session-running-time"),
    by("day-plan", "daily-running-time", "daily-running-time"),
];

/// Outputs with the id of a field that asks for something else: sheet, output, why.
pub static APART: &[(&str, &str, &str)] = &[
    (
        "rinse-out",
        "rinse-time",
        "until a disinfectant is rinsed out; the field asks for the rinse after a session",
    ),
    (
        "reject-setting",
        "recovery",
        "with a reject flow that nobody has set yet; the fields ask how the RO runs",
    ),
    (
        "same-membrane",
        "product-conductivity",
        "of a membrane that is thought up; the fields ask for a reading",
    ),
    ("same-membrane", "salt-passage", "of a membrane that is thought up; the fields ask for that of this RO"),
    (
        "day-plan",
        "overall-recovery",
        "a lowest value without flushes; the field asks for the share with flushes",
    ),
];

/// Every pair, in the order of the catalogue.
pub fn all() -> impl Iterator<Item = Handed> {
    let sheets = || catalogue::SHEETS.iter().map(|entry| entry.declaration);
    // the plan works with the sheets itself, and its page takes numbers over in its own way
    let asking = move || sheets().filter(|sheet| sheet.stage != Stage::Plan);
    asking().flat_map(move |by| {
        let of_sheet = WORKED_OUT.iter().chain(MORE).filter(|worked_out| worked_out.sheet == by.id);
        of_sheet.flat_map(move |worked_out| {
            let output = by.output(worked_out.output);
            asking().filter(|to| to.id != by.id).filter_map(move |to| {
                let field = &to.inputs[to.input(worked_out.field)?];
                Some(Handed { by, output: output?, to, field })
            })
        })
    })
}

/// The sheets that work out a field of a sheet.
pub fn for_field(to: &'static Declaration, field: &'static Field) -> impl Iterator<Item = Handed> {
    all().filter(move |handed| handed.to.id == to.id && handed.field.id == field.id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Shape;
    use std::collections::BTreeSet;

    fn named(handed: &Handed) -> String {
        let output = handed.by.outputs[handed.output].id;
        format!("{} {output} -> {} {}", handed.by.id, handed.to.id, handed.field.id)
    }

    #[test]
    fn both_sides_of_a_pair_are_numbers_of_one_kind() {
        let mut seen = BTreeSet::new();
        for handed in all() {
            let output = &handed.by.outputs[handed.output];
            let (Shape::Number(given), Shape::Number(asked)) = (output.shape, handed.field.shape) else {
                panic!("{}", named(&handed));
            };
            assert_eq!(given.id, asked.id, "{}", named(&handed));
            assert!(seen.insert(named(&handed)), "{} is there twice", named(&handed));
        }
    }

    #[test]
    fn every_declared_pair_leads_somewhere() {
        for worked_out in MORE {
            let field = |handed: &Handed| {
                (handed.by.id, handed.by.outputs[handed.output].id, handed.field.id)
                    == (worked_out.sheet, worked_out.output, worked_out.field)
            };
            assert!(all().any(|handed| field(&handed)), "{worked_out:?}");
        }
    }

    /// Two things that share an id by chance would be linked by luck: each shared id is declared, one way or the other.
    #[test]
    fn every_shared_id_is_declared_as_the_same_thing_or_as_another() {
        let declared: BTreeSet<String> = all().map(|handed| named(&handed)).collect();
        let sheets = || {
            let all = catalogue::SHEETS.iter().map(|entry| entry.declaration);
            all.filter(|sheet| sheet.stage != Stage::Plan)
        };
        let mut apart = BTreeSet::new();
        for by in sheets() {
            for output in by.outputs.iter().filter(|output| matches!(output.shape, Shape::Number(_))) {
                for to in sheets().filter(|to| to.id != by.id && to.input(output.id).is_some()) {
                    let is_apart = APART.iter().any(|(sheet, id, _)| (*sheet, *id) == (by.id, output.id));
                    let pair = format!("{} {} -> {} {}", by.id, output.id, to.id, output.id);
                    assert!(declared.contains(&pair) != is_apart, "{pair}: the same thing, or another?");
                    if is_apart {
                        apart.insert((by.id, output.id));
                    }
                }
            }
        }
        assert_eq!(apart.len(), APART.len(), "something is set apart that shares no id");
    }

    /// Read by a person, pair by pair: is it the same thing? A new one is read too before it stands here.
    #[test]
    fn the_pairs_are_these() {
        let pairs: Vec<String> = all().map(|handed| named(&handed)).collect();
        let read: Vec<&str> = include_str!("handed.txt").lines().collect();
        assert_eq!(pairs, read);
    }
}
