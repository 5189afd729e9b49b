//! What a laboratory reports of a water, each with what its number stands for: molar mass, charge, usual values.
//!
//! Molar masses from the abridged standard atomic weights (IUPAC 2021). The basis is part of the analyte, since a number
//! alone does not tell it: 9.5 mg/L of nitrate nitrogen are 42 mg/L of nitrate.

use crate::choice;
use crate::engine::quantity::Concentration;

choice!(/// What was looked for in the water, with the form in which its number is reported.
Analyte {
    Calcium "calcium" "Calcium, as Ca",
    Magnesium "magnesium" "Magnesium, as Mg",
    Sodium "sodium" "Sodium, as Na",
    Potassium "potassium" "Potassium, as K",
    Chloride "chloride" "Chloride, as Cl",
    Sulfate "sulfate" "Sulfate, as SO4",
    Alkalinity "alkalinity" "Alkalinity, as CaCO3",
    Bicarbonate "bicarbonate" "Bicarbonate (hydrogen carbonate), as HCO3",
    NitrateNitrogen "nitrate-n" "Nitrate, as N",
    Nitrate "nitrate-no3" "Nitrate, as NO3",
    Fluoride "fluoride" "Fluoride, as F",
    Silica "silica" "Silica, as SiO2",
    Aluminium "aluminium" "Aluminium (aluminum), as Al",
    Iron "iron" "Iron, as Fe",
    Manganese "manganese" "Manganese, as Mn",
    Copper "copper" "Copper, as Cu",
    Lead "lead" "Lead, as Pb",
    Zinc "zinc" "Zinc, as Zn",
    Arsenic "arsenic" "Arsenic, as As",
    Antimony "antimony" "Antimony, as Sb",
    Barium "barium" "Barium, as Ba",
    Beryllium "beryllium" "Beryllium, as Be",
    Boron "boron" "Boron, as B",
    Cadmium "cadmium" "Cadmium, as Cd",
    Chromium "chromium" "Chromium, as Cr",
    Mercury "mercury" "Mercury, as Hg",
    Nickel "nickel" "Nickel, as Ni",
    Selenium "selenium" "Selenium, as Se",
    Silver "silver" "Silver, as Ag",
    Strontium "strontium" "Strontium, as Sr",
    Thallium "thallium" "Thallium, as Tl",
    Tin "tin" "Tin, as Sn",
    AmmoniumNitrogen "ammonium-n" "Ammonium, as N",
    Ammonium "ammonium-nh4" "Ammonium, as NH4",
    NitriteNitrogen "nitrite-n" "Nitrite, as N",
    Phosphate "phosphate" "Phosphate, as PO4",
    TotalChlorine "total-chlorine" "Total chlorine, as Cl2",
    FreeChlorine "free-chlorine" "Free chlorine, as Cl2",
    Chloramines "chloramines" "Chloramines (combined chlorine), as Cl2",
});

/// What stands behind the number of an analyte.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Substance {
    /// Of the form in which the number is reported; g/mol.
    pub molar_mass: f64,
    /// Equivalents a mole at the pH of tap water, with sign; 0 for what is hardly charged there, or is no solute but
    /// fine solids (aluminium, iron).
    pub charge: f64,
    /// More than this in a water from a tap is unusual; mg/L (common practice, no source).
    pub usual: f64,
}

