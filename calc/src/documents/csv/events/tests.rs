use super::{Import, read, write};
use crate::documents::record::kinds::{
    CHLORINE_TEST, CORRECTION, HEAT_DISINFECTION, KINDS, LABORATORY_REPORT, READING, SAMPLE_DRAWN,
};
use crate::documents::record::{Event, Held, Record, Typed, When};
use crate::engine::calendar::Moment;
use crate::engine::quantity::UnitSet;
use std::collections::BTreeSet;

const RECORD: &str = r#"{ "format": "tapside-record", "version": 2,
    "places": [{ "id": "p1", "place-name": "Ward 6" }, { "id": "p2", "place-name": "Bay" }, { "id": "p3", "place-name": "Bay" }],
    "events": [
        { "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "typed": "2026-11-12T07:02+01:00", "place": "p1", "who": "AB",
          "note": "one, \"two\"\nthree; four", "fields": { "product-flow": { "typed": "0,86", "value": 0.86, "unit": "L/min" } } },
        { "id": "e2", "kind": "reading", "at": "2026-11-13T07:00+01:00", "place": "p2", "fields": {
          "product-flow": { "typed": "0.25", "value": 0.25, "unit": "gal/min" }, "feed-conductivity": "a lot" } },
        { "id": "e3", "kind": "chlorine-test", "at": "2026-11-13", "place": "p1", "fields": { "chlorine-after-first": "<0.05 mg/L" } },
        { "id": "e4", "kind": "heat-disinfection", "at": "2026-11-13T20:00+01:00", "fields": { "log": [
            { "time": "0 s", "temperature": "80 °C" }, { "time": "60 s", "temperature": "82,5 °C" } ] } },
        { "id": "e5", "kind": "correction", "at": "2026-11-14T08:00+01:00", "of": "e1", "fields": {
            "product-flow": "0.9 L/min", "tap-temperature": "" } }
    ] }"#;

fn record() -> Record {
    Record::open(RECORD).unwrap()
}

fn now() -> Moment {
    Moment::read("2026-12-01T09:00+01:00").unwrap()
}

fn rows(text: &str) -> Import {
    read(&record(), None, text, now(), "new").unwrap()
}

fn left_out(import: &Import) -> Vec<String> {
    let said = |remark: &super::super::Remark| {
        format!("{} {}: {}", remark.line, remark.column, remark.sentence.show(UnitSet::Metric))
    };
    import.left_out.iter().map(said).collect()
}

const HEAD: &str = "Event id;Date and time;Place;Product flow (L/min);Kind of event\r\n";

#[test]
fn the_columns_of_a_kind_are_told_apart_by_their_names() {
    for kind in KINDS {
        let columns = super::columns::of(kind).unwrap();
        let names: BTreeSet<&str> = columns.fields.iter().map(|field| field.term.name).collect();
        assert_eq!(names.len(), columns.fields.len(), "{kind:?}: {names:?}");
        assert_eq!(columns.columns.len(), columns.fields.len());
    }
}

#[test]
fn what_was_written_is_in_the_record_already() {
    let record = record();
    for kind in KINDS {
        let text = write(&record, kind);
        let events = record.events().filter(|event| event.kind == *kind).count();
        match read(&record, Some(kind), &text, now(), "new") {
            Ok(import) => {
                assert_eq!(left_out(&import), [] as [&str; 0], "{text}");
                assert_eq!((import.same, import.events.len()), (events, 0), "{text}");
                assert_eq!((import.ignored.len(), import.lacking.len()), (0, 0), "{text}");
            }
            Err(why) => assert_eq!(events, 0, "{kind:?}: {why:?}"),
        }
    }
}

