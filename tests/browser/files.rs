//! Record files: a good one fills the plan, any other is refused with its reason and changes nothing.

use crate::visit::{Screen, visit};
use std::fs;
use std::path::PathBuf;

const WELL: &str = include_str!("../../examples/tolby-marsh.json");

/// A file of this name that holds this text.
fn file(name: &str, text: &str) -> PathBuf {
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&file, text).expect("a file for the test");
    file
}

#[test]
fn a_record_fills_the_plan_and_nothing_else_changes_it() {
    let (half, _) = WELL.split_at(WELL.len() / 2);
    let newer = WELL.replacen("\"version\": 2", "\"version\": 99", 1);
    let damaged = WELL.replacen("\"places\": [", "\"places\": 7, \"elsewhere\": [", 1);
    let refused = [
        (file("letter.json", "Dear all, the filter was changed."), "this file is no record"),
        (file("other.json", r#"{"format": "recipe"}"#), "but no record"),
        (file("half.json", half), "ends too early"),
        (file("empty.json", ""), "this file is empty"),
        (
            file("newer.json", &newer),
            "a newer version of this program wrote this record (format 99; this version reads up to 2)",
        ),
        (file("damaged.json", &damaged), "this record is damaged"),
    ];
    visit(Screen::Desk, async |page| {
        page.opens_room("room-a").await;
        page.types("dialysate-flow", "501").await;
        page.clicks("start").await;
        for (file, reason) in &refused {
            page.opens_file("open-record", file).await;
            let said = page.waits_for(
                reason,
                async || page.reads("open-record-error").await,
                |said| said.to_lowercase().contains(reason),
            );
            let said = said.await;
            assert!(said.contains("Nothing on the page has changed."), "{said}");
            assert!(page.is_there("room-a").await, "another view was opened");
        }
        page.opens_sheet("plan").await;
        page.gets("capacity-coldest", "0.614 L/min").await;
        assert_eq!(page.stands_in("dialysate-flow").await, "501");
        // a good one goes on working, and can be taken back
        page.clicks("start").await;
        page.opens_file("open-record", &file("after.json", WELL)).await;
        page.finds_itself_in("view").await;
        page.opens_sheet("plan").await;
        page.gets("capacity-coldest", "1.18 L/min").await;
        assert_eq!(page.stands_in("filter-drop").await, "0.15");
        assert_eq!(page.stands_in("filter-drop-unit").await, "bar");
        page.clicks("undo").await;
        page.gets("capacity-coldest", "0.614 L/min").await;
        assert_eq!(page.stands_in("dialysate-flow").await, "501");
    });
}

#[test]
fn what_is_wrong_in_an_opened_record_is_said_and_kept() {
    let record = r#"{"format": "tapside-record", "version": 2, "ro": {"ro-name": "RO 7"}, "places": [{"id": "p"}], "events": [
        {"id": "e1", "kind": "reading", "place": "p", "fields": {"product-flow": {"typed": "0.9", "value": 0.9, "unit": "L/min"}}},
        {"id": "e2", "kind": "reading", "at": "2026-11-12T07:00+01:00", "place": "elsewhere", "fields": {}}]}"#;
    let record = file("faults.json", record);
    visit(Screen::Phone, async |page| {
        page.opens_file("open-record", &record).await;
        page.sees("record-faults", "2 things in this record need a look").await;
        page.opens("records").await;
        page.sees("record-faults-list", "Event “e1” does not say when it happened").await;
        page.sees("record-faults-list", "happened at a place that is not in this record (“elsewhere”)").await;
        page.opens("place").await;
        page.sees("record-faults", "Nothing was taken out of it.").await;
        page.clicks("start").await;
        assert!(!page.is_there("record-faults").await);
    });
}

/// An RO with a reading, known by its id.
const OPEN: &str = r#"{"format": "tapside-record", "version": 2, "id": "0123456789abcdef", "ro": {"ro-name": "RO 2", "bed-volume": "14 L"},
    "places": [{"id": "p", "place-name": "Ward 6"}], "events": [
    {"id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "place": "p", "fields": {"product-flow": "0.86 L/min"}}]}"#;

#[test]
fn a_file_of_the_open_record_is_merged_with_it() {
    let other = OPEN.replace("\"14 L\"", "\"28 L\"").replace(
        "\"events\": [",
        "\"events\": [{\"id\": \"e2\", \"kind\": \"moved\", \"at\": \"2026-11-13\"},",
    );
    let (open, other) = (file("open.json", OPEN), file("other-state.json", &other));
    let separate = file("separate.json", &OPEN.replace("0123456789abcdef", "another"));
    visit(Screen::Phone, async |page| {
        page.opens_file("open-record", &open).await;
        page.finds_itself_in("view").await;
        page.opens("records").await;
        page.opens_file("open-record", &other).await;
        page.sees("same-record", "This file is another copy of the record that is open.").await;
        page.sees("same-record", "Merging adds 1 event.").await;
        page.sees("merge-conflicts", "14 L here, 28 L in the file").await;
        page.complains_of_nothing("a file of the open record").await;
        page.clicks("merge-record").await;
        page.sees("merged", "Undo takes it back.").await;
        page.sees("save-moved", "Moved: save 1 event").await;
        // one step
        page.clicks("more").await;
        page.clicks("undo").await;
        page.waits_until("save-moved", false).await;
        assert!(page.is_there("save-reading").await);
        // of another id it is another record, without a question
        page.opens_file("open-record", &separate).await;
        page.waits_until("bars", true).await;
        assert!(!page.is_there("same-record").await);
    });
}

#[test]
fn events_go_out_as_rows_and_come_in_after_they_were_seen() {
    let open = file("rows.json", OPEN);
    visit(Screen::Desk, async |page| {
        page.opens_file("open-record", &open).await;
        page.finds_itself_in("view").await;
        page.opens("records").await;
        page.hears_of_files().await;
        page.clicks("save-reading").await;
        let rows = page.takes_the_file().await;
        let (head, row) = rows.trim_end().split_once("\r\n").expect("a head and a row");
        assert!(
            head.contains("Product flow (L/min)") && row.starts_with("e1,2026-11-12T07:00+01:00,Ward 6,"),
            "{rows}"
        );
        // a day later, with a decimal comma; the row above in it once more, and once with another value
        let later = row.replace("e1,2026-11-12", "e2,2026-11-13").replace("0.86", "\"0,91\"");
        let wrong = row.replace("e1,2026-11-12T07:00+01:00", "e3,12.11.2026");
        let text = format!("{head}\r\n{row}\r\n{later}\r\n{wrong}\r\n");
        page.opens_file("event-rows-file", &file("readings.csv", &text)).await;
        page.sees("event-rows-found", "Reading: 1 new event.").await;
        page.sees("event-rows-found", "1 row is already in the record.").await;
        page.sees("event-rows-left-out", "Line 4, Date and time: “12.11.2026” is no moment").await;
        page.complains_of_nothing("rows of events").await;
        page.clicks("add-events").await;
        page.sees("save-reading", "Reading: save 2 events").await;
        page.sees("event-rows-found", "Nothing new to add.").await;
        let conflict = format!("{head}\r\n{}\r\n", row.replace("0.86", "0.87"));
        page.opens_file("event-rows-file", &file("conflict.csv", &conflict)).await;
        page.sees(
            "event-rows-left-out",
            "“e1” is in the record with another value: “0.86”, and “0.87” in this row",
        )
        .await;
        assert!(!page.is_there("add-events").await);
        page.clicks("undo").await;
        page.sees("save-reading", "Reading: save 1 event").await;
    });
}
