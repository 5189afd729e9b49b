//! Two states of one record become one: of two windows, or of two files.
//!
//! Events are only ever added, so those of both are kept. What stands without a date may have been changed on both sides:
//! then what stands here stays, and the conflict is named.

use super::fill::is_of_anchor;
use super::write::{field_of_sheet, instrument};
use super::{Event, Fault, Fields, Filled, Givens, Held, Id, Part, Record, Thing, field};
use crate::engine::sheet::{Field, Sentence};
use serde_json::{Map, Value as Json};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Merged {
    /// The record with the events of both.
    pub record: Record,
    /// What both changed; the record has it as it stood on this side.
    pub conflicts: Vec<Conflict>,
    /// Parts in which both sides changed something since the base, be it in different fields: what was typed on either side
    /// may not fit what was typed on the other.
    pub both: Vec<Part>,
}

/// Something that both sides changed, each in its own way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// Where, in the record that came of it.
    pub part: Part,
    /// Which field, or which member that this version does not know.
    pub field: Id,
}

impl Record {
    /// This record with what another state of it has besides. `base` is the state from which both went on, where it is known:
    /// what only one side changed since is taken from there. Without it, what only one side has counts as changed there.
    ///
    /// # Errors
    /// Where a newer program wrote one of the two.
    ///
    /// # Example
    /// ```
    /// use calc::documents::record::{Event, Record, When, kinds};
    /// let moved = |id: &str| Event::new(id, &kinds::MOVED, When::read("2026-11-12").unwrap(), None);
    /// let (mut here, mut there) = (Record::new(), Record::new());
    /// here.add_event(moved("a")).unwrap();
    /// there.add_event(moved("b")).unwrap();
    /// assert_eq!(here.merge(&there, None).unwrap().record.count(), 2);
    /// ```
    pub fn merge(&self, other: &Record, base: Option<&Record>) -> Result<Merged, Sentence> {
        if let Some(why) = self.read_only().or_else(|| other.read_only()) {
            return Err(why);
        }
        let mut record = self.clone();
        record.id = self.id.clone().or_else(|| other.id.clone());
        let mut conflicts = Vec::new();
        let mut both = Vec::new();
        let mut differ = |part: Part, field: Option<&str>| match field {
            Some(field) => conflicts.push(Conflict { part, field: field.into() }),
            None => both.push(part),
        };

        record.ro = self.ro.merged(&other.ro, base.map(|base| &base.ro), field, |id| differ(Part::Ro, id));
        let of_base = |list: fn(&Record) -> &Rc<Vec<Thing>>| base.map(|base| list(base).as_slice());
        things(&mut record.places, &other.places, of_base(|r| &r.places), field, |index, id| {
            differ(Part::Place(index), id)
        });
        things(
            &mut record.instruments,
            &other.instruments,
            of_base(|r| &r.instruments),
            instrument,
            |index, id| {
                differ(Part::Instrument(index), id);
            },
        );
        sheets(&mut record.sheets, &other.sheets, base.map(|base| base.sheets.as_slice()), |index, id| {
            differ(Part::Sheet(index), id);
        });
        record.others = members(&self.others, &other.others, base.map(|base| &*base.others), |id| {
            differ(Part::Ro, Some(id));
        });
        if !Rc::ptr_eq(&self.unread, &other.unread) {
            let more: Vec<Json> =
                other.unread.iter().filter(|one| !self.unread.contains(one)).cloned().collect();
            if !more.is_empty() {
                Rc::make_mut(&mut record.unread).extend(more);
            }
        }
        let is_of_base = |side: &Record| base.is_some_and(|base| Rc::ptr_eq(&side.events, &base.events));
        if is_of_base(self) {
            record.events = Rc::clone(&other.events);
        } else if !is_of_base(other) && !Rc::ptr_eq(&self.events, &other.events) {
            record.take_events_of(other);
        }
        record.name_faults(self.faults.iter().chain(other.faults.iter()));
        Ok(Merged { record, conflicts, both })
    }

