//! The store of records in a real browser's database: what is saved is there, and nothing is lost to another window, to
//! a damaged entry, to a full device or to a browser without a store.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::unwrap_used, reason = "a test that unwraps fails where it should")]

use calc::documents::record::{Event, Fault, Held, LARGEST, Part, Record, Typed, When, kinds};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, future_to_promise};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web::store::{Id, RING, Store, Trouble};
use web_sys::js_sys::{Array, Promise, eval};

wasm_bindgen_test_configure!(run_in_browser);

/// A record whose RO has this name.
fn record(name: &str) -> Record {
    let plan = calc::program::catalogue::find("plan").unwrap().declaration;
    let field = plan.inputs.iter().find(|field| field.id == "ro-name").unwrap();
    let mut record = Record::new();
    record.set(Part::Ro, field, Held::One(Typed::new(field, name, None))).unwrap();
    record
}

/// The same record with something that happened on a day.
fn with_event(record: &Record, id: &str, day: &str, words: &str) -> Record {
    let mut record = record.clone();
    let mut event = Event::new(id, &kinds::MOVED, When::read(day).unwrap(), None);
    event.note = words.to_owned();
    record.add_event(event).unwrap();
    record
}

/// The same record under another name.
fn renamed(record: &Record, name: &str) -> Record {
    let plan = calc::program::catalogue::find("plan").unwrap().declaration;
    let field = plan.inputs.iter().find(|field| field.id == "ro-name").unwrap();
    let mut record = record.clone();
    record.set(Part::Ro, field, Held::One(Typed::new(field, name, None))).unwrap();
    record
}

/// The parts that lie in a database, each with the revision that wrote it.
async fn parts(database: &str) -> Vec<String> {
    let script = "database.transaction('tapside-texts-1').objectStore('tapside-texts-1').getAllKeys()
        .onsuccess = event => end(event.target.result.map(key => typeof key === 'string' ? 'whole' : `${key[1]} ${key[2]}`))";
    let keys = Array::from(&behind(database, script).await);
    let mut parts: Vec<String> = keys.iter().filter_map(|key| key.as_string()).collect();
    parts.sort_unstable();
    parts
}

/// Runs a script that knows of an open database as `database`, and waits for its promise.
async fn behind(database: &str, script: &str) -> JsValue {
    let script = format!(
        "new Promise((done, failed) => {{
            const request = indexedDB.open('{database}');
            request.onerror = failed;
            request.onsuccess = () => {{
                const database = request.result;
                const end = value => {{ database.close(); done(value) }};
                {script}
            }};
        }})"
    );
    JsFuture::from(Promise::from(eval(&script).unwrap())).await.unwrap()
}

/// What lies in the store, by name.
async fn names(store: &Store) -> Vec<String> {
    let mut names: Vec<String> =
        store.list().await.unwrap().records.into_iter().map(|head| head.name).collect();
    names.sort_unstable();
    names
}

/// What a window that is opened next takes up: the names, with the revision that each became.
async fn taken_up(database: &str) -> Vec<(String, u64)> {
    let store = Store::open(database).await.unwrap();
    let taken = store.take_up().await.unwrap();
    assert_eq!(store.take_up().await.unwrap(), [], "taken up twice");
    for loaded in &taken {
        assert_eq!(store.load(&loaded.head.id).await.unwrap().record, loaded.record);
    }
    store.close();
    taken.into_iter().map(|loaded| (loaded.head.name, loaded.head.revision)).collect()
}

/// Puts a text where the store keeps its own.
async fn puts(database: &str, store: &str, key: &str, text: &str) {
    let (key, text) = (serde_json::json!(key), serde_json::json!(text));
    let script = format!(
        "const change = database.transaction(['{store}'], 'readwrite');
        change.objectStore('{store}').put({text}, {key});
        change.oncomplete = () => end(null);"
    );
    behind(database, &script).await;
}

