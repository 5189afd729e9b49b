//! One number of a case as a function of one dial: what solving backwards and a sweep look at.
//!
//! One copy of the case is turned again and again, so that an evaluation allocates nothing beyond what the sheet does.

use crate::engine::quantity::{Kind, kinds::RATIO};
use crate::engine::sheet::{Case, Check, Criterion, Dial, Field, Shift, Tolerance, Working};
use crate::engine::uncertainty::numbers;
use std::rc::Rc;

/// Which number of a case is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Number {
    /// A number of the outputs, by its place among them.
    Output(usize),
    /// The distance of a check to its limit: the criterion's id and the case.
    Distance(&'static str, &'static str),
    /// The number that a check judges.
    Judged(&'static str, &'static str),
}

impl Number {
    /// By the place among all [`numbers`]: those of the outputs, then the distances of the checks.
    pub fn nth(case: &dyn Case, place: usize) -> Option<Self> {
        let (mut w, mut all) = (Working::judging(), Vec::new());
        numbers(case, &mut w, &mut all);
        let outputs = all.len().checked_sub(w.checks().len())?;
        match place.checked_sub(outputs) {
            None => Some(Self::Output(place)),
            Some(check) => w.checks().get(check).map(Self::distance),
        }
    }

    /// An output that is one number, by its id.
    pub fn of_output(case: &dyn Case, id: &str) -> Option<Self> {
        Self::of_outputs(case).find(|(field, _)| field.id == id).map(|(_, number)| number)
    }

    /// Every output that is one number. They stand before the cells of the tables, so that their places never change.
    pub(crate) fn of_outputs(case: &dyn Case) -> impl Iterator<Item = (&'static Field, Self)> {
        case.declaration().single_numbers().enumerate().map(|(place, field)| (field, Self::Output(place)))
    }

    /// The ids of the criteria that have to do with it; none where it stands in a table.
    pub(crate) fn criteria(&self, case: &dyn Case) -> Option<Rc<[&'static str]>> {
        let id = match *self {
            Self::Distance(criterion, _) | Self::Judged(criterion, _) => return Some([criterion].into()),
            Self::Output(_) => Self::of_outputs(case).find(|(_, number)| number == self)?.0.id,
        };
        let judges =
            |criterion: &&&'static Criterion| criterion.judges.outputs().any(|(_, output)| output == id);
        Some(case.declaration().criteria.iter().filter(judges).map(|criterion| criterion.id).collect())
    }

    /// The distance of that check to its limit.
    pub fn distance(check: &Check) -> Self {
        Self::Distance(check.criterion.id, check.case.id)
    }

    /// The number that the check judges.
    pub fn judged(check: &Check) -> Self {
        Self::Judged(check.criterion.id, check.case.id)
    }

    /// Read from [`numbers`] and their checks; "not a number" where it is missing. With another count of the outputs'
    /// numbers than `outputs` the place of a table's cell means another number.
    pub(crate) fn read(&self, outputs: Option<usize>, checks: &[Check], all: &[f64]) -> f64 {
        let number = match *self {
            Self::Output(place) => {
                let there = all.len().checked_sub(checks.len());
                there
                    .filter(|count| outputs.is_none_or(|asked| asked == *count) && place < *count)
                    .map(|_| all[place])
            }
            Self::Distance(..) => self.check(checks).map(Check::distance),
            Self::Judged(..) => self.check(checks).map(|check| check.value),
        };
        number.filter(|number| number.is_finite()).unwrap_or(f64::NAN)
    }

    /// The check that it belongs to, among these.
    pub fn check<'a>(&self, checks: &'a [Check]) -> Option<&'a Check> {
        match *self {
            Self::Output(_) => None,
            Self::Distance(criterion, case) | Self::Judged(criterion, case) => {
                checks.iter().find(|check| check.criterion.id == criterion && check.case.id == case)
            }
        }
    }
}

/// One number of a case, as one dial is turned.
pub struct Curve {
    base: Box<dyn Case>,
    turned: Box<dyn Case>,
    dial: Dial,
    is_column: bool,
    number: Number,
    /// How many numbers the outputs have, where the place of this one rests on it.
    outputs: Option<usize>,
    w: Working,
    numbers: Vec<f64>,
    evaluations: usize,
}

impl Curve {
    /// Of this case, which itself is left as it is.
    pub fn new(case: &dyn Case, number: Number, dial: Dial) -> Self {
        let mut curve = Self {
            base: case.copy(),
            turned: case.copy(),
            dial,
            is_column: dial.is_column(case),
            number,
            outputs: None,
            w: Working::asking(number.criteria(case)),
            numbers: Vec::new(),
            evaluations: 0,
        };
        curve.evaluate();
        curve
    }

    /// The number where the dial stands at `x`, in SI; "not a number" where it is missing or not finite. For a column
    /// of readings `x` is the shift common to all, as a share where its tolerance is one.
    pub fn at(&mut self, x: f64) -> f64 {
        self.turn(x);
        self.evaluate()
    }

