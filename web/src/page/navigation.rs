//! The way through the page: the stages in the order of the water's way, each with its sheets.

use crate::page::route::{self, Route};
use crate::text::{WORDS, say};
use calc::engine::sheet::{Declaration, Stage};
use calc::program::catalogue;
use yew::prelude::*;

/// Where one is.
#[derive(Properties, PartialEq, Clone)]
pub struct NavigationProps {
    /// The present view.
    pub route: Route,
}

/// All sheets. On a narrow screen the list is folded until it is asked for.
#[component]
pub fn Navigation(props: &NavigationProps) -> Html {
    let open = use_state_eq(|| false);
    {
        let open = open.setter();
        use_effect_with(props.route, move |_| open.set(false));
    }
    let onclick = {
        let open = open.clone();
        Callback::from(move |_: MouseEvent| open.set(!*open))
    };
    html! {
        <nav class="navigation" aria-label={WORDS.sheets}>
            <button type="button" class="fold" aria-expanded={open.to_string()} aria-controls="all-sheets" {onclick}>{ WORDS.sheets }</button>
            <div class={classes!("all-sheets", open.then_some("open"))} id="all-sheets">
                { for Stage::ALL.iter().map(|stage| of_stage(*stage, props.route)) }
            </div>
        </nav>
    }
}

fn of_stage(stage: Stage, route: Route) -> Html {
    let sheets: Vec<&'static Declaration> = catalogue::of_stage(stage).collect();
    if sheets.is_empty() {
        return Html::default();
    }
    let link = |sheet: &&'static Declaration| {
        let here = matches!(route, Route::Sheet(entry, _) if entry.declaration.id == sheet.id);
        html! {
            <li>
                <a id={format!("sheet-{}", sheet.id)} href={route::of_sheet(sheet.id)} aria-current={here.then_some("page")}>
                    { say(sheet.name) }
                </a>
            </li>
        }
    };
    let id = format!("stage-{}", stage.id());
    html! {
        <section class="stage-sheets" aria-labelledby={id.clone()}>
            <h2 {id}>{ say(stage.name()) }</h2>
            <ul class="links">{ for sheets.iter().map(link) }</ul>
        </section>
    }
}
