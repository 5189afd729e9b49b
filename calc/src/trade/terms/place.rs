//! Terms of the place, of its water, and of what the RO's instructions ask of it. What is plausible is common practice of
//! the trade (no source); limits of instructions have none of their own here.

use super::tap::TAP_TEMPERATURE;
use crate::engine::quantity::kinds::{CHLORINE, CONCENTRATION, CONDUCTIVITY, HARDNESS, NUMBER, PH, VOLUME};
use crate::engine::sheet::Term;

/// `place-name`
pub const PLACE_NAME: Term = Term::other("Place").help("Ward and room. No patient's name belongs here.");

/// `ro-name`
pub const RO_NAME: Term =
    Term::other("RO").help("Its label in the hospital. No patient's name belongs here.");

/// `source`
pub const SOURCE: Term =
    Term::other("Water source").help("Ask facilities (estates). A well or a tanker has cautions of its own.");

/// `building-dosing`
pub const BUILDING_DOSING: Term = Term::other("Building water treatment")
    .help("What the building doses into its water, for example against legionella. Ask facilities (estates), and ask for a call before they change it.");

/// `disinfectant`
pub const DISINFECTANT: Term = Term::other("Disinfectant in the supply")
    .help("Ask the water supplier, and ask for a call before it is switched.")
    .assumed("not known; combined chlorine is calculated from the two tests");

/// `highest-total-chlorine`
pub const HIGHEST_TOTAL_CHLORINE: Term =
    Term::number(&CHLORINE, "Highest total chlorine of the year", "TC_max")
        .help("From the water supplier, or the highest of your own readings.")
        .assumed("kept with the place; no stage of the plan counts with it yet")
        .plausible(0.0, 5.0, "mg/L")
        .possible(0.0, 50.0, "mg/L");

/// `hardness`
pub const HARDNESS_AT_TAP: Term = Term::number(&HARDNESS, "Hardness at the tap, as CaCO3", "H")
    .help("A drop test, or the water supplier's report.")
    .plausible(5.0, 500.0, "mg/L")
    .possible(0.0, 3000.0, "mg/L")
    .within_share(8.0);

/// `conductivity`
pub const CONDUCTIVITY_AT_TAP: Term = Term::number(&CONDUCTIVITY, "Conductivity at the tap, at 25 °C", "κ")
    .help("A meter that compensates to 25 °C.")
    .plausible(30.0, 2500.0, "µS/cm")
    .possible(0.1, 100_000.0, "µS/cm")
    .within_share(2.0)
    .read_with("conductivity meter");

/// `compensated`
pub const COMPENSATED: Term = Term::other("Does the meter show the value at 25 °C?")
    .help("Its manual says so, often as ATC. Or warm the cup in your hands: a meter that compensates keeps its number.");

/// `carbon-kind`
pub const CARBON_KIND: Term =
    Term::other("Carbon type").help("A block is a pressed cartridge. Granular carbon (GAC) fills a vessel.");

/// `resin-volume`
pub const RESIN_VOLUME: Term = Term::number(&VOLUME, "Softener resin volume", "V_r")
    .units("L", "ft³")
    .help("The resin alone. 0 if there is no softener.")
    .plausible(0.0, 100.0, "L")
    .possible(0.0, 5000.0, "L");

/// `newer-water-data`
pub const NEWER: Term = Term::other("Which is newer: your tests or the laboratory report?")
    .help("Say “your own tests” only if they are of this water and newer than the report.")
    .assumed("the worse of the two counts");

/// `turbidity`
pub const TURBIDITY: Term = Term::number(&NUMBER, "Turbidity at the tap, NTU", "Tu")
    .help("From a turbidity meter or the water supplier. FNU count as NTU.")
    .plausible(0.0, 5.0, "")
    .possible(0.0, 4000.0, "")
    .within_share(10.0);

