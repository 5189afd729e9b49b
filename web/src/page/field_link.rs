//! A link to a field: it goes there with the focus, so that typing can begin.

use crate::browser::focus;
use crate::page::route;
use yew::prelude::*;

/// A link to a field of a sheet, or to a cell of a table in it.
pub fn field_link(sheet: &'static str, to: &str, name: &'static str) -> Html {
    let onclick = {
        let to = to.to_owned();
        Callback::from(move |event: MouseEvent| {
            // With a key held down the person wants a new tab; then the address leads there.
            if !(event.ctrl_key() || event.meta_key() || event.shift_key()) && focus::on(&to) {
                event.prevent_default();
            }
        })
    };
    html! { <a class="to-field" href={route::of_field(sheet, to)} {onclick}>{ name }</a> }
}
