//! The record: one RO with the places where it works and its readings, in one JSON document.
//!
//! ```json
//! {
//!   "format": "tapside-record", "version": 1,
//!   "ro": { "ro-name": "RO 2", "least-inlet-pressure": { "typed": "1,5 bar", "value": 1.5, "unit": "bar" } },
//!   "places": [{ "place-name": "Ward 6", "source": "public" }],
//!   "readings": [{ "date": "2026-11-12", "place": "Ward 6", "anchor": true,
//!                  "product-flow": { "typed": "0.86 L/min", "value": 0.86, "unit": "L/min" } }]
//! }
//! ```
//!
//! It is held as the document itself, so that members which this version does not know survive. Of a number, value
//! and unit are read back, never the text. `"invented": true` marks what is no real place.

mod edit;
mod open;
mod plan;
mod schema;

pub use edit::Spot;
pub use open::Refused;
pub use schema::schema;

use crate::engine::sheet::{Sentence, Slot};
use serde_json::{Map, Value as Json, json};

/// The name by which a record is known from any other JSON document.
pub const FORMAT: &str = "tapside-record";

/// The version that this program writes. It is the first, so there is nothing to migrate.
pub const VERSION: u64 = 1;

/// The largest record that is read, in bytes.
pub const LARGEST: usize = 50_000_000;

/// One RO with its places and readings.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    document: Map<String, Json>,
    /// The version of a newer program, which would understand more of it.
    newer: Option<u64>,
}

/// A part of a record that holds fields.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The RO.
    Ro,
    /// A place, counted from 0.
    Place(usize),
    /// The readings of one time, counted from 0.
    Reading(usize),
}

/// What a person typed into a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// As it was typed.
    pub typed: String,
    /// The unit that was written or chosen.
    pub unit: Option<String>,
}

impl Default for Record {
    fn default() -> Self {
        Self::new()
    }
}

impl Record {
    /// An empty record.
    pub fn new() -> Self {
        let document = Map::from_iter([
            ("format".to_owned(), json!(FORMAT)),
            ("version".to_owned(), json!(VERSION)),
            ("ro".to_owned(), json!({})),
            ("places".to_owned(), json!([])),
            ("readings".to_owned(), json!([])),
        ]);
        Self { document, newer: None }
    }

    /// The document itself.
    pub fn document(&self) -> &Map<String, Json> {
        &self.document
    }

    /// The text of the file.
    pub fn text(&self) -> String {
        let document = Json::Object(self.document.clone());
        format!("{document:#}\n")
    }

    /// Why nothing may be changed, where a newer program wrote it.
    pub fn read_only(&self) -> Option<Sentence> {
        self.newer.map(|version| {
            Sentence::plain(
                "a newer version of this program wrote the record (format {version}, this one knows {known}): it is shown and cannot be changed here",
            )
            .with("version", Slot::Count(i64::try_from(version).unwrap_or(i64::MAX)))
            .with("known", Slot::Count(VERSION as i64))
        })
    }

    /// Whether its places are invented.
    pub fn is_invented(&self) -> bool {
        self.document.get("invented") == Some(&Json::Bool(true))
    }

    /// The members of one part.
    pub fn part(&self, part: Part) -> Option<&Map<String, Json>> {
        match part {
            Part::Ro => self.document.get("ro")?.as_object(),
            Part::Place(index) => self.list("places").get(index)?.as_object(),
            Part::Reading(index) => self.list("readings").get(index)?.as_object(),
        }
    }

    /// How many places there are.
    pub fn places(&self) -> usize {
        self.list("places").len()
    }

    /// How many readings there are.
    pub fn readings(&self) -> usize {
        self.list("readings").len()
    }

    /// A text member of a part: `place-name`, `date`.
    pub fn word(&self, part: Part, member: &str) -> Option<&str> {
        self.part(part)?.get(member)?.as_str()
    }

    /// What a person typed there.
    pub fn kept(&self, spot: Spot) -> Option<Kept> {
        let mut member = self.part(spot.part)?.get(spot.field.id)?;
        if let Some((row, column)) = spot.cell {
            member = member.get(row)?.get(column.id)?;
        }
        match member {
            Json::Object(kept) => Some(Kept {
                typed: kept.get("typed")?.as_str()?.to_owned(),
                unit: kept.get("unit").and_then(Json::as_str).map(str::to_owned),
            }),
            Json::String(text) => Some(Kept { typed: text.clone(), unit: None }),
            Json::Number(number) => Some(Kept { typed: number.to_string(), unit: None }),
            _ => None,
        }
    }

    fn list(&self, member: &str) -> &[Json] {
        self.document.get(member).and_then(Json::as_array).map_or(&[], Vec::as_slice)
    }
}
