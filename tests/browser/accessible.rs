//! No violation of the rules that axe-core knows, on any view, narrow and wide, light and dark; nor sideways scrolling
//! with text twice as large, nor a target too small for a glove, nor a word that vanishes in the reader's own colours.
//!
//! axe-core is kept in `tests/axe` with its licence: a fresh machine may have no way to get it.

use crate::console::Chromium;
use crate::page::Page;
use crate::visit::{Screen, visit};
use serde_json::{Value as Json, json};

const AXE: &str = include_str!("../axe/axe.min.js");

/// What is wrong on the view that is shown: rule, what it asks, where.
async fn violations(page: &Page) -> Vec<String> {
    if page.asks("return typeof axe").await != "object" {
        page.asks(AXE).await;
    }
    let run = "return axe.run(document, { resultTypes: ['violations'] }).then(found => found.violations.map(rule =>
        `${rule.id}: ${rule.help}: ${rule.nodes.slice(0, 4).map(node => node.target.join(' ')).join('; ')}`))";
    let found = page.asks(run).await;
    found.as_array().into_iter().flatten().map(|rule| rule.as_str().unwrap_or_default().to_owned()).collect()
}

/// Light or dark, as the reader's system asks for.
async fn in_scheme(page: &Page, scheme: &str) {
    with_media(page, json!([{ "name": "prefers-color-scheme", "value": scheme }])).await;
}

/// Shows the page to a reader whose system asks for this.
async fn with_media(page: &Page, features: Json) {
    page.commands(Chromium::new("Emulation.setEmulatedMedia", json!({ "features": features }))).await;
}

/// Goes through the views, filled and with mistakes, and says what is wrong where.
async fn through_every_view(page: &Page, look: impl AsyncFn(&str)) {
    look("the start").await;
    page.clicks("room-c").await;
    page.finds_itself_in("view").await;
    page.waits_until("change-colder", true).await;
    look("the check of a room").await;
    for fold in ["fold-water-path", "fold-pressure-stairs", "year", "changes"] {
        page.opens_fold(fold).await;
    }
    page.unfolds("bars-table").await;
    look("the figures of a room").await;
    for fold in ["fold-tap", "tap-tools", "tap-sweep", "tap-backwards", "tap-shares"] {
        page.unfolds(fold).await;
    }
    look("the tools of a stage").await;
    page.opens("place").await;
    look("place of a room").await;
    page.fills(&[("shut-pressure", "abc"), ("tap-temperature", "-300 °C")]).await;
    page.waits_until("error-summary", true).await;
    look("place with mistakes").await;
    page.opens_sheet("recovery").await;
    if page.is_there("fill-from-record").await {
        look("a sheet that the record can fill").await;
        page.clicks("fill-from-record").await;
        // the interval comes after the paint and moves what stands below it
        page.waits_until_first(".interval").await;
        page.clicks("keep-sheet").await;
        page.waits_until("last-kept", true).await;
    }
    look("a sheet filled from the record and kept").await;
    page.opens("records").await;
    look("records").await;
    page.opens("sheets").await;
    look("the list of sheets").await;
    for sheet in ["carbon-contact-time", "heat-dose", "mains-temperature", "plan"] {
        page.opens_sheet(sheet).await;
        look(sheet).await;
    }
    page.opens_arithmetic().await;
    look("the arithmetic").await;
}

async fn breaks_no_rule(page: &Page) {
    let found = std::cell::RefCell::new(Vec::new());
    for scheme in ["light", "dark"] {
        in_scheme(page, scheme).await;
        page.opens_again().await;
        through_every_view(page, async |view| {
            let said = violations(page).await.into_iter().map(|rule| format!("{view}, {scheme}: {rule}"));
            found.borrow_mut().extend(said);
        })
        .await;
    }
    let found = found.into_inner();
    assert!(found.is_empty(), "{} violations:\n{}", found.len(), found.join("\n"));
}

#[test]
fn on_a_phone() {
    visit(Screen::Phone, async |page| breaks_no_rule(page).await);
}

#[test]
fn on_a_desk() {
    visit(Screen::Desk, async |page| breaks_no_rule(page).await);
}

/// Controls that a finger in a glove would miss, by their size on the screen.
async fn small_targets(page: &Page) -> Json {
    let look =
        "return [...document.querySelectorAll('button, select, input, summary, .sections a, .links a')]
        .filter(target => target.checkVisibility() && !target.matches('[type=radio], [type=checkbox]'))
        .map(target => [target.id || target.textContent.trim(), target.getBoundingClientRect()])
        .filter(([, box]) => box.height < 43.5).map(([name, box]) => `${name}: ${box.height}`)";
    page.asks(look).await
}

#[test]
fn for_gloves_and_for_eyes_that_need_it_large() {
    visit(Screen::Phone, async |page| {
        through_every_view(page, async |view| {
            assert_eq!(small_targets(page).await, json!([]), "{view}");
        })
        .await;
    });
    visit(Screen::Phone, async |page| {
        let twice = "document.documentElement.style.setProperty('font-size', '2.25rem')";
        page.asks(twice).await;
        through_every_view(page, async |view| {
            let width = page.width_of_content().await;
            assert!(width <= 360, "{view} is {width} wide with text twice as large");
        })
        .await;
    });
}

/// Words and lines that have the colour of what the browser lays behind them.
async fn vanished(page: &Page) -> Json {
    let look = "const ground = getComputedStyle(document.body).backgroundColor;
        const says = part => [...part.childNodes].some(node => node.nodeType === 3 && node.data.trim());
        const name = part => `${part.localName}.${part.className.baseVal ?? part.className}: ${part.textContent.trim().slice(0, 30)}`;
        const words = [...document.querySelectorAll('body *')].filter(part => says(part) && part.checkVisibility())
            .filter(part => getComputedStyle(part)[part.closest('svg') ? 'fill' : 'color'] === ground);
        const lines = [...document.querySelectorAll('.chart-line, .chart-limit, .chart-edge, .mark .solid, .mark .line, .mark .dashed, .share')]
            .filter(part => ['fill', 'stroke'].every(what => ['none', ground].includes(getComputedStyle(part)[what])));
        return [...words, ...lines].map(name)";
    page.asks(look).await
}

/// Under which of the links to the sections a line can be seen.
async fn underlined(page: &Page) -> Json {
    let look = "const ground = getComputedStyle(document.body).backgroundColor;
        return [...document.querySelectorAll('.sections a')]
            .filter(link => getComputedStyle(link).borderBottomColor !== ground).map(link => link.ariaCurrent)";
    page.asks(look).await
}

#[test]
fn in_the_readers_own_colours() {
    visit(Screen::Phone, async |page| {
        for scheme in ["dark", "light"] {
            let own = json!([
                { "name": "forced-colors", "value": "active" },
                { "name": "prefers-color-scheme", "value": scheme },
            ]);
            with_media(page, own).await;
            page.opens_again().await;
            through_every_view(page, async |view| {
                assert_eq!(vanished(page).await, json!([]), "{view}, {scheme}");
                assert_eq!(underlined(page).await, json!(["page"]), "{view}, {scheme}");
            })
            .await;
        }
    });
}
