//! What happened at a moment. An event is never changed afterwards: a correction is an event of its own that names what it
//! corrects, and the original stays readable.

use super::Fields;
use super::kinds::{CORRECTION, Kind};
use crate::engine::calendar::Moment;
use chrono::{Datelike, NaiveDate};
use serde_json::{Map, Value as Json};
use std::rc::Rc;

/// The id of an event, a place or an instrument: never a name.
pub type Id = Rc<str>;

/// When something happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// By a clock with its offset from UTC.
    At(Moment),
    /// On a day of which nobody wrote down the hour. It counts before everything else of that day.
    On(NaiveDate),
}

/// One event.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// Its own.
    pub id: Id,
    /// When it happened.
    pub when: When,
    /// When it was typed; not known of what an older program kept.
    pub typed: Option<Moment>,
    /// What it is.
    pub kind: &'static Kind,
    /// Where.
    pub place: Option<Id>,
    /// What it names: another event or an instrument.
    pub of: Option<Id>,
    /// Initials or role, never a patient.
    pub who: String,
    /// What was written down.
    pub fields: Fields,
    /// In words.
    pub note: String,
    /// Of a correction, what else it changes.
    pub becomes: Becomes,
    /// Members that this version does not know.
    pub(super) others: Rc<Map<String, Json>>,
}

/// What a correction changes besides fields.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Becomes {
    /// The event never was.
    pub withdrawn: bool,
    /// It happened then.
    pub when: Option<When>,
    /// It happened there.
    pub place: Option<Id>,
}

impl When {
    /// `2026-11-12T07:00+01:00`, or a day alone.
    pub fn read(text: &str) -> Option<When> {
        let day = |text: &str| (text.len() == 10).then(|| text.parse().ok()).flatten().map(When::On);
        Moment::read(text).ok().map(When::At).or_else(|| day(text.trim()))
    }

    /// The day on the clock there.
    pub fn day(self) -> NaiveDate {
        match self {
            When::At(moment) => moment.date(),
            When::On(day) => day,
        }
    }

    /// Whether it has happened by then.
    pub fn is_by(self, at: Moment) -> bool {
        match self {
            When::At(moment) => moment.since(at).si() <= 0.0,
            When::On(day) => day <= at.date(),
        }
    }

    /// In which year-chunk of a record it lies.
    pub(super) fn year(self) -> i32 {
        self.day().year()
    }

    /// What happened first comes first. A day counts from its midnight in UTC.
    pub(super) fn order(self) -> i64 {
        match self {
            When::At(moment) => moment.milliseconds(),
            When::On(day) => day.and_time(chrono::NaiveTime::MIN).and_utc().timestamp_millis(),
        }
    }
}

impl std::fmt::Display for When {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            When::At(moment) => moment.fmt(f),
            When::On(day) => day.fmt(f),
        }
    }
}

impl Event {
    /// An event of which nothing is known yet but what it is, and when and where it happened.
    pub fn new(id: impl Into<Id>, kind: &'static Kind, when: When, place: Option<Id>) -> Self {
        Self {
            id: id.into(),
            when,
            typed: None,
            kind,
            place,
            of: None,
            who: String::new(),
            fields: Fields::default(),
            note: String::new(),
            becomes: Becomes::default(),
            others: Rc::default(),
        }
    }

    /// Whether it is a correction.
    pub fn is_correction(&self) -> bool {
        self.kind == &CORRECTION
    }

    /// Of two events the one that happened first comes first; at one moment their ids decide, never the order of typing.
    pub(super) fn order(&self) -> (i64, &str) {
        (self.when.order(), &self.id)
    }
}
