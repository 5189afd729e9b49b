//! One line for each stage of the water's way: its worst check.

use crate::ids;
use crate::sheet::mark::mark;
use crate::sheet::shown;
use crate::text::{WORDS, fill};
use calc::quantity::UnitSet;
use calc::sheet::{Check, Stage, State};
use yew::prelude::*;

/// The checks of each stage, the stage with the worst check first. They come worst first.
pub fn by_stage(checks: &[Check]) -> Vec<Vec<Check>> {
    let mut stages: Vec<(Stage, Vec<Check>)> = Vec::new();
    for check in checks {
        let stage = check.criterion.stage;
        match stages.iter_mut().find(|(of, _)| *of == stage) {
            Some((_, checks)) => checks.push(check.clone()),
            None => stages.push((stage, vec![check.clone()])),
        }
    }
    stages.into_iter().map(|(_, checks)| checks).collect()
}

/// The stage with the state and the numbers of its worst check.
pub fn line(checks: &[Check], set: UnitSet) -> Html {
    let Some(worst) = checks.first() else { return Html::default() };
    let stage = worst.criterion.stage;
    html! {
        <li class="line" id={ids::stage_line(stage.id())} data-state={worst.state.id()}>
            { mark(worst.state) }
            <span class="line-stage">{ stage.name() }</span>
            <strong class="state">{ worst.state.words() }</strong>
            <span class="line-numbers">{ numbers(worst, set) }</span>
        </li>
    }
}

fn numbers(check: &Check, set: UnitSet) -> String {
    let unit = check.kind.unit_in(set);
    match check.state {
        State::NotMet | State::Close | State::Met => fill(
            WORDS.line_numbers,
            &[
                ("value", &shown::quantity(check.value, unit)),
                ("side", check.criterion.side.words()),
                ("limit", &shown::quantity(check.limit, unit)),
            ],
        ),
        State::NotKnown => match &check.missing {
            Some(missing) => fill(WORDS.line_needs, &[("why", missing.why)]),
            None => String::new(),
        },
        State::DoesNotApply => check.instead.map_or_else(String::new, |instead| instead.sentence.to_owned()),
    }
}
