//! The figures that a sheet declares, each with the choice of the time of the year and what it lacks.

use super::clock::clock;
use super::path::{path, sentence};
use super::read::{Numbers, times};
use super::stairs::{Stairs, stairs};
use crate::chart::ChartView;
use crate::page::still::Still;
use crate::sheet::judge::Judged;
use crate::sheet::missing::what_is_needed;
use crate::state::Filling;
use crate::text::{WORDS, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Draws, Figure, Missing};
use std::rc::Rc;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// Which figure, of which numbers.
#[derive(Properties, Clone)]
pub struct FigureProps {
    /// The figure.
    pub figure: Still<Figure>,
    /// The numbers.
    pub judged: Rc<Judged>,
    /// Whose.
    pub sheet: Still<Declaration>,
    /// The units of the page.
    pub set: UnitSet,
    /// What was typed.
    pub filling: Filling,
    /// Whether the lines of the stages stand on the same view, so that a spot can lead there.
    #[prop_or_default]
    pub with_links: bool,
}

impl PartialEq for FigureProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.judged, &other.judged) && self.figure == other.figure && self.set == other.set
    }
}

/// One figure.
#[component]
pub fn FigureView(props: &FigureProps) -> Html {
    let FigureProps { figure, judged, sheet, set, filling, with_links } = props.clone();
    let chosen = use_state_eq(|| None::<String>);
    let (times, first) = times(figure.0, &judged, sheet.0);
    let chosen_time = chosen.as_deref().filter(|id| times.iter().any(|time| time.id == *id));
    let time = chosen_time.unwrap_or(first);
    let numbers = Numbers { judged: &judged, sheet: sheet.0, set, time, filling: &filling };
    let case = use_state_eq(|| None::<String>);
    let (inner, missing) = match &figure.0.draws {
        &Draws::Stairs { quantity, along, steps, flights, least } => {
            let of = Stairs { quantity, along, steps, flights, least };
            let (chart, missing) = stairs(figure.0, &of, &numbers);
            let drawn = chart.map(|chart| html! { <ChartView id={figure.id} chart={Rc::new(chart)} /> });
            (drawn.unwrap_or_default(), missing)
        }
        &Draws::Path { cases, spots } => {
            let index = cases.iter().position(|(id, _)| case.as_deref() == Some(*id)).unwrap_or_default();
            let choices: Vec<(&str, &str)> = cases.to_vec();
            let drawn = html! {
                <>
                    { choose(format!("{}-case", figure.id), WORDS.figure.case, &choices, cases[index].0, case.setter()) }
                    <p class="chart-summary" id={format!("{}-summary", figure.id)}>{ sentence(spots, &numbers, index) }</p>
                    { path(spots, &numbers, index, with_links) }
                </>
            };
            (drawn, Vec::new())
        }
        Draws::Clock(clocked) => clock(figure.id, clocked, &numbers),
    };
    let choices: Vec<(&str, &str)> = times.iter().map(|time| (time.id, say(time.name))).collect();
    html! {
        <div class="figure" id={format!("figure-{}", figure.id)}>
            <p>{ say(figure.about) }</p>
            { choose(format!("{}-time", figure.id), WORDS.figure.time, &choices, time, chosen.setter()) }
            { inner }
            { lacks(&missing, sheet.0) }
        </div>
    }
}

/// A list of choices; nothing where there is no choice.
fn choose(
    id: String,
    label: &'static str,
    choices: &[(&str, &str)],
    chosen: &str,
    setter: UseStateSetter<Option<String>>,
) -> Html {
    if choices.len() < 2 {
        return Html::default();
    }
    let onchange = Callback::from(move |event: Event| {
        setter.set(Some(event.target_unchecked_into::<HtmlSelectElement>().value()));
    });
    html! {
        <div class="choose">
            <label for={id.clone()}>{ label }</label>
            <select {id} ~value={chosen.to_owned()} {onchange}>
                { for choices.iter().map(|(id, name)| html! {
                    <option value={(*id).to_owned()} selected={*id == chosen}>{ *name }</option>
                }) }
            </select>
        </div>
    }
}

/// What a figure lacks, each reason once, with the way to the field that would give it.
fn lacks(missing: &[Missing], sheet: &'static Declaration) -> Html {
    if missing.is_empty() {
        return Html::default();
    }
    html! {
        <div class="not-checked">
            <strong>{ WORDS.figure.not_drawn }</strong>
            <ul>{ for missing.iter().map(|why| html! { <li>{ what_is_needed(why, sheet) }</li> }) }</ul>
        </div>
    }
}
