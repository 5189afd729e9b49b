//! Events as their corrections leave them. The originals stay in the record; this is what counts.
//!
//! A correction says what was true when the event happened, so that it counts for every moment that is asked about. Of two
//! corrections of one event the later one decides; one that withdraws another one takes it back.

use super::kinds::{CORRECTION, Kind};
use super::{Event, Held, Id, Record};
use crate::engine::sheet::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// The corrections that count.
#[derive(Debug, Default)]
pub(super) struct Corrections<'a> {
    withdrawn: BTreeSet<&'a str>,
    /// By what they correct, in the order of happening.
    changing: BTreeMap<&'a str, Vec<&'a Event>>,
}

impl Record {
    /// What happened of these kinds, as it counts, in the order of happening.
    ///
    /// # Example
    /// ```
    /// use calc::documents::record::{Event, Record, When, kinds};
    /// let day = |text| When::read(text).unwrap();
    /// let mut record = Record::new();
    /// record.add_event(Event::new("moved", &kinds::MOVED, day("2026-11-12"), None)).unwrap();
    /// assert_eq!(record.in_force(&[&kinds::MOVED]).len(), 1);
    /// let mut correction = Event::new("never", &kinds::CORRECTION, day("2026-11-13"), None);
    /// correction.of = Some("moved".into());
    /// correction.becomes.withdrawn = true;
    /// record.add_event(correction).unwrap();
    /// assert!(record.in_force(&[&kinds::MOVED]).is_empty());
    /// assert!(record.event("moved").is_some());
    /// ```
    pub fn in_force(&self, kinds: &[&'static Kind]) -> Vec<Rc<Event>> {
        let corrections = self.corrections();
        let mut events: Vec<Rc<Event>> = self
            .events()
            .filter(|event| kinds.contains(&event.kind))
            .filter_map(|event| corrections.applied(event))
            .collect();
        // a correction may have moved it
        if !corrections.changing.is_empty() {
            events.sort_by(|a, b| a.order().cmp(&b.order()));
        }
        events
    }

    /// The last event of these kinds that fits, as it counts.
    pub(super) fn last(&self, kinds: &[&'static Kind], fits: impl Fn(&Event) -> bool) -> Option<Rc<Event>> {
        let corrections = self.corrections();
        if corrections.changing.is_empty() {
            let of_kinds = self.events().rev().filter(|event| kinds.contains(&event.kind));
            return of_kinds.filter_map(|event| corrections.applied(event)).find(|event| fits(event));
        }
        self.in_force(kinds).into_iter().rev().find(|event| fits(event))
    }

    /// One event as it counts; none where it was withdrawn.
    pub fn as_corrected(&self, id: &str) -> Option<Rc<Event>> {
        self.corrections().applied(self.event(id)?)
    }

    /// The corrections of an event that count, in the order of happening.
    pub fn corrections_of(&self, id: &str) -> Vec<Id> {
        let corrections = self.corrections();
        let changing = corrections.changing.get(id).into_iter().flatten();
        changing.map(|correction| Rc::clone(&correction.id)).collect()
    }

    pub(super) fn corrections(&self) -> Corrections<'_> {
        let mut found = Corrections::default();
        // from the latest on, so that one which is withdrawn by a later one withdraws nothing itself
        for correction in self.events().rev().filter(|event| event.kind == &CORRECTION) {
            let Some(of) = correction.of.as_deref() else { continue };
            if found.withdrawn.contains(&*correction.id) {
                continue;
            }
            if correction.becomes.withdrawn {
                found.withdrawn.insert(of);
            } else {
                found.changing.entry(of).or_default().push(correction);
            }
        }
        for corrections in found.changing.values_mut() {
            corrections.reverse();
        }
        found
    }
}

impl Corrections<'_> {
    pub(super) fn is_withdrawn(&self, id: &str) -> bool {
        self.withdrawn.contains(id)
    }

    pub(super) fn applied(&self, event: &Rc<Event>) -> Option<Rc<Event>> {
        if self.withdrawn.contains(&*event.id) {
            return None;
        }
        let Some(corrections) = self.changing.get(&*event.id) else { return Some(Rc::clone(event)) };
        let mut event = event.as_ref().clone();
        for correction in corrections {
            event.fields = event.fields.under(&correction.fields);
            event.when = correction.becomes.when.unwrap_or(event.when);
            event.place = correction.becomes.place.clone().or(event.place);
        }
        Some(Rc::new(event))
    }
}

impl Event {
    /// What stands in one of its fields, where it can be read.
    pub fn value(&self, id: &str) -> Option<Value> {
        let field = self.kind.field(id)?;
        match self.fields.get(id)?.as_ref() {
            Held::One(typed) => typed.value(field).ok().flatten(),
            Held::Rows(_) => None,
        }
    }

    /// The number in one of its fields, in SI.
    pub fn number(&self, id: &str) -> Option<f64> {
        match self.value(id)? {
            Value::Number(si) => Some(si),
            _ => None,
        }
    }

    /// The choice in one of its fields.
    pub fn choice(&self, id: &str) -> Option<&'static str> {
        match self.value(id)? {
            Value::Choice(choice) => Some(choice),
            _ => None,
        }
    }
}
