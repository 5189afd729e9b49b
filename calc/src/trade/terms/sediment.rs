//! Terms of the sediment filter.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{FLOW, LENGTH, NUMBER, PRESSURE_DIFFERENCE};
use crate::engine::sheet::Term;

/// `cartridges`
pub const CARTRIDGES: Term = Term::number(&NUMBER, "Cartridges in parallel", "n")
    .help("Cartridges that share the flow. Two in series are two filters: calculate each.")
    .assumed("one")
    .whole()
    .plausible(1.0, 6.0, "")
    .possible(1.0, 100.0, "");

/// `cartridge-length`
pub const CARTRIDGE_LENGTH: Term = Term::number(&LENGTH, "Nominal cartridge length", "L")
    .units("in", "in")
    .help("The trade size: 5, 10, 20, 30 or 40 inches. A “10-inch” cartridge measures a little less.")
    .assumed("10 inches")
    .plausible(5.0, 40.0, "in")
    .possible(1.0, 100.0, "in");

/// `guideline-flow`
pub const GUIDELINE_FLOW: Term = Term::number(&FLOW, "Flow guideline per 10 inches (label)", "Q_10")
    .help("From the cartridge's label or data sheet. Common practice, no source: wound or blown depth cartridges 8 to 11 L/min (2 to 3 gpm) at 5 µm, 4 to 5.5 L/min (1 to 1.5 gpm) at 1 µm.")
    .plausible(1.0, 25.0, "L/min")
    .possible(0.01, 500.0, "L/min");

/// `clean-drop`
pub const CLEAN_DROP: Term =
    Term::number(&PRESSURE_DIFFERENCE, "Clean cartridge pressure drop (maker's curve)", "Δp_0")
        .help("One point of the maker's curve for this cartridge and this micron rating.")
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
    .help("On the same data sheet, often 20 °C (68 °F).")
    .assumed("25 °C (77 °F), the cautious side: makers test in cooler water")
    .plausible(10.0, 30.0, "°C");

/// `clean-drop-length`
pub const CLEAN_DROP_LENGTH: Term = CARTRIDGE_LENGTH
    .named("Nominal cartridge length of that curve")
    .symbol("L_0")
    .assumed("the length that is fitted");
