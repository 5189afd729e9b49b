//! United States: ANSI/AAMI RD52:2004, which 42 CFR 494.40 incorporates. Chemical values as USP <1230> reprints them for
//! RD62:2001; that RD52 has the same is from memory.

use super::{ChemicalLimit, Fluid, LimitSet, Limits, MicrobialLimit, criteria, microbial, row, strict};
use crate::engine::sheet::source::HowKnown::{Quoted, Read};
use crate::trade::water::Analyte;

criteria! {
    AT_MOST "aami-rd52-2004" "Chemical limit of 42 CFR 494.40 with RD52:2004" AtMost AAMI_RD62;
    BELOW "aami-rd52-2004-below" "Chemical limit of 42 CFR 494.40 with RD52:2004: a result at the limit needs action" Below CFR_494_40;
    COLONIES "aami-rd52-2004-colonies" "Colony count below the maximum of RD52:2004" Below COULLIETTE_2013 judges "colony-count";
    COLONIES_ACTION "aami-rd52-2004-colonies-action" "Colony count below the action level of RD52:2004" Below COULLIETTE_2013 judges "colony-count";
    ENDOTOXIN "aami-rd52-2004-endotoxin" "Endotoxin below the maximum of RD52:2004" Below COULLIETTE_2013;
    ENDOTOXIN_ACTION "aami-rd52-2004-endotoxin-action" "Endotoxin below the action level of RD52:2004" Below COULLIETTE_2013;
}

pub(super) static LIMITS: Limits = Limits {
    set: LimitSet::AamiRd52,
    at_most: &AT_MOST,
    below: &BELOW,
    chemical: CHEMICAL,
    beyond: "",
    colonies: &COLONIES,
    colonies_action: Some(&COLONIES_ACTION),
    endotoxin: &ENDOTOXIN,
    endotoxin_action: Some(&ENDOTOXIN_ACTION),
    microbial: MICROBIAL,
};

const CHEMICAL: &[ChemicalLimit] = &[
    row(Analyte::Calcium, 2.0, Quoted, "0.1 mEq/L"),
    row(Analyte::Magnesium, 4.0, Quoted, "0.3 mEq/L"),
    row(Analyte::Potassium, 8.0, Quoted, "0.2 mEq/L"),
    row(Analyte::Sodium, 70.0, Quoted, "3.0 mEq/L"),
    row(Analyte::Aluminium, 0.01, Quoted, ""),
    strict(Analyte::TotalChlorine, 0.1, Quoted, "if total chlorine is tested instead of the other two"),
    strict(Analyte::FreeChlorine, 0.5, Quoted, ""),
    strict(Analyte::Chloramines, 0.1, Quoted, ""),
    row(Analyte::Copper, 0.1, Quoted, ""),
    row(Analyte::Fluoride, 0.2, Quoted, ""),
    row(Analyte::Lead, 0.005, Quoted, ""),
    row(Analyte::NitrateNitrogen, 2.0, Quoted, "as N"),
    row(Analyte::Sulfate, 100.0, Quoted, ""),
    row(Analyte::Zinc, 0.1, Quoted, ""),
    row(Analyte::Antimony, 0.006, Quoted, ""),
    row(Analyte::Arsenic, 0.005, Quoted, ""),
    row(Analyte::Barium, 0.1, Quoted, ""),
    row(Analyte::Beryllium, 0.0004, Quoted, ""),
    row(Analyte::Cadmium, 0.001, Quoted, ""),
    row(Analyte::Chromium, 0.014, Quoted, ""),
    row(Analyte::Mercury, 0.0002, Quoted, ""),
    row(Analyte::Selenium, 0.09, Quoted, ""),
    row(Analyte::Silver, 0.005, Quoted, ""),
    row(Analyte::Thallium, 0.002, Quoted, ""),
];

const MICROBIAL: &[MicrobialLimit] = &[
    microbial(Fluid::Water, [Some(200.0), Some(50.0)], [Some(2.0), Some(1.0)], Read),
    microbial(Fluid::Standard, [Some(200.0), Some(50.0)], [Some(2.0), Some(1.0)], Read),
    // where it is used at all
    microbial(Fluid::Ultrapure, [Some(0.1), None], [Some(0.03), None], Read),
];
