//! What the program rests on: every source, limit and assumption, the check values, and what the program does not do.

mod check_values;

use crate::page::{ids, route};
use crate::text::{WORDS, alone, called, fill, say};
use ::tests::rows::Kind;
use calc::engine::sheet::source::{self, HowKnown};
use calc::engine::sheet::{Declaration, Field, Source, Stage};
use calc::program::catalogue;
use calc::program::evidence;
use calc::trade::limits::{self, LimitSet};
use check_values::{check_values, count, count_all};
use yew::prelude::*;

/// All of it.
#[component]
pub fn Basis() -> Html {
    let checked = fill(
        WORDS.basis.checked,
        &[
            ("all", &count_all().to_string()),
            ("sheets", &catalogue::SHEETS.len().to_string()),
            ("published", &count(Kind::Published).to_string()),
            ("by-hand", &count(Kind::ByHand).to_string()),
            ("independent", &count(Kind::Independent).to_string()),
            ("memory", &count(Kind::Memory).to_string()),
        ],
    );
    // for paper: what is folded is not printed
    let all = use_state_eq(|| false);
    let open_all = {
        let all = all.setter();
        Callback::from(move |_: MouseEvent| all.set(true))
    };
    html! {
        <div class="basis">
            <h2 id={ids::VIEW} tabindex="-1">{ WORDS.basis.title }</h2>
            <p>{ WORDS.basis.about }</p>
            <p>{ checked }</p>
            <section aria-labelledby="not-done">
                <h3 id="not-done">{ WORDS.basis.not_done }</h3>
                <ul>{ for WORDS.basis.does_not.iter().map(|sentence| html! { <li>{ *sentence }</li> }) }</ul>
            </section>
            <p><button type="button" id="open-all" onclick={open_all}>{ WORDS.basis.open_all }</button></p>
            <details class="tool" id="from-memory" open={*all}>
                <summary>{ WORDS.basis.memory }</summary>
                <p>{ WORDS.basis.about_memory }</p>
                <ul>{ for recalled().map(|source| html! { <li>{ called(source) }</li> }) }</ul>
            </details>
            <details class="tool" id="limit-sets" open={*all}>
                <summary>{ WORDS.basis.limits }</summary>
                <ul>{ for limits::ALL.iter().map(of_limits) }</ul>
            </details>
            { for Stage::ALL.iter().map(|stage| of_stage(*stage, *all)) }
        </div>
    }
}

fn recalled() -> impl Iterator<Item = &'static Source> {
    source::ALL.iter().copied().filter(|source| source.known == HowKnown::Memory)
}

fn of_limits(limits: &&'static limits::Limits) -> Html {
    // the edition keeps its own name
    let name = LimitSet::NAMED[limits.set as usize].name;
    let rows = fill(
        WORDS.basis.of_limits,
        &[
            ("chemical", &limits.chemical.len().to_string()),
            ("microbial", &limits.microbial.len().to_string()),
        ],
    );
    html! {
        <li>
            <strong>{ say(name) }</strong>{ ". " }{ rows }
            if !limits.beyond.is_empty() { { " " }{ alone(say(limits.beyond)) } }
        </li>
    }
}

fn of_stage(stage: Stage, all: bool) -> Html {
    let sheets: Vec<&'static Declaration> = catalogue::of_stage(stage).collect();
    if sheets.is_empty() {
        return Html::default();
    }
    let id = format!("basis-{}", stage.id());
    html! {
        <section aria-labelledby={id.clone()}>
            <h3 {id}>{ say(stage.name()) }</h3>
            { for sheets.iter().map(|sheet| html! { <OfSheet sheet={*sheet} {all} /> }) }
        </section>
    }
}

/// A sheet, and whether it is opened with all others.
#[derive(Properties, Clone)]
struct OfSheetProps {
    sheet: &'static Declaration,
    all: bool,
}

impl PartialEq for OfSheetProps {
    fn eq(&self, other: &Self) -> bool {
        self.sheet.id == other.sheet.id && self.all == other.all
    }
}

/// Folded under its name. Its check values are computed when it is opened for the first time.
#[component]
fn OfSheet(props: &OfSheetProps) -> Html {
    let OfSheetProps { sheet, all } = *props;
    let seen = use_state_eq(|| false);
    let ontoggle = {
        let seen = seen.setter();
        Callback::from(move |_: Event| seen.set(true))
    };
    html! {
        <details class="tool" id={format!("basis-{}", sheet.id)} open={all} {ontoggle}>
            <summary>{ say(sheet.name) }</summary>
            if *seen || all { { of_sheet(sheet) } }
        </details>
    }
}

fn of_sheet(sheet: &'static Declaration) -> Html {
    let assumed: Vec<&Field> = sheet.inputs.iter().filter(|field| !field.term.assumed.is_empty()).collect();
    let taken = |field: &&Field| {
        let words = fill(
            WORDS.basis.if_empty,
            &[("field", say(field.term.name)), ("assumed", say(field.term.assumed))],
        );
        html! { <li>{ words }</li> }
    };
    let from = |source: &&'static Source| html! { <li>{ called(source) }{ ". " }{ alone(say(source.known.words())) }</li> };
    html! {
        <>
            <p><a href={route::of_sheet(sheet.id)}>{ fill(WORDS.basis.open_sheet, &[("sheet", say(sheet.name))]) }</a></p>
            <h4>{ WORDS.basis.sources }</h4>
            <ul>{ for sheet.sources.iter().map(from) }</ul>
            if !assumed.is_empty() {
                <h4>{ WORDS.basis.assumed }</h4>
                <ul>{ for assumed.iter().map(taken) }</ul>
            }
            <h4>{ WORDS.basis.values }</h4>
            { evidence(sheet) }
            { check_values(sheet) }
        </>
    }
}

/// How many of its check values are printed elsewhere, and why they are few.
pub fn evidence(sheet: &'static Declaration) -> Html {
    let Some(evidence) = evidence::of(sheet.id) else { return Html::default() };
    let template = match (evidence.published, evidence.why) {
        (0, _) => WORDS.published[0],
        (_, "") => WORDS.published[2],
        _ => WORDS.published[1],
    };
    let count = evidence.published.to_string();
    html! { <p class="source">{ fill(template, &[("count", &count), ("why", say(evidence.why))]) }</p> }
}
