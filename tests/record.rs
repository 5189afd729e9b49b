//! The record as the life of an RO: a thousand random lives, what is opened and refused, and what is true when.

use calc::documents::csv::events;
use calc::documents::record::kinds::{self, KINDS};
use calc::documents::record::{
    Event, Fault, Fields, Held, LARGEST, LockReason, Origin, Part, Record, Refused, Typed, When, schema,
};
use calc::engine::calendar::Moment;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Field, Shape, Value};
use calc::program::catalogue;
use serde_json::{Value as Json, json};

/// A seeded sequence of numbers, so that a life that fails can be lived again.
struct Dice(u64);

impl Dice {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % bound
    }

    fn of<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[self.below(choices.len())]
    }

    fn shuffle<T>(&mut self, items: &mut [T]) {
        for index in (1..items.len()).rev() {
            items.swap(index, self.below(index + 1));
        }
    }

    /// In few days, so that many happen at one moment, by clocks of several offsets.
    fn when(&mut self) -> When {
        let day = format!("2026-1{}-{:02}", self.below(3), 1 + self.below(6));
        let offset = self.of(&["+01:00", "+02:00", "-05:00", "Z"]);
        match self.below(5) {
            0 => When::read(&day).expect("as it is written here"),
            _ => When::read(&format!("{day}T{:02}:{}0{offset}", self.below(24), self.below(6)))
                .expect("as it is written here"),
        }
    }

    fn fields(&mut self, kind: &'static kinds::Kind) -> Fields {
        let mut fields = Fields::default();
        for field in kind.fields {
            let text = match field.shape {
                _ if self.below(3) == 0 => continue,
                Shape::Number(_) if self.below(12) == 0 => "a lot".to_owned(),
                Shape::Number(_) => format!("{}{}", self.of(&["1,5", "0.25", "7", "120"]), unit(field)),
                Shape::Choice(named) => named[self.below(named.len())].id.to_owned(),
                Shape::Date => format!("2027-01-{:02}", 1 + self.below(28)),
                Shape::Moment => "2027-01-01T08:00+01:00".to_owned(),
                Shape::Text => self.of(&["A", "B"]).to_owned(),
                Shape::Table(_) => continue,
            };
            fields.set(field, Held::One(Typed::new(field, text, None)));
        }
        fields
    }
}

fn unit(field: &Field) -> String {
    field.term.kind.map_or(String::new(), |kind| format!(" {}", kind.units[0].symbol)).trim_end().to_owned()
}

/// A life of up to forty events; the later ones may name and correct earlier ones.
fn life(seed: u64) -> (Record, Vec<Event>) {
    let mut dice = Dice(seed * 2 + 1);
    let mut record = Record::new();
    for place in ["ward", "bay"] {
        record.add_place(place).expect("as it is written here");
    }
    record.add_instrument("meter").expect("as it is written here");
    let mut events: Vec<Event> = Vec::new();
    for index in 0..dice.below(40) {
        let kind = if dice.below(4) == 0 { &kinds::CORRECTION } else { dice.of(KINDS) };
        let place = dice.of(&[None, Some("ward"), Some("bay")]).map(Into::into);
        let mut event = Event::new(format!("e{}-{index}", dice.below(1000)), kind, dice.when(), place);
        if let When::At(moment) = dice.when() {
            event.typed = Some(moment);
        }
        event.of = match kind.of {
            kinds::Names::Event if !events.is_empty() => Some(events[dice.below(events.len())].id.clone()),
            kinds::Names::Instrument => Some("meter".into()),
            _ => None,
        };
        let corrected =
            events.iter().find(|other| event.is_correction() && Some(&other.id) == event.of.as_ref());
        event.fields = dice.fields(corrected.map_or(kind, |other| other.kind));
        event.who = dice.of(&["", "AB"]).to_owned();
        if event.is_correction() {
            event.becomes.withdrawn = dice.below(3) == 0;
            event.becomes.when = (dice.below(4) == 0).then(|| dice.when());
        }
        events.push(event);
    }
    (record, events)
}

fn lived(start: &Record, events: &[Event]) -> Record {
    let mut record = start.clone();
    for event in events {
        record.add_event(event.clone()).expect("as it is written here");
    }
    record
}

fn moment(text: &str) -> Moment {
    Moment::read(text).expect("as it is written here")
}

const ASKED: [&str; 3] = ["2026-10-04T12:00+01:00", "2026-11-03T06:00+01:00", "2027-06-01T00:00Z"];

/// What is true then, told by the ids of events, so that when they were typed makes no difference.
fn told(record: &Record, at: Moment) -> String {
    let now = record.now(at, Some("ward"));
    let ids =
        |events: &[std::rc::Rc<Event>]| events.iter().map(|event| event.id.to_string()).collect::<Vec<_>>();
    let chosen = [&now.anchor, &now.baseline]
        .map(|chosen| chosen.as_ref().map(|c| (c.by.clone(), c.reading.id.clone())));
    let parts = now
        .parts
        .iter()
        .map(|part| (part.part.id, part.changed.id.clone(), part.days, part.volume, part.sessions));
    let locks = now.locks.iter().map(|lock| (lock.reason.id(), lock.since.id.clone()));
    let due = now.due.iter().map(|due| (due.last.id.clone(), due.by));
    format!(
        "{:?} {:?} {chosen:?} {:?} {:?} {:?} {:?} {:?}",
        now.place,
        ids(&now.latest),
        parts.collect::<Vec<_>>(),
        locks.collect::<Vec<_>>(),
        ids(&now.pending),
        due.collect::<Vec<_>>(),
        now.limits,
    )
}

#[test]
fn any_order_of_typing_gives_the_same() {
    let mut locked = 0;
    for seed in 0..1000 {
        let (start, mut events) = life(seed);
        let record = lived(&start, &events);
        let mut dice = Dice(seed);
        dice.shuffle(&mut events);
        for event in &mut events {
            event.typed = None;
        }
        let other = lived(&start, &events);
        for at in ASKED.map(moment) {
            assert_eq!(told(&record, at), told(&other, at), "life {seed}, as of {at}");
            locked += record.now(at, None).locks.len();
        }
    }
    assert!(locked > 1000, "only {locked} locks");
}

