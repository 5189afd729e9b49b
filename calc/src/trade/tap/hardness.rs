//! Hardness as CaCO3, from calcium and magnesium or from the count of a drop test.
//!
//! By conservation of mass: each milligram of calcium or magnesium stands for as much CaCO3 as has the same amount of
//! substance. Other ions that count in some laboratories (strontium, iron) are left out.

use crate::engine::quantity::{Concentration, Hardness, kinds::HARDNESS, kinds::NUMBER};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Stage, Stop, Term, Working, source};
use crate::trade::terms::membrane::FEED_CONCENTRATION;
use crate::{sheet, step};

static MEASURE_AT_THE_TAP: Caution = Caution {
    id: "hardness-changes",
    text: "Hardness changes with the season and the source. A softener is judged by a drop test of the softened water at the end of the day, not by this number.",
};

const OF_CALCIUM: Term = FEED_CONCENTRATION
    .named("Calcium, as Ca")
    .symbol("Ca")
    .help("From a laboratory report, as the element and not as CaCO3.")
    .plausible(1.0, 200.0, "mg/L")
    .possible(0.0, 5000.0, "mg/L");
const AS_CACO3: Term = Term::number(&HARDNESS, "Hardness, as CaCO3", "H");

sheet! {
    /// Hardness of the water as CaCO3, from a laboratory report or from a drop test.
    HardnessAsCaco3, "hardness", "Hardness", Stage::Tap,
    also: &["gpg", "grains", "CaCO3"],
    sources: &[&source::MASS_BALANCE],
    cautions: &[&MEASURE_AT_THE_TAP],
    criteria: &[],
    inputs: {
        calcium   "calcium":           Known<Concentration> = OF_CALCIUM,
        magnesium "magnesium":         Known<Concentration> = OF_CALCIUM.named("Magnesium, as Mg").symbol("Mg").plausible(0.2, 100.0, "mg/L"),
        drops     "drops":             Known<f64>           = Term::number(&NUMBER, "Drops until the color changed (colour)", "n").help("Count the drop that changed it.").plausible(1.0, 40.0, "").possible(0.0, 1000.0, "").within(1.0, ""),
        a_drop    "hardness-per-drop": Known<Hardness>      = AS_CACO3.named("Hardness per drop").symbol("h").help("On the test's label, for the sample volume that was used.").plausible(1.0, 50.0, "mg/L").possible(0.01, 1000.0, "mg/L"),
    }
    outputs Outputs: {
        by_report "hardness-by-report": Known<Hardness> = AS_CACO3.named("Hardness from the report"),
        by_drops  "hardness-by-drops":  Known<Hardness> = AS_CACO3.named("Hardness from the drop test"),
    }
}

impl Evaluate for HardnessAsCaco3 {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let by_report = self.calcium.and_then(|calcium| {
            let magnesium = self.magnesium?;
            // molar masses of CaCO3, Ca and Mg (IUPAC 2021, abridged)
            step!(w, by_report "H": Hardness = 100.086 / 40.078 * calcium.si() + 100.086 / 24.305 * magnesium.si());
            Ok(by_report)
        });
        let by_drops = self.drops.and_then(|drops| {
            let a_drop = self.a_drop?;
            if drops < 1.0 {
                return Err(Missing::none_exists("no drop was needed: below what the test can show"));
            }
            step!(w, by_drops "H" = drops * a_drop);
            Ok(by_drops)
        });
        Ok(Outputs { by_report, by_drops })
    }
}
