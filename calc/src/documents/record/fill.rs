//! Any sheet filled from the record as of a moment, each field saying from where.
//!
//! What was read together stays together: of a reading the flows, pressures and conductivities with their temperature, never
//! one of them with another day's. Readings are only read here, and nothing that is typed into a sheet changes them.

use super::kinds::{
    CHEMICAL_DISINFECTION, CHLORINE_TEST, HEAT_DISINFECTION, KINDS, Kind, LABORATORY_REPORT, READING,
    Reference,
};
use super::{Chosen, Entries, Event, Fields, Held, Id, Part, Read, Record, Typed, When, read};
use crate::engine::calendar::Moment;
use crate::engine::sheet::{Declaration, Field, Problem, Sentence, Shape, Stage, Value};
use crate::program::catalogue;
use crate::trade::plan::walk::{Home, home_of};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::LazyLock;

/// From where a field of a sheet was filled.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// Typed with the RO, without a date.
    Ro,
    /// Typed with this place, without a date.
    Place(Id),
    /// Written down at a moment.
    Event(Rc<Event>),
    /// Each row was written down at a moment: of each its event.
    Events(Vec<Rc<Event>>),
    /// It follows from the series that was chosen.
    Series,
    /// The moment that was asked for.
    Asked,
}

/// A sheet filled from a record.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FromRecord {
    /// What stands in its fields.
    pub entries: Rc<Entries>,
    /// From where, by the ids of the fields.
    pub origins: BTreeMap<&'static str, Origin>,
    /// What is wrong with a field that is left empty.
    pub problems: Vec<Problem>,
}

/// What of a reading stands for the RO, and under which id a sheet asks for it. All three are of one moment.
pub(super) const ANCHOR: [(&str, &str); 3] = [
    ("anchor-temperature", "tap-temperature"),
    ("product-flow", "product-flow"),
    ("reject-flow", "reject-flow"),
];

/// What of the reading in good order is asked under another id.
pub(super) const BASELINE: [(&str, &str); 8] = [
    ("baseline-product-flow", "product-flow"),
    ("baseline-reject-flow", "reject-flow"),
    ("baseline-temperature", "tap-temperature"),
    ("baseline-pump-pressure", "pump-pressure"),
    ("baseline-product-pressure", "product-pressure"),
    ("baseline-membrane-drop", "membrane-drop"),
    ("baseline-feed-conductivity", "feed-conductivity"),
    ("baseline-product-conductivity", "product-conductivity"),
];

/// What of a reading means nothing without the rest of it.
pub(super) const TOGETHER: &[&str] = &[
    "tap-temperature",
    "product-flow",
    "reject-flow",
    "pump-pressure",
    "product-pressure",
    "membrane-drop",
    "feed-conductivity",
    "product-conductivity",
    "filter-drop",
    "filter-drop-flow",
];

/// Of another place's water they say nothing.
static OF_PLACE: [&Kind; 3] = [&READING, &CHLORINE_TEST, &LABORATORY_REPORT];

/// Whether it is one of the three numbers with which a plan starts.
pub(super) fn is_of_anchor(id: &str) -> bool {
    ANCHOR.iter().any(|(asked, _)| *asked == id)
}

impl Record {
    /// The inputs of the plan for one of the places, and what is wrong with them.
    pub fn inputs_of_plan(&self, place: usize) -> (Vec<Option<Value>>, Vec<Problem>) {
        let plan = catalogue::find("plan").map(|entry| entry.declaration);
        let read = plan.map(|plan| self.fill(plan, place, None).read(plan)).unwrap_or_default();
        (read.values, read.problems)
    }

    /// Where what is typed into a field of the plan is kept: where it stands already, else where it belongs. Never in an
    /// event.
    pub fn home(&self, id: &str, place: usize) -> Part {
        let own = if home_of(id) == Home::Ro { Part::Ro } else { Part::Place(place) };
        let stands = |part: &Part| self.part(*part).is_some_and(|fields| fields.has(id));
        [Part::Place(place), Part::Ro].into_iter().find(stands).unwrap_or(own)
    }

