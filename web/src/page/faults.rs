//! What was found wrong in the open record, so that nobody works with half of one unawares.

use crate::page::ids;
use crate::page::route::{self, Route};
use crate::text::{WORDS, alone, counted, fill, tell};
use calc::documents::record::Record;
use calc::engine::quantity::UnitSet;
use yew::prelude::*;

/// More of them would push everything else off the view.
const MOST: usize = 20;

/// On the views that show the record: all of it under Records, one line with the way there on the others.
pub fn faults(route: Route, record: &Record) -> Html {
    let found = record.faults();
    if found.is_empty() {
        return Html::default();
    }
    let [one, several] = WORDS.section.faults;
    let count = fill(if found.len() == 1 { one } else { several }, &[("count", &found.len().to_string())]);
    match route {
        Route::Records => {
            let more = found.len().saturating_sub(MOST);
            html! {
                <section class="notice" aria-labelledby={ids::FAULTS}>
                    <p id={ids::FAULTS}>{ count }</p>
                    <ul id={ids::FAULTS_LIST}>{ for found.iter().take(MOST).map(|fault| html! { <li>{ alone(&tell(&fault.sentence(), UnitSet::Metric)) }</li> }) }</ul>
                    if more > 0 { <p>{ fill(WORDS.section.more_faults, &[("count", &more.to_string())]) }</p> }
                </section>
            }
        }
        Route::Place(_) | Route::RoomCheck => html! {
            <p class="notice" id={ids::FAULTS}>{ count }{ " " }<a href={route::RECORDS}>{ WORDS.section.see_faults }</a></p>
        },
        _ => Html::default(),
    }
}

/// Where the record is shown: that events are dated later than this device's clock, which may be the one that is wrong.
pub fn dated_later(route: Route, count: usize) -> Html {
    if count == 0 || !matches!(route, Route::Records | Route::Place(_) | Route::RoomCheck) {
        return Html::default();
    }
    html! { <p class="notice" id={ids::DATED_LATER}>{ counted(WORDS.exchange.dated_later, count) }</p> }
}
