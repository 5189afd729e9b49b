//! One line for each stage of the water's way: its worst check, and what nobody has looked at yet.

use crate::ids;
use crate::parts::field_link::field_link;
use crate::sheet::checks::short;
use crate::sheet::judge::Judged;
use crate::sheet::mark::mark;
use crate::sheet::spoken::counts_looked_at;
use crate::text::{WORDS, fill};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, Stage, State};
use calc::trade::plan::walk::is_in_detail;
use yew::prelude::*;

/// The checks of one stage.
pub struct OfStage {
    /// Worst first; those that wait for papers or labels come last.
    pub checks: Vec<Check>,
    /// The ids of the fields of the second view for which some of them wait.
    pub waits_for: Vec<&'static str>,
}

impl OfStage {
    /// Of any stage that there is, the worst check.
    pub fn worst(&self) -> Option<&Check> {
        self.checks.first()
    }

    /// The state of the worst check, in words; of what has not been looked at the worst check knows nothing.
    pub fn state(&self) -> String {
        let Some(worst) = self.worst() else { return String::new() };
        let in_part = matches!(worst.state, State::Met | State::Marginal) && !self.waits_for.is_empty();
        let words = worst.state.words();
        if in_part { fill(WORDS.section.state_in_part, &[("state", words)]) } else { words.to_owned() }
    }

    /// What else falls short or is marginal in this stage, once for each criterion; months count as one.
    pub fn others(&self) -> impl Iterator<Item = &Check> {
        let told = |check: &Check| matches!(check.state, State::NotMet | State::Marginal);
        let rest = self.checks.iter().enumerate().skip(1).filter(move |(_, check)| told(check));
        rest.filter(|(index, check)| {
            let before = &self.checks[..*index];
            !before.iter().any(|other| other.criterion.id == check.criterion.id)
        })
        .map(|(_, check)| check)
    }

    /// Whether none of its checks has been looked at.
    pub fn waits(&self, judged: &Judged, sheet: &'static Declaration) -> bool {
        self.worst().is_some_and(|worst| waits_for(worst, judged, sheet).is_some())
    }
}

/// The field of the second view for which a check waits, since nobody has filled it yet. What was entered and cannot be
/// read is not waited for: it is to be mended.
fn waits_for(check: &Check, judged: &Judged, sheet: &'static Declaration) -> Option<&'static str> {
    let field = check.missing.filter(|_| check.state == State::NotKnown)?.field;
    let is_empty = judged.values.get(sheet.input(field)?)?.is_none();
    (is_empty && is_in_detail(field)).then_some(field)
}

/// The checks of each stage, the stage with the worst check first; stages of which nothing has been looked at come last.
pub fn by_stage(judged: &Judged, sheet: &'static Declaration) -> Vec<OfStage> {
    let mut stages: Vec<(Stage, OfStage)> = Vec::new();
    let waits = |check: &&Check| waits_for(check, judged, sheet).is_some();
    let checks = &judged.assessment.checks;
    for check in checks.iter().filter(|check| !waits(check)).chain(checks.iter().filter(waits)) {
        let stage = check.criterion.stage;
        let index = stages.iter().position(|(of, _)| *of == stage).unwrap_or_else(|| {
            stages.push((stage, OfStage { checks: Vec::new(), waits_for: Vec::new() }));
            stages.len() - 1
        });
        let of_stage = &mut stages[index].1;
        if let Some(field) = waits_for(check, judged, sheet)
            && !of_stage.waits_for.contains(&field)
        {
            of_stage.waits_for.push(field);
        }
        of_stage.checks.push(check.clone());
    }
    stages.into_iter().map(|(_, of_stage)| of_stage).collect()
}

/// The answer in a sentence.
pub fn verdict(stages: &[OfStage], judged: &Judged, sheet: &'static Declaration) -> String {
    let (waiting, looked_at): (Vec<&OfStage>, Vec<&OfStage>) =
        stages.iter().partition(|stage| stage.waits(judged, sheet));
    let names = |stages: &mut dyn Iterator<Item = &Check>| {
        stages.map(|worst| worst.criterion.stage.name()).collect::<Vec<_>>().join(", ")
    };
    let of = |state: State| {
        names(&mut looked_at.iter().filter_map(|stage| stage.worst()).filter(|worst| worst.state == state))
    };
    let mut said: Vec<String> = [
        (WORDS.section.falls_short, of(State::NotMet)),
        (WORDS.section.cannot_be_told, of(State::NotKnown)),
        (WORDS.section.is_marginal, of(State::Marginal)),
    ]
    .iter()
    .filter(|(_, stages)| !stages.is_empty())
    .map(|(words, stages)| fill(words, &[("stages", stages)]))
    .collect();
    if said.is_empty() && !looked_at.is_empty() {
        said.push(WORDS.section.nothing_short.to_owned());
    }
    let waiting = names(&mut waiting.iter().filter_map(|stage| stage.worst()));
    if !waiting.is_empty() {
        said.push(fill(WORDS.section.not_looked_at, &[("stages", &waiting)]));
    }
    let in_part = looked_at.iter().filter(|stage| !stage.waits_for.is_empty());
    let in_part = names(&mut in_part.filter_map(|stage| stage.worst()));
    if !in_part.is_empty() {
        said.push(fill(WORDS.section.looked_at_in_part, &[("stages", &in_part)]));
    }
    said.join(" ")
}

/// How the checks stand, in a few words.
pub fn counts(judged: &Judged, sheet: &'static Declaration) -> AttrValue {
    let waits = |check: &&Check| waits_for(check, judged, sheet).is_some();
    let checks = judged.assessment.checks.iter();
    let waiting = checks.clone().filter(waits).count();
    counts_looked_at(checks.filter(|check| !waits(check)), waiting)
}

/// The stage with the state and the numbers of its worst check.
pub fn line(stage: &OfStage, set: UnitSet) -> Html {
    let Some(worst) = stage.worst() else { return Html::default() };
    let of = worst.criterion.stage;
    html! {
        <li class="line" id={ids::stage_line(of.id())} data-state={worst.state.id()}>
            { mark(worst.state) }
            <span class="line-stage">{ of.name() }</span>
            <strong class="state">{ stage.state() }</strong>
            <span class="line-numbers">{ short(worst, set) }</span>
        </li>
    }
}

/// What has not been looked at in a stage, each with the way to its field.
pub fn waiting(stage: &OfStage, sheet: &'static Declaration) -> Html {
    let fields = sheet.inputs.iter().filter(|field| stage.waits_for.contains(&field.id));
    let links: Vec<Html> = fields.map(|field| field_link(sheet.id, field.id, field.term.name)).collect();
    if links.is_empty() {
        return Html::default();
    }
    html! {
        <div class="waits">
            <p>{ WORDS.section.waits_for }</p>
            <ul>{ for links.into_iter().map(|link| html! { <li>{ link }</li> }) }</ul>
        </div>
    }
}
