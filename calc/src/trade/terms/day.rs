//! Terms of a day of sessions. What is plausible is common practice of the trade (no source).

use crate::engine::quantity::kinds::{NUMBER, TIME};
use crate::engine::sheet::Term;

/// `time-around-session`
pub const TIME_AROUND_SESSION: Term =
    Term::number(&TIME, "RO running before and after one session, in all", "t_a")
        .units("min", "min")
        .help("Flush, tests, filling and rinse, as your instructions have them. Time it on a usual day.")
        .plausible(20.0, 180.0, "min")
        .possible(0.0, 1440.0, "min");

/// `set-up-time`
pub const SET_UP_TIME: Term = Term::number(&TIME, "Set-up before the RO runs", "t_u")
    .units("min", "min")
    .help("For each session: bring the RO, connect hoses and drain. 0 if there is none.")
    .plausible(0.0, 90.0, "min")
    .possible(0.0, 1440.0, "min");

/// `set-up-running-time`
pub const SET_UP_RUNNING_TIME: Term = Term::number(&TIME, "Set-up with the RO running", "t_u,RO")
    .units("min", "min")
    .help("For each session: flush, water tests, filling and priming, until the machine is ready.")
    .assumed("the time before and after the session in all is counted, and no ready time is given")
    .plausible(10.0, 120.0, "min")
    .possible(0.0, 1440.0, "min");

/// `rinse-time`
pub const RINSE_TIME: Term = Term::number(&TIME, "Rinse after the session, RO running", "t_r")
    .units("min", "min")
    .help("For each session: rinse of the machine, and its disinfection where the RO runs for it.")
    .assumed("the time before and after the session in all is counted")
    .plausible(5.0, 120.0, "min")
    .possible(0.0, 1440.0, "min");

/// `turnaround-time`
pub const TURNAROUND_TIME: Term = Term::number(&TIME, "Turnaround between sessions, RO off", "t_t")
    .units("min", "min")
    .help("From the end of one rinse to the next set-up. 0 if there is none.")
    .plausible(0.0, 180.0, "min")
    .possible(0.0, 1440.0, "min");

/// `day-from`
pub const DAY_FROM: Term = Term::other("Earliest start of set-up")
    .help("Date and time, with the offset from UTC, such as 2026-11-12T07:00+01:00.")
    .assumed("hours are counted, and no clock times are given");

/// `day-until`
pub const DAY_UNTIL: Term = Term::other("Latest end of the last rinse")
    .help("Date and time, with the offset from UTC, such as 2026-11-12T19:00+01:00.")
    .assumed("the hours available per day are counted");

/// `day-hours`
pub const DAY_HOURS: Term = Term::number(&TIME, "Hours available per day", "t_day")
    .units("h", "h")
    .help("Without the time for disinfection and cleaning that your instructions ask for.")
    .plausible(4.0, 20.0, "h")
    .possible(0.0, 24.0, "h");

/// `carbon-sessions`
pub const CARBON_SESSIONS: Term = Term::number(&NUMBER, "Carbon life in sessions, at most", "n_max")
    .help("From the sheet “Carbon life”, which corrects the label for this water. The rated capacity on the label is for the label's own test water.")
    .plausible(1.0, 200.0, "")
    .possible(0.0, 1e6, "");
