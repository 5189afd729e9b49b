//! Decided anyway: where one empty field alone keeps a check from being judged, and every value that it could have gives
//! the same state, that state is known.
//!
//! What is tried: of a choice each value; of a number seventeen values over its range with both ends, spread evenly or,
//! over more than a decade, by their logarithm. A state that turns between two of them and back is not seen. `Not met` is
//! said when it holds over the plausible range. `Met` and `marginal` ask for more: the range is all that is possible, the
//! criterion judges a forecast and the field is no reading of an instrument, since what nobody measured is never taken
//! as passed, and the limit does not depend on the field, since then it is the rule that is missing. A check on which a
//! number has no bearing at all waits for it: its sheet did not come so far.

use crate::engine::curve::Spacing;
use crate::engine::sheet::{Check, Entry, Field, Shape, State, Stop, Tolerance, Value, Working};
use crate::engine::uncertainty;

/// How many values of a number are tried.
const TRIES: usize = 17;

/// Gives every check that is not known because one field is empty the state that it has whatever the field was.
/// The values are those with which the sheet was judged, what cannot be so already refused.
pub(super) fn decide(entry: &Entry, values: &[Option<Value>], checks: &mut [Check]) {
    for (index, field) in entry.declaration.inputs.iter().enumerate() {
        let is_empty = values.get(index).is_some_and(Option::is_none);
        let waits = |check: &&mut Check| {
            let missing = check.missing.filter(|_| check.state == State::NotKnown);
            missing.is_some_and(|missing| !missing.is_none() && missing.field == field.id)
        };
        let waiting: Vec<&mut Check> = checks.iter_mut().filter(waits).collect();
        if !is_empty || waiting.is_empty() {
            continue;
        }
        let mut tried = Tried { entry, values: values.to_vec(), index, field, w: Working::judging() };
        let mut open: Vec<(&mut Check, Option<Told>)> =
            waiting.into_iter().map(|check| (check, None)).collect();
        tried.over(field.term.plausible, &mut open, false);
        let is_reading = field.term.tolerance != Tolerance::None;
        // what is not met is so whatever else is possible; what is met has to be so over all that is
        let mut met = Vec::new();
        for (check, told) in open {
            match told.filter(|told| told.follows).map(|told| told.state) {
                Some(State::NotMet) => decided(check, State::NotMet, field),
                Some(State::Met | State::Marginal) if check.criterion.forecast && !is_reading => {
                    met.push((check, None));
                }
                _ => {}
            }
        }
        tried.over(field.term.possible, &mut met, true);
        for (check, told) in met {
            if let Some(Told { state, .. }) = told {
                decided(check, state, field);
            }
        }
    }
}

fn decided(check: &mut Check, state: State, field: &'static Field) {
    check.state = state;
    check.decided = Some(field);
}

/// What every value so far gave.
#[derive(Clone, Copy)]
struct Told {
    state: State,
    value: f64,
    limit: f64,
    /// Whether number or limit follow the field, or it is a choice.
    follows: bool,
}

/// A sheet of which one field is tried.
struct Tried<'a> {
    entry: &'a Entry,
    values: Vec<Option<Value>>,
    index: usize,
    field: &'static Field,
    w: Working,
}

impl Tried<'_> {
    /// Judges with each value, and keeps the checks that have one and the same state with all of them. `in_full` finds the
    /// intervals too and asks for one and the same limit.
    fn over(&mut self, range: (f64, f64), open: &mut Vec<(&mut Check, Option<Told>)>, in_full: bool) {
        let tries = tries(self.field, range);
        let mut judged = 0;
        for tried in &tries {
            if open.is_empty() {
                return;
            }
            self.values[self.index] = Some(tried.clone());
            let Ok(case) = self.entry.fill(&self.values) else { return open.clear() };
            self.w.clear();
            match case.judge(&mut self.w) {
                Ok(()) => {}
                // with this value the entries contradict one another: it is none that the field could have
                Err(Stop::Problems(_)) => continue,
                Err(Stop::Missing(_)) => return open.clear(),
            }
            judged += 1;
            if in_full {
                uncertainty::settle(case.as_ref(), self.w.checks_mut());
            }
            let checks = self.w.checks();
            open.retain_mut(|(check, told)| {
                let Some(found) = checks.iter().find(|other| other.is_same(check)) else { return false };
                let follows = matches!(self.field.shape, Shape::Choice(_));
                let now = Told { state: found.state, value: found.value, limit: found.limit, follows };
                let is_judged = matches!(now.state, State::NotMet | State::Marginal | State::Met);
                let first = told.get_or_insert(now);
                first.follows |= now.value != first.value || now.limit != first.limit;
                is_judged && first.state == now.state && (!in_full || first.limit == now.limit)
            });
        }
        // where most of the range contradicts the other entries, these are to be looked at first
        if 2 * judged <= tries.len() {
            open.clear();
        }
    }
}

