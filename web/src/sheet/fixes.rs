//! What would bring a check onto its right side, lever by lever, and what each of these makes worse.

use super::checks;
use super::judge::Judged;
use super::shown;
use crate::browser::slices::in_slices;
use crate::page::field_link::field_link;
use crate::page::still::Still;
use crate::text::{WORDS, alone, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, Entry, State, Value};
use calc::engine::solve::{Mend, Mended, Mends};
use std::rc::Rc;
use yew::prelude::*;

/// How long the typing pauses before they are looked for, in milliseconds.
const PAUSE: u32 = 150;

/// What was found so far.
#[derive(Debug, Default, Clone)]
pub struct Fixes {
    /// Each lever of each check that was tried.
    pub tried: Vec<Mended>,
    /// Whether there is no more to come.
    pub is_whole: bool,
}

/// What was read, and what was found with it.
type Found = Option<(Rc<Vec<Option<Value>>>, Rc<Fixes>)>;

/// The fixes of a sheet, looked for in slices so that no key press waits; `None` until the first of it is there.
#[hook]
pub fn use_fixes(entry: Still<Entry>, judged: &Rc<Judged>) -> Option<Rc<Fixes>> {
    let found = use_state(|| Found::None);
    {
        let found = found.setter();
        use_effect_with((entry, Rc::clone(&judged.values)), move |(entry, values)| {
            let values = Rc::clone(values);
            let mut mends = entry.0.fill(&values).ok().map(|case| Mends::of(case.as_ref()));
            let mut fixes = Fixes::default();
            let slices = in_slices(PAUSE, move || {
                match mends.as_mut().and_then(Iterator::next) {
                    Some(mended) => fixes.tried.push(mended),
                    None => fixes.is_whole = true,
                }
                if fixes.is_whole {
                    found.set(Some((Rc::clone(&values), Rc::new(fixes.clone()))));
                }
                fixes.is_whole
            });
            move || drop(slices)
        });
    }
    let (of, fixes) = found.as_ref()?;
    (*of == judged.values).then(|| Rc::clone(fixes))
}

/// The fixes of one check.
pub fn fixes(check: &Check, found: &Fixes, sheet: &'static Declaration, set: UnitSet) -> Html {
    if !matches!(check.state, State::NotMet | State::Marginal) || check.criterion.levers.is_empty() {
        return Html::default();
    }
    let id = check.id();
    let of_check: Vec<&Mended> = found.tried.iter().filter(|tried| tried.check == id).collect();
    if of_check.is_empty() && !found.is_whole {
        return html! { <p class="mends">{ WORDS.section.looking_for_mends }</p> };
    }
    if of_check.is_empty() {
        return Html::default();
    }
    let heading = match of_check.iter().filter(|tried| tried.mend.is_ok()).count() {
        0 => WORDS.section.no_mend,
        1 => WORDS.section.would_mend[0],
        _ => WORDS.section.would_mend[1],
    };
    html! {
        <div class="mends">
            <p><strong>{ heading }</strong></p>
            <ul>{ for of_check.iter().map(|tried| one(tried, sheet, set)) }</ul>
        </div>
    }
}

fn one(tried: &Mended, sheet: &'static Declaration, set: UnitSet) -> Html {
    let Some(field) = sheet.inputs.iter().find(|field| field.id == tried.lever) else {
        return Html::default();
    };
    let link = field_link(sheet.id, field.id, say(field.term.name));
    let number = |si: f64| match field.term.unit(set == UnitSet::Us) {
        Some(unit) => shown::quantity(si, unit),
        None => String::new(),
    };
    match &tried.mend {
        Ok(Mend { value, now, worsens, .. }) => {
            let now = now.map_or(WORDS.not_entered.to_lowercase(), number);
            let to = fill(WORDS.section.mend_to, &[("value", &number(*value)), ("now", &now)]);
            let worse: Vec<String> = worsens.iter().map(checks::in_words).collect();
            html! {
                <li>
                    { link }{ ": " }{ to }
                    if !worse.is_empty() {
                        { " " }<span class="worsens">{ fill(WORDS.section.worsens, &[("checks", &worse.join(", "))]) }</span>
                    }
                </li>
            }
        }
        Err(missing) => html! { <li>{ link }{ ": " }{ alone(say(missing.why)) }</li> },
    }
}
