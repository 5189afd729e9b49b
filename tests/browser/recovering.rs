//! What went wrong with what is kept loses nothing, and is said as what it is.

use crate::page::Page;
use crate::visit::{Screen, visit, visit_with};
use serde_json::json;

async fn is_saved(page: &Page) {
    page.sees("kept-state", "Saved on this device at").await;
}

async fn stands(page: &Page, field: &str, text: &str) {
    page.waits_for(&format!("{text} in {field}"), async || page.stands_in(field).await, |read| read == text)
        .await;
}

/// Does something with the open database and waits for its end.
async fn in_the_store(page: &Page, script: &str) -> serde_json::Value {
    let script = format!(
        "return new Promise((done, failed) => {{
            const request = indexedDB.open('tapside');
            request.onerror = failed;
            request.onsuccess = () => {{
                const change = request.result.transaction(['tapside-records-1', 'tapside-texts-1'], 'readwrite');
                const records = change.objectStore('tapside-records-1'), texts = change.objectStore('tapside-texts-1');
                let answer = null;
                {script}
                change.oncomplete = () => {{ request.result.close(); done(answer) }};
            }};
        }})"
    );
    page.asks(&script).await
}

/// How many records are listed, the open one among them.
async fn listed(page: &Page) -> serde_json::Value {
    page.asks("return document.querySelectorAll('#kept-records ~ .kept > li').length").await
}

#[test]
fn what_is_typed_while_the_store_opens_goes_into_the_record_that_was_open() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one"), ("shut-pressure", "4.2")]).await;
        is_saved(page).await;
        // a device on which the store takes a while to open
        page.opens_again_after(
            "const hold = new Promise(done => window.opens = done);
            Object.defineProperty(IDBOpenDBRequest.prototype, 'onsuccess', { set(heard) {
                this.addEventListener('success', event => hold.then(() => heard.call(this, event)));
            } })",
        )
        .await;
        page.opens("place").await;
        page.types("open-pressure", "3.1").await;
        assert_eq!(page.stands_in("shut-pressure").await, "", "nothing of it is shown yet");
        page.asks("window.opens()").await;
        stands(page, "shut-pressure", "4.2").await;
        stands(page, "open-pressure", "3.1").await;
        // the focus is still there, and the next letter too
        page.types_there("5").await;
        stands(page, "open-pressure", "3.15").await;
        is_saved(page).await;
        page.opens("records").await;
        page.waits_for("the record", async || listed(page).await, |count| *count == 1).await;
    });
}

#[test]
fn what_was_typed_here_is_one_step_behind_what_the_other_window_saved() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("shut-pressure", "4.2")]).await;
        is_saved(page).await;
        let first = page.opens_second_window().await;
        page.opens("place").await;
        stands(page, "shut-pressure", "4.2").await;
        page.asks("BroadcastChannel.prototype.postMessage = () => {}").await;
        page.fills(&[("shut-pressure", "5.5")]).await;
        is_saved(page).await;
        page.goes_to_window(first).await;
        page.fills(&[("open-pressure", "3.1")]).await;
        page.sees("kept-state", "Another window has saved").await;
        page.clicks("take-other").await;
        stands(page, "shut-pressure", "5.5").await;
        stands(page, "open-pressure", "").await;
        page.clicks("undo").await;
        stands(page, "open-pressure", "3.1").await;
        stands(page, "shut-pressure", "4.2").await;
        is_saved(page).await;
        // what the other window saved is kept among the earlier versions
        page.opens("records").await;
        page.waits_for("an earlier version", async || page.is_there_at(".go-back").await, |there| *there)
            .await;
    });
}

#[test]
fn a_damaged_record_is_handed_over_as_it_lies_and_can_be_deleted() {
    const DAMAGED: &str = "{\"format\": \"tapside-record\", \"version\": 1, \"ro\": {\"ro-name\": \"RO o";
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one")]).await;
        is_saved(page).await;
        let cut = format!(
            "texts.getAllKeys().onsuccess = event => texts.put({}, event.target.result[0]);",
            json!(DAMAGED)
        );
        in_the_store(page, &cut).await;
        page.opens_again().await;
        page.sees("kept-state", "The saved record cannot be opened").await;
        page.hears_of_files().await;
        page.clicks("export-now").await;
        assert_eq!(page.takes_the_file().await, DAMAGED);

        page.opens("records").await;
        page.waits_for("the damaged record", async || page.is_there_at(".open-kept").await, |there| *there)
            .await;
        page.clicks_on(".open-kept").await;
        page.waits_until("export-damaged", true).await;
        page.clicks("export-damaged").await;
        assert_eq!(page.takes_the_file().await, DAMAGED);
        page.clicks_on(".kept .plain").await;
        page.waits_until("empty-bin", true).await;
        page.clicks("empty-bin").await;
        page.waits_until("empty-bin", false).await;
        assert_eq!(
            in_the_store(page, "texts.count().onsuccess = event => answer = event.target.result;").await,
            0
        );
    });
}

#[test]
fn what_is_no_record_is_deleted_only_after_it_was_handed_over() {
    visit(Screen::Desk, async |page| {
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one")]).await;
        is_saved(page).await;
        in_the_store(page, "texts.put({ letter: ['Dear all'] }, 'somebody');").await;
        page.opens_again().await;
        page.opens("records").await;
        page.waits_for("what is no record", async || page.is_there_at(".export-entry").await, |there| *there)
            .await;
        assert!(!page.is_there_at(".delete-entry").await, "it can be deleted unseen");
        page.hears_of_files().await;
        page.clicks_on(".export-entry").await;
        assert_eq!(page.takes_the_file().await, r#"{"letter":["Dear all"]}"#);
        page.waits_until_first(".delete-entry").await;
        page.clicks_on(".delete-entry").await;
        page.waits_for("it to be gone", async || page.is_there_at(".export-entry").await, |there| !there)
            .await;
        assert_eq!(listed(page).await, 1, "the record itself is there");
    });
}

#[test]
fn who_else_can_read_what_is_kept_is_said() {
    visit(Screen::Desk, async |page| {
        page.opens("records").await;
        let said = page.reads_all().await;
        let sentence = "Every other local file that is opened in this browser can read these records.";
        assert_eq!(said.matches(sentence).count(), 1, "{said}");
    });
}

#[test]
fn settings_that_forbid_every_store_are_named() {
    let forbidden = json!({ "profile.default_content_setting_values.cookies": 2 });
    visit_with(None, forbidden, async |page| {
        page.sees("kept-state", "This browser’s settings block storage for this page").await;
        page.opens("place").await;
        page.fills(&[("ro-name", "RO one")]).await;
        page.sees("kept-state", "This browser’s settings block storage for this page").await;
        page.hears_of_files().await;
        page.clicks("export-now").await;
        assert!(page.takes_the_file().await.contains("RO one"));
    });
}
