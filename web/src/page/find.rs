//! Finding a calculation by what people call it.

use crate::page::ids;
use crate::page::route;
use crate::text::{WORDS, capital, fill, say};
use calc::engine::sheet::{Declaration, Stage};
use calc::program::{catalogue, search::Found, search::search};
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// More of them nobody reads through.
const MOST: usize = 12;

/// What stands below the field while nothing is looked for.
#[derive(Properties, PartialEq, Clone)]
pub struct FindProps {
    /// Whether it is the index of all sheets.
    pub index: bool,
}

/// The field, and what is found.
#[component]
pub fn Find(props: &FindProps) -> Html {
    let asked = use_state_eq(String::new);
    let oninput = {
        let asked = asked.setter();
        Callback::from(move |event: InputEvent| {
            asked.set(event.target_unchecked_into::<HtmlInputElement>().value());
        })
    };
    let is_asked = !asked.trim().is_empty();
    let found = search(&asked);
    html! {
        <search class="find">
            <label for={ids::FIND}>{ WORDS.find.label }</label>
            <p class="hint" id="find-hint">{ WORDS.find.hint }</p>
            <input type="search" id={ids::FIND} value={(*asked).clone()} {oninput} aria-describedby="find-hint"
                autocomplete="off" autocapitalize="off" spellcheck="false" />
            <p class="find-count" role="status">{ if is_asked { count(found.len()) } else { String::new() } }</p>
            if is_asked {
                <ul class="links found" id={ids::FOUND}>{ for found.iter().take(MOST).map(one) }</ul>
            } else if props.index {
                { for Stage::ALL.iter().map(|stage| of_stage(*stage)) }
            }
        </search>
    }
}

fn count(found: usize) -> String {
    match found {
        0 => WORDS.find.none.to_owned(),
        1 => WORDS.find.one.to_owned(),
        _ if found > MOST => {
            fill(WORDS.find.best, &[("count", &found.to_string()), ("most", &MOST.to_string())])
        }
        _ => fill(WORDS.find.several, &[("count", &found.to_string())]),
    }
}

fn one(found: &Found) -> Html {
    let Found { sheet, field } = found;
    let asked = field.filter(|field| sheet.inputs.iter().any(|input| std::ptr::eq(input, *field)));
    let to = asked.map_or_else(|| route::of_sheet(sheet.id), |field| route::of_field(sheet.id, field.id));
    let what = match field {
        Some(field) => {
            let template = if asked.is_some() { WORDS.find.asks } else { WORDS.find.gives };
            fill(template, &[("name", say(field.term.name))])
        }
        None => capital(say(sheet.about).trim()),
    };
    html! { <li><a href={to}>{ say(sheet.name) }</a><p class="about">{ what }</p></li> }
}

fn of_stage(stage: Stage) -> Html {
    let sheets: Vec<&'static Declaration> = catalogue::of_stage(stage).collect();
    if sheets.is_empty() {
        return Html::default();
    }
    html! {
        <div class="index">
            <h3>{ say(stage.name()) }</h3>
            <ul class="links found">
                { for sheets.iter().map(|sheet| one(&Found { sheet, field: None })) }
            </ul>
        </div>
    }
}
