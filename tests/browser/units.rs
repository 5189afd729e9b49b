//! Answers in SI or in US practice; what was typed keeps its unit.

use crate::visit::{Screen, visit};

#[test]
fn answers_follow_and_what_was_typed_stays() {
    visit(Screen::Desk, async |page| {
        page.opens_sheet("recovery").await;
        page.fills(&[("product-flow", "1.5"), ("reject-flow", "1.5")]).await;
        page.gets("feed-flow", "3.00 L/min").await;

        page.clicks("units-us").await;
        // 3.00 / 3.785 411 784
        page.gets("feed-flow", "0.793 gpm").await;
        for field in ["product-flow", "reject-flow"] {
            assert_eq!(page.stands_in(field).await, "1.5");
            assert_eq!(page.stands_in(&format!("{field}-unit")).await, "L/min");
        }
        // an empty field offers the other unit, and what is typed next is meant in it
        page.opens_sheet("carbon-contact-time").await;
        assert_eq!(page.stands_in("bed-volume-unit").await, "ft³");
        page.fills(&[("bed-volume", "0.35"), ("flow", "0.789")]).await;
        // 0.35 · 7.4805 / 0.789
        page.gets("contact-time", "3.32 min").await;

        page.clicks("units-si").await;
        assert_eq!(page.stands_in("bed-volume-unit").await, "ft³");
        page.gets("contact-time", "3.32 min").await;
        page.opens_sheet("recovery").await;
        page.gets("feed-flow", "3.00 L/min").await;

        // the same digits in another unit are another number
        page.opens_sheet("carbon-contact-time").await;
        page.clicks("clear").await;
        page.fills(&[("bed-volume", "28.3"), ("flow", "1.5")]).await;
        // 28.3 / 1.5
        page.gets("contact-time", "18.9 min").await;
        page.chooses("flow-unit", "gpm").await;
        page.gets("contact-time", "4.98 min").await;
        assert_eq!(page.stands_in("flow").await, "1.5");
    });
}