    /// Turns the dial without evaluating.
    pub fn turn(&mut self, x: f64) {
        if self.is_column {
            self.turned.restore(self.dial.field, self.base.as_ref());
            self.dial.turn(self.turned.as_mut(), column_shift(&self.dial, x));
        } else {
            self.dial.set(self.turned.as_mut(), x);
        }
    }

    fn evaluate(&mut self) -> f64 {
        self.evaluations += 1;
        if !numbers(self.turned.as_ref(), &mut self.w, &mut self.numbers) {
            self.w.clear();
            return f64::NAN;
        }
        let checks = self.w.checks();
        if matches!(self.number, Number::Output(place) if place >= self.base.declaration().single_numbers().count())
        {
            self.outputs.get_or_insert(self.numbers.len() - checks.len());
        }
        self.number.read(self.outputs, checks, &self.numbers)
    }

    /// The check of the number, as it was last judged.
    pub fn check(&self) -> Option<&Check> {
        self.number.check(self.w.checks())
    }

    /// The checks that have to do with the number as they were last judged, and perhaps others; none where nothing could be
    /// computed.
    pub fn checks(&self) -> &[Check] {
        self.w.checks()
    }

    /// The case with the dial as it was last turned.
    pub fn case(&self) -> &dyn Case {
        self.turned.as_ref()
    }

    /// The dial that is turned.
    pub fn dial(&self) -> &Dial {
        &self.dial
    }

    /// How many numbers the outputs have, where the place of this one rests on it.
    pub(crate) fn outputs(&self) -> Option<usize> {
        self.outputs
    }

    /// How great the numbers were from which `y` came: a distance of nearly nothing is a difference of two of them.
    pub fn magnitude(&self, y: f64) -> f64 {
        let check = self.check().filter(|_| matches!(self.number, Number::Distance(..)));
        check.map_or(y.abs(), |check| check.value.abs().max(check.limit.abs()))
    }

    /// How often the case was evaluated.
    pub fn evaluations(&self) -> usize {
        self.evaluations
    }

    /// The kind of what stands along the dial.
    pub fn kind(&self) -> Option<&'static Kind> {
        dial_kind(&self.dial, self.is_column)
    }
}

fn column_shift(dial: &Dial, x: f64) -> Shift {
    match dial.of.term.tolerance {
        Tolerance::Relative(_) => Shift::Share(x),
        _ => Shift::By(x),
    }
}

pub(crate) fn dial_kind(dial: &Dial, is_column: bool) -> Option<&'static Kind> {
    match (is_column, dial.of.term.tolerance) {
        (false, _) => dial.of.term.kind,
        (true, Tolerance::Relative(_)) => Some(&RATIO),
        (true, _) => dial.of.term.kind.map(Kind::of_difference),
    }
}

/// Where a dial is usually turned: the plausible range, where that has no end the possible one, and in any case as far
/// as the present number. For a column of readings ten times its tolerance to both sides. `None`: the range is to be given.
pub fn usual_range(case: &dyn Case, dial: &Dial) -> Option<(f64, f64)> {
    let term = dial.of.term;
    if dial.is_column(case) {
        return match term.tolerance {
            Tolerance::None => None,
            Tolerance::Absolute(half) => Some((-10.0 * half, 10.0 * half)),
            Tolerance::Relative(half) => Some((-(10.0 * half).min(0.9), 10.0 * half)),
        };
    }
    let finite = |range: &(f64, f64)| range.0.is_finite() && range.1.is_finite();
    let (low, high) = [term.plausible, term.possible].into_iter().find(finite)?;
    let (low, high) = (low.max(term.possible.0), high.min(term.possible.1));
    Some(dial.value.map_or((low, high), |present| (low.min(present), high.max(present))))
}

/// How points are spread over a range: evenly, or, over more than a decade of positive numbers, by their logarithm.
#[derive(Debug, Clone, Copy)]
pub struct Spacing {
    low: f64,
    high: f64,
    by_logarithm: bool,
}

impl Spacing {
    /// Of the range from `low` to `high`.
    pub fn over((low, high): (f64, f64)) -> Self {
        Self { low, high, by_logarithm: low > 0.0 && high / low > 10.0 }
    }

    /// The point at this share of the way, from 0 to 1; both ends are met exactly.
    pub fn at(&self, share: f64) -> f64 {
        let Self { low, high, by_logarithm } = *self;
        if share <= 0.0 {
            low
        } else if share >= 1.0 {
            high
        } else if by_logarithm {
            low * (high / low).powf(share)
        } else {
            low + (high - low) * share
        }
    }

    /// The share of the way at which a point lies.
    pub fn share(&self, x: f64) -> f64 {
        if self.by_logarithm {
            (x / self.low).ln() / (self.high / self.low).ln()
        } else {
            (x - self.low) / (self.high - self.low)
        }
    }
}
