//! Opening a record from a file.

use crate::browser::file_text::{self, FileText};
use crate::page::ids;
use crate::state::record;
use crate::text::{WORDS, alone};
use calc::documents::record::Record;
use yew::platform::spawn_local;
use yew::prelude::*;

/// Where what was found in the file goes.
#[derive(Properties, PartialEq, Clone)]
pub struct OpenRecordProps {
    /// Hears of a record that could be opened.
    pub on_found: Callback<Record>,
}

/// A file input. What is no record is refused with the reason beside it, and nothing else changes.
#[component]
pub fn OpenRecord(props: &OpenRecordProps) -> Html {
    let refused = use_state_eq(String::new);
    let doubtful = use_state_eq(|| None::<String>);
    let onchange = {
        let (refused, doubtful) = (refused.setter(), doubtful.setter());
        let on_found = props.on_found.clone();
        Callback::from(move |event: Event| {
            let input = event.target_unchecked_into::<web_sys::HtmlInputElement>();
            let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
            let (refused, doubtful, on_found) = (refused.clone(), doubtful.clone(), on_found.clone());
            spawn_local(async move {
                doubtful.set(None);
                match read(&file).await {
                    Ok(FileText::Sure(text)) => take(&text, &refused, &on_found),
                    Ok(FileText::Doubtful(text)) => {
                        refused.set(String::new());
                        doubtful.set(Some(text));
                    }
                    Err(why) => refused.set(why),
                }
                // So that the same file can be chosen once more, after it was mended.
                input.set_value("");
            });
        })
    };
    let answer = {
        let (refused, doubtful, on_found) = (refused.setter(), doubtful.clone(), props.on_found.clone());
        Callback::from(move |yes: bool| {
            if let (true, Some(text)) = (yes, doubtful.as_ref()) {
                take(text, &refused, &on_found);
            }
            doubtful.set(None);
        })
    };
    let error = format!("{}-error", ids::OPEN_RECORD);
    let described_by = format!("{}-hint {error}", ids::OPEN_RECORD);
    html! {
        <div class="field open-record">
            <label class="field-label" for={ids::OPEN_RECORD}>{ WORDS.open_record }</label>
            <p class="field-hint" id={format!("{}-hint", ids::OPEN_RECORD)}>{ WORDS.open_record_hint }</p>
            <div class="field-error" id={error} role="alert">
                if !refused.is_empty() {
                    <p>
                        <strong class="tag">{ WORDS.refused }</strong>{ " " }{ alone(&refused) }{ " " }{ WORDS.nothing_changed }
                    </p>
                }
            </div>
            if let Some(text) = doubtful.as_ref() { { file_text::question(ids::OPEN_RECORD, text, answer) } }
            <input type="file" id={ids::OPEN_RECORD} accept=".json,application/json" aria-describedby={described_by} {onchange} />
        </div>
    }
}

async fn read(file: &web_sys::File) -> Result<FileText, String> {
    record::may_be_one(file.size())?;
    file_text::read(file).await.ok_or_else(|| WORDS.unreadable_file.to_owned())
}

/// Opens the record in a text, or says why not.
fn take(text: &str, refused: &UseStateSetter<String>, on_found: &Callback<Record>) {
    match record::open(text) {
        Ok(found) => {
            refused.set(String::new());
            on_found.emit(found);
        }
        Err(why) => refused.set(why),
    }
}