#[test]
fn another_record_takes_them_as_they_were() {
    let record = record();
    let mut other = Record::open(&RECORD.replace("\"events\": [", "\"unused\": [")).unwrap();
    assert_eq!(other.count(), 0);
    for kind in [&READING, &CHLORINE_TEST, &HEAT_DISINFECTION, &CORRECTION] {
        let import = read(&other, None, &write(&record, kind), now(), "new").unwrap();
        let left: Vec<String> = left_out(&import);
        // what nobody could read when it was typed is not written down anew
        assert_eq!(left.len(), usize::from(kind == &READING), "{left:?}");
        other.add_events(import.events).unwrap();
    }
    for event in record.events().filter(|event| *event.id != *"e2") {
        let there = other.event(&event.id).unwrap();
        assert_eq!(
            (there.when, &there.place, &there.of, &there.who, &there.note),
            (event.when, &event.place, &event.of, &event.who, &event.note)
        );
        if let Some(typed) = event.typed {
            assert_eq!(there.typed, Some(typed));
        }
    }
    let number = |record: &Record, id: &str, field: &str| record.as_corrected(id).unwrap().number(field);
    assert_eq!(number(&other, "e1", "product-flow"), number(&record, "e1", "product-flow"));
    assert_eq!(
        other.event("e3").unwrap().value("chlorine-after-first"),
        record.event("e3").unwrap().value("chlorine-after-first")
    );
    let Some(Held::Rows(log)) = other.event("e4").unwrap().fields.get("log").map(std::rc::Rc::as_ref) else {
        panic!()
    };
    assert_eq!((log.counted(), log.text(1, 1), log.text(1, 2)), (2, "60", "82.5"));
}

#[test]
fn an_id_with_other_values_is_a_conflict_and_changes_nothing() {
    let text = format!(
        "{HEAD}e1;2026-11-12T07:00+01:00;Ward 6;0,87;reading\r\ne3;2026-11-13;Ward 6;;reading\r\ne2;2026-11-13T07:00+01:00;p3;0.25 gpm;reading\r\n"
    );
    let import = rows(&text);
    assert_eq!((import.same, import.events.len()), (0, 0));
    let said = left_out(&import);
    assert!(
        said[0].starts_with(
            "2 Product flow: “e1” is in the record with another value: “0.86”, and “0.87” in this row"
        ),
        "{said:?}"
    );
    assert!(said[1].starts_with("3 : “e3” is in the record with another value: “chlorine-test”"), "{said:?}");
    assert!(
        said[2].starts_with("4 Place: “e2” is in the record with another value: “p2”, and “p3” in this row"),
        "{said:?}"
    );
}

/// Semicolons, decimal commas, a byte order mark, columns moved and left out, an empty line, a unit of its own.
#[test]
fn what_a_spreadsheet_writes_is_read() {
    let text = "\u{feff}Kind of event;Product flow [L/min];Date and time;Weather\r\nreading;0,86;2026-11-20 07:00+01:00;rain\r\n\r\nreading;0.25 gpm;2026-11-21;\r\n";
    let import = rows(text);
    assert_eq!(left_out(&import), [] as [&str; 0]);
    assert_eq!(import.ignored, ["Weather"]);
    assert!(import.lacking.contains(&"Event id") && !import.lacking.contains(&"Product flow"));
    let flow = |event: &Event| event.value("product-flow");
    assert_eq!(
        flow(&import.events[0]),
        READING
            .field("product-flow")
            .and_then(|field| Typed::new(field, "0.86 L/min", None).value(field).unwrap())
    );
    assert_eq!(import.events[1].when, When::read("2026-11-21").unwrap());
    let ids: Vec<&str> = import.events.iter().map(|event| &*event.id).collect();
    assert_eq!(ids, ["new-2", "new-4"]);
    assert!(import.events.iter().all(|event| event.typed == Some(now())));
    // the same rows once more are there already, also without ids
    let mut record = record();
    record.add_events(import.events).unwrap();
    let again = read(&record, None, text, now(), "newer").unwrap();
    assert_eq!((again.same, again.events.len(), again.left_out.len()), (2, 0, 0));
}

