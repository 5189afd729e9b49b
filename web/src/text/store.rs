//! The words about what is kept on this device.

/// The words in one language.
pub struct Words {
    /// The browser offers no store.
    pub absent: &'static str,
    /// The browser does not answer.
    pub silent: &'static str,
    /// No room is left.
    pub full: &'static str,
    /// An older window holds the store.
    pub blocked: &'static str,
    /// A newer program has changed the store.
    pub newer: &'static str,
    /// The store was closed under the page.
    pub closed: &'static str,
    /// Something else lies in our place.
    pub foreign: &'static str,
    /// Another window was quicker.
    pub conflict: &'static str,
    /// Another window put the record in the bin.
    pub binned_elsewhere: &'static str,
    /// The record is not in the store any more.
    pub gone: &'static str,
    /// What is kept is no record.
    pub damaged: &'static str,
    /// The browser's own words.
    pub other: &'static str,
}

/// English.
pub const ENGLISH: Words = Words {
    absent: "This browser keeps nothing for the page: its store is missing or switched off, as in a private window and in some phones’ viewers of files. Export now: what is typed here is lost when the page is closed.",
    silent: "This browser does not answer when it is asked for its store, so nothing is kept here until it does. Export now: what is typed here is lost when the page is closed.",
    full: "The store of this browser is full, and the last changes are not kept. Export now; then empty the bin, or make room on this device.",
    blocked: "An older version of this program is open in another window and holds the store. Export now, then close the other window and open this page again.",
    newer: "A newer version of this program has kept records here, which this one cannot read. Export now what is typed here, and go on with the newer version.",
    closed: "The browser closed the store: a newer version of this program asked for it, or the browser’s data were deleted. Export now, then open this page again.",
    foreign: "Something of another program, or damaged, lies where this one keeps its records. It was left as it is. Export now what is typed here.",
    conflict: "Another window has saved this record meanwhile. Nothing was overwritten, and what is typed here is not kept yet.",
    binned_elsewhere: "Another window has put this record in the bin. What is typed here is not kept yet.",
    gone: "This record is no longer among those kept on this device. Keep what is typed here as a record of its own, or export it now.",
    damaged: "What is kept of this record cannot be opened: {why}. It was left as it is; export it as a file before anything else.",
    other: "The browser could not keep the last changes ({why}). Export now, then open this page again.",
};

/// The words of the page.
pub const WORDS: &Words = &ENGLISH;
