//! What stands over every view: the sections, the steps back and forth, the units.

use super::units::units;
use crate::page::ids;
use crate::page::route::{self, Route};
use crate::state::{Action, State};
use crate::text::WORDS;
use calc::engine::quantity::UnitSet;
use yew::prelude::*;

/// The sections of the page, with what is at hand in each of them.
pub fn top(route: Route, state: &State, send: &Callback<Action>) -> Html {
    let link = |id: &'static str, to: &'static str, name: &'static str, here: bool| {
        html! { <li><a {id} href={to} aria-current={here.then_some("page")}>{ name }</a></li> }
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
            <AtHand set={state.units} can_undo={state.can_undo()} can_redo={state.can_redo()} {send} />
        </div>
    }
}

#[derive(Properties, PartialEq, Clone)]
struct AtHandProps {
    set: UnitSet,
    can_undo: bool,
    can_redo: bool,
    send: Callback<Action>,
}

/// On a phone the steps and the units are folded until they are asked for: they would take a third of the screen.
#[component]
fn AtHand(props: &AtHandProps) -> Html {
    let open = use_state_eq(|| false);
    let onclick = {
        let open = open.clone();
        Callback::from(move |_: MouseEvent| open.set(!*open))
    };
    let step = |id: &'static str, name: &'static str, can: bool, action: fn() -> Action| {
        let onclick = props.send.reform(move |_: MouseEvent| action());
        html! { <button type="button" class="plain" {id} disabled={!can} {onclick}>{ name }</button> }
    };
    html! {
        <>
            <button type="button" class="plain more" id={ids::MORE} aria-expanded={open.to_string()} aria-controls={ids::AT_HAND}
                {onclick}>{ WORDS.section.more }</button>
            <section class={classes!("at-hand", open.then_some("open"))} id={ids::AT_HAND} aria-label={WORDS.section.at_hand}>
                { step("undo", WORDS.section.undo, props.can_undo, || Action::Undo) }
                { step("redo", WORDS.section.redo, props.can_redo, || Action::Redo) }
                { units(props.set, &props.send) }
            </section>
        </>
    }
}