/// `feed-sdi`
pub const FEED_SDI: Term = Term::number(&NUMBER, "Silt density index (SDI) at the RO inlet", "SDI")
    .help("Measured after the filters, over 15 minutes.")
    .plausible(0.0, 5.0, "")
    .possible(0.0, 20.0, "")
    .within(0.3, "");

/// `inlet-free-chlorine`
pub const INLET_FREE_CHLORINE: Term = Term::number(&CHLORINE, "Free chlorine at the RO inlet", "FC_in")
    .help("A test after the carbon.")
    .assumed("the tap's reading, if that is within the RO's limit already")
    .plausible(0.0, 0.5, "mg/L")
    .possible(0.0, 50.0, "mg/L")
    .within(0.03, "mg/L");

/// What the instructions leave open is not judged.
const NO_LIMIT: &str = "not checked";
/// Whose limit it is.
const FROM_INSTRUCTIONS: &str = "From your RO's instructions.";

/// `highest-feed-iron`
pub const HIGHEST_FEED_IRON: Term =
    Term::number(&CONCENTRATION, "Highest iron in the feed (RO's instructions)", "Fe_max")
        .help(FROM_INSTRUCTIONS)
        .assumed(NO_LIMIT)
        .plausible(0.01, 1.0, "mg/L")
        .possible(0.0, 100.0, "mg/L");

/// `highest-feed-manganese`
pub const HIGHEST_FEED_MANGANESE: Term =
    HIGHEST_FEED_IRON.named("Highest manganese in the feed (RO's instructions)").symbol("Mn_max");

/// `highest-feed-turbidity`
pub const HIGHEST_FEED_TURBIDITY: Term =
    Term::number(&NUMBER, "Highest feed turbidity, NTU (RO's instructions)", "Tu_max")
        .help(FROM_INSTRUCTIONS)
        .assumed(NO_LIMIT)
        .plausible(0.1, 5.0, "")
        .possible(0.0, 4000.0, "");

/// `highest-feed-sdi`
pub const HIGHEST_FEED_SDI: Term =
    Term::number(&NUMBER, "Highest silt density index (SDI) of the feed (RO's instructions)", "SDI_max")
        .help(FROM_INSTRUCTIONS)
        .assumed(NO_LIMIT)
        .plausible(1.0, 5.0, "")
        .possible(0.0, 20.0, "");

/// `highest-feed-free-chlorine`
pub const HIGHEST_FEED_FREE_CHLORINE: Term =
    Term::number(&CHLORINE, "Highest free chlorine in the feed (RO's instructions)", "FC_max")
        .help(FROM_INSTRUCTIONS)
        .assumed(NO_LIMIT)
        .plausible(0.0, 1.0, "mg/L")
        .possible(0.0, 50.0, "mg/L");

/// `lowest-feed-ph`
pub const LOWEST_FEED_PH: Term = Term::number(&PH, "Lowest feed pH (RO's instructions)", "pH_min")
    .help(FROM_INSTRUCTIONS)
    .assumed(NO_LIMIT)
    .plausible(2.0, 7.0, "")
    .possible(0.0, 14.0, "");

/// `highest-feed-ph`
pub const HIGHEST_FEED_PH: Term =
    LOWEST_FEED_PH.named("Highest feed pH (RO's instructions)").symbol("pH_max").plausible(7.0, 12.0, "");

/// `highest-feed-hardness`
pub const HIGHEST_FEED_HARDNESS: Term =
    Term::number(&HARDNESS, "Highest feed hardness, as CaCO3 (RO's instructions)", "H_max")
        .help(FROM_INSTRUCTIONS)
        .assumed(NO_LIMIT)
        .plausible(0.0, 500.0, "mg/L")
        .possible(0.0, 3000.0, "mg/L");

/// `lowest-feed-temperature`
pub const LOWEST_FEED_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Lowest feed temperature (RO's instructions)")
    .symbol("T_min")
    .help(FROM_INSTRUCTIONS)
    .read_with("instructions")
    .assumed(NO_LIMIT)
    .plausible(1.0, 15.0, "°C");
