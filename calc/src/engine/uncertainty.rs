//! The uncertainty of every number that a sheet answers with, and which input it comes from.
//!
//! First order after JCGM 100:2008, with finite differences whose step is the standard uncertainty of the input
//! (5.1.3, note 2). Readings of one instrument are shifted together, since they share its error. Where the two sides of
//! a reading differ, at a kink or an extremum, the root of their mean square counts: the mean alone can be nothing.

use crate::engine::sheet::criterion::ROUNDING;
use crate::engine::sheet::{Case, Check, Dial, Shift, State, Working};
use std::rc::Rc;

/// The uncertainties of all numbers of a case.
#[derive(Debug, Clone, Default)]
pub struct Budget {
    /// The numbers themselves, in SI: those of the outputs, then the distances of the checks.
    pub numbers: Vec<f64>,
    /// What each instrument contributes.
    pub parts: Vec<Part>,
}

/// What one instrument, or one input, contributes.
#[derive(Debug, Clone)]
pub struct Part {
    /// The ids of the inputs that share the error.
    pub fields: Vec<&'static str>,
    /// By how much each number changes with one standard uncertainty.
    pub changes: Vec<f64>,
}

impl Budget {
    /// The standard uncertainty of one number; `None` where the number is missing, or nothing is known of the inputs that
    /// bear on it.
    pub fn standard_uncertainty(&self, number: usize) -> Option<f64> {
        let known = self.numbers.get(number).is_some_and(|value| value.is_finite());
        let sum: f64 = self.parts.iter().filter_map(|part| part.changes.get(number)).map(|c| c * c).sum();
        // what rounding leaves is no uncertainty: no reading bears on the number
        let bears = self.numbers.get(number).is_some_and(|value| sum.sqrt() > ROUNDING * value.abs());
        (known && bears && sum.is_finite()).then(|| sum.sqrt())
    }

    /// The parts of one number's variance, greatest first: where measuring better would help.
    pub fn shares(&self, number: usize) -> Vec<(&[&'static str], f64)> {
        let square = |part: &Part| part.changes.get(number).map_or(0.0, |change| change * change);
        let sum: f64 = self.parts.iter().map(square).sum();
        let mut shares: Vec<_> = self
            .parts
            .iter()
            .map(|part| (part.fields.as_slice(), square(part) / sum))
            .filter(|(_, share)| *share > 0.0)
            .collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }
}

/// The numbers of a case: those of the outputs, then the distances of the checks.
pub fn numbers(case: &dyn Case, w: &mut Working, sink: &mut Vec<f64>) -> bool {
    w.clear();
    sink.clear();
    if case.numbers(w, sink).is_err() {
        return false;
    }
    sink.extend(w.checks().iter().map(Check::distance));
    true
}

/// First-order uncertainty of every number.
///
/// # Example
///
/// A volume known to 5 % and a flow to 3 %, both as half-widths of rectangles, over one another:
/// u = √(5² + 3²) / √3 % = 3.37 % of the contact time.
///
/// ```
/// use calc::{program::catalogue, engine::sheet::Value, engine::uncertainty::first_order};
/// let sheet = catalogue::find("carbon-contact-time").unwrap();
/// let case = sheet.fill(&[Some(Value::Number(0.0283)), None, Some(Value::Number(1e-4)), None]).unwrap();
/// let budget = first_order(case.as_ref());
/// let relative = budget.standard_uncertainty(0).unwrap() / budget.numbers[0];
/// assert!((relative - 0.0337).abs() < 1e-4);
/// ```
pub fn first_order(case: &dyn Case) -> Budget {
    let mut instruments = Instruments::of(case);
    let mut budget = Budget::default();
    if !numbers(case, &mut instruments.w, &mut budget.numbers) {
        return budget;
    }
    let Budget { numbers: middle, parts } = &mut budget;
    instruments.turn_each(case, case.copy().as_mut(), middle, &mut numbers, &mut |group, changes| {
        let fields = group.iter().map(|reading| reading.id).collect();
        parts.push(Part { fields, changes: changes.to_vec() });
    });
    budget
}

/// Turns what is met but within its 95 % interval into marginal. Asks for an uncertainty only where one can matter.
pub fn settle(case: &dyn Case, checks: &mut [Check]) {
    if !checks.iter().any(|check| check.state == State::Met && check.criterion.forecast) {
        return;
    }
    let middle: Vec<f64> = checks.iter().map(Check::distance).collect();
    let mut variances = vec![0.0; checks.len()];
    let asked = checks.iter().map(|check| check.criterion.id).collect();
    let mut instruments = Instruments::of(case).asking(Some(asked));
    if instruments.is_empty() {
        return;
    }
    let mut distances = |case: &dyn Case, w: &mut Working, sink: &mut Vec<f64>| {
        w.clear();
        sink.clear();
        let is_there = case.judge(w).is_ok();
        sink.extend(checks.iter().enumerate().map(|(i, check)| distance_of(check, i, w.checks())));
        is_there
    };
    instruments.turn_each(case, case.copy().as_mut(), &middle, &mut distances, &mut |_, changes| {
        // an entry of 0 for “there is none” is no reading that could be off: where nothing can be computed beside it, the
        // other entries still make the number uncertain
        for (variance, change) in variances.iter_mut().zip(changes).filter(|(_, change)| change.is_finite()) {
            *variance += change * change;
        }
    });
    for (check, variance) in checks.iter_mut().zip(variances) {
        if variance.is_finite() && check.distance().is_finite() {
            check.settle(variance.sqrt());
        }
    }
}

/// The distance of the same check among others, usually at the same place.
fn distance_of(check: &Check, place: usize, others: &[Check]) -> f64 {
    let there = others.get(place).filter(|other| other.is_same(check));
    there.or_else(|| others.iter().find(|other| other.is_same(check))).map_or(f64::NAN, Check::distance)
}

/// What reads numbers off a case; false where nothing could be computed.
pub(crate) type Read<'a> = &'a mut dyn FnMut(&dyn Case, &mut Working, &mut Vec<f64>) -> bool;

/// The instruments with which the inputs of a case are read, and the room for turning them.
pub(crate) struct Instruments {
    /// Those of one instrument stand together.
    readings: Vec<Reading>,
    w: Working,
    above: Vec<f64>,
    below: Vec<f64>,
    changes: Vec<f64>,
}

/// One dial with its standard uncertainty.
pub(crate) struct Reading {
    pub(crate) dial: Dial,
    /// Of the input.
    id: &'static str,
    /// One standard uncertainty.
    pub(crate) step: Shift,
    instrument: usize,
}

impl Instruments {
    /// Those of which a tolerance is known.
    pub(crate) fn of(case: &dyn Case) -> Self {
        let mut readings: Vec<Reading> = Vec::new();
        for dial in Dial::all(case) {
            let Some(step) = dial.standard_uncertainty() else { continue };
            let name = case.instrument(dial.of);
            let shared =
                readings.iter().find(|other| !name.is_empty() && case.instrument(other.dial.of) == name);
            let instrument = shared.map_or(readings.len(), |other| other.instrument);
            let id = case.declaration().inputs[dial.field].id;
            readings.push(Reading { dial, id, step, instrument });
        }
        readings.sort_by_key(|reading| reading.instrument);
        Self { readings, w: Working::judging(), above: Vec::new(), below: Vec::new(), changes: Vec::new() }
    }