#[wasm_bindgen_test]
async fn what_is_saved_is_there_again() {
    let store = Store::open("saved").await.unwrap();
    let (first, second) = (Id::draw().unwrap(), Id::draw().unwrap());
    assert_ne!(first, second);
    let head = store.save(&first, None, &record("RO 1")).await.unwrap();
    assert_eq!((head.revision, head.name.as_str()), (1, "RO 1"));
    let head = store.save(&first, Some(1), &record("<b>RO 2</b>")).await.unwrap();
    assert_eq!(head.revision, 2);
    store.save(&second, None, &record("another")).await.unwrap();
    store.close();

    // as after a start anew
    let store = Store::open("saved").await.unwrap();
    let loaded = store.load(&first).await.unwrap();
    assert_eq!(loaded.record, record("<b>RO 2</b>"));
    assert_eq!(loaded.head.revision, 2);
    let listed = store.list().await.unwrap();
    let mut names: Vec<&str> = listed.records.iter().map(|head| head.name.as_str()).collect();
    names.sort_unstable();
    assert_eq!(names, ["<b>RO 2</b>", "another"]);
    assert!(listed.foreign.is_empty() && listed.binned.is_empty());
    // the one that was opened last, not the one that was saved last
    assert_eq!(store.last().await.unwrap(), Some(first));
    assert_eq!(store.load(&Id::draw().unwrap()).await, Err(Trouble::Gone));
}

#[wasm_bindgen_test]
async fn another_window_overwrites_nothing_and_is_not_overwritten() {
    let (mine, other) = (Store::open("two").await.unwrap(), Store::open("two").await.unwrap());
    let id = Id::draw().unwrap();
    mine.save(&id, None, &record("at first")).await.unwrap();
    let seen = other.load(&id).await.unwrap().head.revision;
    other.save(&id, Some(seen), &record("of the other")).await.unwrap();

    let refused = mine.save(&id, Some(1), &record("mine")).await.unwrap_err();
    let Trouble::Conflict(head) = &refused else { panic!("{refused:?}") };
    assert_eq!((head.revision, head.name.as_str()), (2, "of the other"));
    assert_eq!(mine.load(&id).await.unwrap().record, record("of the other"));

    // keep both
    let own = Id::draw().unwrap();
    mine.save(&own, None, &record("mine")).await.unwrap();
    assert_eq!(mine.list().await.unwrap().records.len(), 2);

    // both at once: one of them
    let race = [(mine, "a"), (other, "b")].map(|(store, name)| {
        let id = id.clone();
        future_to_promise(async move {
            let outcome = store.save(&id, Some(2), &record(name)).await;
            assert!(matches!(outcome, Ok(_) | Err(Trouble::Conflict(_))), "{outcome:?}");
            Ok(outcome.is_ok().into())
        })
    });
    let saved = JsFuture::from(Promise::all(&Array::from_iter(race))).await.unwrap();
    let saved = Array::from(&saved).iter().filter(JsValue::is_truthy).count();
    assert_eq!(saved, 1);
}

#[wasm_bindgen_test]
async fn what_could_not_be_opened_again_is_not_written() {
    let store = Store::open("large").await.unwrap();
    let id = Id::draw().unwrap();
    store.save(&id, None, &record("RO 1")).await.unwrap();
    let large = record(&"W".repeat(LARGEST));
    assert_eq!(store.save(&id, Some(1), &large).await, Err(Trouble::TooLarge));
    assert_eq!(store.load(&id).await.unwrap().record, record("RO 1"));
}

