//! A date or a name: one line of text.

use super::frame::{described_by, frame};
use super::{FieldProps, text_of};
use crate::state::Change;
use calc::engine::sheet::Shape;
use yew::prelude::*;

/// One line of text.
pub fn line(props: &FieldProps) -> Html {
    let (field, sender) = (props.field.0, props.sender());
    let says_error = props.notes.says(field.id);
    let class = if matches!(field.shape, Shape::Date) { "date" } else { "words" };
    let control = html! {
        <div class="field-line">
            <input type="text" {class} id={field.id} autocomplete="off" spellcheck="false" value={props.typed().text}
                aria-invalid={says_error.then_some("true")} aria-describedby={described_by(props)}
                oninput={sender.on(|event| Change::Text(text_of(event)))}
                onfocus={sender.entering(field.id, says_error)} onblur={sender.leaving(field.id)} />
        </div>
    };
    frame(props, false, control)
}
