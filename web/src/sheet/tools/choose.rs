//! The lists from which a number and an entry are chosen, and the fold around a tool.

use super::looked::Looked;
use crate::text::WORDS;
use web_sys::{HtmlDetailsElement, HtmlSelectElement};
use yew::prelude::*;

/// A list with its label. The groups without an option are left out; without a name they are no group.
pub fn list(
    id: String,
    label: &'static str,
    groups: &[(&'static str, Vec<(&str, &str)>)],
    chosen: &str,
    on_choose: &UseStateSetter<String>,
) -> Html {
    let options = |options: &[(&str, &str)]| -> Html {
        let option = |(id, name): &(&str, &str)| {
            html! { <option value={(*id).to_owned()} selected={*id == chosen}>{ *name }</option> }
        };
        options.iter().map(option).collect()
    };
    let group = |(name, all): &(&'static str, Vec<(&str, &str)>)| match (name, all.is_empty()) {
        (_, true) => Html::default(),
        (&"", _) => options(all),
        (name, _) => html! { <optgroup label={*name}>{ options(all) }</optgroup> },
    };
    let onchange = {
        let on_choose = on_choose.clone();
        Callback::from(move |event: Event| {
            on_choose.set(event.target_unchecked_into::<HtmlSelectElement>().value())
        })
    };
    html! {
        <div class="choose">
            <label for={id.clone()}>{ label }</label>
            <select {id} ~value={chosen.to_owned()} {onchange}>{ for groups.iter().map(group) }</select>
        </div>
    }
}

/// The list of the numbers of a sheet.
pub fn numbers(id: String, looked: &Looked, chosen: &str, on_choose: &UseStateSetter<String>) -> Html {
    let of = |is_output: bool| {
        let those = looked.numbers.iter().filter(move |number| number.output.is_some() == is_output);
        those.map(|number| (number.id.as_str(), number.name.as_str())).collect()
    };
    let groups = [(WORDS.tools.values, of(true)), (WORDS.tools.checks, of(false))];
    list(id, WORDS.tools.number, &groups, chosen, on_choose)
}

/// The list of the entries of a sheet.
pub fn dials(
    (id, label): (String, &'static str),
    looked: &Looked,
    chosen: &str,
    on_choose: &UseStateSetter<String>,
) -> Html {
    let all = looked.dials.iter().map(|dial| (dial.id.as_str(), dial.name.as_str())).collect();
    list(id, label, &[("", all)], chosen, on_choose)
}

/// A tool, folded until it is asked for.
pub fn fold(
    id: String,
    name: &'static str,
    hint: &'static str,
    open: &UseStateHandle<bool>,
    inner: Html,
) -> Html {
    let ontoggle = {
        let open = open.setter();
        Callback::from(move |event: Event| {
            open.set(event.target_unchecked_into::<HtmlDetailsElement>().open())
        })
    };
    html! {
        <details class="tool" {id} {ontoggle}>
            <summary>{ name }</summary>
            if **open {
                <p class="field-hint">{ hint }</p>
                { inner }
            }
        </details>
    }
}
