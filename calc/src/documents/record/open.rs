//! Opening a record, and one sentence for each way in which a file can fail to be one.

use super::{FORMAT, LARGEST, Record, VERSION};
use crate::documents::json::cause;
use crate::engine::sheet::{Sentence, Slot};
use serde_json::{Map, Value as Json, error::Category};

/// Why a file is not opened. Nothing is changed then.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Refused {
    /// Larger than any record.
    TooLarge,
    /// Nested more deeply than any record.
    TooDeep,
    /// Nothing in it.
    Empty,
    /// Ends too early.
    CutShort {
        /// The last line.
        line: usize,
        /// What it ends with.
        after: String,
    },
    /// No JSON.
    NotJson {
        /// Where, counted from 1.
        line: usize,
        /// Where, counted from 1.
        column: usize,
        /// What the reader of JSON says.
        why: String,
    },
    /// JSON of something else.
    NotARecord,
    /// No version that there ever was.
    UnknownVersion(String),
    /// A member that holds something else than it should.
    Damaged(&'static str),
}

impl Refused {
    /// What is wrong, and what to do.
    pub fn sentence(&self) -> Sentence {
        match self {
            Self::TooLarge => {
                Sentence::plain("this file is larger than {most} MB, which no record is: choose another file")
                    .with("most", Slot::Count((LARGEST / 1_000_000) as i64))
            }
            Self::TooDeep => {
                Sentence::plain("this file is nested more deeply than any record: choose another file")
            }
            Self::Empty => Sentence::plain("this file is empty: copy it again from where it came from"),
            Self::CutShort { line, after } => Sentence::plain(
                "this file ends too early, in line {line} after “{after}”: copy it again from where it came from",
            )
            .with("line", Slot::Count(*line as i64))
            .with("after", Slot::Text(after.clone())),
            Self::NotJson { line, column, why } => Sentence::plain(
                "this file is no record: it is no JSON from line {line}, column {column} on ({why})",
            )
            .with("line", Slot::Count(*line as i64))
            .with("column", Slot::Count(*column as i64))
            .with("why", Slot::Text(why.clone())),
            Self::NotARecord => {
                Sentence::plain("this file is JSON, but no record: its “format” is not “{format}”")
                    .with("format", Slot::Word(FORMAT))
            }
            Self::UnknownVersion(version) => Sentence::plain(
                "this record has the version “{version}”, which there never was: take the file as it was saved",
            )
            .with("version", Slot::Text(version.clone())),
            Self::Damaged(member) => Sentence::plain(
                "this record is damaged: its “{member}” is not what a record holds there; take the file as it was saved",
            )
            .with("member", Slot::Word(member)),
        }
    }
}

impl Record {
    /// Opens the text of a file. One of a newer program is opened, and cannot be changed.
    ///
    /// # Errors
    /// Where it is no record, with the reason.
    ///
    /// # Example
    /// ```
    /// use calc::documents::record::{Record, Refused};
    /// let text = r#"{"format": "tapside-record", "version": 1, "ro": {}, "places": [], "readings": []}"#;
    /// assert!(Record::open(text).is_ok());
    /// assert!(matches!(Record::open(&text[..50]), Err(Refused::CutShort { line: 1, .. })));
    /// assert_eq!(Record::open("[]"), Err(Refused::NotARecord));
    /// ```
    pub fn open(text: &str) -> Result<Record, Refused> {
        if text.len() > LARGEST {
            return Err(Refused::TooLarge);
        }
        // some programs put a byte order mark in front, which JSON does not know
        let text = text.trim_start_matches('\u{feff}');
        if text.trim().is_empty() {
            return Err(Refused::Empty);
        }
        match serde_json::from_str(text) {
            Ok(document) => Self::from_document(document),
            Err(error) => Err(match error.classify() {
                Category::Eof => Refused::CutShort { line: error.line(), after: end(text) },
                _ if error.to_string().starts_with("recursion limit") => Refused::TooDeep,
                _ => Refused::NotJson { line: error.line(), column: error.column(), why: cause(&error) },
            }),
        }
    }

    /// The record that a document is.
    ///
    /// # Errors
    /// Where it is none.
    pub fn from_document(document: Json) -> Result<Record, Refused> {
        let Json::Object(document) = document else { return Err(Refused::NotARecord) };
        if document.get("format").and_then(Json::as_str) != Some(FORMAT) {
            return Err(Refused::NotARecord);
        }
        let version = document.get("version");
        match version.and_then(Json::as_u64) {
            Some(VERSION) => match damaged(&document) {
                Some(member) => Err(Refused::Damaged(member)),
                None => Ok(Record { document, newer: None }),
            },
            Some(newer) if newer > VERSION => Ok(Record { document, newer: Some(newer) }),
            _ => Err(Refused::UnknownVersion(version.map_or_else(String::new, short))),
        }
    }
}

/// The first member that is not of the shape that a record of this version has.
fn damaged(document: &Map<String, Json>) -> Option<&'static str> {
    let is_object = document.get("ro").is_none_or(Json::is_object);
    let is_list = |member: &str| match document.get(member) {
        None => true,
        Some(Json::Array(items)) => items.iter().all(Json::is_object),
        Some(_) => false,
    };
    match () {
        () if !is_object => Some("ro"),
        () if !is_list("places") => Some("places"),
        () if !is_list("readings") => Some("readings"),
        () => None,
    }
}

/// The last thing that a text says, to find the place in the file.
fn end(text: &str) -> String {
    let text: Vec<char> = text.trim_end().chars().rev().take(40).collect();
    text.into_iter().rev().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

fn short(value: &Json) -> String {
    value.to_string().chars().take(40).collect()
}
