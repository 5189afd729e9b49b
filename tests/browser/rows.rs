//! Rows of a table from a spreadsheet or a file.

use crate::page::Page;
use crate::visit::{Screen, visit};
use std::path::PathBuf;

/// A file of its own for each test.
fn file(name: &str, text: &str) -> PathBuf {
    let path = std::env::temp_dir().join(format!("{}-{name}", std::process::id()));
    std::fs::write(&path, text).expect("a file");
    path
}

/// Rows as they come from a spreadsheet.
pub async fn pastes(page: &Page, field: &str, text: &str) {
    page.unfolds(&format!("{field}-rows")).await;
    page.asks_with(
        "const area = document.getElementById(arguments[0]); area.value = arguments[1]; \
         area.dispatchEvent(new Event('input', {bubbles: true}))",
        vec![format!("{field}-text").into(), text.into()],
    )
    .await;
}

#[test]
fn a_report_is_seen_before_it_is_taken_over() {
    visit(Screen::Phone, async |page| {
        page.opens_sheet("chemical-limits").await;
        let report =
            "Analyte\tResult (µg/L)\tMethod\nAluminium\t8\tICP\nLead\t<1\tICP\nKryptonite\t1\t\nZinc\tND\t\n";
        pastes(page, "product-report", report).await;
        page.sees("product-report-found", "3 rows were read: Substance (analyte); Result in µg/L.").await;
        page.sees("product-report-found", "Lines left out: 1.").await;
        page.sees("product-report-found", "Line 4, Substance (analyte): “Kryptonite” is no value").await;
        page.sees("product-report-found", "Line 5, Result: ").await;
        page.clicks("product-report-take").await;
        assert_eq!(page.stands_in("product-report-1-result").await, "<1");
        // what cannot be read stays, to be mended where it stands
        assert_eq!(page.stands_in("product-report-2-result").await, "ND");
        // and hides no other: the limit for aluminium is 0.01 mg/L
        page.finds_check("iso-23500-3-2019-aluminium", "met").await;
        assert!(page.says_invalid("product-report-2-result").await, "what is wrong is said at once");
        page.complains_of_nothing("a report").await;
    });
}

#[test]
fn a_log_with_clock_times_across_midnight_comes_from_a_file() {
    visit(Screen::Desk, async |page| {
        page.opens_sheet("heat-dose").await;
        page.unfolds("log-rows").await;
        let mut log = String::from("Time;Temperature (°C)\r\n");
        for minute in 0..=10 {
            let clock = (23 * 60 + 55 + minute) % (24 * 60);
            log += &format!("{:02}:{:02}:00;80,0\r\n", clock / 60, clock % 60);
        }
        page.opens_file("log-file", &file("log.csv", &log)).await;
        page.sees("log-found", "11 rows were read").await;
        page.clicks("log-take").await;
        // ten minutes at 80 °C: 600 s by definition
        page.gets("dose", "600").await;
        // a unit that nobody knows refuses the whole file, and nothing changes
        page.opens_file("log-file", &file("other.csv", "time,temperature (gas mark)\n0,4\n")).await;
        page.sees("log-found", "“gas mark” over").await;
        page.gets("dose", "600").await;
    });
}