    /// The same part in another state of this record: that of the same id.
    pub fn part_in(&self, part: Part, other: &Record) -> Option<Part> {
        let at = |own: &[Thing], there: &[Thing], index: usize| {
            there.iter().position(|thing| own.get(index).is_some_and(|own| own.id == thing.id))
        };
        match part {
            Part::Ro => Some(Part::Ro),
            Part::Place(index) => at(&self.places, &other.places, index).map(Part::Place),
            Part::Instrument(index) => at(&self.instruments, &other.instruments, index).map(Part::Instrument),
            Part::Sheet(index) => {
                let id = &self.sheets.get(index)?.id;
                other.sheets.iter().position(|sheet| sheet.id == *id).map(Part::Sheet)
            }
        }
    }

    fn take_events_of(&mut self, other: &Record) {
        let known: BTreeMap<&str, &Rc<Event>> = self.events().map(|event| (&*event.id, event)).collect();
        let is_known = |event: &Rc<Event>| {
            known.get(&*event.id).is_some_and(|own| {
                Rc::ptr_eq(own, event) || own == &event || self.json_of(own) == other.json_of(event)
            })
        };
        let more: Vec<Rc<Event>> = other.events().filter(|event| !is_known(event)).cloned().collect();
        if !more.is_empty() {
            let all = self.events().cloned().chain(more).collect();
            self.take(all, &mut Vec::new());
        }
    }

    /// What was found wrong on both sides, and what does not fit together now.
    pub(super) fn name_faults<'a>(&mut self, found: impl Iterator<Item = &'a Fault>) {
        let of_events = |fault: &Fault| {
            matches!(
                fault,
                Fault::NoPlace(..)
                    | Fault::NamesNothing(..)
                    | Fault::BeforeItHappened(_)
                    | Fault::CorrectsACorrection(..)
                    | Fault::TwoOfOneId(..)
            )
        };
        let mut faults: Vec<Fault> = Vec::new();
        for fault in found.filter(|fault| !of_events(fault)) {
            if !faults.contains(fault) {
                faults.push(fault.clone());
            }
        }
        faults.extend(self.look_around());
        self.faults = Rc::new(faults);
    }
}

/// What one of two sides changed since the base; where both did, none.
fn decided<T: Copy>(mine: T, theirs: T, base: T, same: impl Fn(&T, &T) -> bool) -> Option<T> {
    if same(&mine, &theirs) || same(&theirs, &base) {
        Some(mine)
    } else if same(&mine, &base) {
        Some(theirs)
    } else {
        None
    }
}

impl Fields {
    fn merged(
        &self,
        other: &Fields,
        base: Option<&Fields>,
        find: impl Fn(&str) -> Option<&'static Field>,
        mut differ: impl FnMut(Option<&str>),
    ) -> Fields {
        let mut all = self.clone();
        let (mut here, mut there, mut apart) = (false, false, false);
        if !Rc::ptr_eq(&self.entries, &other.entries) {
            let ids: BTreeSet<&'static str> =
                self.entries.keys().chain(other.entries.keys()).copied().collect();
            for id in ids {
                let (mine, theirs) = (self.entries.get(id), other.entries.get(id));
                let before = base.and_then(|base| base.entries.get(id));
                let same = |a: &Option<&Rc<Held>>, b: &Option<&Rc<Held>>| stands_the_same(id, *a, *b, &find);
                here |= !same(&mine, &before);
                there |= !same(&theirs, &before);
                apart |= !same(&mine, &theirs);
                match decided(mine, theirs, before, same) {
                    Some(Some(held)) => drop(Rc::make_mut(&mut all.entries).insert(id, Rc::clone(held))),
                    Some(None) => all.clear(id),
                    None => differ(Some(id)),
                }
            }
        }
        all.others =
            members(&self.others, &other.others, base.map(|base| &*base.others), |id| differ(Some(id)));
        if here && there && apart {
            differ(None);
        }
        all
    }
}

