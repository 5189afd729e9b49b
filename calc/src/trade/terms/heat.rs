//! Terms of heat disinfection.

use crate::engine::quantity::kinds::{
    FLOW, HEAT_CAPACITY, HEAT_DOSE, POWER, TEMPERATURE, TEMPERATURE_DIFFERENCE, TIME, VOLUME,
};
use crate::engine::sheet::Term;

/// `temperature` in a log
pub const LOGGED_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Temperature at the probe", "T")
    .help("As the probe showed it. Leave the cell empty where there is no reading.")
    .plausible(0.0, 100.0, "°C")
    .possible(-20.0, 150.0, "°C")
    .within(0.5, "K")
    .read_with("probe");

/// `time` in a log
pub const LOGGED_TIME: Term = Term::number(&TIME, "Time", "t")
    .since_the_first()
    .units("s", "s")
    .help("Counted from any moment, the same for all probes.")
    .possible(-10.0, 400.0, "d");

/// `set-time`, `longest-gap`
pub const HELD_TIME: Term = Term::number(&TIME, "Time held, without a log", "t")
    .units("min", "min")
    .help("How long the temperature was held at the coldest point, counted from when it was reached there.")
    .possible(0.0, 400.0, "d");

/// `needed-dose`
pub const NEEDED_DOSE: Term = Term::number(&HEAT_DOSE, "Required heat dose A0", "A_0,needed")
    .help("From the instructions of the RO or of whoever prescribes the disinfection: equivalent seconds at 80 °C.")
    .plausible(60.0, 15_000.0, "s")
    .possible(1.0, 1e6, "s");

/// `hold-temperature`
pub const HOLD_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Hold temperature", "T_hold")
    .help("From your instructions. In a log, the time at or above it counts; a reading below it restarts the count.")
    .plausible(60.0, 95.0, "°C")
    .possible(20.0, 150.0, "°C");

/// `cool-temperature`
pub const COOL_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Cool-down temperature", "T_cool")
    .help("From your instructions. In a log, the time at or below it counts; a reading above it restarts the count.")
    .plausible(20.0, 45.0, "°C")
    .possible(0.0, 100.0, "°C");

/// `needed-hold-time`, `needed-cool-time`
pub const NEEDED_TIME: Term = Term::number(&TIME, "Required time", "t_needed")
    .units("min", "min")
    .help("From your instructions.")
    .plausible(1.0, 240.0, "min")
    .possible(0.1, 10_000.0, "min");

/// `probe-tolerance`
pub const PROBE_TOLERANCE: Term = Term::number(&TEMPERATURE_DIFFERENCE, "Probe accuracy (±)", "U_T")
    .help("From the probe's certificate or data sheet. A probe that reads 1 °C high shows 26 % more dose than there was.")
    .assumed("± 1 °C, the wide end of usual thermometers (common practice, no source)")
    .plausible(0.0, 2.0, "K")
    .possible(0.0, 20.0, "K");

/// `loop-volume`
pub const LOOP_VOLUME: Term = Term::number(&VOLUME, "Loop volume", "V")
    .help("All the water that is heated, with tank and lines. Drain the loop into a jug once and add up.")
    .plausible(1.0, 100.0, "L")
    .possible(0.01, 10_000.0, "L")
    .within_share(5.0);

/// `apparatus-heat-capacity`
pub const APPARATUS_HEAT_CAPACITY: Term =
    Term::number(&HEAT_CAPACITY, "Heat capacity of tank, lines and housings", "C_a")
        .help("Mass times specific heat, added up; in kJ/(kg °C), from memory: steel 0.5, polypropylene 1.9, PVC 0.9. Enter 0 for the water alone.")
        .assumed("none, so that the true time is longer")
        .plausible(0.0, 200.0, "kJ/K")
        .possible(0.0, 1e5, "kJ/K")
        .within_share(20.0);

/// `start-temperature`
pub const START_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Start temperature", "T_0")
    .help("A reading in the loop before the heater is switched on.")
    .plausible(2.0, 40.0, "°C")
    .possible(0.5, 99.0, "°C")
    .within(0.5, "K")
    .read_with("probe");

/// `target-temperature`
pub const TARGET_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Target temperature", "T_1")
    .help("From your instructions, at the coldest point.")
    .plausible(60.0, 95.0, "°C")
    .possible(1.0, 99.0, "°C");

/// `loop-heater-power`
pub const LOOP_HEATER_POWER: Term = Term::number(&POWER, "Loop heater power", "P")
    .help("From the label, at the voltage of this outlet (socket): at 90 % of the voltage a heater gives 81 % of its power.")
    .plausible(0.5, 20.0, "kW")
    .possible(0.001, 1000.0, "kW")
    .within_share(5.0);

/// `standing-loss`
pub const STANDING_LOSS: Term = Term::number(&POWER, "Heat loss of the loop at the target temperature", "P_l")
    .help("Switch the heater off at that temperature with the pump running: heat capacity times the degrees (°C) lost, divided by the time. Enter 0 for no loss.")
    .assumed("none, so that the true time is longer")
    .plausible(0.0, 3.0, "kW")
    .possible(0.0, 1000.0, "kW")
    .within_share(20.0);

/// `room-temperature`
pub const ROOM_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Room temperature", "T_r")
    .help("With it, the heat loss grows as the loop warms up.")
    .assumed("the whole loss from the start, the cautious side")
    .plausible(10.0, 35.0, "°C")
    .possible(-20.0, 60.0, "°C")
    .within(1.0, "K");

/// `give-up-time`
pub const GIVE_UP_TIME: Term = Term::number(&TIME, "Heat-up time limit", "t_max")
    .units("min", "min")
    .help("From your instructions: the time after which the run is stopped.")
    .plausible(10.0, 240.0, "min")
    .possible(1.0, 10_000.0, "min");

/// `cooling-flow`
pub const COOLING_FLOW: Term = Term::number(&FLOW, "Cooling water flow", "Q_f")
    .help("Cold water in, as much hot water to drain, heater off. Timed jug test (bucket test) at the drain.")
    .plausible(0.5, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0);

/// `cooling-temperature`
pub const COOLING_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Cooling water temperature", "T_in")
    .help("A reading at the tap.")
    .plausible(2.0, 30.0, "°C")
    .possible(0.5, 60.0, "°C")
    .within(0.5, "K");
