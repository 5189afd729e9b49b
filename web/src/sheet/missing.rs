//! Why there is no number, with the way to the field that would give it.

use crate::page::field_link::field_link;
use crate::text::{WORDS, say};
use calc::engine::sheet::{Absence, Declaration, Missing};
use yew::prelude::*;

/// Which of the two it is, and why.
pub fn missing(missing: &Missing, declaration: &'static Declaration) -> Html {
    if missing.absence == Absence::NoneExists {
        return html! { <span class="missing">{ WORDS.none_exists }{ " " }{ say(missing.why) }</span> };
    }
    html! { <span class="missing">{ WORDS.not_known }{ ": " }{ what_is_needed(missing, declaration) }</span> }
}

/// What would have to be known, for where it was said that something is not.
pub fn what_is_needed(missing: &Missing, declaration: &'static Declaration) -> Html {
    let field = declaration.inputs.iter().find(|field| field.id == missing.field);
    match field {
        Some(field) if missing.absence == Absence::Empty => html! {
            <>{ WORDS.needs }{ " " }{ field_link(declaration.id, field.id, say(field.term.name)) }</>
        },
        Some(field) => html! {
            <>{ say(missing.why) }{ "; " }{ WORDS.see }{ " " }{ field_link(declaration.id, field.id, say(field.term.name)) }</>
        },
        None => html! { { say(missing.why) } },
    }
}
