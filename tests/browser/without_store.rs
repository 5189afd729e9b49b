//! A browser that keeps nothing: the page says so plainly, offers the file, and does everything else.

use crate::console::Chromium;
use crate::page::Page;
use crate::visit::{Screen, visit};
use serde_json::json;
use std::fs;
use std::path::PathBuf;

/// A browser in which something is wrong with the store.
struct Store {
    /// What runs before the page, in every document.
    script: &'static str,
    /// What the page then says, from its start or once something was typed.
    says: &'static str,
}

const NO_SESSION: &str = "for (const store of ['sessionStorage', 'localStorage', 'indexedDB']) {
    Object.defineProperty(window, store, { get() { throw new DOMException('forbidden here', 'SecurityError') } });
} delete window.BroadcastChannel;";

const FOREIGN: &str = "indexedDB.deleteDatabase('tapside');
    const request = indexedDB.open('tapside', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('letters').put('Dear all', 'first');
    request.onsuccess = () => request.result.close();";

/// One state after the other, each in a browser of its own.
fn in_each(stores: &[Store], flow: impl AsyncFn(&Page, &Store)) {
    for store in stores {
        visit(Screen::Desk, async |page| {
            // an empty page has no store to be tampered with
            let script = format!("if (location.protocol === 'file:') {{ {} }}", store.script);
            let script = json!({ "source": script });
            page.commands(Chromium::new("Page.addScriptToEvaluateOnNewDocument", script)).await;
            page.opens_again().await;
            flow(page, store).await;
        });
    }
}

/// Types a place, reads its answers, opens a room, goes back, exports, opens the file again.
async fn does_everything_else(page: &Page, store: &Store) {
    page.opens("place").await;
    page.fills(&[("place-name", "Ward 6"), ("shut-pressure", "4,2 bar")]).await;
    page.sees("kept-state", store.says).await;
    assert_eq!(page.asks("return document.getElementById('kept-state').role").await, "alert");

    let hear = "window.texts = []; const make = URL.createObjectURL;
        URL.createObjectURL = blob => { blob.text().then(text => window.texts.push(text)); return make(blob) }";
    page.asks(hear).await;
    page.clicks("export-now").await;
    let text = async || page.asks("return window.texts[0] ?? ''").await;
    let text = page.waits_for("the file", text, |text| *text != "").await;
    let text = text.as_str().unwrap_or_default();
    assert!(text.contains("Ward 6") && text.contains("4,2 bar"), "{text}");
    let file =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("kept-by-hand-{}.json", store.says.len()));
    fs::write(&file, text).expect("a file for the test");

    page.goes_to_start().await;
    page.clicks("room-c").await;
    page.finds_itself_in("view").await;
    page.waits_until("change-colder", true).await;
    page.opens_sheet("plan").await;
    page.gets("capacity-coldest", "1.18 L/min").await;
    page.clicks("undo").await;
    page.opens("place").await;
    assert_eq!(page.stands_in("shut-pressure").await, "4,2 bar");
    page.opens_sheet("carbon-contact-time").await;
    page.fills(&[("bed-volume", "28.3"), ("flow", "1.5 gpm")]).await;
    page.gets("contact-time", "4.98 min").await;

    page.opens("records").await;
    page.clicks("new-record").await;
    page.opens("place").await;
    assert_eq!(page.stands_in("shut-pressure").await, "");
    page.opens("records").await;
    page.opens_file("open-record", &file).await;
    page.finds_itself_in("view").await;
    page.opens("place").await;
    assert_eq!(page.stands_in("shut-pressure").await, "4,2 bar");
    page.sees("kept-state", store.says).await;
}

#[test]
fn everything_but_the_keeping_works() {
    let absent = "This browser saves nothing for this page";
    let stores = [
        Store { script: "Object.defineProperty(window, 'indexedDB', { value: undefined })", says: absent },
        Store { script: NO_SESSION, says: "settings block storage for this page" },
        Store { script: FOREIGN, says: "Data that is not of this program" },
        Store {
            script: "const request = indexedDB.open('tapside', 7); request.onsuccess = () => request.result.close()",
            says: "A newer version of this program has saved records here",
        },
        Store {
            script: "IDBFactory.prototype.open = () => ({})",
            says: "This browser does not answer when the page asks for its storage",
        },
    ];
    in_each(&stores, async |page, store| {
        // before anything is typed
        page.sees("kept-state", store.says).await;
        page.sees("kept-state", "xport now").await;
        page.opens("records").await;
        page.sees("view", "Records").await;
        let claimed = page.reads_all().await;
        assert!(!claimed.contains("No record is saved"), "nobody knows what a closed store holds");
        does_everything_else(page, store).await;
        page.opens_again().await;
        page.opens("place").await;
        assert_eq!(page.stands_in("shut-pressure").await, "", "said to be lost, and yet there");
    });
}

#[test]
fn a_full_store_keeps_what_it_has() {
    let full = Store {
        script: "const put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = function (value, key) {
                if (sessionStorage.full) { throw new DOMException('no room', 'QuotaExceededError') }
                return put.call(this, value, key)
            }",
        says: "There is no space left for this browser on this device, so the last changes are not saved. Export now",
    };
    in_each(&[full], async |page, store| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one"), ("shut-pressure", "3.9")]).await;
        page.sees("kept-state", "Saved on this device at").await;
        page.asks("sessionStorage.full = 1").await;
        does_everything_else(page, store).await;
        // there is room again: what stands on the page is kept without another word
        page.asks("delete sessionStorage.full").await;
        page.sees("kept-state", "Saved on this device at").await;
        page.opens_again().await;
        page.opens("place").await;
        page.waits_for("it", async || page.stands_in("shut-pressure").await, |text| text == "4,2 bar").await;
        page.opens("records").await;
        page.waits_for("RO one", async || page.reads_all().await, |all| all.contains("Open RO one")).await;
    });
}

#[test]
fn what_is_not_ours_is_left_as_it_is() {
    let foreign = Store { script: FOREIGN, says: "It was not changed" };
    in_each(&[foreign], async |page, store| {
        page.opens("place").await;
        page.fills(&[("shut-pressure", "3.9")]).await;
        page.sees("kept-state", store.says).await;
        let look = "return new Promise(done => {
            const request = indexedDB.open('tapside');
            request.onsuccess = () => {
                const names = [...request.result.objectStoreNames];
                request.result.transaction('letters').objectStore('letters').get('first').onsuccess = event =>
                    done([names, event.target.result, request.result.version]);
            }
        })";
        assert_eq!(page.asks(look).await, json!([["letters"], "Dear all", 1]));
    });
}
