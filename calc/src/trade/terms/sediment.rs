//! Terms of the sediment filter.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{FLOW, LENGTH, NUMBER, PRESSURE_DIFFERENCE};
use crate::engine::sheet::Term;

/// `cartridges`
pub const CARTRIDGES: Term = Term::number(&NUMBER, "Cartridges side by side", "n")
    .help("Those that share the flow. Two behind one another are two filters: compute each.")
    .assumed("one")
    .whole()
    .plausible(1.0, 6.0, "")
    .possible(1.0, 100.0, "");

/// `cartridge-length`
pub const CARTRIDGE_LENGTH: Term = Term::number(&LENGTH, "Nominal length of a cartridge", "L")
    .units("in", "in")
    .help("As the trade calls it: 5, 10, 20, 30 or 40 inches. A “10-inch” one measures a little less.")
    .assumed("10 inches")
    .plausible(5.0, 40.0, "in")
    .possible(1.0, 100.0, "in");

/// `guideline-flow`
pub const GUIDELINE_FLOW: Term = Term::number(&FLOW, "Flow for each 10 inches, by the label", "Q_10")
    .help("From the label or data sheet of the cartridge. Common practice, no source: wound or blown depth cartridges 8 to 11 L/min at 5 µm, 4 to 5.5 L/min at 1 µm.")
    .plausible(1.0, 25.0, "L/min")
    .possible(0.01, 500.0, "L/min");

/// `clean-drop`
pub const CLEAN_DROP: Term =
    Term::number(&PRESSURE_DIFFERENCE, "Pressure drop of a clean cartridge, by its maker", "Δp_0")
        .help("One point of the maker's curve for this cartridge and this fineness.")
        .plausible(0.005, 0.7, "bar")
        .possible(0.0, 20.0, "bar")
        .within_share(10.0);

/// `clean-drop-flow`
pub const CLEAN_DROP_FLOW: Term = Term::number(&FLOW, "Flow at that point", "Q_0")
    .help("Through one cartridge.")
    .plausible(1.0, 60.0, "L/min")
    .possible(0.01, 1000.0, "L/min");

/// `clean-drop-temperature`
pub const CLEAN_DROP_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature at that point")
    .symbol("T_0")
    .help("On the same sheet of the maker, often 20 °C (68 °F).")
    .assumed("25 °C, the cautious side: makers test in cooler water")
    .plausible(10.0, 30.0, "°C");

/// `clean-drop-length`
pub const CLEAN_DROP_LENGTH: Term = CARTRIDGE_LENGTH
    .named("Nominal length of the cartridge of that curve")
    .symbol("L_0")
    .assumed("as long as the one that is fitted");