#[wasm_bindgen_test]
async fn what_is_no_text_is_handed_over_and_forgotten_when_asked() {
    let store = Store::open("others").await.unwrap();
    store.save(&Id::draw().unwrap(), None, &record("RO 1")).await.unwrap();
    let script = "const change = database.transaction(['tapside-texts-1'], 'readwrite');
        change.objectStore('tapside-texts-1').put([1, 'two'], 7);
        change.oncomplete = () => end(null);";
    behind("others", script).await;
    let [key] = &store.list().await.unwrap().foreign[..] else { panic!("one key") };
    assert_eq!(store.raw(key).await.unwrap().as_deref(), Some(r#"[1,"two"]"#));
    store.forget(key).await.unwrap();
    assert!(store.list().await.unwrap().foreign.is_empty());
    assert_eq!(names(&store).await, ["RO 1"]);
}

#[wasm_bindgen_test]
async fn a_store_that_the_browser_closed_is_opened_anew_as_the_same_window() {
    let store = Store::open("again").await.unwrap();
    let id = Id::draw().unwrap();
    store.save(&id, None, &record("RO 1")).await.unwrap();
    store.close();
    assert_eq!(store.save(&id, Some(1), &record("RO 2")).await, Err(Trouble::Closed));
    let anew = store.again("again").await.unwrap();
    assert_eq!(anew.save(&id, Some(1), &record("RO 2")).await.unwrap().revision, 2);
    assert_eq!(anew.load(&id).await.unwrap().record, record("RO 2"));
}

#[wasm_bindgen_test]
async fn the_last_twenty_states_can_come_back() {
    let store = Store::open("ring").await.unwrap();
    let id = Id::draw().unwrap();
    let mut seen = store.save(&id, None, &record("state 1")).await.unwrap().revision;
    // twenty key presses within a minute are one state at most
    for name in 2..=5 {
        seen = store.save(&id, Some(seen), &record(&format!("state {name}"))).await.unwrap().revision;
    }
    assert_eq!(store.history(&id).await.unwrap(), []);

    // each opening puts aside how the record stands
    for name in 6..=30 {
        let opened = store.load(&id).await.unwrap();
        assert_eq!(store.load(&id).await.unwrap().record, opened.record, "opened twice");
        seen = store.save(&id, Some(seen), &record(&format!("state {name}"))).await.unwrap().revision;
    }
    let states = store.history(&id).await.unwrap();
    assert_eq!(states.len(), RING);
    let revisions: Vec<u64> = states.iter().map(|state| state.revision).collect();
    assert_eq!(revisions, (10..=29).rev().collect::<Vec<_>>());
    for state in &states {
        let name = format!("state {}", state.revision);
        assert_eq!(store.state(&id, *state).await.unwrap(), record(&name));
    }

    let restored = store.restore(&id, seen, states[19]).await.unwrap();
    assert_eq!(restored.record, record("state 10"));
    assert_eq!(restored.head.revision, 31);
    assert_eq!(store.load(&id).await.unwrap().record, record("state 10"));
    // what stood there till then is the latest of the earlier states, but for what the opening put aside
    let states = store.history(&id).await.unwrap();
    assert_eq!(states.iter().map(|state| state.revision).take(2).collect::<Vec<_>>(), [31, 30]);
    assert_eq!(store.state(&id, states[1]).await.unwrap(), record("state 30"));

    let other = Id::draw().unwrap();
    store.save(&other, None, &record("another")).await.unwrap();
    assert_eq!(store.history(&other).await.unwrap(), [], "of another record");
}

#[wasm_bindgen_test]
async fn a_minute_later_what_is_written_over_is_put_aside() {
    let store = Store::open("minute").await.unwrap();
    let id = Id::draw().unwrap();
    store.save(&id, None, &record("at first")).await.unwrap();
    let clock = "window.clock = Date.now; Date.now = () => clock.call(Date) + 61000";
    eval(clock).unwrap();
    let outcome = store.save(&id, Some(1), &record("a minute later")).await;
    eval("Date.now = window.clock").unwrap();
    outcome.unwrap();
    let states = store.history(&id).await.unwrap();
    assert_eq!(states.len(), 1);
    assert_eq!(store.state(&id, states[0]).await.unwrap(), record("at first"));
}

#[wasm_bindgen_test]
async fn the_bin_gives_back_until_it_is_emptied() {
    let store = Store::open("bin").await.unwrap();
    let (id, other) = (Id::draw().unwrap(), Id::draw().unwrap());
    store.save(&id, None, &record("RO 1")).await.unwrap();
    store.save(&other, None, &record("RO 2")).await.unwrap();
    store.load(&id).await.unwrap();
    store.bin(&id, 1, true).await.unwrap();
    let listed = store.list().await.unwrap();
    assert_eq!((listed.records.len(), listed.binned.len()), (1, 1));
    assert_eq!(store.last().await.unwrap(), Some(other.clone()));

    // a window in which it is still open hears of it
    let refused = store.save(&id, Some(1), &record("typed on")).await.unwrap_err();
    assert!(matches!(&refused, Trouble::Conflict(head) if head.binned.is_some()), "{refused:?}");

    store.bin(&id, 2, false).await.unwrap();
    assert_eq!(store.load(&id).await.unwrap().record, record("RO 1"));
    store.bin(&id, 3, true).await.unwrap();
    assert_eq!(store.empty_bin().await, Ok(1));
    assert_eq!(store.load(&id).await, Err(Trouble::Gone));
    assert_eq!(store.history(&id).await.unwrap(), []);
    assert_eq!(store.load(&other).await.unwrap().record, record("RO 2"));
    assert_eq!(store.save(&id, Some(4), &record("typed on")).await, Err(Trouble::Gone));
}

#[wasm_bindgen_test]
async fn what_is_damaged_or_foreign_is_told_and_left_as_it_is() {
    let store = Store::open("damaged").await.unwrap();
    let (sound, hurt) = (Id::draw().unwrap(), Id::draw().unwrap());
    store.save(&sound, None, &record("sound")).await.unwrap();
    store.save(&hurt, None, &record("hurt")).await.unwrap();
    let half = r#"{"format": "tapside-record", "version": 1, "ro""#;
    puts("damaged", "tapside-texts-1", hurt.text(), half).await;
    puts("damaged", "tapside-records-1", "settings", "{}").await;
    puts("damaged", "tapside-texts-1", "a letter", "Dear all").await;
    puts("damaged", "tapside-records-1", "ffffffffffffffffffffffffffffffff", "7").await;

    let listed = store.list().await.unwrap();
    assert_eq!(listed.records.len(), 2);
    let mut foreign = listed.foreign.clone();
    foreign.sort();
    assert_eq!(foreign, ["a letter", "ffffffffffffffffffffffffffffffff", "settings"]);
    assert_eq!(store.raw("a letter").await.unwrap().as_deref(), Some("Dear all"));

    let refused = store.load(&hurt).await.unwrap_err();
    let Trouble::Damaged { why, text } = &refused else { panic!("{refused:?}") };
    assert!(why.contains("ends too early"), "{why}");
    assert_eq!(text, half);
    assert_eq!(store.raw(hurt.text()).await.unwrap().as_deref(), Some(half));
    let taken = Id::read("ffffffffffffffffffffffffffffffff").unwrap();
    assert_eq!(store.save(&taken, None, &record("over it")).await, Err(Trouble::Foreign));

    assert_eq!(store.list().await.unwrap(), listed);
    assert_eq!(store.load(&sound).await.unwrap().record, record("sound"));
}

#[wasm_bindgen_test]
async fn a_database_of_another_program_is_left_alone() {
    let make = "new Promise(done => {
        const request = indexedDB.open('elsewhere', 1);
        request.onupgradeneeded = () => request.result.createObjectStore('settings');
        request.onsuccess = () => { request.result.close(); done() };
    })";
    JsFuture::from(Promise::from(eval(make).unwrap())).await.unwrap();
    assert_eq!(Store::open("elsewhere").await.unwrap_err(), Trouble::Foreign);

    let newer = "new Promise(done => {
        const request = indexedDB.open('newer', 2);
        request.onsuccess = () => { request.result.close(); done() };
    })";
    JsFuture::from(Promise::from(eval(newer).unwrap())).await.unwrap();
    assert_eq!(Store::open("newer").await.unwrap_err(), Trouble::Newer);
}

