//! The bench and the classroom.

mod log_reduction;
mod osmotic_pressure;
mod silt_density_index;
mod water_cost;

pub use log_reduction::{Found, LogReduction, Outputs as LogReductions};
pub use osmotic_pressure::{OsmoticPressure, Outputs as OsmoticPressures, as_sodium_chloride};
pub use silt_density_index::{Outputs as SiltDensityIndices, SiltDensityIndex};
pub use water_cost::{Outputs as WaterCosts, WaterCost};
