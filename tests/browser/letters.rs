//! Files whose letters or units the page does not know for sure.

use crate::visit::{Screen, visit};
use std::fs;
use std::path::PathBuf;

fn file(name: &str, bytes: &[u8]) -> PathBuf {
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&file, bytes).expect("a file for the test");
    file
}

#[test]
fn a_file_that_is_not_utf_8_is_asked_about() {
    let record = b"{\"format\": \"tapside-record\", \"version\": 1, \"ro\": {\"ro-name\": \"M\xFCller\"},
        \"places\": [{\"tap-temperature\": {\"typed\": \"8 \xB0C\", \"value\": 8, \"unit\": \"\xB0C\"}}], \"readings\": []}";
    let record = file("latin-1.json", record);
    let rows = file("latin-1.csv", b"Date;Temperature (\xB0C)\n2026-11-12;8,5\n");
    visit(Screen::Desk, async |page| {
        page.opens_file("open-record", &record).await;
        page.sees("open-record-letters", "Müller").await;
        page.clicks("open-record-letters-no").await;
        page.waits_until("open-record-letters", false).await;
        assert!(page.is_there("room-a").await, "another view was opened");
        page.opens_file("open-record", &record).await;
        page.waits_until("open-record-letters", true).await;
        page.clicks("open-record-letters-yes").await;
        page.finds_itself_in("view").await;
        page.opens("place").await;
        assert_eq!(page.stands_in("ro-name").await, "Müller");
        assert_eq!(page.stands_in("tap-temperature").await, "8 °C");

        page.opens_sheet("heat-dose").await;
        page.unfolds("log-rows").await;
        page.opens_file("log-file", &rows).await;
        page.sees("log-letters", "Temperature (°C)").await;
        page.clicks("log-letters-yes").await;
        page.sees("log-found", "°C").await;
    });
}

#[test]
fn a_unit_that_nobody_knows_is_no_other_unit() {
    let record = br#"{"format": "tapside-record", "version": 1, "ro": {}, "readings": [], "places":
        [{"bed-volume": {"typed": "28.3", "value": 28.3, "unit": "firkin"}}]}"#;
    let record = file("unknown-unit.json", record);
    visit(Screen::Desk, async |page| {
        page.opens_file("open-record", &record).await;
        page.finds_itself_in("view").await;
        page.opens("place").await;
        assert_eq!(page.stands_in("bed-volume").await, "28.3 firkin");
        page.sees("bed-volume-error", "firkin").await;
        assert!(page.says_invalid("bed-volume").await);
    });
}