#[wasm_bindgen_test]
async fn a_newer_program_takes_over_and_this_one_says_so() {
    let store = Store::open("taken over").await.unwrap();
    let take = "new Promise(done => {
        const request = indexedDB.open('taken over', 2);
        request.onsuccess = () => { request.result.close(); done() };
    })";
    // it would wait for ever if this window did not let go
    JsFuture::from(Promise::from(eval(take).unwrap())).await.unwrap();
    let refused = store.save(&Id::draw().unwrap(), None, &record("RO 1")).await;
    assert_eq!(refused, Err(Trouble::Closed));
}

#[wasm_bindgen_test]
async fn a_browser_without_a_store_says_so() {
    eval("window.own = Object.getOwnPropertyDescriptor(window, 'indexedDB')").unwrap();
    for (offer, trouble) in [
        ("return undefined", Trouble::Absent),
        ("return null", Trouble::Absent),
        ("throw new DOMException('forbidden here', 'SecurityError')", Trouble::Forbidden),
    ] {
        let hide = format!(
            "Object.defineProperty(window, 'indexedDB', {{ configurable: true, get() {{ {offer} }} }})"
        );
        eval(&hide).unwrap();
        let opened = Store::open("absent").await;
        eval("Object.defineProperty(window, 'indexedDB', window.own)").unwrap();
        assert_eq!(opened.unwrap_err(), trouble, "{offer}");
    }
    Store::open("absent").await.unwrap();
}

