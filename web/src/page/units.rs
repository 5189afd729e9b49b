//! The units of the page.

use crate::state::Action;
use crate::text::WORDS;
use calc::engine::quantity::UnitSet;
use yew::prelude::*;

/// SI practice or US practice: two radio buttons.
pub fn units(chosen: UnitSet, send: &Callback<Action>) -> Html {
    let radio = |id: &'static str, name: &'static str, set: UnitSet| {
        let onchange = send.reform(move |_: Event| Action::Units(set));
        html! {
            <span class="choice">
                <input type="radio" name="page-units" {id} checked={chosen == set} {onchange} />
                <label for={id}>{ name }</label>
            </span>
        }
    };
    html! {
        <fieldset class="units">
            <legend>{ WORDS.units }</legend>
            { radio("units-si", WORDS.si, UnitSet::Metric) }
            { radio("units-us", WORDS.us, UnitSet::Us) }
        </fieldset>
    }
}
