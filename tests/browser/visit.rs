//! A visit: a browser of its own, the file opened in it, and a look at what the browser complained of.

use crate::driver::{Driver, given};
use crate::page::Page;
use fantoccini::ClientBuilder;
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value as Json, json};
use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// What the page is looked at with.
#[derive(Debug, Clone, Copy)]
pub enum Screen {
    /// 360 wide, touched.
    Phone,
    /// 820 wide, touched.
    Tablet,
    /// 1400 wide.
    Desk,
}

/// Opens the finished page, does `flow`, and looks whether the browser complained of anything.
pub fn visit(screen: Screen, flow: impl AsyncFnOnce(&Page)) {
    visit_file(&given("TAPSIDE_PAGE"), screen, async |page| {
        page.waits_until("view", true).await;
        flow(page).await;
    });
}

/// The same in a browser with these preferences, or with a folder of one's own for what it keeps.
pub fn visit_with(profile: Option<&Path>, preferences: Json, flow: impl AsyncFnOnce(&Page)) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    runtime.block_on(async {
        let driver = Driver::start();
        let profile = profile.map_or_else(|| driver.profile(), |profile| profile.display().to_string());
        let mut capabilities = capabilities(Screen::Desk, &profile);
        capabilities["goog:chromeOptions"]["prefs"] = preferences;
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities)
            .connect(&driver.address())
            .await
            .unwrap_or_else(|error| panic!("no browser: {error}"));
        let page = Page::open(client, &given("TAPSIDE_PAGE")).await;
        page.waits_until("view", true).await;
        flow(&page).await;
    });
}

/// The same with any file.
pub fn visit_file(file: &Path, screen: Screen, flow: impl AsyncFnOnce(&Page)) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    runtime.block_on(async {
        let driver = Driver::start();
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities(screen, &driver.profile()))
            .connect(&driver.address())
            .await
            .unwrap_or_else(|error| panic!("no browser: {error}"));
        let page = Page::open(client, file).await;
        flow(&page).await;
        page.complains_of_nothing("the page").await;
    });
}

/// Opens the finished page with a profile that outlives the visit, does `flow`, and kills the browser with everything
/// that belongs to it, as a flat battery would. Answers with the moment of the kill too.
pub fn visit_and_kill<T>(profile: &Path, flow: impl AsyncFnOnce(&Page) -> T) -> (T, Instant) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    runtime.block_on(async {
        let driver = Driver::start();
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities(Screen::Desk, &profile.display().to_string()))
            .connect(&driver.address())
            .await
            .unwrap_or_else(|error| panic!("no browser: {error}"));
        let page = Page::open(client, &given("TAPSIDE_PAGE")).await;
        page.waits_until("view", true).await;
        let said = flow(&page).await;
        kill_all_of(&format!("--user-data-dir={}", profile.display()));
        (said, Instant::now())
    })
}

/// Kills every process with this among its words. Without a program that a small installation may lack.
fn kill_all_of(word: &str) {
    let processes = std::fs::read_dir("/proc").expect("a list of processes").flatten();
    let has_word = |process: &std::fs::DirEntry| {
        let line = std::fs::read(process.path().join("cmdline")).unwrap_or_default();
        String::from_utf8_lossy(&line).contains(word)
    };
    let numbers: Vec<_> = processes.filter(has_word).map(|process| process.file_name()).collect();
    assert!(!numbers.is_empty(), "there is no browser to kill");
    // those that end with the first of them cannot be killed any more
    Command::new("sh").args(["-c", "kill -KILL \"$@\"", "sh"]).args(numbers).status().expect("a shell");
}

/// No sandbox: in a container there is none to be had, and the only page opened is our own. Nothing in the background:
/// it would be the one thing that reaches for the network.
fn capabilities(screen: Screen, profile: &str) -> Map<String, Json> {
    let mut options = json!({
        "binary": given("CHROME"),
        "args": [
            "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-quic", "--disable-sync",
            "--no-first-run", "--disable-background-networking", "--disable-component-update", "--lang=en",
            "--window-size=1400,1000", format!("--user-data-dir={profile}"),
        ],
    });
    let touched = |width: u32, height: u32, ratio: f64| {
        let screen =
            json!({"width": width, "height": height, "pixelRatio": ratio, "touch": true, "mobile": true});
        json!({ "deviceMetrics": screen })
    };
    match screen {
        Screen::Phone => options["mobileEmulation"] = touched(360, 800, 3.0),
        Screen::Tablet => options["mobileEmulation"] = touched(820, 1180, 2.0),
        Screen::Desk => {}
    }
    let capabilities = json!({"goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"}});
    capabilities.as_object().cloned().unwrap_or_default()
}
