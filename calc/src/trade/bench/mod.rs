//! The bench and the classroom.

mod conductivity_standard;
mod guard_band;
mod log_reduction;
mod osmotic_pressure;
mod silt_density_index;
mod water_cost;

pub use conductivity_standard::{ConductivityStandard, Outputs as ConductivityStandards, Standard};
pub use guard_band::{GuardBand, LimitSide, Outputs as GuardBands, Place};
pub use log_reduction::{Found, LogReduction, Outputs as LogReductions};
pub use osmotic_pressure::{OsmoticPressure, Outputs as OsmoticPressures, as_sodium_chloride};
pub use silt_density_index::{Outputs as SiltDensityIndices, SiltDensityIndex};
pub use water_cost::{Outputs as WaterCosts, WaterCost};