#[test]
fn each_row_that_is_left_out_says_why() {
    let text = format!(
        "{HEAD}a;2026-11-12 07:00;Ward 6;0,86;reading\r\nb;12.11.2026;Ward 6;0,86;reading\r\nc;2026-11-12;Attic;0,86;reading\r\n\
         d;2026-11-12;Bay;0,86;reading\r\ne;2026-11-12;Ward 6;1,234;reading\r\nf;2026-11-12;Ward 6;-5;reading\r\n\
         g;2026-11-12;Ward 6;0,86;moved\r\nh;2026-11-12;Ward 6;0,86;reading;7\r\ni;2026-11-12;p2;0,86;reading\r\n\
         j;2026-11-12;Ward 6;0,86;\r\nk;2026-11-12;Ward 6;12.Jan;reading\r\nl;2026-11-12;War"
    );
    let import = rows(&text);
    let said = left_out(&import);
    let expected = [
        "2 Date and time: “2026-11-12 07:00” is no moment with its offset",
        "3 Date and time: “12.11.2026” is no moment",
        "4 Place: the record has no place “Attic”",
        "5 Place: the record has no place “Bay”",
        "6 Product flow: “1,234” could mean two numbers",
        "7 Product flow: ",
        "8 : “moved” is not “reading”",
        "9 : 6 cells stand under a head of 5",
        "11 : the row does not name its kind of event at its end",
        "12 Product flow: ",
        "13 : the row is cut off: 3 cells of 5",
    ];
    assert_eq!(said.len(), expected.len(), "{said:#?}");
    for (said, expected) in said.iter().zip(expected) {
        assert!(said.starts_with(expected), "{said} / {expected}");
    }
    assert_eq!(import.events.iter().map(|event| &*event.id).collect::<Vec<_>>(), ["i"]);
}

/// A file that is cut off anywhere gives no event that was not in the whole.
#[test]
fn a_text_that_is_cut_off_gives_no_other_event() {
    let record = record();
    let empty = Record::open(&RECORD.replace("\"events\": [", "\"unused\": [")).unwrap();
    for kind in [&READING, &HEAT_DISINFECTION, &CHLORINE_TEST] {
        let text = write(&record, kind);
        for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
            let Ok(import) = read(&empty, Some(kind), &text[..end], now(), "new") else { continue };
            for event in &import.events {
                let whole = record.event(&event.id).map(|event| write_alone(event));
                // the very end of the line may be missing: a line break and no more
                assert_eq!(whole.as_deref(), Some(&*write_alone(event)), "{}", &text[..end]);
            }
        }
    }
}

fn write_alone(event: &Event) -> String {
    let mut record = Record::open(&RECORD.replace("\"events\": [", "\"unused\": [")).unwrap();
    let mut event = event.clone();
    event.typed = None;
    record.add_event(event.clone()).unwrap();
    let text = write(&record, event.kind);
    text.lines().skip(1).map(|line| line.to_owned()).collect()
}

#[test]
fn a_row_twice_counts_once_and_two_rows_of_one_id_not_at_all() {
    let text = format!(
        "{HEAD}a;2026-11-20;Ward 6;1;reading\r\na;2026-11-20;Ward 6;1;reading\r\nb;2026-11-20;Ward 6;1;reading\r\nx;2026-11-20;Ward 6;1;reading\r\nb;2026-11-20;Ward 6;2;reading\r\n;2026-11-21;Ward 6;1;reading\r\n;2026-11-21;Ward 6;1;reading\r\n"
    );
    let import = rows(&text);
    let ids: Vec<&str> = import.events.iter().map(|event| &*event.id).collect();
    // the first two lines follow each other: one event with two lines of the same
    assert_eq!(ids, ["a", "x", "new-7"]);
    let said = left_out(&import);
    assert!(
        said.len() == 2 && said.iter().all(|said| said.contains("several rows have the id “b”")),
        "{said:?}"
    );
}

#[test]
fn a_correction_comes_in_with_what_it_corrects_and_not_alone() {
    let head = "Event id,Date and time,Refers to,Withdrawn,Corrected entry,Corrected value,Kind of event\r\n";
    let text = format!(
        "{head}c1,2026-11-15,e2,,product-flow,0.3 gpm,correction\r\nc1,,,,Feed conductivity,,correction\r\nc2,2026-11-15,nothing,yes,,,correction\r\nc3,2026-11-15,e1,maybe,,,correction\r\nc4,2026-11-15,e1,yes,,,correction\r\n"
    );
    let import = rows(&text);
    let said = left_out(&import);
    assert!(
        said[0]
            .starts_with("4 Refers to: a correction refers to an event of the record, and “nothing” is none"),
        "{said:?}"
    );
    assert!(said[1].starts_with("5 Withdrawn: “maybe” is neither yes nor no"), "{said:?}");
    let mut record = record();
    record.add_events(import.events).unwrap();
    let corrected = record.as_corrected("e2").unwrap();
    assert!(corrected.number("product-flow").is_some() && !corrected.fields.has("feed-conductivity"));
    assert!(record.as_corrected("e1").is_none() && record.event("e1").is_some());
    let text = write(&record, &READING);
    assert!(text.contains("withdrawn by c4") && text.contains(",c1,reading"), "{text}");
}

