//! Terms of the place, and of what is kept beside the calculation.

use crate::engine::quantity::kinds::{CHLORINE, CONDUCTIVITY, HARDNESS, VOLUME};
use crate::engine::sheet::Term;

/// `place-name`
pub const PLACE_NAME: Term =
    Term::other("Name of the place").help("Ward and room. No patient's name belongs here.");

/// `ro-name`
pub const RO_NAME: Term =
    Term::other("Name of the RO").help("As it is labelled in the house. No patient's name belongs here.");

/// `source`
pub const SOURCE: Term = Term::other("Where the water comes from")
    .help("Ask those who run the building. A well or a tanker brings its own cautions.");

/// `building-dosing`
pub const BUILDING_DOSING: Term = Term::other("What the building doses into its water")
    .help("Against legionella, for example. Ask those who run the building, and ask to be told before they change it.");

/// `disinfectant`
pub const DISINFECTANT: Term = Term::other("Disinfectant of the supply")
    .help("Ask the supplier, and ask to be told before it is switched.")
    .assumed("kept with the place; combined chlorine is counted from the two tests");

/// `highest-total-chlorine`
pub const HIGHEST_TOTAL_CHLORINE: Term =
    Term::number(&CHLORINE, "Highest total chlorine of the year", "TC_max")
        .help("From the supplier, or the highest of your own readings.")
        .assumed("kept with the place; no stage of the plan counts with it yet")
        .plausible(0.0, 5.0, "mg/L")
        .possible(0.0, 50.0, "mg/L");

/// `hardness`
pub const HARDNESS_AT_TAP: Term = Term::number(&HARDNESS, "Hardness at the tap, as CaCO3", "H")
    .help("A drop test, or the supplier's report.")
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

/// `carbon-kind`
pub const CARBON_KIND: Term =
    Term::other("Carbon type").help("A block is a pressed cartridge. Granular carbon fills a vessel.");

/// `resin-volume`
pub const RESIN_VOLUME: Term = Term::number(&VOLUME, "Volume of softener resin", "V_r")
    .units("L", "ft³")
    .help("Of the resin itself; 0 where there is no softener.")
    .plausible(0.0, 100.0, "L")
    .possible(0.0, 5000.0, "L");
