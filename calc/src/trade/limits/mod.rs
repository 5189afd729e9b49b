//! Limits of water and fluid for dialysis, as data: one file for each edition and jurisdiction. A record chooses its set,
//! and the set's name stays with each judgement.

mod aami_rd52_2004;
mod iso_23500_3_2019;
mod iso_23500_3_2024;
mod jsdt;
mod ph_eur_1167;

use crate::choice;
use crate::engine::quantity::{ColonyCount, Concentration, Endotoxin};
use crate::engine::sheet::{Criterion, source::HowKnown};
use crate::trade::water::Analyte;

choice!(/// A set of limits, by its edition.
LimitSet {
    Iso23500 "iso-23500-3-2019" "ISO 23500-3:2019, water for haemodialysis",
    AamiRd52 "aami-rd52-2004" "ANSI/AAMI RD52:2004, as 42 CFR 494.40 adopts it",
    PhEur1167 "ph-eur-1167" "European Pharmacopoeia 1167, water for diluting concentrated haemodialysis solutions",
    Iso2024 "iso-23500-3-2024" "ISO 23500-3:2024, second edition",
    Jsdt "jsdt" "Japanese Society for Dialysis Therapy, microbiology only",
});

/// The limits of one set.
#[derive(Debug)]
pub struct Limits {
    /// Which.
    pub set: LimitSet,
    /// Where the limit itself is right.
    pub at_most: &'static Criterion,
    /// Where the limit itself is already wrong.
    pub below: &'static Criterion,
    /// Of dissolved substances in dialysis water.
    pub chemical: &'static [ChemicalLimit],
    /// What the text asks of them beyond these rows, so that keeping them all does not keep it; empty where it is all.
    pub beyond: &'static str,
    /// The highest colony count.
    pub colonies: &'static Criterion,
    /// The colony count at which something is done, where the set names one for any fluid.
    pub colonies_action: Option<&'static Criterion>,
    /// The highest endotoxin result.
    pub endotoxin: &'static Criterion,
    /// The endotoxin result at which something is done, where the set names one for any fluid.
    pub endotoxin_action: Option<&'static Criterion>,
    /// Of microbes, for each fluid.
    pub microbial: &'static [MicrobialLimit],
}

/// The limit of one substance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChemicalLimit {
    /// The substance, in the form in which the limit is printed.
    pub analyte: Analyte,
    /// The limit.
    pub limit: Concentration,
    /// Whether the limit itself is already wrong.
    pub strict: bool,
    /// How it is printed elsewhere, or what goes with it.
    pub note: &'static str,
    /// How it reached us.
    pub known: HowKnown,
}

choice!(/// What is judged.
Fluid {
    Water "dialysis-water" "Dialysis water",
    Standard "standard-fluid" "Standard (conventional) dialysis fluid",
    Ultrapure "ultrapure-fluid" "Ultrapure dialysis fluid",
});

/// The microbial limits of one fluid; all of them are passed strictly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MicrobialLimit {
    /// Of what.
    pub fluid: Fluid,
    /// Below it.
    pub colonies: Option<ColonyCount>,
    /// From it on something is done.
    pub colonies_action: Option<ColonyCount>,
    /// Below it.
    pub endotoxin: Option<Endotoxin>,
    /// From it on something is done.
    pub endotoxin_action: Option<Endotoxin>,
    /// How it reached us.
    pub known: HowKnown,
}

/// Every set.
pub static ALL: [&Limits; 5] = [
    &iso_23500_3_2019::LIMITS,
    &aami_rd52_2004::LIMITS,
    &ph_eur_1167::LIMITS,
    &iso_23500_3_2024::LIMITS,
    &jsdt::LIMITS,
];

/// Every criterion of microbes, of whichever set.
pub static MICROBIAL: [&Criterion; 16] = [
    &iso_23500_3_2019::COLONIES,
    &iso_23500_3_2019::COLONIES_ACTION,
    &iso_23500_3_2019::ENDOTOXIN,
    &iso_23500_3_2019::ENDOTOXIN_ACTION,
    &aami_rd52_2004::COLONIES,
    &aami_rd52_2004::COLONIES_ACTION,
    &aami_rd52_2004::ENDOTOXIN,
    &aami_rd52_2004::ENDOTOXIN_ACTION,
    &ph_eur_1167::COLONIES,
    &ph_eur_1167::ENDOTOXIN,
    &iso_23500_3_2024::COLONIES,
    &iso_23500_3_2024::COLONIES_ACTION,
    &iso_23500_3_2024::ENDOTOXIN,
    &iso_23500_3_2024::ENDOTOXIN_ACTION,
    &jsdt::COLONIES,
    &jsdt::ENDOTOXIN,
];

