//! What sheets declare to be drawn: a day, a report, a log, one membrane, the forms of the temperature correction.

use crate::page::{Key, Page};
use crate::rows::pastes;
use crate::visit::{Screen, visit};

/// One number of each element of a class, as the script finds it in `one`.
async fn of_each(page: &Page, css: &str, script: &str) -> Vec<f64> {
    let look = format!("return [...document.querySelectorAll('{css}')].map(one => {script})");
    let found = page.asks(&look).await;
    found.as_array().into_iter().flatten().map(|json| json.as_f64().unwrap_or(f64::NAN)).collect()
}

async fn widths(page: &Page, css: &str) -> Vec<f64> {
    of_each(page, css, "one.getBoundingClientRect().width").await
}

async fn is_as_wide_as_the_screen(page: &Page) {
    let screen = page.asks("return document.documentElement.clientWidth").await.as_u64();
    assert_eq!(Some(page.width_of_content().await), screen, "as wide as the screen");
}

/// By hand: 20 min of set-up, 55 of running, 240 of session, 20 of rinse, 30 of turnaround; 700 min in all.
#[test]
fn the_day_is_a_bar_of_the_clock() {
    for screen in [Screen::Phone, Screen::Desk] {
        visit(screen, async |page| {
            page.opens_sheet("day-plan").await;
            let parts = [
                ("session-time", "4"),
                ("set-up-time", "20"),
                ("set-up-running-time", "55"),
                ("rinse-time", "20"),
                ("turnaround-time", "30"),
                ("day-hours", "12"),
                ("machines", "1"),
                ("sessions", "2"),
                ("carbon-sessions", "1.5"),
            ];
            page.fills(&parts).await;
            page.sees("day-clock-summary", "2 sessions, 0:00 h to 11:40 h. 0:20 h spare of 12:00 h.").await;
            let (half, full) = (widths(page, ".day .day-half").await, widths(page, ".day .day-full").await);
            assert_eq!((half.len(), full.len()), (2, 2));
            assert!((full[1] / half[1] - 240.0 / 315.0).abs() < 0.02, "{full:?} of {half:?}");
            assert_eq!(widths(page, ".day .day-note").await.len(), 1, "before the second session");
            page.fills(&[("day-from", "2026-11-12T07:00+01:00"), ("day-hours", "11")]).await;
            page.sees(
                "day-clock-summary",
                "2 sessions, 07:00 to 18:40. Over by 0:40 h: only 11:00 h available.",
            )
            .await;
            is_as_wide_as_the_screen(page).await;
        });
    }
}

#[test]
fn a_day_of_which_little_is_known_draws_what_it_knows() {
    visit(Screen::Phone, async |page| {
        page.opens_sheet("day-plan").await;
        let parts = [
            ("session-time", "4"),
            ("set-up-time", "20"),
            ("time-around-session", "75"),
            ("machines", "1"),
            ("sessions", "1"),
        ];
        page.fills(&parts).await;
        page.sees("day-clock-summary", "1 session, 0:00 h to 5:35 h").await;
        assert_eq!(widths(page, ".day .day-full").await.len(), 0, "nobody said when the session starts");
        assert_eq!(widths(page, ".day .day-half").await.len(), 1);
        page.sees("figure-day-clock", "Hours available per day").await;
    });
}

/// Limits by ISO 23500-3:2019: mercury 0.0002, aluminium 0.01, lead 0.005 mg/L; in the pharmacopoeia mercury 0.001 mg/L.
#[test]
fn a_report_is_drawn_against_two_sets_of_limits() {
    for screen in [Screen::Phone, Screen::Desk] {
        visit(screen, async |page| {
            page.opens_sheet("chemical-limits").await;
            let report = "Analyte\tResult (mg/L)\nAluminium\t0.02\nLead\t<0.01\nMercury\t0.0005\n";
            pastes(page, "product-report", report).await;
            page.clicks("product-report-take").await;
            page.clicks("limit-set-iso-23500-3-2019").await;
            page.sees("shares-of-limits-summary", "2 not met, 1 not known, 19 not tested.").await;
            page.clicks("second-limit-set-ph-eur-1167").await;
            page.sees("shares-of-limits-summary", "1 not met, 1 met, 11 not tested.").await;
            let states =
                "return [...document.querySelectorAll('.results > li')].map(line => line.dataset.state)";
            let states = page.asks(states).await;
            assert_eq!(
                states,
                serde_json::json!(["not-met", "not-met", "not-known", "not-known"]),
                "worst first"
            );
            // mercury: 250 % by the first set, 50 % by the second
            let line =
                of_each(page, ".results > li:first-child .bar-limit", "one.getBoundingClientRect().left")
                    .await;
            let middle = "one.getBoundingClientRect().left + one.getBoundingClientRect().width / 2";
            let marks = of_each(page, ".results > li:first-child .result-drawing .result-mark", middle).await;
            assert!(marks.len() == 2 && marks[0] > line[0] && marks[1] < line[0], "{marks:?} and {line:?}");
            page.sees("figure-shares-of-limits", "Fluoride").await;
            page.sees("figure-shares-of-limits", "<200 % of it").await;
            is_as_wide_as_the_screen(page).await;
        });
    }
}

