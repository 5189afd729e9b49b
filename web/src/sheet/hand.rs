//! Numbers that other sheets ask for: the way from here to there, and at an empty field the way to where it is worked out.

use super::judge::Judged;
use super::shown;
use super::take::typed;
use crate::browser::address;
use crate::page::route;
use crate::state::Action;
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Declaration, Field};
use calc::program::hand_over::{Handed, all, for_field};
use yew::prelude::*;

/// One button for each field of another sheet that asks for a number of this one, folded; nothing where there is none.
pub fn hand_over(
    sheet: &'static Declaration,
    judged: &Judged,
    set: UnitSet,
    send: &Callback<Action>,
) -> Html {
    let of_sheet = all().filter(|handed| handed.by.id == sheet.id);
    let buttons: Vec<Html> = of_sheet.filter_map(|handed| button(handed, judged, set, send)).collect();
    if buttons.is_empty() {
        return Html::default();
    }
    html! {
        <details class="tool take" id="hand-over">
            <summary>{ WORDS.kept.hand_over }</summary>
            <ul>{ for buttons.into_iter().map(|button| html! { <li>{ button }</li> }) }</ul>
        </details>
    }
}

/// Fills the field there and goes to it.
fn button(handed: Handed, judged: &Judged, set: UnitSet, send: &Callback<Action>) -> Option<Html> {
    let Handed { by, output, to, field } = handed;
    let Answer::Number(si, kind) = judged.assessment.answers.get(output)? else { return None };
    let unit = shown::unit_of(by.outputs.get(output)?, kind, set);
    let (text, send) = (typed(*si, unit), send.clone());
    let onclick = Callback::from(move |_: MouseEvent| {
        send.emit(Action::Hand(to, field, text.clone(), by.id));
        address::go(&route::of_field(to.id, field.id));
    });
    let number = shown::quantity(*si, unit);
    let words = fill(
        WORDS.kept.hand_to,
        &[("number", &number), ("field", say(field.term.name)), ("sheet", say(to.name))],
    );
    let id = format!("hand-{}-{}", to.id, field.id);
    Some(html! { <button type="button" class="plain" {id} {onclick}>{ words }</button> })
}

/// The way to the sheets that work an empty field out.
pub fn worked_out(sheet: &'static Declaration, field: &'static Field, is_empty: bool) -> Html {
    let mut by: Vec<&'static Declaration> = Vec::new();
    if is_empty {
        for handed in for_field(sheet, field) {
            if !by.iter().any(|other| other.id == handed.by.id) {
                by.push(handed.by);
            }
        }
    }
    let link = |by: &&'static Declaration| {
        let words = fill(WORDS.section.worked_out, &[("sheet", say(by.name))]);
        html! { <p class="worked-out"><a href={route::of_sheet(by.id)}>{ words }</a></p> }
    };
    html! { <>{ for by.iter().map(link) }</> }
}
