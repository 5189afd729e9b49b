//! The finished page in a browser, and what a person does with it.

use crate::console::{Chromium, Log};
use fantoccini::elements::Element;
use fantoccini::wd::WindowHandle;
use fantoccini::{Client, Locator};
use serde_json::{Value as Json, json};
use std::fmt::Debug;
use std::path::Path;
use std::time::{Duration, Instant};

pub use fantoccini::key::Key;

/// How long a person waits until something is there.
const PATIENCE: Duration = Duration::from_secs(10);

/// A page that somebody has opened.
pub struct Page {
    client: Client,
}

impl Page {
    /// Opens a file.
    pub async fn open(client: Client, file: &Path) -> Self {
        let file = file.canonicalize().unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let address = url::Url::from_file_path(file).expect("an absolute path");
        client.goto(address.as_str()).await.expect("a file that opens");
        Self { client }
    }
}

/// What a person does.
impl Page {
    /// Goes to a sheet by its link in the list of sheets.
    pub async fn opens_sheet(&self, sheet: &str) {
        let link = format!("sheet-{sheet}");
        if !self.is_there(&link).await {
            self.follows("section-sheets").await;
            self.waits_until(&link, true).await;
        }
        self.follows(&link).await;
    }

    /// Goes to a section.
    pub async fn opens(&self, section: &str) {
        self.follows(&format!("section-{section}")).await;
    }

    /// Opens an invented room, and all its numbers.
    pub async fn opens_room(&self, room: &str) {
        self.goes_to_start().await;
        self.clicks(room).await;
        self.finds_itself_in("view").await;
        self.opens_sheet("plan").await;
    }

    /// Goes back to where one begins.
    pub async fn goes_to_start(&self) {
        self.follows("start").await;
    }

    /// Follows a link of the page's lists, of which one is folded on a phone.
    async fn follows(&self, link: &str) {
        if !self.element(link).await.is_displayed().await.unwrap_or(false) {
            self.clicks_on(".navigation .fold").await;
        }
        self.clicks(link).await;
        let here = async || self.asks_of(link, "element.ariaCurrent").await;
        self.waits_for(&format!("the view of {link}"), here, |here| *here == "page").await;
    }

    /// Clicks on what has this id.
    pub async fn clicks(&self, id: &str) {
        self.clicks_on(&format!("#{id}")).await;
    }

    /// Clicks on the first that matches.
    pub async fn clicks_on(&self, css: &str) {
        let element = self.first(css).await;
        // to where nothing lies over it, as a person would move it
        self.asks_with(
            "document.querySelector(arguments[0]).scrollIntoView({block: 'center'})",
            vec![json!(css)],
        )
        .await;
        element.click().await.unwrap_or_else(|error| panic!("a click on {css}: {error}"));
    }

    /// Replaces what stands in a field by typing, and stays in it.
    pub async fn types(&self, field: &str, text: &str) {
        let element = self.element(field).await;
        let all = format!("{}a{}", char::from(Key::Control), char::from(Key::Null));
        let text = if text.is_empty() { char::from(Key::Delete).to_string() } else { text.to_owned() };
        element
            .send_keys(&(all + &text))
            .await
            .unwrap_or_else(|error| panic!("typing into {field}: {error}"));
    }

    /// Types wherever the focus is.
    pub async fn types_there(&self, text: &str) {
        let focused = self.client.active_element().await.expect("an element with the focus");
        focused.send_keys(text).await.unwrap_or_else(|error| panic!("typing {text:?}: {error}"));
    }

    /// Presses a key.
    pub async fn presses(&self, key: Key) {
        self.types_there(&char::from(key).to_string()).await;
    }

    /// Goes on to the next control.
    pub async fn tabs(&self) {
        self.presses(Key::Tab).await;
    }

    /// Fills fields, one after the other, and leaves the last one.
    pub async fn fills(&self, fields: &[(&str, &str)]) {
        for (field, text) in fields {
            self.types(field, text).await;
        }
        self.tabs().await;
    }

    /// Opens the arithmetic, by a key: where the answers stand can still move.
    pub async fn opens_arithmetic(&self) {
        self.unfolds("working").await;
    }

    /// Opens a fold by a key, unless it stands open.
    pub async fn opens_fold(&self, fold: &str) {
        if self.asks_of(fold, "element.open").await != true {
            self.unfolds(fold).await;
        }
    }

    /// Opens a fold by a key.
    pub async fn unfolds(&self, fold: &str) {
        let summary = self.first(&format!("#{fold} > summary")).await;
        summary.send_keys(&char::from(Key::Enter).to_string()).await.expect("a fold that can be opened");
        let is_open = async || self.asks_of(fold, "element.open").await;
        self.waits_for(&format!("{fold} to open"), is_open, |open| *open == true).await;
        // what stands in it comes after
        self.waits_until_first(&format!("#{fold} > :nth-child(2)")).await;
    }

    /// Takes from a list what has this value.
    pub async fn takes(&self, list: &str, value: &str) {
        let element = self.element(list).await;
        element
            .select_by_value(value)
            .await
            .unwrap_or_else(|error| panic!("taking {value} from {list}: {error}"));
    }