#[test]
fn export_and_import_are_equal() {
    for seed in 0..1000 {
        let (start, events) = life(seed);
        let record = lived(&start, &events);
        let again = Record::open(&record.text()).unwrap();
        assert_eq!(again.text(), record.text(), "life {seed}");
        let joined = Record::from_parts(&record.parts_since(None)).unwrap();
        assert_eq!(joined.text(), record.text(), "life {seed}, from its parts");
        // what a life may hold: it is typed in any order, and corrections are corrected
        let named =
            |fault: &Fault| matches!(fault, Fault::BeforeItHappened(_) | Fault::CorrectsACorrection(..));
        let faults = again.faults().iter().all(named);
        assert!(faults, "life {seed}: {:?}", again.faults());
        for at in ASKED.map(moment) {
            assert!(again.now(at, None) == record.now(at, None), "life {seed}, as of {at}");
        }
    }
}

#[test]
fn correcting_and_undoing_return() {
    let after = |days: u32| When::read(&format!("2028-01-{days:02}T00:00Z")).unwrap();
    let mut corrected = 0;
    for seed in 0..1000 {
        let (start, events) = life(seed);
        let record = lived(&start, &events);
        let mut dice = Dice(seed + 77);
        let Some(target) = events.get(dice.below(events.len().max(1))).filter(|event| !event.is_correction())
        else {
            continue;
        };
        let mut correction = Event::new("correction", &kinds::CORRECTION, after(1), None);
        correction.of = Some(target.id.clone());
        correction.fields = dice.fields(target.kind);
        correction.becomes.withdrawn = dice.below(2) == 0;
        let mut changed = record.clone();
        changed.add_event(correction).unwrap();
        assert_eq!(changed.event(&target.id), record.event(&target.id), "the original stays readable");
        let mut undoing = Event::new("undoing", &kinds::CORRECTION, after(2), None);
        undoing.of = Some("correction".into());
        undoing.becomes.withdrawn = true;
        let mut undone = changed.clone();
        undone.add_event(undoing).unwrap();
        for at in ASKED.map(moment) {
            assert!(undone.now(at, Some("bay")) == record.now(at, Some("bay")), "life {seed}, as of {at}");
        }
        corrected += usize::from(changed.as_corrected(&target.id) != record.as_corrected(&target.id));
    }
    assert!(corrected > 300, "only {corrected} corrections changed anything");
}

/// What two windows made of one record: each has half of the events, and its own words in a field.
fn parted(seed: u64) -> [Record; 3] {
    let (start, events) = life(seed);
    let mut dice = Dice(seed + 5);
    let mut sides = [start.clone(), start.clone(), start.clone()];
    for event in &events {
        for side in &mut sides {
            if dice.below(2) == 0 {
                let mut own = event.clone();
                // now and then two of them give one id to different events
                if dice.below(10) == 0 {
                    own.note = dice.of(&["one", "two", "three"]).to_owned();
                }
                side.add_event(own).expect("each side has an id once");
            }
        }
    }
    sides
}

#[test]
fn merged_in_any_order_and_again_it_is_the_same() {
    let (mut twice, mut corrected) = (0, 0);
    for seed in 0..150 {
        let [a, b, c] = parted(seed).map(|side| Record::open(&side.text()).unwrap());
        let merge = |a: &Record, b: &Record| {
            let merged = a.merge(b, None).unwrap();
            assert_eq!(merged.conflicts, [], "life {seed}");
            merged.record
        };
        let all = merge(&merge(&a, &b), &c);
        for other in [merge(&a, &merge(&b, &c)), merge(&merge(&c, &a), &b), merge(&merge(&b, &c), &a)] {
            assert_eq!(other.text(), all.text(), "life {seed}");
            assert_eq!(other.faults(), all.faults(), "life {seed}");
        }
        for again in [&a, &all] {
            assert_eq!(merge(&all, again).text(), all.text(), "life {seed}");
            assert_eq!(merge(again, &all).text(), all.text(), "life {seed}");
        }
        // nothing of any side is gone, and two events of one id are named
        let text = all.text();
        for side in [&a, &b, &c] {
            for event in side.events() {
                let said = side.json_of(event).to_string();
                let said = said.split_once(",\"kind\"").expect("each has one").1;
                assert!(text.contains(said), "life {seed}: {said}");
            }
        }
        let own = all.events().filter(|event| event.id.contains('~')).count();
        let named = all.faults().iter().filter(|fault| matches!(fault, Fault::TwoOfOneId(..))).count();
        assert!(named <= own, "life {seed}");
        let again = Record::open(&all.text()).unwrap();
        assert_eq!(again.text(), all.text());
        assert_eq!(again.faults(), all.faults(), "life {seed}: named again when it is opened");
        for at in ASKED.map(moment) {
            assert_eq!(told(&again, at), told(&all, at), "life {seed}, as of {at}");
        }
        twice += named;
        corrected += all.events().filter(|event| event.is_correction()).count();
    }
    assert!(twice > 30 && corrected > 400, "{twice} {corrected}");
}

