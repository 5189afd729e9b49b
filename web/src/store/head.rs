//! What is kept of a record beside its text, and how it is read back: on some browsers every local file shares one
//! store, so nothing that lies in it is believed.

use super::Parts;
use calc::documents::record::Record;
use serde_json::{Value as Json, json};
use web_sys::js_sys::Date;

/// The longest name that is kept beside the record; the record itself holds the whole.
const LONGEST_NAME: usize = 200;

/// Twenty key presses must not fill the ring.
const APART: Moment = 60_000;

/// Whether a saving puts the state aside that it writes over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aside {
    Now,
    OnceAMinute,
    Never,
}

/// Milliseconds since 1970, of this device's clock.
pub type Moment = i64;

/// The present moment, as this device has it.
pub fn now() -> Moment {
    Date::now() as Moment
}

/// The name of a record in the store, drawn at random: 128 bits in hexadecimal digits.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Id(String);

impl Id {
    /// A new one; `None` where the browser has no source of randomness.
    pub fn draw() -> Option<Self> {
        let mut bytes = [0; 16];
        web_sys::window()?.crypto().ok()?.get_random_values_with_u8_array(&mut bytes).ok()?;
        Some(Self(bytes.iter().map(|byte| format!("{byte:02x}")).collect()))
    }

    /// One that stands somewhere.
    pub fn read(text: &str) -> Option<Self> {
        let digits = text.len() == 32 && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
        digits.then(|| Self(text.to_owned()))
    }

    /// Its digits.
    pub fn text(&self) -> &str {
        &self.0
    }
}

/// What is kept of a record beside its text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Head {
    /// The name of the record in the store.
    pub id: Id,
    /// Counts the savings, from 1.
    pub revision: u64,
    /// When it was saved.
    pub saved: Moment,
    /// When it was opened.
    pub opened: Moment,
    /// When an earlier state was last put aside.
    pub taken: Moment,
    /// What the RO is called, or its place.
    pub name: String,
    /// When it was put in the bin.
    pub binned: Option<Moment>,
    /// The window that saved this revision; not known of what an older program saved.
    pub by: Option<Id>,
    /// The parts in which it lies; none of what an older program saved, which lies there as one text.
    pub parts: Parts,
    /// The revision of the latest state that was put aside; 0 where none was.
    pub aside: u64,
}

impl Head {
    pub(super) fn new(id: Id, record: &Record, by: &Id) -> Self {
        let now = now();
        Self {
            id,
            revision: 1,
            saved: now,
            opened: now,
            taken: now,
            name: name(record),
            binned: None,
            by: Some(by.clone()),
            parts: Parts::default(),
            aside: 0,
        }
    }

    /// After a saving over this one, which may have been put aside.
    pub(super) fn next(self, record: &Record, was_put_aside: bool, by: &Id) -> Self {
        let now = now();
        let (taken, aside) = if was_put_aside { (now, self.revision) } else { (self.taken, self.aside) };
        let by = Some(by.clone());
        Self { revision: self.revision + 1, saved: now, taken, aside, name: name(record), by, ..self }
    }

    /// Whether what a window typed goes on from here, when it last heard of the revision `seen`: that one stands here
    /// still, or the window's own saving, of which it did not hear any more.
    pub(super) fn continues(&self, seen: u64, window: &Id) -> bool {
        self.revision == seen || (self.revision == seen + 1 && self.by.as_ref() == Some(window))
    }

    /// Whether a saving puts this state aside.
    pub(super) fn puts_aside(&self, aside: Aside, now: Moment) -> bool {
        match aside {
            Aside::Now => true,
            // either way: the clock may have been set back
            Aside::OnceAMinute => (now - self.taken).abs() >= APART,
            Aside::Never => false,
        }
    }

    pub(super) fn text(&self) -> String {
        let Self { revision, saved, opened, taken, name, binned, by, parts, aside, .. } = self;
        json!({
            "format": "tapside-kept", "revision": revision, "saved": saved, "opened": opened, "taken": taken,
            "name": name, "binned": binned, "by": by.as_ref().map(Id::text),
            "parts": parts.json(), "aside": aside,
        })
        .to_string()
    }