#[wasm_bindgen_test]
async fn a_full_store_says_so_and_keeps_what_it_has() {
    let store = Store::open("full").await.unwrap();
    let id = Id::draw().unwrap();
    store.save(&id, None, &record("RO 1")).await.unwrap();
    let fill = "window.put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function () { throw new DOMException('no room', 'QuotaExceededError') }";
    eval(fill).unwrap();
    let refused = store.save(&id, Some(1), &record("RO 2")).await;
    let loaded = store.load(&id).await;
    eval("IDBObjectStore.prototype.put = window.put").unwrap();
    assert_eq!(refused, Err(Trouble::Full));
    assert_eq!(loaded.unwrap().record, record("RO 1"));

    // earlier states must not keep the present one out
    let fill = "window.put = IDBObjectStore.prototype.put;
        window.clock = Date.now; Date.now = () => clock.call(Date) + 61000;
        IDBObjectStore.prototype.put = function (value, key) {
            if (this.name === 'tapside-states-1') { throw new DOMException('no room', 'QuotaExceededError') }
            return window.put.call(this, value, key)
        }";
    eval(fill).unwrap();
    let saved = store.save(&id, Some(1), &record("RO 2")).await;
    eval("IDBObjectStore.prototype.put = window.put; Date.now = window.clock").unwrap();
    assert_eq!(saved.unwrap().revision, 2);
    assert_eq!(store.load(&id).await.unwrap().record, record("RO 2"));
}

#[wasm_bindgen_test]
async fn what_was_left_behind_goes_on_where_nobody_saved_since() {
    let store = Store::open("left").await.unwrap();
    let id = Id::draw().unwrap();
    let seen = store.save(&id, None, &record("saved")).await.unwrap().revision;
    store.leave(&id, Some(seen), &record("typed on")).unwrap();
    // left twice, as by a page that came back into sight: the later counts
    store.leave(&id, Some(seen), &record("and on")).unwrap();
    assert_eq!(taken_up("left").await, [("and on".to_owned(), 2)]);
    assert_eq!(names(&store).await, ["and on"]);
    // what it was written over is the latest of the earlier states, but for what the opening put aside
    let states = store.history(&id).await.unwrap();
    assert_eq!(store.state(&id, *states.last().unwrap()).await.unwrap(), record("saved"));

    // a new record, never saved
    store.leave(&Id::draw().unwrap(), None, &record("new")).unwrap();
    assert_eq!(taken_up("left").await, [("new".to_owned(), 1)]);
    assert_eq!(names(&store).await, ["and on", "new"]);
}