/// What one side changed since both had the same is taken; what both changed is named, and stands as it stood here.
#[test]
fn fields_of_both_sides_are_merged_and_conflicts_named() {
    let word = |record: &mut Record, part: Part, id: &str, text: &str| {
        let field = &plan().inputs[plan().input(id).unwrap()];
        record.set(part, field, Held::One(Typed::new(field, text, None))).unwrap();
    };
    let mut base = anchored();
    word(&mut base, Part::Ro, "ro-name", "RO 2");
    word(&mut base, Part::Place(0), "shut-pressure", "4 bar");
    let (mut mine, mut theirs) = (base.clone(), Record::open(&base.text()).unwrap());
    word(&mut mine, Part::Ro, "ro-name", "RO two");
    word(&mut theirs, Part::Place(0), "shut-pressure", "5 bar");
    theirs.add_place("attic").unwrap();
    word(&mut theirs, Part::Place(2), "place-name", "Attic");
    for (a, b) in [(&mine, &theirs), (&theirs, &mine)] {
        let merged = a.merge(b, Some(&base)).unwrap();
        assert_eq!((merged.conflicts, merged.both), (vec![], vec![]));
        assert_eq!(merged.record.ro().word("ro-name"), Some("RO two"));
        assert_eq!(merged.record.places()[0].fields.word("shut-pressure"), Some("5 bar"));
        assert_eq!(merged.record.places()[2].fields.word("place-name"), Some("Attic"));
    }
    let mut of_the_same_part = base.clone();
    word(&mut of_the_same_part, Part::Place(0), "open-pressure", "3 bar");
    let merged = theirs.merge(&of_the_same_part, Some(&base)).unwrap();
    assert_eq!((merged.conflicts, merged.both), (vec![], vec![Part::Place(0)]));
    word(&mut theirs, Part::Ro, "ro-name", "RO zwei");
    let merged = mine.merge(&theirs, Some(&base)).unwrap();
    assert_eq!(merged.both, [Part::Ro]);
    assert_eq!(merged.record.ro().word("ro-name"), Some("RO two"));
    let named: Vec<_> = merged.conflicts.iter().map(|one| (one.part, &*one.field)).collect();
    assert_eq!(named, [(Part::Ro, "ro-name")]);
    // emptied on one side, untouched on the other
    let mut emptied = base.clone();
    word(&mut emptied, Part::Ro, "ro-name", "");
    let merged = base.merge(&emptied, Some(&base)).unwrap();
    assert_eq!((merged.record.ro().word("ro-name"), merged.conflicts.len()), (None, 0));
    let newer = r#"{"format": "tapside-record", "version": 3}"#;
    assert!(mine.merge(&Record::open(newer).unwrap(), None).is_err());
}

/// A record of one place with these events.
fn with_events(events: Json) -> Record {
    let document = json!({
        "format": "tapside-record", "version": 2, "places": [{ "id": "ward", "place-name": "Ward 6" }, { "id": "bay" }],
        "events": events,
    });
    Record::from_document(document).expect("a record")
}

fn at(hour: u32) -> String {
    format!("2026-11-12T{hour:02}:00+01:00")
}

fn locks(events: Json) -> Vec<&'static str> {
    let now = with_events(events).now(moment("2026-12-01T00:00Z"), None);
    now.locks.iter().map(|lock| lock.reason.id()).collect()
}

#[test]
fn disinfectant_is_inside_until_its_own_test_shows_none_twice() {
    let disinfected = json!({ "id": "d", "kind": "chemical-disinfection", "at": at(18), "fields": { "disinfectant-name": "P", "agent": "peracetic-acid" } });
    let good = json!({
        "residual-test": "own-test", "residual-limit": "1 mg/L", "residual-now": "0.5 mg/L", "residual-later": "<1 mg/L",
        "pause": "10 min", "needed-pause": "10 min", "disinfectant-name": "p",
    });
    let tested = |changes: &[(&str, Json)], hour: u32| {
        let mut fields = good.clone();
        for (field, value) in changes {
            fields[*field] = value.clone();
        }
        locks(json!([disinfected, { "id": "t", "kind": "residual-test", "at": at(hour), "fields": fields }]))
    };
    assert_eq!(locks(json!([disinfected])), ["disinfectant-inside"]);
    assert_eq!(tested(&[], 20), [""; 0]);
    for (field, value) in [
        ("residual-now", json!("1 mg/L")),
        ("residual-now", json!("1000 µg/L")),
        ("residual-later", json!("<2 mg/L")),
        ("residual-later", json!(null)),
        ("residual-limit", json!(null)),
        ("residual-test", json!("another-test")),
        ("residual-test", json!(null)),
        ("residual-test", json!("total-chlorine-test")),
        ("residual-limit", json!("2 mg/L")),
        ("residual-now", json!("0 mg/L")),
        ("needed-pause", json!("11 min")),
        ("needed-pause", json!(null)),
        ("pause", json!("0 min")),
        ("pause", json!(null)),
        ("disinfectant-name", json!("Q")),
    ] {
        assert_eq!(tested(&[(field, value.clone())], 20), ["disinfectant-inside"], "{field} {value}");
    }
    assert_eq!(tested(&[], 17), ["disinfectant-inside"], "a test before it shows nothing");
    assert_eq!(tested(&[], 18), ["disinfectant-inside"], "nor one at the same moment");
}

#[test]
fn each_lock_has_its_key() {
    let event = |id: &str, kind: &str, hour: u32, of: Option<&str>, fields: Json| json!({ "id": id, "kind": kind, "at": at(hour), "of": of, "fields": fields });
    let stored = event("s", "stored", 8, None, json!({ "preservative": "no" }));
    let returned = event("r", "returned", 9, None, json!({}));
    assert_eq!(locks(json!([stored])), ["stored"]);
    assert_eq!(locks(json!([stored, returned])), [""; 0]);
    let unknown = event("s", "stored", 8, None, json!({}));
    assert_eq!(locks(json!([unknown, returned])), ["preservative-inside"], "nobody knows with what");

    let out = event("o", "notice", 8, None, json!({ "notice-kind": "out-of-service" }));
    assert_eq!(locks(json!([out])), ["out-of-service"]);
    assert_eq!(locks(json!([out, event("x", "sign-off", 9, Some("o"), json!({}))])), [""; 0]);
    assert_eq!(
        locks(json!([out, event("x", "sign-off", 9, Some("another"), json!({}))])),
        ["out-of-service"]
    );

    let sample = event("b", "sample-drawn", 8, None, json!({ "use-waits": "yes" }));
    let report = event("l", "laboratory-report", 9, Some("b"), json!({}));
    assert_eq!(locks(json!([sample, report])), ["awaiting-results"], "a report may say anything");
    for signed in ["b", "l"] {
        assert_eq!(
            locks(json!([sample, report, event("x", "sign-off", 10, Some(signed), json!({}))])),
            [""; 0]
        );
    }
    assert_eq!(LockReason::NAMED.len(), 5);
}

