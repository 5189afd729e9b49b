//! Records as the page opens them, and the invented rooms that it carries.

use crate::text::{WORDS, fill, tell};
use calc::documents::record::{LARGEST, Record, Refused, VERSION};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Stage};
use calc::program::catalogue;

/// An invented room that is part of the page.
#[derive(Debug, Clone, Copy)]
pub struct Room {
    /// Of its button.
    pub id: &'static str,
    /// Its record.
    pub text: &'static str,
}

/// The invented rooms; their names stand among the page's words.
pub const ROOMS: [Room; 3] = [
    Room { id: "room-a", text: include_str!("../../../examples/ostrin-vale.json") },
    Room { id: "room-b", text: include_str!("../../../examples/quillon-flats.json") },
    Room { id: "room-c", text: include_str!("../../../examples/tolby-marsh.json") },
];

/// A record with one place and nothing in it.
pub fn blank() -> Record {
    let mut record = Record::new();
    with_a_place(&mut record);
    record
}

/// A record without a place gets one, so that there is where to type.
fn with_a_place(record: &mut Record) {
    if record.places().is_empty() {
        // only a record that may not be changed refuses, and such a one is not opened
        let _ = record.add_place("place-1");
    }
}

/// The sheet that a record fills.
pub fn plan() -> Option<&'static Declaration> {
    catalogue::of_stage(Stage::Plan).next()
}

/// The same with its arithmetic.
pub fn plan_entry() -> Option<&'static calc::engine::sheet::Entry> {
    catalogue::find(plan()?.id)
}

/// Asked before a file is read: whether a record can be so large.
pub fn may_be_one(bytes: f64) -> Result<(), String> {
    if bytes > LARGEST as f64 { Err(tell(&Refused::TooLarge.sentence(), UnitSet::Metric)) } else { Ok(()) }
}

/// Opens the text of a file, or says why not.
pub fn open(text: &str) -> Result<Record, String> {
    let mut record = Record::open(text).map_err(|refused| tell(&refused.sentence(), UnitSet::Metric))?;
    if let Some(version) = record.newer_version() {
        let version = version.to_string();
        return Err(fill(WORDS.newer_record, &[("version", &version), ("known", &VERSION.to_string())]));
    }
    with_a_place(&mut record);
    Ok(record)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_invented_rooms_open_without_a_fault() {
        for room in ROOMS {
            let record = open(room.text).unwrap();
            assert!(record.is_invented() && record.faults().is_empty(), "{}: {:?}", room.id, record.faults());
            assert_eq!(record.inputs_of_plan(0).1, [], "{}", room.id);
        }
    }

    #[test]
    fn what_is_no_record_is_refused_with_the_reason() {
        let whole = r#"{"format": "tapside-record", "version": 2, "ro": {}, "places": [], "events": []}"#;
        for (text, reason) in [
            ("[]", "no record"),
            ("hello", "no JSON"),
            (&whole[..40], "ends too early"),
            (&whole.replace("\"version\": 2", "\"version\": 99"), "newer version"),
            (&whole.replace("\"ro\": {}", "\"ro\": 7"), "damaged"),
        ] {
            let refused = open(text).unwrap_err();
            assert!(refused.contains(reason), "{refused}");
        }
        assert!(may_be_one(1e9).is_err());
        assert_eq!(may_be_one(1e6), Ok(()));
    }
}
