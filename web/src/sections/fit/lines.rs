//! The answer of one stage: its worst check, what it owes to an allowance, what would mend it, and its other checks.

use super::later::Later;
use crate::ids;
use crate::parts::field_link::field_link;
use crate::sections::stages::{OfStage, waiting};
use crate::sheet::checks;
use crate::sheet::judge::Judged;
use crate::sheet::mark::mark;
use crate::sheet::shown;
use crate::sheet::tools::StageTools;
use crate::sheet::working::WorkingView;
use crate::still::Still;
use crate::text::{WORDS, alone, fill};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, Entry, State};
use calc::engine::solve::{Mend, Mended};
use std::rc::Rc;
use yew::prelude::*;

/// One stage.
pub fn line(
    stage: &OfStage,
    entry: Still<Entry>,
    judged: &Judged,
    later: Option<&Later>,
    set: UnitSet,
) -> Html {
    let Some(worst) = stage.worst() else { return Html::default() };
    let (id, sheet) = (ids::stage_line(worst.criterion.stage.id()), entry.0.declaration);
    html! {
        <li class="stage-answer" {id} data-state={worst.state.id()} tabindex="-1">
            { mark(worst.state) }
            <div class="check-body">
                <p class="check-head">
                    <span class="line-stage">{ worst.criterion.stage.name() }</span>
                    <strong class="state">{ stage.state() }</strong>
                    <span class="check-case">{ checks::when(worst) }</span>
                </p>
                <p class="check-asks">{ worst.criterion.sentence }</p>
                { checks::numbers(worst, sheet, set) }
                if let Some(later) = later {
                    { owed(worst, later) }
                    { mends(worst, later, sheet, set) }
                }
                { others(stage, sheet, later, set) }
                if !stage.waits(judged, sheet) { { waiting(stage, sheet) } }
                <details class="more-checks">
                    <summary>{ fill(WORDS.section.all_checks, &[("count", &stage.checks.len().to_string())]) }</summary>
                    { checks::list(&stage.checks, sheet, set) }
                </details>
                <WorkingView {entry} values={Rc::clone(&judged.values)} {set} only={worst.criterion.stage} />
                <StageTools {entry} values={Rc::clone(&judged.values)} is_whole={judged.left_out(sheet.inputs).is_empty()}
                    {set} only={worst.criterion.stage} />
            </div>
        </li>
    }
}

/// What else falls short in the stage, each with what would mend it.
fn others(stage: &OfStage, sheet: &'static Declaration, later: Option<&Later>, set: UnitSet) -> Html {
    let others: Vec<&Check> = stage.others().collect();
    if others.is_empty() {
        return Html::default();
    }
    html! {
        <ul class="others">
            { for others.into_iter().map(|check| html! {
                <li data-state={check.state.id()}>
                    <p class="check-head">
                        { mark(check.state) }
                        <strong class="state">{ check.state.words() }</strong>
                        <span class="check-case">{ checks::when(check) }</span>
                    </p>
                    <p class="check-asks">{ check.criterion.sentence }</p>
                    { checks::numbers(check, sheet, set) }
                    if let Some(later) = later { { mends(check, later, sheet, set) } }
                </li>
            }) }
        </ul>
    }
}

/// Which allowance makes it not met.
fn owed(check: &Check, later: &Later) -> Html {
    if check.state != State::NotMet {
        return Html::default();
    }
    let id = check.id();
    let alone_enough = later.causes.iter().find_map(|without| {
        without.switch.filter(|_| without.better.contains(&id)).map(|switch| switch.name)
    });
    let all = later.causes.iter().any(|without| without.switch.is_none() && without.better.contains(&id));
    let said = match (alone_enough, all) {
        (Some(name), _) => fill(WORDS.section.owed_to, &[("allowance", name)]),
        (None, true) => WORDS.section.owed_to_all.to_owned(),
        (None, false) => WORDS.section.owed_to_none.to_owned(),
    };
    html! { <p class="owed">{ said }</p> }
}

/// What would mend it, and what each mend worsens.
fn mends(check: &Check, later: &Later, sheet: &'static Declaration, set: UnitSet) -> Html {
    if !matches!(check.state, State::NotMet | State::Marginal) || check.criterion.levers.is_empty() {
        return Html::default();
    }
    let id = check.id();
    let of_check: Vec<&Mended> = later.mends.iter().filter(|mended| mended.check == id).collect();
    if of_check.is_empty() && !later.is_whole {
        return html! { <p class="mends">{ WORDS.section.looking_for_mends }</p> };
    }
    html! {
        <div class="mends">
            <p><strong>{ WORDS.section.would_mend }</strong></p>
            <ul>{ for of_check.iter().map(|mended| one_mend(mended, sheet, set)) }</ul>
        </div>
    }
}

fn one_mend(mended: &Mended, sheet: &'static Declaration, set: UnitSet) -> Html {
    let Some(field) = sheet.inputs.iter().find(|field| field.id == mended.lever) else {
        return Html::default();
    };
    let link = field_link(sheet.id, field.id, field.term.name);
    let number = |si: f64| match field.term.unit(set == UnitSet::Us) {
        Some(unit) => shown::quantity(si, unit),
        None => String::new(),
    };
    match &mended.mend {
        Ok(Mend { value, now, worsens, .. }) => {
            let now = now.map_or(WORDS.not_entered.to_lowercase(), number);
            let to = fill(WORDS.section.mend_to, &[("value", &number(*value)), ("now", &now)]);
            let worse: Vec<String> = worsens.iter().map(|id| checks::in_words(id, sheet)).collect();
            html! {
                <li>
                    { link }{ " " }{ to }
                    if !worse.is_empty() {
                        { " " }<span class="worsens">{ fill(WORDS.section.worsens, &[("checks", &worse.join(", "))]) }</span>
                    }
                </li>
            }
        }
        Err(missing) => html! { <li>{ link }{ " – " }{ alone(missing.why) }</li> },
    }
}