fn tries(field: &'static Field, (low, high): (f64, f64)) -> Vec<Value> {
    match field.shape {
        Shape::Choice(named) => named.iter().map(|one| Value::Choice(one.id)).collect(),
        Shape::Number(_) if low < high && low.is_finite() && high.is_finite() => {
            let spacing = Spacing::over((low, high));
            let at = |place: usize| spacing.at(place as f64 / (TRIES - 1) as f64);
            let whole = |si: f64| if field.term.whole { si.round() } else { si };
            // the ends first: they tell soonest where it makes a difference
            let places = [0, TRIES - 1].into_iter().chain(1..TRIES - 1);
            places.map(|place| Value::Number(whole(at(place)))).collect()
        }
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::kinds::NUMBER;
    use crate::engine::sheet::{Criterion, Evaluate, Judges, Known, Side, Stage, Term, source};
    use crate::{choice, sheet};

    choice!(/// Which way.
        Way { Up "up" "Up", Down "down" "Down" });

    static FORECAST: Criterion = Criterion {
        id: "forecast",
        sentence: "Sum",
        stage: Stage::Plan,
        side: Side::AtLeast,
        forecast: true,
        source: &source::COMMON_PRACTICE,
        levers: &[],
        cases: &[],
        judges: Judges::NoOutput,
    };
    static READING: Criterion = Criterion { id: "reading", forecast: false, ..FORECAST };
    static BY_INSTRUCTIONS: Criterion = Criterion { id: "by-instructions", ..FORECAST };
    static MEASURED: Criterion = Criterion { id: "measured", ..FORECAST };
    static BESIDE: Criterion = Criterion { id: "beside", ..FORECAST };

    sheet! {
        /// x and y in all, at least 10; and x at least y.
        Sum, "sum", "Sum", Stage::Plan,
        sources: &[],
        cautions: &[],
        criteria: &[&FORECAST, &READING, &BY_INSTRUCTIONS, &MEASURED, &BESIDE],
        inputs: {
            x   "x":   Known<f64> = Term::number(&NUMBER, "x", "x").possible(-100.0, 100.0, ""),
            y   "y":   Known<f64> = Term::number(&NUMBER, "y", "y").plausible(0.0, 5.0, "").possible(-5.0, 8.0, ""),
            z   "z":   Known<f64> = Term::number(&NUMBER, "z", "z").plausible(0.0, 5.0, "").possible(0.0, 5.0, "").within(0.1, ""),
            way "way": Known<Way> = Term::other("Way"),
        }
        outputs Outputs: { sum "sum": Known<f64> = Term::number(&NUMBER, "Sum", "s"), }
    }

    impl Evaluate for Sum {
        type Outputs = Outputs;
        fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
            let sum = self.x.and_then(|x| {
                let y = self.y?;
                Ok(if self.way? == Way::Up { x + y } else { x - y / 10.0 })
            });
            w.judge_known(&FORECAST, sum, Ok(10.0));
            w.judge_known(&READING, sum, Ok(10.0));
            w.judge_known(&BY_INSTRUCTIONS, self.x, self.y);
            w.judge_known(&MEASURED, self.x.and_then(|x| Ok(x + self.z?)), Ok(10.0));
            w.judge_known(&BESIDE, self.z.and(self.x), Ok(10.0));
            Ok(Outputs { sum })
        }
    }

    /// The states of the three checks, and the field by which each was decided.
    fn states(x: f64, y: Option<f64>, way: Option<&'static str>) -> [(State, Option<&'static str>); 3] {
        of(x, y, way, [&FORECAST, &READING, &BY_INSTRUCTIONS])
    }

    fn of<const N: usize>(
        x: f64,
        y: Option<f64>,
        way: Option<&'static str>,
        criteria: [&'static Criterion; N],
    ) -> [(State, Option<&'static str>); N] {
        let values = [Some(Value::Number(x)), y.map(Value::Number), None, way.map(Value::Choice)];
        let assessment = Entry::of::<Sum>().assess(&values, false);
        criteria.map(|criterion| {
            let check = assessment.checks.iter().find(|check| check.criterion.id == criterion.id).unwrap();
            (check.state, check.decided.map(|field| field.id))
        })
    }

    #[test]
    fn what_no_value_could_change_is_said() {
        use State::{Met, NotKnown, NotMet};
        // at most 2 + 5: not met, also for a reading; x at least y is not so for every y
        assert_eq!(
            states(2.0, None, Some(Way::Up.id())),
            [(NotMet, Some("y")), (NotMet, Some("y")), (NotKnown, None)]
        );
        // at least 15 − 5: met for a forecast, while nobody took the reading; every y is below x, but y is the limit
        assert_eq!(states(15.0, None, Some("up")), [(Met, Some("y")), (NotKnown, None), (NotKnown, None)]);
        // 12 − 5 = 7 is possible, though not plausible
        assert_eq!(states(12.0, None, Some("up"))[0], (NotKnown, None));
        assert_eq!(states(-3.0, None, Some("up"))[2], (NotMet, Some("y")));
        // each value of a choice
        assert_eq!(states(2.0, Some(1.0), None)[0], (NotMet, Some("way")));
        assert_eq!(states(12.0, Some(1.0), None)[0], (Met, Some("way")));
        assert_eq!(states(9.5, Some(1.0), None)[0], (NotKnown, None));
        // x + z is 20 to 25, and nobody measured z; 2 to 7 is too little all the same; x alone waits
        assert_eq!(of(20.0, None, None, [&MEASURED]), [(NotKnown, None)]);
        assert_eq!(of(2.0, None, None, [&MEASURED, &BESIDE]), [(NotMet, Some("z")), (NotKnown, None)]);
        // two fields are missing
        assert_eq!(states(2.0, None, None)[0], (NotKnown, None));
    }
}
