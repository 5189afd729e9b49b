//! Section Records: the open record, its earlier states, the others on this device, and what comes from a file or goes
//! into one.

use super::event_rows::EventRows;
use super::title;
use crate::browser::clock;
use crate::browser::export::{export, offer_text};
use crate::keeping::{Keeper, Status};
use crate::page::ids;
use crate::page::open_record::OpenRecord;
use crate::state::{Action, Content};
use crate::store::{Head, Id, Listed, State, Trouble};
use crate::text::{WORDS, fill};
use calc::documents::record::Record;
use calc::engine::quantity::UnitSet;
use std::rc::Rc;
use yew::platform::spawn_local;
use yew::prelude::*;

/// What the section shows.
#[derive(Properties, Clone)]
pub struct RecordsProps {
    /// What stands on the page.
    pub now: Rc<Content>,
    /// The units of the page.
    pub set: UnitSet,
    /// Hears of every change.
    pub send: Callback<Action>,
    /// Hears of a record from a file.
    pub on_found: Callback<Record>,
    /// Of this window.
    pub keeper: Keeper,
    /// How the open record stands with the store.
    pub status: Status,
}

impl PartialEq for RecordsProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.now, &other.now) && self.set == other.set && self.status == other.status
    }
}

/// What lies in the store.
#[derive(Debug, Clone, PartialEq, Default)]
struct Kept {
    listed: Listed,
    states: Vec<State>,
    trouble: Option<Trouble>,
}

/// The section.
#[component]
pub fn Records(props: &RecordsProps) -> Html {
    let kept = use_state_eq(Kept::default);
    let turn = use_state(|| 0_u32);
    {
        let (kept, keeper, id) = (kept.setter(), props.keeper.clone(), props.now.id.clone());
        // looked at again after each saving, and after each thing done here
        use_effect_with((props.status.clone(), id.clone(), *turn), move |_| {
            spawn_local(async move { kept.set(look(&keeper, id).await) });
        });
    }
    let refused = use_state_eq(|| None::<Trouble>);
    // The keys of damaged entries that were taken out as files: only these may be deleted.
    let exported = use_state_eq(Vec::<String>::new);
    let doing = {
        let refused = refused.setter();
        let again = Callback::from(move |result: Result<(), Trouble>| {
            refused.set(result.err());
            turn.set(*turn + 1);
        });
        Doing { keeper: props.keeper.clone(), again, exported: exported.clone() }
    };
    let begin =
        props.send.reform(|_: MouseEvent| Action::Open(Rc::new(crate::state::record::blank()), Id::draw()));
    let to_file = {
        let now = Rc::clone(&props.now);
        Callback::from(move |_: MouseEvent| export(&now))
    };
    let has_store = props.keeper.store().is_some();
    // Of a store that is not open nobody knows what it holds.
    let nothing = |words: &'static str| {
        if has_store {
            html! { <p>{ words }</p> }
        } else {
            html! { <p class="missing">{ WORDS.not_known }</p> }
        }
    };
    html! {
        <div class="start records">
            <div>
                <h2 id={ids::VIEW} tabindex="-1">{ WORDS.section.records }</h2>
                <p>{ WORDS.section.open_now }{ " " }<strong id="open-now">{ title(&props.now) }</strong></p>
                <p>
                    <button type="button" id="export" onclick={to_file}>{ WORDS.section.export }</button>{ " " }
                    <button type="button" id="new-record" onclick={begin}>{ WORDS.section.new_record }</button>
                </p>
                if let Some(trouble) = refused.as_ref() {
                    <div class="notice notice-trouble" role="alert">
                        <p>{ WORDS.section.not_done }{ " " }{ trouble.sentence() }</p>
                        { damaged(trouble) }
                    </div>
                }
                if let Some(trouble) = &kept.trouble { <p class="notice">{ trouble.sentence() }</p> }
            </div>
            <OpenRecord now={Rc::clone(&props.now)} send={props.send.clone()} on_found={props.on_found.clone()} />
            <EventRows now={Rc::clone(&props.now)} set={props.set} send={props.send.clone()} />
            { super::kept_sheets::kept_sheets(&props.now, props.set, &props.send) }
            <section aria-labelledby="kept-records">
                <h3 id="kept-records">{ WORDS.section.kept_records }</h3>
                <p>{ WORDS.section.who_can_read }</p>
                if kept.listed.records.is_empty() { { nothing(WORDS.section.none_kept) } }
                <ul class="kept">{ for kept.listed.records.iter().map(|head| doing.record(head, props.now.id.as_ref())) }</ul>
                if !kept.listed.foreign.is_empty() {
                    <p class="notice">{ WORDS.section.foreign_in_store }</p>
                    { for kept.listed.foreign.iter().map(|key| doing.foreign(key)) }
                }
            </section>
            if !kept.listed.binned.is_empty() {
                <section aria-labelledby="bin">
                    <h3 id="bin">{ WORDS.section.bin }</h3>
                    <ul class="kept">{ for kept.listed.binned.iter().map(|head| doing.binned(head)) }</ul>
                    <button type="button" id="empty-bin" onclick={doing.emptying()}>{ WORDS.section.empty_bin }</button>
                </section>
            }
            <section aria-labelledby="states">
                <h3 id="states">{ WORDS.section.states }</h3>
                <p>{ WORDS.section.about_states }</p>
                if kept.states.is_empty() { { nothing(WORDS.section.no_states) } }
                <ul class="kept">
                    { for kept.states.iter().map(|state| doing.state(*state, props.now.id.clone())) }
                </ul>
            </section>
        </div>
    }
}