#[wasm_bindgen_test]
async fn a_saving_that_was_not_heard_of_makes_no_second_record() {
    let store = Store::open("unheard").await.unwrap();
    let id = Id::draw().unwrap();
    // the page went away while its saving was on the way, so it still believes in what it saw before
    store.save(&id, None, &record("at first")).await.unwrap();
    store.leave(&id, None, &record("typed on")).unwrap();
    assert_eq!(taken_up("unheard").await, [("typed on".to_owned(), 2)]);

    let store = Store::open("unheard").await.unwrap();
    let seen = store.load(&id).await.unwrap().head.revision;
    store.save(&id, Some(seen), &record("next")).await.unwrap();
    store.leave(&id, Some(seen), &record("typed on again")).unwrap();
    assert_eq!(taken_up("unheard").await, [("typed on again".to_owned(), 4)]);
    assert_eq!(names(&store).await, ["typed on again"]);

    // nothing more was typed than what was saved
    let store = Store::open("unheard").await.unwrap();
    store.save(&id, Some(4), &record("all of it")).await.unwrap();
    store.leave(&id, Some(4), &record("all of it")).unwrap();
    assert_eq!(taken_up("unheard").await, []);
    assert_eq!(names(&store).await, ["all of it"]);
}

#[wasm_bindgen_test]
async fn what_was_left_behind_writes_over_nothing_of_another_window() {
    let (mine, other) =
        (Store::open("left by two").await.unwrap(), Store::open("left by two").await.unwrap());
    let id = Id::draw().unwrap();
    let seen = mine.save(&id, None, &record("at first")).await.unwrap().revision;
    let head = other.save(&id, Some(seen), &record("of the other")).await.unwrap();
    mine.leave(&id, Some(seen), &record("mine")).unwrap();
    assert_eq!(taken_up("left by two").await, [("mine".to_owned(), 1)]);
    assert_eq!(names(&mine).await, ["mine", "of the other"]);
    assert_eq!(mine.load(&id).await.unwrap().record, record("of the other"));

    // nor what was put in the bin
    let head = other.bin(&id, head.revision, true).await.unwrap();
    other.leave(&id, Some(head.revision), &record("typed into the bin")).unwrap();
    taken_up("left by two").await;
    assert_eq!(names(&mine).await, ["mine", "typed into the bin"]);
    assert_eq!(mine.list().await.unwrap().binned.len(), 1);
}

#[wasm_bindgen_test]
async fn what_was_left_behind_is_forgotten_once_it_is_saved_and_kept_while_it_is_no_record() {
    let store = Store::open("left and back").await.unwrap();
    let id = Id::draw().unwrap();
    let seen = store.save(&id, None, &record("at first")).await.unwrap().revision;
    store.leave(&id, Some(seen), &record("typed on")).unwrap();
    // the page came back and saved
    store.save(&id, Some(seen), &record("saved after all")).await.unwrap();
    assert_eq!(taken_up("left and back").await, []);
    assert_eq!(names(&store).await, ["saved after all"]);

    let put = "const change = database.transaction(['tapside-last-words-1'], 'readwrite');
        const words = change.objectStore('tapside-last-words-1');
        words.put('Dear all', 'a letter');
        words.put('{}', ['0'.repeat(32), '1'.repeat(32), 0, 0]);
        change.oncomplete = () => end(null);";
    behind("left and back", put).await;
    assert_eq!(taken_up("left and back").await, []);
    let count = "database.transaction('tapside-last-words-1').objectStore('tapside-last-words-1').count()
        .onsuccess = event => end(event.target.result)";
    assert_eq!(behind("left and back", count).await.as_f64(), Some(2.0));
}

