//! The events of the record as rows: saved kind by kind, and added from a file once it was seen what that adds.

use crate::browser::file_text::{self, FileText};
use crate::browser::{clock, export};
use crate::state::{Action, Content};
use crate::store::Id;
use crate::text::{WORDS, alone, counted, fill, say, tell};
use calc::documents::csv::Remark;
use calc::documents::csv::events::{self, Import, LONGEST};
use calc::documents::record::kinds::{self, KINDS, Kind};
use calc::engine::calendar::Moment;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::Sentence;
use std::rc::Rc;
use yew::platform::spawn_local;
use yew::prelude::*;

/// How many rows of a kind are listed: more of them push everything else off the view.
const MOST: usize = 100;

/// What is shown.
#[derive(Properties, Clone)]
pub struct EventRowsProps {
    /// What stands on the page.
    pub now: Rc<Content>,
    /// The units of the page.
    pub set: UnitSet,
    /// Hears of every change.
    pub send: Callback<Action>,
}

impl PartialEq for EventRowsProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.now.record, &other.now.record) && self.set == other.set
    }
}

/// The text of a file, with the moment and the id that its events get where they have none.
#[derive(Debug, Clone, PartialEq)]
struct Chosen {
    text: Rc<str>,
    at: Moment,
    drawn: String,
}

