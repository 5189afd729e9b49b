//! Where one begins.

use super::find::Find;
use super::open_record::OpenRecord;
use crate::page::{ids, route};
use crate::state::record::{ROOMS, Room, open};
use crate::state::{Action, Content};
use crate::text::WORDS;
use calc::documents::record::Record;
use std::rc::Rc;
use yew::prelude::*;

/// What Tapside is for; the plan, the invented rooms and a record, each one step away.
pub fn start(now: &Rc<Content>, send: &Callback<Action>, on_found: &Callback<Record>) -> Html {
    html! {
        <div class="start">
            <h2 id={ids::VIEW} tabindex="-1">{ WORDS.start }</h2>
            { for WORDS.purpose.iter().map(|sentence| html! { <p class="purpose">{ *sentence }</p> }) }
            <p><a class="main-link" href={route::PLACE}>{ WORDS.begin_plan }</a></p>
            <section aria-labelledby="questions">
                <h3 id="questions">{ WORDS.find.questions }</h3>
                <ul class="links">{ for WORDS.find.question.iter().map(question) }</ul>
            </section>
            <Find index={false} />
            <section aria-labelledby="rooms">
                <h3 id="rooms">{ WORDS.rooms }</h3>
                <p>{ WORDS.rooms_are_invented }</p>
                <div class="rooms">
                    { for ROOMS.iter().zip(WORDS.room_names).map(|(room, name)| button(room, name, on_found)) }
                </div>
            </section>
            <OpenRecord now={Rc::clone(now)} send={send.clone()} on_found={on_found.clone()} />
            <p><a href={route::BASIS}>{ WORDS.basis.title }</a></p>
        </div>
    }
}

fn question((words, sheet): &(&'static str, Option<&'static str>)) -> Html {
    let to = sheet.map_or_else(|| route::PLACE.to_owned(), route::of_sheet);
    html! { <li><a href={to}>{ *words }</a></li> }
}

fn button(room: &'static Room, name: &'static str, on_found: &Callback<Record>) -> Html {
    let on_found = on_found.clone();
    let onclick = Callback::from(move |_: MouseEvent| {
        if let Ok(record) = open(room.text) {
            on_found.emit(record);
        }
    });
    html! {
        <button type="button" id={room.id} {onclick}>
            { name }{ " " }<span class="tag">{ WORDS.invented }</span>
        </button>
    }
}
