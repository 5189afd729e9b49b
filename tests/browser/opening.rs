//! Opening the file: it needs nothing besides itself, and every sheet is one step away.

use crate::page::Page;
use crate::visit::{Screen, visit, visit_file};
use calc::engine::sheet::{Declaration, Stage};
use calc::program::catalogue::{SHEETS, of_stage};
use serde_json::{Value as Json, json};
use std::path::Path;

#[test]
fn every_sheet_opens_and_nothing_is_asked_of_a_network() {
    visit(Screen::Desk, async |page| {
        assert!(page.address().await.starts_with("file:///"), "{}", page.address().await);
        page.opens("sheets").await;
        lists_every_sheet(page).await;
        for entry in SHEETS {
            opens(page, entry.declaration).await;
        }
        let asked_for = "return performance.getEntriesByType('resource').map(entry => entry.name)";
        assert_eq!(page.asks(asked_for).await, json!([]));
    });
}

/// In the order of the water's way.
async fn lists_every_sheet(page: &Page) {
    let stages = Stage::ALL.iter().filter_map(|stage| {
        let links: Vec<Json> = of_stage(*stage).map(|sheet| json!([sheet.id, sheet.name])).collect();
        (!links.is_empty()).then(|| json!([stage.name(), links]))
    });
    let stages: Vec<Json> = stages.collect();
    let listed = "return [...document.querySelectorAll('.navigation section')].map(stage => [
        stage.querySelector('h2').innerText,
        [...stage.querySelectorAll('a')].map(link => [link.id.replace(/^sheet-/, ''), link.innerText])])";
    assert_eq!(page.asks(listed).await, json!(stages));
}

/// Empty, but with its fields, its cautions and its sources.
async fn opens(page: &Page, sheet: &Declaration) {
    page.opens_sheet(sheet.id).await;
    page.sees("view", sheet.name).await;
    for field in sheet.inputs {
        assert!(page.is_there(field.id).await, "{} has no field {}", sheet.id, field.id);
    }
    for output in sheet.outputs {
        let answer = page.reads(&format!("out-{}", output.id)).await;
        assert!(!answer.is_empty(), "{} answers nothing at {}", sheet.id, output.id);
    }
    for caution in sheet.cautions {
        page.sees(&format!("caution-{}", caution.id), caution.text).await;
    }
    // the list of sources is folded: it is there, and not on the screen
    let answers = page.asks("return document.getElementById('answers').textContent").await;
    let answers = answers.as_str().unwrap_or_default();
    for source in sheet.sources {
        assert!(answers.contains(source.title), "{} does not name {}", sheet.id, source.title);
    }
    let wrong = page.is_there("error-summary").await;
    assert!(!wrong, "{} finds fault with an empty sheet", sheet.id);
    page.complains_of_nothing(sheet.id).await;
}

#[test]
fn the_shell_alone_says_how_to_build_the_page() {
    let shell = Path::new(env!("CARGO_MANIFEST_DIR")).join("../index.html");
    visit_file(&shell, Screen::Desk, async |page| {
        assert!(
            page.reads_all()
                .await
                .contains("Build the page with cargo xtask page, then open dist/index.html.")
        );
        assert!(!page.reads_all().await.contains("stopped"));
    });
}

/// What people come with is one step away, and everything is found by what they call it.
#[test]
fn a_calculation_is_found_by_its_abbreviation_and_its_unit() {
    visit(Screen::Phone, async |page| {
        page.types("find", "TCF").await;
        page.sees("found", "Temperature correction").await;
        let first = "return document.querySelector('#found a').getAttribute('href')";
        assert_eq!(page.asks(first).await, json!("#/sheet/temperature-correction"));
        page.types("find", "gpg").await;
        page.sees("found", "Hardness").await;
        page.types("find", "xyzzy").await;
        page.waits_for("nothing", async || page.reads("found").await, |found| found.is_empty()).await;
        page.types("find", "longest gap").await;
        page.sees("found", "Asks for: Longest").await;
        page.asks("document.querySelector('#found a').click()").await;
        page.waits_until("log-rows", true).await;
    });
}

/// The first screen of a phone belongs to the answer.
#[test]
fn the_head_of_the_page_is_low_on_a_phone() {
    visit(Screen::Phone, async |page| {
        let low = "return document.querySelector('.top').getBoundingClientRect().bottom";
        for section in ["place", "room-check", "records", "sheets"] {
            page.opens(section).await;
            let bottom = page.asks(low).await.as_f64().unwrap_or(f64::INFINITY);
            assert!(bottom <= 64.0, "{section}: {bottom} px");
        }
        let overlap = "const boxes = [...document.querySelectorAll('.sections a, .more')].map(one => {
                const range = document.createRange(); range.selectNodeContents(one); return range.getBoundingClientRect() });
            return boxes.some((box, at) => at > 0 && box.left < boxes[at - 1].right)";
        assert_eq!(page.asks(overlap).await, json!(false), "names of sections lie over one another");
    });
}