impl Analyte {
    /// Every one of them.
    #[rustfmt::skip]
    pub const ALL: &'static [Analyte] = &[
        Self::Calcium, Self::Magnesium, Self::Sodium, Self::Potassium, Self::Chloride, Self::Sulfate,
        Self::Alkalinity, Self::Bicarbonate, Self::NitrateNitrogen, Self::Nitrate, Self::Fluoride,
        Self::Silica, Self::Aluminium, Self::Iron, Self::Manganese, Self::Copper, Self::Lead, Self::Zinc,
        Self::Arsenic, Self::Antimony, Self::Barium, Self::Beryllium, Self::Boron, Self::Cadmium,
        Self::Chromium, Self::Mercury, Self::Nickel, Self::Selenium, Self::Silver, Self::Strontium,
        Self::Thallium, Self::Tin, Self::AmmoniumNitrogen, Self::Ammonium, Self::NitriteNitrogen,
        Self::Phosphate, Self::TotalChlorine, Self::FreeChlorine, Self::Chloramines,
    ];

    /// What stands behind the number.
    pub const fn substance(self) -> Substance {
        let (molar_mass, charge, usual) = match self {
            Self::Calcium => (40.078, 2.0, 250.0),
            Self::Magnesium => (24.305, 2.0, 120.0),
            Self::Sodium => (22.990, 1.0, 500.0),
            Self::Potassium => (39.098, 1.0, 50.0),
            Self::Chloride => (35.45, -1.0, 500.0),
            Self::Sulfate => (96.056, -2.0, 600.0),
            // two equivalents in each mole of CaCO3
            Self::Alkalinity => (100.086, -2.0, 500.0),
            Self::Bicarbonate => (61.016, -1.0, 600.0),
            Self::NitrateNitrogen => (14.007, -1.0, 20.0),
            Self::Nitrate => (62.004, -1.0, 90.0),
            Self::Fluoride => (18.998, -1.0, 4.0),
            Self::Silica => (60.083, 0.0, 100.0),
            Self::Aluminium => (26.982, 0.0, 0.5),
            Self::Iron => (55.845, 0.0, 5.0),
            Self::Manganese => (54.938, 2.0, 1.0),
            Self::Copper => (63.546, 2.0, 2.0),
            Self::Lead => (207.2, 2.0, 0.05),
            Self::Zinc => (65.38, 2.0, 5.0),
            Self::Arsenic => (74.922, 0.0, 0.05),
            Self::Antimony => (121.76, 0.0, 0.02),
            Self::Barium => (137.33, 2.0, 2.0),
            Self::Beryllium => (9.0122, 0.0, 0.004),
            Self::Boron => (10.81, 0.0, 2.0),
            Self::Cadmium => (112.41, 2.0, 0.01),
            Self::Chromium => (51.996, 0.0, 0.1),
            Self::Mercury => (200.59, 0.0, 0.002),
            Self::Nickel => (58.693, 2.0, 0.1),
            Self::Selenium => (78.971, 0.0, 0.05),
            Self::Silver => (107.87, 1.0, 0.1),
            Self::Strontium => (87.62, 2.0, 20.0),
            Self::Thallium => (204.38, 1.0, 0.002),
            Self::Tin => (118.71, 0.0, 0.1),
            Self::AmmoniumNitrogen => (14.007, 1.0, 3.0),
            Self::Ammonium => (18.039, 1.0, 4.0),
            Self::NitriteNitrogen => (14.007, -1.0, 1.0),
            Self::Phosphate => (94.970, -2.0, 5.0),
            // chlorine is never in the water of a membrane, and Cl2 is what it is counted as, not what it is
            Self::TotalChlorine | Self::FreeChlorine | Self::Chloramines => (70.90, 0.0, 5.0),
        };
        Substance { molar_mass, charge, usual }
    }

    /// In words, with the form in which the number is reported.
    pub const fn name(self) -> &'static str {
        Self::NAMED[self as usize].name
    }

    /// The one analyte under which the same substance is kept, whatever the form of the report.
    pub const fn plain(self) -> Self {
        match self {
            Self::Nitrate => Self::NitrateNitrogen,
            Self::Ammonium => Self::AmmoniumNitrogen,
            Self::Bicarbonate => Self::Alkalinity,
            other => other,
        }
    }

    /// What the same substance is when it is reported as [`Analyte::plain`].
    ///
    /// # Formula
    /// c_2 = c_1 · (|z_1| / M_1) · (M_2 / |z_2|)
    ///
    /// # Source
    /// `mass-balance`: the same amount of substance; hydrogen carbonate counts as all of the alkalinity, which holds
    /// below pH 8.5.
    ///
    /// # Example
    /// ```
    /// use calc::{engine::quantity::Concentration, trade::water::Analyte};
    /// let as_n = Analyte::Nitrate.as_plain(Concentration::of(50e-3)); // WHO's 50 mg/L of nitrate
    /// assert!((as_n.si() - 11.295e-3).abs() < 5e-7);
    /// ```
    pub fn as_plain(self, reported: Concentration) -> Concentration {
        let (from, to) = (self.substance(), self.plain().substance());
        if self.plain() == self {
            return reported;
        }
        reported * ((from.charge / from.molar_mass) * (to.molar_mass / to.charge))
    }

    /// Moles in a litre.
    pub fn moles(self, reported: Concentration) -> f64 {
        reported.si() / self.substance().molar_mass
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_stands_at_its_place() {
        assert_eq!(Analyte::ALL.len(), Analyte::NAMED.len());
        assert!(Analyte::ALL.iter().enumerate().all(|(place, analyte)| *analyte as usize == place));
    }

    #[test]
    fn one_substance_under_two_names_is_one() {
        // 62.004 / 14.007 = 4.4267; 61.016 / (100.086 / 2) = 1.2193; 18.039 / 14.007 = 1.2879
        for (analyte, ratio) in
            [(Analyte::Nitrate, 4.4267), (Analyte::Bicarbonate, 1.2193), (Analyte::Ammonium, 1.2879)]
        {
            let plain = analyte.as_plain(Concentration::of(1.0)).si();
            assert!((plain * ratio - 1.0).abs() < 1e-4, "{}: {plain}", analyte.name());
            assert_eq!(analyte.plain().plain(), analyte.plain());
        }
        assert_eq!(Analyte::Calcium.as_plain(Concentration::of(1.0)).si(), 1.0);
    }
}