impl LimitSet {
    /// Its limits.
    pub fn limits(self) -> &'static Limits {
        ALL[self as usize]
    }

    /// The limit of a substance in its plain form, whatever the form in which it is stated.
    pub fn plain_limit(self, analyte: Analyte) -> Option<Concentration> {
        let row = self.limits().chemical.iter().find(|row| row.analyte.plain() == analyte.plain())?;
        Some(row.analyte.as_plain(row.limit))
    }
}

impl Limits {
    /// The limit of a substance, whatever the form in which it is reported, told in that form.
    pub fn of(&self, analyte: Analyte) -> Option<ChemicalLimit> {
        let row = self.chemical.iter().find(|row| row.analyte.plain() == analyte.plain())?;
        let one = |analyte: Analyte| analyte.as_plain(Concentration::of(1.0)).si();
        let limit = row.limit * (one(row.analyte) / one(analyte));
        // the limit itself is not to miss itself by the last bit
        let limit = if row.analyte == analyte { row.limit } else { limit };
        Some(ChemicalLimit { limit, ..*row })
    }

    /// The limits of a fluid.
    pub fn of_fluid(&self, fluid: Fluid) -> Option<&'static MicrobialLimit> {
        self.microbial.iter().find(|row| row.fluid == fluid)
    }
}

const fn row(analyte: Analyte, milligrams: f64, known: HowKnown, note: &'static str) -> ChemicalLimit {
    ChemicalLimit { analyte, limit: Concentration::of(milligrams * 1e-3), strict: false, note, known }
}

const fn strict(analyte: Analyte, milligrams: f64, known: HowKnown, note: &'static str) -> ChemicalLimit {
    ChemicalLimit { analyte, limit: Concentration::of(milligrams * 1e-3), strict: true, note, known }
}

/// CFU/mL and its action level, EU/mL and its action level.
const fn microbial(
    fluid: Fluid,
    [colonies, colonies_action]: [Option<f64>; 2],
    [endotoxin, endotoxin_action]: [Option<f64>; 2],
    known: HowKnown,
) -> MicrobialLimit {
    const fn count(value: Option<f64>) -> Option<ColonyCount> {
        match value {
            Some(value) => Some(ColonyCount::of(value * 1e6)),
            None => None,
        }
    }
    const fn activity(value: Option<f64>) -> Option<Endotoxin> {
        match value {
            Some(value) => Some(Endotoxin::of(value * 1e6)),
            None => None,
        }
    }
    MicrobialLimit {
        fluid,
        colonies: count(colonies),
        colonies_action: count(colonies_action),
        endotoxin: activity(endotoxin),
        endotoxin_action: activity(endotoxin_action),
        known,
    }
}

/// The criteria of a set, so that its name stands in every judgement. A colony count is an output; the other numbers stand
/// in a report, and no output holds them.
macro_rules! criteria {
    (@judges) => { $crate::engine::sheet::Judges::NoOutput };
    (@judges $output:literal) => { $crate::engine::sheet::Judges::Output($output) };
    ($( $name:ident $id:literal $sentence:literal $side:ident $source:ident $(judges $output:literal)?; )+) => { $(
        pub(super) static $name: $crate::engine::sheet::Criterion = $crate::engine::sheet::Criterion {
            id: $id,
            sentence: $sentence,
            stage: $crate::engine::sheet::Stage::Product,
            side: $crate::engine::sheet::Side::$side,
            forecast: false,
            source: &$crate::engine::sheet::source::$source,
            levers: &[],
            cases: &[],
            judges: criteria!(@judges $($output)?),
        };
    )+ };
}
use criteria;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_set_stands_at_its_place() {
        for limits in ALL {
            assert_eq!(limits.set.limits().set, limits.set);
        }
    }

    #[test]
    fn no_substance_stands_twice() {
        for limits in ALL {
            for (index, row) in limits.chemical.iter().enumerate() {
                let again =
                    limits.chemical[..index].iter().any(|other| other.analyte.plain() == row.analyte.plain());
                assert!(!again, "{:?} {:?}", limits.set, row.analyte);
                assert!(row.limit.si() > 0.0);
            }
        }
    }

    #[test]
    fn a_limit_is_told_in_the_form_of_the_report() {
        // 2 mg/L as N are 2 · 62.004 / 14.007 = 8.853 mg/L as NO3
        let as_nitrate = LimitSet::Iso23500.limits().of(Analyte::Nitrate).map(|row| row.limit.si());
        assert!(as_nitrate.is_some_and(|limit| (limit - 8.853e-3).abs() < 5e-7));
        // and 2 mg/L as NO3 are 0.4518 mg/L as N
        let as_nitrogen = LimitSet::PhEur1167.limits().of(Analyte::NitrateNitrogen).map(|row| row.limit.si());
        assert!(as_nitrogen.is_some_and(|limit| (limit - 0.4518e-3).abs() < 5e-8));
    }
}
