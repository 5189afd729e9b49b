//! Reads what a figure shows from what a sheet was judged to say.

use crate::sheet::judge::Judged;
use crate::sheet::shown;
use crate::state::Filling;
use calc::documents::record::Held;
use calc::engine::quantity::{Kind, UnitSet};
use calc::engine::sheet::figure::row;
use calc::engine::sheet::{
    Answer, Assessment, Declaration, Field, Figure, Missing, Named, Shape, Shown, Value,
};

/// The columns of a table and its rows.
pub type Rows<'a> = (&'static [Field], &'a [Vec<Answer>]);

/// A sheet with its values, at one time of the year.
#[derive(Clone, Copy)]
pub struct Numbers<'a> {
    /// What follows from them.
    pub judged: &'a Judged,
    /// The sheet.
    pub sheet: &'static Declaration,
    /// The units of the page.
    pub set: UnitSet,
    /// The id of the time of the year, for what stands in tables.
    pub time: &'a str,
    /// What was typed.
    pub filling: &'a Filling,
    /// What follows in one month, where the figure is drawn of one.
    pub of_month: Option<&'a Assessment>,
}

impl Numbers<'_> {
    /// The number itself with its kind; otherwise why there is none, where that is said.
    pub fn number(&self, shown: Shown) -> Result<(f64, &'static Kind), Option<Missing>> {
        let entered = |id: &'static str| {
            let index = self.sheet.input(id)?;
            match (self.judged.values.get(index)?, self.sheet.inputs[index].shape) {
                (Some(Value::Number(si)), Shape::Number(kind)) => Some((*si, kind)),
                _ => None,
            }
        };
        let needs = |id: &'static str| {
            let field = self.sheet.inputs.iter().find(|field| field.id == id);
            field.map(|field| Missing::empty(id, field.term.name))
        };
        match shown {
            Shown::Entered(id) => entered(id).ok_or_else(|| needs(id)),
            Shown::FirstEntered(ids) => {
                let found = ids.iter().find_map(|id| entered(id));
                found.ok_or_else(|| ids.last().and_then(|id| needs(id)))
            }
            Shown::Answered(_) | Shown::At(..) => match self.answer(shown) {
                Some((_, Answer::Number(si, kind))) => Ok((*si, *kind)),
                Some((_, Answer::Missing(why))) => Err(Some(*why)),
                _ => Err(None),
            },
            Shown::Checked(id, case) => {
                let mut checks = self.judged.assessment.checks.iter();
                match checks.find(|check| check.criterion.id == id && check.case.id == case) {
                    Some(check) if check.value.is_finite() => Ok((check.value, check.kind)),
                    Some(check) => Err(check.missing),
                    None => Err(None),
                }
            }
            Shown::ByTest => Err(None),
        }
    }

    /// The number in words: an entry as it was typed, what follows rounded.
    pub fn words(&self, shown: Shown) -> Option<String> {
        let (si, kind) = self.number(shown).ok()?;
        match shown {
            Shown::Entered(id) => self.as_typed(id, si),
            _ => match self.answer(shown) {
                Some((field, _)) => Some(shown::answer(field, si, kind, self.set)),
                None => Some(shown::quantity(si, kind.unit_in(self.set))),
            },
        }
    }

    /// As it was typed, where it can be read; in the other units, and without a text, as it is known.
    fn as_typed(&self, id: &str, si: f64) -> Option<String> {
        let field = &self.sheet.inputs[self.sheet.input(id)?];
        let of_set = field.term.unit(self.set == UnitSet::Us)?;
        match self.filling.entries.get(field.id).map(AsRef::as_ref) {
            Some(Held::One(typed)) if typed.shown_unit(field, self.set) == Some(of_set) => {
                match typed.own_unit(field) {
                    Some(_) => Some(typed.shown().trim().to_owned()),
                    None => Some(shown::with_unit(typed.shown().trim().to_owned(), of_set)),
                }
            }
            _ => Some(shown::quantity(si, of_set)),
        }
    }

    /// The columns and rows of an output that is a table; otherwise why there are none, where that is said.
    pub fn rows(&self, table: &str) -> Result<Rows<'_>, Option<Missing>> {
        let index = self.sheet.output(table).ok_or(None)?;
        match (self.sheet.outputs[index].shape, self.answers().get(index)) {
            (Shape::Table(columns), Some(Answer::Table(rows))) => Ok((columns, rows)),
            (_, Some(Answer::Missing(why))) => Err(Some(*why)),
            _ => Err(None),
        }
    }

    fn answers(&self) -> &[Answer] {
        &self.of_month.unwrap_or(&self.judged.assessment).answers
    }

    fn answer(&self, shown: Shown) -> Option<(&'static Field, &Answer)> {
        let answers = self.answers();
        match shown {
            Shown::Answered(id) => {
                let index = self.sheet.output(id)?;
                Some((&self.sheet.outputs[index], answers.get(index)?))
            }
            Shown::At(table, column) => {
                let (index, column) = self.sheet.column(table, column)?;
                let (Shape::Table(columns), Answer::Table(rows)) =
                    (self.sheet.outputs[index].shape, answers.get(index)?)
                else {
                    return None;
                };
                Some((&columns[column], row(rows, self.time)?.get(column)?))
            }
            _ => None,
        }
    }
}

/// The times of the year between which one may choose, and the one at which a figure opens.
pub fn times(
    figure: &Figure,
    judged: &Judged,
    sheet: &'static Declaration,
) -> (Vec<&'static Named>, &'static str) {
    let rows =
        figure.table().and_then(|table| match judged.assessment.answers.get(sheet.output(table)?)? {
            Answer::Table(rows) => Some(rows.as_slice()),
            _ => None,
        });
    let times: Vec<&'static Named> = rows
        .unwrap_or_default()
        .iter()
        .filter_map(|row| match row.first() {
            Some(Answer::Choice(named)) => Some(*named),
            _ => None,
        })
        .collect();
    let mut checks = judged.assessment.checks.iter();
    let worst = checks.find(|check| {
        let is_asked = figure.opens_at.is_none_or(|criterion| criterion.id == check.criterion.id);
        is_asked && check.value.is_finite() && times.iter().any(|time| time.id == check.season.id)
    });
    let first = worst.map(|check| check.season.id).or(times.first().map(|time| time.id));
    (times, first.unwrap_or_default())
}
