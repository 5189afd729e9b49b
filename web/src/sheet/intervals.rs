//! The 95 % intervals of the values. They cost many evaluations, so they are computed when the typing pauses and never
//! stand beside a number that they do not belong to.

use super::judge::Judged;
use crate::page::still::Still;
use calc::engine::sheet::criterion::COVERAGE;
use calc::engine::sheet::{Answer, Entry, Shape, Value};
use calc::engine::uncertainty::first_order;
use gloo_timers::callback::Timeout;
use std::rc::Rc;
use yew::prelude::*;

/// How long the typing pauses, in milliseconds.
const PAUSE: u32 = 250;

/// What was read, and the half-widths of the outputs in their order.
type Computed = Option<(Rc<Vec<Option<Value>>>, Rc<Vec<Option<f64>>>)>;

/// The half-widths that belong to these values; `None` until they are computed.
#[hook]
pub fn use_intervals(entry: Still<Entry>, judged: &Rc<Judged>) -> Option<Rc<Vec<Option<f64>>>> {
    let computed = use_state(|| Computed::None);
    {
        let (computed, judged) = (computed.setter(), Rc::clone(judged));
        use_effect_with((entry, Rc::clone(&judged.values)), move |(entry, values)| {
            let (entry, values) = (*entry, Rc::clone(values));
            let timer = Timeout::new(PAUSE, move || {
                let half_widths = half_widths(entry.0, &values, &judged.assessment.answers);
                computed.set(Some((values, Rc::new(half_widths))));
            });
            move || drop(timer)
        });
    }
    let (of, half_widths) = computed.as_ref()?;
    (*of == judged.values).then(|| Rc::clone(half_widths))
}

/// Of each output that is a number, half of its 95 % interval, in SI.
pub fn half_widths(entry: &Entry, values: &[Option<Value>], answers: &[Answer]) -> Vec<Option<f64>> {
    let Ok(case) = entry.fill(values) else { return Vec::new() };
    let budget = first_order(case.as_ref());
    // those that are one number stand before the cells of the tables
    let mut next = 0;
    let outputs = entry.declaration.outputs.iter().zip(answers);
    outputs
        .map(|(field, answer)| {
            let place = next;
            next += usize::from(matches!(field.shape, Shape::Number(_)));
            let uncertainty =
                matches!(answer, Answer::Number(..)).then(|| budget.standard_uncertainty(place));
            uncertainty.flatten().filter(|u| *u > 0.0).map(|u| COVERAGE * u)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_interval_of_a_contact_time() {
        // 28.3 L within 5 % over 6 L/min within 3 %: u = √(5² + 3²)/√3 % = 3.3665 % of 283 s, twice that is 19.055 s.
        let entry = crate::state::find("carbon-contact-time").unwrap();
        let values = [Some(Value::Number(28.3e-3)), None, Some(Value::Number(1e-4)), None];
        let answers = entry.assess(&values, false).answers;
        let half_widths = half_widths(entry, &values, &answers);
        assert_eq!(half_widths.len(), 3);
        assert!(half_widths[0].is_some_and(|half| (half - 19.055).abs() < 0.02), "{half_widths:?}");
    }

    #[test]
    fn nothing_is_known_of_what_is_not_there() {
        let entry = crate::state::find("carbon-contact-time").unwrap();
        assert_eq!(half_widths(entry, &[], &[]), []);
    }
}
