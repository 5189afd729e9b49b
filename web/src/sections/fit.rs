//! Section Fit: whether this RO fits this place.

use super::SectionProps;
use super::stages::{by_stage, line};
use crate::sheet::{about, use_judged};
use crate::text::WORDS;
use crate::{ids, route};
use yew::prelude::*;

/// The answer, stage by stage, and what it rests on.
#[component]
pub fn Fit(props: &SectionProps) -> Html {
    let SectionProps { entry, now, set, .. } = props.clone();
    let sheet = entry.0.declaration;
    let filling = now.filling(sheet.id);
    let judged = use_judged(entry, &filling, &now.problems);
    html! {
        <>
            <div class="sheet-head">
                <p class="stage">{ WORDS.fit }</p>
                <h2 id={ids::VIEW} tabindex="-1">{ sheet.name }</h2>
            </div>
            <section class="answers" id={ids::ANSWERS} tabindex="-1">
                <ul class="lines">{ for by_stage(&judged.assessment.checks).iter().map(|checks| line(checks, set)) }</ul>
                { about::cautions(&judged.assessment.cautions) }
                <p><a href={route::of_sheet(sheet.id)}>{ WORDS.every_number }</a></p>
            </section>
        </>
    }
}
