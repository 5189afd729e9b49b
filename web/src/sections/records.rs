//! Section Records: what is open, and what comes from a file.

use crate::ids;
use crate::parts::open_record::OpenRecord;
use crate::state::{Action, Content};
use crate::text::WORDS;
use calc::record::Record;
use std::rc::Rc;
use yew::prelude::*;

/// What the section shows.
#[derive(Properties, Clone)]
pub struct RecordsProps {
    /// What stands on the page.
    pub now: Rc<Content>,
    /// Hears of every change.
    pub send: Callback<Action>,
    /// Hears of a record from a file.
    pub on_found: Callback<Record>,
}

impl PartialEq for RecordsProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.now, &other.now)
    }
}

/// The open record, and the way to another.
#[component]
pub fn Records(props: &RecordsProps) -> Html {
    let name = match props.now.name() {
        "" => WORDS.unnamed_place,
        name => name,
    };
    html! {
        <div class="start">
            <h2 id={ids::VIEW} tabindex="-1">{ WORDS.records }</h2>
            <p>{ WORDS.open_now }{ " " }<strong>{ name }</strong></p>
            <OpenRecord on_found={props.on_found.clone()} />
        </div>
    }
}
