//! One line for each stage of the water path: its worst check, and what nobody has asked about yet.

use crate::page::ids;
use crate::sheet::checks::{self, short, waits_for};
use crate::sheet::judge::Judged;
use crate::sheet::mark::mark;
use crate::sheet::verdict::{self, enter};
use crate::text::{WORDS, capital, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, Stage, State};
use calc::trade::plan::holds;
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

    /// Whether some of its checks wait for an entry.
    pub fn is_part(&self) -> bool {
        !self.waits_for.is_empty()
    }

    /// The state of the worst check, in words; of what is not checked yet the worst check knows nothing.
    pub fn state(&self) -> String {
        self.worst().map_or_else(String::new, |worst| capital(&verdict::state(worst.state, self.is_part())))
    }

    /// What else is not met or marginal in this stage, once for each criterion; months count as one.
    pub fn others(&self) -> impl Iterator<Item = &Check> {
        let told = |check: &Check| matches!(check.state, State::NotMet | State::Marginal);
        let rest = self.checks.iter().enumerate().skip(1).filter(move |(_, check)| told(check));
        rest.filter(|(index, check)| {
            let before = &self.checks[..*index];
            !before.iter().any(|other| other.criterion.id == check.criterion.id)
        })
        .map(|(_, check)| check)
    }

    /// Whether none of its checks has been asked about.
    pub fn waits(&self, judged: &Judged, sheet: &'static Declaration) -> bool {
        self.worst().is_some_and(|worst| waits_for(worst, judged, sheet).is_some())
    }
}

/// The checks of each stage, the stage with the worst check first; stages of which nothing is checked yet come last.
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

/// The answer: the worst check in one sentence, then how the other stages stand.
pub struct Verdict {
    /// The worst check with its stage and time of the year, and whether other checks wait for an entry; none where nothing
    /// is checked.
    pub worst: Option<(Check, String, bool)>,
    /// What asks to hold whatever the numbers say.
    pub hold: Option<&'static str>,
    /// The other stages, state by state, and that a water test decides.
    pub rest: String,
}

impl Verdict {
    /// The whole in plain text, for paper.
    pub fn text(&self, set: UnitSet) -> String {
        let worst = self.worst.as_ref().map(|(check, place, is_part)| {
            format!("{} {} ", verdict::headline(check, place, *is_part), verdict::sentence(check, set))
        });
        let hold = self.hold.map(|hold| format!("{hold} ")).unwrap_or_default();
        hold + &worst.unwrap_or_default() + &self.rest
    }
}

/// The answer for all stages.
pub fn verdict(stages: &[OfStage], judged: &Judged, sheet: &'static Declaration) -> Verdict {
    let (waiting, checked): (Vec<&OfStage>, Vec<&OfStage>) =
        stages.iter().partition(|stage| stage.waits(judged, sheet));
    let is_part = !waiting.is_empty() || checked.iter().any(|stage| stage.is_part());
    let worst = checked.first().and_then(|stage| stage.worst());
    let names = |stages: &mut dyn Iterator<Item = &Check>| {
        stages.map(|worst| say(worst.criterion.stage.name())).collect::<Vec<_>>().join(", ")
    };
    let of = |state: State| {
        let others = checked.iter().skip(1).filter_map(|stage| stage.worst());
        names(&mut others.filter(|worst| worst.state == state))
    };
    let in_part = checked.iter().filter(|stage| stage.is_part());
    let said = [
        (WORDS.section.also_not_met, of(State::NotMet)),
        (WORDS.section.cannot_be_told, of(State::NotKnown)),
        (WORDS.section.is_marginal, of(State::Marginal)),
        (WORDS.section.checked_in_part, names(&mut in_part.filter_map(|stage| stage.worst()))),
        (WORDS.section.not_checked, names(&mut waiting.iter().filter_map(|stage| stage.worst()))),
    ];
    let said = said.iter().filter(|(_, stages)| !stages.is_empty());
    let said = said.map(|(words, stages)| fill(words, &[("stages", stages)]));
    let rest: Vec<String> = said.chain([WORDS.section.estimate.to_owned()]).collect();
    let worst = worst.map(|worst| (worst.clone(), checks::place(worst), is_part));
    let dosing = sheet.input("building-dosing").and_then(|index| judged.values.get(index)?.as_ref());
    let hold = holds(&judged.assessment.checks, dosing).then_some(WORDS.section.hold);
    Verdict { worst, hold, rest: rest.join(" ") }
}

/// The stage with the state and the numbers of its worst check.
pub fn line(stage: &OfStage, set: UnitSet) -> Html {
    let Some(worst) = stage.worst() else { return Html::default() };
    let of = worst.criterion.stage;
    html! {
        <li key={of.id()} class="line" id={ids::stage_line(of.id())} data-state={worst.state.id()}>
            { mark(worst.state) }
            <span class="line-stage">{ say(of.name()) }</span>
            <strong class="state">{ stage.state() }</strong>
            <span class="line-numbers">{ short(worst, set) }</span>
        </li>
    }
}

/// The stages of which nothing is checked yet, one line each: which entries would begin it.
pub fn not_checked(stages: &[OfStage], judged: &Judged, sheet: &'static Declaration) -> Html {
    let waiting: Vec<&OfStage> = stages.iter().filter(|stage| stage.waits(judged, sheet)).collect();
    if waiting.is_empty() {
        return Html::default();
    }
    let line = |stage: &&OfStage| {
        let Some(worst) = stage.worst() else { return Html::default() };
        let of = worst.criterion.stage;
        html! {
            <li id={ids::stage_line(of.id())} tabindex="-1">
                <span class="line-stage">{ say(of.name()) }</span>{ ". " }{ enter(&stage.waits_for, sheet) }
            </li>
        }
    };
    html! {
        <section aria-labelledby="not-checked">
            <h3 id="not-checked">{ WORDS.section.not_checked_yet }</h3>
            <ul class="not-checked">{ for waiting.iter().map(line) }</ul>
        </section>
    }
}

/// What is not checked yet in a stage of which other checks are, with the way to each field.
pub fn waiting(stage: &OfStage, sheet: &'static Declaration) -> Html {
    if !stage.is_part() {
        return Html::default();
    }
    html! {
        <p class="not-checked">
            <strong>{ WORDS.section.not_checked_yet }{ "." }</strong>{ " " }{ enter(&stage.waits_for, sheet) }
        </p>
    }
}
