//! What is said of a filling: by the reader of the fields and by the sheet itself.

use crate::fields::{Notes, Said};
use crate::ids;
use crate::state::{Filling, Opened, Reading, read};
use crate::text::{WORDS, alone, fill};
use calc::quantity::UnitSet;
use calc::sheet::{Assessment, Entry, Field, Problem, Shape, Value, Warning};
use std::collections::BTreeSet;
use std::rc::Rc;

/// What is said of a filling.
#[derive(Debug)]
pub struct Judged {
    /// What was read, in the order of the declaration.
    pub values: Rc<Vec<Option<Value>>>,
    unread: Vec<Problem>,
    remarks: Vec<Warning>,
    /// What follows from it.
    pub assessment: Assessment,
}

/// Reads and computes; without the working, since this happens at every key press.
pub fn judge(entry: &'static Entry, filling: &Filling, record: Option<&Opened>) -> Judged {
    let Reading { values, mut problems, remarks } = read(entry.declaration, filling);
    let of_record = record.into_iter().flat_map(|record| &record.problems);
    problems.extend(of_record.filter(|problem| filling.is_empty_at(problem.field)).cloned());
    let assessment = entry.assess(&values, false);
    Judged { values: Rc::new(values), unread: problems, remarks, assessment }
}

/// One error in the summary.
#[derive(Debug, Clone, PartialEq)]
pub struct Summed {
    /// The name of the field; empty where the error belongs to none.
    pub name: &'static str,
    /// What is wrong.
    pub said: Said,
}

impl Judged {
    fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.unread.iter().chain(&self.assessment.problems)
    }

    /// Remarks of the reader and warnings of the sheet, without what was only assumed.
    pub fn warnings<'a>(&'a self, filling: &'a Filling) -> impl Iterator<Item = &'a Warning> {
        // Half a number is often unusual: what is being typed is left in peace.
        let typing = |field: &str| filling.entries.contains_key(field) && !filling.left.contains(field);
        self.remarks
            .iter()
            .chain(&self.assessment.warnings)
            .filter(move |warning| !warning.assumed && !typing(warning.field))
    }

    /// What is said beside a field.
    pub fn notes(&self, field: &'static Field, filling: &Filling, set: UnitSet) -> Notes {
        let errors = self.problems().filter(|problem| problem.field == field.id);
        let errors = errors.filter_map(|problem| said(problem, field, &filling.left, set)).collect();
        let warnings = self.warnings(filling).filter(|warning| warning.field == field.id);
        Notes {
            errors,
            warnings: warnings.map(|warning| alone(&warning.sentence.show(set)).into()).collect(),
        }
    }

    /// The fields whose entry could not be taken, so that the numbers are those of an empty field.
    pub fn left_out(&self, fields: &'static [Field]) -> Vec<&'static Field> {
        fields.iter().filter(|field| self.problems().any(|problem| problem.field == field.id)).collect()
    }

    /// Every error that is on the screen, in the order of the fields, those of no field last.
    pub fn summary(&self, fields: &'static [Field], filling: &Filling, set: UnitSet) -> Vec<Summed> {
        let of_fields = fields.iter().flat_map(|field| {
            let own = self.problems().filter(move |problem| problem.field == field.id);
            own.filter_map(move |problem| said(problem, field, &filling.left, set))
                .map(move |said| Summed { name: field.term.name, said })
        });
        let of_none = self.problems().filter(|problem| !fields.iter().any(|field| field.id == problem.field));
        let of_none = of_none.map(|problem| Summed {
            name: "",
            said: Said { at: String::new(), text: alone(&problem.sentence.show(set)).into() },
        });
        of_fields.chain(of_none).collect()
    }
}

/// The error, if its field or cell was left.
fn said(problem: &Problem, field: &'static Field, left: &BTreeSet<String>, set: UnitSet) -> Option<Said> {
    let sentence = alone(&problem.sentence.show(set));
    let Some((row, column)) = problem.cell else {
        return left.contains(field.id).then(|| Said { at: field.id.to_owned(), text: sentence.into() });
    };
    let at = ids::cell(field.id, row, column);
    (left.contains(field.id) || left.contains(&at)).then(|| {
        let place =
            fill(WORDS.cell_of, &[("column", column_name(field, column)), ("row", &(row + 1).to_string())]);
        Said { at, text: format!("{place}: {sentence}").into() }
    })
}

fn column_name(field: &'static Field, id: &str) -> &'static str {
    match field.shape {
        Shape::Table(columns) => {
            columns.iter().find(|column| column.id == id).map_or("", |column| column.term.name)
        }
        _ => "",
    }
}
