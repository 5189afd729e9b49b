//! A sweep: any number of a case over any dial, point by point, with its limit and its 95 % band.
//!
//! It is computed in slices, so that a page can stop between two of them. The curve is asked for first, the band, which
//! takes two evaluations for each instrument and point, after it.

use crate::engine::curve::{Curve, Number, Spacing};
use crate::engine::sheet::criterion::COVERAGE;
use crate::engine::sheet::{Case, Criterion, Dial, Working};
use crate::engine::uncertainty::{Instruments, numbers};

/// A number of a case over a dial.
pub struct Sweep {
    /// Where the dial stands, in SI; over more than a decade of positive numbers spread by their logarithm.
    pub xs: Vec<f64>,
    /// The number there, in SI; "not a number" where it is missing. As many as were computed.
    pub ys: Vec<f64>,
    /// The limit against which the number is judged there; "not a number" where there is none. As many as `ys`.
    pub limits: Vec<f64>,
    /// Half the width of the 95 % interval of `ys`; "not a number" where it is not known. As many as were computed.
    pub half_widths: Vec<f64>,
    curve: Curve,
    number: Number,
    /// Where the limit is read.
    judged: Option<Number>,
    band: Option<Band>,
}

/// What the band needs beside the curve.
struct Band {
    instruments: Instruments,
    shaken: Box<dyn Case>,
    numbers: Vec<f64>,
}

impl Sweep {
    /// Of so many points over a range; nothing is computed yet. For the number of a check itself, and not its distance,
    /// ask for [`Number::judged`].
    pub fn new(case: &dyn Case, number: Number, dial: Dial, (low, high): (f64, f64), points: usize) -> Self {
        let spacing = Spacing::over((low, high));
        let steps = points.saturating_sub(1).max(1);
        let xs: Vec<f64> = (0..points).map(|i| spacing.at(i as f64 / steps as f64)).collect();
        let curve = Curve::new(case, number, dial);
        let judged = match number {
            Number::Output(_) => judging(case, number),
            check => Some(check),
        };
        Self {
            ys: Vec::with_capacity(xs.len()),
            limits: Vec::with_capacity(xs.len()),
            half_widths: Vec::with_capacity(xs.len()),
            xs,
            curve,
            number,
            judged,
            band: None,
        }
    }

    /// Computes at most so many further points of the curve; true when it is complete.
    pub fn step(&mut self, budget: usize) -> bool {
        for _ in 0..budget {
            let Some(x) = self.xs.get(self.ys.len()) else { break };
            self.ys.push(self.curve.at(*x));
            let check = self.judged.and_then(|judged| judged.check(self.curve.checks()));
            self.limits.push(match self.number {
                Number::Distance(..) => check.map_or(f64::NAN, |_| 0.0),
                _ => check.map_or(f64::NAN, |check| check.limit),
            });
        }
        self.ys.len() == self.xs.len()
    }

    /// Computes at most so many further points of the band; true when it is complete. Begins where the curve is.
    pub fn step_band(&mut self, budget: usize) -> bool {
        for _ in 0..budget {
            let place = self.half_widths.len();
            let (Some(x), Some(y)) = (self.xs.get(place).copied(), self.ys.get(place).copied()) else {
                break;
            };
            let half_width = if y.is_finite() { self.half_width(x, y) } else { f64::NAN };
            self.half_widths.push(half_width);
        }
        self.half_widths.len() == self.xs.len()
    }

    /// What the number is judged against; `None` where nothing judges it.
    pub fn criterion(&self) -> Option<&'static Criterion> {
        self.judged?.check(self.curve.checks()).map(|check| check.criterion)
    }

    /// The limit, where it is one and the same over the whole curve.
    pub fn limit(&self) -> Option<f64> {
        let mut limits = self.limits.iter().copied().filter(|limit| limit.is_finite());
        let first = limits.next()?;
        limits.all(|limit| limit == first).then_some(first)
    }

    fn half_width(&mut self, x: f64, y: f64) -> f64 {
        let Self { curve, number, band, .. } = self;
        curve.turn(x);
        let Band { instruments, shaken, numbers: all } = band.get_or_insert_with(|| Band {
            instruments: Instruments::of(curve.case()).asking(number.criteria(curve.case())),
            shaken: curve.case().copy(),
            numbers: Vec::new(),
        });
        if instruments.is_empty() {
            return f64::NAN;
        }
        shaken.restore(curve.dial().field, curve.case());
        let mut variance = 0.0;
        let mut read = |case: &dyn Case, w: &mut Working, sink: &mut Vec<f64>| {
            let is_there = numbers(case, w, all);
            sink.clear();
            sink.push(number.read(curve.outputs(), w.checks(), all));
            is_there
        };
        instruments.turn_each(curve.case(), shaken.as_mut(), &[y], &mut read, &mut |_, changes| {
            variance += changes.iter().map(|change| change * change).sum::<f64>();
        });
        COVERAGE * variance.sqrt()
    }
}

/// The check that judges an output, as its criterion declares it.
fn judging(case: &dyn Case, output: Number) -> Option<Number> {
    let (field, _) = Number::of_outputs(case).find(|(_, number)| *number == output)?;
    let criteria = case.declaration().criteria.iter();
    let mut judged = criteria
        .flat_map(|criterion| criterion.judges.outputs().map(|(of_case, id)| (criterion.id, of_case, id)));
    let (criterion, of_case, _) = judged.find(|(.., id)| *id == field.id)?;
    Some(Number::Judged(criterion, of_case))
}

#[cfg(test)]
mod tests;