    /// A sheet filled from what is known as of a moment, or of everything, at one of the places.
    ///
    /// What was written down at a moment counts before what is typed with the place, and that before what is typed with the
    /// RO. A plan starts from the reading that was chosen for it, until any of its three numbers is typed anew: then none of
    /// the reading's counts.
    pub fn fill(&self, sheet: &'static Declaration, place: usize, at: Option<Moment>) -> FromRecord {
        let here = self.places().get(place).map(|place| Rc::clone(&place.id));
        let mut filled = FromRecord::default();
        let parts = [(self.part(Part::Ro), Origin::Ro), (self.part(Part::Place(place)), place_of(&here))];
        for (fields, origin) in parts {
            filled.take(sheet, fields, &origin);
        }
        let is_plan = sheet.input("anchor-temperature").is_some();
        let of_sheet;
        let kinds = if sheet.stage == Stage::Plan {
            &*OF_PLAN
        } else {
            of_sheet = kinds_of(sheet, is_plan);
            &of_sheet
        };
        for (kind, fields) in kinds {
            if let Some(event) = self.latest_with(kind, fields, here.as_deref(), at) {
                filled.take_event(&event, fields);
            }
        }
        let is_typed =
            |(asked, _): &(&str, &str)| filled.entries.get(asked).is_some_and(|held| !held.is_empty());
        if is_plan && !ANCHOR.iter().any(is_typed) {
            let anchor = self.chosen(Reference::Anchor, here.as_deref(), at);
            filled.take_chosen(sheet, anchor, &ANCHOR);
        }
        if sheet.inputs.iter().any(|field| field.id.starts_with("baseline-")) {
            let baseline = self.chosen(Reference::Baseline, None, at);
            filled.take_chosen(sheet, baseline, &BASELINE);
        }
        filled.take_moments(sheet, self, here.as_deref(), at);
        filled
    }

    /// The latest event of a kind that has any of these fields.
    fn latest_with(
        &self,
        kind: &'static Kind,
        fields: &[&'static Field],
        here: Option<&str>,
        at: Option<Moment>,
    ) -> Option<Rc<Event>> {
        let is_here =
            |event: &Event| here.is_none() || !OF_PLACE.contains(&kind) || event.place.as_deref() == here;
        let fits = |event: &&Rc<Event>| at.is_none_or(|at| event.when.is_by(at)) && is_here(event);
        let last =
            |field: &&'static Field| self.having(kind, field.id).iter().rev().find(fits).map(Rc::clone);
        fields.iter().filter_map(last).max_by(|a, b| a.order().cmp(&b.order()))
    }
}

fn place_of(here: &Option<Id>) -> Origin {
    here.as_ref().map_or(Origin::Ro, |id| Origin::Place(Rc::clone(id)))
}

/// Kinds of events, each with the fields of a sheet that come from it.
type KindsOf = Vec<(&'static Kind, Vec<&'static Field>)>;

/// Those of the plan, which is filled at every key press: a quarter of the time to fill it would go to looking for them.
static OF_PLAN: LazyLock<KindsOf> = LazyLock::new(|| {
    catalogue::of_stage(Stage::Plan).next().map_or_else(Vec::new, |plan| kinds_of(plan, true))
});

/// The kinds of events that have fields of a sheet, each with those that come from it: the kind that has most of them goes
/// first. Readings reach the plan by the one that is chosen for it.
fn kinds_of(sheet: &'static Declaration, is_plan: bool) -> KindsOf {
    let shared = |kind: &&'static Kind| {
        let asked =
            sheet.inputs.iter().filter(|field| kind.field(field.id).is_some_and(|own| alike(own, field)));
        (*kind, asked.collect::<Vec<_>>())
    };
    let is_asked = |kind: &&&'static Kind| !(is_plan && ***kind == READING);
    let mut kinds: Vec<_> = KINDS.iter().filter(is_asked).map(shared).collect();
    kinds.sort_by_key(|(_, fields)| std::cmp::Reverse(fields.len()));
    let mut seen: Vec<&str> = Vec::new();
    for (_, fields) in &mut kinds {
        fields.retain(|field| !seen.contains(&field.id));
        seen.extend(fields.iter().map(|field| field.id));
    }
    kinds.retain(|(_, fields)| !fields.is_empty());
    kinds
}

/// Whether two fields of one id hold the same.
fn alike(a: &Field, b: &Field) -> bool {
    match (a.shape, b.shape) {
        (Shape::Number(a), Shape::Number(b)) => a == b,
        (Shape::Table(a), Shape::Table(b)) => {
            a.iter().map(|column| column.id).eq(b.iter().map(|column| column.id))
        }
        (a, b) => std::mem::discriminant(&a) == std::mem::discriminant(&b),
    }
}

