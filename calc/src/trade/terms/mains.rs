//! Terms of the water's temperature through the year.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{TEMPERATURE, TEMPERATURE_DIFFERENCE};
use crate::engine::sheet::Term;

/// `measured-temperature` of a month
pub const MEASURED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Measured at this tap")
    .help("Your own reading in that month, after the water has run for three minutes.")
    .assumed("the log, or else the climate");

/// `logged-temperature` of a month
pub const LOGGED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Log of the utility or the building")
    .symbol("T_log")
    .help("Monthly mean of the cold water entering the building. A riser can be warmer than the main.")
    .assumed("the climate")
    .read_with("log of the utility");

/// `mean-air-temperature`
pub const MEAN_AIR_TEMPERATURE: Term =
    Term::number(&TEMPERATURE, "Mean air temperature, whole year", "T_air")
        .help("The mean of the twelve monthly means, from the nearest weather station.")
        .plausible(0.0, 30.0, "°C")
        .possible(-5.0, 35.0, "°C")
        .within(1.0, "K");

/// `air-temperature-range`
pub const AIR_TEMPERATURE_RANGE: Term =
    Term::number(&TEMPERATURE_DIFFERENCE, "Range of monthly mean air temperatures", "ΔT_air")
        .units("K", "°F")
        .help("Warmest monthly mean minus coldest monthly mean. Not the range of the extremes.")
        .plausible(2.0, 35.0, "K")
        .possible(0.0, 60.0, "K")
        .within(2.0, "K");

/// `hemisphere`
pub const HEMISPHERE: Term =
    Term::other("Hemisphere").help("South of the equator the coldest water comes half a year later.");
