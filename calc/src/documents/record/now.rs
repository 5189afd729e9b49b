//! What is true as of a moment: a pure fold over the events. Nothing of it is stored, and the order in which events were
//! typed does not matter.
//!
//! Whether a result is within its limit is the sheets' to say; here stands what happened, what is open, and why the RO may
//! not be used. What clears a lock is common practice, no source: the instructions and the facility's policy go before it.

use super::kinds::{
    self, CHEMICAL_DISINFECTION, CULTURE_AND_ENDOTOXIN, KINDS, LABORATORY_REPORT, LIMITS_CHOSEN, NOTICE,
    Names, NoticeKind, PART_CHANGED, READING, REFERENCE_CHOSEN, RESIDUAL_TEST, RETURNED, Reference,
    SAMPLE_DRAWN, SIGN_OFF, STORED, YesNo,
};
use super::{Event, Id, Record, When};
use crate::choice;
use crate::engine::calendar::Moment;
use crate::engine::sheet::{Known, Missing, Named, Value};
use crate::trade::chemical::{Agent, ResidualTests};
use chrono::NaiveDate;
use std::collections::BTreeMap;
use std::rc::Rc;

choice!(/// Why the RO may not be used.
LockReason {
    Disinfectant "disinfectant-inside" "Disinfectant inside: no residual test since that shows none",
    Preservative "preservative-inside" "Stored with preservative: no residual test since that shows none",
    Stored "stored" "In storage: not returned to service",
    OutOfService "out-of-service" "Out of service: not signed off",
    Results "awaiting-results" "Awaiting results: not signed off",
});

/// What is true as of a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Now {
    /// Where the RO is, as far as any event says.
    pub place: Option<Id>,
    /// The latest event of each kind.
    pub latest: Vec<Rc<Event>>,
    /// The reading from which the plan starts.
    pub anchor: Option<Chosen>,
    /// The reading of the RO in good order.
    pub baseline: Option<Chosen>,
    /// How old its parts are.
    pub parts: Vec<PartAge>,
    /// Why it may not be used; none does not mean that it may.
    pub locks: Vec<Lock>,
    /// Samples without a result.
    pub pending: Vec<Rc<Event>>,
    /// What has to be done again by when, the earliest first; without a day where the last one named none.
    pub due: Vec<Due>,
    /// The limit set in force.
    pub limits: Option<(&'static str, Id)>,
}

/// A reading that was chosen as reference. Its temperature and place are those of the reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen {
    /// By which event.
    pub by: Id,
    /// The reading.
    pub reading: Rc<Event>,
}

/// How old a part is.
#[derive(Debug, Clone, PartialEq)]
pub struct PartAge {
    /// Which.
    pub part: &'static Named,
    /// When it was changed last.
    pub changed: Rc<Event>,
    /// Days since then.
    pub days: i64,
    /// Water through it since then, in SI.
    pub volume: Known<f64>,
    /// Sessions since then.
    pub sessions: Known<f64>,
}

/// Why the RO may not be used.
#[derive(Debug, Clone, PartialEq)]
pub struct Lock {
    /// The reason.
    pub reason: LockReason,
    /// What set it.
    pub since: Rc<Event>,
}

/// Something that has to be done again.
#[derive(Debug, Clone, PartialEq)]
pub struct Due {
    /// What was done last.
    pub last: Rc<Event>,
    /// By when it has to be done again; none where the last one does not say, though an earlier one did.
    pub by: Option<NaiveDate>,
}

impl Record {
    /// What is true as of a moment, for the RO at one of its places.
    pub fn now(&self, at: Moment, place: Option<&str>) -> Now {
        let mut events = self.in_force(KINDS);
        events.retain(|event| !event.is_correction() && event.when.is_by(at));
        let (anchor, baseline) = (
            self.chosen(Reference::Anchor, place, Some(at)),
            self.chosen(Reference::Baseline, None, Some(at)),
        );
        Now {
            place: events.iter().rev().find_map(|event| event.place.clone()),
            latest: latest(&events),
            anchor,
            baseline,
            parts: parts(&events, at),
            locks: locks(&events),
            pending: pending(&events),
            due: due(&events),
            limits: events
                .iter()
                .rev()
                .filter(|event| event.kind == &LIMITS_CHOSEN)
                .find_map(|event| Some((event.choice("limit-set")?, Rc::clone(&event.id)))),
        }
    }

