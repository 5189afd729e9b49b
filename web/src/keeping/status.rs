//! How the open record stands with the store: one line at the foot of every view, and more where the person must decide.

use super::{Keeper, Status};
use crate::browser::clock;
use crate::browser::export::{export, offer_text};
use crate::state::Content;
use crate::store::Trouble;
use crate::text::{WORDS, fill};
use std::rc::Rc;
use yew::prelude::*;

/// What is shown.
#[derive(Properties, Clone)]
pub struct StatusProps {
    /// Of this window.
    pub keeper: Keeper,
    /// How it stands.
    pub status: Status,
    /// What stands on the page.
    pub now: Rc<Content>,
}

impl PartialEq for StatusProps {
    fn eq(&self, other: &Self) -> bool {
        self.status == other.status && Rc::ptr_eq(&self.now, &other.now)
    }
}

/// The line, with "export now" wherever something is not kept.
#[component]
pub fn StatusView(props: &StatusProps) -> Html {
    let said = match &props.status {
        Status::Opening => WORDS.section.opening_store.to_owned(),
        Status::Nothing if props.now.record.is_invented() => WORDS.section.invented_not_kept.to_owned(),
        Status::Nothing => WORDS.section.nothing_to_keep.to_owned(),
        Status::Changed => WORDS.section.not_yet_saved.to_owned(),
        Status::Saved(moment) => fill(WORDS.section.saved_at, &[("time", &clock::time_of_day(*moment))]),
        Status::Troubled(trouble) => trouble.sentence(),
    };
    let is_trouble = matches!(props.status, Status::Troubled(_));
    let deciding = matches!(&props.status, Status::Troubled(Trouble::Conflict(_) | Trouble::Gone));
    let doing = |act: fn(&Keeper)| {
        let keeper = props.keeper.clone();
        Callback::from(move |_: MouseEvent| act(&keeper))
    };
    let export_now = {
        let (now, status) = (Rc::clone(&props.now), props.status.clone());
        Callback::from(move |_: MouseEvent| match &status {
            // as it lies in the store: what stands on the page is another record
            Status::Troubled(Trouble::Damaged { text, .. }) => offer_text(text),
            _ => export(&now),
        })
    };
    let class = if is_trouble { "notice notice-trouble" } else { "notice" };
    html! {
        <div {class} id="kept-state" role={is_trouble.then_some("alert")}>
            <p>{ said }</p>
            if is_trouble {
                <p>
                    <button type="button" id="export-now" onclick={export_now}>{ WORDS.section.export_now }</button>
                    if deciding {
                        { " " }<button type="button" id="keep-both" onclick={doing(Keeper::keep_both)}>{ WORDS.section.keep_both }</button>
                        { " " }<button type="button" id="take-other" onclick={doing(Keeper::take_other)}>{ WORDS.section.take_other }</button>
                    }
                </p>
            }
        </div>
    }
}
