//! Figures of the finished page, printed beside their bounds by `cargo xtask bench`. No test rests on them: a busy machine
//! would break it.

use crate::console::Chromium;
use crate::life;
use crate::page::Page;
use crate::visit::{Screen, visit};
use calc::documents::record::Record;
use serde_json::{Value as Json, json};
use std::path::PathBuf;

const ROUNDS: usize = 5;

/// Milliseconds from the opening of the file until the page can be used, at best of several rounds.
async fn start(page: &Page, slowed: u32) -> f64 {
    page.commands(Chromium::new("Emulation.setCPUThrottlingRate", json!({ "rate": slowed }))).await;
    let watch = "(() => { const look = () => document.getElementById('view')
        ? requestAnimationFrame(() => { window.usable = performance.now() }) : requestAnimationFrame(look);
        requestAnimationFrame(look) })()";
    page.commands(Chromium::new("Page.addScriptToEvaluateOnNewDocument", json!({ "source": watch }))).await;
    let mut best = f64::INFINITY;
    for _ in 0..ROUNDS {
        page.opens_again().await;
        let usable = async || page.asks("return window.usable ?? null").await;
        let usable = page.waits_for("the page to be usable", usable, Json::is_number).await;
        best = best.min(usable.as_f64().unwrap_or(f64::INFINITY));
    }
    best
}

/// What the browser has spent so far on the page, in milliseconds: script, style and layout.
async fn spent(page: &Page) -> f64 {
    let metrics = page.commands(Chromium::new("Performance.getMetrics", json!({}))).await;
    let of = |name: &str| {
        let metrics = metrics["metrics"].as_array().into_iter().flatten();
        metrics.filter(|one| one["name"] == name).find_map(|one| one["value"].as_f64()).unwrap_or(f64::NAN)
    };
    1e3 * (of("ScriptDuration") + of("RecalcStyleDuration") + of("LayoutDuration"))
}

/// Milliseconds that one key press costs in what has the focus, at best of several rounds. The pauses between the keys
/// are too short for what waits for a pause in the typing.
async fn key_press(page: &Page) -> f64 {
    const KEYS: u32 = 12;
    let mut best = f64::INFINITY;
    for _ in 0..ROUNDS {
        let before = spent(page).await;
        for key in 0..KEYS {
            let event = match key % 2 {
                0 => json!({ "type": "keyDown", "text": "1", "key": "1" }),
                _ => json!({ "type": "keyDown", "key": "Backspace", "windowsVirtualKeyCode": 8 }),
            };
            page.commands(Chromium::new("Input.dispatchKeyEvent", event)).await;
        }
        best = best.min((spent(page).await - before) / f64::from(KEYS));
        tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    }
    best
}

/// Milliseconds from the choice of what a number is drawn over until its curve stands on the screen, and until its band does.
async fn sweep_of_the_plan(page: &Page) -> (f64, f64) {
    page.opens_sheet("plan").await;
    page.unfolds("sweep").await;
    page.takes("sweep-number", "capacity-coldest").await;
    // a chart of what was drawn before may still stand there: only another sentence under it is the new one
    let watch = "const list = document.getElementById('sweep-along'); list.value = 'product-flow';
        const said = () => document.getElementById('sweep-chart-summary')?.textContent;
        const before = said(); window.swept = {}; const start = performance.now();
        const seen = (what, there) => { const look = () => there()
            ? requestAnimationFrame(() => { window.swept[what] = performance.now() - start }) : requestAnimationFrame(look);
            look() };
        list.dispatchEvent(new Event('change', { bubbles: true }));
        const curve = () => said() && said() !== before;
        seen('curve', curve); seen('band', () => curve() && document.querySelector('.chart-interval'))";
    page.asks(watch).await;
    let of = async |what: &str| {
        let seen = async || page.asks(&format!("return window.swept.{what} ?? null")).await;
        page.waits_for(what, seen, Json::is_number).await.as_f64().unwrap_or(f64::NAN)
    };
    (of("curve").await, of("band").await)
}

