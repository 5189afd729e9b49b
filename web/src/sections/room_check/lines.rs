//! The answer of one stage: its worst check, what it owes to an allowance, what would fix it, and its other checks.

use super::later::Later;
use crate::page::ids;
use crate::page::still::Still;
use crate::sections::stages::{OfStage, waiting};
use crate::sheet::checks;
use crate::sheet::fixes::fixes;
use crate::sheet::judge::Judged;
use crate::sheet::mark::mark;
use crate::sheet::tools::StageTools;
use crate::sheet::working::WorkingView;
use crate::text::{WORDS, capital, counted, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, Entry, State};
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
    let Some(worst) = stage.worst().filter(|_| !stage.waits(judged, entry.0.declaration)) else {
        return Html::default();
    };
    let (id, sheet) = (ids::stage_line(worst.criterion.stage.id()), entry.0.declaration);
    html! {
        <li class="stage-answer" {id} data-state={worst.state.id()} tabindex="-1">
            <details class="stage-fold" id={ids::stage_fold(worst.criterion.stage.id())}>
                <summary>
                    { mark(worst.state) }
                    <span class="line-stage">{ say(worst.criterion.stage.name()) }</span>
                    <strong class="state">{ stage.state() }</strong>
                    <span class="line-numbers">{ result(worst, set) }</span>
                </summary>
                <div class="check-body">
                    <p class="check-asks">
                        { say(worst.criterion.sentence) }{ " " }<span class="check-case">{ checks::when(worst) }</span>
                    </p>
                    { checks::numbers(worst, sheet, set) }
                    if let Some(later) = later {
                        { owed(worst, later) }
                        { fixes(worst, &later.fixes, sheet, set) }
                    }
                    { others(stage, sheet, later, set) }
                    { waiting(stage, sheet) }
                    <details class="more-checks">
                        <summary>{ counted(WORDS.section.all_checks, stage.checks.len()) }</summary>
                        { checks::list(&stage.checks, judged, sheet, set) }
                    </details>
                    <WorkingView {entry} values={Rc::clone(&judged.values)} {set} only={worst.criterion.stage} />
                    <StageTools {entry} values={Rc::clone(&judged.values)} is_whole={judged.left_out(sheet.inputs).is_empty()}
                        {set} only={worst.criterion.stage} />
                </div>
            </details>
        </li>
    }
}

/// The worst check of the stage in one line: its numbers, or where it has none, what it asks.
fn result(worst: &Check, set: UnitSet) -> String {
    match checks::short(worst, set) {
        said if said.is_empty() => say(worst.criterion.sentence).to_owned(),
        said => said,
    }
}

/// What else falls short in the stage, each with what would fix it.
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
                        <strong class="state">{ capital(say(check.state.words())) }</strong>
                        <span class="check-case">{ checks::when(check) }</span>
                    </p>
                    <p class="check-asks">{ say(check.criterion.sentence) }</p>
                    { checks::numbers(check, sheet, set) }
                    if let Some(later) = later { { fixes(check, &later.fixes, sheet, set) } }
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
        without.switch.filter(|_| without.better.contains(&id)).map(|switch| say(switch.name))
    });
    let all = later.causes.iter().any(|without| without.switch.is_none() && without.better.contains(&id));
    let said = match (alone_enough, all) {
        (Some(name), _) => fill(WORDS.section.owed_to, &[("allowance", name)]),
        (None, true) => WORDS.section.owed_to_all.to_owned(),
        (None, false) => WORDS.section.owed_to_none.to_owned(),
    };
    html! { <p class="owed">{ said }</p> }
}
