//! Lines over the rows of a table, on one chart or on several under one another.

use super::read::Numbers;
use crate::chart::{Axis, Chart, Course, Limit, Mark, Series, Shade, Values, Wrong};
use crate::sheet::shown;
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::{Kind, Unit, UnitSet};
use calc::engine::sheet::{Answer, Field, Lined, Missing, Panel, Parted, Shape, Shown};

/// A table with its columns.
#[derive(Clone, Copy)]
pub struct Table<'a> {
    /// Its columns.
    pub columns: &'static [Field],
    /// Its rows.
    pub rows: &'a [Vec<Answer>],
}

impl<'a> Table<'a> {
    fn place(self, id: &str) -> Option<usize> {
        self.columns.iter().position(|column| column.id == id)
    }

    /// The rows of one course, all where there is but one.
    fn of_part(self, parted: Option<(&str, f64)>) -> impl Iterator<Item = &'a Vec<Answer>> + use<'a> {
        let part = parted.and_then(|(column, part)| Some((self.place(column)?, part)));
        self.rows
            .iter()
            .filter(move |row| part.is_none_or(|(place, part)| number(row.get(place)) == Some(part)))
    }
}

fn number(answer: Option<&Answer>) -> Option<f64> {
    match answer? {
        Answer::Number(si, _) => Some(*si),
        _ => None,
    }
}

