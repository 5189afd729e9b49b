//! Terms of moments. No sheet has a clock: the present moment is entered like anything else.

use crate::engine::sheet::Term;

/// `now`
pub const NOW: Term = Term::other("The present moment")
    .help("Date, clock and its offset from UTC, such as 2026-11-12T08:30+01:00.");

/// `clock-change`
pub const CLOCK_CHANGE: Term = Term::other("When the clock changes next")
    .help("The moment after the change, with the new offset: 2026-10-25T02:00+01:00 where summer time ends.")
    .assumed("the clock does not change before then");