#[test]
fn both_tables_of_a_report_stand_in_the_lines_of_one_event() {
    let mut record = record();
    let report = r#"{ "format": "tapside-record", "version": 2, "events": [
        { "id": "s1", "kind": "sample-drawn", "at": "2026-11-10T08:00+01:00", "fields": { "sample-label": "=1+1" } },
        { "id": "r1", "kind": "laboratory-report", "at": "2026-11-12", "of": "s1", "fields": { "laboratory": "-1 +SUM(A1)",
          "product-report": [{ "analyte": "lead", "result": "<0.001 mg/L" }, { "analyte": "zinc", "result": "0.02 mg/L" }],
          "feed-report": [{ "analyte": "calcium", "result": "80 mg/L" }] } }] }"#;
    let from = Record::open(report).unwrap();
    assert_eq!(from.faults(), []);
    for kind in [&SAMPLE_DRAWN, &LABORATORY_REPORT] {
        let text = write(&from, kind);
        assert!(text.contains("'=1+1") || text.contains("'-1 +SUM(A1)"), "{text}");
        let import = read(&record, None, &text, now(), "new").unwrap();
        assert_eq!(left_out(&import), [] as [&str; 0], "{text}");
        record.add_events(import.events).unwrap();
        let again = read(&record, None, &text, now(), "new").unwrap();
        assert_eq!((again.same, again.events.len(), again.left_out.len()), (1, 0, 0), "{text}");
    }
    assert_eq!(record.event("r1").unwrap().fields.word("laboratory"), Some("-1 +SUM(A1)"));
}

#[test]
fn ten_thousand_rows_are_read_and_written_down() {
    let mut text = HEAD.to_owned();
    for row in 0..10_000 {
        let (day, hour) = (1 + row % 28, row / 28 % 24);
        text += &format!(
            "r{row};20{:02}-{:02}-{day:02} {hour:02}:00+01:00;Ward 6;0,{:02};reading\r\n",
            10 + row / 8064,
            1 + row / 672 % 12,
            row % 90 + 10
        );
    }
    let import = rows(&text);
    assert_eq!((import.events.len(), import.left_out.len()), (10_000, 0));
    let mut record = record();
    record.add_events(import.events).unwrap();
    assert_eq!(record.count(), 10_005);
    let again = read(&record, Some(&READING), &write(&record, &READING), now(), "new").unwrap();
    assert_eq!((again.same, again.events.len(), again.left_out.len()), (10_002, 0, 0));
}

#[test]
fn where_one_of_many_ids_is_taken_none_is_written_down() {
    let mut record = record();
    let event = |id: &str| Event::new(id, &READING, When::read("2026-11-20").unwrap(), None);
    assert!(record.add_events(vec![event("x"), event("e1")]).is_err());
    assert!(record.add_events(vec![event("x"), event("x")]).is_err());
    assert_eq!(record.count(), 5);
    let chunk = |record: &Record, year: i32| {
        record.years().find(|(own, _)| *own == year).map(|(_, chunk)| chunk.clone())
    };
    let before = chunk(&record, 2026).unwrap();
    record.add_events(vec![Event::new("y", &READING, When::read("2025-11-20").unwrap(), None)]).unwrap();
    assert!(
        std::rc::Rc::ptr_eq(&before, &chunk(&record, 2026).unwrap()),
        "a year in which nothing came is another"
    );
    let field = READING.field("product-flow").unwrap();
    assert_eq!(Typed::new(field, "0.86 L/min", None).in_a_cell(None), "0.86 L/min");
}