#[test]
fn parts_age_by_days_water_and_sessions() {
    let changed = json!({ "id": "c", "kind": "part-changed", "at": at(8),
        "fields": { "part": "first-carbon", "water-counter": "10 m³", "session-counter": 20, "next-due": "2026-12-01" } });
    let read = |id: &str, day: u32, water: &str, sessions: u32| {
        json!({ "id": id, "kind": "reading", "at": format!("2026-11-{day}T08:00+01:00"),
        "fields": { "water-counter": water, "session-counter": sessions } })
    };
    let now = |events: Json| with_events(events).now(moment("2026-11-22T08:00+01:00"), None);
    let aged = now(json!([changed, read("1", 14, "11 m³", 24), read("2", 20, "12,5 m³", 30)]));
    let [part] = aged.parts.as_slice() else { panic!("{:?}", aged.parts) };
    assert_eq!(
        (part.part.id, part.days, part.volume, part.sessions),
        ("first-carbon", 10, Ok(2.5), Ok(10.0))
    );
    assert_eq!(aged.due[0].by.unwrap().to_string(), "2026-12-01");

    let unread = now(json!([changed]));
    assert_eq!(unread.parts[0].volume.unwrap_err().field, "water-counter");
    // another meter was fitted between: 2 m³ of it are not 2 - 10
    let another = now(json!([changed, read("1", 14, "1 m³", 24), read("2", 20, "12 m³", 30)]));
    assert!(another.parts[0].volume.is_err() && another.parts[0].sessions == Ok(10.0));
}

fn plan() -> &'static Declaration {
    catalogue::find("plan").expect("the plan").declaration
}

fn number(record: &Record, sheet: &'static Declaration, id: &str) -> Option<f64> {
    match record.fill(sheet, 0, None).read(sheet).values.get(sheet.input(id)?)? {
        Some(Value::Number(si)) => Some(*si),
        _ => None,
    }
}

const LITRE_A_MINUTE: f64 = 1e-3 / 60.0;

fn anchored() -> Record {
    with_events(json!([
        { "id": "r1", "kind": "reading", "at": at(7), "place": "ward",
          "fields": { "tap-temperature": "8 °C", "product-flow": "0.86 L/min", "reject-flow": "1.2 L/min" } },
        { "id": "a1", "kind": "reference-chosen", "at": at(8), "of": "r1", "fields": { "reference": "anchor" } },
    ]))
}

/// Today's number stands beside the dated reading, never in it, and brings its own temperature or none.
#[test]
fn what_is_typed_never_changes_a_dated_reading() {
    let mut record = anchored();
    assert_eq!(number(&record, plan(), "product-flow"), Some(0.86 * LITRE_A_MINUTE));
    assert_eq!(number(&record, plan(), "anchor-temperature"), Some(273.15 + 8.0));
    let filled = record.fill(plan(), 0, None);
    assert!(matches!(&filled.origins["product-flow"], Origin::Event(event) if &*event.id == "r1"));
    let before = record.event("r1").cloned();

    let field = &plan().inputs[plan().input("product-flow").unwrap()];
    let part = record.home(field.id, 0);
    assert_eq!(part, Part::Ro);
    record.set(part, field, Held::One(Typed::new(field, "0.9 L/min", None))).unwrap();
    assert_eq!(record.event("r1").cloned(), before);
    assert_eq!(number(&record, plan(), "product-flow"), Some(0.9 * LITRE_A_MINUTE));
    assert_eq!(number(&record, plan(), "reject-flow"), None, "that of another day");
    assert_eq!(number(&record, plan(), "anchor-temperature"), None);

    let day = When::read("2026-11-20").unwrap();
    let mut choice = Event::new("again", &kinds::REFERENCE_CHOSEN, day, None);
    choice.of = Some("r1".into());
    let field = kinds::REFERENCE_CHOSEN.field("reference").unwrap();
    choice.fields.set(field, Held::One(Typed::new(field, "anchor", None)));
    record.add_event(choice).unwrap();
    assert_eq!(
        number(&record, plan(), "product-flow"),
        Some(0.86 * LITRE_A_MINUTE),
        "chosen again, it counts"
    );
    assert_eq!(number(&record, plan(), "reject-flow"), Some(1.2 * LITRE_A_MINUTE));
}

#[test]
fn a_renamed_place_keeps_its_readings() {
    let mut record = anchored();
    let name = &plan().inputs[plan().input("place-name").unwrap()];
    record.set(Part::Place(0), name, Held::One(Typed::new(name, "Ward 7", None))).unwrap();
    let again = Record::open(&record.text()).unwrap();
    assert_eq!(again.place(again.event("r1").unwrap().place.as_deref().unwrap()), Some(0));
    assert_eq!(again.faults(), []);
}

/// The anchor of this place goes before another's, the one chosen last before others; a reading without its temperature says
/// so, and none is taken from another day.
#[test]
fn the_reading_that_was_chosen_is_the_anchor() {
    let reading = |id: &str, day: u32, place: &str, product: &str| {
        json!({ "id": id, "kind": "reading", "at": format!("2026-11-{day}"), "place": place,
        "fields": { "tap-temperature": "8 °C", "product-flow": product, "reject-flow": "1.2 L/min" } })
    };
    let choice = |id: &str, day: u32, of: &str| json!({ "id": id, "kind": "reference-chosen", "at": format!("2026-11-{day}"), "of": of, "fields": { "reference": "anchor" } });
    let record = with_events(json!([
        reading("r1", 12, "ward", "2 L/min"),
        reading("r2", 14, "bay", "4 L/min"),
        reading("r3", 13, "ward", "3 L/min"),
        choice("c1", 12, "r1"),
        choice("c2", 14, "r2"),
        choice("c3", 13, "r3"),
    ]));
    let product = |record: &Record, place: usize, at: Option<Moment>| {
        let filled = record.fill(plan(), place, at);
        let flow = filled.read(plan()).values[plan().input("product-flow").unwrap()].clone();
        (flow, filled.problems.len())
    };
    let flow = |litres: f64| Some(Value::Number(litres * LITRE_A_MINUTE));
    assert_eq!(product(&record, 0, None), (flow(3.0), 0));
    assert_eq!(product(&record, 1, None), (flow(4.0), 0));
    assert_eq!(
        product(&record, 0, Some(moment("2026-11-12T23:00Z"))),
        (flow(2.0), 0),
        "as of an earlier day"
    );
    let bare = with_events(json!([
        { "id": "r", "kind": "reading", "at": at(7), "place": "ward", "fields": { "product-flow": "2 L/min" } }, choice("c", 12, "r"),
    ]));
    let (flow_of, problems) = product(&bare, 0, None);
    assert_eq!((flow_of, problems), (flow(2.0), 1));
    assert_eq!(number(&bare, plan(), "anchor-temperature"), None);
}