    /// The same for numbers that have to do with these criteria alone.
    pub(crate) fn asking(self, asked: Option<Rc<[&'static str]>>) -> Self {
        Self { w: Working::asking(asked), ..self }
    }

    /// Whether no tolerance is known of any input.
    pub(crate) fn is_empty(&self) -> bool {
        self.readings.is_empty()
    }

    /// The readings of each instrument.
    pub(crate) fn groups(&self) -> impl Iterator<Item = &[Reading]> {
        self.readings.chunk_by(|a, b| a.instrument == b.instrument)
    }

    /// Turns each instrument to both sides by its standard uncertainty and back, and tells by how much each number
    /// changes. `turned` is a copy of `base`, and so it is left; `middle` has the numbers of `base`.
    pub(crate) fn turn_each(
        &mut self,
        base: &dyn Case,
        turned: &mut dyn Case,
        middle: &[f64],
        read: Read,
        told: &mut dyn FnMut(&[Reading], &[f64]),
    ) {
        let Self { readings, w, above, below, changes } = self;
        let singles = base.declaration().single_numbers().count();
        for group in readings.chunk_by(|a, b| a.instrument == b.instrument) {
            let up = turn(base, turned, group, |step| step, (&mut *read, w, above));
            let down = turn(base, turned, group, Shift::back, (&mut *read, w, below));
            // with more or fewer cells only the outputs that are one number stand where they stood
            let side = |is_there: bool, numbers: &[f64], i: usize| {
                let stands = is_there && (numbers.len() == middle.len() || i < singles);
                numbers.get(i).copied().filter(|_| stands).unwrap_or(f64::NAN)
            };
            changes.clear();
            changes.extend(
                middle
                    .iter()
                    .enumerate()
                    .map(|(i, middle)| change(side(up, above, i) - middle, middle - side(down, below, i))),
            );
            told(group, changes);
        }
    }
}

/// The change with one standard uncertainty, from the changes on both sides; at the edge of the possible one side
/// alone tells.
fn change(rise: f64, fall: f64) -> f64 {
    match (rise.is_finite(), fall.is_finite()) {
        (true, true) => ((rise * rise + fall * fall) / 2.0).sqrt().copysign(rise + fall),
        (true, false) => rise,
        (false, true) => fall,
        (false, false) => f64::NAN,
    }
}

/// Reads the numbers with the dials of one instrument turned in one direction, then puts them back exactly. False
/// where a reading would not be possible, or nothing can be computed.
fn turn(
    base: &dyn Case,
    turned: &mut dyn Case,
    group: &[Reading],
    direction: fn(Shift) -> Shift,
    (read, w, sink): (Read, &mut Working, &mut Vec<f64>),
) -> bool {
    let is_possible = |reading: &Reading| {
        let (low, high) = reading.dial.of.term.possible;
        let turned = base.number(reading.dial.field).map(|number| direction(reading.step).of(number));
        turned.is_none_or(|turned| (low..=high).contains(&turned))
    };
    if !group.iter().all(is_possible) {
        return false;
    }
    for reading in group {
        reading.dial.turn(turned, direction(reading.step));
    }
    let is_there = read(turned, w, sink);
    for reading in group {
        turned.restore(reading.dial.field, base);
    }
    is_there
}

#[cfg(test)]
mod tests;
