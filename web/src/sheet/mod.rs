//! The view of a sheet, of any sheet: everything in it follows from the declaration.

pub mod about;
pub mod checks;
pub mod fixes;
pub mod hand;
mod intervals;
pub mod judge;
pub mod mark;
pub mod missing;
pub mod of_record;
pub mod output_table;
mod outputs;
mod settled;
pub mod shown;
pub mod spoken;
pub mod summary;
mod take;
pub mod tools;
pub mod verdict;
pub mod working;

use crate::fields::FieldView;
use crate::figure::view::FigureView;
use crate::page::ids;
use crate::page::still::Still;
use crate::state::{Action, Filling};
use crate::text::{WORDS, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Entry, Problem};
pub use settled::use_judged;
use std::rc::Rc;
use working::WorkingView;
use yew::prelude::*;

/// A sheet and what stands in it.
#[derive(Properties, PartialEq, Clone)]
pub struct SheetProps {
    /// The sheet.
    pub entry: Still<Entry>,
    /// What was typed.
    pub filling: Filling,
    /// The units of the page.
    pub set: UnitSet,
    /// The record from which it comes.
    pub record: Option<about::Origin>,
    /// What is wrong with fields that the record leaves empty.
    pub problems: Rc<Vec<Problem>>,
    /// What the open record has to do with it.
    pub of_record: of_record::OfRecord,
    /// Hears of every change.
    pub send: Callback<Action>,
}

/// A sheet: what to enter, what follows.
#[component]
pub fn SheetView(props: &SheetProps) -> Html {
    let SheetProps { entry, filling, set, record, problems, of_record, send } = props.clone();
    let sheet = entry.0.declaration;
    let judged = use_judged(entry, &filling, &problems);
    let found = fixes::use_fixes(entry, &judged);
    let half_widths = intervals::use_intervals(entry, &judged);
    let assessment = &judged.assessment;
    let tool_props = tools::ToolProps {
        entry,
        values: Rc::clone(&judged.values),
        is_whole: judged.left_out(sheet.inputs).is_empty(),
        set,
        only: None,
    };
    let errors = judged.summary(sheet.inputs, &filling, set);
    html! {
        <>
            <div class="sheet-head">
                <p class="stage">{ say(sheet.stage.name()) }</p>
                <h2 id={ids::VIEW} tabindex="-1">{ say(sheet.name) }</h2>
                { about::record(record.as_ref()) }
                { verdict::answer(&judged, sheet, found.as_deref(), set) }
                <p class="about">{ say(sheet.about).trim() }</p>
                { of_record.filling(sheet, &send) }
                { about::clear(sheet, !filling.is_empty(), &send) }
                { summary::summary(sheet.id, &errors) }
            </div>
            <section class="form" aria-label={WORDS.entries}>
                { for sheet.inputs.iter().map(|field| html! {
                    <>
                        <FieldView key={field.id} sheet={Still(sheet)} field={Still(field)} entry={filling.entries.get(field.id).cloned()}
                            {set} notes={judged.notes(field, &filling, set)} origin={of_record.origin(field.id)} send={send.clone()} />
                        { hand::worked_out(sheet, field, filling.is_empty_at(field.id)) }
                    </>
                }) }
            </section>
            <section class="answers" id={ids::ANSWERS} tabindex="-1" aria-label={WORDS.answers}>
                { about::left_out(&judged.left_out(sheet.inputs), sheet) }
                { checks::checks(&judged, sheet, set) }
                { about::cautions(&assessment.cautions) }
                { for sheet.figures.iter().map(|figure| html! {
                    <FigureView figure={Still(*figure)} judged={Rc::clone(&judged)} sheet={Still(sheet)} {set}
                        filling={filling.clone()} />
                }) }
                { outputs::outputs(sheet, &judged, half_widths.as_deref().map(Vec::as_slice), set) }
                if record.is_none() { { of_record.keeping(sheet, &judged, &send) } }
                { take::take(sheet, &judged, set, &send) }
                { hand::hand_over(sheet, &judged, set, &send) }
                { about::remarks(&judged, &filling, sheet, set) }
                <WorkingView {entry} values={Rc::clone(&judged.values)} {set} />
                { tools::tools(&tool_props) }
                { about::sources(sheet) }
            </section>
            <spoken::Spoken counts={spoken::counts(&judged, sheet)} />
        </>
    }
}
