//! The feed and what the membrane leaves of it at some recovery.
//!
//! By conservation: every ion is held back alike (but for the salt passage), carbon dioxide passes and so is the same on
//! both sides, as ASTM D3739 takes it; the pH of the reject follows from both.

use super::Supply;
use super::langelier::Water;
use crate::engine::quantity::{Concentration, Ph, Ratio, SaturationIndex, Temperature};
use crate::engine::sheet::{Known, Missing};
use crate::trade::water::carbonate::{Chemistry, Equilibrium, Given, Unsolved};
use crate::trade::water::{Analyte, Report};

/// The feed as it enters the membrane.
#[derive(Debug, Clone)]
pub(super) struct Feed<'a> {
    pub supply: &'a Supply,
    passage: Ratio,
    chemistry: Chemistry,
    /// At the temperature of the feed.
    pub equilibrium: Equilibrium,
}

/// One side of the membrane: the feed itself, or a reject.
#[derive(Debug, Clone, Copy)]
pub(super) struct Side {
    pub factor: f64,
    pub equilibrium: Equilibrium,
}

impl<'a> Feed<'a> {
    /// The pH was measured at another temperature if one is given; then the closed water keeps its carbonic acid.
    pub fn new(
        supply: &'a Supply,
        (ph, ph_temperature): (Ph, Option<Temperature>),
        temperature: Temperature,
        passage: Ratio,
    ) -> Result<Self, Unsolved> {
        let totals = &supply.totals;
        let chemistry = Chemistry::at(temperature);
        let equilibrium = match ph_temperature {
            Some(measured) if measured != temperature => {
                let then = Chemistry::at(measured).equilibrium(totals, Given::Ph(ph))?;
                chemistry.equilibrium(totals, Given::Carbon(then.carbon))?
            }
            _ => chemistry.equilibrium(totals, Given::Ph(ph))?,
        };
        Ok(Self { supply, passage, chemistry, equilibrium })
    }

    /// The feed itself.
    pub fn side(&self) -> Side {
        Side { factor: 1.0, equilibrium: self.equilibrium }
    }

    /// How much the reject is concentrated at this recovery.
    pub fn factor(&self, recovery: Ratio) -> f64 {
        (1.0 - recovery.si() * self.passage.si()) / (1.0 - recovery.si())
    }

    /// The reject that is concentrated by this factor.
    pub fn reject(&self, factor: f64) -> Known<Side> {
        let given = Given::CarbonDioxide(self.equilibrium.carbon_dioxide);
        let equilibrium = self.chemistry.equilibrium(&self.supply.totals.concentrated(factor), given)?;
        Ok(Side { factor, equilibrium })
    }

    /// So much of one analyte on that side, in its plain form.
    pub fn concentration(
        &self,
        side: &Side,
        analyte: Analyte,
        lacking: &'static str,
    ) -> Known<Concentration> {
        Ok(self.supply.report.need(analyte, lacking)? * side.factor)
    }

    /// What Langelier's index needs of that side.
    pub fn langelier(&self, side: &Side) -> Known<Water> {
        let calcium = self.concentration(side, Analyte::Calcium, NO_CALCIUM)?;
        let alkalinity = self.concentration(side, Analyte::Alkalinity, NO_ALKALINITY)?;
        if calcium.si() <= 0.0 || alkalinity.si() <= 0.0 {
            return Err(Missing::none_exists(
                "without calcium and alkalinity, no calcium carbonate can form",
            ));
        }
        Ok(Water {
            calcium,
            alkalinity,
            ph: side.equilibrium.ph,
            ionic_strength: self.supply.report.ionic_strength() * side.factor,
            dissolved: self.supply.dissolved * side.factor,
        })
    }

    /// How near that side is to calcite.
    pub fn calcite(&self, side: &Side) -> Known<SaturationIndex> {
        self.supply.report.need(Analyte::Calcium, NO_CALCIUM)?;
        self.supply.report.need(Analyte::Alkalinity, NO_ALKALINITY)?;
        side.equilibrium.calcite_index()
    }

    /// How much of gypsum's solubility product is used on that side.
    pub fn gypsum(&self, side: &Side) -> Known<Ratio> {
        self.supply.report.need(Analyte::Calcium, NO_CALCIUM)?;
        self.supply.report.need(Analyte::Sulfate, NO_SULFATE)?;
        Ok(Ratio::of(side.equilibrium.gypsum))
    }

    /// The share of dissolved silica that is uncharged at that side's pH, as one over it: by so much more dissolves.
    pub fn silica_by_ph(&self, side: &Side) -> f64 {
        1.0 + self.chemistry.silicic_acid() * 10f64.powf(side.equilibrium.ph.si())
    }
}

/// What is lacking for calcium scale.
pub(super) const NO_CALCIUM: &str = "the report has no calcium";
/// What is lacking for calcium carbonate.
pub(super) const NO_ALKALINITY: &str = "the report has no alkalinity";
/// What is lacking for calcium sulfate.
pub(super) const NO_SULFATE: &str = "the report has no sulfate";
/// What is lacking for silica.
pub(super) const NO_SILICA: &str = "the report has no silica";

/// The report behind a softener: calcium and magnesium less, sodium in their place.
pub(super) fn softened(report: &Report, before: f64, after: f64) -> Report {
    // 2 · 22.990 / 100.086 g of sodium for a gram of hardness as CaCO3
    let exchanged = 2.0 * Analyte::Sodium.substance().molar_mass / 100.086;
    let zero = Concentration::of(0.0);
    let of = |analyte| report.of(analyte).unwrap_or(zero);
    let left = after / before;
    report
        .with(Analyte::Calcium, of(Analyte::Calcium) * left)
        .with(Analyte::Magnesium, of(Analyte::Magnesium) * left)
        .with(Analyte::Sodium, of(Analyte::Sodium) + Concentration::of((before - after) * exchanged))
}

/// Hardness of the report as CaCO3, in kg/m³.
pub(super) fn hardness(report: &Report) -> f64 {
    let moles = |analyte: Analyte| report.of(analyte).map_or(0.0, |value| analyte.moles(value));
    100.086 * (moles(Analyte::Calcium) + moles(Analyte::Magnesium))
}
