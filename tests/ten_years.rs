//! The ten years that an example makes: opened without a fault, and true on their last evening is what the life was meant to be.

#[path = "../examples/ten_years/life.rs"]
mod life;

use calc::documents::record::{Record, kinds};
use calc::engine::calendar::Moment;
use life::Meant;
use std::sync::LazyLock;

static TEXT: LazyLock<(String, Meant)> = LazyLock::new(|| {
    let (record, meant) = life::ten_years().expect("a life");
    (record.text(), meant)
});

#[test]
fn another_run_gives_the_same() {
    assert!(life::ten_years().expect("a life").0.text() == TEXT.0);
}

/// One opening for all of it, since it is long.
#[test]
fn opened_they_are_what_was_meant() {
    let record = Record::open(&TEXT.0).expect("a record");
    they_open_without_a_fault_and_are_written_as_they_were(&record);
    what_is_true_on_the_last_evening_is_what_was_meant(&record);
    what_was_corrected_counts_and_the_original_is_there(&record);
    product_flow_follows_temperature_and_age(&record);
    merged_with_a_copy_they_are_the_same(&record);
}

fn they_open_without_a_fault_and_are_written_as_they_were(record: &Record) {
    assert_eq!(record.faults(), []);
    assert_eq!(record.text(), TEXT.0);
    let readings: Vec<_> = record.events().filter(|event| event.kind == &kinds::READING).collect();
    let first_typed = readings.iter().filter(|reading| !TEXT.1.withdrawn.contains(&reading.id.to_string()));
    assert_eq!(first_typed.count(), life::DAYS as usize);
    // each of the fifteen columns is filled and can be read
    for reading in &readings {
        for field in kinds::READING.fields {
            assert!(reading.number(field.id).is_some(), "{} has no {}", reading.id, field.id);
        }
    }
}

fn what_is_true_on_the_last_evening_is_what_was_meant(record: &Record) {
    let meant = &TEXT.1;
    let now = record.now(Moment::read(&meant.at).expect("a moment"), Some(&meant.place));
    assert_eq!(now.place.as_deref(), Some(&*meant.place));
    let latest = now.latest.iter().find(|event| event.kind == &kinds::READING).expect("a reading");
    assert_eq!(*latest.id, *meant.reading);
    assert_eq!(now.anchor.map(|anchor| anchor.reading.id.to_string()), Some(meant.anchor.clone()));
    assert_eq!(now.baseline.map(|one| one.reading.id.to_string()), Some(meant.baseline.clone()));
    let parts: Vec<_> = now
        .parts
        .iter()
        .map(|part| {
            let litres = (part.volume.expect("the meter was read") * 1000.0).round();
            let changed = part.changed.id.to_string();
            (part.part.id.to_owned(), changed, part.days, litres, part.sessions.expect("they were counted"))
        })
        .collect();
    let mut expected = meant.parts.clone();
    let rank = |id: &str| kinds::Part::NAMED.iter().position(|part| part.id == id);
    expected.sort_by_key(|(part, ..)| rank(part));
    assert_eq!(parts, expected);
    let locks: Vec<_> =
        now.locks.iter().map(|lock| (lock.reason.id().to_owned(), lock.since.id.to_string())).collect();
    assert_eq!(locks, meant.locks);
    let pending: Vec<_> = now.pending.iter().map(|sample| sample.id.to_string()).collect();
    assert_eq!(pending, meant.pending);
    let mut due: Vec<_> = now
        .due
        .iter()
        .map(|due| (due.last.id.to_string(), due.by.expect("each names its day").to_string()))
        .collect();
    let mut expected = meant.due.clone();
    due.sort();
    expected.sort();
    assert_eq!(due, expected);
    assert_eq!(now.limits.map(|(_, by)| by.to_string()), Some(meant.limits.clone()));
}

fn what_was_corrected_counts_and_the_original_is_there(record: &Record) {
    let meant = &TEXT.1;
    assert!(meant.corrected.len() > 30 && meant.withdrawn.len() == 5, "{meant:?}");
    let flow = |litres: f64| litres * 1e-3 / 60.0;
    for (id, litres) in &meant.corrected {
        let counts = record.as_corrected(id).and_then(|event| event.number("product-flow")).expect("a flow");
        assert!((counts / flow(*litres) - 1.0).abs() < 1e-12, "{id}: {counts}");
        let typed = record.event(id).and_then(|event| event.number("product-flow")).expect("a flow");
        assert!((typed / flow(*litres) - 10.0).abs() < 0.1, "{id} as it was typed: {typed}");
    }
    for id in &meant.withdrawn {
        assert!(record.as_corrected(id).is_none() && record.event(id).is_some(), "{id}");
    }
}

/// The trend over the years shows what the life was given.
fn product_flow_follows_temperature_and_age(record: &Record) {
    let readings = record.in_force(&[&kinds::READING]);
    let mean = |from: usize, id: &str| {
        let some = &readings[from..from + 30];
        some.iter().filter_map(|reading| reading.number(id)).sum::<f64>() / some.len() as f64
    };
    // February and August of the first year, and February three years later on the same membrane
    let (cold, warm, old) = (30, 210, 30 + 3 * 365);
    assert!(mean(warm, "tap-temperature") - mean(cold, "tap-temperature") > 5.0);
    assert!(mean(warm, "product-flow") / mean(cold, "product-flow") > 1.15);
    assert!(mean(old, "product-flow") / mean(cold, "product-flow") < 0.95);
    assert!(mean(old, "product-conductivity") > mean(cold, "product-conductivity"));
}

fn merged_with_a_copy_they_are_the_same(record: &Record) {
    let copy = Record::open(&TEXT.0).expect("a record");
    let merged = record.merge(&copy, None).expect("both of this version");
    assert_eq!(merged.conflicts, []);
    assert_eq!(merged.record.faults(), []);
    assert!(merged.record.text() == TEXT.0);
}
