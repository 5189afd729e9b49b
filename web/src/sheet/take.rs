//! Taking a number over into the place: where the plan asks for what this sheet works out.

use super::judge::Judged;
use super::shown;
use crate::page::route;
use crate::state::record::plan;
use crate::state::{Action, Change};
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::show::significant;
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Answer, Declaration};
use calc::trade::plan::walk::{WORKED_OUT, WorkedOut};
use yew::prelude::*;

/// More than are shown, so that nothing is lost on the way.
const DIGITS: usize = 6;

/// One button for each field of the plan that asks for a number of this sheet; nothing where there are none.
pub fn take(sheet: &'static Declaration, judged: &Judged, set: UnitSet, send: &Callback<Action>) -> Html {
    let of_sheet = WORKED_OUT.iter().filter(|worked_out| worked_out.sheet == sheet.id);
    let buttons: Vec<Html> =
        of_sheet.filter_map(|worked_out| button(worked_out, sheet, judged, set, send)).collect();
    if buttons.is_empty() {
        return Html::default();
    }
    html! {
        <section class="take" aria-labelledby="take-over">
            <h3 id="take-over">{ WORDS.section.take_over }</h3>
            <p><a class="main-link" href={route::PLACE}>{ WORDS.section.back_to_place }</a></p>
            <ul>{ for buttons.into_iter().map(|button| html! { <li>{ button }</li> }) }</ul>
        </section>
    }
}

/// A number as it would be typed.
pub(super) fn typed(si: f64, unit: &'static Unit) -> String {
    format!("{} {}", significant(unit.of_si(si), DIGITS), unit.shown())
}

fn button(
    WorkedOut { field, output, .. }: &'static WorkedOut,
    sheet: &'static Declaration,
    judged: &Judged,
    set: UnitSet,
    send: &Callback<Action>,
) -> Option<Html> {
    let index = sheet.output(output)?;
    let Answer::Number(si, kind) = judged.assessment.answers.get(index)? else { return None };
    let plan = plan()?;
    let asked = plan.inputs.iter().find(|input| input.id == *field)?;
    let unit = shown::unit_of(sheet.outputs.get(index)?, kind, set);
    let typed = typed(*si, unit);
    let onclick = send.reform(move |_: MouseEvent| Action::Field(plan, asked, Change::Text(typed.clone())));
    let number = shown::quantity(*si, unit);
    let words = fill(WORDS.section.take_as, &[("number", &number), ("field", say(asked.term.name))]);
    Some(
        html! { <button type="button" class="plain" id={format!("take-{field}")} {onclick}>{ words }</button> },
    )
}