    /// The reading that was chosen last. Of those for the plan one of this place goes before others, since the RO brings
    /// its own along.
    pub(super) fn chosen(&self, what: Reference, place: Option<&str>, at: Option<Moment>) -> Option<Chosen> {
        let by = |event: &Event| at.is_none_or(|at| event.when.is_by(at));
        let mut elsewhere = None;
        for choice in self.of_kind(&REFERENCE_CHOSEN).iter().rev() {
            if !by(choice) || choice.choice("reference") != Some(what.id()) {
                continue;
            }
            let reading =
                choice.of.as_deref().and_then(|id| self.as_corrected(id)).filter(|reading| by(reading));
            let Some(reading) = reading.filter(|reading| reading.kind == &READING) else { continue };
            let is_here = place.is_none() || reading.place.as_deref() == place;
            let chosen = Chosen { by: Rc::clone(&choice.id), reading };
            if is_here {
                return Some(chosen);
            }
            elsewhere = elsewhere.or(Some(chosen));
        }
        elsewhere
    }
}

fn latest(events: &[Rc<Event>]) -> Vec<Rc<Event>> {
    let of_kind =
        |kind: &&'static kinds::Kind| events.iter().rev().find(|event| event.kind == *kind).cloned();
    KINDS.iter().filter_map(of_kind).collect()
}

fn parts(events: &[Rc<Event>], at: Moment) -> Vec<PartAge> {
    let named =
        |event: &Event, part: &Named| event.kind == &PART_CHANGED && event.choice("part") == Some(part.id);
    let age = |part: &'static Named| {
        let index = events.iter().rposition(|event| named(event, part))?;
        let changed = Rc::clone(&events[index]);
        let since = &events[index..];
        Some(PartAge {
            part,
            days: (at.date() - changed.when.day()).num_days(),
            volume: counted(since, "water-counter", "the water meter was not read at the change and since"),
            sessions: counted(
                since,
                "session-counter",
                "the session counter was not read at the change and since",
            ),
            changed,
        })
    };
    kinds::Part::NAMED.iter().filter_map(age).collect()
}

/// What a counter has counted since the first of these events; not known where it once stood lower than before.
fn counted(since: &[Rc<Event>], counter: &'static str, why: &'static str) -> Known<f64> {
    let not_known = Err(Missing::not_known(counter, why));
    let Some(first) = since.first().and_then(|change| change.number(counter)) else { return not_known };
    let stands: Vec<f64> = since[1..].iter().filter_map(|event| event.number(counter)).collect();
    let Some(last) = stands.last() else { return not_known };
    let mut before = first;
    for &stand in &stands {
        if stand < before {
            return Err(Missing::not_known(
                counter,
                "the counter once stood lower than before: it was changed or misread",
            ));
        }
        before = stand;
    }
    Ok(last - first)
}