    /// Puts the focus on something that can have it.
    pub async fn goes_to(&self, id: &str) {
        self.asks_of(id, "element.focus()").await;
        self.finds_itself_in(id).await;
    }

    /// Waits until something matches.
    pub async fn waits_until_first(&self, css: &str) {
        let script = "return document.querySelector(arguments[0]) !== null";
        let look = async || self.asks_with(script, vec![json!(css)]).await;
        self.waits_for(css, look, |there| *there == true).await;
    }

    /// Takes a value from a list.
    pub async fn chooses(&self, list: &str, words: &str) {
        let list = self.element(list).await;
        list.select_by_label(words).await.unwrap_or_else(|error| panic!("choosing {words}: {error}"));
    }

    /// Gives a file to a file input.
    pub async fn opens_file(&self, input: &str, file: &Path) {
        self.element(input).await.send_keys(&file.display().to_string()).await.expect("a file input");
    }
}

/// What a person sees.
impl Page {
    /// Whether anything has this id.
    pub async fn is_there(&self, id: &str) -> bool {
        self.asks_of(id, "element !== null").await == true
    }

    /// The words of what has this id, each space a plain one; empty where nothing can be seen.
    pub async fn reads(&self, id: &str) -> String {
        let words = self.asks_of(id, "element && element.checkVisibility() ? element.innerText : ''").await;
        words.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Whether anything matches.
    pub async fn is_there_at(&self, css: &str) -> bool {
        self.asks_with("return document.querySelector(arguments[0]) !== null", vec![json!(css)]).await == true
    }

    /// What stands in a field.
    pub async fn stands_in(&self, field: &str) -> String {
        self.asks_of(field, "element.value").await.as_str().unwrap_or_default().to_owned()
    }

    /// The words of the whole page.
    pub async fn reads_all(&self) -> String {
        let words = self.asks("return document.body.innerText").await;
        words.as_str().unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// A cell of a table of answers, by the word at the head of its row and the name of its column.
    pub async fn reads_cell(&self, output: &str, row: &str, column: &str) -> String {
        let script = "const [id, row, column] = arguments;
            const table = document.querySelector(`#${id} table`);
            const heads = [...table.querySelectorAll('thead th')].map(head => head.firstChild.textContent.trim());
            const found = [...table.querySelectorAll('tbody tr')].find(cells => cells.children[0].innerText === row);
            return found.children[heads.indexOf(column)].innerText;";
        let words =
            self.asks_with(script, vec![json!(format!("out-{output}")), json!(row), json!(column)]).await;
        words.as_str().unwrap_or_default().to_owned()
    }

    /// Whether a field is marked as wrong for who does not see it.
    pub async fn says_invalid(&self, field: &str) -> bool {
        self.asks_of(field, "element.getAttribute('aria-invalid')").await == "true"
    }

    /// The id of what has the focus.
    pub async fn focus(&self) -> String {
        self.asks("return document.activeElement.id").await.as_str().unwrap_or_default().to_owned()
    }

    /// Waits until the words are there.
    pub async fn sees(&self, id: &str, words: &str) {
        self.waits_for(words, async || self.reads(id).await, |read| read.contains(words)).await;
    }

    /// Waits until an answer begins so.
    pub async fn gets(&self, output: &str, answer: &str) {
        let id = format!("out-{output}");
        self.waits_for(answer, async || self.reads(&id).await, |read| read.starts_with(answer)).await;
    }

    /// Waits until something has this id, or nothing any more.
    pub async fn waits_until(&self, id: &str, there: bool) {
        let what = format!("{id} to be there: {there}");
        self.waits_for(&what, async || self.is_there(id).await, |is| *is == there).await;
    }

    /// Waits until the focus is there.
    pub async fn finds_itself_in(&self, id: &str) {
        self.waits_for(&format!("the focus in {id}"), async || self.focus().await, |focus| focus == id).await;
    }

    /// The state of a check; empty where it is not on the page.
    pub async fn state_of(&self, check: &str) -> String {
        let state = self.asks_of(&format!("check-{check}"), "element && element.dataset.state").await;
        state.as_str().unwrap_or_default().to_owned()
    }

    /// Waits until a check has this state.
    pub async fn finds_check(&self, check: &str, state: &str) {
        self.waits_for(
            &format!("{check} to be {state}"),
            async || self.state_of(check).await,
            |found| found == state,
        )
        .await;
    }

    /// Looks until it is enough; a person whose patience ends says what is there instead.
    pub async fn waits_for<T: Debug>(
        &self,
        what: &str,
        look: impl AsyncFn() -> T,
        enough: impl Fn(&T) -> bool,
    ) -> T {
        let end = Instant::now() + PATIENCE;
        loop {
            let seen = look().await;
            if enough(&seen) {
                return seen;
            }
            assert!(Instant::now() < end, "waited in vain for {what}; there is {seen:?}");
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
    }
}

/// What only a browser can tell.
impl Page {
    /// Runs a script in the page, past its policy.
    pub async fn asks(&self, script: &str) -> Json {
        self.asks_with(script, Vec::new()).await
    }

    /// The same with arguments.
    pub async fn asks_with(&self, script: &str, arguments: Vec<Json>) -> Json {
        self.client.execute(script, arguments).await.unwrap_or_else(|error| panic!("{script}: {error}"))
    }

    async fn asks_of(&self, id: &str, expression: &str) -> Json {
        let script = format!("const element = document.getElementById(arguments[0]); return {expression};");
        self.asks_with(&script, vec![json!(id)]).await
    }

    /// Gives the browser a command of its own protocol.
    pub async fn commands(&self, command: Chromium) -> Json {
        let what = format!("{command:?}");
        self.client.issue_cmd(command).await.unwrap_or_else(|error| panic!("{what}: {error}"))
    }

    /// Opens the file once more, in another language.
    pub async fn speaks(&self, language: &str) {
        let address = self.address().await;
        let file = address.split(['#', '?']).next().unwrap_or_default();
        self.client.goto("about:blank").await.expect("an empty page");
        self.client.goto(&format!("{file}?language={language}")).await.expect("the same file");
        self.waits_until("view", true).await;
    }

    /// Shows the page as it is printed.
    pub async fn on_paper(&self) {
        self.commands(Chromium::new("Emulation.setEmulatedMedia", json!({ "media": "print" }))).await;
    }

    /// Opens the file once more, from its beginning.
    pub async fn opens_again(&self) {
        let address = self.address().await;
        let file = address.split('#').next().unwrap_or_default();
        self.client.goto("about:blank").await.expect("an empty page");
        self.client.goto(file).await.expect("the same file");
        self.waits_until("view", true).await;
    }

    /// Runs this before the page in every document of the file, and opens the file once more.
    pub async fn opens_again_after(&self, script: &str) {
        // an empty page has no store to be tampered with
        let script = format!("if (location.protocol === 'file:') {{ {script} }}");
        let script = json!({ "source": script });
        self.commands(Chromium::new("Page.addScriptToEvaluateOnNewDocument", script)).await;
        self.opens_again().await;
    }

    /// From now on hears of the files that the page hands over.
    pub async fn hears_of_files(&self) {
        let hear = "window.texts = []; const make = URL.createObjectURL;
            URL.createObjectURL = blob => { blob.text().then(text => window.texts.push(text)); return make(blob) }";
        self.asks(hear).await;
    }

    /// The file that was handed over last.
    pub async fn takes_the_file(&self) -> String {
        let last = async || self.asks("return window.texts.pop() ?? null").await;
        let text = self.waits_for("the file", last, Json::is_string).await;
        text.as_str().unwrap_or_default().to_owned()
    }

    /// Opens the file in another window and goes there; answers with the first.
    pub async fn opens_second_window(&self) -> WindowHandle {
        let first = self.client.window().await.expect("a window");
        let address = self.address().await;
        let second = self.client.new_window(true).await.expect("another window");
        self.client.switch_to_window(second.handle).await.expect("the other window");
        self.client.goto(address.split('#').next().unwrap_or_default()).await.expect("the same file");
        self.waits_until("view", true).await;
        first
    }

    /// Goes to another window.
    pub async fn goes_to_window(&self, window: WindowHandle) {
        self.client.switch_to_window(window).await.expect("that window");
    }

    /// What the browser complained of since it was last asked: errors, and whatever the page's policy forbade.
    pub async fn complaints(&self) -> Vec<String> {
        let entries = self.client.issue_cmd(Log).await.expect("the browser's console");
        let entries = entries.as_array().into_iter().flatten();
        let bad = entries.filter(|entry| {
            let message = entry["message"].as_str().unwrap_or_default();
            entry["level"] == "SEVERE" || message.contains("Content Security Policy")
        });
        bad.map(|entry| entry["message"].as_str().unwrap_or_default().to_owned()).collect()
    }

    /// Nothing that the browser complained of is left unsaid.
    pub async fn complains_of_nothing(&self, where_it_is: &str) {
        let complaints = self.complaints().await;
        assert!(complaints.is_empty(), "{where_it_is}: the browser complains:\n{}", complaints.join("\n"));
    }

    /// The address of the file.
    pub async fn address(&self) -> String {
        self.client.current_url().await.expect("an address").to_string()
    }

    /// How wide everything is, in the page's own pixels.
    pub async fn width_of_content(&self) -> u64 {
        self.asks("return document.documentElement.scrollWidth").await.as_u64().expect("a width")
    }

    /// How high a line of text is.
    pub async fn height_of_line(&self) -> f64 {
        let script = "return parseFloat(getComputedStyle(document.body).fontSize)";
        self.asks(script).await.as_f64().expect("a size")
    }

    async fn element(&self, id: &str) -> Element {
        self.first(&format!("#{id}")).await
    }

    async fn first(&self, css: &str) -> Element {
        let found = self.client.find(Locator::Css(css)).await;
        match found {
            Ok(element) => element,
            Err(error) => panic!("{css}: {error}"),
        }
    }
}
