//! How the checks stand, in a few words: for who listens, after the typing pauses, and for who types on a phone and has
//! the answers below the screen.

use super::checks::waits_for;
use super::judge::Judged;
use crate::page::ids;
use crate::text::{WORDS, fill, say};
use calc::engine::sheet::{Check, Declaration, State};
use gloo_timers::callback::Timeout;
use yew::prelude::*;

/// How long the typing pauses before anything is said, in milliseconds.
const PAUSE: u32 = 1000;

/// How many checks are in each state, worst first, and how many wait for an entry; those that do not apply are not counted.
pub fn counts(judged: &Judged, sheet: &'static Declaration) -> AttrValue {
    let waits = |check: &&Check| waits_for(check, judged, sheet).is_some();
    let all = judged.assessment.checks.iter();
    let waiting = all.clone().filter(waits).count();
    let checks = all.filter(|check| !waits(check));
    let states = [State::NotMet, State::NotKnown, State::Marginal, State::Met];
    let counted = states
        .map(|state| (checks.clone().filter(|check| check.state == state).count(), say(state.words())))
        .into_iter()
        .chain([(waiting, WORDS.section.waiting)]);
    let said = counted
        .filter(|(count, _)| *count > 0)
        .map(|(count, words)| fill(WORDS.counted, &[("count", &count.to_string()), ("state", words)]));
    said.collect::<Vec<_>>().join(", ").into()
}

/// How the checks stand.
#[derive(Properties, PartialEq, Clone)]
pub struct SpokenProps {
    /// In words.
    pub counts: AttrValue,
}

/// A bar at the foot of a phone's screen, and the same for a screen reader once the typing pauses.
#[component]
pub fn Spoken(props: &SpokenProps) -> Html {
    let said = use_state_eq(AttrValue::default);
    {
        let said = said.setter();
        use_effect_with(props.counts.clone(), move |counts| {
            let counts = counts.clone();
            let timer = Timeout::new(PAUSE, move || said.set(counts));
            move || drop(timer)
        });
    }
    html! {
        <>
            <p class="unseen" role="status">{ (*said).clone() }</p>
            <p class="bar">
                <a href={format!("#{}", ids::ANSWERS)}>
                    <span>{ &props.counts }</span>{ " " }<span class="bar-go">{ WORDS.to_answers }</span>
                </a>
            </p>
        </>
    }
}
