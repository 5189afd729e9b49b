//! A result as a laboratory reports it: a number, or that it is less than the least that could be told.

use super::missing::Missing;
use super::shape::{Field, Shape};
use super::value::{Answer, Input, Output, Shift, Value, needed};
use crate::engine::quantity::Quantity;

/// What was found, or below what it must be. "Less than" is no number: nothing is computed from it but a bound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reported<Q> {
    /// It is this.
    Is(Q),
    /// It is less than this, the reporting limit.
    Below(Q),
}

impl<Q: Quantity> Reported<Q> {
    /// The number, or the bound: it is never more than this.
    pub fn at_most(self) -> Q {
        match self {
            Self::Is(value) | Self::Below(value) => value,
        }
    }

    /// The same in another measure; the change must keep the order of numbers.
    pub fn map<R: Quantity>(self, change: impl FnOnce(Q) -> R) -> Reported<R> {
        match self {
            Self::Is(value) => Reported::Is(change(value)),
            Self::Below(limit) => Reported::Below(change(limit)),
        }
    }
}

impl<Q: Quantity> Input for Reported<Q> {
    const SHAPE: Shape = Shape::Number(Q::KIND);
    const NEEDED: bool = true;
    const BELOW: bool = true;
    fn read(value: Option<&Value>, field: &'static Field) -> Result<Self, Missing> {
        match value {
            Some(Value::Number(si)) => Ok(Self::Is(Q::from_si(*si))),
            Some(Value::Below(si)) => Ok(Self::Below(Q::from_si(*si))),
            _ => Err(needed(field)),
        }
    }
    fn number(&self) -> Option<f64> {
        match self {
            Self::Is(value) => Some(value.si()),
            Self::Below(_) => None,
        }
    }
    fn of_number(si: f64) -> Option<Self> {
        Some(Self::Is(Q::from_si(si)))
    }
    fn shift(&mut self, _column: usize, by: Shift) {
        match (&mut *self, by) {
            (Self::Is(value), by) => *value = Q::from_si(by.of(value.si())),
            (below, Shift::To(si)) => *below = Self::Is(Q::from_si(si)),
            // a bound is no reading that an instrument could have got wrong
            (Self::Below(_), _) => {}
        }
    }
}

impl<Q: Quantity> Output for Reported<Q> {
    const SHAPE: Shape = Shape::Number(Q::KIND);
    fn answer(&self) -> Answer {
        match self {
            Self::Below(limit) if limit.si().is_finite() => Answer::Below(limit.si(), Q::KIND),
            Self::Is(value) | Self::Below(value) => value.answer(),
        }
    }
    fn numbers(&self, sink: &mut Vec<f64>) {
        sink.push(self.number().unwrap_or(f64::NAN));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::record::Typed;
    use crate::engine::quantity::kinds::{CONCENTRATION, VOLUME};
    use crate::engine::quantity::{Concentration, UnitSet, Volume};
    use crate::engine::sheet::criterion::{Criterion, Judges, Side, State};
    use crate::engine::sheet::{Case, Entry, Evaluate, Known, Sheet, Stage, Stop, Term, Working, source};
    use crate::{documents::json, engine::reason, sheet};
    use serde_json::json;

    static LIMIT: Criterion = Criterion {
        id: "lead",
        sentence: "Lead",
        stage: Stage::Product,
        side: Side::AtMost,
        forecast: false,
        source: &source::COMMON_PRACTICE,
        levers: &[],
        cases: &[],
        judges: Judges::NoOutput,
    };

    sheet! {
        /// A result against a limit of 0.005 mg/L.
        Report, "report", "Report", Stage::Product,
        sources: &[&source::COMMON_PRACTICE],
        cautions: &[],
        criteria: &[&LIMIT],
        inputs: {
            found  "found":  Option<Reported<Concentration>> = Term::number(&CONCENTRATION, "Result", "C").possible(0.0, 1000.0, "mg/L").or_below(),
            volume "volume": Known<Volume>                   = Term::number(&VOLUME, "Volume", "V").possible(0.0, 1.0, "L"),
        }
        outputs Outputs: {
            again "again": Known<Reported<Concentration>> = Term::number(&CONCENTRATION, "Result", "C"),
        }
    }

    impl Evaluate for Report {
        type Outputs = Outputs;
        fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
            if let Some(found) = self.found {
                w.judge_reported(&LIMIT, found, Concentration::of(5e-6), "found");
            }
            Ok(Outputs { again: self.found.ok_or(Missing::empty("found", "Result")) })
        }
    }