async fn look(keeper: &Keeper, id: Option<Id>) -> Kept {
    let Some(store) = keeper.store() else { return Kept::default() };
    let listed = match store.list().await {
        Ok(listed) => listed,
        Err(trouble) => return Kept { trouble: Some(trouble), ..Kept::default() },
    };
    let states = match id {
        Some(id) => store.history(&id).await.unwrap_or_default(),
        None => Vec::new(),
    };
    Kept { listed, states, trouble: None }
}

/// The way to a damaged record as it lies in the store.
fn damaged(trouble: &Trouble) -> Html {
    let Trouble::Damaged { text, .. } = trouble else { return Html::default() };
    let text = text.clone();
    let onclick = Callback::from(move |_: MouseEvent| offer_text(&text));
    html! { <button type="button" id="export-damaged" {onclick}>{ WORDS.section.export_now }</button> }
}

fn named(head: &Head) -> &str {
    if head.name.is_empty() { WORDS.section.unnamed_record } else { &head.name }
}

/// What can be done with the records of this device; the lists are looked at again afterwards.
struct Doing {
    keeper: Keeper,
    again: Callback<Result<(), Trouble>>,
    exported: UseStateHandle<Vec<String>>,
}

impl Doing {
    fn record(&self, head: &Head, open: Option<&Id>) -> Html {
        let is_open = open == Some(&head.id);
        let (name, when) = (named(head), clock::day_and_time(head.saved));
        html! {
            <li>
                <span>{ name }{ " · " }{ fill(WORDS.section.kept_on, &[("when", &when)]) }</span>
                if !is_open {
                    <span>
                        <button type="button" class="open-kept" onclick={self.opening(head)}>
                            { fill(WORDS.section.open_record_of, &[("name", name)]) }
                        </button>{ " " }
                        <button type="button" class="plain" onclick={self.binning(head, true)}>
                            { fill(WORDS.section.to_bin, &[("name", name)]) }
                        </button>
                    </span>
                }
            </li>
        }
    }

    fn binned(&self, head: &Head) -> Html {
        html! {
            <li>
                <span>{ named(head) }</span>
                <button type="button" class="plain" onclick={self.binning(head, false)}>
                    { fill(WORDS.section.from_bin, &[("name", named(head))]) }
                </button>
            </li>
        }
    }

    fn state(&self, state: State, id: Option<Id>) -> Html {
        let onclick = self.when_clicked(move |keeper| {
            let id = id.clone();
            async move {
                let (Some(store), Some(id)) = (keeper.store(), id) else { return Err(Trouble::Absent) };
                // what was typed a moment ago is put among the states too
                keeper.save_now().await?;
                let loaded = store.restore(&id, keeper.seen(&id).unwrap_or_default(), state).await?;
                keeper.show(loaded);
                Ok(())
            }
        });
        let when = clock::day_and_time(state.saved);
        html! {
            <li>
                <button type="button" class="go-back" {onclick}>{ fill(WORDS.section.go_back_to, &[("when", &when)]) }</button>
            </li>
        }
    }

    /// What is no record of ours can be taken out as a file, and then deleted.
    fn foreign(&self, key: &str) -> Html {
        let (name, exported) = (key.to_owned(), self.exported.clone());
        let export = self.when_clicked(move |keeper| {
            let (name, exported) = (name.clone(), exported.clone());
            async move {
                let store = keeper.store().ok_or(Trouble::Absent)?;
                offer_text(&store.raw(&name).await?.ok_or(Trouble::Gone)?);
                exported.set(exported.iter().cloned().chain([name]).collect());
                Ok(())
            }
        });
        let name = key.to_owned();
        let delete = self.when_clicked(move |keeper| {
            let name = name.clone();
            async move { keeper.store().ok_or(Trouble::Absent)?.forget(&name).await }
        });
        let is_exported = self.exported.iter().any(|exported| exported == key);
        html! {
            <p>
                <button type="button" class="export-entry" onclick={export}>{ fill(WORDS.section.export_entry, &[("key", key)]) }</button>
                if is_exported {
                    { " " }<button type="button" class="plain delete-entry" onclick={delete}>{ fill(WORDS.section.delete_entry, &[("key", key)]) }</button>
                }
            </p>
        }
    }

    fn opening(&self, head: &Head) -> Callback<MouseEvent> {
        let id = head.id.clone();
        self.when_clicked(move |keeper| {
            let id = id.clone();
            async move {
                let store = keeper.store().ok_or(Trouble::Absent)?;
                keeper.save_now().await?;
                keeper.show(store.load(&id).await?);
                Ok(())
            }
        })
    }

    fn binning(&self, head: &Head, away: bool) -> Callback<MouseEvent> {
        let head = head.clone();
        self.when_clicked(move |keeper| {
            let head = head.clone();
            async move {
                let store = keeper.store().ok_or(Trouble::Absent)?;
                keeper.saw(&store.bin(&head.id, head.revision, away).await?);
                Ok(())
            }
        })
    }

    fn emptying(&self) -> Callback<MouseEvent> {
        self.when_clicked(|keeper| async move {
            keeper.store().ok_or(Trouble::Absent)?.empty_bin().await?;
            Ok(())
        })
    }

    /// Does it, says what was refused, and looks at the lists again.
    fn when_clicked<F>(&self, act: impl Fn(Keeper) -> F + 'static) -> Callback<MouseEvent>
    where
        F: Future<Output = Result<(), Trouble>> + 'static,
    {
        let (keeper, again) = (self.keeper.clone(), self.again.clone());
        Callback::from(move |_: MouseEvent| {
            let (doing, again) = (act(keeper.clone()), again.clone());
            spawn_local(async move { again.emit(doing.await) });
        })
    }
}
