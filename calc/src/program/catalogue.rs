//! The one list of sheets, by stage in the order of the water's way.

use crate::engine::sheet::{Declaration, Entry, Stage};
use crate::{
    trade::bench, trade::carbon, trade::chemical, trade::day, trade::disinfect, trade::drain, trade::machine,
    trade::membrane, trade::plan, trade::product, trade::run, trade::sediment, trade::softener, trade::tap,
};

/// Every sheet.
#[rustfmt::skip]
pub static SHEETS: &[Entry] = &[
    Entry::of::<plan::Plan>(),
    Entry::of::<tap::TimedJug>(),
    Entry::of::<tap::TapCurve>(),
    Entry::of::<tap::MainsTemperature>(),
    Entry::of::<tap::ChlorineSpecies>(),
    Entry::of::<tap::HardnessAsCaco3>(),
    Entry::of::<tap::ConductivityAt25>(),
    Entry::of::<tap::InletPressure>(),
    Entry::of::<sediment::SedimentFilter>(),
    Entry::of::<sediment::FilterLimit>(),
    Entry::of::<softener::Softener>(),
    Entry::of::<carbon::ContactTime>(),
    Entry::of::<carbon::CarbonVessel>(),
    Entry::of::<carbon::CarbonLife>(),
    Entry::of::<carbon::ChlorineTest>(),
    Entry::of::<membrane::TemperatureCorrection>(),
    Entry::of::<membrane::Recovery>(),
    Entry::of::<membrane::RejectSetting>(),
    Entry::of::<membrane::Rejection>(),
    Entry::of::<membrane::SameMembrane>(),
    Entry::of::<membrane::ProductFlowYear>(),
    Entry::of::<membrane::NormalizedPerformance>(),
    Entry::of::<membrane::ScaleTendency>(),
    Entry::of::<membrane::IonPassage>(),
    Entry::of::<membrane::Tempering>(),
    Entry::of::<machine::MachineDemand>(),
    Entry::of::<machine::MachineHeating>(),
    Entry::of::<product::ChemicalLimits>(),
    Entry::of::<product::MicrobialLimits>(),
    Entry::of::<drain::DrainLoad>(),
    Entry::of::<drain::ElectricalLoad>(),
    Entry::of::<day::DayPlan>(),
    Entry::of::<disinfect::HeatDoseOfRun>(),
    Entry::of::<disinfect::HeatUp>(),
    Entry::of::<chemical::Dilution>(),
    Entry::of::<chemical::RinseOut>(),
    Entry::of::<run::Trend>(),
    Entry::of::<run::Schedule>(),
    Entry::of::<run::IdleReturn>(),
    Entry::of::<bench::OsmoticPressure>(),
    Entry::of::<bench::LogReduction>(),
    Entry::of::<bench::SiltDensityIndex>(),
    Entry::of::<bench::WaterCost>(),
    Entry::of::<bench::ConductivityStandard>(),
    Entry::of::<bench::GuardBand>(),
];

/// A sheet by its id.
pub fn find(id: &str) -> Option<&'static Entry> {
    SHEETS.iter().find(|entry| entry.declaration.id == id)
}

/// The sheets of one stage.
pub fn of_stage(stage: Stage) -> impl Iterator<Item = &'static Declaration> {
    SHEETS.iter().map(|entry| entry.declaration).filter(move |declaration| declaration.stage == stage)
}