    /// What was written, if it is that.
    pub(super) fn read(id: &str, text: &str) -> Option<Self> {
        let json: Json = serde_json::from_str(text).ok()?;
        let moment = |member: &str| json.get(member).and_then(Json::as_i64);
        (json.get("format")? == "tapside-kept").then_some(())?;
        Some(Self {
            id: Id::read(id)?,
            revision: json.get("revision")?.as_u64()?,
            saved: moment("saved")?,
            opened: moment("opened")?,
            taken: moment("taken")?,
            name: short(json.get("name")?.as_str()?),
            binned: moment("binned"),
            by: json.get("by").and_then(Json::as_str).and_then(Id::read),
            parts: json.get("parts").map_or(Some(Parts::default()), Parts::read)?,
            aside: json.get("aside").and_then(Json::as_u64).unwrap_or_default(),
        })
    }
}

/// What the RO is called; a place where it works, if it has no name; else nothing.
pub fn name(record: &Record) -> String {
    let place = || record.places().first().and_then(|place| place.fields.word("place-name"));
    short(record.ro().word("ro-name").or_else(place).unwrap_or_default())
}

fn short(name: &str) -> String {
    name.chars().take(LONGEST_NAME).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_head_is_read_back_as_it_was_written() {
        let id = "0123456789abcdef0123456789abcdef";
        let head = Head {
            id: Id::read(id).unwrap(),
            revision: 7,
            saved: 1_796_000_000_000,
            opened: 3,
            taken: 2,
            name: "RO \"2\"".into(),
            binned: Some(4),
            by: Id::read("fedcba9876543210fedcba9876543210"),
            parts: Parts::read(&json!({ "fields": [7, 1200], "events-2026": [3, 90_000] })).unwrap(),
            aside: 5,
        };
        assert_eq!(Head::read(id, &head.text()), Some(head.clone()));
        let head = Head { binned: None, by: None, ..head };
        assert_eq!(Head::read(id, &head.text()), Some(head.clone()));
        for foreign in ["", "7", "{}", "[1]", &head.text().replace("\"revision\":7", "\"revision\":-7")] {
            assert_eq!(Head::read(id, foreign), None, "{foreign}");
        }
        assert_eq!(Head::read("settings", &head.text()), None);
    }

    #[test]
    fn typing_goes_on_from_what_was_seen_or_saved_unheard() {
        let window = |digit: &str| Id::read(&digit.repeat(32)).unwrap();
        let (mine, other) = (window("a"), window("b"));
        let saved = |revision, by: &Id| Head {
            id: window("0"),
            revision,
            saved: 0,
            opened: 0,
            taken: 0,
            name: String::new(),
            binned: None,
            by: Some(by.clone()),
            parts: Parts::default(),
            aside: 0,
        };
        assert!(saved(4, &other).continues(4, &mine));
        assert!(saved(5, &mine).continues(4, &mine), "its own saving");
        assert!(!saved(5, &other).continues(4, &mine), "another window's");
        assert!(!saved(6, &mine).continues(4, &mine), "over something that it has not seen");
        // a new record, of which not even the first saving was heard
        assert!(saved(1, &mine).continues(0, &mine));
        assert!(!saved(1, &other).continues(0, &mine));
    }

    #[test]
    fn a_record_is_called_after_its_ro_or_its_place() {
        let of = |ro: &str, places: &str| {
            let text = format!(
                r#"{{"format": "tapside-record", "version": 1, "ro": {ro}, "places": {places}, "readings": []}}"#
            );
            name(&Record::open(&text).unwrap())
        };
        assert_eq!(of(r#"{"ro-name": " RO 2 "}"#, r#"[{"place-name": "Ward 6"}]"#), "RO 2");
        assert_eq!(of(r#"{"ro-name": " "}"#, r#"[{"place-name": "Ward 6"}]"#), "Ward 6");
        assert_eq!(of("{}", "[]"), "");
        assert_eq!(of(&format!(r#"{{"ro-name": "{}"}}"#, "W".repeat(10_000)), "[]").len(), LONGEST_NAME);
    }
}
