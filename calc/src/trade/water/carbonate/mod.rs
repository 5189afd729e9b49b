//! The carbonate equilibrium of a water and of what a membrane leaves of it.
//!
//! Total amounts, alkalinity and pH (or free carbon dioxide, or total carbonate) give the free ions and their pairs, by the law
//! of mass action with activities; from these, how near the water is to calcite and to gypsum. Constants and ion sizes
//! are those of phreeqc.dat, and the test command compares with PHREEQC itself.
//!
//! Not covered: phosphate, fluoride, iron and organic acids as partners of calcium; gases escaping; how fast scale grows.

mod balance;
mod constants;

use super::activity::DebyeHueckel;
use super::{Analyte, Report};
use crate::engine::quantity::{Molality, Ph, SaturationIndex, Temperature};
use crate::engine::sheet::{Known, Missing};
use constants::Constants;

/// Above this ionic strength no equilibrium is given: the activities of the free ions would be without meaning.
pub const TOO_SALTY: Molality = Molality::of(1.0);

/// Total amounts in a kilogram of water, in mol.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Totals {
    calcium: f64,
    magnesium: f64,
    sodium: f64,
    potassium: f64,
    sulfate: f64,
    silica: f64,
    /// Equivalents.
    alkalinity: f64,
    /// Sum of amount and squared charge of the ions that have no partner here (chloride, nitrate).
    others: f64,
}

/// What is known of the carbonic acid beside the alkalinity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Given {
    /// As measured.
    Ph(Ph),
    /// What passes a membrane as freely as water does, and so is the same on both sides.
    CarbonDioxide(Molality),
    /// All forms of it, which stay when a closed water warms.
    Carbon(Molality),
}

/// Why there is no equilibrium.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsolved {
    /// At this pH hydroxide and silicate alone are more than the alkalinity.
    PhDoesNotFit,
    /// Beyond [`TOO_SALTY`].
    TooSalty,
}

/// A water at equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equilibrium {
    /// At the water's temperature.
    pub ph: Ph,
    /// Dissolved carbon dioxide.
    pub carbon_dioxide: Molality,
    /// Carbonic acid in all its forms.
    pub carbon: Molality,
    /// With ion pairs.
    pub ionic_strength: Molality,
    /// Ion activity product over solubility product.
    pub calcite: f64,
    /// Ion activity product over solubility product.
    pub gypsum: f64,
    /// How many rounds it took.
    pub rounds: u32,
}

/// Constants at one temperature.
#[derive(Debug, Clone, Copy)]
pub struct Chemistry {
    constants: Constants,
    debye_hueckel: DebyeHueckel,
}

impl Totals {
    /// Those of a report; what it lacks counts as none.
    pub fn of(report: &Report) -> Self {
        let mut totals = Self::default();
        for (analyte, molality, charge) in report.solutes() {
            let amount = molality.si();
            match analyte {
                Analyte::Calcium => totals.calcium = amount,
                Analyte::Magnesium => totals.magnesium = amount,
                Analyte::Sodium => totals.sodium = amount,
                Analyte::Potassium => totals.potassium = amount,
                Analyte::Sulfate => totals.sulfate = amount,
                Analyte::Silica => totals.silica = amount,
                Analyte::Alkalinity => totals.alkalinity = amount,
                _ => totals.others += amount * charge * charge,
            }
        }
        totals
    }

    /// So many times as much of everything.
    pub fn concentrated(&self, factor: f64) -> Self {
        Self {
            calcium: factor * self.calcium,
            magnesium: factor * self.magnesium,
            sodium: factor * self.sodium,
            potassium: factor * self.potassium,
            sulfate: factor * self.sulfate,
            silica: factor * self.silica,
            alkalinity: factor * self.alkalinity,
            others: factor * self.others,
        }
    }
}

impl Chemistry {
    /// At this temperature, held to 0 to 100 °C.
    pub fn at(temperature: Temperature) -> Self {
        Self { constants: Constants::at(temperature), debye_hueckel: DebyeHueckel::at(temperature) }
    }

    /// Free ions, pairs and saturation of a water.
    ///
    /// # Formula
    /// Mass action: a(Ca CO_3) = K a(Ca) a(CO_3) and so for every pair; conservation of each total; alkalinity =
    /// [HCO_3] + 2 [CO_3] + pairs + [OH] + [H_3 SiO_4] − [H] − [HSO_4]
    ///
    /// | Symbol | Meaning | Unit | Range |
    /// |---|---|---|---|
    /// | a | activity, of Truesdell and Jones, of Davies for small pairs | mol/kg | ionic strength up to 0.1, with less trust to 1 |
    /// | K | constants of phreeqc.dat | | 0 to 100 °C |
    ///
    /// # Accuracy
    /// Calcite within 0.01 of PHREEQC 3 with phreeqc.dat for tap waters and their rejects. Constants of other databases differ by up
    /// to 0.05.
    ///
    /// # Errors
    /// A pH that the alkalinity cannot have; an ionic strength above [`TOO_SALTY`].
    ///
    /// # Source
    /// `phreeqc-3`, `plummer-busenberg-1982`, `truesdell-jones-1974`, `davies-1962`. Check values: tests/published/scale.csv,
    /// tests/python/carbonate.py.
    ///
    /// # Example
    /// ```
    /// use calc::engine::quantity::{Ph, celsius};
    /// use calc::trade::water::carbonate::{Chemistry, Given, Totals, Unsolved};
    /// // no alkalinity at all cannot have a pH of 9
    /// let solved = Chemistry::at(celsius(25.0)).equilibrium(&Totals::default(), Given::Ph(Ph::of(9.0)));
    /// assert_eq!(solved, Err(Unsolved::PhDoesNotFit));
    /// ```
    pub fn equilibrium(&self, totals: &Totals, given: Given) -> Result<Equilibrium, Unsolved> {
        match given {
            Given::Ph(ph) => balance::at_ph(self, totals, ph.si()),
            Given::CarbonDioxide(molality) => balance::at_carbon_dioxide(self, totals, molality.si()),
            Given::Carbon(molality) => balance::at_carbon(self, totals, molality.si()),
        }
    }

