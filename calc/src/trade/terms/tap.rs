//! Terms of the tap, the hose and the filters in front of the RO.

use crate::engine::quantity::kinds::{
    FLOW, FLOW_COEFFICIENT, LENGTH, NUMBER, PRESSURE, PRESSURE_DIFFERENCE, TEMPERATURE, TIME, VOLUME,
};
use crate::engine::sheet::Term;

/// `shut-pressure`
pub const SHUT_PRESSURE: Term = Term::number(&PRESSURE, "Static pressure (tap closed)", "p_0")
    .help(
        "A gauge on the tap, nothing running. Read it at the time of day when the building uses most water.",
    )
    .plausible(1.0, 8.0, "bar")
    .possible(0.0, 25.0, "bar")
    .within(0.1, "bar")
    .read_with("tap gauge");

/// `lowest-shut-pressure`
pub const LOWEST_SHUT_PRESSURE: Term = SHUT_PRESSURE
    .named("Lowest static pressure, over day and year")
    .symbol("p_low")
    .help("With a pressure tank: the cut-in pressure of its pump.")
    .assumed("the pressure read now");

/// `highest-shut-pressure`
pub const HIGHEST_SHUT_PRESSURE: Term = SHUT_PRESSURE
    .named("Highest static pressure, over day and year")
    .symbol("p_high")
    .help("At night, when nobody draws water. Only this shows whether the hose rating is enough.");

/// `hose-rating`
pub const HOSE_RATING: Term = SHUT_PRESSURE
    .named("Hose pressure rating")
    .symbol("p_hose")
    .help("Printed on the hose. It holds for the water temperature printed with it.")
    .plausible(3.0, 25.0, "bar")
    .possible(0.5, 400.0, "bar");

/// `open-flow`
pub const OPEN_FLOW: Term = Term::number(&FLOW, "Flow, tap wide open", "Q_1")
    .help("Timed jug (bucket) test with a large jug, tap wide open.")
    .plausible(3.0, 40.0, "L/min")
    .possible(0.01, 1000.0, "L/min")
    .within_share(3.0)
    .read_with("large jug");

/// `jug-volume`
pub const JUG_VOLUME: Term = Term::number(&VOLUME, "Jug volume", "V")
    .help("Up to the mark to which it is filled. Weigh it once with water for a better value: one kilogram is one liter (litre).")
    .plausible(0.5, 25.0, "L")
    .possible(0.01, 1000.0, "L")
    .within_share(3.0)
    .read_with("jug");

/// `jug-time`
pub const JUG_TIME: Term = Term::number(&TIME, "Time to fill the jug", "t")
    .units("s", "s")
    .help("A stopwatch, from the first drop in the jug to the mark.")
    .plausible(5.0, 300.0, "s")
    .possible(0.5, 7200.0, "s")
    .within(0.3, "s")
    .read_with("watch");

/// `open-pressure`
pub const OPEN_PRESSURE: Term = Term::number(&PRESSURE, "Flowing pressure (tap open)", "p_1")
    .help("The same gauge, while that flow runs.")
    .plausible(0.2, 6.0, "bar")
    .possible(0.0, 25.0, "bar")
    .within(0.1, "bar")
    .read_with("tap gauge");

/// `running-flow`
pub const RUNNING_FLOW: Term = Term::number(&FLOW, "Feed flow, running", "Q")
    .help("Product water (permeate) and reject (drain) together.")
    .plausible(0.2, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0)
    .read_with("jug");

/// `flush-flow`
pub const FLUSH_FLOW: Term = RUNNING_FLOW
    .named("Feed flow, in flush")
    .symbol("Q_flush")
    .help("Product and reject together during a flush. Enter 0 if the RO never flushes.")
    .plausible(0.0, 20.0, "L/min")
    .possible(0.0, 1000.0, "L/min");

/// `tap-temperature`
pub const TAP_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Tap water temperature", "T")
    .help("A thermometer in the jug, after the water has run for three minutes.")
    .plausible(2.0, 35.0, "°C")
    .possible(0.5, 60.0, "°C")
    .within(0.5, "K")
    .read_with("thermometer");

