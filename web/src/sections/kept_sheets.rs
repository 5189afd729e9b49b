//! The sheets that were kept in the open record: when, what they answered, what stood in them.

use crate::browser::address;
use crate::page::route;
use crate::sheet::judge::judge;
use crate::sheet::of_record::told;
use crate::sheet::{shown, verdict};
use crate::state::{Action, Content, Filling, find};
use crate::text::{WORDS, counted, fill, say};
use calc::documents::record::{Filled, Given, Held, Record};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Field, Shape};
use std::rc::Rc;
use yew::prelude::*;

/// All of them, the latest first; nothing where none was kept.
pub fn kept_sheets(now: &Content, set: UnitSet, send: &Callback<Action>) -> Html {
    let mut kept: Vec<&Filled> = now.record.sheets().iter().filter(|filled| filled.kept.is_some()).collect();
    kept.sort_by_key(|filled| std::cmp::Reverse(filled.kept.map(|at| at.milliseconds())));
    if kept.is_empty() {
        return Html::default();
    }
    let line = |filled: &&Filled| {
        let origin = |given: &Given| AttrValue::from(told(&now.record, given));
        let origins: Vec<_> = filled.given.iter().map(|(id, given)| (*id, origin(given))).collect();
        let place = filled.place.as_deref().map(|id| AttrValue::from(place_name(&now.record, id)));
        html! { <KeptLine key={filled.id.to_string()} filled={(*filled).clone()} {place} {origins} {set} send={send.clone()} /> }
    };
    html! {
        <section aria-labelledby="kept-sheets">
            <h3 id="kept-sheets">{ WORDS.kept.kept_sheets }</h3>
            <p>{ WORDS.kept.about_kept_sheets }</p>
            <ul class="kept">{ for kept.iter().map(line) }</ul>
        </section>
    }
}

/// One kept sheet.
#[derive(Properties, PartialEq, Clone)]
struct KeptProps {
    filled: Filled,
    /// At which place the RO was then.
    place: Option<AttrValue>,
    /// Where its fields come from.
    origins: Vec<(&'static str, AttrValue)>,
    set: UnitSet,
    send: Callback<Action>,
}

/// Its answer is worked out once: a kept sheet never changes.
#[component]
fn KeptLine(props: &KeptProps) -> Html {
    let KeptProps { filled, place, origins, set, send } = props;
    let when = filled.kept.map_or_else(String::new, |at| shown::moment(&at.to_string()));
    let on = fill(WORDS.kept.kept_on, &[("when", &when)]);
    let id = format!("kept-{}", filled.id);
    let Some(entry) = find(&filled.sheet) else {
        let words = fill(WORDS.kept.unknown_sheet, &[("sheet", &filled.sheet)]);
        return html! { <li {id}><span>{ words }{ " · " }{ on }</span></li> };
    };
    let sheet = entry.declaration;
    let filling = Filling { entries: Rc::clone(filled.fields.entries()), ..Filling::default() };
    let mut judged = judge(entry, &filling, &[]);
    // a check that is marginal would else be called met
    entry.settle(&judged.values, &mut judged.assessment);
    let stands = sheet.inputs.iter().filter_map(|field| {
        let held = filled.fields.get(field.id).filter(|held| !held.is_empty())?;
        let origin = origins.iter().find(|(id, _)| *id == field.id).map(|(_, origin)| origin.clone());
        Some((field, written(field, held), origin))
    });
    let stands: Vec<_> = stands.collect();
    let start = {
        let (send, kept) = (send.clone(), Rc::clone(&filled.id));
        Callback::from(move |_: MouseEvent| {
            send.emit(Action::StartFrom(Rc::clone(&kept)));
            address::go(&route::of_sheet(sheet.id));
        })
    };
    let label = fill(WORDS.kept.use_as_start_of, &[("sheet", say(sheet.name)), ("when", &when)]);
    html! {
        <li class="kept-sheet" {id}>
            <p>
                <strong>{ say(sheet.name) }</strong>{ " · " }{ on }
                if let Some(place) = place { { " · " }<span class="kept-place">{ place }</span> }
            </p>
            <div class="kept-answer">{ verdict::bare(&judged, sheet, None, *set) }</div>
            <details>
                <summary>{ counted(WORDS.kept.entries, stands.len()) }</summary>
                <dl class="told">{ for stands.iter().map(|(field, text, origin)| html! {
                    <div>
                        <dt>{ say(field.term.name) }</dt>
                        <dd>{ text }</dd>
                        if let Some(origin) = origin { <dd class="field-origin">{ origin }</dd> }
                    </div>
                }) }</dl>
            </details>
            <button type="button" class="use-kept" aria-label={label} onclick={start}>{ WORDS.kept.use_as_start }</button>
        </li>
    }
}

fn place_name(record: &Record, id: &str) -> String {
    let place = record.place(id).and_then(|index| record.places()[index].fields.word("place-name"));
    place.unwrap_or(WORDS.section.unnamed_place).to_owned()
}

/// What stands in a field, in one line.
pub fn written(field: &'static Field, held: &Held) -> String {
    match (held, field.shape) {
        (Held::Rows(rows), _) => counted(WORDS.kept.rows, rows.counted()),
        (Held::One(typed), Shape::Choice(named)) => {
            named.iter().find(|one| one.id == typed.text).map_or(&*typed.text, |one| say(one.name)).to_owned()
        }
        (Held::One(typed), _) => match typed.unit {
            Some(unit) if typed.own_unit(field).is_none() => {
                shown::with_unit(typed.shown().trim().to_owned(), unit)
            }
            _ => typed.shown().trim().to_owned(),
        },
    }
}
