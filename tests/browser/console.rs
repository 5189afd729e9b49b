//! The browser's console: the standard protocol has no command for it, this driver has.

use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
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
