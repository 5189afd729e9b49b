//! A laboratory's report of a water, as several sheets ask it.

use crate::input_row;
use crate::quantity::{Concentration, kinds::CONCENTRATION};
use crate::sheet::Term;
use crate::water::Analyte;

/// `analyte` of a report
pub const ANALYTE: Term = Term::other("Analyte");

/// `result` of a report
pub const RESULT: Term = Term::number(&CONCENTRATION, "Result", "C")
    .help("Number and unit as the laboratory prints them; the form (as N, as CaCO3) stands with the analyte.")
    .plausible(0.0, 1000.0, "mg/L")
    .possible(0.0, 20_000.0, "mg/L")
    .within_share(5.0);

/// `feed-report`
pub const FEED_REPORT: Term = Term::other("Laboratory report of the feed water").help(
    "One row for each analyte, as the laboratory reports it. For scale: calcium and alkalinity at least, and magnesium, sodium, chloride, sulfate and silica if there are any.",
);

input_row! {
    /// One result of a laboratory's report of the feed.
    FeedResult {
        analyte "analyte": Analyte       = ANALYTE,
        result  "result":  Concentration = RESULT,
    }
}