#[wasm_bindgen_test]
async fn a_saving_writes_the_part_that_changed_and_no_other() {
    let store = Store::open("parts").await.unwrap();
    let id = Id::draw().unwrap();
    let first = with_event(&record("RO 1"), "a", "2026-11-12", "");
    store.save(&id, None, &first).await.unwrap();
    assert_eq!(parts("parts").await, ["events-2026 1", "fields 1"]);
    let second = with_event(&first, "b", "2027-01-02", "");
    store.save(&id, Some(1), &second).await.unwrap();
    assert_eq!(parts("parts").await, ["events-2026 1", "events-2027 2", "fields 1"]);
    let third = renamed(&second, "RO 2");
    store.save(&id, Some(2), &third).await.unwrap();
    assert_eq!(parts("parts").await, ["events-2026 1", "events-2027 2", "fields 3"]);
    // undone again: a year that no event is in any more goes, and comes back
    store.save(&id, Some(3), &renamed(&first, "RO 2")).await.unwrap();
    assert_eq!(parts("parts").await, ["events-2026 1", "fields 4"]);
    store.save(&id, Some(4), &third).await.unwrap();
    store.close();

    let store = Store::open("parts").await.unwrap();
    let loaded = store.load(&id).await.unwrap();
    assert_eq!(loaded.record.text(), third.text());
    // opened and shown, it goes on part by part
    store.shows(&loaded);
    store.save(&id, Some(5), &renamed(&loaded.record, "RO 3")).await.unwrap();
    let written = parts("parts").await;
    assert!(written.contains(&"fields 6".to_owned()), "{written:?}");
    assert!(!written.iter().any(|part| part.starts_with("events") && part.ends_with('6')), "{written:?}");
}

#[wasm_bindgen_test]
async fn what_is_interrupted_leaves_the_old_state_whole() {
    let store = Store::open("interrupted").await.unwrap();
    let id = Id::draw().unwrap();
    let before = with_event(&record("RO 1"), "a", "2026-11-12", "");
    store.save(&id, None, &before).await.unwrap();
    // the parts are written one after the other; here the browser refuses the last of them, after the others were put
    let refuse = "window.put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (value, key) {
            if (Array.isArray(key) && key[1] === 'fields') { throw new DOMException('no room', 'QuotaExceededError') }
            return window.put.call(this, value, key)
        }";
    eval(refuse).unwrap();
    let after = renamed(&with_event(&before, "b", "2027-01-02", ""), "RO 2");
    let refused = store.save(&id, Some(1), &after).await;
    eval("IDBObjectStore.prototype.put = window.put").unwrap();
    assert_eq!(refused, Err(Trouble::Full));
    assert_eq!(parts("interrupted").await, ["events-2026 1", "fields 1"]);
    assert_eq!(store.load(&id).await.unwrap().record.text(), before.text());
    assert_eq!(store.save(&id, Some(1), &after).await.unwrap().revision, 2);
    assert_eq!(store.load(&id).await.unwrap().record.text(), after.text());
}

#[wasm_bindgen_test]
async fn what_an_older_program_kept_as_one_text_goes_on_in_parts() {
    let store = Store::open("older").await.unwrap();
    let id = Id::draw().unwrap();
    let kept = with_event(&record("RO 1"), "a", "2026-11-12", "");
    let head = r#"{"format": "tapside-kept", "revision": 7, "saved": 7, "opened": 7, "taken": 7, "name": "RO 1", "binned": null, "by": null}"#;
    puts("older", "tapside-texts-1", id.text(), &kept.text()).await;
    puts("older", "tapside-records-1", id.text(), head).await;
    assert_eq!(names(&store).await, ["RO 1"]);
    let loaded = store.load(&id).await.unwrap();
    assert_eq!((loaded.head.revision, loaded.record.text()), (7, kept.text()));
    store.shows(&loaded);
    let next = renamed(&loaded.record, "RO 2");
    store.save(&id, Some(7), &next).await.unwrap();
    // opened as a whole, every part is written once
    assert_eq!(parts("older").await, ["events-2026 8", "fields 8"]);
    assert_eq!(store.load(&id).await.unwrap().record.text(), next.text());
    let oldest = *store.history(&id).await.unwrap().last().unwrap();
    assert_eq!(store.state(&id, oldest).await.unwrap().text(), kept.text());
    store.restore(&id, 8, oldest).await.unwrap();
    assert_eq!(store.load(&id).await.unwrap().record.text(), kept.text());
}

