//! ISO 23500-3 and -5:2024, second edition. That no value of the tables changed from 2019 is from memory: to be checked
//! against the text.

use super::{ChemicalLimit, Fluid, LimitSet, Limits, MicrobialLimit, criteria, microbial, row, strict};
use crate::engine::sheet::source::HowKnown::Memory;
use crate::trade::water::Analyte;

criteria! {
    AT_MOST "iso-23500-3-2024" "Chemical limit of ISO 23500-3:2024" AtMost ISO_23500_3_2024;
    BELOW "iso-23500-3-2024-below" "Chemical limit of ISO 23500-3:2024: a result at the limit needs action" Below ISO_23500_3_2024;
    COLONIES "iso-23500-3-2024-colonies" "Colony count below the maximum of ISO 23500:2024" Below ISO_23500_3_2024 judges "colony-count";
    COLONIES_ACTION "iso-23500-3-2024-colonies-action" "Colony count below the typical action level of ISO 23500:2024" Below ISO_23500_3_2024 judges "colony-count";
    ENDOTOXIN "iso-23500-3-2024-endotoxin" "Endotoxin below the maximum of ISO 23500:2024" Below ISO_23500_3_2024;
    ENDOTOXIN_ACTION "iso-23500-3-2024-endotoxin-action" "Endotoxin below the typical action level of ISO 23500:2024" Below ISO_23500_3_2024;
}

pub(super) static LIMITS: Limits = Limits {
    set: LimitSet::Iso2024,
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
    row(Analyte::Calcium, 2.0, Memory, "0.05 mmol/L"),
    row(Analyte::Magnesium, 4.0, Memory, "0.15 mmol/L"),
    row(Analyte::Potassium, 8.0, Memory, "0.2 mmol/L"),
    row(Analyte::Sodium, 70.0, Memory, "3.0 mmol/L"),
    row(Analyte::Aluminium, 0.01, Memory, ""),
    strict(Analyte::TotalChlorine, 0.1, Memory, "one limit instead of free chlorine and chloramines"),
    row(Analyte::Copper, 0.1, Memory, ""),
    row(Analyte::Fluoride, 0.2, Memory, ""),
    row(Analyte::Lead, 0.005, Memory, ""),
    row(Analyte::NitrateNitrogen, 2.0, Memory, "as N"),
    row(Analyte::Sulfate, 100.0, Memory, ""),
    row(Analyte::Zinc, 0.1, Memory, ""),
    row(Analyte::Antimony, 0.006, Memory, ""),
    row(Analyte::Arsenic, 0.005, Memory, ""),
    row(Analyte::Barium, 0.1, Memory, ""),
    row(Analyte::Beryllium, 0.0004, Memory, ""),
    row(Analyte::Cadmium, 0.001, Memory, ""),
    row(Analyte::Chromium, 0.014, Memory, ""),
    row(Analyte::Mercury, 0.0002, Memory, ""),
    row(Analyte::Selenium, 0.09, Memory, ""),
    row(Analyte::Silver, 0.005, Memory, ""),
    row(Analyte::Thallium, 0.002, Memory, ""),
];

const MICROBIAL: &[MicrobialLimit] = &[
    microbial(Fluid::Water, [Some(100.0), Some(50.0)], [Some(0.25), Some(0.125)], Memory),
    microbial(Fluid::Standard, [Some(100.0), Some(50.0)], [Some(0.5), Some(0.25)], Memory),
    // any growth is looked into
    microbial(Fluid::Ultrapure, [Some(0.1), None], [Some(0.03), None], Memory),
];
