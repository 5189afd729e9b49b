//! Terms of heat disinfection.

use crate::quantity::kinds::{HEAT_DOSE, TEMPERATURE, TIME};
use crate::sheet::Term;

/// `temperature` in a log
pub const LOGGED_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Temperature at the probe", "T")
    .help("As the probe showed it. Leave the cell empty where there is no reading.")
    .plausible(0.0, 100.0, "°C")
    .possible(-20.0, 150.0, "°C")
    .within(0.5, "K")
    .read_with("probe");

/// `time` in a log
pub const LOGGED_TIME: Term = Term::number(&TIME, "Time", "t")
    .units("s", "s")
    .help("Counted from any moment, the same for all probes.")
    .possible(-10.0, 400.0, "d");

/// `set-time`, `longest-gap`
pub const HELD_TIME: Term = Term::number(&TIME, "Time held, without a log", "t")
    .units("min", "min")
    .help(
        "How long the set temperature was held at the coldest place, counted from when it was reached there.",
    )
    .possible(0.0, 400.0, "d");

/// `needed-dose`
pub const NEEDED_DOSE: Term = Term::number(&HEAT_DOSE, "Heat dose A0 asked for", "A_0,needed")
    .help("From the instructions of the RO or of whoever prescribes the disinfection: equivalent seconds at 80 °C.")
    .plausible(60.0, 15_000.0, "s")
    .possible(1.0, 1e6, "s");

/// `hold-temperature`
pub const HOLD_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Temperature to hold", "T_hold")
    .help("From your instructions. The time at or above it is counted; a reading below begins it anew.")
    .plausible(60.0, 95.0, "°C")
    .possible(20.0, 150.0, "°C");

/// `cool-temperature`
pub const COOL_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Temperature to be cool again", "T_cool")
    .help("From your instructions. The time at or below it is counted; a reading above begins it anew.")
    .plausible(20.0, 45.0, "°C")
    .possible(0.0, 100.0, "°C");

/// `needed-hold-time`, `needed-cool-time`
pub const NEEDED_TIME: Term = Term::number(&TIME, "Time asked for", "t_needed")
    .units("min", "min")
    .help("From your instructions.")
    .plausible(1.0, 240.0, "min")
    .possible(0.0, 10_000.0, "min");
