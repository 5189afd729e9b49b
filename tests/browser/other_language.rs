//! Every view in a language of accents that is a third longer: what has no accent is English that no language would reach,
//! and what is cut off or lies over something else has no room for it.

use crate::page::Page;
use crate::visit::{Screen, visit};
use calc::engine::quantity::kinds;
use calc::engine::sheet::source;
use calc::program::catalogue::SHEETS;
use serde_json::{Value as Json, json};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;
use tests::rows::{self, Kind};

const WELL: &str = include_str!("../../examples/tolby-marsh.json");

/// A record with every sheet filled: with the first row of the check values that is no mistake.
fn record() -> Json {
    let mut record: Json = serde_json::from_str(WELL).expect("the record of a room");
    let rows = rows::all().expect("the tables of check values");
    let filled = SHEETS.iter().map(|entry| entry.declaration.id).filter_map(|sheet| {
        let row = rows.iter().find(|row| row.sheet == sheet && row.kind != Kind::Error)?;
        Some(json!({ "id": format!("sheet-{sheet}"), "sheet": sheet, "fields": row.inputs }))
    });
    record["sheets"] = filled.collect();
    record
}

/// Every text that the view shows or says aloud, the way to it before it. The foot of the page is of the shell, which
/// stands before the program speaks any language: version and licences.
const TEXTS: &str = "
    const path = node => { const part = node.closest('[id]'); return (part ? '#' + part.id : '') + ' ' + node.localName + '.' + (node.getAttribute('class') ?? '') };
    const found = [];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node; node = walk.nextNode();) {
        const part = node.parentElement, text = node.data.trim();
        if (text && !part.closest('math, script, style, noscript, code, textarea, footer, .check-values') && part.checkVisibility()) found.push([path(part), text]);
    }
    for (const part of document.querySelectorAll('[aria-label], [title], [placeholder], [alt]')) {
        for (const name of ['aria-label', 'title', 'placeholder', 'alt']) {
            const text = part.getAttribute(name)?.trim();
            if (text && part.checkVisibility()) found.push([path(part) + '@' + name, text]);
        }
    }
    found.push(['title', document.title]);
    return found";

/// Texts that are cut off, and texts that lie over one another.
const ROOM: &str = "
    const wide = document.documentElement.clientWidth, found = [], boxes = [];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const apart = part => { for (; part; part = part.parentElement) { const style = getComputedStyle(part); if (['fixed', 'sticky'].includes(style.position) || style.clipPath !== 'none') return true } return false };
    for (let node; node = walk.nextNode();) {
        const part = node.parentElement;
        if (!node.data.trim() || !part.checkVisibility() || part.closest('.unseen, math, select, script, style, .skip, footer, .check-values') || apart(part)) continue;
        // a text that is drawn closer is as wide as its element; a range has it in its own width
        const range = document.createRange(); range.selectNodeContents(node);
        const drawn = part instanceof SVGElement ? [part.getBoundingClientRect()] : range.getClientRects();
        for (const box of drawn) {
            if (box.width < 2 || box.height < 2) continue;
            let scrolls = false, cut = false;
            for (let outer = part; outer && outer !== document.body; outer = outer.parentElement) {
                const style = getComputedStyle(outer), edge = outer.getBoundingClientRect();
                const hidden = ['hidden', 'clip'].includes(style.overflowX);
                scrolls ||= ['auto', 'scroll'].includes(style.overflowX);
                if (!scrolls && hidden && !(outer instanceof SVGElement && outer.localName !== 'svg') && (box.right > edge.right + 1.5 || box.left < edge.left - 1.5)) cut = true;
            }
            if (!scrolls && (box.right > wide + 1.5 || box.left < -1.5)) cut = true;
            const name = ((part.closest('[id]')?.id ?? '') + ' .' + (part.getAttribute('class') ?? part.localName) + ': ' + node.data.trim().slice(0, 60));
            if (cut) found.push('cut off: ' + name);
            if (!scrolls) boxes.push([box, name, node]);
        }
    }
    boxes.sort((a, b) => a[0].top - b[0].top);
    for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length && boxes[j][0].top < boxes[i][0].bottom - 3; j++) {
        const [a, b] = [boxes[i][0], boxes[j][0]];
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left), down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        if (across > 3 && down > 4 && boxes[i][2] !== boxes[j][2]) found.push('one over the other: ' + boxes[i][1] + ' | ' + boxes[j][1]);
    }
    if (document.documentElement.scrollWidth > window.innerWidth) found.push('the view is ' + document.documentElement.scrollWidth + ' wide');
    return [...new Set(found)]";

/// Three ways in which a field is filled wrongly.
const MISTAKES: [(&str, &str); 3] =
    [("shut-pressure", "abc"), ("tap-temperature", "-300 °C"), ("bed-volume", "1,234")];

/// What no language changes: symbols of units and formulas, titles of documents, and what people typed.
struct Kept {
    titles: Vec<String>,
    symbols: BTreeSet<String>,
}

