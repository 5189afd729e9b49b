//! What would mend a check: the value of one input, nearest to the present one, with which the check is just met, and
//! the other checks that this would worsen.
//!
//! A check whose limit lies inside its 95 % interval is mended where it lies outside again. Found by walking the grid
//! outwards from the present value and halving where the check changes: that holds over jumps and missing stretches.

use super::bracket::{Ended, Point, narrow};
use crate::engine::curve::{Curve, Number, Spacing, usual_range};
use crate::engine::sheet::criterion::COVERAGE;
use crate::engine::sheet::{Case, Check, Dial, Known, Missing, State, Working};
use crate::engine::uncertainty;
use std::collections::VecDeque;

/// Cells of the grid over the range of a lever.
const CELLS: u32 = 128;
/// Halvings after which the value is known to the last place.
const HALVINGS: u32 = 64;

/// A change of one input that mends a check.
#[derive(Debug, Clone)]
pub struct Mend {
    /// The id of the input.
    pub field: &'static str,
    /// With which the check is just met, in SI; of whole things the next whole number. Rounded to the wrong side it is
    /// not met.
    pub value: f64,
    /// What is there now, in SI; `None` where it was left out.
    pub now: Option<f64>,
    /// The checks that would be worse than now.
    pub worsens: Vec<Check>,
}

/// One lever of one check, tried.
#[derive(Debug, Clone)]
pub struct Mended {
    /// The id of the check.
    pub check: String,
    /// The id of the input.
    pub lever: &'static str,
    /// What it would take.
    pub mend: Known<Mend>,
}

/// The levers of all checks of a case that are not met or marginal, one after the other.
pub struct Mends {
    case: Box<dyn Case>,
    /// As they are now, settled.
    checks: Vec<Check>,
    to_do: VecDeque<(Check, &'static str)>,
}

impl Mends {
    /// Of a case. An id of a lever that is no number input of this case is passed over.
    pub fn of(case: &dyn Case) -> Self {
        let checks = judged(case);
        let wanting = |check: &&Check| matches!(check.state, State::NotMet | State::Marginal);
        let to_do = checks
            .iter()
            .filter(wanting)
            .flat_map(|check| check.criterion.levers.iter().map(|lever| (check.clone(), *lever)))
            .filter(|(_, lever)| Dial::of(case, lever).is_some())
            .collect();
        Self { case: case.copy(), checks, to_do }
    }
}

impl Iterator for Mends {
    type Item = Mended;
    /// Tries one lever: a few hundred evaluations of the case.
    fn next(&mut self) -> Option<Mended> {
        let (check, lever) = self.to_do.pop_front()?;
        let mend = mend_among(self.case.as_ref(), &self.checks, &check, lever);
        Some(Mended { check: check.id(), lever, mend })
    }
}

/// What it would take of one lever to mend one check of the case.
pub fn mend(case: &dyn Case, check: &Check, lever: &str) -> Known<Mend> {
    mend_among(case, &judged(case), check, lever)
}

/// The checks of a case as they are now.
fn judged(case: &dyn Case) -> Vec<Check> {
    let mut w = Working::judging();
    if case.judge(&mut w).is_err() {
        return Vec::new();
    }
    uncertainty::settle(case, w.checks_mut());
    w.checks().to_vec()
}

fn mend_among(case: &dyn Case, now: &[Check], check: &Check, lever: &str) -> Known<Mend> {
    let dial =
        Dial::of(case, lever).ok_or(Missing::not_known("", "this is no number that can be changed"))?;
    let range = usual_range(case, &dial).ok_or(Missing::not_known("", "this number has no usual range"))?;
    let marginal =
        now.iter().find(|other| other.is_same(check)).filter(|other| other.state == State::Marginal);
    let mut seeker = Seeker {
        curve: Curve::new(case, Number::distance(check), dial),
        marginal: marginal.map(|check| (check.distance(), interval_of(check))),
        space: Spacing::over(range),
    };
    let none = Missing::none_exists("no value in the usual range of this number is enough");
    let mut value = seeker.nearest(dial.value).ok_or(none)?;
    if dial.of.term.whole {
        value = seeker.whole(value, dial.value).ok_or(none)?;
    }
    // the search asked about this check alone
    seeker.curve.turn(value);
    let mut all = Working::judging();
    let then = seeker.curve.case().judge(&mut all).map_or(&[][..], |()| all.checks());
    let others = then.iter().filter(|other| !other.is_same(check));
    let worsens = others.filter(|then| is_worse(now, then)).cloned().collect();
    let field = case.declaration().inputs[dial.field].id;
    Ok(Mend { field, value, now: dial.value, worsens })
}

/// Whether a check is worse than it is now: not met where it was met or not judged, further away, or no longer known.
/// What was not known and is judged now was no better before: nobody knew.
fn is_worse(now: &[Check], then: &Check) -> bool {
    let before = now.iter().find(|before| before.is_same(then));
    match (before.map(|before| before.state), then.state) {
        (Some(State::NotMet), State::NotMet) => before.is_some_and(|before| {
            let further = before.distance() - then.distance();
            further > 1e-9 * then.value.abs().max(then.limit.abs())
        }),
        (Some(State::NotKnown), _) => false,
        (_, State::NotMet) => true,
        (Some(State::Met | State::Marginal | State::NotMet), State::NotKnown) => true,
        _ => false,
    }
}

/// Half the width of the 95 % interval.
fn interval_of(check: &Check) -> f64 {
    check.uncertainty.map_or(0.0, |uncertainty| COVERAGE * uncertainty)
}

struct Seeker {
    curve: Curve,
    /// Of a check that is marginal, its present distance and interval: it is to be met outside of the interval.
    marginal: Option<(f64, f64)>,
    space: Spacing,
}

impl Seeker {
    /// The distance of the check, less its interval where it is marginal, and whether that is enough. The interval costs
    /// dozens of evaluations: it is asked for only where the distance is more than now and than half the present interval.
    fn spare(&mut self, x: f64) -> (f64, bool) {
        let distance = self.curve.at(x);
        let Some(check) = self.curve.check() else { return (f64::NAN, false) };
        let Some((present, interval)) = self.marginal else {
            return (distance, check.state == State::Met && distance >= 0.0);
        };
        if distance <= present.max(interval / 2.0) {
            return (distance - interval, false);
        }
        let mut check = [check.clone()];
        uncertainty::settle(self.curve.case(), &mut check);
        (distance - interval_of(&check[0]), check[0].state == State::Met)
    }

