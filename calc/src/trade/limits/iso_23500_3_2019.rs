//! ISO 23500-3:2019 (water), tables 1 and 2, as a list of its 22 items quotes them, and ISO 23500-5:2019 (fluid). The level
//! of action is typically half of the maximum there, not fixed.

use super::{ChemicalLimit, Fluid, LimitSet, Limits, MicrobialLimit, criteria, microbial, row, strict};
use crate::engine::sheet::source::HowKnown::{Quoted, Read};
use crate::trade::water::Analyte;

criteria! {
    AT_MOST "iso-23500-3-2019" "Chemical limit of ISO 23500-3:2019" AtMost ISO_23500_3;
    BELOW "iso-23500-3-2019-below" "Chemical limit of ISO 23500-3:2019: a result at the limit needs action" Below ISO_23500_3;
    COLONIES "iso-23500-3-2019-colonies" "Colony count below the maximum of ISO 23500:2019" Below COULLIETTE_2013 judges "colony-count";
    COLONIES_ACTION "iso-23500-3-2019-colonies-action" "Colony count below the typical action level of ISO 23500:2019" Below COULLIETTE_2013 judges "colony-count";
    ENDOTOXIN "iso-23500-3-2019-endotoxin" "Endotoxin below the maximum of ISO 23500:2019" Below COULLIETTE_2013;
    ENDOTOXIN_ACTION "iso-23500-3-2019-endotoxin-action" "Endotoxin below the typical action level of ISO 23500:2019" Below COULLIETTE_2013;
}

pub(super) static LIMITS: Limits = Limits {
    set: LimitSet::Iso23500,
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
    row(Analyte::Calcium, 2.0, Quoted, "0.05 mmol/L"),
    row(Analyte::Magnesium, 4.0, Quoted, "0.15 mmol/L"),
    row(Analyte::Potassium, 8.0, Quoted, "0.2 mmol/L"),
    row(Analyte::Sodium, 70.0, Quoted, "3.0 mmol/L"),
    row(Analyte::Aluminium, 0.01, Quoted, ""),
    strict(Analyte::TotalChlorine, 0.1, Quoted, "one limit instead of free chlorine and chloramines"),
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
    microbial(Fluid::Water, [Some(100.0), Some(50.0)], [Some(0.25), Some(0.125)], Read),
    microbial(Fluid::Standard, [Some(100.0), Some(50.0)], [Some(0.5), Some(0.25)], Read),
    // any growth is looked into
    microbial(Fluid::Ultrapure, [Some(0.1), None], [Some(0.03), None], Read),
];
