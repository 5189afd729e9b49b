//! What is said of a filling: by the reader of the fields and by the sheet itself.

use crate::fields::{Notes, Said};
use crate::page::ids;
use crate::state::Filling;
use crate::text::{WORDS, alone, fill, say, tell};
use calc::documents::record::{Read, read};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Assessment, Entry, Field, Problem, Shape, Value, Warning};
use std::collections::BTreeSet;
use std::rc::Rc;

/// What is said of a filling.
#[derive(Debug, Clone)]
pub struct Judged {
    /// What was read, in the order of the declaration.
    pub values: Rc<Vec<Option<Value>>>,
    unread: Vec<Problem>,
    remarks: Vec<Warning>,
    /// What follows from it.
    pub assessment: Assessment,
}

/// Reads and computes; without the working and the intervals, since this happens at every key press.
pub fn judge(entry: &'static Entry, filling: &Filling, of_record: &[Problem]) -> Judged {
    let mut reading = read(entry.declaration.inputs, &filling.entries);
    let values = std::mem::take(&mut reading.values);
    let mut assessment = entry.figures(&values, false);
    let found = std::mem::take(&mut assessment.problems).into_iter();
    assessment.problems = found.map(|problem| reading.on_the_page(problem)).collect();
    let Read { mut problems, remarks, .. } = reading;
    problems.extend(of_record.iter().filter(|problem| filling.is_empty_at(problem.field)).cloned());
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
        self.warnings_where(|_| true, filling)
    }

    fn warnings_where<'a>(
        &'a self,
        wanted: impl Fn(&&Warning) -> bool + 'a,
        filling: &'a Filling,
    ) -> impl Iterator<Item = &'a Warning> {
        // Half a number is often unusual: what is being typed is left in peace.
        let typing = |field: &str| filling.entries.contains_key(field) && !filling.left.contains(field);
        self.remarks
            .iter()
            .chain(&self.assessment.warnings)
            .filter(wanted)
            .filter(move |warning| !warning.assumed && !typing(warning.field))
    }

    /// What is said beside a field.
    pub fn notes(&self, field: &'static Field, filling: &Filling, set: UnitSet) -> Notes {
        let errors = self.problems().filter(|problem| problem.field == field.id);
        let errors = errors.filter_map(|problem| said(problem, field, &filling.left, set)).collect();
        // Asked first what costs least: this runs for every field at every key press.
        let is_of_field = |warning: &&Warning| warning.field == field.id;
        let warnings = self.warnings_where(is_of_field, filling);
        Notes {
            errors,
            warnings: warnings.map(|warning| alone(&tell(&warning.sentence, set)).into()).collect(),
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
                .map(move |said| Summed { name: say(field.term.name), said })
        });
        let of_none = self.problems().filter(|problem| !fields.iter().any(|field| field.id == problem.field));
        let of_none = of_none.map(|problem| Summed {
            name: "",
            said: Said { at: String::new(), text: alone(&tell(&problem.sentence, set)).into() },
        });
        of_fields.chain(of_none).collect()
    }
}

/// The error, if its field or cell was left.
fn said(problem: &Problem, field: &'static Field, left: &BTreeSet<String>, set: UnitSet) -> Option<Said> {
    let sentence = || alone(&tell(&problem.sentence, set));
    let Some((row, column)) = problem.cell else {
        return left.contains(field.id).then(|| Said { at: field.id.to_owned(), text: sentence().into() });
    };
    let at = ids::cell(field.id, row, column);
    (left.contains(field.id) || left.contains(&at))
        .then(|| Said { text: placed(&sentence(), column_name(field, column), row).into(), at })
}

/// The sentence with the cell in front, as far as it does not name it itself.
fn placed(sentence: &str, column: &str, row: usize) -> String {
    let number = (row + 1).to_string();
    let row = fill(WORDS.row, &[("row", &number)]);
    if sentence.starts_with(&row) {
        sentence.to_owned()
    } else if sentence.contains(column) {
        format!("{row}: {sentence}")
    } else {
        format!("{}: {sentence}", fill(WORDS.cell_of, &[("column", column), ("row", &number)]))
    }
}

fn column_name(field: &'static Field, id: &str) -> &'static str {
    match field.shape {
        Shape::Table(columns) => {
            columns.iter().find(|column| column.id == id).map_or("", |column| say(column.term.name))
        }
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::{Action, Change, State, find};

    fn typed(field: &'static Field, text: &str) -> State {
        let sheet = find("carbon-contact-time").unwrap().declaration;
        let action = Action::Field(sheet, field, Change::Text(text.into()));
        State::default().after(action).unwrap()
    }

    #[test]
    fn what_cannot_be_taken_is_named_beside_the_answers_at_once_and_said_once_it_is_left() {
        let entry = find("carbon-contact-time").unwrap();
        let sheet = entry.declaration;
        let second = &sheet.inputs[1];
        let mut state = typed(second, "1,234");
        let of = |state: &State| {
            let filling = state.filling(sheet);
            let judged = judge(entry, &filling, &[]);
            let left_out = judged.left_out(sheet.inputs).iter().map(|field| field.id).collect::<Vec<_>>();
            let said = judged.notes(second, &filling, UnitSet::Metric).errors.len();
            (left_out, said, judged.summary(sheet.inputs, &filling, UnitSet::Metric).len())
        };
        assert_eq!(of(&state), (vec!["second-bed-volume"], 0, 0));
        state = state.after(Action::Field(sheet, second, Change::Leave(second.id.into()))).unwrap();
        assert_eq!(of(&state), (vec!["second-bed-volume"], 1, 1));
    }

    #[test]
    fn what_is_unusual_is_said_once_the_field_is_left() {
        let entry = find("carbon-contact-time").unwrap();
        let sheet = entry.declaration;
        // 300 L/min are possible and not plausible.
        let flow = &sheet.inputs[2];
        let state = typed(flow, "300");
        let warned = |state: &State| {
            let filling = state.filling(sheet);
            judge(entry, &filling, &[]).notes(flow, &filling, UnitSet::Metric).warnings.len()
        };
        assert_eq!(warned(&state), 0);
        let state = state.after(Action::Field(sheet, flow, Change::Leave(flow.id.into()))).unwrap();
        assert_eq!(warned(&state), 1);
    }

    #[test]
    fn an_error_of_a_cell_names_the_cell_once() {
        for (sentence, expected) in [
            ("“x” does not begin with a number.", "Bore, row 2: “x” does not begin with a number."),
            ("Bore cannot be 0 mm.", "Row 2: Bore cannot be 0 mm."),
            ("Row 2 has nothing under Bore.", "Row 2 has nothing under Bore."),
        ] {
            assert_eq!(placed(sentence, "Bore", 1), expected);
        }
    }
}
