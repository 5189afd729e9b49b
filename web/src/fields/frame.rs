//! What stands around the control of every field: label, help, error, warning, in this order for eye and ear.

use super::FieldProps;
use crate::math;
use crate::page::ids;
use crate::text;
use crate::text::{WORDS, say};
use calc::documents::record::Held;
use calc::engine::sheet::Shape;
use yew::prelude::*;

/// The field around its control. A control of several elements is a group with a legend.
pub fn frame(props: &FieldProps, is_group: bool, control: Html) -> Html {
    let field = props.field.0;
    let wrong = !props.notes.errors.is_empty();
    let name = html! { <span class="field-name">{ say(field.term.name) }</span> };
    let symbol = (!field.term.symbol.is_empty()).then(|| {
        html! { <span class="field-symbol" aria-hidden="true">{ math::inline(&math::symbol(field.term.symbol)) }</span> }
    });
    let inner = html! {
        <>
            { hint(props) }
            { errors(props) }
            { control }
            { origin(props) }
            { warnings(props) }
        </>
    };
    let class = classes!("field", wrong.then_some("field-wrong"));
    if is_group {
        html! {
            <div {class}>
                <fieldset id={field.id} tabindex="-1" aria-describedby={described_by(props)}>
                    <legend class="field-label">{ name }</legend>
                    { inner }
                </fieldset>
            </div>
        }
    } else {
        html! {
            <div {class}>
                <div class="field-label"><label for={field.id}>{ name }</label>{ symbol }</div>
                { inner }
            </div>
        }
    }
}

/// The ids of what describes the control, those that are there.
pub fn described_by(props: &FieldProps) -> Option<String> {
    let id = props.field.id;
    let mut parts = Vec::new();
    if !hints(props).is_empty() || assumed(props).is_some() {
        parts.push(ids::hint(id));
    }
    if !props.notes.errors.is_empty() {
        parts.push(ids::error(id));
    }
    if !props.origin.is_empty() {
        parts.push(ids::origin(id));
    }
    if !props.notes.warnings.is_empty() {
        parts.push(ids::warning(id));
    }
    (!parts.is_empty()).then(|| parts.join(" "))
}

/// How to measure it, and what follows when it is left empty.
fn hints(props: &FieldProps) -> Vec<String> {
    let term = props.field.term;
    let mut hints = Vec::new();
    if !term.help.is_empty() {
        hints.push(say(term.help).to_owned());
    }
    match props.field.shape {
        Shape::Date => hints.push(WORDS.date_hint.to_owned()),
        Shape::Text if !term.help.contains("patient") => hints.push(WORDS.no_patient.to_owned()),
        _ => {}
    }
    // Where every field may be left empty, the head of the form says so once.
    let is_one_of_several = props.sheet.inputs.iter().any(|field| field.needed);
    if !props.field.needed && term.assumed.is_empty() && is_one_of_several {
        hints.push(WORDS.may_be_empty.to_owned());
    }
    hints
}

/// What is taken while the field is empty.
fn assumed(props: &FieldProps) -> Option<String> {
    let term = props.field.term;
    let is_empty = props.entry.as_deref().is_none_or(Held::is_empty);
    (is_empty && !term.assumed.is_empty())
        .then(|| text::alone(&format!("{} {}", WORDS.left_empty, say(term.assumed))))
}

fn hint(props: &FieldProps) -> Html {
    let hints = hints(props);
    let assumed = assumed(props);
    if hints.is_empty() && assumed.is_none() {
        return Html::default();
    }
    html! {
        <p class="field-hint" id={ids::hint(props.field.id)}>
            { hints.join(" ") }
            if let Some(assumed) = assumed { { " " }<span class="field-assumed">{ assumed }</span> }
        </p>
    }
}

/// From where it was filled.
fn origin(props: &FieldProps) -> Html {
    if props.origin.is_empty() {
        return Html::default();
    }
    html! { <p class="field-origin" id={ids::origin(props.field.id)}>{ &props.origin }</p> }
}

fn errors(props: &FieldProps) -> Html {
    if props.notes.errors.is_empty() {
        return Html::default();
    }
    html! {
        <div class="field-error" id={ids::error(props.field.id)}>
            { for props.notes.errors.iter().map(|said| html! {
                <p><strong class="tag">{ WORDS.error }</strong>{ " " }{ &said.text }</p>
            }) }
        </div>
    }
}

fn warnings(props: &FieldProps) -> Html {
    if props.notes.warnings.is_empty() {
        return Html::default();
    }
    html! {
        <div class="field-warning" id={ids::warning(props.field.id)}>
            { for props.notes.warnings.iter().map(|warning| html! {
                <p><strong>{ WORDS.warning }</strong>{ " " }{ warning }</p>
            }) }
        </div>
    }
}