#[wasm_bindgen_test]
async fn two_windows_keep_the_events_of_both() {
    let (mine, other) = (Store::open("events").await.unwrap(), Store::open("events").await.unwrap());
    let id = Id::draw().unwrap();
    let base = with_event(&record("RO 1"), "base", "2026-11-12", "");
    mine.save(&id, None, &base).await.unwrap();
    let there = other.load(&id).await.unwrap();
    other.shows(&there);
    let theirs = with_event(
        &with_event(&there.record, "theirs", "2026-11-13", ""),
        "same",
        "2026-11-14",
        "of the other",
    );
    other.save(&id, Some(1), &theirs).await.unwrap();

    // and a field that only this window changed
    let ours = with_event(&with_event(&base, "mine", "2026-11-13", ""), "same", "2026-11-14", "mine");
    let ours = renamed(&ours, "RO 2");
    let head = mine.save(&id, Some(1), &ours).await.unwrap();
    assert_eq!((head.revision, head.name.as_str()), (3, "RO 2"));
    assert!(mine.has_more(&id));
    // typed on before it could be shown
    let on = with_event(&ours, "on", "2026-11-15", "");
    assert_eq!(mine.save(&id, Some(3), &on).await.unwrap().revision, 4);
    assert!(mine.has_more(&id));
    let loaded = mine.load(&id).await.unwrap();
    mine.shows(&loaded);
    assert!(!mine.has_more(&id));
    let ids: Vec<String> = loaded.record.events().map(|event| event.id.to_string()).collect();
    assert_eq!(ids.len(), 6, "{ids:?}");
    for id in ["base", "theirs", "mine", "on", "same"] {
        assert!(ids.contains(&id.to_owned()), "{ids:?}");
    }
    // two different events of one id: both are there, and it is named
    let notes: Vec<&str> =
        loaded.record.events().map(|event| event.note.as_str()).filter(|note| !note.is_empty()).collect();
    assert_eq!(notes.len(), 2, "{notes:?}");
    assert!(matches!(loaded.record.faults(), [Fault::TwoOfOneId(..)]), "{:?}", loaded.record.faults());
    assert_eq!(loaded.record.ro().word("ro-name"), Some("RO 2"));

    // the other window goes on from what it has
    let theirs = with_event(&theirs, "later", "2026-11-16", "");
    assert_eq!(other.save(&id, Some(2), &theirs).await.unwrap().revision, 5);
    assert_eq!(other.load(&id).await.unwrap().record.count(), 7);
    // a field that both changed stays a conflict
    let clash = renamed(&loaded.record, "RO 3");
    mine.save(&id, Some(4), &clash).await.unwrap();
    let refused = other.save(&id, Some(5), &renamed(&theirs, "RO 4")).await.unwrap_err();
    assert!(matches!(refused, Trouble::Conflict(_)), "{refused:?}");
}

#[wasm_bindgen_test]
async fn earlier_states_share_their_parts_and_leave_none_behind() {
    let store = Store::open("shared").await.unwrap();
    let id = Id::draw().unwrap();
    let mut record = with_event(&record("state 1"), "a", "2026-11-12", "");
    let mut seen = store.save(&id, None, &record).await.unwrap().revision;
    for name in 2..=40 {
        let loaded = store.load(&id).await.unwrap();
        store.shows(&loaded);
        record = renamed(&loaded.record, &format!("state {name}"));
        seen = store.save(&id, Some(seen), &record).await.unwrap().revision;
        // a saving that no state was put aside for
        seen = store
            .save(&id, Some(seen), &renamed(&record, &format!("state {name} and on")))
            .await
            .unwrap()
            .revision;
    }
    for state in store.history(&id).await.unwrap() {
        assert!(store.state(&id, state).await.unwrap().event("a").is_some());
    }
    let parts = parts("shared").await;
    let years = parts.iter().filter(|part| part.starts_with("events")).count();
    assert_eq!((years, parts.len()), (1, 1 + RING + 1), "{parts:?}");
    // what an earlier state lists and is not there is told
    let lose = "const change = database.transaction(['tapside-texts-1'], 'readwrite');
        const texts = change.objectStore('tapside-texts-1');
        texts.getAllKeys().onsuccess = event =>
            event.target.result.filter(key => key[1].startsWith('events')).forEach(key => texts.delete(key));
        change.oncomplete = () => end(null);";
    behind("shared", lose).await;
    assert!(matches!(store.load(&id).await, Err(Trouble::Damaged { .. })));
}
