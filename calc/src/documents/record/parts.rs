//! A record in the parts in which it is kept on a device, so that a saving writes only what changed: what stands without a
//! date, the filled sheets, and the events of each year. Joined they are the record again; a file has all of it in one.

use super::write::items;
use super::{Record, Refused};
use serde_json::Value as Json;
use std::collections::BTreeMap;
use std::rc::Rc;

/// The name of the part that every record has: all but sheets and events.
const FIELDS: &str = "fields";
const SHEETS: &str = "sheets";
const YEAR: &str = "events-";

impl Record {
    /// The parts that the record has and that are not those of another state of it, as text, by their names. Whether a part
    /// is another is asked of its shared references alone, whatever it holds.
    ///
    /// # Example
    /// ```
    /// use calc::documents::record::{Event, Record, When, kinds};
    /// let mut record = Record::new();
    /// let before = record.clone();
    /// let day = When::read("2026-11-12").unwrap();
    /// record.add_event(Event::new("e1", &kinds::MOVED, day, None)).unwrap();
    /// let changed = record.parts_since(Some(&before));
    /// assert_eq!(changed.keys().collect::<Vec<_>>(), ["events-2026"]);
    /// assert_eq!(Record::from_parts(&record.parts_since(None)).unwrap().text(), record.text());
    /// ```
    pub fn parts_since(&self, before: Option<&Record>) -> BTreeMap<String, String> {
        let mut parts = BTreeMap::new();
        let is_new = |same: fn(&Record, &Record) -> bool| before.is_none_or(|before| !same(self, before));
        if is_new(Record::has_the_fields_of) {
            parts.insert(FIELDS.to_owned(), self.text_without());
        }
        if !self.sheets.is_empty() && is_new(|a, b| Rc::ptr_eq(&a.sheets, &b.sheets)) {
            parts.insert(SHEETS.to_owned(), items(self.sheets_as_json()));
        }
        for (year, chunk) in self.years() {
            let same =
                |before: &Record| before.years().any(|(other, c)| other == year && Rc::ptr_eq(c, chunk));
            if !before.is_some_and(same) {
                let text = items(chunk.iter().map(|event| self.json_of(event)));
                parts.insert(format!("{YEAR}{year}"), text);
            }
        }
        parts
    }

    /// The names of its parts.
    pub fn part_names(&self) -> Vec<String> {
        let sheets = (!self.sheets.is_empty()).then(|| SHEETS.to_owned());
        let years = self.years().map(|(year, _)| format!("{YEAR}{year}"));
        [FIELDS.to_owned()].into_iter().chain(sheets).chain(years).collect()
    }

    /// The record that these parts are.
    ///
    /// # Errors
    /// Where they are none.
    pub fn from_parts(parts: &BTreeMap<String, String>) -> Result<Record, Refused> {
        let read = |name: &str| parts.get(name).map(|text| super::open::parsed(text)).transpose();
        let Some(Json::Object(mut document)) = read(FIELDS)? else { return Err(Refused::NotARecord) };
        if let Some(sheets) = read(SHEETS)? {
            document.insert(SHEETS.to_owned(), sheets);
        }
        let mut events = Vec::new();
        for name in parts.keys().filter(|name| name.starts_with(YEAR)) {
            match read(name)? {
                Some(Json::Array(some)) => events.extend(some),
                _ => return Err(Refused::Damaged("events")),
            }
        }
        // those that are none, or of a kind that this version does not know, lie with the fields
        if let Some(Json::Array(unread)) = document.shift_remove("events") {
            events.extend(unread);
        }
        document.insert("events".to_owned(), Json::Array(events));
        Record::from_document(Json::Object(document))
    }

    fn has_the_fields_of(&self, other: &Record) -> bool {
        self.id == other.id
            && self.ro.is(&other.ro)
            && Rc::ptr_eq(&self.places, &other.places)
            && Rc::ptr_eq(&self.instruments, &other.instruments)
            && Rc::ptr_eq(&self.unread, &other.unread)
            && Rc::ptr_eq(&self.others, &other.others)
    }

    /// The record without sheets and events.
    fn text_without(&self) -> String {
        Record { sheets: Rc::default(), events: Rc::default(), ..self.clone() }.text()
    }
}
