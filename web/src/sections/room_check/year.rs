//! The year as charts: what the RO makes month by month against what is asked, and how far the published forms of the
//! temperature correction disagree, with this place's two ends.

use super::super::paper;
use super::answered;
use crate::chart::{Axis, Chart, ChartView, Course, Limit, Mark, Series, Shade, Values, Wrong};
use crate::figure::lines::{self, Table};
use crate::page::fold::Fold;
use crate::sheet::judge::Judged;
use crate::sheet::shown;
use crate::state::find;
use crate::text::{WORDS, fill, say};
use calc::engine::calendar::Month;
use calc::engine::quantity::{Unit, UnitSet, kinds};
use calc::engine::sheet::{Answer, Declaration, Draws, Field, Shape, State, Value};
use std::rc::Rc;
use yew::prelude::*;

/// Both charts, where there is anything to draw.
pub fn year(judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Html {
    let of = Year { judged, sheet, set };
    html! {
        <>
            if let Some(chart) = of.months() {
                <Fold id="year" title={WORDS.section.year} result={paper::by_month(&judged.assessment.checks)}>
                    <ChartView id="chart-months" chart={Rc::new(chart)} />
                </Fold>
            }
            if let Some(chart) = of.forms() {
                <Fold id="forms" title={WORDS.section.forms}>
                    <ChartView id="chart-forms" chart={Rc::new(chart)} />
                </Fold>
            }
        </>
    }
}

struct Year<'a> {
    judged: &'a Judged,
    sheet: &'static Declaration,
    set: UnitSet,
}

impl Year<'_> {
    fn answer(&self, id: &str) -> Option<&Answer> {
        answered(self.judged, self.sheet, id).map(|(_, answer)| answer)
    }

    fn number(&self, id: &str) -> Option<f64> {
        match self.answer(id)? {
            Answer::Number(si, _) => Some(*si),
            _ => None,
        }
    }

    fn entered(&self, id: &str) -> Option<f64> {
        match self.judged.values.get(self.sheet.input(id)?)? {
            Some(Value::Number(si)) => Some(*si),
            _ => None,
        }
    }

    /// The columns and rows of an answer that is a table with rows in it.
    fn table(&self, id: &str) -> Option<(&'static [Field], &[Vec<Answer>])> {
        let (Shape::Table(columns), Answer::Table(rows)) =
            (self.sheet.outputs.get(self.sheet.output(id)?)?.shape, self.answer(id)?)
        else {
            return None;
        };
        (!rows.is_empty()).then_some((columns, rows.as_slice()))
    }

    fn months(&self) -> Option<Chart> {
        let (columns, rows) = self.table("months")?;
        let unit = kinds::FLOW.unit_in(self.set);
        let names = column(columns, "month", rows, |cell| match cell {
            Answer::Choice(named) => {
                let month = Month::ALL.into_iter().find(|month| month.named() == **named);
                AttrValue::from(month.map_or("", |month| say(month.short())))
            }
            _ => AttrValue::default(),
        })?;
        let numbers = |id: &str| Some(Values::of(column(columns, id, rows, |cell| in_unit(cell, unit))?));
        let line = |id: &str, name: &'static str| {
            Some(Series { name: name.into(), ys: numbers(id)?, half_widths: Values::of([]) })
        };
        let demand = self.number("demand").map(|demand| {
            let limit = shown::quantity(demand, unit);
            Limit {
                words: fill(WORDS.section.asked_flow, &[("flow", &limit)]).into(),
                at: Course::Level(unit.of_si(demand)),
                wrong: Wrong::Below,
            }
        });
        Some(Chart {
            title: WORDS.section.months_chart.into(),
            x: Axis::named(WORDS.section.month, names),
            y: Axis::even(WORDS.section.product_flow, unit.shown()),
            xs: Values::of((0..rows.len()).map(|place| place as f64).collect::<Vec<_>>()),
            series: vec![
                line("capacity", WORDS.section.after_allowances)?,
                line("product", WORDS.section.clean)?,
            ],
            limits: demand.into_iter().collect(),
            marks: Vec::new(),
            shades: self.short_months(rows),
            stepped: false,
        })
    }

    /// Every published form against the first one, as the sheet of the forms draws it.
    fn forms(&self) -> Option<Chart> {
        let anchor = self.entered("anchor-temperature")?;
        let entry = find("temperature-correction")?;
        let sheet = entry.declaration;
        let (figure, lined) = sheet.figures.iter().find_map(|figure| match &figure.draws {
            Draws::Lines(lined) => Some((figure, lined)),
            _ => None,
        })?;
        let said = entry.assess(&[Some(Value::Number(anchor)), Some(Value::Number(anchor))], false);
        let index = sheet.output(lined.table)?;
        let (Shape::Table(columns), Answer::Table(rows)) =
            (sheet.outputs[index].shape, said.answers.get(index)?)
        else {
            return None;
        };
        let table = Table { columns, rows };
        let mut chart = lines::chart(lined, lined.panels.first()?, table, &[], None, self.set)?;
        chart.title = say(figure.name).into();
        chart.marks = self.ends(kinds::TEMPERATURE.unit_in(self.set));
        Some(chart)
    }

    /// The two ends of this place's year, on the line of the first form.
    fn ends(&self, unit: &Unit) -> Vec<Mark> {
        let ends = self.table("form-band").map(|(columns, rows)| {
            let temperatures = column(columns, "temperature", rows, |cell| match cell {
                Answer::Number(si, _) => *si,
                _ => f64::NAN,
            });
            temperatures.unwrap_or_default()
        });
        let words = [WORDS.section.coldest, WORDS.section.warmest];
        let ends = ends.unwrap_or_default().into_iter().zip(words).filter(|(si, _)| si.is_finite());
        ends.map(|(si, words)| Mark { x: unit.of_si(si), y: 0.0, words: words.into() }).collect()
    }

    /// The months in which the product flow after allowances falls short.
    fn short_months(&self, rows: &[Vec<Answer>]) -> Vec<Shade> {
        let is_short = |row: &Vec<Answer>| {
            let Some(Answer::Choice(month)) = row.first() else { return false };
            let mut checks = self.judged.assessment.checks.iter();
            checks.any(|check| check.case.id == month.id && check.state == State::NotMet)
        };
        let short = rows.iter().enumerate().filter(|(_, row)| is_short(row));
        let shade = |(place, _): (usize, &Vec<Answer>)| {
            let middle = place as f64;
            Shade { from: middle - 0.5, to: middle + 0.5, words: WORDS.section.short_month.into() }
        };
        short.map(shade).collect()
    }
}

/// One column of a table, cell by cell.
fn column<T>(
    columns: &[Field],
    id: &str,
    rows: &[Vec<Answer>],
    read: impl Fn(&Answer) -> T,
) -> Option<Vec<T>> {
    let index = columns.iter().position(|column| column.id == id)?;
    rows.iter().map(|cells| cells.get(index).map(&read)).collect()
}

fn in_unit(cell: &Answer, unit: &Unit) -> f64 {
    match cell {
        Answer::Number(si, _) => unit.of_si(*si),
        _ => f64::NAN,
    }
}