/// The section.
#[component]
pub fn EventRows(props: &EventRowsProps) -> Html {
    let words = &WORDS.exchange;
    let record = &props.now.record;
    let chosen = use_state_eq(|| None::<Chosen>);
    let doubtful = use_state_eq(|| None::<String>);
    let trouble = use_state_eq(|| "");
    let kind = use_state_eq(|| "");
    let import = {
        let key = (Rc::as_ptr(record) as usize, (*chosen).clone(), *kind);
        use_memo(key, |(_, chosen, kind)| {
            chosen
                .as_ref()
                .map(|Chosen { text, at, drawn }| events::read(record, kinds::kind(kind), text, *at, drawn))
        })
    };
    let take = {
        let (chosen, trouble) = (chosen.setter(), trouble.setter());
        Callback::from(move |text: String| match (clock::now(), Id::draw()) {
            (Some(at), Some(id)) => {
                trouble.set("");
                chosen.set(Some(Chosen { text: text.into(), at, drawn: id.text().to_owned() }));
            }
            _ => trouble.set(WORDS.unreadable_file),
        })
    };
    let onchange = {
        let (take, chosen, trouble, doubtful) =
            (take.clone(), chosen.setter(), trouble.setter(), doubtful.setter());
        Callback::from(move |event: Event| {
            let input = event.target_unchecked_into::<web_sys::HtmlInputElement>();
            let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
            chosen.set(None);
            doubtful.set(None);
            if file.size() > LONGEST as f64 {
                return trouble.set(WORDS.rows.too_long);
            }
            let (take, trouble, doubtful) = (take.clone(), trouble.clone(), doubtful.clone());
            spawn_local(async move {
                match file_text::read(&file).await {
                    Some(FileText::Sure(text)) => take.emit(text),
                    Some(FileText::Doubtful(text)) => doubtful.set(Some(text)),
                    None => trouble.set(WORDS.unreadable_file),
                }
                // so that the same file can be chosen once more, after it was mended
                input.set_value("");
            });
        })
    };
    let answer = {
        let (take, doubtful) = (take.clone(), doubtful.clone());
        Callback::from(move |yes: bool| {
            if let (true, Some(text)) = (yes, doubtful.as_ref()) {
                take.emit(text.clone());
            }
            doubtful.set(None);
        })
    };
    let on_kind = {
        let kind = kind.setter();
        Callback::from(move |event: Event| {
            let value = event.target_unchecked_into::<web_sys::HtmlSelectElement>().value();
            kind.set(kinds::kind(&value).map_or("", |kind| kind.id));
        })
    };
    let counts: Vec<(&'static Kind, usize)> = KINDS
        .iter()
        .map(|kind| (*kind, record.events().filter(|event| event.kind == *kind).count()))
        .filter(|(_, count)| *count > 0)
        .collect();
    html! {
        <section aria-labelledby="event-rows">
            <h3 id="event-rows">{ words.events_as_rows }</h3>
            <p>{ words.about_rows }</p>
            if counts.is_empty() { <p>{ words.no_events }</p> }
            <p>{ for counts.iter().map(|(kind, count)| save(props, kind, *count)) }</p>
            <div class="field">
                <label class="field-label" for="event-rows-file">{ words.rows_file }</label>
                <p class="field-hint" id="event-rows-hint">{ words.rows_hint }</p>
                <input type="file" id="event-rows-file" accept=".csv,.tsv,.txt,text/csv,text/plain" aria-describedby="event-rows-hint" {onchange} />
            </div>
            <div class="field">
                <label class="field-label" for="event-rows-kind">{ words.kind_of_rows }</label>
                <select id="event-rows-kind" onchange={on_kind}>
                    <option value="" selected={kind.is_empty()}>{ words.as_named }</option>
                    { for KINDS.iter().map(|one| html! { <option value={one.id} selected={one.id == *kind}>{ say(one.name) }</option> }) }
                </select>
            </div>
            if let Some(text) = doubtful.as_ref() { { file_text::question("event-rows", text, answer) } }
            <div id="event-rows-found" role="status">
                if !trouble.is_empty() { { refused(trouble.to_string()) } }
                { match import.as_ref() {
                    None => Html::default(),
                    Some(Err(why)) => refused(alone(&tell(why, props.set))),
                    Some(Ok(import)) => found(import, props),
                } }
            </div>
        </section>
    }
}

fn save(props: &EventRowsProps, kind: &'static Kind, count: usize) -> Html {
    let now = Rc::clone(&props.now);
    let onclick =
        Callback::from(move |_: MouseEvent| export::offer_rows(&events::write(&now.record, kind), kind.id));
    let label = fill(&counted(WORDS.exchange.save_kind, count), &[("kind", say(kind.name))]);
    html! { <><button type="button" class="plain" id={format!("save-{}", kind.id)} {onclick}>{ label }</button>{ " " }</> }
}

fn refused(why: String) -> Html {
    html! { <p class="field-error"><strong class="tag">{ WORDS.refused }</strong>{ " " }{ why }</p> }
}

/// What the file would add, and the button that adds it.
fn found(import: &Import, props: &EventRowsProps) -> Html {
    let words = &WORDS.exchange;
    let count = import.events.len();
    let added = Rc::new(import.events.clone());
    let onclick = props.send.reform(move |_: MouseEvent| Action::AddEvents(Rc::clone(&added)));
    let told = match count {
        0 => words.would_add_none.to_owned(),
        count => fill(&counted(words.would_add, count), &[("kind", say(import.kind.name))]),
    };
    html! {
        <>
            <p>{ told }</p>
            if import.same > 0 { <p>{ counted(words.same, import.same) }</p> }
            if !import.ignored.is_empty() {
                <p>{ fill(WORDS.rows.ignored, &[("columns", &import.ignored.join("; "))]) }</p>
            }
            if !import.lacking.is_empty() {
                <p>{ fill(WORDS.rows.lacking, &[("columns", &import.lacking.iter().map(|name| say(name)).collect::<Vec<_>>().join("; "))]) }</p>
            }
            { listed("event-rows-left-out", words.left_out, &import.left_out, props.set) }
            { listed("event-rows-remarks", words.look_at, &import.remarks, props.set) }
            if count > 0 {
                <button type="button" id="add-events" {onclick}>{ counted(words.add, count) }</button>
            }
        </>
    }
}

fn listed(id: &'static str, over: [&'static str; 2], remarks: &[Remark], set: UnitSet) -> Html {
    if remarks.is_empty() {
        return Html::default();
    }
    let more = remarks.len().saturating_sub(MOST);
    let one = |Remark { line, column, sentence }: &Remark| {
        let line = line.to_string();
        let place = match *column {
            "" => fill(WORDS.rows.in_line, &[("line", &line)]),
            column => fill(WORDS.rows.in_cell, &[("line", &line), ("column", say(column))]),
        };
        html! { <li>{ place }{ show(sentence, set) }</li> }
    };
    html! {
        <>
            <p>{ counted(over, remarks.len()) }</p>
            <ul {id}>{ for remarks.iter().take(MOST).map(one) }</ul>
            if more > 0 { <p>{ fill(WORDS.exchange.and_more, &[("count", &more.to_string())]) }</p> }
        </>
    }
}

fn show(sentence: &Sentence, set: UnitSet) -> String {
    alone(&tell(sentence, set))
}
