//! Nothing is wider than the screen: what does not fit wraps, or scrolls within itself.

use crate::page::Page;
use crate::visit::{Screen, visit};
use calc::program::catalogue::SHEETS;

/// Every view, empty and with much in it.
async fn fits(page: &Page, width: u64) {
    let fits = async |view: &str| {
        let content = page.width_of_content().await;
        assert!(content <= width, "{view} is {content} wide on a screen of {width}");
    };
    fits("the start").await;
    for entry in SHEETS {
        let sheet = entry.declaration.id;
        page.opens_sheet(sheet).await;
        page.opens_arithmetic().await;
        fits(sheet).await;
    }
    page.opens_sheet("carbon-contact-time").await;
    page.types("bed-volume", &"W".repeat(60)).await;
    page.fills(&[("flow", "1,234")]).await;
    page.waits_until("error-summary", true).await;
    fits("a sheet with errors").await;
    page.opens_room("room-c").await;
    page.gets("demand", "1.30 L/min").await;
    page.opens_arithmetic().await;
    page.waits_until("step-0", true).await;
    fits("a filled plan with its arithmetic").await;
    for section in ["place", "room-check", "records", "sheets"] {
        page.opens(section).await;
        fits(section).await;
    }
}

/// The bar at the foot of a phone's screen lies over the page, but never over what has the focus.
async fn sees_what_has_the_focus(page: &Page) {
    page.opens_sheet("carbon-contact-time").await;
    for _ in 0..12 {
        page.tabs().await;
        let covered = "const focused = document.activeElement, box = focused.getBoundingClientRect();
            const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
            return focused.contains(top) ? '' : focused.outerHTML";
        assert_eq!(page.asks(covered).await, "", "something lies over what has the focus");
    }
}

#[test]
fn on_a_phone() {
    visit(Screen::Phone, async |page| {
        fits(page, 360).await;
        sees_what_has_the_focus(page).await;
    });
}

#[test]
fn on_a_tablet() {
    visit(Screen::Tablet, async |page| fits(page, 820).await);
}

#[test]
fn on_a_desk() {
    visit(Screen::Desk, async |page| fits(page, 1400).await);
}