    /// The first dissociation constant of silicic acid.
    pub fn silicic_acid(&self) -> f64 {
        self.constants.h3sio4
    }
}

impl Equilibrium {
    /// The saturation index of calcite.
    ///
    /// # Errors
    /// None exists without calcium or carbonate.
    pub fn calcite_index(&self) -> Known<SaturationIndex> {
        index(self.calcite, "without calcium and alkalinity, no calcium carbonate can form")
    }
}

/// The decadic logarithm of a saturation ratio.
fn index(ratio: f64, without: &'static str) -> Known<SaturationIndex> {
    if ratio > 0.0 { Ok(SaturationIndex::of(ratio.log10())) } else { Err(Missing::none_exists(without)) }
}

impl From<Unsolved> for Missing {
    fn from(unsolved: Unsolved) -> Self {
        Missing::none_exists(match unsolved {
            Unsolved::PhDoesNotFit => "alkalinity and pH do not fit each other",
            Unsolved::TooSalty => {
                "this water is too salty for the activities that are used here (above 1 mol/kg)"
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::celsius;

    /// A hard groundwater, in mol/kg.
    const HARD: Totals = Totals {
        calcium: 2.745e-3,
        magnesium: 0.905e-3,
        sodium: 1.087e-3,
        potassium: 0.077e-3,
        sulfate: 0.625e-3,
        silica: 0.3e-3,
        alkalinity: 5.795e-3,
        others: 1.27e-3,
    };

    #[test]
    fn whichever_way_it_is_given_it_is_the_same_water() {
        for (ph, t) in [(5.0, 5.0), (7.3, 11.0), (8.3, 25.0), (9.5, 35.0)] {
            let chemistry = Chemistry::at(celsius(t));
            let solved = |given| chemistry.equilibrium(&HARD, given).unwrap();
            let by_ph = solved(Given::Ph(Ph::of(ph)));
            for given in [Given::CarbonDioxide(by_ph.carbon_dioxide), Given::Carbon(by_ph.carbon)] {
                let again = solved(given);
                assert!((again.ph.si() - ph).abs() < 1e-8, "{given:?}: pH {} for {ph}", again.ph.si());
                assert!((again.calcite / by_ph.calcite - 1.0).abs() < 1e-7, "{given:?}");
            }
        }
    }

    #[test]
    fn every_answer_is_finite_and_rises_with_concentration() {
        for t in [0.5, 20.0, 60.0] {
            let chemistry = Chemistry::at(celsius(t));
            for ph in [3.0, 5.0, 7.0, 9.0, 11.5] {
                let feed = chemistry.equilibrium(&HARD, Given::Ph(Ph::of(ph)));
                let Ok(feed) = feed else { continue };
                let mut before = 0.0;
                for factor in [1e-6, 1e-3, 0.1, 1.0, 2.0, 5.0, 20.0, 80.0, 1e3, 1e9] {
                    let given = Given::CarbonDioxide(feed.carbon_dioxide);
                    match chemistry.equilibrium(&HARD.concentrated(factor), given) {
                        Ok(found) => {
                            assert!(
                                found.calcite.is_finite() && found.calcite > before,
                                "{t} °C, pH {ph}, {factor}"
                            );
                            assert!(found.gypsum.is_finite() && found.ph.si().is_finite());
                            before = found.calcite;
                        }
                        Err(unsolved) => assert!(factor > 20.0, "{t} °C, pH {ph}, {factor}: {unsolved:?}"),
                    }
                }
            }
        }
    }

    #[test]
    fn a_ph_that_the_alkalinity_cannot_have_is_refused() {
        let soft = HARD.concentrated(0.01);
        let chemistry = Chemistry::at(celsius(25.0));
        assert_eq!(chemistry.equilibrium(&soft, Given::Ph(Ph::of(11.0))), Err(Unsolved::PhDoesNotFit));
        // more carbonic acid than any acid water of the range holds
        let endless = Given::Carbon(Molality::of(1e9));
        assert_eq!(chemistry.equilibrium(&soft, endless), Err(Unsolved::PhDoesNotFit));
    }
}