/// Rejection needs both conductivities of one reading.
#[test]
fn what_was_read_together_stays_together() {
    let sheet = catalogue::find("rejection").unwrap().declaration;
    let read = |id: &str, hour: u32, fields: Json| json!({ "id": id, "kind": "reading", "at": at(hour), "place": "ward", "fields": fields });
    let record = with_events(json!([
        read("r1", 7, json!({ "feed-conductivity": "85 µS/cm", "product-conductivity": "4.2 µS/cm" })),
        read("r2", 8, json!({ "product-conductivity": "9 µS/cm" })),
    ]));
    assert!(number(&record, sheet, "product-conductivity").is_some());
    assert_eq!(number(&record, sheet, "feed-conductivity"), None);
    let earlier = record.fill(sheet, 0, Some(moment(&at(7))));
    assert!(earlier.entries.contains_key("feed-conductivity"));
    let elsewhere = record.fill(sheet, 1, None);
    assert!(elsewhere.entries.is_empty(), "another place's water");
}

fn faults(events: Json) -> Vec<String> {
    let record = with_events(events.clone());
    let again = Record::open(&record.text()).expect("what was written");
    assert_eq!(again.text(), record.text(), "nothing of it is taken out");
    let said = record.faults().iter().map(Fault::sentence);
    said.map(|sentence| {
        assert_eq!(sentence.open_places(), Vec::<&str>::new());
        sentence.show(UnitSet::Metric)
    })
    .collect()
}

#[test]
fn each_fault_is_named_and_nothing_is_taken_out() {
    for (events, named) in [
        (json!([{ "id": "e", "kind": "moved" }]), "does not say when it happened"),
        (json!([{ "id": "e", "kind": "moved", "at": "2026-11-12T08:00" }]), "does not say when it happened"),
        (json!([{ "id": "e", "kind": "moved", "at": "12/11/2026" }]), "does not say when it happened"),
        (json!([7]), "stands among the events and is none"),
        (json!([{ "kind": "moved", "at": at(8) }]), "stands among the events and is none"),
        (json!([{ "id": "e", "kind": "painted", "at": at(8) }]), "of a kind that this version does not know"),
        (
            json!([{ "id": "e", "kind": "moved", "at": at(8), "place": "gone" }]),
            "at a place that is not in this record",
        ),
        (json!([{ "id": "e", "kind": "sign-off", "at": at(8), "of": "gone" }]), "names “gone”"),
        (json!([{ "id": "e", "kind": "moved", "at": at(8), "typed": at(7) }]), "typed before it happened"),
    ] {
        let said = faults(events.clone());
        assert!(said.len() == 1 && said[0].contains(named), "{events}: {said:?}");
    }
    // an hour that the clock shows twice is two moments; typed out of order is no fault
    let night = json!([
        { "id": "b", "kind": "moved", "at": "2026-10-25T02:30+01:00", "typed": "2026-10-25T02:31+01:00" },
        { "id": "a", "kind": "moved", "at": "2026-10-25T02:30+02:00", "typed": "2026-10-25T02:35+01:00" },
    ]);
    assert_eq!(faults(night.clone()), [""; 0]);
    let order: Vec<String> = with_events(night).events().map(|event| event.id.to_string()).collect();
    assert_eq!(order, ["a", "b"]);
}

#[test]
fn two_events_of_one_id_both_count_in_any_order() {
    let one =
        json!({ "id": "e", "kind": "notice", "at": at(8), "fields": { "notice-kind": "out-of-service" } });
    let two = json!({ "id": "e", "kind": "stored", "at": at(9), "fields": { "preservative": "no" } });
    let forth = with_events(json!([one, two]));
    let back = with_events(json!([two, one]));
    assert_eq!(forth.text(), back.text());
    assert_eq!((forth.count(), forth.faults().len()), (2, 1));
    assert_eq!(locks(json!([one, two])).len(), 2);
    let twice = with_events(json!([one, one]));
    assert_eq!((twice.count(), twice.faults().len()), (1, 1));
}

#[test]
fn what_is_not_known_here_survives() {
    let text = json!({
        "format": "tapside-record", "version": 2, "written-by": { "numbers": [1, 0.1, 1e-7] },
        "ro": { "colour": "blue", "least-inlet-pressure": { "typed": "1.5", "value": 1.5, "unit": "bar", "by": "label" } },
        "places": [{ "id": "ward", "wall": 7, "hoses": [{ "bore": { "typed": "12.7", "value": 12.7, "unit": "mm" }, "made": "x" }] }],
        "sheets": [{ "id": "s", "sheet": "dilution", "fields": { "strange": 1 }, "more": 2 }, { "id": "t", "sheet": "none", "fields": { "a": "b" } }],
        "events": [{ "id": "e", "kind": "reading", "at": at(7), "weather": "rain", "fields": { "mood": "good", "product-flow": "2 furlong" } }],
    });
    let record = Record::from_document(text.clone()).unwrap();
    let kept = record.document();
    assert_eq!(kept["written-by"], text["written-by"]);
    assert_eq!(kept["ro"], text["ro"]);
    assert_eq!(kept["places"][0]["wall"], 7);
    assert_eq!(kept["places"][0]["hoses"][0]["made"], "x");
    assert_eq!(kept["sheets"], text["sheets"]);
    assert_eq!(kept["events"][0]["weather"], "rain");
    assert_eq!(kept["events"][0]["fields"]["mood"], "good");
}

