//! What dialysis water may hold: one file for each edition and jurisdiction, as rows of data.
//!
//! A record chooses its set, and the set in force on the day stays with each check. Editions differ: nothing outside of
//! these files asks which one it is.

mod aami_rd52_2004;
mod iso_23500_3_2019;
mod ph_eur_1167;

use crate::choice;
use crate::quantity::Concentration;
use crate::sheet::Source;
use crate::water::Analyte;

choice!(/// A set of limits, by its edition.
LimitSet {
    Iso23500 "iso-23500-3-2019" "ISO 23500-3:2019, water for haemodialysis",
    AamiRd52 "aami-rd52-2004" "ANSI/AAMI RD52:2004, as 42 CFR 494.40 takes it",
    PhEur1167 "ph-eur-1167" "European Pharmacopoeia 1167, water for diluting concentrated haemodialysis solutions",
});

/// One chemical limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChemicalLimit {
    /// In the form in which the limit is stated.
    pub analyte: Analyte,
    /// In that form.
    pub limit: Concentration,
    /// Whether the limit itself is already the wrong side.
    pub strict: bool,
}

/// A row: the limit in mg/L, itself still right.
const fn at_most(analyte: Analyte, milligrams: f64) -> ChemicalLimit {
    ChemicalLimit { analyte, limit: Concentration::of(milligrams * 1e-3), strict: false }
}

/// A row: the limit in mg/L, itself already wrong.
const fn below(analyte: Analyte, milligrams: f64) -> ChemicalLimit {
    ChemicalLimit { analyte, limit: Concentration::of(milligrams * 1e-3), strict: true }
}

impl LimitSet {
    /// Who says so, and how it is known.
    pub const fn source(self) -> &'static Source {
        match self {
            Self::Iso23500 => iso_23500_3_2019::SOURCE,
            Self::AamiRd52 => aami_rd52_2004::SOURCE,
            Self::PhEur1167 => ph_eur_1167::SOURCE,
        }
    }

    /// All chemical limits, in the order of the document.
    pub const fn chemical(self) -> &'static [ChemicalLimit] {
        match self {
            Self::Iso23500 => iso_23500_3_2019::CHEMICAL,
            Self::AamiRd52 => aami_rd52_2004::CHEMICAL,
            Self::PhEur1167 => ph_eur_1167::CHEMICAL,
        }
    }

    /// The limit of a substance in its plain form, whatever the form in which it is stated.
    pub fn plain_limit(self, analyte: Analyte) -> Option<Concentration> {
        let row = self.chemical().iter().find(|row| row.analyte.plain() == analyte.plain())?;
        Some(row.analyte.as_plain(row.limit))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_substance_stands_twice() {
        for set in [LimitSet::Iso23500, LimitSet::AamiRd52, LimitSet::PhEur1167] {
            let mut seen = Vec::new();
            for row in set.chemical() {
                assert!(!seen.contains(&row.analyte.plain()), "{}: {}", set.id(), row.analyte.name());
                seen.push(row.analyte.plain());
            }
        }
    }

    /// 2 mg/L as NO3 are 2 / 4.4267 = 0.4518 mg/L as N; 2 mg/L as N are those 2.
    #[test]
    fn nitrate_is_stated_in_two_forms() {
        let milligrams = |set: LimitSet| set.plain_limit(Analyte::Nitrate).map(|limit| limit.si() * 1000.0);
        assert_eq!(milligrams(LimitSet::Iso23500), Some(2.0));
        assert!(milligrams(LimitSet::PhEur1167).is_some_and(|limit| (limit - 0.4518).abs() < 5e-5));
    }
}
