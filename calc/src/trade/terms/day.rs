//! Terms of a day of sessions.

use crate::engine::quantity::kinds::TIME;
use crate::engine::sheet::Term;

/// `time-around-session`
pub const TIME_AROUND_SESSION: Term =
    Term::number(&TIME, "Running of the RO before and after one session", "t_a")
        .units("min", "min")
        .help("Filling, tests and rinse, as your instructions have them; with a watch on a usual day.")
        .plausible(20.0, 180.0, "min")
        .possible(0.0, 1440.0, "min");

/// `day-hours`
pub const DAY_HOURS: Term = Term::number(&TIME, "Hours of a day that there are for sessions", "t_day")
    .units("h", "h")
    .help("Without the time that disinfection and cleaning take on that day by your instructions.")
    .plausible(4.0, 20.0, "h")
    .possible(0.0, 24.0, "h");