/// By definition each minute at 80 °C is 60 s; between 3 and 10 min nobody read anything.
#[test]
fn a_heat_log_is_drawn_with_its_dose_and_its_gap() {
    for screen in [Screen::Phone, Screen::Desk] {
        visit(screen, async |page| {
            page.opens_sheet("heat-dose").await;
            let log = "Time (min)\tTemperature (°C)\n0\t80\n1\t80\n2\t80\n3\t80\n10\t80\n11\t80\n";
            pastes(page, "log", log).await;
            page.clicks("log-take").await;
            page.gets("dose", "240").await;
            page.sees("heat-course-1-summary", "not credited: no readings from 3.00 to 10.0 min").await;
            page.sees("figure-heat-course", "Not drawn").await;
            page.fills(&[("needed-dose", "600"), ("hold-temperature", "75")]).await;
            page.sees("heat-course-1-summary", "met (hold 75 °C) everywhere").await;
            page.sees("heat-course-2-summary", "not met (required 600 s) anywhere").await;
            assert_eq!(
                widths(page, "#heat-course-1 .chart-shade, #heat-course-2 .chart-shade").await.len(),
                2
            );
            page.goes_to("heat-course-1").await;
            for (key, said) in [(Key::End, "80.0"), (Key::Left, "80.0"), (Key::Left, "not known here")] {
                page.presses(key).await;
                page.sees("heat-course-1-reading", said).await;
            }
            page.unfolds("heat-course-2-table").await;
            page.sees("heat-course-2-table", "180").await;
            is_as_wide_as_the_screen(page).await;
        });
    }
}

/// By hand: (1 − 0.5^0.02) / 0.5 = 0.027535, and (1 − 0.05^0.02) / 0.95 = 0.061210 at 95 %.
#[test]
fn one_membrane_is_drawn_at_every_recovery() {
    visit(Screen::Phone, async |page| {
        page.opens_sheet("same-membrane").await;
        page.fills(&[("local-passage", "2"), ("feed-conductivity", "500"), ("recovery", "50")]).await;
        page.gets("product-conductivity", "13.8").await;
        page.sees("over-recovery-2-summary", "highest 30.6 µS/cm at 95.0 %").await;
        page.goes_to("over-recovery-1").await;
        page.presses(Key::End).await;
        page.sees("over-recovery-1-reading", "feed basis 93.9 %; average basis 98.1 %").await;
        let here = page
            .asks("return document.querySelector('#over-recovery-1 .chart-place text').textContent")
            .await;
        assert_eq!(here, "50\u{a0}%", "where it runs is marked");
        is_as_wide_as_the_screen(page).await;
    });
}

/// By hand, 5 °C against 25 °C: exp(380 · 0.000241165) − 1 = 9.60 %.
#[test]
fn the_forms_are_drawn_as_differences_from_the_first() {
    visit(Screen::Phone, async |page| {
        page.opens_sheet("temperature-correction").await;
        page.fills(&[("temperature", "5")]).await;
        page.goes_to("form-differences-1").await;
        for key in [Key::Home, Key::Right, Key::Right, Key::Right] {
            page.presses(key).await;
        }
        page.sees("form-differences-1-reading", "Water temperature 5.00 °C: B: 2640 9.60 %").await;
        is_as_wide_as_the_screen(page).await;
    });
}
