//! The view of a sheet, of any sheet: everything in it follows from the declaration.

mod about;
mod checks;
mod intervals;
mod judge;
mod mark;
mod missing;
mod output_table;
mod outputs;
mod shown;
mod spoken;
mod summary;
mod working;

use crate::fields::FieldView;
use crate::state::{Action, Filling, Opened, kept};
use crate::still::Still;
use crate::text::WORDS;
use crate::{ids, stop};
use calc::quantity::UnitSet;
use calc::sheet::Entry;
use judge::judge;
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
    pub record: Option<Opened>,
    /// Whether what stood there before can be put back.
    pub can_put_back: bool,
    /// Hears of every change.
    pub send: Callback<Action>,
}

/// A sheet: what to enter, what follows.
#[component]
pub fn SheetView(props: &SheetProps) -> Html {
    let SheetProps { entry, filling, set, record, send, can_put_back } = props.clone();
    let sheet = entry.0.declaration;
    let judged = use_memo((entry, Rc::clone(&filling.entries), record.clone()), |(entry, _, record)| {
        // Kept first: what was typed must not be lost if computing with it stops the program.
        stop::keep(sheet.id, &kept(sheet, &filling));
        judge(entry.0, &filling, record.as_ref())
    });
    let half_widths = intervals::use_intervals(entry, &judged);
    let assessment = &judged.assessment;
    let errors = judged.summary(sheet.inputs, &filling, set);
    html! {
        <>
            <div class="sheet-head">
                <p class="stage">{ sheet.stage.name() }</p>
                <h2 id={ids::VIEW} tabindex="-1">{ sheet.name }</h2>
                <p class="about">{ sheet.about.trim() }</p>
                { about::record(record.as_ref()) }
                { about::undo(sheet, !filling.is_empty(), can_put_back, &send) }
                { summary::summary(sheet.id, &errors) }
            </div>
            <section class="form" aria-label={WORDS.entries}>
                { for sheet.inputs.iter().map(|field| html! {
                    <FieldView key={field.id} sheet={Still(sheet)} field={Still(field)} entry={filling.entries.get(field.id).cloned()}
                        {set} notes={judged.notes(field, &filling, set)} send={send.clone()} />
                }) }
            </section>
            <section class="answers" id={ids::ANSWERS} tabindex="-1" aria-label={WORDS.answers}>
                { about::left_out(&judged.left_out(sheet.inputs), sheet) }
                { checks::checks(&assessment.checks, sheet, set) }
                { about::cautions(&assessment.cautions) }
                { outputs::outputs(sheet, &judged, half_widths.as_deref().map(Vec::as_slice), set) }
                { about::remarks(&judged, &filling, sheet, set) }
                <WorkingView {entry} values={Rc::clone(&judged.values)} {set} />
                { about::sources(sheet) }
            </section>
            <spoken::Spoken counts={spoken::counts(&assessment.checks)} />
        </>
    }
}
