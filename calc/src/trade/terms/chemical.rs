//! Terms of chemical disinfection.

use crate::engine::quantity::kinds::{CONCENTRATION, DENSITY, FLOW, NUMBER, RATIO, TIME, VOLUME};
use crate::engine::sheet::Term;

/// `stock-concentration`
pub const STOCK_CONCENTRATION: Term = Term::number(
    &CONCENTRATION,
    "Strength of the stock, by volume (w/v)",
    "C_1",
)
.units("g/L", "g/L")
.help(
    "From the label; 1 % w/v is 10 g/L. Bleach loses strength in storage: use a measured or dated strength.",
)
.assumed("by mass and density")
.plausible(10.0, 500.0, "g/L")
.possible(0.001, 2000.0, "g/L");

/// `stock-share`
pub const STOCK_SHARE: Term = Term::number(&RATIO, "Strength of the stock, by mass (% w/w)", "w")
    .help(
        "From the label, where it says % by weight; a liquid needs the density too. Of a powder, its purity.",
    )
    .assumed("by volume; of a powder, pure")
    .plausible(1.0, 100.0, "%")
    .possible(0.0001, 100.0, "%");

/// `stock-density`
pub const STOCK_DENSITY: Term = Term::number(&DENSITY, "Density of the stock", "ρ")
    .units("g/mL", "g/mL")
    .help("From its safety data sheet.")
    .plausible(0.9, 1.4, "g/mL")
    .possible(0.5, 3.0, "g/mL");

/// `solution-density`
pub const SOLUTION_DENSITY: Term = STOCK_DENSITY
    .named("Density of the solution")
    .symbol("ρ_2")
    .help("Needed for % w/w above 5 %.")
    .assumed("1.00 g/mL, as water, up to 5 %");

/// `wanted-concentration`
pub const WANTED: Term = Term::number(&CONCENTRATION, "Strength of the solution", "C_2")
    .help("From the RO's own instructions; 1 % w/v is 10 g/L, 1 ppm about 1 mg/L.")
    .plausible(100.0, 20_000.0, "mg/L")
    .possible(0.01, 1e6, "mg/L");

/// `wanted-percent`
pub const WANTED_PERCENT: Term = Term::number(&RATIO, "Strength of the solution (%)", "p")
    .help("From the RO's own instructions, with what the % means.")
    .assumed("as a concentration or in parts")
    .plausible(0.01, 10.0, "%")
    .possible(1e-6, 100.0, "%");

/// `ratio-number`
pub const RATIO_NUMBER: Term = Term::number(&NUMBER, "Dilution ratio: the number N", "N")
    .help("The 100 of “1 in 100” or “1 + 100”, with which of the two it is.")
    .assumed("as a concentration or in %")
    .plausible(1.0, 1000.0, "")
    .possible(0.001, 1e6, "");

/// `solution-volume`
pub const SOLUTION_VOLUME: Term = Term::number(&VOLUME, "Volume of solution", "V_2")
    .help("What the circuit holds with its tank and hoses.")
    .plausible(1.0, 100.0, "L")
    .possible(0.001, 1e5, "L");

/// `held-volume`
pub const HELD_VOLUME: Term = Term::number(&VOLUME, "Volume in contact with the disinfectant", "V")
    .help("Circuit, vessels and hoses together: as much as was put in.")
    .plausible(1.0, 100.0, "L")
    .possible(0.001, 1e5, "L")
    .within_share(5.0);

/// `rinse-flow`
pub const RINSE_FLOW: Term = Term::number(&FLOW, "Rinse flow", "Q")
    .help("Timed jug test (bucket test) at the drain.")
    .plausible(0.5, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0);

/// `agent`
pub const AGENT: Term = Term::other("Disinfectant or descaler");

/// `residual-limit`
pub const RESIDUAL_LIMIT: Term = Term::number(&CONCENTRATION, "Residual limit", "C_r")
    .help("From the label of the disinfectant and its test. At most: 0.1 mg/L total chlorine for bleach; from memory, 1 mg/L peracetic acid, 3 mg/L formaldehyde.")
    .plausible(0.1, 5.0, "mg/L")
    .possible(1e-6, 1000.0, "mg/L");

/// `residual`
pub const RESIDUAL: Term = Term::number(&CONCENTRATION, "Residual", "C")
    .help("By the disinfectant's own test. Where it shows nothing, enter “<” and the smallest amount that it can show.")
    .plausible(0.0, 1000.0, "mg/L")
    .possible(0.0, 1e6, "mg/L")
    .or_below();

/// `tanks`
pub const TANKS: Term = Term::number(&NUMBER, "Mixed volumes in series", "N")
    .help("1 is one mixed tank, the slowest. A long narrow circuit is like many.")
    .assumed("1, the slowest")
    .whole()
    .plausible(1.0, 20.0, "")
    .possible(1.0, 100.0, "");

/// `pause`
pub const PAUSE: Term = Term::number(&TIME, "Standing time before the retest", "t_p")
    .help("How long the water stood still: dead legs and the membrane release what they hold.")
    .units("min", "min")
    .plausible(5.0, 60.0, "min")
    .possible(0.0, 1e5, "min");

/// `needed-pause`
pub const NEEDED_PAUSE: Term = Term::number(&TIME, "Required standing time before the retest", "t_p,needed")
    .help("From your instructions. After less than this the retest shows nothing.")
    .units("min", "min")
    .plausible(5.0, 60.0, "min")
    .possible(1.0, 1e5, "min");

/// `volume-left`
pub const VOLUME_LEFT: Term = Term::number(&VOLUME, "Volume left after draining", "V_r")
    .help("For a rinse by filling and draining. What was put in, less what drained into a jug.")
    .plausible(0.1, 10.0, "L")
    .possible(0.0, 1e4, "L")
    .within_share(5.0);

/// `fill-volume`
pub const FILL_VOLUME: Term = Term::number(&VOLUME, "Volume filled in each cycle", "V_f")
    .help("For a rinse by filling and draining.")
    .plausible(1.0, 100.0, "L")
    .possible(0.001, 1e5, "L")
    .within_share(5.0);
