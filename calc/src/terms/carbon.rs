//! Terms of the carbons.

use crate::quantity::kinds::{FLOW, VOLUME};
use crate::sheet::Term;

/// `bed-volume`
pub const BED_VOLUME: Term = Term::number(&VOLUME, "Volume of the first carbon bed", "V_1")
    .units("L", "ft³")
    .help("Volume of the carbon itself, without gravel and free room above it. For a block: π/4 · (outer² − inner²) · length.")
    .plausible(0.2, 200.0, "L")
    .possible(0.01, 5000.0, "L")
    .within_share(5.0);

/// `second-bed-volume`
pub const SECOND_BED_VOLUME: Term =
    BED_VOLUME.named("Volume of the second carbon bed").symbol("V_2").assumed("no second carbon in series");

/// `flow`
pub const HIGHEST_FLOW: Term = Term::number(&FLOW, "Highest flow through it", "Q")
    .help("Product and reject together, in the warmest month and also while it flushes. Fill a jug at both outlets and stop the time.")
    .plausible(0.2, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0);

/// `rule`
pub const RULE: Term = Term::other("What this place relies on")
    .help("A carbon block never reaches ten minutes; portable systems may instead rely on a test before every session, where local rules allow it.")
    .assumed("contact time");
