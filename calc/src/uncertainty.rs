//! The uncertainty of every number that a sheet answers with, and which input it comes from.
//!
//! First order after JCGM 100:2008, with finite differences whose step is the standard uncertainty of the input
//! (5.1.3, note 2). Readings of one instrument are shifted together, since they share its error.

use crate::sheet::{Case, Check, Dial, Shift, State, Working};

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
    /// The standard uncertainty of one number; `None` where the number is missing or nothing is known of its inputs.
    pub fn standard_uncertainty(&self, number: usize) -> Option<f64> {
        let known = self.numbers.get(number).is_some_and(|value| value.is_finite());
        let sum: f64 = self.parts.iter().filter_map(|part| part.changes.get(number)).map(|c| c * c).sum();
        (known && !self.parts.is_empty() && sum.is_finite()).then(|| sum.sqrt())
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
/// use calc::{catalogue, sheet::Value, uncertainty::first_order};
/// let sheet = catalogue::find("carbon-contact-time").unwrap();
/// let case = sheet.fill(&[Some(Value::Number(0.0283)), None, Some(Value::Number(1e-4)), None]).unwrap();
/// let budget = first_order(case.as_ref());
/// let relative = budget.standard_uncertainty(0).unwrap() / budget.numbers[0];
/// assert!((relative - 0.0337).abs() < 1e-4);
/// ```
pub fn first_order(case: &dyn Case) -> Budget {
    let mut w = Working::silent();
    let mut budget = Budget::default();
    if !numbers(case, &mut w, &mut budget.numbers) {
        return budget;
    }
    let (mut above, mut below) = (Vec::new(), Vec::new());
    for group in instruments(case) {
        let up = shifted(case, &group, |shift| shift, &mut w, &mut above);
        let down = shifted(case, &group, Shift::back, &mut w, &mut below);
        let up = up && above.len() == budget.numbers.len();
        let down = down && below.len() == budget.numbers.len();
        let changes = budget.numbers.iter().enumerate().map(|(i, middle)| match (up, down) {
            // at the edge of the possible one side alone tells
            (true, true) if above[i].is_finite() && below[i].is_finite() => (above[i] - below[i]) / 2.0,
            (true, _) if above[i].is_finite() => above[i] - middle,
            (_, true) if below[i].is_finite() => middle - below[i],
            _ => f64::NAN,
        });
        let changes = changes.collect();
        budget
            .parts
            .push(Part { fields: group.iter().map(|(dial, _)| field_id(case, dial)).collect(), changes });
    }
    budget
}

/// Turns what is met but within its 95 % interval into close. Asks for an uncertainty only where one can matter.
pub fn settle(case: &dyn Case, checks: &mut [Check]) {
    if !checks.iter().any(|check| check.state == State::Met && check.criterion.forecast) {
        return;
    }
    let budget = first_order(case);
    let Some(first) = budget.numbers.len().checked_sub(checks.len()) else { return };
    for (index, check) in checks.iter_mut().enumerate() {
        if let Some(uncertainty) = budget.standard_uncertainty(first + index) {
            check.settle(uncertainty);
        }
    }
}

fn field_id(case: &dyn Case, dial: &Dial) -> &'static str {
    case.declaration().inputs.get(dial.field).map_or("", |field| field.id)
}

/// The dials with their standard uncertainties, those of one instrument together.
fn instruments(case: &dyn Case) -> Vec<Vec<(Dial, Shift)>> {
    let mut groups: Vec<Vec<(Dial, Shift)>> = Vec::new();
    for dial in Dial::all(case) {
        let Some(shift) = dial.standard_uncertainty() else { continue };
        let instrument = dial.of.term.instrument;
        let group = groups.iter_mut().find(|group| {
            !instrument.is_empty()
                && group.first().is_some_and(|(other, _)| other.of.term.instrument == instrument)
        });
        match group {
            Some(group) => group.push((dial, shift)),
            None => groups.push(vec![(dial, shift)]),
        }
    }
    groups
}

fn shifted(
    case: &dyn Case,
    group: &[(Dial, Shift)],
    direction: impl Fn(Shift) -> Shift,
    w: &mut Working,
    sink: &mut Vec<f64>,
) -> bool {
    if group.iter().any(|(dial, shift)| !dial.allows(direction(*shift))) {
        return false;
    }
    let mut turned = case.copy();
    for (dial, shift) in group {
        dial.turn(turned.as_mut(), direction(*shift));
    }
    numbers(turned.as_ref(), w, sink)
}
