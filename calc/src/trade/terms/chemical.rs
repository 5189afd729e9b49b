//! Terms of chemical disinfection.

use crate::engine::quantity::kinds::{CONCENTRATION, DENSITY, FLOW, NUMBER, RATIO, TIME, VOLUME};
use crate::engine::sheet::Term;

/// `stock-concentration`
pub const STOCK_CONCENTRATION: Term =
    Term::number(&CONCENTRATION, "Strength of the concentrate, by volume", "C_1")
        .units("g/L", "g/L")
        .help("From the label; 1 % w/v is 10 g/L. Hypochlorite loses strength in storage: use a measured or dated strength.")
        .assumed("by mass and density")
        .plausible(10.0, 500.0, "g/L")
        .possible(0.001, 2000.0, "g/L");

/// `stock-share`
pub const STOCK_SHARE: Term = Term::number(&RATIO, "Strength of the concentrate, by mass (% w/w)", "w")
    .help("From the label, where it says % by weight; it needs the density too.")
    .assumed("by volume")
    .plausible(1.0, 50.0, "%")
    .possible(0.0001, 100.0, "%");

/// `stock-density`
pub const STOCK_DENSITY: Term = Term::number(&DENSITY, "Density of the concentrate", "ρ")
    .units("g/mL", "g/mL")
    .help("From its safety data sheet.")
    .plausible(0.9, 1.4, "g/mL")
    .possible(0.5, 3.0, "g/mL");

/// `wanted-concentration`
pub const WANTED: Term = Term::number(&CONCENTRATION, "Strength of the solution", "C_2")
    .help("From the RO's own instructions; 1 % w/v is 10 g/L, 1 ppm about 1 mg/L.")
    .plausible(100.0, 20_000.0, "mg/L")
    .possible(0.01, 1e6, "mg/L");

/// `solution-volume`
pub const SOLUTION_VOLUME: Term = Term::number(&VOLUME, "Volume of solution", "V_2")
    .help("What the circuit holds with its tank and hoses.")
    .plausible(1.0, 100.0, "L")
    .possible(0.001, 1e5, "L");

/// `held-volume`
pub const HELD_VOLUME: Term = Term::number(&VOLUME, "Volume that holds the disinfectant", "V")
    .help("Circuit, vessels and hoses together: as much as was filled in.")
    .plausible(1.0, 100.0, "L")
    .possible(0.001, 1e5, "L")
    .within_share(5.0);

/// `rinse-flow`
pub const RINSE_FLOW: Term = Term::number(&FLOW, "Flow of the rinse", "Q")
    .help("A jug and a watch at the drain.")
    .plausible(0.5, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0);

/// `residual-limit`
pub const RESIDUAL_LIMIT: Term =
    Term::number(&CONCENTRATION, "Residual below which it may be used again", "C_r")
        .help("From the label of the disinfectant and its test; there is no usual value that would do.")
        .plausible(0.1, 5.0, "mg/L")
        .possible(1e-6, 1000.0, "mg/L");

/// `residual`
pub const RESIDUAL: Term = Term::number(&CONCENTRATION, "Residual", "C")
    .help("By the disinfectant's own test, with “<” where it says “less than”.")
    .plausible(0.0, 1000.0, "mg/L")
    .possible(0.0, 1e6, "mg/L")
    .or_below();

/// `tanks`
pub const TANKS: Term = Term::number(&NUMBER, "Mixed volumes in series", "N")
    .help("1 is one mixed tank, the slowest; a long narrow circuit is like many.")
    .assumed("1, the slowest")
    .whole()
    .plausible(1.0, 20.0, "")
    .possible(1.0, 100.0, "");

/// `pause`
pub const PAUSE: Term = Term::number(&TIME, "Pause before the second test", "t_p")
    .help("With the water standing: dead ends and the membrane give back what they hold.")
    .plausible(5.0, 60.0, "min")
    .possible(0.0, 1e5, "min");