/// Milliseconds of one undo or redo, at best of several rounds.
async fn undo(page: &Page) -> f64 {
    const STEPS: u32 = 12;
    let click = "document.getElementById(arguments[0]).click();
        return new Promise(done => requestAnimationFrame(() => done(null)))";
    let mut best = f64::INFINITY;
    for _ in 0..ROUNDS {
        let before = spent(page).await;
        for step in 0..STEPS {
            page.asks_with(click, vec![json!(if step % 2 == 0 { "undo" } else { "redo" })]).await;
        }
        best = best.min((spent(page).await - before) / f64::from(STEPS));
        tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    }
    best
}

/// Milliseconds of one change until the store has it, at best of several rounds: the key press, what follows after the paint,
/// and the saving.
async fn change_and_save(page: &Page) -> f64 {
    let mut best = f64::INFINITY;
    for round in 0..ROUNDS {
        let before = spent(page).await;
        page.types("shut-pressure", &format!("4.{}", round + 1)).await;
        tokio::time::sleep(std::time::Duration::from_secs(1)).await;
        page.sees("kept-state", "Saved on this device at").await;
        best = best.min(spent(page).await - before);
    }
    best
}

/// Processor time that one record costs: opened from its file, a key press, an undo, a change with its saving.
async fn of_record(page: &Page, name: &str, record: &Record) -> [f64; 4] {
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&file, record.text()).expect("a file for the figures");
    page.opens_again().await;
    page.goes_to_start().await;
    let before = spent(page).await;
    page.opens_file("open-record", &file).await;
    page.finds_itself_in("view").await;
    let opened = spent(page).await - before;
    page.opens("place").await;
    page.clicks("dialysate-flow").await;
    let typed = key_press(page).await;
    let undone = undo(page).await;
    [opened, typed, undone, change_and_save(page).await]
}

fn line(what: &str, value: f64, unit: &str, bound: &str) {
    println!("{what:<66} {value:9.2} {unit:<3} {bound}");
}

#[test]
#[ignore = "prints figures; `cargo xtask bench` runs it"]
fn of_the_page() {
    visit(Screen::Desk, async |page| {
        page.commands(Chromium::new("Performance.enable", json!({ "timeDomain": "threadTicks" }))).await;
        let plain = start(page, 1).await;
        let slowed = start(page, 6).await;
        page.commands(Chromium::new("Emulation.setCPUThrottlingRate", json!({ "rate": 1 }))).await;
        line("double click to usable page", plain, "ms", "(bound 300 ms)");
        line("the same, processor slowed six times", slowed, "ms", "(bound 1500 ms)");
        line("the one over the other", slowed / plain, "", "");

        page.opens_again().await;
        page.waits_until("room-a", true).await;
        page.clicks("room-a").await;
        page.opens("place").await;
        page.clicks("dialysate-flow").await;
        let with_plan = key_press(page).await;
        let field = "const bare = document.createElement('input'); bare.type = 'text';
            document.querySelector('main').prepend(bare); bare.focus()";
        page.asks(field).await;
        let without = key_press(page).await;
        line("key press in a field of a place, script, style and layout", with_plan, "ms", "");
        line("the same in a field that nobody listens to", without, "ms", "");
        line("own share of a key press", with_plan - without, "ms", "(bound 2.5 ms)");
        let (curve, band) = sweep_of_the_plan(page).await;
        line("sweep of 200 points over the whole plan: its curve", curve, "ms", "(bound 100 ms)");
        line("its band", band, "ms", "(bound 500 ms)");

        let (ten_years, _) = life::ten_years().expect("a life");
        let empty = of_record(page, "no-event.json", &life::without_events().expect("a record")).await;
        let full = of_record(page, "ten-years.json", &ten_years).await;
        println!("processor time in a record without an event, and in one of ten years:");
        let bound = "(bound: no more, plus 10 %)";
        let lines = [
            ("  opened from its file", ""),
            ("  key press in a field of a place", bound),
            ("  undo or redo", bound),
            ("  one change until it is saved", bound),
        ];
        for (index, (what, bound)) in lines.into_iter().enumerate() {
            line(what, empty[index], "ms", "");
            line("", full[index], "ms", bound);
        }
    });
}
