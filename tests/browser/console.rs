//! What the standard protocol has no command for and this driver has: the browser's console, and its own commands.

use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::{Value as Json, json};
use url::{ParseError, Url};

/// Hands over what was written since the last time.
#[derive(Debug)]
pub struct Log;

impl WebDriverCompatibleCommand for Log {
    fn endpoint(&self, base_url: &Url, session_id: Option<&str>) -> Result<Url, ParseError> {
        base_url.join(&format!("session/{}/se/log", session_id.unwrap_or_default()))
    }

    fn method_and_body(&self, _request_url: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(r#"{"type": "browser"}"#.to_owned()))
    }
}

/// A command of the browser's own protocol.
#[derive(Debug)]
pub struct Chromium {
    name: &'static str,
    parameters: Json,
}

impl Chromium {
    /// The command of that name.
    pub fn new(name: &'static str, parameters: Json) -> Self {
        Self { name, parameters }
    }
}

impl WebDriverCompatibleCommand for Chromium {
    fn endpoint(&self, base_url: &Url, session_id: Option<&str>) -> Result<Url, ParseError> {
        base_url.join(&format!("session/{}/goog/cdp/execute", session_id.unwrap_or_default()))
    }

    fn method_and_body(&self, _request_url: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(json!({ "cmd": self.name, "params": self.parameters }).to_string()))
    }
}