/// `bore` of a hose or a fitting
pub const BORE: Term = Term::number(&LENGTH, "Bore (inside diameter)", "D")
    .units("mm", "in")
    .help("As printed on the hose.")
    .plausible(5.0, 50.0, "mm")
    .possible(1.0, 500.0, "mm")
    .within_share(2.0);

/// `length` of a hose
pub const HOSE_LENGTH: Term = Term::number(&LENGTH, "Length", "L")
    .units("m", "ft")
    .help("Measured along the hose.")
    .plausible(0.1, 50.0, "m")
    .possible(0.0, 2000.0, "m")
    .within_share(1.0);

/// `roughness` of a hose
pub const ROUGHNESS: Term = Term::number(&LENGTH, "Wall roughness", "ε")
    .units("µm", "µm")
    .help("Smooth plastic about 1.5 µm, worn rubber up to 70 µm (from memory of textbook tables).")
    .assumed("7 µm, smooth hose")
    .plausible(0.0, 100.0, "µm")
    .possible(0.0, 500.0, "µm");

/// `loss-coefficient` of a fitting
pub const LOSS_COEFFICIENT: Term = Term::number(&NUMBER, "Loss coefficient K", "K")
    .help("Elbow about 1, tee branch about 1.5, open ball valve about 0.1, strainer 2 to 5.")
    .plausible(0.0, 20.0, "")
    .possible(0.0, 1e4, "");

/// `flow-coefficient` of a fitting
pub const COEFFICIENT_OF_FLOW: Term = Term::number(&FLOW_COEFFICIENT, "Flow coefficient", "K_v")
    .help("Of a quick coupling, a valve or a backflow preventer, from its data sheet.")
    .plausible(0.2, 20.0, "Kv")
    .possible(0.001, 1000.0, "Kv");

/// `rise`
pub const RISE: Term = Term::number(&LENGTH, "Height of the RO inlet above the tap gauge", "h")
    .units("m", "ft")
    .assumed("the same height")
    .plausible(-3.0, 3.0, "m")
    .possible(-100.0, 100.0, "m");

/// `filter-drop`
pub const FILTER_DROP: Term =
    Term::number(&PRESSURE_DIFFERENCE, "Sediment filter pressure drop now", "Δp_f0")
        .help("Gauge before minus gauge after, while water runs. Enter 0 if there is no sediment filter.")
        .plausible(0.0, 1.5, "bar")
        .possible(0.0, 20.0, "bar")
        .within(0.05, "bar")
        .read_with("filter gauges");

/// `filter-drop-flow`
pub const FILTER_DROP_FLOW: Term = Term::number(&FLOW, "Flow at that reading", "Q_f")
    .help("Timed jug (bucket) test during that reading: a pressure drop without its flow cannot be compared.")
    .plausible(0.2, 40.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0)
    .read_with("jug");

/// `filter-drop-temperature`
pub const FILTER_DROP_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature at that reading")
    .symbol("T_f")
    .assumed("the tap water temperature");

/// `filter-change-drop`
pub const FILTER_CHANGE_DROP: Term = FILTER_DROP
    .named("Sediment filter change-out pressure drop")
    .symbol("Δp_max")
    .help("At the same flow and temperature as the drop now. From the filter's label or your own rule.");

/// `line-drop`
pub const LINE_DROP: Term = Term::number(&PRESSURE_DIFFERENCE, "Pressure drop of the rest of the line", "Δp_l0")
    .help("Softener, carbon and everything else between the tap gauge and the RO inlet that is not entered elsewhere. Enter 0 if there is nothing.")
    .plausible(0.0, 2.0, "bar")
    .possible(0.0, 20.0, "bar")
    .within(0.05, "bar")
    .read_with("filter gauges");

/// `line-drop-flow`
pub const LINE_DROP_FLOW: Term =
    FILTER_DROP_FLOW.named("Flow at the reading of the rest of the line").symbol("Q_l");

/// `least-inlet-pressure`
pub const LEAST_INLET_PRESSURE: Term = Term::number(&PRESSURE, "Minimum RO inlet pressure", "p_min")
    .help("On the RO's label or in its instructions. Its low-pressure cut-out, if you know it.")
    .plausible(0.5, 4.0, "bar")
    .possible(0.0, 20.0, "bar");
