//! What is found wrong in a record that is opened all the same. Nothing of it is taken out.

use super::Id;
use crate::engine::sheet::{Sentence, Slot};

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// An event that does not say when it happened: it is kept and counts for nothing.
    NoMoment(String),
    /// Something in the list of events that is none.
    NoEvent(String),
    /// An event of a kind that this version does not know.
    UnknownKind(String, String),
    /// Two events of one id: both count, the second under an id of its own.
    TwoOfOneId(Id, Id),
    /// The same event stands there twice: it counts once.
    Twice(Id),
    /// An event at a place that the record does not have.
    NoPlace(Id, String),
    /// An event that names another one, or an instrument, that the record does not have.
    NamesNothing(Id, String),
    /// A correction of a correction that does not withdraw it: it changes nothing.
    CorrectsACorrection(Id, Id),
    /// Two places, or two instruments, of one id.
    TwoThings(Id),
    /// It was typed before it happened: a clock was wrong or set back.
    BeforeItHappened(Id),
    /// A reading of an older record at a place that no place, or more than one, is called.
    NameOfNoPlace(String),
    /// Flows of the RO that an older record did not count beside its marked reading: set aside.
    NotInUse,
}

impl Fault {
    /// What is wrong, and what follows.
    pub fn sentence(&self) -> Sentence {
        let of = |template: &'static str, id: &str| {
            Sentence::plain(template).with("id", Slot::Text(id.to_owned()))
        };
        match self {
            Self::NoMoment(id) => {
                of("event “{id}” does not say when it happened: it is kept and does not count", id)
            }
            Self::NoEvent(text) => of("“{id}” stands among the events and is none: it is kept and does not count", text),
            Self::UnknownKind(id, kind) => {
                of("event “{id}” is of a kind that this version does not know (“{kind}”): it is kept and does not count", id)
                    .with("kind", Slot::Text(kind.clone()))
            }
            Self::TwoOfOneId(id, other) => {
                of("two different events have the id “{id}”: both count, one of them as “{other}”; look at both", id)
                    .with("other", Slot::Text(other.to_string()))
            }
            Self::Twice(id) => of("event “{id}” stood there twice, the same to the letter: it counts once", id),
            Self::NoPlace(id, place) => of("event “{id}” happened at a place that is not in this record (“{place}”)", id)
                .with("place", Slot::Text(place.clone())),
            Self::NamesNothing(id, other) => of("event “{id}” names “{other}”, which is not in this record", id)
                .with("other", Slot::Text(other.clone())),
            Self::CorrectsACorrection(id, other) => {
                of("event “{id}” corrects the correction “{other}”, which changes nothing: withdraw that one, or correct the event itself", id)
                    .with("other", Slot::Text(other.to_string()))
            }
            Self::TwoThings(id) => of("two places or instruments have the id “{id}”: events may mean either", id),
            Self::BeforeItHappened(id) => {
                of("event “{id}” was typed before it happened: look at its date, and at the clock of that device", id)
            }
            Self::NameOfNoPlace(name) => {
                of("readings name the place “{id}”, which no place of this record is called, or more than one: they are kept without a place", name)
            }
            Self::NotInUse => Sentence::plain(
                "flows and their temperature stood with the RO beside a marked reading and were not used: they are kept as “not-in-use”",
            ),
        }
    }
}
