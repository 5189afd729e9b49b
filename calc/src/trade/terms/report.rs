//! A laboratory's report of a water, as several sheets ask it.

use crate::engine::quantity::Concentration;
use crate::engine::quantity::kinds::{
    CONCENTRATION, ENDOTOXIN, HARDNESS, NUMBER, PH, RATIO, TEMPERATURE, TIME, VOLUME,
};
use crate::engine::sheet::{Reported, Term};
use crate::input_row;
use crate::trade::terms::tap::TAP_TEMPERATURE;
use crate::trade::water::Analyte;

/// `analyte` of a report
pub const ANALYTE: Term = Term::other("Substance (analyte)");

/// `result` of a report
pub const RESULT: Term = Term::number(&CONCENTRATION, "Result", "C")
    .help("Number and unit as the laboratory prints them. The form (as N, as CaCO3) is chosen with the substance.")
    .plausible(0.0, 1000.0, "mg/L")
    .possible(0.0, 20_000.0, "mg/L")
    .within_share(5.0);

/// `feed-report`
pub const FEED_REPORT: Term = Term::other("Laboratory report, feed water").each_row_alone().help(
    "One row per substance, as the laboratory reports it. For scale: at least calcium and alkalinity, and magnesium, sodium, chloride, sulfate and silica if they are on the report.",
);

/// `feed-ph`
pub const FEED_PH: Term = Term::number(&PH, "pH of the feed water", "pH")
    .help("Measured at the tap in a completely filled bottle: carbon dioxide escapes and the pH rises.")
    .plausible(6.0, 9.5, "")
    .possible(3.0, 11.5, "")
    .within(0.1, "")
    .read_with("pH meter");

/// `ph-temperature`
pub const PH_TEMPERATURE: Term = TAP_TEMPERATURE
    .named("Water temperature of the pH measurement")
    .symbol("T_pH")
    .help("A laboratory measures near 20 or 25 °C. The same closed sample has another pH at the RO.")
    .assumed("the feed temperature");

/// `softened-hardness`
pub const SOFTENED_HARDNESS: Term =
    Term::number(&HARDNESS, "Hardness after the softener, at the RO inlet", "H_in")
        .help("A drop test of the softened water at the end of the day. Calcium and magnesium of the report are reduced in proportion, and sodium takes their place.")
        .assumed("no softener: calcium and magnesium of the report reach the RO")
        .plausible(0.0, 150.0, "mg/L")
        .possible(0.0, 5000.0, "mg/L")
        .within(5.0, "mg/L");

/// `limit-set`
pub const LIMIT_SET: Term = Term::other("Limit set")
    .help("The edition that your jurisdiction or your facility's policy names.")
    .assumed("ISO 23500-3:2019");

/// `result` of a report of product water
pub const REPORTED_RESULT: Term = RESULT
    .help("Number and unit as the laboratory prints them, with “<” for “less than”. The form (as N, as NO3) is chosen with the substance.")
    .plausible(0.0, 100.0, "mg/L")
    .or_below();

/// `product-report`
pub const PRODUCT_REPORT: Term = Term::other("Laboratory report, product water")
    .each_row_alone()
    .help("One row per substance, as the laboratory reports it. Nitrate as N and as NO3 are two numbers for the same water: check which one it is.");

/// `colonies`
pub const COLONIES: Term = Term::number(&NUMBER, "Colonies counted", "n")
    .help("On all plates of the sample together. A plate with more than 300 cannot be counted.")
    .whole()
    .plausible(0.0, 300.0, "")
    .possible(0.0, 1000.0, "");

/// `plated-volume`
pub const PLATED_VOLUME: Term = Term::number(&VOLUME, "Volume plated or filtered", "V_p")
    .units("mL", "mL")
    .help("On all plates together.")
    .plausible(0.1, 1000.0, "mL")
    .possible(0.001, 1e6, "mL");

/// `sample-share`
pub const SAMPLE_SHARE: Term = Term::number(&RATIO, "Share of sample in the plated volume", "s")
    .help("One part in ten is 10 %.")
    .assumed("100 %, not diluted")
    .plausible(0.01, 100.0, "%")
    .possible(1e-6, 100.0, "%");

/// `incubation-temperature`
pub const INCUBATION_TEMPERATURE: Term = Term::number(&TEMPERATURE, "Incubation temperature", "T_i")
    .help("From the laboratory's report.")
    .plausible(15.0, 40.0, "°C")
    .possible(0.0, 60.0, "°C");

/// `incubation-time`
pub const INCUBATION_TIME: Term = Term::number(&TIME, "Incubation time", "t_i")
    .units("h", "h")
    .help("From the laboratory's report; 7 days are 168 h.")
    .plausible(24.0, 336.0, "h")
    .possible(0.0, 2000.0, "h");

/// `time-to-laboratory`
pub const TIME_TO_LABORATORY: Term = Term::number(&TIME, "Time from sampling to the test", "t_s")
    .units("h", "h")
    .help("Until the laboratory plated or assayed the sample.")
    .plausible(0.0, 24.0, "h")
    .possible(0.0, 2000.0, "h");

/// `confidence`
pub const CONFIDENCE: Term = Term::number(&RATIO, "Confidence level", "P")
    .help("A limit is judged with 95 % at least, whatever is entered here.")
    .assumed("95 %")
    .plausible(90.0, 99.9, "%")
    .possible(50.0, 99.9, "%");

/// `endotoxin`
pub const ENDOTOXIN_RESULT: Term = Term::number(&ENDOTOXIN, "Endotoxin", "E")
    .help("As the laboratory prints it, with “<” where it says “less than”. 1 EU/mL is 1 IU/mL.")
    .plausible(0.0, 5.0, "EU/mL")
    .possible(0.0, 1e6, "EU/mL")
    .or_below();

/// `test-sensitivity`
pub const TEST_SENSITIVITY: Term = Term::number(&ENDOTOXIN, "Sensitivity of the endotoxin test", "λ")
    .help("On the kit's label: the lowest amount that it detects.")
    .plausible(0.001, 0.25, "EU/mL")
    .possible(1e-6, 100.0, "EU/mL");

input_row! {
    /// One result of a laboratory's report of the feed.
    FeedResult {
        analyte "analyte": Analyte                 = ANALYTE,
        result  "result":  Reported<Concentration> = RESULT.or_below(),
    }
}
