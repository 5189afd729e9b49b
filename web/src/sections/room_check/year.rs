//! The year as charts: what the RO makes month by month against what is asked, and how far the published forms of the
//! temperature correction disagree, with this place's two ends.

use super::super::paper;
use super::answered;
use crate::chart::{Axis, Chart, ChartView, Course, Limit, Mark, Series, Values, Wrong};
use crate::page::fold::Fold;
use crate::sheet::judge::Judged;
use crate::sheet::shown;
use crate::state::find;
use crate::text::{WORDS, fill, say};
use calc::engine::calendar::Month;
use calc::engine::quantity::{Unit, UnitSet, kinds};
use calc::engine::sheet::{Answer, Declaration, Field, Shape, Value};
use std::rc::Rc;
use yew::prelude::*;

/// From which water on the forms are drawn, and up to which, in kelvins; every half kelvin.
const FROM: f64 = 275.15;
const POINTS: u32 = 67;

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
            stepped: false,
        })
    }

    /// Every published form, as the ratio to the reading of the RO.
    fn forms(&self) -> Option<Chart> {
        let anchor = self.entered("anchor-temperature")?;
        let temperatures: Vec<f64> = (0..POINTS).map(|step| FROM + 0.5 * f64::from(step)).collect();
        let by_temperature: Vec<Vec<f64>> =
            temperatures.iter().map(|t| ratios(*t, anchor)).collect::<Option<_>>()?;
        let unit = kinds::TEMPERATURE.unit_in(self.set);
        let series =
            calc::trade::membrane::correction::Form::NAMED.iter().enumerate().map(|(index, form)| Series {
                name: say(form.name).into(),
                ys: Values::of(by_temperature.iter().map(|ratios| ratios[index]).collect::<Vec<_>>()),
                half_widths: Values::of([]),
            });
        Some(Chart {
            title: WORDS.section.forms_chart.into(),
            x: Axis::even(WORDS.section.water_temperature, unit.shown()),
            y: Axis::even(WORDS.section.ratio_to_reading, ""),
            xs: Values::of(temperatures.iter().map(|t| unit.of_si(*t)).collect::<Vec<_>>()),
            series: series.collect(),
            limits: Vec::new(),
            marks: self.ends(anchor, unit),
            stepped: false,
        })
    }

    /// The two ends of this place's year, each between its lowest and its highest form.
    fn ends(&self, anchor: f64, unit: &Unit) -> Vec<Mark> {
        let ends = self.table("form-band").map(|(columns, rows)| {
            let temperatures = column(columns, "temperature", rows, |cell| match cell {
                Answer::Number(si, _) => *si,
                _ => f64::NAN,
            });
            temperatures.unwrap_or_default()
        });
        let words = [WORDS.section.coldest, WORDS.section.warmest];
        let mark = |(temperature, words): (f64, &'static str)| {
            let ratios = ratios(temperature, anchor).filter(|_| temperature.is_finite())?;
            let lowest = ratios.iter().copied().fold(f64::INFINITY, f64::min);
            Some(Mark { x: unit.of_si(temperature), y: lowest, words: words.into() })
        };
        ends.unwrap_or_default().into_iter().zip(words).filter_map(mark).collect()
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

/// What every form makes of water of this temperature, as the ratio to another; in the order of the forms.
fn ratios(temperature: f64, anchor: f64) -> Option<Vec<f64>> {
    let entry = find("temperature-correction")?;
    let values = [Some(Value::Number(temperature)), Some(Value::Number(anchor))];
    let said = entry.assess(&values, false);
    let index = entry.declaration.output("form-factors")?;
    let (Shape::Table(columns), Answer::Table(rows)) =
        (entry.declaration.outputs[index].shape, said.answers.get(index)?)
    else {
        return None;
    };
    let ratios = column(columns, "ratio", rows, |cell| match cell {
        Answer::Number(ratio, _) => *ratio,
        _ => f64::NAN,
    })?;
    (ratios.len() == calc::trade::membrane::correction::Form::NAMED.len()).then_some(ratios)
}
