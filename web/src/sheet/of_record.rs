//! A sheet and the open record: what the record knows of its empty fields, where the filled ones come from, and keeping it.

use super::judge::Judged;
use crate::browser::clock;
use crate::page::route;
use crate::state::{Action, Content};
use crate::store::Id;
use crate::text::{WORDS, counted, fill, say};
use calc::documents::record::{Event, Given, Record, When};
use calc::engine::sheet::{Answer, Declaration};
use std::collections::BTreeMap;
use yew::prelude::*;

/// What of the record a sheet shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OfRecord {
    /// How many empty fields it knows something of.
    offered: usize,
    /// Of which place, where there are several.
    place: Option<AttrValue>,
    /// Where the filled fields come from, by their ids.
    origins: BTreeMap<&'static str, AttrValue>,
    /// When the sheet was kept last.
    kept: Option<AttrValue>,
}

impl OfRecord {
    /// Of a sheet.
    pub fn of(now: &Content, sheet: &'static Declaration) -> Self {
        let given = now.filling(sheet).given;
        let origins = given.iter().map(|(id, given)| (*id, told(&now.record, given).into())).collect();
        let kept = now.record.sheets().iter().filter(|filled| *filled.sheet == *sheet.id);
        let kept = kept.filter_map(|filled| filled.kept).max_by_key(|at| at.milliseconds());
        let name = now.record.places().get(now.place).and_then(|place| place.fields.word("place-name"));
        let place = name.filter(|_| now.record.places().len() > 1).map(|name| name.to_owned().into());
        let kept = kept.map(|at| super::shown::moment(&at.to_string()).into());
        Self { offered: now.offers(sheet).len(), place, origins, kept }
    }

    /// Where a field comes from; empty where somebody typed it.
    pub fn origin(&self, field: &str) -> AttrValue {
        self.origins.get(field).cloned().unwrap_or_default()
    }

    /// Fills the empty fields; nothing where the record knows nothing of them.
    pub fn filling(&self, sheet: &'static Declaration, send: &Callback<Action>) -> Html {
        if self.offered == 0 {
            return Html::default();
        }
        let onclick = send.reform(move |_: MouseEvent| Action::Fill(sheet));
        let about = match &self.place {
            Some(place) => fill(WORDS.kept.about_filling, &[("place", place)]),
            None => WORDS.kept.about_filling_here.to_owned(),
        };
        html! {
            <div class="of-record">
                <button type="button" id="fill-from-record" aria-describedby="about-filling" {onclick}>
                    { counted(WORDS.kept.fill_from_record, self.offered) }
                </button>
                <p class="field-hint" id="about-filling">{ about }</p>
            </div>
        }
    }

    /// Keeps a sheet that has an answer.
    pub fn keeping(&self, sheet: &'static Declaration, judged: &Judged, send: &Callback<Action>) -> Html {
        let is_missing = |answer: &Answer| matches!(answer, Answer::Missing(_));
        if judged.assessment.answers.iter().all(is_missing) {
            return Html::default();
        }
        let send = send.clone();
        let onclick = Callback::from(move |_: MouseEvent| {
            if let (Some(id), Some(at)) = (Id::draw(), clock::now()) {
                send.emit(Action::Keep(sheet, id, at));
            }
        });
        html! {
            <div class="of-record">
                <button type="button" id="keep-sheet" {onclick}>{ WORDS.kept.keep }</button>
                if let Some(when) = &self.kept {
                    <p class="field-hint" id="last-kept" role="status">
                        { fill(WORDS.kept.last_kept, &[("when", when)]) }{ " " }
                        <a class="to-field" href={route::RECORDS}>{ WORDS.kept.see_kept }</a>
                    </p>
                }
            </div>
        }
    }
}

/// Where a field comes from, in words.
pub fn told(record: &Record, given: &Given) -> String {
    let words = &WORDS.kept;
    let name = |id: &str| {
        let place = record.places().get(record.place(id)?)?;
        Some(place.fields.word("place-name").unwrap_or(WORDS.section.unnamed_place).to_owned())
    };
    match given {
        Given::Ro => words.from_ro.to_owned(),
        Given::Place(id) => {
            let place = name(id).unwrap_or_else(|| WORDS.section.unnamed_place.to_owned());
            fill(words.from_place, &[("place", &place)])
        }
        Given::Event(id) => {
            let Some(event) = record.as_corrected(id) else { return words.from_withdrawn.to_owned() };
            let (kind, when) = (say(event.kind.name), super::shown::moment_or_day(event.when));
            match event.place.as_deref().and_then(name) {
                Some(place) => {
                    fill(words.from_event_at, &[("kind", kind), ("when", &when), ("place", &place)])
                }
                None => fill(words.from_event, &[("kind", kind), ("when", &when)]),
            }
        }
        Given::Events(ids) => {
            let events: Vec<_> = ids.iter().filter_map(|id| record.as_corrected(id)).collect();
            let (Some(first), Some(last)) = (events.first(), events.last()) else {
                return words.from_withdrawn.to_owned();
            };
            let day = |event: &Event| super::shown::moment_or_day(When::On(event.when.day()));
            let told = counted(words.from_events, ids.len());
            fill(&told, &[("kind", say(first.kind.name)), ("first", &day(first)), ("last", &day(last))])
        }
        Given::Series => words.from_series.to_owned(),
        Given::Sheet(id) => {
            let sheet = crate::state::find(id).map_or(*id, |entry| say(entry.declaration.name));
            fill(words.from_sheet, &[("sheet", sheet)])
        }
    }
}
