//! Terms of chlorine in the tap water, and of the test for it.
//!
//! What is plausible, and the ± 0.03 mg/L of a reading, is common practice of the trade (no source).

use crate::engine::quantity::kinds::{CHLORINE, TIME};
use crate::engine::sheet::Term;

/// `total-chlorine`
pub const TOTAL_CHLORINE: Term = Term::number(&CHLORINE, "Total chlorine at the tap", "TC")
    .help("Free and combined together, as Cl2. Use a total chlorine test (DPD with iodide, or a total chlorine strip) and read it on the spot.")
    .plausible(0.0, 4.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L");

/// `free-chlorine`
pub const FREE_CHLORINE: Term = Term::number(&CHLORINE, "Free chlorine at the tap", "FC")
    .help("As Cl2, from the same sample as the total. Read it within a minute: chloramine slowly shows in this test too.")
    .assumed("all of the total is combined chlorine (chloramine)")
    .plausible(0.0, 4.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L");

/// `chlorine-after-first`
pub const AFTER_FIRST: Term = Term::number(&CHLORINE, "Total chlorine after the first carbon (worker)", "TC_1")
    .help("As Cl2, by a total chlorine test, read on the spot. Enter it as read, without rounding; “<0.05 mg/L” if the test says so.")
    .plausible(0.0, 1.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L")
    .or_below();

/// `chlorine-after-second`
pub const AFTER_SECOND: Term =
    AFTER_FIRST.named("Total chlorine after the second carbon (polisher)").symbol("TC_2");

/// `run-in-time`
pub const RUN_IN_TIME: Term = Term::number(&TIME, "RO running time before the sample", "t_run")
    .help("At the usual flow, without a stop, until the sample was taken.")
    .plausible(5.0, 120.0, "min")
    .possible(0.0, 1e5, "min");

/// `smallest-step`
pub const SMALLEST_STEP: Term = Term::number(&CHLORINE, "Test resolution", "δ")
    .help("Of a meter, the step of its last digit. Of a strip, the step from 0 to the next block.")
    .plausible(0.01, 0.5, "mg/L")
    .possible(0.0001, 20.0, "mg/L");

/// `test-uncertainty`
pub const TEST_UNCERTAINTY: Term = Term::number(&CHLORINE, "Test accuracy (±)", "±")
    .help("Near 0.1 mg/L, from the instructions of the test.")
    .assumed("0.03 mg/L (common practice, no source), or half of the test resolution if that is more")
    .plausible(0.005, 0.1, "mg/L")
    .possible(0.0, 20.0, "mg/L");

/// `interference-blank`
pub const INTERFERENCE_BLANK: Term = Term::number(&CHLORINE, "Interference blank reading", "TC_b")
    .help("By the test's own procedure, with water from the same port: what shows in the test and is not chlorine, such as oxidized manganese.")
    .plausible(0.0, 1.0, "mg/L")
    .possible(0.0, 20.0, "mg/L")
    .within(0.03, "mg/L");

/// `test-interval`
pub const TEST_INTERVAL: Term = Term::number(&TIME, "Test interval", "t_4")
    .units("h", "h")
    .help("At most 4 h. The facility's policy may need a shorter one.")
    .assumed("4 h")
    .plausible(0.5, 4.0, "h")
    .possible(0.1, 4.0, "h");

/// `acceptance-date`
pub const ACCEPTANCE_DATE: Term = Term::other("Written acceptance of this supply: date")
    .help("The medical director accepts in writing that a supply without chlorine is used behind one carbon. Enter the date on the document.")
    .assumed("nobody has accepted it: hold");
