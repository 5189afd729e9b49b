//! A number with its unit.

use super::frame::{described_by, frame};
use super::unit::{unit_select, units_of};
use super::{FieldProps, text_of};
use crate::page::ids;
use crate::state::Change;
use crate::text::say;
use yew::prelude::*;

/// A text with a unit beside it. No `type="number"`: such a field drops what it does not like without a word.
pub fn number(props: &FieldProps) -> Html {
    let (field, sender, typed) = (props.field.0, props.sender(), props.typed());
    let says_error = props.notes.says(field.id);
    let units = units_of(field, props.set);
    let unit = typed.shown_unit(field, props.set);
    let control = html! {
        <div class="field-line">
            <input type="text" class="number" id={field.id} inputmode="decimal" autocomplete="off" value={typed.shown().to_owned()}
                aria-invalid={says_error.then_some("true")} aria-describedby={described_by(props)}
                oninput={sender.on(|event| Change::Text(text_of(event)))}
                onfocus={sender.entering(field.id, says_error)} onblur={sender.leaving(field.id)} />
            { unit_select(ids::unit(field.id), say(field.term.name), units, unit, sender.on(Change::Unit)) }
        </div>
    };
    frame(props, false, control)
}
