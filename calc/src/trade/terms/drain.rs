//! Terms of the drain and of the socket.

use crate::engine::quantity::kinds::{CURRENT, FLOW, RATIO, VOLTAGE};
use crate::engine::sheet::Term;

/// `drain-flow`
pub const DRAIN_FLOW: Term = Term::number(&FLOW, "What the drain takes", "Q_drain")
    .help("Pour a measured bucket steadily down the drain as fast as it runs away without backing up, and stop the time. Local codes set how a drain may be used.")
    .plausible(2.0, 40.0, "L/min")
    .possible(0.05, 1000.0, "L/min")
    .within_share(10.0);

/// `machine-effluent`
pub const MACHINE_EFFLUENT: Term = Term::number(&FLOW, "What the machines send to the drain at most", "Q_e")
    .help("Spent dialysate, or what a rinse sends away, of all machines at once: as much as they draw.")
    .plausible(0.1, 10.0, "L/min")
    .possible(0.0, 500.0, "L/min")
    .within_share(5.0);

/// `surplus`
pub const SURPLUS: Term = Term::other("Where product water goes that no machine draws")
    .help("Look where the overflow of the product line ends.")
    .assumed("to the drain, the cautious side");

/// `supply-voltage`
pub const SUPPLY_VOLTAGE: Term = Term::number(&VOLTAGE, "Voltage of the socket", "U")
    .help("As printed on the labels of RO and machine, and as those who run the building say.")
    .plausible(100.0, 250.0, "V")
    .possible(50.0, 500.0, "V");

/// `breaker-rating`
pub const BREAKER_RATING: Term = Term::number(&CURRENT, "Rating of the breaker behind the socket", "I_b")
    .help("Printed on the breaker; ask those who run the building which sockets hang on it.")
    .plausible(6.0, 32.0, "A")
    .possible(0.5, 400.0, "A");

/// `ro-current`
pub const RO_CURRENT: Term = Term::number(&CURRENT, "Current of the RO by its label", "I_RO")
    .help("Label current, with its pump running. Enter 0 where it hangs on another breaker.")
    .plausible(0.0, 16.0, "A")
    .possible(0.0, 200.0, "A");

/// `machine-current`
pub const MACHINE_CURRENT: Term = RO_CURRENT
    .named("Current of one dialysis machine by its label, heater included")
    .symbol("I_m")
    .assumed("not known; its heater alone is counted, which can only show a breaker too small");

/// `other-current`
pub const OTHER_CURRENT: Term = RO_CURRENT
    .named("Current of everything else on that breaker")
    .symbol("I_o")
    .help("Bed, pumps, monitors, whatever is plugged in beside. A socket alone on its breaker has none.")
    .assumed("none: the socket is alone on its breaker");

/// `continuous-share`
pub const CONTINUOUS_SHARE: Term =
    Term::number(&RATIO, "Share of the breaker's rating that a load of hours may use", "s")
        .help("80 % by the code of the US, from memory. Other countries ask otherwise: a licensed electrician knows the rule of this place.")
        .assumed("80 %")
        .plausible(60.0, 100.0, "%")
        .possible(10.0, 100.0, "%");
