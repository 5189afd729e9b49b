//! From values to places on the drawing.

use super::data::{Axis, Course, Limit, Mark, Series, Spread};
use super::ticks::{self, Ticks};

/// A range of values, laid along a stretch of the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    low: f64,
    high: f64,
    by_logarithm: bool,
    from: f64,
    to: f64,
}

/// From this ratio of the highest to the lowest value on, heights are spread by their logarithm: on even steps the
/// lower ones would all lie on the axis.
const FLAT: f64 = 200.0;

impl Scale {
    /// The places of a chart, along its width.
    pub fn along(axis: &Axis, xs: impl Iterator<Item = f64>, from: f64, to: f64) -> Self {
        match &axis.spread {
            // Half a place is left at both ends.
            Spread::Named(places) => {
                Self { low: -0.5, high: places.len() as f64 - 0.5, by_logarithm: false, from, to }
            }
            spread => {
                let (low, high) = wide(extent(xs).unwrap_or((0.0, 1.0)));
                let by_logarithm = *spread == Spread::Logarithm && low > 0.0;
                Self { low, high, by_logarithm, from, to }
            }
        }
    }

    /// The heights of a chart: of its lines, limits and marks, widened to the ticks around them.
    pub fn up(heights: impl Iterator<Item = f64>, ticks: usize, from: f64, to: f64) -> Self {
        let (low, high) = wide(extent(heights).unwrap_or((0.0, 1.0)));
        let by_logarithm = low > 0.0 && high / low > FLAT;
        // Seen from zero a height is a size; where everything is far from zero, only the differences are seen.
        let low = if !by_logarithm && low > 0.0 && low <= 0.5 * high { 0.0 } else { low };
        let high = if !by_logarithm && high < 0.0 && high >= 0.5 * low { 0.0 } else { high };
        let (low, high) = ticks::rounded(low, high, ticks, by_logarithm);
        Self { low, high, by_logarithm, from, to }
    }

    /// Where a value lies.
    pub fn at(&self, value: f64) -> f64 {
        let share = if self.by_logarithm {
            (value / self.low).ln() / (self.high / self.low).ln()
        } else {
            (value - self.low) / (self.high - self.low)
        };
        self.from + share * (self.to - self.from)
    }

    /// The same, but never beyond the ends.
    pub fn within(&self, value: f64) -> f64 {
        // below everything that has a logarithm
        if self.by_logarithm && value <= 0.0 {
            return self.from;
        }
        self.at(value).clamp(self.from.min(self.to), self.from.max(self.to))
    }

    /// Whether equal ratios are equally far apart.
    pub fn is_logarithmic(&self) -> bool {
        self.by_logarithm
    }

    /// At most so many ticks.
    pub fn ticks(&self, at_most: usize) -> Ticks {
        if self.by_logarithm {
            ticks::logarithmic(self.low, self.high, at_most)
        } else {
            ticks::even(self.low, self.high, at_most)
        }
    }
}

/// Every height that must lie within the drawing. The bands may not: they come later, and the lines must not move then.
pub fn heights(series: &[Series], limits: &[Limit], marks: &[Mark]) -> impl Iterator<Item = f64> {
    let of_limits = limits.iter().flat_map(|limit| match &limit.at {
        Course::Level(level) => vec![*level],
        Course::Over(values) => values.there().collect(),
    });
    let of_series = series.iter().flat_map(|series| series.ys.there());
    of_series.chain(of_limits).chain(marks.iter().map(|mark| mark.y))
}

/// The lowest and the highest of the values that are there.
pub fn extent(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    values.filter(|value| value.is_finite()).fold(None, |range, value| {
        let (low, high) = range.unwrap_or((value, value));
        Some((value.min(low), value.max(high)))
    })
}

/// A range that has some width.
fn wide((low, high): (f64, f64)) -> (f64, f64) {
    let least = 1e-6 * low.abs().max(high.abs());
    if high - low > least {
        return (low, high);
    }
    let around = if low == 0.0 { 1.0 } else { 0.1 * low.abs() };
    (low - around, high + around)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn up(heights: &[f64]) -> Scale {
        Scale::up(heights.iter().copied(), 5, 100.0, 0.0)
    }

    #[test]
    fn heights_that_are_sizes_begin_at_zero() {
        let scale = up(&[2.0, 8.0]);
        assert_eq!((scale.at(0.0), scale.at(8.0), scale.at(4.0)), (100.0, 0.0, 50.0));
        // degrees between 18 and 20 would lie in the uppermost tenth
        let scale = up(&[18.0, 20.0]);
        assert_eq!((scale.at(18.0), scale.at(20.0)), (100.0, 0.0));
    }

    #[test]
    fn many_decades_are_spread_by_their_logarithm() {
        let scale = up(&[1.0, 10.0, 1000.0]);
        assert!(scale.is_logarithmic());
        assert!((scale.at(10.0) - 200.0 / 3.0).abs() < 1e-9, "a third of the way up");
        assert_eq!(scale.within(-1.0), 100.0);
        assert!(!up(&[0.0, 1000.0]).is_logarithmic(), "zero has no logarithm");
    }

    #[test]
    fn one_value_and_none_have_a_scale_too() {
        for heights in [&[][..], &[0.0], &[5.0, 5.0], &[f64::NAN], &[-3.0]] {
            let scale = up(heights);
            for value in heights.iter().filter(|value| value.is_finite()) {
                assert!((0.0..=100.0).contains(&scale.at(*value)), "{heights:?}");
            }
            assert!(!scale.ticks(5).at.is_empty(), "{heights:?}");
        }
    }

    #[test]
    fn named_places_leave_half_a_place_at_both_ends() {
        let axis = Axis::named("Month", ["A".into(), "B".into()]);
        let scale = Scale::along(&axis, [0.0, 1.0].into_iter(), 0.0, 100.0);
        assert_eq!((scale.at(0.0), scale.at(1.0)), (25.0, 75.0));
    }
}
