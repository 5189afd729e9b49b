//! Terms of the dialysis machine. What is plausible is common practice of the trade (no source).

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{FLOW, NUMBER, POWER, RATIO, TEMPERATURE_DIFFERENCE, TIME};
use crate::engine::sheet::Term;

/// `machines`
pub const MACHINES: Term = Term::number(&NUMBER, "Dialysis machines at the same time", "n")
    .help("How many run on this RO at once.")
    .whole()
    .plausible(1.0, 4.0, "")
    .possible(1.0, 50.0, "");

/// `dialysate-flow`
pub const DIALYSATE_FLOW: Term = Term::number(&FLOW, "Dialysate flow per machine", "Q_d")
    .units("mL/min", "mL/min")
    .help("The highest prescribed here. The prescriber decides it, not the water.")
    .plausible(100.0, 800.0, "mL/min")
    .possible(10.0, 5000.0, "mL/min");

/// `peak-draw`
pub const PEAK_DRAW: Term = Term::number(&FLOW, "Peak draw of one machine", "Q_peak")
    .help("While it fills or rinses. From the machine's instructions, or read on a water meter.")
    .plausible(0.4, 1.5, "L/min")
    .possible(0.01, 50.0, "L/min");

/// `rinses`
pub const RINSES: Term = Term::other("Can one machine rinse while another treats?").assumed("yes");

/// `demand-margin`
pub const DEMAND_MARGIN: Term = Term::number(&NUMBER, "Demand allowance on the dialysate flow", "m")
    .help("1 switches it off. 1.2 is common practice, no source.")
    .assumed("1.2")
    .plausible(1.0, 1.5, "")
    .possible(1.0, 10.0, "");

/// `sessions`
pub const SESSIONS: Term = Term::number(&NUMBER, "Sessions per day, all machines", "n_s")
    .help("All treatments on the busiest day.")
    .plausible(1.0, 6.0, "")
    .possible(0.0, 100.0, "");

/// `session-time`
pub const SESSION_TIME: Term = Term::number(&TIME, "Treatment time of one session", "t_s")
    .units("h", "h")
    .help("Without set-up and rinse.")
    .plausible(2.0, 12.0, "h")
    .possible(0.0, 48.0, "h");

/// `water-share`
pub const WATER_SHARE: Term = Term::number(&RATIO, "Product water in the dialysate", "f_w")
    .help("From the concentrate label: 93.6 % for 1 part in 35 with liquid bicarbonate.")
    .assumed("all of it is product water")
    .plausible(90.0, 100.0, "%")
    .possible(50.0, 100.0, "%");

/// `extra-water`
pub const EXTRA_WATER: Term = Term::number(
    &crate::engine::quantity::kinds::VOLUME,
    "Product water for set-up and rinse of one session",
    "V_x",
)
.assumed("none")
.plausible(0.0, 60.0, "L")
.possible(0.0, 1000.0, "L");

/// `product-temperature`
pub const PRODUCT_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Product water temperature")
    .symbol("T_p")
    .help("A thermometer in the product water at the machine, after some minutes of running.");

/// `pump-heat`
pub const PUMP_HEAT: Term =
    Term::number(&TEMPERATURE_DIFFERENCE, "Pump heat: how much the RO warms the water", "ΔT_p")
        .help("Product water at the machine less water at the tap, after an hour of running.")
        .assumed("none: the temperature was measured at the machine")
        .plausible(0.0, 5.0, "K")
        .possible(0.0, 30.0, "K")
        .within(0.5, "K");

/// `highest-inlet-temperature`
pub const HIGHEST_INLET_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Highest inlet water temperature of the dialysis machine")
    .symbol("T_in,max")
    .help("From the dialysis machine's instructions.")
    .read_with("instructions")
    .plausible(20.0, 37.0, "°C");

/// `dialysate-temperature`
pub const DIALYSATE_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Dialysate temperature")
    .symbol("T_d")
    .help("The highest prescribed here. The prescriber decides it.")
    .assumed("37 °C")
    .plausible(35.0, 38.5, "°C")
    .possible(30.0, 42.0, "°C");

/// `heat-returned`
pub const HEAT_RETURNED: Term = Term::number(&RATIO, "Heat recovered by the machine's heat exchanger", "r")
    .help("From the machine's instructions, only if spent dialysate preheats the fresh water.")
    .assumed("none")
    .plausible(0.0, 70.0, "%")
    .possible(0.0, 95.0, "%");

/// `heater-power`
pub const HEATER_POWER: Term = Term::number(&POWER, "Heater power of one dialysis machine", "P_h")
    .help("From the machine's label or instructions, at the voltage of this outlet (socket).")
    .plausible(0.8, 3.5, "kW")
    .possible(0.01, 50.0, "kW");

/// `product-volume`
pub const PRODUCT_VOLUME: Term =
    Term::number(&crate::engine::quantity::kinds::VOLUME, "Product water per session", "V_p")
        .help("Dialysate flow times treatment time, plus set-up and rinse.")
        .plausible(30.0, 400.0, "L")
        .possible(0.1, 1e6, "L");