/// Whether the same stands in a field of both. Of what takes a reading's place an empty text is not the same as none.
fn stands_the_same(
    id: &str,
    a: Option<&Rc<Held>>,
    b: Option<&Rc<Held>>,
    find: &impl Fn(&str) -> Option<&'static Field>,
) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => {
            let json = |held: &Held| find(id).map(|field| held.json(field));
            Rc::ptr_eq(a, b) || a == b || json(a) == json(b)
        }
        (Some(one), None) | (None, Some(one)) => one.is_empty() && !is_of_anchor(id),
        (None, None) => true,
    }
}

/// Members that this version does not know.
fn members(
    mine: &Rc<Map<String, Json>>,
    theirs: &Rc<Map<String, Json>>,
    base: Option<&Map<String, Json>>,
    mut differ: impl FnMut(&str),
) -> Rc<Map<String, Json>> {
    let mut all = Rc::clone(mine);
    if Rc::ptr_eq(mine, theirs) {
        return all;
    }
    let ids: BTreeSet<&String> = mine.keys().chain(theirs.keys()).collect();
    for id in ids {
        let before = base.and_then(|base| base.get(id));
        match decided(mine.get(id), theirs.get(id), before, |a, b| a == b) {
            Some(one) if one == mine.get(id) => {}
            Some(Some(member)) => drop(Rc::make_mut(&mut all).insert(id.clone(), member.clone())),
            Some(None) => drop(Rc::make_mut(&mut all).shift_remove(id)),
            None => differ(id),
        }
    }
    all
}

/// Whatever one of the lists has is in both; what both have is merged. Of several with one id the first goes with the first.
fn lists<T: Clone>(
    mine: &mut Rc<Vec<T>>,
    theirs: &Rc<Vec<T>>,
    base: Option<&[T]>,
    id_of: impl Fn(&T) -> &Id,
    mut merge: impl FnMut(usize, &mut T, &T, Option<&T>),
) {
    if Rc::ptr_eq(mine, theirs) {
        return;
    }
    for (index, other) in theirs.iter().enumerate() {
        let is_it = |one: &T| id_of(one) == id_of(other);
        let rank = theirs[..index].iter().filter(|one| is_it(one)).count();
        let own = mine.iter().enumerate().filter(|(_, one)| is_it(one)).nth(rank).map(|(own, _)| own);
        let mine = Rc::make_mut(mine);
        match own {
            Some(own) => {
                let before = base.and_then(|base| base.iter().filter(|one| is_it(one)).nth(rank));
                merge(own, &mut mine[own], other, before);
            }
            None => mine.push(other.clone()),
        }
    }
}

fn things(
    mine: &mut Rc<Vec<Thing>>,
    theirs: &Rc<Vec<Thing>>,
    base: Option<&[Thing]>,
    find: impl Fn(&str) -> Option<&'static Field> + Copy,
    mut differ: impl FnMut(usize, Option<&str>),
) {
    lists(
        mine,
        theirs,
        base,
        |thing| &thing.id,
        |own, mine, other, before| {
            let before = before.map(|thing| &thing.fields);
            mine.fields = mine.fields.merged(&other.fields, before, find, |id| differ(own, id));
        },
    );
}

fn sheets(
    mine: &mut Rc<Vec<Filled>>,
    theirs: &Rc<Vec<Filled>>,
    base: Option<&[Filled]>,
    mut differ: impl FnMut(usize, Option<&str>),
) {
    lists(
        mine,
        theirs,
        base,
        |sheet| &sheet.id,
        |own, mine, other, before| {
            let find = |id: &str| field_of_sheet(&other.sheet, id);
            let before = before.map(|sheet| &sheet.fields);
            let merged = mine.fields.merged(&other.fields, before, find, |id| differ(own, id));
            mine.given = given_with(&merged, mine, other);
            mine.fields = merged;
        },
    );
}

/// An origin goes with what stands in the field: it is that of the side whose entry is taken.
fn given_with(merged: &Fields, mine: &Filled, theirs: &Filled) -> Rc<Givens> {
    let given = |id: &'static str| {
        let side = if mine.fields.get(id) == merged.get(id) { mine } else { theirs };
        Some((id, side.given.get(id)?.clone()))
    };
    Rc::new(merged.entries.keys().filter_map(|id| given(id)).collect())
}