impl Kept {
    fn of(record: &Json) -> Self {
        let mut titles: Vec<String> = Vec::new();
        for title in source::ALL.iter().map(|source| source.title) {
            let end = [", ", ": ", "; "].iter().filter_map(|mark| title.find(mark)).min();
            titles.extend([title.to_owned(), title[..end.unwrap_or(title.len())].to_owned()]);
        }
        // names: of the program, of a way to write letters, of two printed tables of a handbook
        titles.extend(["Tapside", "Windows-1252", "P2", "P3"].map(str::to_owned));
        titles.extend(MISTAKES.map(|(_, text)| text.to_owned()));
        typed(record, &mut titles);
        let mut symbols = BTreeSet::new();
        for kind in kinds::LINEAR.iter().copied().chain([&kinds::TEMPERATURE]) {
            for symbol in kind.units.iter().flat_map(|unit| [unit.symbol, unit.shown()]) {
                titles.push(symbol.to_owned());
                symbols.extend(symbol.split_whitespace().map(str::to_owned));
            }
        }
        let fields =
            SHEETS.iter().flat_map(|entry| entry.declaration.inputs.iter().chain(entry.declaration.outputs));
        symbols.extend(fields.map(|field| field.term.symbol.replace('_', "")));
        titles.retain(|title| title.chars().any(|c| c.is_ascii_alphabetic()));
        // the longest first, so that no part of one is left
        titles.sort_by_key(|title| std::cmp::Reverse(title.len()));
        titles.dedup();
        Self { titles, symbols }
    }

    /// What is left of a text in letters without accents.
    fn left_of(&self, text: &str) -> String {
        let mut text = format!(" {} ", text.split_whitespace().collect::<Vec<_>>().join(" "));
        let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
        for title in &self.titles {
            while let Some(at) = text
                .find(title.as_str())
                .filter(|at| !is_letter(text[..*at].chars().next_back()) || title.len() > 6)
            {
                if is_letter(text[at + title.len()..].chars().next()) && title.len() <= 6 {
                    break;
                }
                text.replace_range(at..at + title.len(), "·");
            }
        }
        let marks = |c: char| c.is_whitespace() || "“”()·,;:.<>=±−–…|/%×?!".contains(c);
        let words = text.split(marks).filter(|word| word.chars().any(|c| c.is_ascii_alphabetic()));
        let words = words.filter(|word| !self.symbols.contains(*word) && !is_power(word));
        words.collect::<Vec<_>>().join(" ")
    }
}

/// A power of ten, or the hour of a moment as a record writes it.
fn is_power(word: &str) -> bool {
    word.chars().all(|c| c.is_ascii_digit() || "-+eT".contains(c))
}

/// The texts of a record: names, notes, and numbers with their units as somebody typed them.
fn typed(json: &Json, all: &mut Vec<String>) {
    match json {
        Json::String(text) => all.push(text.split_whitespace().collect::<Vec<_>>().join(" ")),
        Json::Array(list) => list.iter().for_each(|one| typed(one, all)),
        Json::Object(members) => members.values().for_each(|one| typed(one, all)),
        _ => {}
    }
}

/// What was found on all views: each once, with the first view where it was.
#[derive(Default)]
struct Found(RefCell<BTreeMap<String, String>>);

impl Found {
    async fn look(&self, page: &Page, kept: &Kept, view: &str) {
        // what is folded is read too
        page.asks("document.querySelectorAll('details').forEach(fold => fold.open = true)").await;
        page.asks("return new Promise(done => setTimeout(done, 150))").await;
        for text in page.asks(TEXTS).await.as_array().into_iter().flatten() {
            let (way, text) = (text[0].as_str().unwrap_or_default(), text[1].as_str().unwrap_or_default());
            let left = kept.left_of(text);
            if !left.is_empty() {
                self.0
                    .borrow_mut()
                    .entry(format!("English “{left}” in “{text}”"))
                    .or_insert(format!("{view}, {way}"));
            }
        }
        for fault in page.asks(ROOM).await.as_array().into_iter().flatten().filter_map(Json::as_str) {
            self.0.borrow_mut().entry(fault.to_owned()).or_insert(view.to_owned());
        }
    }
}

/// Every view, with every sheet filled.
async fn through_every_view(page: &Page) {
    let record = record();
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("every-sheet.json");
    fs::write(&file, record.to_string()).expect("a file for the test");
    let kept = Kept::of(&record);
    let found = Found::default();
    page.speaks("accented").await;
    found.look(page, &kept, "the start").await;
    page.types("find", "á").await;
    found.look(page, &kept, "what is found").await;
    page.opens_file("open-record", &file).await;
    page.finds_itself_in("view").await;
    for section in ["place", "room-check", "records", "sheets"] {
        page.opens(section).await;
        page.asks("return new Promise(done => setTimeout(done, 1500))").await;
        found.look(page, &kept, section).await;
    }
    for entry in SHEETS {
        let sheet = entry.declaration.id;
        page.opens_sheet(sheet).await;
        page.asks("return new Promise(done => setTimeout(done, 400))").await;
        found.look(page, &kept, sheet).await;
    }
    // the check values there name printed examples, which are of their sources
    page.asks("location.hash = '#/basis'").await;
    page.waits_until_first(".basis").await;
    found.look(page, &kept, "what this rests on").await;
    page.opens("place").await;
    page.fills(&MISTAKES).await;
    page.waits_until("error-summary", true).await;
    found.look(page, &kept, "place with mistakes").await;
    page.opens("room-check").await;
    page.on_paper().await;
    page.asks("return new Promise(done => setTimeout(done, 400))").await;
    for text in page.asks(TEXTS).await.as_array().into_iter().flatten() {
        let left = kept.left_of(text[1].as_str().unwrap_or_default());
        if !left.is_empty() {
            found
                .0
                .borrow_mut()
                .entry(format!("English “{left}”"))
                .or_insert(format!("on paper, {}", text[0]));
        }
    }
    let found = found.0.into_inner();
    let list: Vec<String> = found.iter().map(|(what, at)| format!("{what} [{at}]")).collect();
    assert!(found.is_empty(), "{} faults:\n{}", found.len(), list.join("\n"));
}

#[test]
fn on_a_phone() {
    visit(Screen::Phone, async |page| through_every_view(page).await);
}

#[test]
fn on_a_desk() {
    visit(Screen::Desk, async |page| through_every_view(page).await);
}
