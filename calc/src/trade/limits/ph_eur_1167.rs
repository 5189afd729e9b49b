//! European Pharmacopoeia, monograph 1167: water for diluting concentrated haemodialysis solutions. From memory, but for
//! potassium. Nitrate is limited as NO3 there. Its row of heavy metals together (0.1 mg/L) has no single substance and is
//! not judged here; lead has no row of its own.

use super::{ChemicalLimit, Fluid, LimitSet, Limits, MicrobialLimit, criteria, microbial, row, strict};
use crate::engine::sheet::source::HowKnown::{Memory, Quoted};
use crate::trade::water::Analyte;

criteria! {
    AT_MOST "ph-eur-1167" "Chemical limit of the European Pharmacopoeia, monograph 1167" AtMost PH_EUR_1167;
    BELOW "ph-eur-1167-below" "Chemical limit of the European Pharmacopoeia, monograph 1167: a result at the limit is taken to need action" Below PH_EUR_1167;
    COLONIES "ph-eur-1167-colonies" "Colony count below the maximum of the European Pharmacopoeia, monograph 1167" Below PH_EUR_1167 judges "colony-count";
    ENDOTOXIN "ph-eur-1167-endotoxin" "Endotoxin below the maximum of the European Pharmacopoeia, monograph 1167" Below PH_EUR_1167;
}

pub(super) static LIMITS: Limits = Limits {
    set: LimitSet::PhEur1167,
    at_most: &AT_MOST,
    below: &BELOW,
    chemical: CHEMICAL,
    beyond: "the monograph also limits heavy metals together (0.1 mg/L, from memory), which single results do not show",
    colonies: &COLONIES,
    colonies_action: None,
    endotoxin: &ENDOTOXIN,
    endotoxin_action: None,
    microbial: MICROBIAL,
};

const CHEMICAL: &[ChemicalLimit] = &[
    row(Analyte::Calcium, 2.0, Memory, ""),
    row(Analyte::Magnesium, 2.0, Memory, ""),
    row(Analyte::Potassium, 2.0, Quoted, ""),
    row(Analyte::Sodium, 50.0, Memory, ""),
    row(Analyte::Aluminium, 0.01, Memory, ""),
    strict(Analyte::TotalChlorine, 0.1, Memory, ""),
    row(Analyte::Fluoride, 0.2, Memory, ""),
    row(Analyte::Nitrate, 2.0, Memory, "as NO3"),
    row(Analyte::Sulfate, 50.0, Memory, ""),
    row(Analyte::Zinc, 0.1, Memory, ""),
    row(Analyte::Mercury, 0.001, Memory, ""),
    row(Analyte::Ammonium, 0.2, Memory, "as NH4"),
    row(Analyte::Chloride, 50.0, Memory, ""),
];

const MICROBIAL: &[MicrobialLimit] =
    &[microbial(Fluid::Water, [Some(100.0), None], [Some(0.25), None], Memory)];
