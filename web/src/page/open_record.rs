//! Opening a record from a file.

use super::same_record::preview;
use crate::browser::file_text::{self, FileText};
use crate::page::ids;
use crate::state::record;
use crate::state::{Action, Content};
use crate::text::{WORDS, alone, tell};
use calc::documents::record::Record;
use calc::engine::quantity::UnitSet;
use std::rc::Rc;
use yew::platform::spawn_local;
use yew::prelude::*;

/// Where what was found in the file goes.
#[derive(Properties, Clone)]
pub struct OpenRecordProps {
    /// What stands on the page.
    pub now: Rc<Content>,
    /// Hears of every change.
    pub send: Callback<Action>,
    /// Hears of a record that could be opened.
    pub on_found: Callback<Record>,
}

impl PartialEq for OpenRecordProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.now.record, &other.now.record)
    }
}

/// A file input. Another state of the open record may be merged with it. What is no record is refused with the reason beside it, and nothing else changes.
#[component]
pub fn OpenRecord(props: &OpenRecordProps) -> Html {
    let refused = use_state_eq(String::new);
    let doubtful = use_state_eq(|| None::<String>);
    let same = use_state(|| None::<Rc<Record>>);
    let is_merged = use_state_eq(|| false);
    let on_found = {
        let (same, is_merged) = (same.setter(), is_merged.setter());
        let (now, on_found) = (Rc::clone(&props.now), props.on_found.clone());
        Callback::from(move |found: Record| {
            is_merged.set(false);
            if found.is_same_record(&now.record) {
                same.set(Some(Rc::new(found)));
            } else {
                same.set(None);
                on_found.emit(found);
            }
        })
    };
    let onchange = {
        let (refused, doubtful) = (refused.setter(), doubtful.setter());
        let on_found = on_found.clone();
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
        let (refused, doubtful, on_found) = (refused.setter(), doubtful.clone(), on_found);
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
            if let Some(file) = same.as_ref() { { choice(props, file, &same, &is_merged) } }
            if *is_merged { <p id="merged" role="status">{ WORDS.exchange.merged }</p> }
            <input type="file" id={ids::OPEN_RECORD} accept=".json,application/json" aria-describedby={described_by} {onchange} />
        </div>
    }
}

/// What to do with another state of the open record.
fn choice(
    props: &OpenRecordProps,
    file: &Rc<Record>,
    same: &UseStateHandle<Option<Rc<Record>>>,
    is_merged: &UseStateHandle<bool>,
) -> Html {
    let words = &WORDS.exchange;
    let merged = match props.now.record.merge(file, None) {
        Ok(merged) => merged,
        Err(why) => return html! { <p class="field-error">{ alone(&tell(&why, UnitSet::Metric)) }</p> },
    };
    let shown = preview(&props.now.record, file, &merged);
    let merge = {
        let (same, is_merged, send) = (same.setter(), is_merged.setter(), props.send.clone());
        let record = Rc::new(merged.record);
        Callback::from(move |_: MouseEvent| {
            send.emit(Action::Merge(Rc::clone(&record)));
            same.set(None);
            is_merged.set(true);
        })
    };
    let apart = {
        let (same, on_found, file) = (same.setter(), props.on_found.clone(), Rc::clone(file));
        Callback::from(move |_: MouseEvent| {
            same.set(None);
            on_found.emit(file.as_ref().clone());
        })
    };
    let cancel = {
        let same = same.setter();
        Callback::from(move |_: MouseEvent| same.set(None))
    };
    html! {
        <div class="notice" id="same-record" role="alert">
            <p>{ words.same_record }</p>
            { shown }
            <p>
                <button type="button" id="merge-record" onclick={merge}>{ words.merge }</button>{ " " }
                <button type="button" class="plain" id="open-separately" onclick={apart}>{ words.open_separately }</button>{ " " }
                <button type="button" class="plain" id="merge-cancel" onclick={cancel}>{ words.cancel }</button>
            </p>
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
