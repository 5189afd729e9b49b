//! What acts on any sheet: a number drawn over an entry, solving backwards, the shares of the uncertainty.

use crate::page::{Key, Page};
use crate::visit::{Screen, visit};

/// 20 L at 4 L/min: 5 min, where 10 are asked.
async fn fills_carbon(page: &Page) {
    page.opens_sheet("carbon-contact-time").await;
    page.fills(&[("bed-volume", "20"), ("flow", "4")]).await;
    page.gets("contact-time", "5.00 min").await;
}

#[test]
fn a_number_is_drawn_over_an_entry() {
    visit(Screen::Desk, async |page| {
        fills_carbon(page).await;
        page.unfolds("sweep").await;
        page.takes("sweep-number", "total-contact-time").await;
        page.takes("sweep-along", "flow").await;
        // 20 L / 10 min
        let crossing = "crosses the limit (at least 10 min) at about 2.00 L/min.";
        page.sees("sweep-chart-summary", crossing).await;
        // the band follows
        page.waits_until_first(".chart-interval").await;

        // by keys: the ends of the usual range, and the band around the value
        page.goes_to("sweep-chart").await;
        page.presses(Key::Home).await;
        let first = page.reads("sweep-chart-reading").await;
        assert!(first.contains("L/min: ") && first.contains(" ± ") && first.ends_with(" min."), "{first}");
        page.presses(Key::Right).await;
        let next = page.reads("sweep-chart-reading").await;
        assert!(next != first && next.ends_with(" min."), "{next}");

        // the same numbers as a table: as many rows as points, and the head names the units
        page.unfolds("sweep-chart-table").await;
        let rows = "return document.querySelectorAll('#sweep-chart-table tbody tr').length";
        page.waits_for("a row for each point", async || page.asks(rows).await, |rows| *rows == 200).await;

        // another number typed: another curve. 40 L / 10 min
        page.types("bed-volume", "40").await;
        page.sees("sweep-chart-summary", "at about 4.00 L/min.").await;

        // what cannot be taken is not drawn with
        page.types("flow", "1,234").await;
        page.sees("sweep", "Fix the entries above first").await;
        assert!(!page.is_there("sweep-chart").await);
    });
}

#[test]
fn every_value_that_gives_the_wished_number_is_found() {
    visit(Screen::Phone, async |page| {
        fills_carbon(page).await;
        page.unfolds("backwards").await;
        page.takes("backwards-number", "contact-time").await;
        page.takes("backwards-freed", "bed-volume").await;
        page.sees("backwards-found", "Enter the result you need").await;
        page.types("backwards-wish", "10").await;
        // 10 min · 4 L/min
        page.sees("backwards-found", "40.00 L").await;
        page.sees("backwards-found", "Now it is 20.00 L.").await;
        // the wish has a unit of its own
        page.types("backwards-wish", "300 s").await;
        page.sees("backwards-found", "20.00 L").await;
        page.types("backwards-wish", "1,234").await;
        page.sees("backwards-found", "could mean two numbers").await;
        page.types("backwards-wish", "90000").await;
        page.sees("backwards-found", "gives this number").await;
        // a check is just met: 20 L / 10 min
        page.takes("backwards-number", "check-contact-time").await;
        page.takes("backwards-freed", "flow").await;
        page.sees("backwards-found", "2.000 L/min").await;
    });
}

#[test]
fn what_to_measure_better_is_said() {
    visit(Screen::Desk, async |page| {
        fills_carbon(page).await;
        page.unfolds("shares").await;
        page.takes("shares-number", "contact-time").await;
        // 5 % of the volume and 3 % of the flow as half-widths: u = √(5² + 3²)/√3 %, twice that of 5 min is 0.337 min,
        // and 25 of 34 parts of the variance are the volume's
        page.sees("shares-found", "5.00 ± 0.34 min (95 %)").await;
        page.sees("shares-found", "74 %").await;
        page.sees("shares-found", "26 %").await;
        page.sees("shares-found", "measure this more accurately first").await;
    });
}

#[test]
fn the_same_stands_beside_the_numbers_of_a_stage_in_the_room_check() {
    visit(Screen::Phone, async |page| {
        page.clicks("room-c").await;
        page.finds_itself_in("view").await;
        // nothing of it is there, and nothing computed, until it is opened
        assert!(!page.is_there("tap-backwards").await);
        page.unfolds("fold-tap").await;
        page.unfolds("tap-tools").await;
        page.waits_until("tap-backwards", true).await;
        assert!(!page.is_there("membrane-backwards").await, "of another stage");
        assert!(!page.is_there("tap-backwards-number").await);

        // August, by hand: feed in flush 1.5 · 0.9022/0.6302 + 3.0 = 5.147 L/min; 2.1 − 0.55 · 0.5147² − 0.20 · (5.147/3)^1.75
        // − 1.0 leaves 0.440 bar, over 5.147/3 and the viscosities 0.954/1.235 of 22 °C and 12 °C: 0.33 bar as read
        page.unfolds("tap-backwards").await;
        page.takes("tap-backwards-number", "check-inlet-pressure-flush").await;
        page.takes("tap-backwards-freed", "filter-drop").await;
        page.sees("tap-backwards-found", " 0.33").await;
        page.sees("tap-backwards-found", "Now it is 0.1500 bar.").await;

        page.unfolds("tap-sweep").await;
        page.takes("tap-sweep-number", "check-inlet-pressure-flush").await;
        page.takes("tap-sweep-along", "filter-drop").await;
        page.sees("tap-sweep-chart-summary", "crosses the limit (at least 1 bar) at about 0.33").await;

        page.unfolds("tap-shares").await;
        page.takes("tap-shares-number", "check-inlet-pressure-flush").await;
        page.sees("tap-shares-found", "1.24 ±").await;
        page.sees("tap-shares-found", "measure this more accurately first:").await;
    });
}

#[test]
fn a_number_worked_out_elsewhere_is_taken_over_into_the_place() {
    visit(Screen::Phone, async |page| {
        page.opens("place").await;
        // the place says where the number can be worked out
        page.waits_until_first("a[href='#/sheet/hardness']").await;
        page.opens_sheet("hardness").await;
        page.fills(&[("drops", "7"), ("hardness-per-drop", "1 gpg")]).await;
        // 7 · 17.118 mg/L
        page.gets("hardness-by-drops", "120 mg/L").await;
        // the interval comes after the paint and moves what stands below it
        page.waits_until_first(".interval").await;
        page.clicks("take-hardness").await;
        page.opens("place").await;
        let stands = async || page.stands_in("hardness").await;
        page.waits_for("the number of the sheet", stands, |text| text.starts_with("119.8")).await;
        assert!(!page.says_invalid("hardness").await);
    });
}
