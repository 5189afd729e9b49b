//! One of some named values: radio buttons while they are few, else a list. Not to choose is a choice of its own.

use super::frame::{described_by, frame};
use super::{FieldProps, chosen_of};
use crate::state::Change;
use crate::text::{WORDS, say};
use calc::engine::sheet::Named;
use yew::prelude::*;

/// The most values that are shown as radio buttons.
const FEW: usize = 5;

/// One of some named values.
pub fn choice(props: &FieldProps, named: &'static [Named]) -> Html {
    if named.len() <= FEW { radios(props, named) } else { list(props, named) }
}

fn radios(props: &FieldProps, named: &'static [Named]) -> Html {
    let (field, sender) = (props.field.0, props.sender());
    let chosen = props.typed().text;
    let radio = |id: String, value: &'static str, name: &'static str| {
        let onchange = sender.on(move |_: Event| Change::Text(value.to_owned()));
        html! {
            <div class="choice">
                <input type="radio" id={id.clone()} name={field.id} {value} checked={chosen == value} {onchange} />
                <label for={id}>{ name }</label>
            </div>
        }
    };
    let control = html! {
        <div class="choices">
            { for named.iter().map(|one| radio(format!("{}-{}", field.id, one.id), one.id, say(one.name))) }
            { radio(format!("{}-not-entered", field.id), "", WORDS.not_entered) }
        </div>
    };
    frame(props, true, control)
}

fn list(props: &FieldProps, named: &'static [Named]) -> Html {
    let chosen = props.typed().text;
    let control = html! {
        <div class="field-line">
            <select class="named" id={props.field.id} aria-describedby={described_by(props)} ~value={chosen.clone()}
                onchange={props.sender().on(|event| Change::Text(chosen_of(event)))}>
                { options(named, &chosen) }
            </select>
        </div>
    };
    frame(props, false, control)
}

/// The values of a list, first the one that was not made.
pub fn options(named: &'static [Named], chosen: &str) -> Html {
    html! {
        <>
            <option value="" selected={chosen.is_empty()}>{ WORDS.not_entered }</option>
            { for named.iter().map(|one| html! {
                <option value={one.id} selected={one.id == chosen}>{ say(one.name) }</option>
            }) }
        </>
    }
}