/// In the order of happening; what sets a lock counts after what clears one at the same moment.
fn locks(events: &[Rc<Event>]) -> Vec<Lock> {
    let sets =
        |event: &Event| [&CHEMICAL_DISINFECTION, &STORED, &NOTICE, &SAMPLE_DRAWN].contains(&event.kind);
    let mut events: Vec<&Rc<Event>> = events.iter().collect();
    events.sort_by_key(|event| (event.when.order(), sets(event)));
    let mut locks: Vec<Lock> = Vec::new();
    for event in &events {
        let mut set = |reason| locks.push(Lock { reason, since: Rc::clone(event) });
        match event.kind {
            kind if kind == &CHEMICAL_DISINFECTION => set(LockReason::Disinfectant),
            kind if kind == &STORED => {
                set(LockReason::Stored);
                if event.choice("preservative") != Some(YesNo::No.id()) {
                    set(LockReason::Preservative);
                }
            }
            kind if kind == &NOTICE && event.choice("notice-kind") == Some(NoticeKind::OutOfService.id()) => {
                set(LockReason::OutOfService);
            }
            kind if kind == &SAMPLE_DRAWN && event.choice("use-waits") == Some(YesNo::Yes.id()) => {
                set(LockReason::Results);
            }
            kind if kind == &RETURNED => {
                locks.retain(|lock| {
                    !matches!(lock.reason, LockReason::Stored | LockReason::OutOfService)
                        || !is_after(event, &lock.since)
                });
            }
            kind if kind == &SIGN_OFF => {
                let signed = signed_off(event, &events);
                locks.retain(|lock| {
                    !matches!(lock.reason, LockReason::OutOfService | LockReason::Results)
                        || !signed.contains(&&*lock.since.id)
                });
            }
            kind if kind == &RESIDUAL_TEST => locks.retain(|lock| {
                !matches!(lock.reason, LockReason::Disinfectant | LockReason::Preservative)
                    || !is_after(event, &lock.since)
                    || !shows_none(event, &lock.since)
            }),
            _ => {}
        }
    }
    locks
}

/// Whether what clears a lock came after what set it, of two in their order. Where one of them is dated by a day alone, nobody
/// knows the hour, nor on whose clock that day began: only a later day is after it.
fn is_after(event: &Event, since: &Event) -> bool {
    match (event.when, since.when) {
        (When::At(_), When::At(_)) => true,
        (event, since) => event.day() > since.day(),
    }
}

/// What a sign-off names, and the sample of the report that it names.
fn signed_off<'a>(sign_off: &'a Event, events: &[&'a Rc<Event>]) -> Vec<&'a str> {
    let named = sign_off.of.as_deref();
    let is_report = |event: &&&Rc<Event>| [&LABORATORY_REPORT, &CULTURE_AND_ENDOTOXIN].contains(&event.kind);
    let report = events.iter().filter(is_report).find(|event| Some(&*event.id) == named);
    named.into_iter().chain(report.and_then(|report| report.of.as_deref())).collect()
}

/// Whether a residual test shows none of what another event left inside, as the sheet of the rinse judges it. A
/// preservative that has no agent of its own is tested by what its label names.
fn shows_none(test: &Event, left: &Event) -> bool {
    let name = |event: &Event| event.fields.word("disinfectant-name").map(str::to_lowercase);
    let another = matches!((name(test), name(left)), (Some(tested), Some(left)) if tested != left);
    let preservative = || (left.kind == &STORED).then_some(Value::Choice(Agent::Other.id()));
    let tests = ResidualTests::of(|id| match id {
        "agent" => left.value(id).or_else(preservative),
        _ => test.value(id),
    });
    !another && tests.show_none()
}

fn pending(events: &[Rc<Event>]) -> Vec<Rc<Event>> {
    let reports =
        events.iter().filter(|event| [&LABORATORY_REPORT, &CULTURE_AND_ENDOTOXIN].contains(&event.kind));
    let answered: Vec<&str> = reports.filter_map(|report| report.of.as_deref()).collect();
    let open = |event: &&Rc<Event>| event.kind == &SAMPLE_DRAWN && !answered.contains(&&*event.id);
    events.iter().filter(open).cloned().collect()
}

/// Of each kind, part and instrument the last event decides.
fn due(events: &[Rc<Event>]) -> Vec<Due> {
    let mut last: BTreeMap<(&str, Option<&str>, Option<&str>), Due> = BTreeMap::new();
    for event in events.iter().filter(|event| event.kind.field("next-due").is_some()) {
        let by = match event.value("next-due") {
            Some(Value::Date(day)) => Some(day),
            _ => None,
        };
        let instrument = event.of.as_deref().filter(|_| event.kind.of == Names::Instrument);
        let key = (event.kind.id, event.choice("part"), instrument);
        if by.is_some() || last.contains_key(&key) {
            last.insert(key, Due { last: Rc::clone(event), by });
        }
    }
    let mut due: Vec<Due> = last.into_values().collect();
    due.sort_by(|a, b| (a.by.is_none(), a.by, a.last.order()).cmp(&(b.by.is_none(), b.by, b.last.order())));
    due
}
