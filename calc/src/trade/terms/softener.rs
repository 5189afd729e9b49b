//! Terms of the softener.

use crate::engine::quantity::kinds::{
    CONCENTRATION, DENSITY, HARDNESS, HARDNESS_PER_METAL, RATIO, RESIN_CAPACITY, TIME, VOLUME,
};
use crate::engine::sheet::Term;

/// `resin-capacity`
pub const CAPACITY: Term = Term::number(&RESIN_CAPACITY, "Resin capacity, as CaCO3", "q_r")
    .help("From the softener's label, at the salt dose to which it is set.")
    .assumed("the trade's tables at the salt dose")
    .plausible(30.0, 75.0, "g/L")
    .possible(1.0, 200.0, "g/L")
    .within_share(5.0);

/// `salt-dose`
pub const SALT_DOSE: Term = Term::number(&DENSITY, "Salt dose per regeneration", "d_s")
    .units("kg/m³", "lb/ft³")
    .help("From the softener's setting. 1 kg/m³ is 1 g of salt per liter (litre) of resin.")
    .plausible(80.0, 260.0, "kg/m³")
    .possible(1.0, 1000.0, "kg/m³");

/// `iron`
pub const IRON: Term = Term::number(&CONCENTRATION, "Iron in the water", "Fe")
    .help("From the feed water report. On a well, never assume none without a report.")
    .assumed("none. On a well it must be tested")
    .plausible(0.0, 3.0, "mg/L")
    .possible(0.0, 100.0, "mg/L")
    .within_share(5.0);

/// `iron-factor`
pub const IRON_FACTOR: Term = Term::number(&HARDNESS_PER_METAL, "Iron allowance", "f_Fe")
    .units("gpg per mg/L", "gpg per mg/L")
    .help("An allowance for fouling: sources give 2, 3 and up to 5. Iron itself only takes up 0.1 gpg per mg/L.")
    .assumed("3 gpg per mg/L")
    .plausible(0.0, 5.0, "gpg per mg/L")
    .possible(0.0, 20.0, "gpg per mg/L");

/// `manganese`
pub const MANGANESE: Term = IRON
    .named("Manganese in the water")
    .symbol("Mn")
    .help("From the feed water report. It is shown, not counted in the hardness.")
    .assumed("none. On a well it must be tested")
    .plausible(0.0, 1.0, "mg/L");

/// `daily-running-time`
pub const DAILY_RUNNING_TIME: Term = Term::number(&TIME, "RO running time per day", "t_d")
    .units("h", "h")
    .help("All sessions, with the running before and after each: 4 h of treatment is about 5 h 15 min of running.")
    .plausible(3.0, 20.0, "h")
    .possible(0.0, 24.0, "h");

/// `regeneration-interval`
pub const REGENERATION_INTERVAL: Term = Term::number(&TIME, "Regeneration interval", "t_reg")
    .units("d", "d")
    .help("As the softener is set, or as it is done by hand: every night is 1 d.")
    .plausible(0.5, 7.0, "d")
    .possible(0.1, 100.0, "d");

/// `softener-reserve`
pub const RESERVE: Term = Term::number(&RATIO, "Reserve capacity", "r")
    .help("20 % is common practice, no source.")
    .assumed("none")
    .plausible(0.0, 40.0, "%")
    .possible(0.0, 90.0, "%");

/// `hardness-after-softener`
pub const HARDNESS_AFTER: Term =
    Term::number(&HARDNESS, "Hardness after the softener, end of the day", "H_after")
        .help("A drop test of the softened water when the last session ends: the worst time of the day.")
        .plausible(0.0, 50.0, "mg/L")
        .possible(0.0, 3000.0, "mg/L")
        .within_share(8.0);

/// `volume-between-regenerations`
pub const VOLUME_BETWEEN_REGENERATIONS: Term =
    Term::number(&VOLUME, "Softened water between two regenerations", "V_soft")
        .help("From the sheet “Softener”, or from the softener's instructions for this hardness.")
        .plausible(100.0, 20_000.0, "L")
        .possible(1.0, 1e6, "L");