impl FromRecord {
    /// The values of the sheet, and everything that is wrong.
    pub fn read(&self, sheet: &'static Declaration) -> Read {
        let mut read = read(sheet.inputs, &self.entries);
        read.problems.extend(self.problems.iter().cloned());
        read
    }

    pub(super) fn put(&mut self, id: &'static str, held: &Rc<Held>, origin: &Origin) {
        Rc::make_mut(&mut self.entries).insert(id, Rc::clone(held));
        self.origins.insert(id, origin.clone());
    }

    pub(super) fn take(&mut self, sheet: &'static Declaration, fields: Option<&Fields>, origin: &Origin) {
        for (id, held) in fields.into_iter().flat_map(|fields| fields.entries().iter()) {
            if let Some(index) = sheet.input(id)
                && !(held.is_empty() && self.entries.contains_key(id))
            {
                self.put(sheet.inputs[index].id, held, origin);
            }
        }
    }

    pub(super) fn take_event(&mut self, event: &Rc<Event>, fields: &[&'static Field]) {
        for field in fields {
            match event.fields.get(field.id).filter(|held| !held.is_empty()) {
                Some(held) => self.put(field.id, held, &Origin::Event(Rc::clone(event))),
                None if event.kind == &READING && TOGETHER.contains(&field.id) => {
                    Rc::make_mut(&mut self.entries).remove(field.id);
                    self.origins.remove(field.id);
                }
                None => {}
            }
        }
        // a temperature that was typed without a date is not that of this reading's pressure drop
        if event.kind == &READING && fields.iter().any(|field| field.id == "filter-drop") {
            Rc::make_mut(&mut self.entries).remove("filter-drop-temperature");
            self.origins.remove("filter-drop-temperature");
        }
    }

    pub(super) fn take_chosen(
        &mut self,
        sheet: &'static Declaration,
        chosen: Option<Chosen>,
        ids: &[(&str, &str)],
    ) {
        let Some(Chosen { reading, .. }) = chosen else { return };
        for (asked, read) in ids {
            let Some(index) = sheet.input(asked) else { continue };
            let field = &sheet.inputs[index];
            match reading.fields.get(read).filter(|held| !held.is_empty()) {
                Some(held) => self.put(field.id, held, &Origin::Event(Rc::clone(&reading))),
                None => {
                    Rc::make_mut(&mut self.entries).remove(field.id);
                    self.origins.remove(field.id);
                    if *read == "tap-temperature" {
                        self.problems.push(Problem::new(field.id, Sentence::plain(NO_TEMPERATURE)));
                    }
                }
            }
        }
    }

    /// Moments and days that a sheet asks for.
    fn take_moments(
        &mut self,
        sheet: &'static Declaration,
        record: &Record,
        here: Option<&str>,
        at: Option<Moment>,
    ) {
        let mut put = |id: &str, text: Option<String>, origin: Origin| {
            if let (Some(index), Some(text)) = (sheet.input(id), text) {
                let field = &sheet.inputs[index];
                self.put(field.id, &Rc::new(Held::One(Typed::new(field, text, None))), &origin);
            }
        };
        put("now", at.map(|at| at.to_string()), Origin::Asked);
        put("present-date", at.map(|at| at.date().to_string()), Origin::Asked);
        let last =
            |kinds: &[&'static Kind]| record.last(kinds, |event| at.is_none_or(|at| event.when.is_by(at)));
        if sheet.input("last-disinfected").is_some()
            && let Some(event) = last(&[&HEAT_DISINFECTION, &CHEMICAL_DISINFECTION])
        {
            put("last-disinfected", Some(event.when.day().to_string()), Origin::Event(event));
        }
        if sheet.input("tested-at").is_some() && sheet.input("chlorine-after-first").is_some() {
            let asked: Vec<&'static Field> = CHLORINE_TEST.fields.iter().collect();
            if let Some(event) = record.latest_with(&CHLORINE_TEST, &asked, here, at)
                && let When::At(moment) = event.when
            {
                put("tested-at", Some(moment.to_string()), Origin::Event(event));
            }
        }
    }
}

const NO_TEMPERATURE: &str =
    "the reading that was chosen has no tap temperature: correct it, or choose another reading";