    fn is_mended(&mut self, x: f64) -> bool {
        self.spare(x).1
    }

    /// The value nearest to the present one, from the lowest on where there is none.
    fn nearest(&mut self, present: Option<f64>) -> Option<f64> {
        let grid: Vec<f64> = (0..=CELLS).map(|i| self.space.at(f64::from(i) / f64::from(CELLS))).collect();
        let Some(present) = present else { return self.first(None, grid.iter().copied()) };
        if self.is_mended(present) {
            return Some(present);
        }
        let above = self.first(Some(present), grid.iter().copied().filter(|x| *x > present));
        let below = self.first(Some(present), grid.iter().rev().copied().filter(|x| *x < present));
        match (below, above) {
            (Some(below), Some(above)) => Some(if present - below < above - present { below } else { above }),
            (below, above) => below.or(above),
        }
    }

    /// The whole number at this value, or the next one further from the present, with which it is mended.
    fn whole(&mut self, value: f64, present: Option<f64>) -> Option<f64> {
        let falls = present.is_some_and(|present| value < present);
        let further = if falls { value.floor() } else { value.ceil() };
        [value.round(), further].into_iter().find(|whole| self.is_mended(*whole))
    }

    /// The first value that mends on the way over these.
    fn first(&mut self, start: Option<f64>, way: impl Iterator<Item = f64>) -> Option<f64> {
        let mut last = start;
        for x in way {
            if self.is_mended(x) {
                return Some(last.map_or(x, |last| self.edge(last, x)));
            }
            last = Some(x);
        }
        None
    }

    /// Between a value that does not mend and one that does, the first that does.
    fn edge(&mut self, outside: f64, inside: f64) -> f64 {
        let (mut outside, mut inside) = (outside, inside);
        // an interval is an estimate: its end needs no last place
        let precision = if self.marginal.is_some() { 1e-9 } else { f64::EPSILON };
        let least = precision * outside.abs().max(inside.abs()) + 1e-18 * (inside - outside).abs();
        let (low, high) = (outside.min(inside), outside.max(inside));
        let [from, to] = [low, high].map(|x| Point { x, above: self.spare(x).0 });
        if from.above * to.above < 0.0 {
            let narrowed = narrow(from, to, least, &mut |x| Point { x, above: self.spare(x).0 });
            let (Ended::Equal(left, _, right) | Ended::Missing(left, _, right) | Ended::Across(left, right)) =
                narrowed;
            (outside, inside) = if outside < inside { (left.x, right.x) } else { (right.x, left.x) };
        }
        // what interpolation cannot tell: a strict limit, a stretch on the limit, a missing stretch
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(inside, outside);
            if (inside - outside).abs() <= least || middle == inside || middle == outside {
                break;
            }
            if self.is_mended(middle) {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        inside
    }
}

#[cfg(test)]
mod tests;
