//! Terms of chlorine in the tap water.

use crate::engine::quantity::kinds::{CHLORINE, TIME};
use crate::engine::sheet::Term;

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

/// `chlorine-after-first`
pub const AFTER_FIRST: Term = Term::number(&CHLORINE, "Total chlorine after the first carbon", "TC_1")
    .help("As Cl2, by a test for total chlorine, read on the spot and written as it was read, without rounding; “<0.05 mg/L” where the test says so.")
    .plausible(0.0, 1.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L")
    .or_below();

/// `chlorine-after-second`
pub const AFTER_SECOND: Term = AFTER_FIRST.named("Total chlorine after the second carbon").symbol("TC_2");

/// `run-in-time`
pub const RUN_IN_TIME: Term = Term::number(&TIME, "Time for which the RO had run before the sample", "t_run")
    .help("At its usual flow, without a pause, until the sample was drawn.")
    .plausible(5.0, 120.0, "min")
    .possible(0.0, 1e5, "min");

/// `smallest-step`
pub const SMALLEST_STEP: Term = Term::number(&CHLORINE, "Smallest step that the test can show", "δ")
    .help("Of a meter its last digit; of a strip the distance from its colour for 0 to the next.")
    .plausible(0.01, 0.5, "mg/L")
    .possible(0.0001, 20.0, "mg/L");

/// `test-uncertainty`
pub const TEST_UNCERTAINTY: Term = Term::number(&CHLORINE, "By how much the test may be off", "±")
    .help("From the instructions of the test, near 0.1 mg/L.")
    .assumed("0.03 mg/L, or half of the smallest step where that is more")
    .plausible(0.005, 0.1, "mg/L")
    .possible(0.0, 20.0, "mg/L");

/// `interference-blank`
pub const INTERFERENCE_BLANK: Term = Term::number(&CHLORINE, "Colour of the interference blank", "TC_b")
    .help("By the test's own procedure, with water of the same port: what colours it without being chlorine, oxidized manganese for one.")
    .plausible(0.0, 1.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L");

/// `test-interval`
pub const TEST_INTERVAL: Term = Term::number(&TIME, "Time after which the next test is due", "t_4")
    .units("h", "h")
    .help("Four hours at the most; the facility's policy may ask for less.")
    .assumed("4 h")
    .plausible(0.5, 4.0, "h")
    .possible(0.1, 4.0, "h");
