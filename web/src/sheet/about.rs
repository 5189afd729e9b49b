//! What stands around the numbers of a sheet: where they come from, what to beware of, what was assumed.

use super::judge::Judged;
use crate::page::field_link::field_link;
use crate::page::route;
use crate::sections::evidence;
use crate::state::{Action, Filling};
use crate::text::{WORDS, alone, called, say, tell};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Caution, Check, Declaration, Field, Source, Warning};
use yew::prelude::*;

/// The record that fills a sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Origin {
    /// The name of the place.
    pub name: AttrValue,
    /// Whether place and numbers are invented.
    pub invented: bool,
}

/// From which record it comes.
pub fn record(record: Option<&Origin>) -> Html {
    let Some(record) = record.filter(|record| record.invented || !record.name.is_empty()) else {
        return Html::default();
    };
    html! {
        <p class="record">
            { WORDS.from_record }{ " " }<strong>{ &record.name }</strong>
            if record.invented { { " " }<span class="tag">{ WORDS.invented }</span> }
        </p>
    }
}

/// Empties the sheet.
pub fn clear(sheet: &'static Declaration, filled: bool, send: &Callback<Action>) -> Html {
    let onclick = send.reform(move |_: MouseEvent| Action::Clear(sheet));
    html! {
        if filled {
            <p class="clear"><button type="button" class="plain" id="clear" {onclick}>{ WORDS.clear }</button></p>
        }
    }
}

/// Which entries the answers leave out. Said at once, also while they are being typed: the numbers beside it are those
/// of an empty field.
pub fn left_out(fields: &[&'static Field], sheet: &'static Declaration) -> Html {
    if fields.is_empty() {
        return Html::default();
    }
    html! {
        <section class="left-out" id="left-out" aria-labelledby="left-out-title">
            <h3 id="left-out-title">{ WORDS.left_out }</h3>
            <ul>{ for fields.iter().map(|field| html! { <li>{ field_link(sheet.id, field.id, say(field.term.name)) }</li> }) }</ul>
        </section>
    }
}

/// What to beware of.
pub fn cautions(cautions: &[&'static Caution]) -> Html {
    if cautions.is_empty() {
        return Html::default();
    }
    html! {
        <section class="cautions" aria-labelledby="cautions">
            <h3 id="cautions">{ WORDS.cautions }</h3>
            { for cautions.iter().map(|caution| html! { <p id={format!("caution-{}", caution.id)}>{ say(caution.text) }</p> }) }
        </section>
    }
}

/// What was assumed for empty fields, and what is unusual, each with the way to its field.
pub fn remarks(judged: &Judged, filling: &Filling, sheet: &'static Declaration, set: UnitSet) -> Html {
    html! {
        <>
            { list("look-again", WORDS.look_again, look_again(judged, filling, sheet, set)) }
            { list("assumed", WORDS.assumed, assumed(judged, sheet, set)) }
        </>
    }
}

/// What is unusual, each with the way to its field.
pub fn look_again(
    judged: &Judged,
    filling: &Filling,
    sheet: &'static Declaration,
    set: UnitSet,
) -> Vec<Html> {
    lines(judged.warnings(filling), sheet, set)
}

/// What was assumed for empty fields, line by line.
pub fn assumed(judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Vec<Html> {
    lines(judged.assessment.warnings.iter().filter(|warning| warning.assumed), sheet, set)
}

fn lines<'a>(
    warnings: impl Iterator<Item = &'a Warning>,
    sheet: &'static Declaration,
    set: UnitSet,
) -> Vec<Html> {
    let line = |warning: &Warning| {
        let field = sheet.inputs.iter().find(|field| field.id == warning.field);
        html! {
            <li>
                { alone(&tell(&warning.sentence, set)) }{ " " }
                if let Some(field) = field {
                    { field_link(sheet.id, field.id, say(field.term.name)) }
                }
            </li>
        }
    };
    warnings.map(line).collect()
}

fn list(id: &'static str, heading: &'static str, lines: Vec<Html>) -> Html {
    if lines.is_empty() {
        return Html::default();
    }
    html! {
        <section aria-labelledby={id}>
            <h3 {id}>{ heading }</h3>
            <ul class="remarks">{ for lines }</ul>
        </section>
    }
}

/// What the sheet rests on, folded.
pub fn sources(sheet: &'static Declaration) -> Html {
    if sheet.sources.is_empty() {
        return Html::default();
    }
    let basis = html! { <p><a href={route::BASIS}>{ WORDS.basis.link }</a></p> };
    folded(sheet.sources, html! { <>{ evidence(sheet) }{ basis }</> })
}

/// The rules behind these checks, each with how well its text is known, folded.
pub fn sources_of(checks: &[Check]) -> Html {
    let mut sources: Vec<&'static Source> = Vec::new();
    for check in checks {
        if !sources.contains(&check.criterion.source) {
            sources.push(check.criterion.source);
        }
    }
    if sources.is_empty() { Html::default() } else { folded(&sources, Html::default()) }
}

fn folded(sources: &[&'static Source], after: Html) -> Html {
    let known = |source: &Source| alone(say(source.known.words()));
    html! {
        <details class="tool" id="sources">
            <summary>{ WORDS.sources }</summary>
            <ul class="sources">
                { for sources.iter().map(|source| html! { <li>{ called(source) }{ ". " }{ known(source) }</li> }) }
            </ul>
            { after }
        </details>
    }
}
