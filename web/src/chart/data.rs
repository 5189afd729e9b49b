//! What a chart is made of: plain numbers, already in the unit in which they are shown.

use calc::engine::quantity::show::significant;
use std::rc::Rc;
use yew::AttrValue;

/// Digits of a value that is read off.
const DIGITS: usize = 3;
/// Digits of half an interval.
const DIGITS_OF_INTERVAL: usize = 2;

/// Everything that a chart shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What is drawn.
    pub title: AttrValue,
    /// Along the chart.
    pub x: Axis,
    /// Upwards.
    pub y: Axis,
    /// The places that all lines share, ascending; of named places, 0, 1, 2 and so on.
    pub xs: Values,
    /// One line each.
    pub series: Vec<Series>,
    /// What the lines are judged against.
    pub limits: Vec<Limit>,
    /// Single places.
    pub marks: Vec<Mark>,
    /// Stretches along the chart that stand apart.
    pub shades: Vec<Shade>,
    /// Whether a line is level over each named place and falls between two, like stairs.
    pub stepped: bool,
}

/// Numbers in a row; one that is not finite is missing. Two rows are the same when they are one, or equal number by
/// number, so that a gap, which equals nothing, does not make a chart be drawn again.
#[derive(Debug, Clone)]
pub struct Values(Rc<[f64]>);

impl Values {
    /// The numbers.
    pub fn of(numbers: impl Into<Rc<[f64]>>) -> Self {
        Self(numbers.into())
    }

    /// The number at a place, where there is one.
    pub fn at(&self, place: usize) -> Option<f64> {
        self.0.get(place).copied().filter(|value| value.is_finite())
    }

    /// How many places there are, gaps among them.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is no place at all.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Every number that is there.
    pub fn there(&self) -> impl Iterator<Item = f64> {
        self.0.iter().copied().filter(|value| value.is_finite())
    }

    /// Every place with its number.
    pub fn placed(&self) -> impl Iterator<Item = (usize, f64)> {
        self.0.iter().copied().enumerate().filter(|(_, value)| value.is_finite())
    }
}

impl PartialEq for Values {
    fn eq(&self, other: &Self) -> bool {
        let same = |(a, b): (&f64, &f64)| a.to_bits() == b.to_bits();
        Rc::ptr_eq(&self.0, &other.0) || (self.len() == other.len() && self.0.iter().zip(&*other.0).all(same))
    }
}

/// What stands along an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// The name of what is measured.
    pub name: AttrValue,
    /// The symbol of its unit; empty where it has none.
    pub unit: AttrValue,
    /// How its values are spread.
    pub spread: Spread,
}

/// How values are spread along an axis.
#[derive(Debug, Clone, PartialEq)]
pub enum Spread {
    /// Equal steps are equally far apart.
    Even,
    /// Equal ratios are equally far apart; every value is above zero.
    Logarithm,
    /// Named places, such as the twelve months; the value is the place, counted from 0.
    Named(Rc<[AttrValue]>),
}

impl Axis {
    /// An axis of equal steps.
    pub fn even(name: impl Into<AttrValue>, unit: impl Into<AttrValue>) -> Self {
        Self { name: name.into(), unit: unit.into(), spread: Spread::Even }
    }

    /// An axis of named places.
    pub fn named(name: impl Into<AttrValue>, places: impl Into<Rc<[AttrValue]>>) -> Self {
        Self { name: name.into(), unit: AttrValue::default(), spread: Spread::Named(places.into()) }
    }

    /// A value with its unit, or the name of its place.
    pub fn value(&self, value: f64) -> String {
        let number = self.number(value);
        if self.unit.is_empty() { number } else { format!("{number}\u{a0}{}", self.unit) }
    }

    /// The same without the unit, for under a heading that has it.
    pub fn number(&self, value: f64) -> String {
        match &self.spread {
            Spread::Named(places) => {
                let place = places.get(value.round().max(0.0) as usize);
                place.map_or_else(String::new, |name| name.to_string())
            }
            Spread::Even | Spread::Logarithm => significant(value, DIGITS),
        }
    }

    /// Name and unit, as they stand beside the axis.
    pub fn title(&self) -> String {
        if self.unit.is_empty() { self.name.to_string() } else { format!("{}, {}", self.name, self.unit) }
    }
}

/// One line of a chart, over the places that all lines share.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// What the line is.
    pub name: AttrValue,
    /// Its values.
    pub ys: Values,
    /// Half the widths of the 95 % intervals of the values; empty until they are known.
    pub half_widths: Values,
}

impl Series {
    /// The value at a place as it is read off, with its interval where that is known; `None` in a gap.
    pub fn says(&self, place: usize, axis: &Axis) -> Option<String> {
        let value = axis.number(self.ys.at(place)?);
        let unit = if axis.unit.is_empty() { String::new() } else { format!("\u{a0}{}", axis.unit) };
        Some(match self.half_widths.at(place) {
            Some(half) => format!("{value}\u{a0}±\u{a0}{}{unit}", significant(half, DIGITS_OF_INTERVAL)),
            None => format!("{value}{unit}"),
        })
    }

    /// Half the width of the interval at a place, as it stands in a table.
    pub fn half_width(&self, place: usize) -> String {
        self.half_widths.at(place).map_or_else(String::new, |half| significant(half, DIGITS_OF_INTERVAL))
    }
}

/// A limit, drawn as a line with its words; short strokes stand on its wrong side.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// What it asks: "at least 10 min".
    pub words: AttrValue,
    /// One value over the whole chart, or one at each place.
    pub at: Course,
    /// Where values are wrong.
    pub wrong: Wrong,
}

/// How a limit runs.
#[derive(Debug, Clone, PartialEq)]
pub enum Course {
    /// The same everywhere.
    Level(f64),
    /// At each place of the chart.
    Over(Values),
}

impl Course {
    /// The limit at a place.
    pub fn at(&self, place: usize) -> Option<f64> {
        match self {
            Course::Level(level) => Some(*level).filter(|level| level.is_finite()),
            Course::Over(values) => values.at(place),
        }
    }
}

/// The side of a limit on which values are wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wrong {
    /// Above the limit.
    Above,
    /// Below the limit.
    Below,
}

/// A stretch along the chart that is shaded, such as one in which nothing is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Shade {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// What it is.
    pub words: AttrValue,
}

/// A single place that is named, such as where one stands now.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Along the chart.
    pub x: f64,
    /// Its height.
    pub y: f64,
    /// What it is.
    pub words: AttrValue,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_does_not_make_a_row_differ_from_itself() {
        let with_gap = || Values::of([1.0, f64::NAN, 3.0]);
        assert_eq!(with_gap(), with_gap());
        assert_ne!(with_gap(), Values::of([1.0, 2.0, 3.0]));
        assert_eq!(with_gap().placed().collect::<Vec<_>>(), [(0, 1.0), (2, 3.0)]);
        assert_eq!((with_gap().at(1), with_gap().at(2), with_gap().at(3)), (None, Some(3.0), None));
    }
}
