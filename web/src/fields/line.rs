//! A date, a moment or a name: one line of text.

use super::frame::{described_by, frame};
use super::{FieldProps, text_of};
use crate::browser::clock;
use crate::sheet::shown;
use crate::state::Change;
use crate::text::{WORDS, fill, say};
use calc::documents::reading::read_text;
use calc::engine::sheet::{Shape, Value};
use yew::prelude::*;

/// One line of text. A moment has a button for the present one, and is said back in full.
pub fn line(props: &FieldProps) -> Html {
    let (field, sender) = (props.field.0, props.sender());
    let says_error = props.notes.says(field.id);
    let is_moment = matches!(field.shape, Shape::Moment);
    let class = if matches!(field.shape, Shape::Date | Shape::Moment) { "date" } else { "words" };
    let now = sender.on(|_: MouseEvent| Change::Text(clock::iso_moment()));
    let control = html! {
        <div class="field-line">
            <input type="text" {class} id={field.id} autocomplete="off" spellcheck="false" value={props.typed().shown().to_owned()}
                aria-invalid={says_error.then_some("true")} aria-describedby={described_by(props)}
                oninput={sender.on(|event| Change::Text(text_of(event)))}
                onfocus={sender.entering(field.id, says_error)} onblur={sender.leaving(field.id)} />
            if is_moment {
                <button type="button" id={format!("{}-now", field.id)} onclick={now}
                    aria-label={fill(WORDS.now_of, &[("name", say(field.term.name))])}>{ WORDS.now }</button>
                { said_back(props) }
            }
        </div>
    };
    frame(props, false, control)
}

/// The moment that was read, as people write it.
fn said_back(props: &FieldProps) -> Html {
    match read_text(props.field.0, &props.typed().text, None) {
        Ok(Some(Value::Moment(moment))) => {
            html! { <span class="said-back">{ shown::moment(&moment.to_string()) }</span> }
        }
        _ => Html::default(),
    }
}
