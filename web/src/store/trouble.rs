//! What can go wrong with the store of the browser, as values; the words stand among the page's words.

use super::database::{ABSENT, BLOCKED, FORBIDDEN, Refusal};
use super::head::Head;
use crate::text::store::WORDS;

/// Why something could not be kept, or not be read back.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Trouble {
    /// The browser offers no store: a private window, a viewer of files, a rule of who runs the device.
    Absent,
    /// The settings of the browser forbid it.
    Forbidden,
    /// The browser does not answer when it is asked for the store.
    Silent,
    /// No room is left.
    Full,
    /// A window with an older version of the program holds the store.
    Blocked,
    /// A newer version of the program has changed the store.
    Newer,
    /// The browser closed the store: a newer version of the program asked for it, or somebody emptied it.
    Closed,
    /// Something else than our records lies under our name.
    Foreign,
    /// The record is larger than what this program opens.
    TooLarge,
    /// Another window saved the record meanwhile; nothing was overwritten.
    Conflict(Box<Head>),
    /// The record is no longer in the store.
    Gone,
    /// What is kept cannot be opened: the reason, and what is there, for the person to export.
    Damaged {
        /// Why it is no record.
        why: String,
        /// What is there.
        text: String,
    },
    /// Anything else, in the browser's words.
    Other(String),
}

impl From<Refusal> for Trouble {
    fn from(refusal: Refusal) -> Self {
        match refusal.name.as_str() {
            ABSENT => Self::Absent,
            FORBIDDEN | "SecurityError" => Self::Forbidden,
            _ if is_of_a_full_disk(&refusal) => Self::Full,
            BLOCKED => Self::Blocked,
            "VersionError" => Self::Newer,
            "InvalidStateError" => Self::Closed,
            "NotFoundError" => Self::Foreign,
            name => Self::Other(format!("{name}: {}", refusal.words)),
        }
    }
}

/// A browser has a name for its own bound alone. Of a disk that is full it tells in other words: Chromium as an
/// `UnknownError` with the name of the system's error, and for long texts, which it writes as files, as a `DataError`.
fn is_of_a_full_disk(refusal: &Refusal) -> bool {
    let words = refusal.words.to_ascii_lowercase();
    let says = |part: &str| words.contains(part);
    refusal.name == "QuotaExceededError"
        || says("no_space")
        || says("no space")
        || says("disk full")
        || (refusal.name == "DataError" && says("ioerror"))
}

impl Trouble {
    /// Whether it may pass by itself, or once somebody has made room, so that saving is tried again.
    pub fn may_pass(&self) -> bool {
        matches!(self, Self::Full | Self::Closed | Self::Other(_))
    }

    /// What is wrong, and what to do now.
    pub fn sentence(&self) -> String {
        let words = match self {
            Self::Absent => WORDS.absent,
            Self::Forbidden => WORDS.forbidden,
            Self::TooLarge => WORDS.too_large,
            Self::Silent => WORDS.silent,
            Self::Full => WORDS.full,
            Self::Blocked => WORDS.blocked,
            Self::Newer => WORDS.newer,
            Self::Closed => WORDS.closed,
            Self::Foreign => WORDS.foreign,
            Self::Conflict(other) if other.binned.is_some() => WORDS.binned_elsewhere,
            Self::Conflict(_) => WORDS.conflict,
            Self::Gone => WORDS.gone,
            Self::Damaged { why, .. } => return WORDS.damaged.replace("{why}", why),
            Self::Other(why) => return WORDS.other.replace("{why}", why),
        };
        words.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whatever_could_not_be_saved_is_to_be_exported() {
        assert!(Trouble::Silent.sentence().contains("Export now"));
        let refused = |name: &str| Trouble::from(Refusal { name: name.to_owned(), words: "why".to_owned() });
        for (name, says) in [
            ("Absent", "private window"),
            ("SecurityError", "settings block"),
            ("Forbidden", "settings block"),
            ("QuotaExceededError", "no space left"),
            ("Blocked", "older version"),
            ("VersionError", "newer version"),
            ("InvalidStateError", "closed"),
            ("NotFoundError", "not of this program"),
            ("UnknownError", "UnknownError: why"),
        ] {
            let sentence = refused(name).sentence();
            assert!(sentence.contains(says), "{name}: {sentence}");
            assert!(sentence.contains("xport"), "{name}: {sentence}");
        }
    }

    #[test]
    fn a_full_disk_is_known_by_what_chromium_says_of_it() {
        // as it said on a file system of 120 MB without room: for short texts, and for long ones
        for (name, words) in [
            (
                "UnknownError",
                "Connection is closing because of: IO error: .../file__0.indexeddb.leveldb/000003.log: \
                 FILE_ERROR_NO_SPACE (ChromeMethodBFE: 3::WritableFileAppend::8)",
            ),
            ("DataError", "Failed to write blobs (IOError)"),
        ] {
            let refusal = Refusal { name: name.to_owned(), words: words.to_owned() };
            assert_eq!(Trouble::from(refusal), Trouble::Full, "{name}");
        }
    }
}
