//! The allowances, one over the other, each with its switch.

use super::answered;
use super::row::Row;
use crate::page::fold::Fold;
use crate::sheet::judge::Judged;
use crate::state::{Action, Change, Filling};
use crate::text::{WORDS, capital, counted, fill, say};
use calc::documents::record::Held;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Declaration, Field, Shape};
use calc::trade::membrane::Switched;
use calc::trade::plan::causes::{SWITCHES, Switch};
use yew::prelude::*;

/// The stack.
pub fn stack(
    judged: &Judged,
    sheet: &'static Declaration,
    filling: &Filling,
    set: UnitSet,
    send: &Callback<Action>,
) -> Html {
    let off = SWITCHES.iter().filter(|one| is_off(one, filling)).count();
    let result = match off {
        0 => WORDS.section.all_kept.to_owned(),
        off => counted(WORDS.section.count_off, off),
    };
    html! {
        <Fold id="allowances" title={WORDS.section.allowances} {result}>
            <p>{ WORDS.section.about_allowances }</p>
            <ul class="switches">{ for SWITCHES.iter().map(|one| switch(one, sheet, filling, send)) }</ul>
            { numbers(judged, sheet, set) }
        </Fold>
    }
}

/// On while the field is empty or holds anything but what switches it off.
fn is_off(one: &Switch, filling: &Filling) -> bool {
    match filling.entries.get(one.field).map(AsRef::as_ref) {
        Some(Held::One(typed)) => typed.shown().trim() == one.off(),
        _ => false,
    }
}

fn switch(
    one: &'static Switch,
    sheet: &'static Declaration,
    filling: &Filling,
    send: &Callback<Action>,
) -> Html {
    let Some(field) = sheet.inputs.iter().find(|field| field.id == one.field) else { return Html::default() };
    let is_on = !is_off(one, filling);
    let onchange = send.reform(move |_: Event| {
        let text = if is_on { one.off() } else { String::new() };
        Action::Field(sheet, field, Change::Text(text))
    });
    let id = format!("switch-{}", one.field);
    html! {
        <li class="choice">
            <input type="checkbox" id={id.clone()} checked={is_on} {onchange} />
            <label for={id}>{ capital(say(one.name)) }</label>
        </li>
    }
}

/// What each of them makes of its number.
fn numbers(judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Html {
    let Some((Field { shape: Shape::Table(columns), .. }, Answer::Table(rows))) =
        answered(judged, sheet, "allowances")
    else {
        return Html::default();
    };
    html! {
        <dl class="told">
            { for rows.iter().map(|cells| allowance(&Row { columns, cells, set })) }
        </dl>
    }
}

fn allowance(row: &Row) -> Html {
    let factor = row.number("factor");
    let said = fill(WORDS.section.of_allowance, &[("on", row.words("applies-to")), ("factor", &factor)]);
    html! {
        <div>
            <dt>{ row.words("allowance") }</dt>
            <dd>{ said }if row.is("switched", Switched::Off.id()) { { " " }{ WORDS.section.switched_off } }</dd>
        </div>
    }
}
