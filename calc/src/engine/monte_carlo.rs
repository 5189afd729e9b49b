//! Propagation of distributions by Monte Carlo, through the dials of any sheet: the check of the first-order uncertainty.
//!
//! After JCGM 101:2008, every tolerance being the half-width of a rectangle (6.4.2). Readings of one instrument share one
//! draw. A draw that would not be possible is drawn again, so that the rectangle ends where the possible ends. The
//! generator is PCG of the crate `oorandom`; a seed gives the same numbers for ever.
//!
//! It is a state that goes on in slices, so that a page can stop between two of them, and a trial allocates nothing
//! beyond what the sheet itself does.

use crate::engine::sheet::criterion::COVERAGE;
use crate::engine::sheet::{Case, Shift, Working};
use crate::engine::uncertainty::{Budget, Instruments, numbers};
use oorandom::Rand64;

/// Trials of a case, as many as were done.
pub struct MonteCarlo {
    base: Box<dyn Case>,
    turned: Box<dyn Case>,
    instruments: Instruments,
    generator: Rand64,
    w: Working,
    sink: Vec<f64>,
    /// One row of numbers for each trial.
    drawn: Vec<f64>,
    /// How many numbers a trial has.
    width: usize,
    done: usize,
    wanted: usize,
}

/// How one number spreads over the trials; in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// The mean of the trials.
    pub mean: f64,
    /// Their standard deviation: the standard uncertainty.
    pub standard_deviation: f64,
    /// The 2.5 % and the 97.5 % quantile: the interval of 95 %.
    pub interval: (f64, f64),
    /// In how many trials the number was missing; they are not counted above.
    pub missing: usize,
}

/// How often an impossible draw is drawn again before the reading stays as it is.
const DRAWS: usize = 100;
/// Of the half-width of the interval: a first-order interval whose ends differ by more says something else.
const AGREED: f64 = 0.1;

impl MonteCarlo {
    /// Of so many trials; nothing is computed yet.
    pub fn new(case: &dyn Case, trials: usize, seed: u64) -> Self {
        let (mut w, mut sink) = (Working::judging(), Vec::new());
        let width = if numbers(case, &mut w, &mut sink) { sink.len() } else { 0 };
        Self {
            base: case.copy(),
            turned: case.copy(),
            instruments: Instruments::of(case),
            generator: Rand64::new(u128::from(seed)),
            w,
            sink,
            drawn: Vec::with_capacity(trials * width),
            width,
            done: 0,
            wanted: trials,
        }
    }

    /// Whether a tolerance is known of any input; without one every trial is the same.
    pub fn is_of_use(&self) -> bool {
        !self.instruments.is_empty()
    }

    /// Does at most so many further trials; true when all are done.
    pub fn step(&mut self, trials: usize) -> bool {
        for _ in 0..trials.min(self.wanted - self.done) {
            self.trial();
        }
        self.done == self.wanted
    }

    /// How many trials were done, of how many.
    pub fn progress(&self) -> (usize, usize) {
        (self.done, self.wanted)
    }

    fn trial(&mut self) {
        let Self { base, turned, instruments, generator, w, sink, drawn, width, done, .. } = self;
        for group in instruments.groups() {
            for _ in 0..DRAWS {
                // a tolerance is √3 standard uncertainties to both sides
                let share = 3f64.sqrt() * (2.0 * generator.rand_float() - 1.0);
                let shift = |step: Shift| match step {
                    Shift::By(step) => Shift::By(step * share),
                    Shift::Share(step) => Shift::Share(step * share),
                    Shift::To(number) => Shift::To(number),
                };
                if group.iter().all(|reading| reading.dial.allows(shift(reading.step))) {
                    for reading in group {
                        reading.dial.turn(turned.as_mut(), shift(reading.step));
                    }
                    break;
                }
            }
        }
        let is_there = numbers(turned.as_ref(), w, sink) && sink.len() == *width;
        // with another count of numbers a place means another number: this trial tells nothing of any
        drawn.extend((0..*width).map(|place| if is_there { sink[place] } else { f64::NAN }));
        for reading in instruments.groups().flatten() {
            turned.restore(reading.dial.field, base.as_ref());
        }
        *done += 1;
    }

    /// How each number spreads: those of the outputs, then the distances of the checks, as in [`Budget::numbers`].
    /// `None` where no more than one trial has it.
    pub fn spreads(&self) -> Vec<Option<Spread>> {
        let mut values = Vec::with_capacity(self.done);
        (0..self.width).map(|place| self.spread(place, &mut values)).collect()
    }

    fn spread(&self, place: usize, values: &mut Vec<f64>) -> Option<Spread> {
        values.clear();
        let all = self.drawn.iter().skip(place).step_by(self.width);
        values.extend(all.copied().filter(|value| value.is_finite()));
        let count = values.len();
        (count > 1).then_some(())?;
        values.sort_unstable_by(f64::total_cmp);
        let mean = values.iter().sum::<f64>() / count as f64;
        let square = values.iter().map(|value| (value - mean) * (value - mean)).sum::<f64>();
        // JCGM 101, 7.7: q of the M ordered values lie between the r-th and the (r + q)-th
        let inside = ((0.95 * count as f64 + 0.5) as usize).min(count - 1);
        let low = ((count - inside) / 2).max(1);
        Some(Spread {
            mean,
            standard_deviation: (square / (count - 1) as f64).sqrt(),
            interval: (values[low - 1], values[(low + inside - 1).min(count - 1)]),
            missing: self.done - count,
        })
    }
}

impl Spread {
    /// Whether the first-order interval of 95 % has other ends, by more than a tenth of its half-width (after JCGM 101,
    /// 8.1). Where first order has no uncertainty, only a spread of none agrees.
    ///
    /// # Example
    ///
    /// A rectangle alone has 95 % of itself within ± 0.95 a, where first order says ± 2 a / √3 = 1.155 a: 18 % apart.
    ///
    /// ```
    /// use calc::{program::catalogue, engine::monte_carlo::MonteCarlo, engine::sheet::Value, engine::uncertainty::first_order};
    /// let sheet = catalogue::find("heat-dose").unwrap();
    /// let mut inputs = vec![None; sheet.declaration.inputs.len()];
    /// (inputs[1], inputs[2]) = (Some(Value::Number(353.15)), Some(Value::Number(600.0)));
    /// let case = sheet.fill(&inputs).unwrap();
    /// let mut trials = MonteCarlo::new(case.as_ref(), 2_000, 1);
    /// while !trials.step(500) {}
    /// let dose = trials.spreads()[0].unwrap();
    /// assert!(dose.disagrees(&first_order(case.as_ref()), 0));
    /// ```
    pub fn disagrees(&self, budget: &Budget, place: usize) -> bool {
        let Some((uncertainty, middle)) =
            budget.standard_uncertainty(place).zip(budget.numbers.get(place).copied())
        else {
            return false;
        };
        let half = COVERAGE * uncertainty;
        let (low, high) = self.interval;
        let apart = (middle - half - low).abs().max((middle + half - high).abs());
        apart > AGREED * half + 1e-9 * middle.abs()
    }
}

#[cfg(test)]
mod tests;
