//! Stairs: a quantity that falls from step to step, drawn as a chart whose lines are treads.

use super::read::Numbers;
use crate::chart::{Axis, Chart, Course, Limit, Series, Values, Wrong};
use crate::sheet::shown;
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::Kind;
use calc::engine::sheet::{Figure, Flight, Missing, Shown};
use yew::AttrValue;

/// What a figure of stairs declares.
pub struct Stairs {
    /// Upwards.
    pub quantity: &'static str,
    /// Along.
    pub along: &'static str,
    /// The steps.
    pub steps: &'static [&'static str],
    /// One line each.
    pub flights: &'static [Flight],
    /// The least that will do.
    pub least: Shown,
}

/// The chart, as far as anything is known, and why the rest is not, each reason once.
pub fn stairs(figure: &'static Figure, of: &Stairs, numbers: &Numbers) -> (Option<Chart>, Vec<Missing>) {
    let mut missing: Vec<Missing> = Vec::new();
    let mut kind: Option<&'static Kind> = None;
    let mut read = |shown: Shown| match numbers.number(shown) {
        Ok((si, of)) => {
            kind = Some(of);
            si
        }
        Err(why) => {
            missing.extend(why.filter(|why| !missing.contains(why)));
            f64::NAN
        }
    };
    let flights: Vec<(&'static str, Vec<f64>)> = of
        .flights
        .iter()
        .map(|flight| (say(flight.name), flight.at.iter().map(|shown| read(*shown)).collect()))
        .collect();
    let least = read(of.least);
    let Some(kind) = kind else { return (None, missing) };
    let unit = kind.unit_in(numbers.set);
    // a flight of which only the first step is known is the beginning of the others
    let is_known = |ys: &[f64]| ys.iter().skip(1).any(|y| y.is_finite());
    let ends = |ys: &[f64]| ys.last().is_some_and(|y| y.is_finite());
    let mut drawn: Vec<&(&'static str, Vec<f64>)> = flights.iter().filter(|(_, ys)| ends(ys)).collect();
    if drawn.is_empty() {
        drawn = flights.iter().filter(|(_, ys)| is_known(ys)).take(2).collect();
    }
    if drawn.is_empty() {
        drawn = flights.iter().take(1).collect();
    }
    let series = drawn.into_iter().map(|(name, ys)| Series {
        name: (*name).into(),
        ys: Values::of(ys.iter().map(|si| unit.of_si(*si)).collect::<Vec<_>>()),
        half_widths: Values::of([]),
    });
    let limit = least.is_finite().then(|| Limit {
        words: fill(WORDS.section.asked_flow, &[("flow", &shown::stated(least, unit))]).into(),
        at: Course::Level(unit.of_si(least)),
        wrong: Wrong::Below,
    });
    let places: Vec<AttrValue> = of.steps.iter().map(|step| AttrValue::from(say(step))).collect();
    let chart = Chart {
        title: say(figure.name).into(),
        x: Axis::named(say(of.along), places),
        y: Axis::even(say(of.quantity), unit.shown()),
        xs: Values::of((0..of.steps.len()).map(|place| place as f64).collect::<Vec<_>>()),
        series: series.collect(),
        limits: limit.into_iter().collect(),
        marks: Vec::new(),
        shades: Vec::new(),
        stepped: true,
    };
    (Some(chart), missing)
}
