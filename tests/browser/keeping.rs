//! What is typed is kept: over a reload, in a file, step by step, beside another window, and when the browser dies.

use crate::page::Page;
use crate::visit::{Screen, visit, visit_and_kill};
use serde_json::json;
use std::fs;
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// Waits until the store says that everything is kept.
async fn is_saved(page: &Page) {
    page.sees("kept-state", "Saved on this device at").await;
}

async fn stands(page: &Page, field: &str, text: &str) {
    page.waits_for(&format!("{text} in {field}"), async || page.stands_in(field).await, |read| read == text)
        .await;
}

#[test]
fn it_outlives_a_reload() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("place-name", "Ward 6"), ("shut-pressure", "4,2 bar"), ("total-chlorine", "a lot")])
            .await;
        is_saved(page).await;
        page.opens_again().await;
        page.opens("place").await;
        stands(page, "place-name", "Ward 6").await;
        // as it was typed, and its unit stands beside it
        stands(page, "shut-pressure", "4,2 bar").await;
        stands(page, "shut-pressure-unit", "bar").await;
        // what cannot be read is kept too, with what is wrong with it
        stands(page, "total-chlorine", "a lot").await;
        page.waits_until("total-chlorine-error", true).await;

        // typed a moment before the page is closed
        page.types("open-pressure", "3.1").await;
        page.opens_again().await;
        page.opens("place").await;
        stands(page, "open-pressure", "3.1").await;
    });
}

#[test]
fn it_goes_into_a_file_and_comes_back() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        // markup is text
        page.fills(&[("place-name", "<b>Ward</b> & <script>alert(1)</script>"), ("shut-pressure", "4.2")])
            .await;
        is_saved(page).await;
        page.opens("records").await;
        let hear = "window.texts = []; const make = URL.createObjectURL;
            URL.createObjectURL = blob => { blob.text().then(text => window.texts.push(text)); return make(blob) }";
        page.asks(hear).await;
        page.clicks("export").await;
        let text = async || page.asks("return window.texts[0] ?? ''").await;
        let text = page.waits_for("the file", text, |text| *text != "").await;
        let text = text.as_str().unwrap_or_default().to_owned();
        assert!(text.contains("\"format\": \"tapside-record\"") && text.contains("<script>"), "{text}");

        page.clicks("new-record").await;
        page.opens("place").await;
        stands(page, "shut-pressure", "").await;
        let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("exported.json");
        fs::write(&file, &text).expect("a file for the test");
        page.opens("records").await;
        page.opens_file("open-record", &file).await;
        page.finds_itself_in("view").await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;
        page.sees("view", "<b>Ward</b> & <script>alert(1)</script>").await;
        page.opens_again().await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;
    });
}

#[test]
fn it_is_listed_put_away_and_goes_back_to_an_earlier_state() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one"), ("shut-pressure", "4.2")]).await;
        is_saved(page).await;
        page.opens_again().await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;
        page.fills(&[("shut-pressure", "5.5")]).await;
        is_saved(page).await;
        page.opens("records").await;
        page.waits_for("an earlier state", async || page.is_there_at(".go-back").await, |there| *there).await;
        page.clicks_on(".go-back").await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;

        page.opens("records").await;
        page.clicks("new-record").await;
        page.opens("place").await;
        page.fills(&[("ro-name", "RO two")]).await;
        is_saved(page).await;
        page.opens("records").await;
        page.waits_for("the other record", async || page.is_there_at(".open-kept").await, |there| *there)
            .await;
        assert!(page.reads_all().await.contains("Open RO one"));
        page.clicks_on(".kept .plain").await;
        page.waits_until("bin", true).await;
        page.clicks_on("#bin + .kept .plain").await;
        page.waits_until("bin", false).await;
        page.clicks_on(".open-kept").await;
        page.opens("place").await;
        stands(page, "ro-name", "RO one").await;
    });
}

#[test]
fn two_windows_do_not_write_over_each_other() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("shut-pressure", "4.2")]).await;
        is_saved(page).await;
        let first = page.opens_second_window().await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;
        // another window of the same record saves while this one knows nothing of it
        page.asks("BroadcastChannel.prototype.postMessage = () => {}").await;
        page.fills(&[("shut-pressure", "5.5")]).await;
        is_saved(page).await;
        page.goes_to_window(first).await;
        page.fills(&[("open-pressure", "3.1")]).await;
        page.sees("kept-state", "Another window has saved a different version of this record").await;
        stands(page, "open-pressure", "3.1").await;
        page.clicks("keep-both").await;
        is_saved(page).await;
        page.opens("records").await;
        page.waits_for("both records", async || page.is_there_at(".open-kept").await, |there| *there).await;
        page.clicks_on(".open-kept").await;
        page.opens("place").await;
        stands(page, "shut-pressure", "5.5").await;
        // and none more than both, also when the page is opened anew
        page.opens_again().await;
        page.opens("records").await;
        page.waits_for("both records", async || page.is_there_at(".open-kept").await, |there| *there).await;
        assert_eq!(page.asks("return document.querySelectorAll('.open-kept').length").await, 1);
    });
}

