//! Events as their corrections leave them. The originals stay in the record; this is what counts.
//!
//! A correction says what was true when the event happened, so that it counts for every moment that is asked about. Of two
//! corrections of one event the later one decides; one that withdraws another one takes it back.

use super::kinds::Kind;
use super::{Event, Held, Id, Record};
use crate::engine::sheet::Value;
use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// The events by year, and what follows from all of them: worked out at the first question, so that a key press that adds no
/// event asks no event again.
#[derive(Default)]
pub(super) struct Events {
    chunks: BTreeMap<i32, Chunk>,
    folded: OnceCell<Folded>,
}

/// The events of a year, in the order of happening.
pub type Chunk = Rc<Vec<Rc<Event>>>;

/// What follows from all events.
#[derive(Default)]
struct Folded {
    by_id: BTreeMap<Id, Rc<Event>>,
    withdrawn: BTreeSet<Id>,
    /// The corrections that count, by what they correct, in the order of happening.
    changing: BTreeMap<Id, Vec<Rc<Event>>>,
    /// What counts, as it counts, by the ids of the kinds, in the order of happening.
    in_force: BTreeMap<&'static str, Vec<Rc<Event>>>,
    /// Of it what has a field, once that was asked: a key press asks for the latest feed report,
    /// and years of reports of the product water may have been written since.
    having: RefCell<Having>,
}

/// By the ids of kind and field.
type Having = BTreeMap<(&'static str, &'static str), Rc<Vec<Rc<Event>>>>;

impl Clone for Events {
    /// A copy is made to add something.
    fn clone(&self) -> Self {
        Self::of(self.chunks.clone())
    }
}

impl PartialEq for Events {
    fn eq(&self, other: &Self) -> bool {
        let same = |(a, b): (&Chunk, &Chunk)| Rc::ptr_eq(a, b) || a == b;
        self.chunks.keys().eq(other.chunks.keys())
            && self.chunks.values().zip(other.chunks.values()).all(same)
    }
}

impl std::fmt::Debug for Events {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.chunks.fmt(f)
    }
}

impl Events {
    pub(super) fn of(chunks: BTreeMap<i32, Chunk>) -> Self {
        Self { chunks, folded: OnceCell::new() }
    }

    pub(super) fn chunks(&self) -> &BTreeMap<i32, Chunk> {
        &self.chunks
    }

    pub(super) fn all(&self) -> impl DoubleEndedIterator<Item = &Rc<Event>> + Clone {
        self.chunks.values().flat_map(|chunk| chunk.iter())
    }

    /// Puts an event where it belongs, whatever its id.
    pub(super) fn insert(&mut self, event: Event) {
        self.folded.take();
        let chunk = Rc::make_mut(self.chunks.entry(event.when.year()).or_default());
        let at = chunk.partition_point(|other| other.order() < event.order());
        chunk.insert(at, Rc::new(event));
    }

    pub(super) fn get(&self, id: &str) -> Option<&Rc<Event>> {
        match self.folded.get() {
            Some(folded) => folded.by_id.get(id),
            // while many are added, one look through costs less than folding them each time
            None => self.all().find(|event| *event.id == *id),
        }
    }

    fn folded(&self) -> &Folded {
        self.folded.get_or_init(|| {
            let mut folded = Folded::default();
            // from the latest on, so that one which is withdrawn by a later one withdraws nothing itself
            for correction in self.all().rev().filter(|event| event.is_correction()) {
                let Some(of) = &correction.of else { continue };
                if folded.withdrawn.contains(&correction.id) {
                    continue;
                }
                if correction.becomes.withdrawn {
                    folded.withdrawn.insert(Rc::clone(of));
                } else {
                    folded.changing.entry(Rc::clone(of)).or_default().push(Rc::clone(correction));
                }
            }
            for corrections in folded.changing.values_mut() {
                corrections.reverse();
            }
            for event in self.all() {
                folded.by_id.insert(Rc::clone(&event.id), Rc::clone(event));
                if let Some(applied) = folded.applied(event) {
                    folded.in_force.entry(event.kind.id).or_default().push(applied);
                }
            }
            // a correction may have moved one
            for events in folded.in_force.values_mut() {
                events.sort_by(|a, b| a.order().cmp(&b.order()));
            }
            folded
        })
    }
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
        let mut events: Vec<Rc<Event>> = kinds.iter().flat_map(|kind| self.of_kind(kind)).cloned().collect();
        if kinds.len() > 1 {
            events.sort_by(|a, b| a.order().cmp(&b.order()));
        }
        events
    }

    /// What happened of one kind, as it counts, in the order of happening.
    pub(super) fn of_kind(&self, kind: &Kind) -> &[Rc<Event>] {
        self.events.folded().in_force.get(kind.id).map_or(&[], Vec::as_slice)
    }

    /// The last event of these kinds that fits, as it counts.
    pub(super) fn last(&self, kinds: &[&'static Kind], fits: impl Fn(&Event) -> bool) -> Option<Rc<Event>> {
        let last = kinds.iter().filter_map(|kind| self.of_kind(kind).iter().rev().find(|event| fits(event)));
        last.max_by(|a, b| a.order().cmp(&b.order())).cloned()
    }

    /// What happened of one kind and has something in this field, as it counts, in the order of happening.
    pub(super) fn having(&self, kind: &'static Kind, field: &'static str) -> Rc<Vec<Rc<Event>>> {
        let has = |event: &&Rc<Event>| event.fields.has(field);
        let find = || Rc::new(self.of_kind(kind).iter().filter(has).cloned().collect());
        let mut having = self.events.folded().having.borrow_mut();
        Rc::clone(having.entry((kind.id, field)).or_insert_with(find))
    }

    /// One event as it counts; none where it was withdrawn.
    pub fn as_corrected(&self, id: &str) -> Option<Rc<Event>> {
        let folded = self.events.folded();
        folded.applied(folded.by_id.get(id)?)
    }

    /// The corrections of an event that count, in the order of happening.
    pub fn corrections_of(&self, id: &str) -> Vec<Id> {
        let changing = self.events.folded().changing.get(id).into_iter().flatten();
        changing.map(|correction| Rc::clone(&correction.id)).collect()
    }

    pub(super) fn is_withdrawn(&self, id: &str) -> bool {
        self.events.folded().withdrawn.contains(id)
    }
}

impl Folded {
    fn applied(&self, event: &Rc<Event>) -> Option<Rc<Event>> {
        if self.withdrawn.contains(&event.id) {
            return None;
        }
        let Some(corrections) = self.changing.get(&event.id) else { return Some(Rc::clone(event)) };
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
