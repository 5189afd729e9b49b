//! What the sheets are tested against: how many of their check values are printed in a standard, a handbook, a regulation
//! or a paper and computed here from other printed numbers, and why there are fewer than three where there are. A table of
//! the program that is compared with the page it was copied from does not count. All values stand in tests/published, with
//! their sources; the others are worked by hand, follow from definitions, or come from general reference libraries.

/// Of one sheet.
#[derive(Debug, PartialEq, Eq)]
pub struct Evidence {
    /// Its id.
    pub sheet: &'static str,
    /// How many of its check values are printed elsewhere and computed here.
    pub published: usize,
    /// Why they are fewer than three; empty otherwise.
    pub why: &'static str,
}

/// From here on the number speaks for itself.
pub const ENOUGH: usize = 3;

/// A sheet with enough of them.
const fn printed(sheet: &'static str, published: usize) -> Evidence {
    Evidence { sheet, published, why: "" }
}

/// A sheet with too few of them.
const fn few(sheet: &'static str, published: usize, why: &'static str) -> Evidence {
    Evidence { sheet, published, why }
}

const ALGEBRA: &str = "it follows from definitions by algebra, and no source that was read prints an example";

/// Every sheet, in the order of the catalogue; a test counts.
#[rustfmt::skip]
pub static EVIDENCE: &[Evidence] = &[
    few("plan", 0, "it joins the other sheets, whose values count there; no source prints a whole room"),
    printed("timed-jug", 6),
    few("tap-curve", 1, "one printed example of the hydrant formula was found"),
    few("mains-temperature", 0, "the formula is quoted by public code, and no source that was read prints a value of it"),
    few("chlorine-species", 0, ALGEBRA),
    printed("hardness", 3),
    printed("conductivity", 17),
    few("inlet-pressure", 1, "a static head is printed, and no source prints a line from tap to RO; the friction in it has printed values of its own"),
    printed("sediment-filter", 3),
    few("filter-limit", 0, ALGEBRA),
    printed("softener", 4),
    few("carbon-contact-time", 1, "one printed example was found; the ten minutes of the rule are its limit, no result"),
    printed("carbon-vessel", 4),
    printed("carbon-life", 3),
    few("chlorine-test", 0, "rules print limits and times, which are copied here, and no example of a judged test"),
    printed("temperature-correction", 12),
    few("recovery", 2, "it follows from definitions by algebra; one printed example was found, a table of factors is recalled"),
    few("reject-setting", 1, "it rests on the temperature correction, whose printed values count there; one printed example was found"),
    few("rejection", 1, "it follows from definitions by algebra, and one printed example was found"),
    few("same-membrane", 2, "the printed example is one of a vanishing recovery: no source that was read prints a membrane worked through over recovery; a reference library integrates it once more"),
    few("product-flow-year", 1, "it rests on the temperature correction, whose printed values count there; one printed example was found, and no source prints a year"),
    few("normalized-performance", 1, "the text of ASTM D4516 was not read; a printed example without pressures was found, the one of a handbook is recalled"),
    printed("scale-tendency", 5),
    few("ion-passage", 0, "a printed table of rejections is copied here, and no source that was read prints a water worked through it"),
    few("tempering", 0, "it follows from definitions by algebra; the example of a handbook is recalled, not read"),
    printed("machine-demand", 3),
    printed("machine-heating", 4),
    printed("chemical-limits", 4),
    printed("microbial-limits", 6),
    few("drain-load", 1, "it follows from definitions by algebra, and one printed example was found"),
    few("electrical-load", 1, "one row of the code's table was read, the others are from memory"),
    few("day-plan", 1, "it counts hours and litres, and one printed example was found"),
    printed("heat-dose", 5),
    few("heat-up", 1, "one printed example of water in its pan was found; enthalpies of a reference library stand in"),
    printed("dilution", 3),
    printed("rinse-out", 21),
    printed("trend", 25),
    printed("schedule", 8),
    few("idle-return", 0, "the order of what is done is common practice, and no source prints it"),
    printed("osmotic-pressure", 3),
    few("log-reduction", 1, "it is the definition of a logarithm, and one regulation prints an example"),
    few("silt-density-index", 2, "one worked example of ASTM D4189 is quoted elsewhere; its own text was not read"),
    few("water-cost", 2, "it follows from definitions by algebra, and one printed example was found"),
    printed("conductivity-standard", 5),
    printed("guard-band", 3),
];

/// That of a sheet by its id.
pub fn of(sheet: &str) -> Option<&'static Evidence> {
    EVIDENCE.iter().find(|evidence| evidence.sheet == sheet)
}