/// The unit of a column.
fn unit(field: &'static Field, set: UnitSet) -> Option<&'static Unit> {
    match field.shape {
        Shape::Number(kind) => Some(shown::unit_of(field, kind, set)),
        _ => None,
    }
}

/// The courses between which one may choose, by their numbers and names, and the one that is shown at first.
pub fn parts(of: &Parted, numbers: &Numbers) -> (Vec<(String, String)>, String) {
    let named = |(columns, rows): (&'static [Field], &[Vec<Answer>])| {
        let place = columns.iter().position(|column| column.id == of.names.1)?;
        let name = |row: &Vec<Answer>| match row.get(place) {
            Some(Answer::Text(name)) => name.clone(),
            _ => String::new(),
        };
        Some(rows.iter().map(name).collect::<Vec<_>>())
    };
    let names = numbers.rows(of.names.0).ok().and_then(named).unwrap_or_default();
    let opens =
        numbers.sheet.output(of.opens_at).and_then(|index| numbers.judged.assessment.answers.get(index));
    let first = names.iter().position(|name| matches!(opens, Some(Answer::Text(opens)) if opens == name));
    let parts = names.into_iter().enumerate().map(|(index, name)| ((index + 1).to_string(), name));
    (parts.collect(), (first.unwrap_or_default() + 1).to_string())
}

/// One chart for each drawing, with why something of it is not known.
pub fn lines(of: &'static Lined, numbers: &Numbers, part: Option<f64>) -> (Vec<Chart>, Vec<Missing>) {
    let table = match numbers.rows(of.table) {
        Ok((columns, rows)) => Table { columns, rows },
        Err(why) => return (Vec::new(), why.into_iter().collect()),
    };
    let part = of.parted.as_ref().map(|parted| parted.column).zip(part);
    let shades = shades(of, numbers, part);
    let mut missing: Vec<Missing> = Vec::new();
    let mut charts = Vec::new();
    for panel in of.panels {
        let Some(mut chart) = chart(of, panel, table, &shades, part, numbers.set) else { continue };
        if let Some((limit, side, words)) = panel.limit {
            match numbers.number(limit) {
                Ok((si, kind)) => chart.limits.push(limit_of(si, kind, side.is_least(), words, numbers.set)),
                Err(why) => missing.extend(why.filter(|why| !missing.contains(why))),
            }
        }
        if let Some(mark) = of.here.and_then(|here| mark(of, here, &chart, numbers, table)) {
            chart.marks.push(mark);
        }
        charts.push(chart);
    }
    (charts, missing)
}

fn limit_of(si: f64, kind: &'static Kind, is_least: bool, words: &'static str, set: UnitSet) -> Limit {
    let unit = kind.unit_in(set);
    Limit {
        words: format!("{} {}", say(words), shown::stated(si, unit)).into(),
        at: Course::Level(unit.of_si(si)),
        wrong: if is_least { Wrong::Below } else { Wrong::Above },
    }
}

/// A mark on the first line, where one stands along the drawing.
fn mark(of: &Lined, here: Shown, chart: &Chart, numbers: &Numbers, table: Table) -> Option<Mark> {
    let along = unit(&table.columns[table.place(of.along)?], numbers.set)?;
    let x = along.of_si(numbers.number(here).ok()?.0);
    let near = |(_, at): &(usize, f64)| (at - x).abs() <= 1e-9 * x.abs().max(1.0);
    let (place, _) = chart.xs.placed().find(near)?;
    Some(Mark { x, y: chart.series.first()?.ys.at(place)?, words: numbers.words(here)?.into() })
}

/// One drawing; the points of a stretch that is shaded lie apart where nothing is known between them.
pub fn chart(
    of: &Lined,
    panel: &Panel,
    table: Table,
    shades: &[Shade],
    part: Option<(&str, f64)>,
    set: UnitSet,
) -> Option<Chart> {
    let place = table.place(of.along)?;
    let along = &table.columns[place];
    let x_unit = unit(along, set)?;
    let lines: Vec<(&'static str, usize)> =
        panel.lines.iter().filter_map(|(name, column)| Some((*name, table.place(column)?))).collect();
    let y_unit = unit(&table.columns[lines.first()?.1], set)?;
    let mut xs: Vec<f64> = Vec::new();
    let mut ys: Vec<Vec<f64>> = vec![Vec::new(); lines.len()];
    for row in table.of_part(part) {
        let x = number(row.get(place)).map_or(f64::NAN, |si| x_unit.of_si(si));
        let gap = shades.iter().find(|shade| panel.breaks && shade.to == x && xs.last() == Some(&shade.from));
        if let Some(gap) = gap {
            xs.push((gap.from + gap.to) / 2.0);
            ys.iter_mut().for_each(|line| line.push(f64::NAN));
        }
        xs.push(x);
        for (line, (_, column)) in ys.iter_mut().zip(&lines) {
            line.push(number(row.get(*column)).map_or(f64::NAN, |si| y_unit.of_si(si)));
        }
    }
    let series = lines.iter().zip(ys).map(|((name, _), ys)| Series {
        name: say(name).into(),
        ys: Values::of(ys),
        half_widths: Values::of([]),
    });
    Some(Chart {
        title: say(panel.name).into(),
        x: Axis::even(say(along.term.name), x_unit.shown()),
        y: Axis::even(say(panel.quantity), y_unit.shown()),
        series: series.collect(),
        xs: Values::of(xs),
        limits: Vec::new(),
        marks: Vec::new(),
        shades: shades.to_vec(),
        stepped: false,
    })
}

fn shades(of: &Lined, numbers: &Numbers, part: Option<(&str, f64)>) -> Vec<Shade> {
    let Some(shaded) = &of.shaded else { return Vec::new() };
    let Ok((columns, rows)) = numbers.rows(shaded.table) else { return Vec::new() };
    let table = Table { columns, rows };
    let places = shaded.columns.map(|id| table.place(id));
    let shade = |row: &Vec<Answer>| {
        let [from, to, why] = places;
        let of = |place: usize| Some(unit(&columns[place], numbers.set)?.of_si(number(row.get(place))?));
        let why = match row.get(why?) {
            Some(Answer::Choice(named)) => say(named.name),
            _ => "",
        };
        let words = fill(WORDS.figure.shaded, &[("name", say(shaded.name)), ("why", why)]);
        Some(Shade { from: of(from?)?, to: of(to?)?, words: words.into() })
    };
    table.of_part(part).filter_map(shade).collect()
}
