//! Solving backwards: which values of one input give an output the wished number, every one in a range.
//!
//! A grid over the range, then a bracketing method of bounded cost between neighbours.
//! Not found are features that hide between two points of the grid: a pair of jumps, a missing stretch, a pair of roots
//! of which the neighbours give no sign.

pub(crate) mod bracket;
mod mend;
mod search;

#[cfg(test)]
pub(crate) mod tests;

pub use mend::{Mend, Mended, Mends, mend};

use crate::engine::curve::{Curve, Number, Spacing};
use crate::engine::sheet::{Case, Dial, Sentence, Slot};
use search::Search;

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    /// The values that give the target, lowest first.
    pub roots: Vec<f64>,
    /// Stretches in which every value gives it, lowest first.
    pub plateaus: Vec<(f64, f64)>,
    /// Where the output jumps over the target without taking it.
    pub jumps: Vec<f64>,
    /// The range that was looked through.
    pub tried: (f64, f64),
    /// How often the sheet was evaluated.
    pub evaluations: usize,
}

impl Solution {
    /// Whether any value gives the target.
    pub fn exists(&self) -> bool {
        !self.roots.is_empty() || !self.plateaus.is_empty()
    }

    /// That there is none, in words, where there is none.
    pub fn none(&self, case: &dyn Case, dial: &Dial) -> Option<Sentence> {
        if self.exists() {
            return None;
        }
        let number = |x| match crate::engine::curve::dial_kind(dial, dial.is_column(case)) {
            Some(kind) => Slot::Number(x, kind),
            None => Slot::Word(""),
        };
        let sentence = match self.jumps.first() {
            Some(jump) => Sentence::plain(
                "no {name} from {low} to {high} gives this number: at {jump} the answer jumps over it",
            )
            .with("jump", number(*jump)),
            None => Sentence::plain("no {name} from {low} to {high} gives this number"),
        };
        let (low, high) = self.tried;
        let name = Slot::Word(dial.of.term.name);
        Some(sentence.with("name", name).with("low", number(low)).with("high", number(high)))
    }
}

/// Every value of a dial, in a range, with which a number of the case is the target. All in SI.
///
/// [`usual_range`](crate::engine::curve::usual_range) says which range is looked through where nobody gives one; what is not
/// possible is never looked at.
///
/// # Example
///
/// 10 minutes at 2.83 L/min need 28.3 L:
///
/// ```
/// use calc::{program::catalogue, engine::curve::{Number, usual_range}, engine::sheet::{Dial, Value}, engine::solve::solve};
/// let sheet = catalogue::find("carbon-contact-time").unwrap();
/// let flow = Some(Value::Number(2.83e-3 / 60.0));
/// let case = sheet.fill(&[Some(Value::Number(0.02)), None, flow, None]).unwrap();
/// let volume = Dial::of(case.as_ref(), "bed-volume").unwrap();
/// let time = Number::of_output(case.as_ref(), "contact-time").unwrap();
/// let range = usual_range(case.as_ref(), &volume).unwrap();
/// let solution = solve(case.as_ref(), time, 600.0, volume, range);
/// assert_eq!(solution.roots.len(), 1);
/// assert!((solution.roots[0] - 0.0283).abs() < 1e-15);
/// ```
pub fn solve(case: &dyn Case, number: Number, target: f64, dial: Dial, range: (f64, f64)) -> Solution {
    let (low, high) = if dial.is_column(case) { range } else { possible(&dial, range) };
    let nothing = Solution {
        roots: Vec::new(),
        plateaus: Vec::new(),
        jumps: Vec::new(),
        tried: (low, high),
        evaluations: 0,
    };
    if !low.is_finite() || !high.is_finite() || !target.is_finite() || low > high {
        return nothing;
    }
    let curve = Curve::new(case, number, dial);
    Search::new(curve, target, Spacing::over((low, high)), nothing).run(dial.value)
}

fn possible(dial: &Dial, (low, high): (f64, f64)) -> (f64, f64) {
    let (least, most) = dial.of.term.possible;
    (low.max(least), high.min(most))
}
