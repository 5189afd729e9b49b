//! The answer of a sheet before everything else: state, number, limit, what to do.

use super::checks::{self, waits_for};
use super::fixes::{Fixes, fixes};
use super::judge::Judged;
use super::mark::mark;
use super::outputs;
use crate::page::field_link::field_link;
use crate::text::{WORDS, alone, capital, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, State};
use yew::prelude::*;

/// The answer of a sheet: its worst check, or its first value where it judges nothing.
pub fn answer(judged: &Judged, sheet: &'static Declaration, found: Option<&Fixes>, set: UnitSet) -> Html {
    html! { <div class="verdict" id="verdict">{ bare(judged, sheet, found, set) }</div> }
}

/// The same wherever it stands.
pub fn bare(judged: &Judged, sheet: &'static Declaration, found: Option<&Fixes>, set: UnitSet) -> Html {
    let all = &judged.assessment.checks;
    let waiting = all.iter().filter(|check| waits_for(check, judged, sheet).is_some()).count();
    let mut checked = all.iter().filter(|check| waits_for(check, judged, sheet).is_none());
    match checked.next() {
        Some(worst) => html! {
            <>
                { said(worst, "", waiting > 0, set) }
                if let Some(found) = found { { fixes(worst, found, sheet, set) } }
            </>
        },
        None if waiting > 0 => html! { <p>{ not_checked(judged, sheet) }</p> },
        None => first_value(judged, sheet, set),
    }
}

/// One check as the answer; `place` says where it is judged, where there are several places.
pub fn said(check: &Check, place: &str, is_part: bool, set: UnitSet) -> Html {
    html! {
        <p class="verdict-line" data-state={check.state.id()}>
            { mark(check.state) }
            <span><strong>{ headline(check, place, is_part) }</strong>{ " " }{ sentence(check, set) }</span>
        </p>
    }
}

/// The state, and of several places which: `Not met: Tap, coldest.` What is met while other checks wait is met so far.
pub fn headline(check: &Check, place: &str, is_part: bool) -> String {
    let state = capital(&state(check.state, is_part));
    if place.is_empty() { format!("{state}.") } else { format!("{state}: {place}.") }
}

/// The state in words.
pub fn state(state: State, is_part: bool) -> String {
    match state {
        State::Met | State::Marginal if is_part => {
            fill(WORDS.section.state_in_part, &[("state", say(state.words()))])
        }
        _ => say(state.words()).to_owned(),
    }
}

/// What is asked, the number, the limit, and how far apart they are.
pub fn sentence(check: &Check, set: UnitSet) -> String {
    let asks = say(check.criterion.sentence);
    match check.state {
        _ if check.decided.is_some() => format!("{asks}: {}", alone(&checks::short(check, set))),
        State::NotMet | State::Marginal | State::Met if checks::is_answered(check) => alone(asks),
        State::NotMet | State::Marginal | State::Met => {
            format!("{asks}: {} {}", alone(&checks::short(check, set)), alone(&checks::margin(check, set)))
        }
        State::NotKnown | State::DoesNotApply => {
            let why = checks::short(check, set);
            if why.is_empty() { alone(asks) } else { format!("{} {}", alone(asks), alone(&why)) }
        }
    }
}

/// Nothing is checked: which fields would begin it.
fn not_checked(judged: &Judged, sheet: &'static Declaration) -> Html {
    html! {
        <>
            <strong>{ WORDS.section.not_checked_yet }{ "." }</strong>{ " " }
            { enter(&checks::missing_fields(judged, sheet), sheet) }
        </>
    }
}

/// `Enter: Flow, Bed volume.` with the way to each.
pub fn enter(fields: &[&'static str], sheet: &'static Declaration) -> Html {
    let fields: Vec<_> = sheet.inputs.iter().filter(|field| fields.contains(&field.id)).collect();
    if fields.is_empty() {
        return Html::default();
    }
    let last = fields.len() - 1;
    html! {
        <>
            { WORDS.section.enter }{ " " }
            { for fields.iter().enumerate().map(|(index, field)| html! {
                <>{ field_link(sheet.id, field.id, say(field.term.name)) }{ if index == last { "." } else { ", " } }</>
            }) }
        </>
    }
}

fn first_value(judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Html {
    let needed = checks::missing_fields(judged, sheet);
    if !needed.is_empty() {
        return html! { <p>{ enter(&needed, sheet) }</p> };
    }
    let (Some(field), Some(answer)) = (sheet.outputs.first(), judged.assessment.answers.first()) else {
        return Html::default();
    };
    if outputs::is_table(answer) {
        return Html::default();
    }
    html! { <p><strong>{ say(field.term.name) }{ ":" }</strong>{ " " }{ outputs::value(field, answer, None, sheet, set) }</p> }
}
