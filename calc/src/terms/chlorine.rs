//! Terms of chlorine in the tap water.

use crate::quantity::kinds::CHLORINE;
use crate::sheet::Term;

/// `total-chlorine`
pub const TOTAL_CHLORINE: Term = Term::number(&CHLORINE, "Total chlorine at the tap", "TC")
    .help("Free and combined together, as Cl2, by a test for total chlorine (DPD with iodide, or a total strip), read on the spot.")
    .plausible(0.0, 4.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L");

/// `free-chlorine`
pub const FREE_CHLORINE: Term = Term::number(&CHLORINE, "Free chlorine at the tap", "FC")
    .help("As Cl2, from the same sample as the total, read within a minute: chloramine colours this test when it waits.")
    .assumed("none: all of the total is combined (chloramine)")
    .plausible(0.0, 4.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L");