#[test]
fn what_was_typed_a_moment_before_another_record_was_opened_is_kept() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one")]).await;
        is_saved(page).await;
        let type_and_leave = "const field = document.getElementById('shut-pressure');
            Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, '4.2');
            field.dispatchEvent(new InputEvent('input', { bubbles: true }));
            location.hash = '#/records';
            return new Promise(done => setTimeout(() => {
                document.getElementById('new-record').click();
                done();
            }, 100))";
        page.asks(type_and_leave).await;
        page.opens("place").await;
        stands(page, "ro-name", "").await;
        page.opens("records").await;
        page.waits_for("the first record", async || page.is_there_at(".open-kept").await, |there| *there)
            .await;
        page.clicks_on(".open-kept").await;
        page.opens("place").await;
        stands(page, "ro-name", "RO one").await;
        stands(page, "shut-pressure", "4.2").await;
    });
}

/// The disk has a saving, more is typed, and the page is loaded anew before it hears of the saving.
#[test]
fn a_reload_during_a_save_makes_no_second_record() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one"), ("shut-pressure", "4.1")]).await;
        is_saved(page).await;
        let script = "const begin = IDBDatabase.prototype.transaction;
            const type = text => {
                const field = document.getElementById('shut-pressure');
                Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, text);
                field.dispatchEvent(new InputEvent('input', { bubbles: true }));
            };
            IDBDatabase.prototype.transaction = function (stores, mode, options) {
                const transaction = begin.call(this, stores, mode, options);
                if (stores.length > 1 && mode === 'readwrite') {
                    transaction.addEventListener('complete', event => {
                        event.stopImmediatePropagation();
                        type('4.3');
                        setTimeout(() => location.reload(), 50);
                    });
                }
                return transaction;
            };
            type('4.2')";
        page.asks("window.before = true").await;
        page.asks(script).await;
        let anew =
            async || page.asks("return !window.before && document.getElementById('view') !== null").await;
        page.waits_for("the page to be loaded anew", anew, |anew| *anew == true).await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.3").await;
        page.opens("records").await;
        let kept = async || page.asks("return document.querySelectorAll('.kept > li').length").await;
        page.waits_for("what is kept", kept, |kept| *kept != 0).await;
        page.sees("kept-records", "Saved on this device").await;
        assert!(!page.is_there_at(".open-kept").await, "a second record: {}", page.reads_all().await);
    });
}

#[test]
fn what_is_huge_is_refused_or_shown_as_text() {
    let file = |name: &str, text: &str| {
        let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::write(&file, text).expect("a file for the test");
        file
    };
    let record = |name: &str| {
        json!({ "format": "tapside-record", "version": 1, "ro": {}, "readings": [], "places": [{ "place-name": name }] })
            .to_string()
    };
    let large = file("large.json", &record(&"W".repeat(50_000_001)));
    let long = file("long.json", &record(&"<i>W</i>".repeat(1_250)));
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("shut-pressure", "4.2")]).await;
        is_saved(page).await;
        page.goes_to_start().await;
        page.opens_file("open-record", &large).await;
        page.sees("open-record-error", "Nothing on the page has changed.").await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;
        page.goes_to_start().await;
        page.opens_file("open-record", &long).await;
        page.finds_itself_in("view").await;
        page.opens("place").await;
        page.sees("place-name-error", "has 10000 characters").await;
        let width = page.width_of_content().await;
        assert!(width <= 1400, "a long name makes the page {width} wide");
        // the whole stands in its field, over the views no more than a line or two
        assert_eq!(page.stands_in("place-name").await.len(), 10_000);
        for section in ["place", "room-check", "records"] {
            page.opens(section).await;
            let shown = page.reads_all().await;
            assert!(!shown.contains(&"<i>W</i>".repeat(40)), "a long name stands whole in {section}");
        }
    });
}

/// How often the browser is killed here; `TAPSIDE_KILLS` asks for more.
fn kills() -> u32 {
    std::env::var("TAPSIDE_KILLS").ok().and_then(|kills| kills.parse().ok()).unwrap_or(2)
}

#[test]
fn a_browser_that_dies_loses_no_more_than_a_second() {
    const FIELD: &str = "shut-pressure";
    let profile = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("killed-{}", std::process::id()));
    let mut typed: Vec<(u32, Instant)> = Vec::new();
    let mut killed = Instant::now();
    for round in 0..=kills() {
        let before = std::mem::take(&mut typed);
        (typed, killed) = visit_and_kill(&profile, async |page| {
            page.opens("place").await;
            if round > 0 {
                let kept = page.waits_for(
                    "what was kept",
                    async || page.stands_in(FIELD).await,
                    |text| !text.is_empty(),
                );
                let kept: u32 = kept.await.parse().expect("the number that was typed");
                let old =
                    before.iter().filter(|(_, when)| killed.duration_since(*when) > Duration::from_secs(1));
                let old = old.map(|(number, _)| *number).max().expect("something was typed a second before");
                assert!(
                    kept >= old,
                    "round {round}: {old} was typed more than a second before, {kept} is kept"
                );
                let lost: Vec<_> = before.iter().filter(|(number, _)| *number > kept).collect();
                let since = lost.first().map_or(0, |(_, when)| killed.duration_since(*when).as_millis());
                println!(
                    "kill {round}: of {} numbers typed {} are lost, those of the last {since} ms",
                    before.len(),
                    lost.len()
                );
            }
            let (mut typed, start) = (Vec::new(), Instant::now());
            for number in (1000 * round + 1).. {
                page.types(FIELD, &number.to_string()).await;
                typed.push((number, Instant::now()));
                if start.elapsed() > Duration::from_secs(2) {
                    break;
                }
            }
            typed
        });
    }
    let _ = fs::remove_dir_all(&profile);
}
