//! The whole page.

use crate::browser::{address, clock, focus};
use crate::keeping::{Keeper, Status, StatusView, use_keeping};
use crate::page::faults::{dated_later, faults};
use crate::page::find::Find;
use crate::page::ids;
use crate::page::navigation::Navigation;
use crate::page::route::{self, Route};
use crate::page::start::start;
use crate::page::still::Still;
use crate::page::top::top;
use crate::sections::{Basis, LONGEST_TITLE, Place, Records, RoomCheck};
use crate::sheet::SheetView;
use crate::sheet::about::Origin;
use crate::sheet::of_record::OfRecord;
use crate::state::record;
use crate::state::{Action, State};
use crate::store::Id;
use crate::text::{WORDS, say, shortened};
use calc::documents::record::Record;
use calc::engine::sheet::Stage;
use gloo_timers::callback::Interval;
use std::rc::Rc;
use yew::prelude::*;

impl Reducible for State {
    type Action = Action;
    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        match self.after(action) {
            Some(next) => Rc::new(next),
            None => self,
        }
    }
}

/// The page: the way through it, and one view.
#[component]
pub fn App() -> Html {
    let state = use_reducer_eq(State::default);
    let route = address::use_route();
    let send = {
        let dispatcher = state.dispatcher();
        use_callback((), move |action, ()| dispatcher.dispatch(action))
    };
    use_clock(&send);
    let on_found = {
        let send = send.clone();
        use_callback((), move |record: Record, ()| {
            send.emit(Action::Open(Rc::new(record), Id::draw()));
            address::go(route::ROOM_CHECK);
        })
    };
    let (keeper, status) = use_keeping(&state.now, &send);
    use_arrival(route);
    let is_sheets = matches!(route, Route::Sheet(..) | Route::Sheets);
    html! {
        <div class={classes!("page", is_sheets.then_some("page-sheets"))}>
            <a class="skip" href={format!("#{}", ids::VIEW)}>{ WORDS.skip }</a>
            { top(route, &state, &send) }
            if is_sheets {
                <aside class="side" aria-label={WORDS.sheets}><Navigation {route} /></aside>
            }
            <main class={class_of(route)}>
                { faults(route, &state.now.record) }
                { dated_later(route, state.now.dated_later()) }
                { view(route, &state, &send, &on_found, &keeper, &status) }
                <StatusView {keeper} {status} now={Rc::clone(&state.now)} />
            </main>
        </div>
    }
}

fn class_of(route: Route) -> &'static str {
    match route {
        Route::Sheet(..) => "view-sheet",
        Route::Place(_) => "view-place",
        Route::RoomCheck => "view-room-check",
        Route::Start | Route::Records | Route::Sheets | Route::Basis | Route::Unknown => "view",
    }
}

fn view(
    route: Route,
    state: &State,
    send: &Callback<Action>,
    on_found: &Callback<Record>,
    keeper: &Keeper,
    status: &Status,
) -> Html {
    let now = &state.now;
    let plan = record::plan_entry().map(Still);
    match (route, plan) {
        (Route::Start, _) => start(now, send, on_found),
        (Route::Place(_), Some(plan)) => {
            html! { <Place entry={plan} now={Rc::clone(now)} set={state.units} send={send.clone()} /> }
        }
        (Route::RoomCheck, Some(plan)) => {
            html! { <RoomCheck entry={plan} now={Rc::clone(now)} set={state.units} send={send.clone()} /> }
        }
        (Route::Records, _) => {
            html! { <Records now={Rc::clone(now)} set={state.units} send={send.clone()} on_found={on_found.clone()} keeper={keeper.clone()} status={status.clone()} /> }
        }
        (Route::Sheets, _) => html! {
            <div class="start">
                <h2 id={ids::VIEW} tabindex="-1">{ WORDS.sheets }</h2>
                <p>{ WORDS.section.about_sheets }</p>
                <Find index={true} />
                <p><a href={route::BASIS}>{ WORDS.basis.link }</a></p>
            </div>
        },
        (Route::Basis, _) => html! { <Basis /> },
        (Route::Sheet(entry, _), _) => {
            let is_plan = entry.declaration.stage == Stage::Plan;
            let name = shortened(now.name(), LONGEST_TITLE).into();
            let origin = Origin { name, invented: now.record.is_invented() };
            let of_record = if is_plan { OfRecord::default() } else { OfRecord::of(now, entry.declaration) };
            let problems = if is_plan { Rc::clone(&now.problems) } else { Rc::default() };
            html! {
                <SheetView key={entry.declaration.id} entry={Still(entry)} filling={state.filling(entry.declaration)}
                    set={state.units} record={is_plan.then_some(origin)} {problems} {of_record} send={send.clone()} />
            }
        }
        (Route::Unknown | Route::Place(_) | Route::RoomCheck, _) => html! {
            <div class="start">
                <h2 id={ids::VIEW} tabindex="-1">{ WORDS.no_such_view }</h2>
                <p><a href={route::START}>{ WORDS.to_start }</a></p>
            </div>
        },
    }
}

/// Tells the page what time it is, at first and every minute: what is dated later does not count yet.
#[hook]
fn use_clock(send: &Callback<Action>) {
    let send = send.clone();
    use_effect_with((), move |()| {
        let tell = move || {
            if let Some(at) = clock::now() {
                send.emit(Action::Clock(at));
            }
        };
        tell();
        let every_minute = Interval::new(60_000, tell);
        move || drop(every_minute)
    });
}

/// When the view changes, the focus goes to its name, or to the field that the address names; not at the first view,
/// where a browser's own place for the focus is the right one.
#[hook]
fn use_arrival(route: Route) {
    let first = use_mut_ref(|| true);
    use_effect_with(route, move |route| {
        let is_first = first.replace(false);
        address::set_title(match route {
            Route::Sheet(entry, _) => say(entry.declaration.name),
            Route::Place(_) => WORDS.section.place,
            Route::RoomCheck => WORDS.section.room_check,
            Route::Records => WORDS.section.records,
            Route::Sheets => WORDS.sheets,
            Route::Basis => WORDS.basis.title,
            Route::Start | Route::Unknown => "",
        });
        match route {
            Route::Sheet(_, field) | Route::Place(field) if !field.is_empty() => {
                focus::on(field);
            }
            _ if !is_first => focus::at_top(ids::VIEW),
            _ => {}
        }
    });
}
