//! Terms of the dialysis machine and the day.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{FLOW, NUMBER, POWER, RATIO, TIME};
use crate::engine::sheet::Term;

/// `machines`
pub const MACHINES: Term = Term::number(&NUMBER, "Dialysis machines at once", "n")
    .help("On this RO at the same time.")
    .whole()
    .plausible(1.0, 4.0, "")
    .possible(1.0, 50.0, "");

/// `dialysate-flow`
pub const DIALYSATE_FLOW: Term = Term::number(&FLOW, "Dialysate flow of each machine", "Q_d")
    .units("mL/min", "mL/min")
    .help("The highest that is prescribed here. The prescriber decides it, not the water.")
    .plausible(100.0, 800.0, "mL/min")
    .possible(10.0, 5000.0, "mL/min");

/// `peak-draw`
pub const PEAK_DRAW: Term = Term::number(&FLOW, "Highest draw of one machine", "Q_peak")
    .help("While it fills or rinses; from the machine's instructions, or read at a water meter.")
    .plausible(0.4, 1.5, "L/min")
    .possible(0.01, 50.0, "L/min");

/// `rinses`
pub const RINSES: Term = Term::other("May one machine rinse while another treats").assumed("yes");

/// `demand-margin`
pub const DEMAND_MARGIN: Term = Term::number(&NUMBER, "Allowance on the dialysate flow", "m")
    .help("1 switches the allowance off. Common practice, no source.")
    .assumed("1.2")
    .plausible(1.0, 1.5, "")
    .possible(1.0, 10.0, "");

/// `sessions`
pub const SESSIONS: Term = Term::number(&NUMBER, "Sessions a day, all machines", "n_s")
    .help("Every treatment of the busiest day.")
    .plausible(1.0, 6.0, "")
    .possible(0.0, 100.0, "");

/// `session-time`
pub const SESSION_TIME: Term = Term::number(&TIME, "Time of one session", "t_s")
    .units("h", "h")
    .help("Dialysate running, without preparation and rinse.")
    .plausible(2.0, 12.0, "h")
    .possible(0.0, 48.0, "h");

/// `water-share`
pub const WATER_SHARE: Term = Term::number(&RATIO, "Share of product water in the dialysate", "f_w")
    .help("By the concentrate's label: for 1 part in 35 with liquid bicarbonate 93.6 %.")
    .assumed("all of it is product water")
    .plausible(90.0, 100.0, "%")
    .possible(50.0, 100.0, "%");

/// `extra-water`
pub const EXTRA_WATER: Term = Term::number(
    &crate::engine::quantity::kinds::VOLUME,
    "Product water for preparation and rinse of one session",
    "V_x",
)
.assumed("none")
.plausible(0.0, 60.0, "L")
.possible(0.0, 1000.0, "L");

/// `product-temperature`
pub const PRODUCT_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Temperature of the product water at the machine")
    .symbol("T_p")
    .help("A thermometer in the product water where the machine takes it, after some minutes of running.");

/// `dialysate-temperature`
pub const DIALYSATE_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Dialysate temperature")
    .symbol("T_d")
    .help("The highest that is prescribed here. The prescriber decides it.")
    .assumed("37 °C")
    .plausible(35.0, 38.5, "°C")
    .possible(30.0, 42.0, "°C");

/// `heat-returned`
pub const HEAT_RETURNED: Term =
    Term::number(&RATIO, "Share of the heat that the machine's heat exchanger gives back", "r")
        .help("From the machine's instructions; only where spent dialysate warms the fresh water.")
        .assumed("none")
        .plausible(0.0, 70.0, "%")
        .possible(0.0, 95.0, "%");

/// `heater-power`
pub const HEATER_POWER: Term = Term::number(&POWER, "Heater power of the dialysis machine", "P_h")
    .help("From the machine's label or instructions, at the voltage of this socket.")
    .plausible(0.8, 3.5, "kW")
    .possible(0.01, 50.0, "kW");

/// `product-volume`
pub const PRODUCT_VOLUME: Term =
    Term::number(&crate::engine::quantity::kinds::VOLUME, "Product water of one session", "V_p")
        .help("Dialysate flow times time, with preparation and rinse.")
        .plausible(30.0, 400.0, "L")
        .possible(0.1, 1e6, "L");
