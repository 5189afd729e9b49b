//! What stands around the numbers of a sheet: where they come from, what to beware of, what was assumed.

use super::judge::Judged;
use crate::parts::field_link::field_link;
use crate::state::{Action, Filling, Opened};
use crate::text::{WORDS, alone};
use calc::quantity::UnitSet;
use calc::sheet::{Caution, Declaration, Field, Warning};
use yew::prelude::*;

/// The record that fills the sheet.
pub fn record(record: Option<&Opened>) -> Html {
    let Some(record) = record else { return Html::default() };
    html! {
        <p class="record">
            { WORDS.from_record }{ " " }<strong>{ &record.name }</strong>
            if record.invented { { " " }<span class="tag">{ WORDS.invented }</span> }
        </p>
    }
}

/// Empties the sheet, and puts back what an emptying or a record replaced.
pub fn undo(sheet: &'static Declaration, filled: bool, can_put_back: bool, send: &Callback<Action>) -> Html {
    let doing = |action: Action| send.reform(move |_: MouseEvent| action.clone());
    html! {
        <div class="undo">
            if can_put_back {
                <p>{ WORDS.replaced }</p>
                <button type="button" id="put-back" onclick={doing(Action::PutBack)}>{ WORDS.put_back }</button>
            }
            if filled {
                <button type="button" class="plain" id="clear" onclick={doing(Action::Clear(sheet))}>{ WORDS.clear }</button>
            }
        </div>
    }
}

/// Which entries the answers leave out. Said at once, also while they are being typed: the numbers beside it are those
/// of an empty field.
pub fn left_out(fields: &[&'static Field], sheet: &'static Declaration) -> Html {
    if fields.is_empty() {
        return Html::default();
    }
    html! {
        <section class="left-out" id="left-out" aria-labelledby="left-out-title">
            <h3 id="left-out-title">{ WORDS.left_out }</h3>
            <ul>{ for fields.iter().map(|field| html! { <li>{ field_link(sheet.id, field.id, field.term.name) }</li> }) }</ul>
        </section>
    }
}

/// What to beware of.
pub fn cautions(cautions: &[&'static Caution]) -> Html {
    if cautions.is_empty() {
        return Html::default();
    }
    html! {
        <section class="cautions" aria-labelledby="cautions">
            <h3 id="cautions">{ WORDS.cautions }</h3>
            { for cautions.iter().map(|caution| html! { <p id={format!("caution-{}", caution.id)}>{ caution.text }</p> }) }
        </section>
    }
}

/// What was assumed for empty fields, and what is unusual, each with the way to its field.
pub fn remarks(judged: &Judged, filling: &Filling, sheet: &'static Declaration, set: UnitSet) -> Html {
    let assumed = judged.assessment.warnings.iter().filter(|warning| warning.assumed);
    let assumed = lines(assumed, sheet, set);
    let unusual = lines(judged.warnings(filling), sheet, set);
    html! {
        <>
            { list("look-again", WORDS.look_again, unusual) }
            { list("assumed", WORDS.assumed, assumed) }
        </>
    }
}

fn lines<'a>(
    warnings: impl Iterator<Item = &'a Warning>,
    sheet: &'static Declaration,
    set: UnitSet,
) -> Vec<Html> {
    let line = |warning: &Warning| {
        let field = sheet.inputs.iter().find(|field| field.id == warning.field);
        html! {
            <li>
                { alone(&warning.sentence.show(set)) }{ " " }
                if let Some(field) = field {
                    { field_link(sheet.id, field.id, field.term.name) }
                }
            </li>
        }
    };
    warnings.map(line).collect()
}

fn list(id: &'static str, heading: &'static str, lines: Vec<Html>) -> Html {
    if lines.is_empty() {
        return Html::default();
    }
    html! {
        <section aria-labelledby={id}>
            <h3 {id}>{ heading }</h3>
            <ul class="remarks">{ for lines }</ul>
        </section>
    }
}

/// What the sheet rests on.
pub fn sources(sheet: &'static Declaration) -> Html {
    if sheet.sources.is_empty() {
        return Html::default();
    }
    html! {
        <section aria-labelledby="sources">
            <h3 id="sources">{ WORDS.sources }</h3>
            <ul class="sources">
                { for sheet.sources.iter().map(|source| html! {
                    <li>{ source.title }{ " (" }{ source.known.words() }{ ")" }</li>
                }) }
            </ul>
        </section>
    }
}
