//! Terms of moments. No sheet has a clock: the present moment is entered like anything else.

use crate::engine::sheet::Term;

/// `now`
pub const NOW: Term =
    Term::other("Time now").help("Date, time and the offset from UTC: 2026-11-12T08:30+01:00.");

/// `clock-change`
pub const CLOCK_CHANGE: Term = Term::other("Next clock change")
    .help("The first moment after it, with the new offset: 2026-10-25T02:00+01:00 when summer time ends.")
    .assumed("the clock does not change before the next test");