    /// The first check of a filling, and what the answer is in JSON.
    fn judged(members: serde_json::Value) -> (State, String, serde_json::Value) {
        let filled = json::fill(Report::DECLARATION, members.as_object().unwrap());
        let assessed = Entry::of::<Report>().assess(&filled.values, true);
        assert_eq!((filled.problems, &assessed.problems), (vec![], &vec![]));
        let check = &assessed.checks[0];
        let sentence = reason::of_check(check, Report::DECLARATION);
        assert_eq!(sentence.open_places(), Vec::<&str>::new());
        let (output, answer) = (&Report::DECLARATION.outputs[0], &assessed.answers[0]);
        let told = json::answer_value(output, answer, Report::DECLARATION, UnitSet::Metric);
        (check.state, sentence.show(UnitSet::Metric), told)
    }

    #[test]
    fn a_reporting_limit_shows_what_lies_above_it_and_nothing_else() {
        let (state, said, told) = judged(json!({ "found": "<0.005 mg/L" }));
        assert_eq!(state, State::Met);
        assert_eq!(said, "Lead: met. <0.005 mg/L, needs at most 0.005. The reporting limit shows it");
        assert_eq!(told, json!({ "value": 0.005, "unit": "mg/L", "below": true }));
        let (state, said, _) = judged(json!({ "found": "<0.01 mg/L" }));
        assert_eq!(state, State::NotKnown);
        assert!(
            said.starts_with("Lead: not known; the result is “less than”") && said.ends_with("see “Result”")
        );
        assert_eq!(judged(json!({ "found": "0.01 mg/L" })).0, State::NotMet);
    }

    #[test]
    fn a_record_keeps_that_it_is_less() {
        let found = &Report::DECLARATION.inputs[0];
        let kept = |text: &str| Typed::new(found, text, None).json(found);
        let below = kept("< 10 µg/L");
        assert_eq!(below, json!({ "typed": "< 10 µg/L", "value": 10.0, "unit": "µg/L", "below": true }));
        assert_eq!(judged(json!({ "found": below })).0, State::NotKnown);
        assert_eq!(kept("10 µg/L"), json!({ "typed": "10 µg/L", "value": 10.0, "unit": "µg/L" }));
    }

    #[test]
    fn less_than_nothing_and_less_than_a_plain_number_are_refused() {
        let of = |found, volume| Entry::of::<Report>().assess(&[found, volume], false).problems;
        assert_eq!(of(Some(Value::Below(0.0)), None)[0].field, "found");
        assert_eq!(of(None, Some(Value::Below(1e-4)))[0].field, "volume");
        assert!(of(Some(Value::Below(1e-6)), Some(Value::Number(1e-4))).is_empty());
    }

    #[test]
    fn a_bound_is_no_dial() {
        let case = Entry::of::<Report>().fill(&[Some(Value::Below(1e-6)), None]).unwrap();
        assert_eq!(Case::number(case.as_ref(), 0), None);
    }

    #[test]
    fn a_bound_is_not_shifted_but_replaced() {
        let mut below = Reported::Below(Concentration::of(5e-6));
        below.shift(0, Shift::Share(0.1));
        below.shift(0, Shift::By(1.0));
        assert_eq!((below, below.number()), (Reported::Below(Concentration::of(5e-6)), None));
        below.shift(0, Shift::To(2e-6));
        assert_eq!(below, Reported::Is(Concentration::of(2e-6)));
    }
}
