//! What if the water changes: what would be worse, and what first.

use super::later::Later;
use crate::page::fold::Fold;
use crate::sheet::{checks, missing};
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Known};
use calc::trade::plan::changes::Worse;
use yew::prelude::*;

/// Each change with what follows from it.
pub fn changes(later: Option<&Later>, sheet: &'static Declaration, set: UnitSet) -> Html {
    let Some(later) = later else { return Html::default() };
    let worse =
        later.changes.iter().filter(|(_, worse)| worse.as_ref().is_ok_and(|worse| !worse.is_empty())).count();
    let places = [("count", worse.to_string()), ("all", later.changes.len().to_string())];
    let result =
        fill(WORDS.section.count_changes, &places.each_ref().map(|(name, value)| (*name, value.as_str())));
    html! {
        <Fold id="changes" title={WORDS.section.changes} {result}>
            <p>{ WORDS.section.about_changes }</p>
            <dl class="changes">
                { for later.changes.iter().map(|(change, worse)| html! {
                    <div id={format!("change-{}", change.id)}>
                        <dt>{ say(change.name) }</dt>
                        <dd>{ follows(worse, sheet, set) }</dd>
                    </div>
                }) }
            </dl>
        </Fold>
    }
}

fn follows(worse: &Known<Vec<Worse>>, sheet: &'static Declaration, set: UnitSet) -> Html {
    match worse {
        Err(why) => missing::missing(why, sheet),
        Ok(worse) if worse.is_empty() => html! { { WORDS.section.no_state_changes } },
        Ok(worse) => html! {
            <ul>
                { for worse.iter().map(|Worse { before, after }| {
                    let places = [
                        ("check", checks::place(after)),
                        ("before", say(before.words()).to_owned()),
                        ("after", say(after.state.words()).to_owned()),
                        ("numbers", checks::short(after, set)),
                    ];
                    let places: Vec<(&str, &str)> = places.iter().map(|(name, value)| (*name, value.as_str())).collect();
                    html! { <li>{ fill(WORDS.section.becomes, &places) }</li> }
                }) }
            </ul>
        },
    }
}
