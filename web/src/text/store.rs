//! The words about what is kept on this device.

use super::language::Spoken;

words! {
    /// The words in one language.
    pub struct Words {
        /// The browser offers no store.
        pub absent: &'static str,
        /// Settings forbid the store.
        pub forbidden: &'static str,
        /// The record is larger than what is opened again.
        pub too_large: &'static str,
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
}

/// English.
pub const ENGLISH: Words = Words {
    absent: "This browser saves nothing for this page. Its storage is missing or switched off, as in a private window or in a phone’s file viewer. Export now: what you typed is lost when the page is closed.",
    forbidden: "This browser’s settings block storage for this page, so nothing is saved. Allow site data (cookies) for local files in the browser’s settings, then open this page again. Export now: what you typed is lost when the page is closed.",
    too_large: "This record is larger than 50 MB, which is more than this program opens again, so the last changes are not saved. Undo the last step, or move old readings to another record. Export now.",
    silent: "This browser does not answer when the page asks for its storage. Nothing is saved until it does. Export now: what you typed is lost when the page is closed.",
    full: "There is no space left for this browser on this device, so the last changes are not saved. Export now. Then free some space: empty the bin on the Records page, or delete other files. Saving is tried again every 5 seconds.",
    blocked: "An older version of this program is open in another window and blocks saving. Export now. Then close the other window and open this page again.",
    newer: "A newer version of this program has saved records here, which this version cannot read. Export now, then use the newer version.",
    closed: "The browser closed its storage: a newer version of this program asked for it, or the browser’s data were deleted. Export now, then open this page again.",
    foreign: "Data that is not of this program, or is damaged, is where this program saves its records. It was not changed. Nothing is saved here. Export now.",
    conflict: "Another window has saved a different version of this record. Nothing was overwritten, and what you typed here is not saved yet.",
    binned_elsewhere: "Another window has deleted this record (it is in the bin). What you typed here is not saved yet.",
    gone: "This record is no longer on this device. Keep what you typed as a separate record, or export it now.",
    damaged: "The saved record cannot be opened: {why}. It was not changed. Export now hands over the file exactly as it was saved.",
    other: "The browser could not save the last changes ({why}). Export now. Saving is tried again every 5 seconds.",
};

/// The words of the page, in the language in which it speaks.
pub static WORDS: Spoken<Words> = Spoken::new(&ENGLISH);
