//! What stands over every view: the sections, the steps back and forth, the units.

use super::units::units;
use crate::route::{self, Route};
use crate::state::{Action, State};
use crate::text::WORDS;
use yew::prelude::*;

/// The sections of the page, with what is at hand in each of them.
pub fn top(route: Route, state: &State, send: &Callback<Action>) -> Html {
    let link = |id: &'static str, to: &'static str, name: &'static str, here: bool| {
        html! { <li><a {id} href={to} aria-current={here.then_some("page")}>{ name }</a></li> }
    };
    let step = |id: &'static str, name: &'static str, can: bool, action: fn() -> Action| {
        let onclick = send.reform(move |_: MouseEvent| action());
        html! { <button type="button" class="plain" {id} disabled={!can} {onclick}>{ name }</button> }
    };
    let is_sheets = matches!(route, Route::Sheet(..) | Route::Sheets);
    html! {
        <div class="top">
            <nav class="sections" aria-label={WORDS.section.sections}>
                <ul>
                    { link("start", route::START, WORDS.start, route == Route::Start) }
                    { link("section-place", route::PLACE, WORDS.section.place, matches!(route, Route::Place(_))) }
                    { link("section-room-check", route::ROOM_CHECK, WORDS.section.room_check, route == Route::RoomCheck) }
                    { link("section-records", route::RECORDS, WORDS.section.records, route == Route::Records) }
                    { link("section-sheets", route::SHEETS, WORDS.sheets, is_sheets) }
                </ul>
            </nav>
            <section class="at-hand" aria-label={WORDS.section.at_hand}>
                { step("undo", WORDS.section.undo, state.can_undo(), || Action::Undo) }
                { step("redo", WORDS.section.redo, state.can_redo(), || Action::Redo) }
                { units(state.units, send) }
            </section>
        </div>
    }
}
