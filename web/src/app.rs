//! The whole page.

use crate::parts::navigation::Navigation;
use crate::parts::start::start;
use crate::parts::units::units;
use crate::record::Found;
use crate::route::{self, Route};
use crate::sheet::SheetView;
use crate::state::{Action, State};
use crate::still::Still;
use crate::text::WORDS;
use crate::{address, focus, ids, record};
use calc::sheet::Stage;
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
    let on_found = {
        let send = send.clone();
        use_callback((), move |found: Found, ()| {
            let Some(plan) = record::plan() else { return };
            send.emit(Action::Open(plan, found.filling, found.opened));
            address::go(&route::of_sheet(plan.id));
        })
    };
    use_arrival(route);
    let view = match route {
        Route::Start => start(&on_found),
        Route::Unknown => html! {
            <div class="start">
                <h2 id={ids::VIEW} tabindex="-1">{ WORDS.no_such_view }</h2>
                <p><a href={route::START}>{ WORDS.to_start }</a></p>
            </div>
        },
        Route::Sheet(entry, _) => {
            let is_plan = entry.declaration.stage == Stage::Plan;
            html! {
                <SheetView key={entry.declaration.id} entry={Still(entry)} filling={state.filling(entry.declaration.id)}
                    set={state.units} record={state.record.clone().filter(|_| is_plan)}
                    can_put_back={state.before.is_some()} send={send.clone()} />
            }
        }
    };
    let class = classes!("page", matches!(route, Route::Sheet(..)).then_some("page-sheet"));
    html! {
        <div {class}>
            <a class="skip" href={format!("#{}", ids::VIEW)}>{ WORDS.skip }</a>
            <aside class="side" aria-label={WORDS.side}>
                { units(state.units, &send) }
                <Navigation {route} />
            </aside>
            <main>
                { view }
                <p class="notice">{ WORDS.nothing_kept }</p>
            </main>
        </div>
    }
}

/// When the view changes, the focus goes to its name, or to the field that the address names; not at the first view,
/// where a browser's own place for the focus is the right one.
#[hook]
fn use_arrival(route: Route) {
    let first = use_mut_ref(|| true);
    use_effect_with(route, move |route| {
        let is_first = first.replace(false);
        address::set_title(match route {
            Route::Sheet(entry, _) => entry.declaration.name,
            Route::Start | Route::Unknown => "",
        });
        match route {
            Route::Sheet(_, field) if !field.is_empty() => {
                focus::on(field);
            }
            _ if !is_first => focus::at_top(ids::VIEW),
            _ => {}
        }
    });
}
