//! All errors at the top, each a link to its field.

use super::judge::Summed;
use crate::page::field_link::field_link;
use crate::page::ids;
use crate::text::{WORDS, counted};
use yew::prelude::*;

/// The summary; nothing where nothing is wrong. It is no alert, since the error has just been said beside its field.
pub fn summary(sheet: &'static str, errors: &[Summed]) -> Html {
    let count = errors.len();
    if count == 0 {
        return Html::default();
    }
    let heading = counted(WORDS.errors, count);
    let line = |error: &Summed| {
        if error.said.at.is_empty() {
            return html! { <li>{ &error.said.text }</li> };
        }
        html! {
            <li>
                { field_link(sheet, &error.said.at, error.name) }
                { " " }{ &error.said.text }
            </li>
        }
    };
    html! {
        <section class="error-summary" id={ids::ERRORS} aria-labelledby="error-summary-title">
            <h3 id="error-summary-title">{ heading }</h3>
            <ul>{ for errors.iter().map(line) }</ul>
        </section>
    }
}
