//! The record as a file: the document itself, as it stands on the page.

use crate::browser::clock;
use crate::state::Content;
use gloo_timers::callback::Timeout;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::js_sys::Array;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Hands the file to the browser, which keeps it where it keeps what was downloaded.
pub fn export(content: &Content) {
    // Only a page without a document, which nobody sees, refuses.
    let _ = offer(&content.record.text(), "application/json", &file_name(content.name(), &clock::iso_date()));
}

/// Hands over rows, under the name of their table or kind.
pub fn offer_rows(text: &str, field: &str) {
    let _ = offer(text, "text/csv", &format!("{field}-{}.csv", clock::iso_date()));
}

/// Hands over a text as a file, whatever it is.
pub fn offer_text(text: &str) {
    let _ = offer(text, "application/json", &file_name("", &clock::iso_date()));
}

fn offer(text: &str, media: &str, name: &str) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type(media);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let document = web_sys::window().and_then(|window| window.document()).ok_or(JsValue::NULL)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // A browser may still be reading it when the click has returned.
    Timeout::new(60_000, move || {
        let _ = Url::revoke_object_url(&address);
    })
    .forget();
    Ok(())
}

/// The name of the place and the day, in letters that every file system takes.
fn file_name(place: &str, day: &str) -> String {
    let mut name = String::new();
    for letter in place.chars().take(60) {
        match letter {
            letter if letter.is_alphanumeric() => name.push(letter),
            _ if name.ends_with('-') || name.is_empty() => {}
            _ => name.push('-'),
        }
    }
    let name = name.trim_end_matches('-');
    let name = if name.is_empty() { "record" } else { name };
    format!("{name}-{day}.json")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_after_place_and_day() {
        assert_eq!(file_name("Ward 6: \"side\" room/2", "2026-11-25"), "Ward-6-side-room-2-2026-11-25.json");
        assert_eq!(file_name("../..", "2026-11-25"), "record-2026-11-25.json");
    }
}
