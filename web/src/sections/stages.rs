//! One line for each stage of the water's way: its worst check.

use crate::ids;
use crate::sheet::checks::short;
use crate::sheet::mark::mark;
use calc::quantity::UnitSet;
use calc::sheet::{Check, Stage};
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
            <span class="line-numbers">{ short(worst, set) }</span>
        </li>
    }
}
