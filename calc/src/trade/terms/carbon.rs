//! Terms of the carbons.
//!
//! What is plausible, and how exactly a technician reads it, is common practice of the trade (no source); the help of a
//! field says so where a value in it is recalled from memory.

use crate::engine::quantity::kinds::{
    CHLORINE, DENSITY, FLOW, LENGTH, NUMBER, RATIO, TIME, VELOCITY, VOLUME,
};
use crate::engine::sheet::Term;

/// `bed-volume`
pub const BED_VOLUME: Term = Term::number(&VOLUME, "Bed volume of the first carbon (worker)", "V_1")
    .units("L", "ft³")
    .help("The carbon alone, without gravel and freeboard. For a block: π/4 · (outer diameter² − inner diameter²) · length.")
    .plausible(0.2, 200.0, "L")
    .possible(0.01, 5000.0, "L")
    .within_share(5.0);

/// `second-bed-volume`
pub const SECOND_BED_VOLUME: Term = BED_VOLUME
    .named("Bed volume of the second carbon (polisher)")
    .symbol("V_2")
    .assumed("there is no second carbon in series");

/// `flow`
pub const HIGHEST_FLOW: Term = Term::number(&FLOW, "Highest flow through the carbon", "Q")
    .help("Product water and reject together, in the warmest month, and in flush if that is more. Time a jug at both outlets and add the two flows.")
    .plausible(0.2, 20.0, "L/min")
    .possible(0.001, 1000.0, "L/min")
    .within_share(3.0);

/// `rule`
pub const RULE: Term = Term::other("Carbon rule at this place")
    .help("A carbon block never reaches an EBCT of 10 min. A portable RO may rely on a total chlorine test before every session instead, where local rules allow it.")
    .assumed("EBCT");

/// `session-running-time`
pub const SESSION_RUNNING_TIME: Term = Term::number(
    &TIME,
    "RO running time per session",
    "t_s",
)
.units("h", "h")
.help("The treatment and the running before and after it. A treatment of 4 h is about 5 h 15 min of running (common practice, no source).")
.plausible(2.0, 12.0, "h")
.possible(0.0, 72.0, "h");

/// `rated-disinfectant`
pub const RATED_DISINFECTANT: Term =
    Term::other("Rated for (label)").help("A rating for free chlorine says nothing about chloramine.");

/// `rated-volume`
pub const RATED_VOLUME: Term = Term::number(&VOLUME, "Rated capacity (label)", "V_label")
    .help("On the label or in the test report, for one cartridge.")
    .plausible(200.0, 100_000.0, "L")
    .possible(1.0, 1e7, "L");

/// `rated-flow`
pub const RATED_FLOW: Term = Term::number(&FLOW, "Rated flow (label)", "Q_label")
    .help("Above this flow the rated capacity promises nothing.")
    .plausible(0.5, 20.0, "L/min")
    .possible(0.01, 1000.0, "L/min");

/// `rated-inlet`
pub const RATED_INLET: Term = Term::number(&CHLORINE, "Rated inlet chlorine (label)", "C_in")
    .help(
        "Usually 2.0 mg/L for free chlorine and 3.0 mg/L for chloramine (from memory). Read it on the label.",
    )
    .plausible(0.5, 5.0, "mg/L")
    .possible(0.01, 100.0, "mg/L");

/// `rated-outlet`
pub const RATED_OUTLET: Term =
    Term::number(&CHLORINE, "Rated outlet chlorine (label)", "C_out")
        .help("At the end of the label's test. Usually 0.5 mg/L, five times the limit for dialysis (from memory). Read it on the label.")
        .plausible(0.05, 1.5, "mg/L")
        .possible(0.001, 100.0, "mg/L");

/// `carbon-density`
pub const CARBON_DENSITY: Term = Term::number(&DENSITY, "Apparent density of the carbon", "ρ")
    .help("From the carbon's data sheet.")
    .assumed("400 to 520 kg/m³, as a range (from memory)")
    .plausible(350.0, 600.0, "kg/m³")
    .possible(50.0, 2000.0, "kg/m³");

/// `carbon-capacity`
pub const CARBON_CAPACITY: Term =
    Term::number(&RATIO, "Chlorine capacity of the carbon, share of its mass", "q")
        .help(
            "Only from breakthrough measured on this carbon: grams of chlorine, as Cl2, per 100 g of carbon.",
        )
        .assumed("100 to 200 % for free chlorine, 0.16 to 10 % for chloramine, as a range")
        .plausible(0.1, 250.0, "%")
        .possible(0.01, 1000.0, "%");

