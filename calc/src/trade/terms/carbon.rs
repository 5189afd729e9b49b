//! Terms of the carbons.

use crate::engine::quantity::kinds::{
    CHLORINE, DENSITY, FLOW, LENGTH, NUMBER, RATIO, TIME, VELOCITY, VOLUME,
};
use crate::engine::sheet::Term;

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

/// `session-running-time`
pub const SESSION_RUNNING_TIME: Term = Term::number(
    &TIME,
    "Time for which the RO runs for one session",
    "t_s",
)
.units("h", "h")
.help("Treatment with the running before and after it: 4 h of treatment are about 5 h 15 min of running.")
.plausible(2.0, 12.0, "h")
.possible(0.0, 72.0, "h");

/// `rated-disinfectant`
pub const RATED_DISINFECTANT: Term = Term::other("Form of chlorine that the label's litres are for")
    .help("A label for free chlorine says nothing about chloramine.");

/// `rated-volume`
pub const RATED_VOLUME: Term = Term::number(&VOLUME, "Litres on the carbon's label", "V_label")
    .help("On the label or in the test report of the cartridge, for one cartridge.")
    .plausible(200.0, 100_000.0, "L")
    .possible(1.0, 1e7, "L");

/// `rated-flow`
pub const RATED_FLOW: Term = Term::number(&FLOW, "Flow on the carbon's label", "Q_label")
    .help("Above it the litres of the label promise nothing.")
    .plausible(0.5, 20.0, "L/min")
    .possible(0.01, 1000.0, "L/min");

/// `rated-inlet`
pub const RATED_INLET: Term = Term::number(
    &CHLORINE,
    "Chlorine before the carbon in the label's test",
    "C_in",
)
.help("Usually 2.0 mg/L for free chlorine and 3.0 mg/L for chloramine (from memory): look at the label.")
.plausible(0.5, 5.0, "mg/L")
.possible(0.01, 100.0, "mg/L");

/// `rated-outlet`
pub const RATED_OUTLET: Term =
    Term::number(&CHLORINE, "Chlorine after the carbon at the end of the label's test", "C_out")
        .help("Usually 0.5 mg/L, five times the limit for dialysis (from memory): look at the label.")
        .plausible(0.05, 1.5, "mg/L")
        .possible(0.001, 100.0, "mg/L");

/// `carbon-density`
pub const CARBON_DENSITY: Term = Term::number(&DENSITY, "Apparent density of the granular carbon", "ρ")
    .help("From its data sheet.")
    .assumed("400 to 520 kg/m³, as a range")
    .plausible(350.0, 600.0, "kg/m³")
    .possible(50.0, 2000.0, "kg/m³");

/// `carbon-capacity`
pub const CARBON_CAPACITY: Term =
    Term::number(&RATIO, "Chlorine that the carbon takes up, of its own mass", "q")
        .help("Only from breakthrough measured on this very carbon; g of chlorine as Cl2 in 100 g of carbon.")
        .assumed("100 to 200 % for free chlorine, 1 to 10 % for chloramine, as a range")
        .plausible(0.5, 250.0, "%")
        .possible(0.01, 1000.0, "%");

/// `half-length`
pub const HALF_LENGTH: Term = Term::number(&LENGTH, "Half-value length of the carbon for free chlorine", "h")
    .units("mm", "in")
    .help("From its data sheet: the depth of bed that halves free chlorine at the velocity of the test.")
    .plausible(10.0, 100.0, "mm")
    .possible(0.1, 10_000.0, "mm");

/// `half-length-velocity`
pub const HALF_LENGTH_VELOCITY: Term = Term::number(&VELOCITY, "Velocity of that test", "v")
    .units("m/h", "gal/min/ft²")
    .help("From the same data sheet. Sources say 3.6 m/h and 36 m/h: ask, do not assume.")
    .plausible(3.0, 40.0, "m/h")
    .possible(0.01, 1000.0, "m/h");

/// `vessel-diameter`
pub const VESSEL_DIAMETER: Term = Term::number(&LENGTH, "Inner diameter of the vessel", "D")
    .units("mm", "in")
    .help("From its data sheet; or a tape around it, over 3.14, less two walls.")
    .plausible(100.0, 600.0, "mm")
    .possible(10.0, 5000.0, "mm")
    .within_share(2.0);

/// `bed-depth`
pub const BED_DEPTH: Term = Term::number(&LENGTH, "Depth of the carbon bed", "L")
    .units("mm", "in")
    .help("Of the carbon itself, without gravel and free room: a rod from the top.")
    .plausible(200.0, 1800.0, "mm")
    .possible(1.0, 10_000.0, "mm")
    .within_share(3.0);

/// `block-outer-diameter`
pub const BLOCK_OUTER_DIAMETER: Term = Term::number(&LENGTH, "Outer diameter of the block", "D_o")
    .units("mm", "in")
    .help("Of the pressed carbon, without net and end caps.")
    .plausible(40.0, 130.0, "mm")
    .possible(5.0, 1000.0, "mm")
    .within_share(2.0);

/// `block-inner-diameter`
pub const BLOCK_INNER_DIAMETER: Term = Term::number(&LENGTH, "Diameter of its bore", "D_i")
    .units("mm", "in")
    .help("The hole along its axis.")
    .plausible(10.0, 60.0, "mm")
    .possible(0.0, 1000.0, "mm")
    .within_share(2.0);

/// `block-length`
pub const BLOCK_LENGTH: Term = Term::number(&LENGTH, "Length of the block", "L")
    .units("mm", "in")
    .help("Of the pressed carbon, without end caps; all blocks side by side in one line counted end to end.")
    .plausible(100.0, 1200.0, "mm")
    .possible(1.0, 10_000.0, "mm")
    .within_share(1.0);

/// `wanted-contact-time`
pub const WANTED_CONTACT_TIME: Term = Term::number(&TIME, "Contact time wanted of this vessel or block", "t_w")
    .units("min", "min")
    .help("From the rule that holds here or from the carbon's data sheet: 5 min in each of two under the rule of ten minutes.")
    .plausible(0.2, 15.0, "min")
    .possible(0.01, 1000.0, "min");

/// `grain-diameter`
pub const GRAIN_DIAMETER: Term = Term::number(&LENGTH, "Mean diameter of the grains", "d_p")
    .units("mm", "mm")
    .help("From the carbon's data sheet. From memory: 12x40 mesh about 1.0 mm, 8x30 about 1.5 mm.")
    .plausible(0.4, 2.0, "mm")
    .possible(0.05, 20.0, "mm")
    .within_share(10.0);

/// `bed-void`
pub const BED_VOID: Term = Term::number(&RATIO, "Void between the grains", "ε")
    .help("From the carbon's data sheet; after a backwash about 45 % (from memory).")
    .assumed("38 to 50 %, as a range")
    .plausible(35.0, 55.0, "%")
    .possible(10.0, 90.0, "%");

/// `sphericity`
pub const SPHERICITY: Term = Term::number(&NUMBER, "Sphericity of the grains", "ψ")
    .help("Surface of a ball over that of a grain of the same volume; 1 is a ball.")
    .assumed("0.70 to 0.80, as a range")
    .plausible(0.6, 1.0, "")
    .possible(0.1, 1.0, "");
