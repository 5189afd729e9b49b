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
