//! What a record offers for the empty fields of a sheet. Nothing that was typed is written over, and what was read together
//! stays together: no flow of today is joined by the temperature of another day.

use super::fill::{ANCHOR, BASELINE, TOGETHER};
use super::kinds::READING;
use super::{Entries, Given, Givens, Held, Origin, Record};
use crate::engine::calendar::Moment;
use crate::engine::sheet::{Declaration, Field, Stage};
use std::rc::Rc;

/// What would stand in an empty field.
#[derive(Debug, Clone)]
pub struct Offer {
    /// The field.
    pub field: &'static Field,
    /// What would stand in it.
    pub held: Rc<Held>,
    /// From where.
    pub given: Given,
}

/// The drop of a filter means nothing without the flow and the temperature at which it was read.
const FILTER: [&str; 3] = ["filter-drop", "filter-drop-flow", "filter-drop-temperature"];

impl Record {
    /// What is known of the empty fields of a sheet at one of the places, as of a moment. Nothing for the plan: it is filled as
    /// it is.
    pub fn offers(&self, sheet: &'static Declaration, place: usize, at: Option<Moment>) -> Vec<Offer> {
        if sheet.stage == Stage::Plan {
            return Vec::new();
        }
        let worked_on = self.worked_on(sheet.id).and_then(|part| self.filled(part));
        let none = (Rc::default(), Rc::default());
        let (standing, givens): (Rc<Entries>, Rc<Givens>) =
            worked_on.map_or(none, |filled| (Rc::clone(filled.fields.entries()), Rc::clone(&filled.given)));
        let mut from = self.fill(sheet, place, at);
        let chosen = standing.get("series").and_then(|held| match held.as_ref() {
            Held::One(typed) => Some(typed.text.clone()),
            Held::Rows(_) => None,
        });
        // what somebody typed as readings is joined by no basis and no unit of the record's
        if let Some(id) = chosen.filter(|_| standing.get("readings").is_none_or(|held| held.is_empty())) {
            from.follow(sheet, self, place, at, &id);
        }
        let known = |id: &str| from.origins.get(id);
        let is_free = |id: &str| standing.get(id).is_none_or(|held| held.is_empty());
        let fits = |id: &str, origin: &Origin| {
            let mut group = sheet
                .inputs
                .iter()
                .map(|field| field.id)
                .filter(|other| *other != id && is_read_with(sheet, id, origin, other));
            group.all(|other| is_free(other) || givens.get(other).is_some_and(|given| is_one(given, origin)))
        };
        let offer = |field: &'static Field| {
            let (held, origin) = (from.entries.get(field.id)?, known(field.id)?);
            let is_offered = is_free(field.id) && !held.is_empty() && fits(field.id, origin);
            let given = Given::of(origin).filter(|_| is_offered)?;
            Some(Offer { field, held: Rc::clone(held), given })
        };
        sheet.inputs.iter().filter_map(offer).collect()
    }
}

/// Whether two fields of a sheet were read at one time, where the first has this origin.
fn is_read_with(sheet: &Declaration, id: &str, origin: &Origin, other: &str) -> bool {
    let both = |ids: &[&str]| ids.contains(&id) && ids.contains(&other);
    if both(&FILTER) {
        return true;
    }
    // a sheet with an anchor asks the tap's temperature of another day
    let membrane: Vec<&str> = match sheet.input("anchor-temperature") {
        Some(_) => ANCHOR.iter().map(|(asked, _)| *asked).collect(),
        None => TOGETHER.iter().copied().filter(|id| !FILTER.contains(id)).collect(),
    };
    if both(&membrane) || both(&BASELINE.map(|(asked, _)| asked)) {
        return true;
    }
    // of any other event all that was written down: a test of today is not joined by a result of yesterday
    let is_of = |event: &super::Event, id: &str| event.kind.field(id).is_some() || id == "tested-at";
    matches!(origin, Origin::Event(event) if event.kind != &READING && is_of(event, id) && is_of(event, other))
}

