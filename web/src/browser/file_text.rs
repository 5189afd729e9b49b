//! The text of a file. Files are written in UTF-8, but for those of older spreadsheets: nothing in such a file says in which
//! way its letters beyond English are written, so the person is shown them and asked.

use crate::text::{WORDS, fill};
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::Uint8Array;
use yew::prelude::*;

/// How many characters of an example are shown.
const SHOWN: usize = 60;

/// What was read from a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileText {
    /// A text without doubt.
    Sure(String),
    /// As it would be in Windows-1252, of which Latin-1 is a part. The person is asked.
    Doubtful(String),
}

/// Reads a file; `None` where the browser cannot.
pub async fn read(file: &web_sys::File) -> Option<FileText> {
    let buffer = JsFuture::from(file.array_buffer()).await.ok()?;
    Some(decode(&Uint8Array::new(&buffer).to_vec()))
}

/// The text of these bytes.
pub fn decode(bytes: &[u8]) -> FileText {
    let in_pairs = |pair: fn([u8; 2]) -> u16, bytes: &[u8]| {
        let units = bytes.chunks_exact(2).map(|two| pair([two[0], two[1]]));
        FileText::Sure(
            char::decode_utf16(units).map(|read| read.unwrap_or(char::REPLACEMENT_CHARACTER)).collect(),
        )
    };
    match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => decode(rest),
        // what a spreadsheet calls Unicode text
        [0xFF, 0xFE, rest @ ..] => in_pairs(u16::from_le_bytes, rest),
        [0xFE, 0xFF, rest @ ..] => in_pairs(u16::from_be_bytes, rest),
        _ => match std::str::from_utf8(bytes) {
            Ok(text) => FileText::Sure(text.to_owned()),
            Err(_) => FileText::Doubtful(bytes.iter().map(|byte| windows_1252(*byte)).collect()),
        },
    }
}

/// The letters of 0x80 to 0x9F; all others have the numbers that Unicode gives them.
const WINDOWS: [char; 32] = [
    '€', '\u{81}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{8d}', 'Ž', '\u{8f}', '\u{90}',
    '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{9d}', 'ž', 'Ÿ',
];

fn windows_1252(byte: u8) -> char {
    match byte {
        0x80..=0x9F => WINDOWS[usize::from(byte - 0x80)],
        other => char::from(other),
    }
}

/// The first place of a text with a letter beyond English.
pub fn example(text: &str) -> String {
    let line = text.lines().find(|line| !line.is_ascii()).unwrap_or_default();
    let at = line.chars().position(|letter| !letter.is_ascii()).unwrap_or_default();
    line.chars().skip(at.saturating_sub(SHOWN / 2)).take(SHOWN).collect::<String>().trim().to_owned()
}

/// The question, with yes and no.
pub fn question(id: &str, text: &str, answer: Callback<bool>) -> Html {
    let say = |yes: bool| answer.reform(move |_: MouseEvent| yes);
    html! {
        <div class="notice" id={format!("{id}-letters")} role="alert">
            <p>{ fill(WORDS.letters, &[("example", &example(text))]) }</p>
            <p>
                <button type="button" id={format!("{id}-letters-yes")} onclick={say(true)}>{ WORDS.letters_yes }</button>{ " " }
                <button type="button" class="plain" id={format!("{id}-letters-no")} onclick={say(false)}>{ WORDS.letters_no }</button>
            </p>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn utf_8_is_read_without_a_question() {
        let sure = |text: &str| FileText::Sure(text.to_owned());
        assert_eq!(decode("Müller; 5 µS/cm".as_bytes()), sure("Müller; 5 µS/cm"));
        assert_eq!(decode(b"\xEF\xBB\xBFplain"), sure("plain"));
        assert_eq!(decode(b""), sure(""));
        assert_eq!(decode(b"\xFF\xFEm\0\xFC\0"), sure("mü"));
        assert_eq!(decode(b"\xFE\xFF\0m\0\xFC"), sure("mü"));
    }

    #[test]
    fn what_is_not_utf_8_is_asked_about() {
        // the code page as the Unicode consortium lists it: 0xFC ü, 0xB0 °, 0x80 €, 0x96 –
        assert_eq!(decode(b"M\xFCller 8\xB0C \x80 \x96"), FileText::Doubtful("Müller 8°C € –".to_owned()));
        assert_eq!(example("name\nMüller, Ward 6"), "Müller, Ward 6");
        assert_eq!(example(&format!("{}ü", "a".repeat(500))).chars().count(), SHOWN / 2 + 1);
    }
}
