//! Terms of what happens to an RO: counters, parts, samples, and what follows when.

use crate::engine::quantity::kinds::{NUMBER, TIME, VOLUME};
use crate::engine::sheet::Term;

/// `water-counter`
pub const WATER_COUNTER: Term = Term::number(&VOLUME, "Water meter", "V_meter")
    .units("m³", "gal")
    .help("As it stands on the meter in the feed line. From it the litres through each part are counted.")
    .plausible(0.0, 10_000.0, "m³")
    .possible(0.0, 1e7, "m³");

/// `session-counter`
pub const SESSION_COUNTER: Term = Term::number(&NUMBER, "Session counter", "n_s")
    .help("As it stands on the RO, or sessions counted since it was new.")
    .whole()
    .plausible(0.0, 20_000.0, "")
    .possible(0.0, 1e7, "");

/// `held-time` of a disinfectant
pub const DWELL_TIME: Term = Term::number(&TIME, "Dwell time", "t_dwell")
    .units("min", "min")
    .help("How long the disinfectant stood in the RO, from the time on the label being counted.")
    .plausible(5.0, 1440.0, "min")
    .possible(0.0, 1e6, "min");

/// `next-due`
pub const NEXT_DUE: Term = Term::other("Next due")
    .help("The day by which it must be done again, from the instructions or the facility's schedule.");

/// `part`
pub const PART: Term = Term::other("Part");

/// `part-label`
pub const PART_LABEL: Term = Term::other("Type and lot of the new part").help("As printed on it.");

/// `disinfectant-name`
pub const DISINFECTANT_NAME: Term = Term::other("Disinfectant used")
    .help("As printed on its label. The residual test has to be for this one.");

/// `second-reader`
pub const SECOND_READER: Term =
    Term::other("Second reader").help("Initials or role of who read the test too.");

/// `sample-point`
pub const SAMPLE_POINT: Term = Term::other("Sample point");

/// `sample-label`
pub const SAMPLE_LABEL: Term = Term::other("Label on the bottle").help("No patient's name belongs here.");

/// `laboratory`
pub const LABORATORY: Term = Term::other("Laboratory");

/// `use-waits`
pub const USE_WAITS: Term = Term::other("RO out of use until the result is signed off")
    .help("By the facility's rules, such as after work on the loop.");

/// `preservative`
pub const PRESERVATIVE: Term = Term::other("Stored with preservative")
    .help("If nobody knows, leave it open: the RO counts as stored wet with preservative.");

/// `notice-kind`
pub const NOTICE_KIND: Term = Term::other("What the notice is about");

/// `words` of a notice or a sign-off
pub const WORDS: Term = Term::other("In words").help("No patient's name belongs here.");

/// `check-result`
pub const CHECK_RESULT: Term = Term::other("Result of the check");

/// `reference`
pub const REFERENCE: Term = Term::other("What the reading stands for");

/// `instrument-name`
pub const INSTRUMENT_NAME: Term = Term::other("Instrument").help("As it is labelled, such as “meter 2”.");

/// `instrument-reads`
pub const INSTRUMENT_READS: Term = Term::other("What it reads");
