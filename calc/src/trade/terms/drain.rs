//! Terms of the drain and of the socket.

use crate::engine::quantity::kinds::{CURRENT, FLOW, RATIO, VOLTAGE};
use crate::engine::sheet::Term;

/// `drain-flow`
pub const DRAIN_FLOW: Term = Term::number(&FLOW, "Drain capacity", "Q_drain")
    .help("Pour a measured bucket steadily down the drain, as fast as it takes it without backing up, and time it. Local codes set how a drain may be used.")
    .plausible(2.0, 40.0, "L/min")
    .possible(0.05, 1000.0, "L/min")
    .within_share(10.0);

/// `machine-effluent`
pub const MACHINE_EFFLUENT: Term = Term::number(&FLOW, "Highest drain flow of the dialysis machines", "Q_e")
    .help("Spent dialysate, or rinse water, of all machines at once: as much as they draw.")
    .plausible(0.1, 10.0, "L/min")
    .possible(0.0, 500.0, "L/min")
    .within_share(5.0);

/// `surplus`
pub const SURPLUS: Term = Term::other("Surplus product water goes")
    .help("See where the overflow of the product line ends.")
    .assumed("to the drain, the cautious side");

/// `supply-voltage`
pub const SUPPLY_VOLTAGE: Term = Term::number(&VOLTAGE, "Outlet (socket) voltage", "U")
    .help("From the labels of RO and dialysis machine; facilities (estates) know the supply.")
    .plausible(100.0, 250.0, "V")
    .possible(50.0, 500.0, "V");

/// `breaker-rating`
pub const BREAKER_RATING: Term = Term::number(&CURRENT, "Breaker rating", "I_b")
    .help("Printed on the breaker. Ask facilities (estates) which outlets (sockets) are on it.")
    .plausible(6.0, 32.0, "A")
    .possible(0.5, 400.0, "A");

/// `ro-current`
pub const RO_CURRENT: Term = Term::number(&CURRENT, "RO current (label)", "I_RO")
    .help("Label current, with its pump running. Enter 0 if it is on another breaker.")
    .plausible(0.0, 16.0, "A")
    .possible(0.0, 200.0, "A");

/// `machine-current`
pub const MACHINE_CURRENT: Term = RO_CURRENT
    .named("Current of one dialysis machine (label), heater included")
    .symbol("I_m")
    .assumed("not known. Only its heater is counted, which can only show that the breaker is too small");

/// `other-current`
pub const OTHER_CURRENT: Term = RO_CURRENT
    .named("Current of everything else on that breaker")
    .symbol("I_o")
    .help("Bed, pumps, monitors, anything else plugged in. None if the outlet is alone on its breaker.")
    .assumed("none: the outlet is alone on its breaker");

/// `continuous-share`
pub const CONTINUOUS_SHARE: Term =
    Term::number(&RATIO, "Continuous load, share of the breaker rating", "s")
        .help("80 % by the US code, from memory. Other countries have other rules: a licensed electrician knows the rule here.")
        .assumed("80 %")
        .plausible(60.0, 100.0, "%")
        .possible(10.0, 100.0, "%");
