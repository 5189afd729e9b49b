//! Section Room check: whether this room can feed this RO, and what the answer rests on.

mod changes;
mod later;
mod lines;
mod product;
mod row;
mod stack;
mod year;

use super::stages::{by_stage, not_checked, verdict};
use super::{SectionProps, paper, title};
use crate::figure::bars::BarsView;
use crate::figure::path::At;
use crate::figure::view::FigureView;
use crate::page::fold::Fold;
use crate::page::still::Still;
use crate::page::{ids, route};
use crate::sheet::fixes::fixes;
use crate::sheet::verdict::said;
use crate::sheet::{about, judge::Judged, spoken, use_judged};
use crate::state::Filling;
use crate::text::{WORDS, counted, say};
use calc::engine::sheet::{Answer, Check, Declaration, Draws, Field, Figure};
use later::use_later;
use std::rc::Rc;
use yew::prelude::*;

/// The answer, stage by stage, and what it rests on.
#[component]
pub fn RoomCheck(props: &SectionProps) -> Html {
    let SectionProps { entry, now, set, send } = props.clone();
    let sheet = entry.0.declaration;
    let filling = now.filling(sheet);
    let judged = use_judged(entry, &filling, &now.problems);
    let later = use_later(entry, &judged);
    let stages = by_stage(&judged, sheet);
    let is_blank = judged.values.iter().all(Option::is_none);
    let verdict = verdict(&stages, &judged, sheet);
    let figure = |figure: &&'static Figure| {
        let figure = Still(*figure);
        html! {
            <Fold id={format!("fold-{}", figure.id)} title={say(figure.name)} open={has_room()}>
                <FigureView {figure} judged={Rc::clone(&judged)} sheet={Still(sheet)} {set} filling={filling.clone()}
                    at={At::NumbersAndChecks} />
            </Fold>
        }
    };
    // a path takes the whole width of a desk
    let is_wide = |figure: &&&'static Figure| matches!(figure.draws, Draws::Path { .. });
    let figures = sheet.figures.iter().filter(|_| !is_blank);
    let (wide, narrow) = (figures.clone().filter(is_wide), figures.filter(|figure| !is_wide(figure)));
    html! {
        <>
            <div class="sheet-head">
                <p class="stage">{ WORDS.section.room_check }</p>
                <h2 id={ids::VIEW} tabindex="-1">{ title(&now) }</h2>
                if now.record.is_invented() { <p class="record"><span class="tag">{ WORDS.invented }</span></p> }
                <div class="verdict" id="verdict">
                    if let Some(hold) = verdict.hold { <p><strong>{ hold }</strong></p> }
                    if let Some((worst, place, is_part)) = verdict.worst.as_ref().filter(|_| !is_blank) {
                        { said(worst, place, *is_part, set) }
                        if let Some(later) = later.as_deref() { { fixes(worst, &later.fixes, sheet, set) } }
                    }
                    if is_blank {
                        <p><strong>{ WORDS.section.nothing_entered }</strong></p>
                        <p><a class="main-link" href={route::PLACE}>{ WORDS.section.back_to_place }</a></p>
                    } else {
                        <p>{ &verdict.rest }</p>
                    }
                </div>
                if !is_blank {
                    <BarsView judged={Rc::clone(&judged)} sheet={Still(sheet)} {set} leads_to={stage_line as fn(&Check) -> String} />
                }
                { for wide.map(figure) }
            </div>
            <div class="room-cautions">{ about::cautions(&judged.assessment.cautions) }</div>
            <section class="answers lines-whole" id={ids::ANSWERS} tabindex="-1" aria-labelledby="by-stage">
                { about::left_out(&judged.left_out(sheet.inputs), sheet) }
                { for narrow.map(figure) }
                <h3 id="by-stage">{ WORDS.section.by_stage }</h3>
                <ul class="lines">
                    { for stages.iter().filter(|_| !is_blank).map(|stage| lines::line(stage, entry, &judged, later.as_deref(), set)) }
                </ul>
                { not_checked(&stages, &judged, sheet) }
                { year::year(&judged, sheet, set) }
                { product::product(&judged, sheet, set) }
            </section>
            <div class="beside">
                { stack::stack(&judged, sheet, &filling, set, &send) }
                { changes::changes(later.as_deref(), sheet, set) }
                { resting_on(&judged, &filling, props) }
                { about::sources_of(&judged.assessment.checks) }
                <p>{ paper::button("print-sheet", WORDS.section.print_sheet) }</p>
            </div>
            { paper::place_sheet(props, &judged, &filling, &verdict.text(set)) }
            <spoken::Spoken counts={spoken::counts(&judged, sheet)} />
        </>
    }
}

/// The id of the line of the stage at which a check is.
fn stage_line(check: &Check) -> String {
    ids::stage_line(check.criterion.stage.id())
}

/// Whether the screen is wide enough for a long section to stand open at first.
fn has_room() -> bool {
    const WIDE: f64 = 720.0;
    let width = web_sys::window().and_then(|window| window.inner_width().ok()?.as_f64());
    width.is_some_and(|width| width >= WIDE)
}

/// One output of the plan with its answer.
fn answered<'a>(
    judged: &'a Judged,
    sheet: &'static Declaration,
    id: &str,
) -> Option<(&'static Field, &'a Answer)> {
    let index = sheet.output(id)?;
    Some((sheet.outputs.get(index)?, judged.assessment.answers.get(index)?))
}

/// Entries to look at again, assumptions, the way to every number.
fn resting_on(judged: &Judged, filling: &Filling, props: &SectionProps) -> Html {
    let sheet = props.entry.0.declaration;
    html! {
        <>
            { folded("look-again", WORDS.look_again, WORDS.section.count_look_again, about::look_again(judged, filling, sheet, props.set)) }
            { folded("assumed", WORDS.assumed, WORDS.section.count_assumed, about::assumed(judged, sheet, props.set)) }
            <p><a href={route::of_sheet(sheet.id)}>{ WORDS.section.every_number }</a></p>
        </>
    }
}

/// Remarks, folded, with how many there are.
fn folded(id: &'static str, title: &'static str, count: [&'static str; 2], lines: Vec<Html>) -> Html {
    if lines.is_empty() {
        return Html::default();
    }
    html! { <Fold {id} {title} result={counted(count, lines.len())}><ul class="remarks">{ for lines }</ul></Fold> }
}