/// `half-length`
pub const HALF_LENGTH: Term = Term::number(&LENGTH, "Half-value length for free chlorine", "h")
    .units("mm", "in")
    .help(
        "From the carbon's data sheet: the bed depth that halves free chlorine at the velocity of the test.",
    )
    .plausible(10.0, 100.0, "mm")
    .possible(0.1, 10_000.0, "mm");

/// `half-length-velocity`
pub const HALF_LENGTH_VELOCITY: Term = Term::number(&VELOCITY, "Velocity of the half-value test", "v")
    .units("m/h", "gal/min/ft²")
    .help("From the same data sheet. Sources say 3.6 m/h or 36 m/h: ask the supplier.")
    .plausible(3.0, 40.0, "m/h")
    .possible(0.01, 1000.0, "m/h");

/// `vessel-diameter`
pub const VESSEL_DIAMETER: Term = Term::number(&LENGTH, "Vessel inside diameter", "D")
    .units("mm", "in")
    .help("From the data sheet. Or measure around the vessel, divide by 3.14 and subtract two wall thicknesses.")
    .plausible(100.0, 600.0, "mm")
    .possible(10.0, 5000.0, "mm")
    .within_share(2.0);

/// `bed-depth`
pub const BED_DEPTH: Term = Term::number(&LENGTH, "Bed depth", "L")
    .units("mm", "in")
    .help("The carbon alone, without gravel and freeboard. Measure with a rod from the top.")
    .plausible(200.0, 1800.0, "mm")
    .possible(1.0, 10_000.0, "mm")
    .within_share(3.0);

/// `block-outer-diameter`
pub const BLOCK_OUTER_DIAMETER: Term = Term::number(&LENGTH, "Block outside diameter", "D_o")
    .units("mm", "in")
    .help("The pressed carbon alone, without netting and end caps.")
    .plausible(40.0, 130.0, "mm")
    .possible(5.0, 1000.0, "mm")
    .within_share(2.0);

/// `block-inner-diameter`
pub const BLOCK_INNER_DIAMETER: Term = Term::number(&LENGTH, "Block inside diameter", "D_i")
    .units("mm", "in")
    .help("The hole through the middle of the block.")
    .plausible(10.0, 60.0, "mm")
    .possible(0.0, 1000.0, "mm")
    .within_share(2.0);

/// `block-length`
pub const BLOCK_LENGTH: Term = Term::number(&LENGTH, "Block length", "L")
    .units("mm", "in")
    .help("The pressed carbon alone, without end caps. For blocks in parallel, add their lengths.")
    .plausible(100.0, 1200.0, "mm")
    .possible(1.0, 10_000.0, "mm")
    .within_share(1.0);

/// `wanted-contact-time`
pub const WANTED_CONTACT_TIME: Term = Term::number(&TIME, "Required EBCT of this vessel or block", "t_w")
    .units("min", "min")
    .help("From the rule in force here, or from the carbon's data sheet. The 10 min rule needs 5 min in the final one of two.")
    .plausible(0.2, 15.0, "min")
    .possible(0.01, 1000.0, "min");

/// `grain-diameter`
pub const GRAIN_DIAMETER: Term = Term::number(&LENGTH, "Mean grain diameter", "d_p")
    .units("mm", "mm")
    .help("From the carbon's data sheet. 12×40 mesh is about 1.0 mm, 8×30 about 1.5 mm (from memory).")
    .plausible(0.4, 2.0, "mm")
    .possible(0.05, 20.0, "mm")
    .within_share(10.0);

/// `bed-void`
pub const BED_VOID: Term = Term::number(&RATIO, "Bed voidage", "ε")
    .help("The share of the bed that is water, between the grains. From the carbon's data sheet; about 45 % after a backwash (from memory).")
    .assumed("38 to 50 %, as a range (from memory)")
    .plausible(35.0, 55.0, "%")
    .possible(10.0, 90.0, "%");

/// `sphericity`
pub const SPHERICITY: Term = Term::number(&NUMBER, "Grain sphericity", "ψ")
    .help("Surface of a sphere divided by the surface of a grain of the same volume. A sphere has 1.")
    .assumed("0.70 to 0.80, as a range (from memory)")
    .plausible(0.6, 1.0, "")
    .possible(0.1, 1.0, "");
