//! A sheet and the open record: filled from it, kept in it, and handing a number to another sheet.

use crate::page::Page;
use crate::visit::{Screen, visit};
use std::fs;
use std::path::PathBuf;

/// An invented RO with a reading; 0.86 of 0.86 + 1.40 L/min are 38.1 %.
const RECORD: &str = r#"{ "format": "tapside-record", "version": 2,
    "ro": { "ro-name": "RO 2", "highest-recovery": "50 %" },
    "places": [{ "id": "place-1", "place-name": "Ward 6" }],
    "events": [{ "id": "e1", "kind": "reading", "at": "2026-11-12T07:00+01:00", "place": "place-1",
        "fields": { "product-flow": "0.86 L/min", "reject-flow": "1.4 L/min" } }] }"#;

async fn opens_the_record(page: &Page, name: &str) {
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&file, RECORD).expect("a file for the test");
    page.opens_file("open-record", &file).await;
    page.finds_itself_in("view").await;
}

#[test]
fn a_sheet_is_filled_from_the_record_by_one_tap() {
    visit(Screen::Phone, async |page| {
        opens_the_record(page, "fill.json").await;
        page.opens_sheet("recovery").await;
        page.sees("fill-from-record", "Fill from the record (3 entries)").await;
        page.clicks("fill-from-record").await;
        page.gets("recovery", "38.1 %").await;
        page.waits_until("fill-from-record", false).await;
        page.sees("product-flow-origin", "From the record: Reading, 12 Nov 2026, 07:00, Ward 6").await;
        page.sees("highest-recovery-origin", "From the record: the RO's own entries").await;
        // it is still there after a reload
        page.sees("kept-state", "Saved on this device at").await;
        page.opens_again().await;
        page.opens_sheet("recovery").await;
        page.sees("product-flow-origin", "From the record: Reading, 12 Nov 2026, 07:00, Ward 6").await;
        // something else is typed: nobody says any more where it comes from, and the rest stays
        page.types("product-flow", "0.6").await;
        page.waits_until("product-flow-origin", false).await;
        // 0.6 / 2.0
        page.gets("recovery", "30.0 %").await;
        assert!(page.is_there("reject-flow-origin").await);
        // what was typed is joined by nothing of another day
        page.types("reject-flow", "").await;
        page.waits_until("reject-flow-origin", false).await;
        assert!(!page.is_there("fill-from-record").await);
    });
    visit(Screen::Desk, async |page| {
        opens_the_record(page, "undo.json").await;
        page.opens_sheet("recovery").await;
        page.clicks("fill-from-record").await;
        page.gets("recovery", "38.1 %").await;
        page.clicks("undo").await;
        page.sees("fill-from-record", "(3 entries)").await;
        assert_eq!(page.stands_in("product-flow").await, "");
        // the plan is filled as it is
        page.opens_sheet("plan").await;
        assert!(!page.is_there("fill-from-record").await && !page.is_there("keep-sheet").await);
    });
}

#[test]
fn a_sheet_is_kept_with_its_date_and_used_as_a_start() {
    visit(Screen::Phone, async |page| {
        opens_the_record(page, "keep.json").await;
        page.opens_sheet("recovery").await;
        assert!(!page.is_there("keep-sheet").await, "nothing is answered yet");
        page.clicks("fill-from-record").await;
        page.gets("recovery", "38.1 %").await;
        // the interval comes after the paint and moves what stands below it
        page.waits_until_first(".interval").await;
        page.clicks("keep-sheet").await;
        page.sees("last-kept", "Last kept").await;
        // 1.1 / 2.5 after it was kept
        page.types("product-flow", "1.1").await;
        page.gets("recovery", "44.0 %").await;
        page.opens("records").await;
        page.waits_until("kept-sheets", true).await;
        let kept = page.asks("return document.querySelector('.kept-sheet').innerText").await;
        let kept = kept.as_str().unwrap_or_default();
        assert!(
            kept.contains("Recovery")
                && kept.contains("Met. Recovery")
                && kept.contains("0.381, needs at most 0.5"),
            "{kept}"
        );
        let all = page.asks("return document.querySelector('.kept-sheet').textContent").await;
        let all = all.as_str().unwrap_or_default();
        assert!(all.contains("0.86 L/min") && all.contains("12 Nov 2026"), "{all}");
        page.clicks_on(".use-kept").await;
        page.gets("recovery", "38.1 %").await;
        page.sees("product-flow-origin", "12 Nov 2026").await;
        page.clicks("more").await;
        page.clicks("undo").await;
        page.gets("recovery", "44.0 %").await;
        page.opens("records").await;
        let still = page.asks("return document.querySelectorAll('.kept-sheet').length").await;
        assert_eq!(still, 1);
    });
}

#[test]
fn a_number_is_handed_to_the_sheet_that_asks_for_it() {
    visit(Screen::Phone, async |page| {
        page.opens_sheet("carbon-contact-time").await;
        page.types("flow", "2").await;
        // the empty field says where it is worked out, and the way leads there
        page.clicks_on(".worked-out a[href='#/sheet/carbon-vessel']").await;
        page.waits_until("vessel-diameter", true).await;
        page.clicks("carbon-kind-granular").await;
        page.fills(&[("vessel-diameter", "20 cm"), ("bed-depth", "50 cm")]).await;
        // 50 cm · π/4 · (20 cm)²
        page.gets("bed-volume", "15.7 L").await;
        page.waits_until_first(".interval").await;
        page.unfolds("hand-over").await;
        page.clicks("hand-carbon-contact-time-bed-volume").await;
        // 15.708 L / 2 L/min
        page.gets("contact-time", "7.85 min").await;
        page.sees("bed-volume-origin", "From the calculation: Carbon vessel size").await;
        page.finds_itself_in("bed-volume").await;
        // the second carbon is still empty and keeps its way
        let ways = "return document.querySelectorAll('.worked-out a[href=\"#/sheet/carbon-vessel\"]').length";
        assert_eq!(page.asks(ways).await, 1);
        page.clicks("more").await;
        page.clicks("undo").await;
        page.waits_until("bed-volume-origin", false).await;
        assert_eq!(page.stands_in("bed-volume").await, "");
        assert_eq!(page.stands_in("flow").await, "2");
    });
}