/// Whether both are of one moment: of one event, or both without a date.
fn is_one(given: &Given, origin: &Origin) -> bool {
    match (given, origin) {
        (Given::Event(id), Origin::Event(event)) => *id == event.id,
        (Given::Ro | Given::Place(_), Origin::Ro | Origin::Place(_)) => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::record::{Typed, field};
    use crate::program::catalogue::find;

    const RECORD: &str = r#"{ "format": "tapside-record", "version": 2,
        "ro": { "bed-volume": "14 L", "product-flow": "0.8 L/min" },
        "places": [{ "id": "place-1", "place-name": "Ward 6", "tap-temperature": "9 °C" }, { "id": "place-2" }],
        "events": [
            { "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "place": "place-1", "fields": {
                "product-flow": "0.86 L/min", "reject-flow": "1.4 L/min", "feed-conductivity": "85 µS/cm" } },
            { "id": "e2", "kind": "chlorine-test", "at": "2026-11-12T06:00+01:00", "place": "place-1", "fields": {
                "chlorine-after-first": "0.05 mg/L", "smallest-step": "0.02 mg/L" } }
        ] }"#;

    fn sheet(id: &str) -> &'static Declaration {
        find(id).unwrap().declaration
    }

    fn offered(record: &Record, id: &str, place: usize) -> Vec<(&'static str, Given)> {
        record.offers(sheet(id), place, None).into_iter().map(|offer| (offer.field.id, offer.given)).collect()
    }

    fn types(record: &mut Record, of: &str, id: &str, text: &str) {
        let part = record.sheet_part(of).unwrap();
        let field = &sheet(of).inputs[sheet(of).input(id).unwrap()];
        record.set(part, field, Held::One(Typed::new(field, text, None))).unwrap();
    }

    #[test]
    fn a_reading_before_what_has_no_date_and_only_of_its_own_place() {
        let record = Record::open(RECORD).unwrap();
        let event = || Given::Event("e1".into());
        assert_eq!(offered(&record, "recovery", 0), [("product-flow", event()), ("reject-flow", event())]);
        assert_eq!(offered(&record, "recovery", 1), [("product-flow", Given::Ro)]);
        assert_eq!(offered(&record, "carbon-contact-time", 0), [("bed-volume", Given::Ro)]);
        assert_eq!(offered(&record, "plan", 0), []);
        assert_eq!(field("bed-volume").map(|field| field.id), Some("bed-volume"));
    }

    #[test]
    fn what_is_dated_later_is_not_offered() {
        let record = Record::open(RECORD).unwrap();
        let offered = |at: &str| {
            let at = Moment::read(at).unwrap();
            record
                .offers(sheet("recovery"), 0, Some(at))
                .into_iter()
                .map(|offer| offer.given)
                .collect::<Vec<_>>()
        };
        assert_eq!(offered("2026-11-12T06:59+01:00"), [Given::Ro]);
        assert_eq!(offered("2026-11-12T07:00+01:00"), [Given::Event("e1".into()), Given::Event("e1".into())]);
    }

    #[test]
    fn what_is_typed_is_joined_by_nothing_of_another_day() {
        let mut record = Record::open(RECORD).unwrap();
        types(&mut record, "recovery", "product-flow", "0.7 L/min");
        assert_eq!(offered(&record, "recovery", 0), []);
        let asks = |record: &Record| {
            offered(record, "chlorine-test", 0).into_iter().map(|(id, _)| id).collect::<Vec<_>>()
        };
        assert_eq!(asks(&record), ["chlorine-after-first", "smallest-step", "tested-at"]);
        types(&mut record, "chlorine-test", "chlorine-after-first", "0.1 mg/L");
        assert_eq!(asks(&record), [] as [&str; 0]);
        // what was emptied again is empty
        types(&mut record, "chlorine-test", "chlorine-after-first", " ");
        assert_eq!(asks(&record).len(), 3);
    }

    #[test]
    fn the_rest_of_a_reading_joins_what_was_filled_from_it() {
        let mut record = Record::open(RECORD).unwrap();
        record.give("recovery", record.offers(sheet("recovery"), 0, None)).unwrap();
        assert_eq!(offered(&record, "recovery", 0), []);
        types(&mut record, "recovery", "reject-flow", "");
        assert_eq!(offered(&record, "recovery", 0), [("reject-flow", Given::Event("e1".into()))]);
    }

    #[test]
    fn the_origin_is_kept_in_the_file_until_something_else_is_typed() {
        let mut record = Record::open(RECORD).unwrap();
        record.give("recovery", record.offers(sheet("recovery"), 0, None)).unwrap();
        let part = record.worked_on("recovery").unwrap();
        let kept = record.document()["sheets"][0]["from"].clone();
        assert_eq!(kept["product-flow"], serde_json::json!({ "from": "event", "id": "e1" }));
        let again = Record::open(&record.document().to_string()).unwrap();
        assert_eq!(
            again.filled(part).map(|filled| &filled.given),
            record.filled(part).map(|filled| &filled.given)
        );
        types(&mut record, "recovery", "product-flow", "0.9");
        let given = &record.filled(part).unwrap().given;
        assert!(!given.contains_key("product-flow") && given.contains_key("reject-flow"));
    }

    #[test]
    fn what_a_newer_program_says_of_an_origin_survives() {
        let mut document: serde_json::Value = serde_json::from_str(RECORD).unwrap();
        let from =
            serde_json::json!({ "flow": { "from": "meter", "id": "m1" }, "bed-volume": { "from": "ro" } });
        document["sheets"] = serde_json::json!([{ "id": "s", "sheet": "carbon-contact-time",
            "fields": { "bed-volume": "14 L" }, "from": from }]);
        let record = Record::open(&document.to_string()).unwrap();
        assert_eq!(record.sheets()[0].given.len(), 1);
        assert_eq!(record.document()["sheets"][0]["from"], from);
    }

    #[test]
    fn a_kept_sheet_stays_as_it_was_and_can_be_used_as_a_start() {
        let mut record = Record::open(RECORD).unwrap();
        let at = Moment::read("2026-11-12T07:05+01:00").unwrap();
        record.give("recovery", record.offers(sheet("recovery"), 0, None)).unwrap();
        record.keep_sheet("recovery", "kept-1", at, 1).unwrap();
        let kept = record.sheets()[1].clone();
        types(&mut record, "recovery", "product-flow", "0.5");
        assert_eq!(record.sheets()[1], kept);
        assert_eq!(kept.place.as_deref(), Some("place-2"));
        let again = Record::open(&record.text()).unwrap();
        assert_eq!(again.sheets()[1].place, kept.place);
        record.start_from("kept-1").unwrap();
        let now = record.filled(record.worked_on("recovery").unwrap()).unwrap();
        assert_eq!((&now.fields, &now.given, now.kept), (&kept.fields, &kept.given, None));
        types(&mut record, "recovery", "product-flow", "0.4");
        assert_eq!(record.sheets()[1], kept);
        assert!(record.start_from("recovery").is_err() && record.start_from("nothing").is_err());
    }

    #[test]
    fn where_two_states_are_merged_an_origin_goes_with_its_entry() {
        let mut base = Record::open(RECORD).unwrap();
        base.give("recovery", base.offers(sheet("recovery"), 0, None)).unwrap();
        let (mut mine, mut theirs) = (base.clone(), base.clone());
        types(&mut mine, "recovery", "highest-recovery", "50 %");
        types(&mut theirs, "recovery", "product-flow", "0.5 L/min");
        let merged = mine.merge(&theirs, Some(&base)).unwrap().record;
        let filled = merged.filled(merged.worked_on("recovery").unwrap()).unwrap();
        assert_eq!(filled.fields.word("product-flow"), Some("0.5 L/min"));
        assert_eq!(filled.given.keys().copied().collect::<Vec<_>>(), ["reject-flow"]);
    }
}