/// A number whose unit nobody knows is kept as it lies there, refused, and never another number.
#[test]
fn an_unknown_unit_is_no_other_unit() {
    let furlongs = json!({ "typed": "5", "value": 5, "unit": "furlong" });
    let document = json!({ "format": "tapside-record", "version": 2, "ro": { "bed-volume": furlongs } });
    let record = Record::from_document(document).unwrap();
    assert_eq!(record.document()["ro"]["bed-volume"], furlongs);
    let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
    let filled = record.fill(sheet, 0, None);
    let Some(Held::One(typed)) = filled.entries.get("bed-volume").map(AsRef::as_ref) else {
        panic!("nothing")
    };
    assert_eq!(typed.shown(), "5 furlong");
    let read = filled.read(sheet);
    assert_eq!(read.values[0], Some(Value::Refused));
    assert!(read.problems[0].sentence.show(UnitSet::Metric).contains("“furlong” is none of its units"));
}

/// Value and unit count, never the text, which another place would read otherwise; the file keeps it all the same.
#[test]
fn the_value_counts_and_the_text_stays() {
    let kept = json!({ "typed": "1.234", "value": 1234.0, "unit": "L" });
    let document = json!({ "format": "tapside-record", "version": 2, "ro": { "bed-volume": kept } });
    let record = Record::from_document(document).unwrap();
    let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
    assert_eq!(number(&record, sheet, "bed-volume"), Some(1.234));
    let filled = record.fill(sheet, 0, None);
    let Some(Held::One(typed)) = filled.entries.get("bed-volume").map(AsRef::as_ref) else {
        panic!("nothing")
    };
    assert_eq!((typed.shown(), typed.text.as_str()), ("1234", "1.234"));
    assert_eq!(record.document()["ro"]["bed-volume"], kept);
}

#[test]
fn a_newer_record_is_shown_and_not_changed() {
    let text = r#"{"format": "tapside-record", "version": 3, "ro": {"ro-name": "RO 2"}, "places": {"new": "shape"}}"#;
    let mut record = Record::open(text).unwrap();
    assert!(record.read_only().unwrap().show(UnitSet::Metric).contains("format 3, this one knows 2"));
    assert_eq!(record.ro().word("ro-name"), Some("RO 2"));
    assert!(record.add_place("ward").is_err());
    assert!(
        record.add_event(Event::new("e", &kinds::MOVED, When::read("2026-11-12").unwrap(), None)).is_err()
    );
    assert_eq!(
        serde_json::from_str::<Json>(&record.text()).unwrap(),
        serde_json::from_str::<Json>(text).unwrap()
    );
}

#[test]
fn a_file_that_is_cut_off_is_refused_wherever_it_ends() {
    let whole = anchored().text();
    for end in 1..whole.trim_end().len() {
        if whole.is_char_boundary(end) {
            assert!(matches!(Record::open(&whole[..end]), Err(Refused::CutShort { .. })), "{end}");
        }
    }
}

/// A room as version 1 kept it, and as it is kept now.
const ROOMS: [(&str, &str); 3] = [
    (include_str!("rooms/version-1/ostrin-vale.json"), include_str!("../examples/ostrin-vale.json")),
    (include_str!("rooms/version-1/quillon-flats.json"), include_str!("../examples/quillon-flats.json")),
    (include_str!("rooms/version-1/tolby-marsh.json"), include_str!("../examples/tolby-marsh.json")),
];

/// Records of version 1 give the plan the same, and their readings name places that can be renamed.
#[test]
fn version_1_gives_the_plan_the_same() {
    for (old, new) in ROOMS {
        let (record, now) = (Record::open(old).unwrap(), Record::open(new).unwrap());
        assert_eq!(record.faults(), []);
        assert_eq!(record.inputs_of_plan(0), now.inputs_of_plan(0));
        assert!(now.inputs_of_plan(0).0.iter().flatten().count() > 30);
        assert!(record.events().all(|event| event.place.as_deref() == Some("place-1")));
        let again = Record::open(&record.text()).unwrap();
        assert_eq!(again.text(), record.text());
    }
}

/// The three rooms are marked as invented, without a fault, and written back as they are.
#[test]
fn the_invented_rooms_are_records() {
    for (_, text) in ROOMS {
        let record = Record::open(text).unwrap();
        assert!(record.is_invented());
        assert_eq!(record.faults(), []);
        assert_eq!(record.inputs_of_plan(0).1, []);
        assert_eq!(
            serde_json::from_str::<Json>(&record.text()).unwrap(),
            serde_json::from_str::<Json>(text).unwrap()
        );
    }
}

#[test]
fn the_schema_among_the_examples_is_the_generated_one() {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples/record.schema.json");
    let generated = format!("{:#}\n", schema());
    if std::env::var_os("REWRITE_SCHEMA").is_some() {
        std::fs::write(&file, &generated).unwrap();
    }
    assert_eq!(
        std::fs::read_to_string(&file).unwrap_or_default(),
        generated,
        "run once with REWRITE_SCHEMA=1"
    );
}

