//! What is said of a filling: the figures at every key press, the 95 % intervals of the checks once it pauses.
//!
//! Until the intervals of a new number are found, those of the number before it stand, so that a check that is marginal does
//! not flicker while one types.

use super::judge::{Judged, judge};
use crate::browser::stop;
use crate::page::still::Still;
use crate::state::{Filling, kept};
use calc::documents::record::Entries;
use calc::engine::sheet::{Check, Entry, Problem, Value};
use gloo_timers::callback::Timeout;
use std::rc::Rc;
use yew::prelude::*;

/// How long the typing pauses before the intervals are computed, in milliseconds.
const PAUSE: u32 = 50;

/// The sheet and the values that were read, and its checks with their intervals.
type Settled = Option<(Still<Entry>, Rc<Vec<Option<Value>>>, Rc<Vec<Check>>)>;

/// What is said of a filling; computed anew only when another was typed.
#[hook]
pub fn use_judged(entry: Still<Entry>, filling: &Filling, problems: &Rc<Vec<Problem>>) -> Rc<Judged> {
    let outside = use_mut_ref(|| None::<(Still<Entry>, Rc<Entries>)>);
    let figures =
        use_memo((entry, Rc::clone(&filling.entries), Rc::clone(problems)), |(entry, entries, problems)| {
            // Kept first: what was typed must not be lost if computing with it stops the program.
            let before = outside.replace(Some((*entry, Rc::clone(entries))));
            let before = before.filter(|(of, _)| of == entry).map(|(_, before)| before);
            let sheet = entry.declaration;
            for (field, text) in kept(sheet, before.as_deref(), entries) {
                stop::keep(&format!("{} {field}", sheet.id), &text);
            }
            judge(entry.0, filling, problems)
        });
    let settled = use_state(|| Settled::None);
    let mut judged = figures.as_ref().clone();
    match settled.as_ref() {
        Some((of, values, checks)) if *of == entry && *values == figures.values => {
            judged.assessment.checks = checks.as_ref().clone();
        }
        Some((of, _, checks)) if *of == entry => judged.assessment.settle_as(checks),
        // what was just opened is shown whole
        _ => entry.0.settle(&figures.values, &mut judged.assessment),
    }
    let now = (entry, Rc::clone(&figures.values));
    use_effect_with(now, move |(entry, values)| {
        let (entry, values) = (*entry, Rc::clone(values));
        let timer = Timeout::new(PAUSE, move || {
            let mut assessment = figures.assessment.clone();
            entry.0.settle(&values, &mut assessment);
            settled.set(Some((entry, values, Rc::new(assessment.checks))));
        });
        move || drop(timer)
    });
    Rc::new(judged)
}