#[test]
fn each_refusal_says_why() {
    let refusal = |text: &str| match Record::open(text) {
        Ok(record) => panic!("opened: {record:?}"),
        Err(refused) => {
            assert_eq!(refused.sentence().open_places(), Vec::<&str>::new());
            refused.sentence().show(UnitSet::Metric)
        }
    };
    for empty in ["", " \r\n"] {
        assert!(refusal(empty).starts_with("this file is empty"));
    }
    assert!(refusal("date;time\n1;2").contains("line 1, column"));
    for other in ["{}", "[]", "3", r#"{"format": "other", "version": 1}"#] {
        assert!(refusal(other).contains("but no record"), "{other}");
    }
    for version in ["0", "-1", "1.5", "\"1\"", "null"] {
        let text = format!(r#"{{"format": "tapside-record", "version": {version}}}"#);
        assert!(refusal(&text).contains("which there never was"), "{version}");
    }
    for (version, member, value) in [
        (1, "ro", "[]"),
        (1, "places", "{}"),
        (1, "places", "[1]"),
        (1, "readings", "\"many\""),
        (1, "readings", "[1]"),
        (2, "ro", "7"),
        (2, "places", "[1]"),
        (2, "instruments", "{}"),
        (2, "sheets", "[2]"),
        (2, "events", "{}"),
    ] {
        let text = format!(r#"{{"format": "tapside-record", "version": {version}, "{member}": {value}}}"#);
        assert!(refusal(&text).contains(&format!("its “{member}” is not")), "{text}");
    }
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    assert!(matches!(Record::open(&deep), Err(Refused::TooDeep)));
    assert!(refusal(&" ".repeat(2 * LARGEST + 1)).contains("larger than 50 MB"));
}

/// A number that is written and read again is the same to the last bit, also where its decimal text is long.
#[test]
fn numbers_survive_to_the_last_bit() {
    let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
    for value in [
        f64::from_bits(0x3fb999999999999a),
        4.984046054490402,
        0.1 + 0.2,
        1.0 / 3.0,
        5e-300,
        123456789.12345679,
    ] {
        let text = format!(
            r#"{{"format":"tapside-record","version":2,"kept":{value:e},"ro":{{"bed-volume":{{"typed":"","value":{value:e},"unit":"m³"}}}}}}"#
        );
        let again = Record::open(&Record::open(&text).unwrap().text()).unwrap();
        assert_eq!(again.document()["kept"].as_f64().map(f64::to_bits), Some(value.to_bits()), "{value}");
        assert_eq!(number(&again, sheet, "bed-volume").map(f64::to_bits), Some(value.to_bits()), "{value}");
    }
}

/// What is said of the place counts before what is said of the RO.
#[test]
fn the_place_counts_before_the_ro() {
    let record = Record::from_document(json!({
        "format": "tapside-record", "version": 2,
        "ro": { "bed-volume": "10 L" },
        "places": [{ "id": "ward", "bed-volume": "20 L" }],
    }))
    .unwrap();
    let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
    let volume = |place| record.fill(sheet, place, None).read(sheet).values[0].clone();
    assert_eq!((volume(0), volume(1)), (Some(Value::Number(20.0 * 1e-3)), Some(Value::Number(10.0 * 1e-3))));
}

#[test]
fn version_1_is_never_changed_in_silence() {
    let document = json!({
        "format": "tapside-record", "version": 1,
        "ro": { "product-flow": "9 L/min" },
        "places": [{ "place-name": "Ward 6" }, { "place-name": "Bay 3" }, { "place-name": "Bay 3" }],
        "readings": [
            { "date": "2026-11-12", "place": "Ward 6", "anchor": true, "product-flow": "2 L/min", "note": "rain", "mood": 1 },
            { "date": "2026-11-13", "place": "Bay 3" },
            { "place": "Ward 6" },
        ],
    });
    let record = Record::from_document(document).unwrap();
    let said: Vec<String> =
        record.faults().iter().map(|fault| fault.sentence().show(UnitSet::Metric)).collect();
    assert_eq!(said.len(), 3, "{said:?}");
    assert!(
        said[0].contains("not-in-use") && said[1].contains("“Bay 3”") && said[2].contains("when it happened"),
        "{said:?}"
    );
    let kept = record.document();
    assert_eq!(kept["ro"]["not-in-use"]["product-flow"], "9 L/min");
    let event = |id: &str| {
        kept["events"].as_array().unwrap().iter().find(|event| event["id"] == id).cloned().unwrap()
    };
    assert_eq!(event("reading-1")["note"], "rain");
    assert_eq!(event("reading-1")["fields"]["mood"], 1);
    assert_eq!(event("anchor-1")["of"], "reading-1");
    assert_eq!(event("reading-2")["place-named"], "Bay 3");
    assert_eq!(event("reading-3")["place"], "place-1");
    assert_eq!(number(&record, plan(), "product-flow"), Some(2.0 * LITRE_A_MINUTE));
}

#[test]
fn a_reading_s_pressure_drop_takes_no_temperature_of_another_day() {
    let limit = catalogue::find("filter-limit").unwrap().declaration;
    let filled = |reading: serde_json::Value| {
        let record = json!({
            "format": "tapside-record", "version": 2, "places": [{ "id": "p" }],
            "ro": { "filter-drop": "0.2 bar", "filter-drop-temperature": "20 °C" },
            "events": [{ "id": "e", "kind": "reading", "at": "2026-11-12T07:00+01:00", "place": "p", "fields": reading }],
        });
        let record = Record::open(&record.to_string()).unwrap();
        let filled = record.fill(limit, 0, None);
        let text =
            |id: &str| filled.entries.get(id).map(|held| held.json(&limit.inputs[limit.input(id).unwrap()]));
        ["filter-drop", "filter-drop-temperature"].map(|id| text(id).map(|one| one["typed"].clone()))
    };
    // without a reading both stand as they were typed, and belong together
    assert_eq!(filled(json!({})), [Some(json!("0.2 bar")), Some(json!("20 °C"))]);
    assert_eq!(filled(json!({ "filter-drop": "0.3 bar" })), [Some(json!("0.3 bar")), None]);
}

/// Every life as rows: in its own record nothing is new, and another record that takes them has the same life.
#[test]
fn a_life_as_rows_is_the_same_life() {
    let (now, mut compared) = (moment("2027-06-01T00:00Z"), 0);
    for seed in 0..80 {
        let (start, events) = life(seed);
        let record = lived(&start, &events);
        let mut other = start.clone();
        // what is corrected comes first, also where it is a correction itself
        for kind in KINDS.iter().chain([&&kinds::CORRECTION; 8]) {
            let Ok(own) = events::read(&record, Some(kind), &events::write(&record, kind), now, "new") else {
                continue;
            };
            // a correction of nothing stays in the record, and is not taken from rows
            let idle = |event: &&std::rc::Rc<Event>| {
                event.kind == *kind && event.is_correction() && event.of.is_none()
            };
            let idle = record.events().filter(idle).count();
            assert_eq!((own.events.len(), own.left_out.len()), (0, idle), "life {seed}, {:?}", own.left_out);
            let mut import = events::read(&other, Some(kind), &events::write(&record, kind), now, "new")
                .expect("as it was written");
            // what nobody could read when it was typed is not written down anew
            import.events.retain(|event| record.event(&event.id).is_some());
            other.add_events(import.events).expect("as it is read here");
        }
        let is_readable = |event: &Event| {
            let kind = events.iter().find(|of| event.is_correction() && Some(&of.id) == event.of.as_ref());
            let kind = kind.map_or(event.kind, |of| of.kind);
            event.fields.entries().iter().all(|(id, held)| match (kind.field(id), held.as_ref()) {
                (Some(field), Held::One(typed)) => typed.value(field).is_ok_and(|value| value.is_some()),
                _ => false,
            })
        };
        let is_readable =
            |event: &Event| is_readable(event) && (event.of.is_some() || !event.is_correction());
        if events.iter().all(is_readable) && record.events().all(|event| other.event(&event.id).is_some()) {
            for at in ASKED.map(moment) {
                assert_eq!(told(&record, at), told(&other, at), "life {seed}, as of {at}");
            }
            compared += 1;
        }
    }
    assert!(compared > 5, "only {compared} lives");
}

#[test]
fn a_record_is_told_from_others_by_its_id() {
    let text = r#"{ "format": "tapside-record", "version": 2, "ro": {}, "places": [], "events": [] }"#;
    let older = Record::open(text).expect("a record without an id");
    assert_eq!(older.id(), None);
    assert!(!older.is_same_record(&older.clone()), "of two without an id nobody knows");
    let mut begun = older.clone();
    begun.identify("drawn-1");
    begun.identify("drawn-2");
    let again = Record::open(&begun.text()).expect("as it was written");
    assert_eq!(again.id().map(|id| &**id), Some("drawn-1"));
    assert!(again.is_same_record(&begun) && !again.is_same_record(&older));
    assert_eq!(begun.parts_since(Some(&older)).keys().collect::<Vec<_>>(), ["fields"]);
    assert_eq!(Record::from_parts(&begun.parts_since(None)).expect("as it was written"), begun);
    assert_eq!(older.merge(&begun, None).expect("both can be changed").record.id(), begun.id());
    // what is no id survives, and no other stands beside it
    let odd = text.replace("\"ro\"", "\"id\": 7, \"ro\"");
    let mut odd = Record::open(&odd).expect("a record");
    odd.identify("drawn-3");
    assert_eq!((odd.id(), &odd.document()["id"]), (None, &json!(7)));
    // a newer program's is not given one
    let mut newer = Record::open(&text.replace("\"version\": 2", "\"version\": 3")).expect("to be read");
    newer.identify("drawn-4");
    assert_eq!(newer.id(), None);
}

#[test]
fn what_is_dated_by_a_day_alone_is_cleared_on_a_later_day_alone() {
    let disinfected = |at: &str| json!({ "id": "d", "kind": "chemical-disinfection", "at": at, "fields": { "agent": "peracetic-acid" } });
    let tested = |at: &str| {
        json!({ "id": "t", "kind": "residual-test", "at": at, "fields": {
            "residual-test": "own-test", "residual-limit": "1 mg/L", "residual-now": "0.5 mg/L", "residual-later": "<1 mg/L",
            "pause": "10 min", "needed-pause": "10 min" } })
    };
    let inside = |set: &str, cleared: &str| locks(json!([disinfected(set), tested(cleared)]));
    // an evening in America is the next day in Greenwich, and still before that day there
    assert_eq!(inside("2026-11-12", "2026-11-11T20:00-05:00"), ["disinfectant-inside"]);
    assert_eq!(
        inside("2026-11-12", "2026-11-12T06:00-05:00"),
        ["disinfectant-inside"],
        "nobody knows the hour"
    );
    assert_eq!(inside("2026-11-12T06:00+13:00", "2026-11-12"), ["disinfectant-inside"]);
    assert_eq!(inside("2026-11-12", "2026-11-13T06:00-05:00"), [""; 0]);
    assert_eq!(inside("2026-11-12T20:00+01:00", "2026-11-13"), [""; 0]);
    let stored =
        json!({ "id": "s", "kind": "stored", "at": "2026-11-12", "fields": { "preservative": "no" } });
    let returned = |at: &str| json!({ "id": "r", "kind": "returned", "at": at });
    assert_eq!(locks(json!([stored, returned("2026-11-11T20:00-05:00")])), ["stored"]);
    assert_eq!(locks(json!([stored, returned("2026-11-13")])), [""; 0]);
}

#[test]
fn a_correction_of_a_correction_is_named_where_it_changes_nothing() {
    let event = |id: &str, kind: &str, of: &str, more: Json| {
        let mut event = json!({ "id": id, "kind": kind, "at": at(8), "of": of });
        event.as_object_mut().expect("an object").extend(more.as_object().expect("an object").clone());
        event
    };
    let read = event("r", "reading", "", json!({ "fields": { "product-flow": "1 L/min" } }));
    let first = event("c1", "correction", "r", json!({ "fields": { "product-flow": "2 L/min" } }));
    let second = event("c2", "correction", "c1", json!({ "fields": { "product-flow": "3 L/min" } }));
    let said = faults(json!([read, first, second]));
    assert!(
        said.len() == 1 && said[0].contains("“c2” corrects the correction “c1”, which changes nothing"),
        "{said:?}"
    );
    let gone = event("c3", "correction", "c1", json!({ "becomes": { "withdrawn": true } }));
    assert_eq!(faults(json!([read, first, gone])), [""; 0]);
}
