//! The tap of the room, its hose, and the pressure that is left at the RO.

mod chlorine_species;
mod climate;
mod conductivity;
mod curve;
mod hardness;
mod inlet_pressure;
mod line;
mod mains_temperature;
mod timed_jug;

pub use chlorine_species::{COLOUR_IS_NOT_ALWAYS_CHLORINE, ChlorineSpecies, Outputs as ChlorineSpeciesFound};
pub use climate::{Climate, Hemisphere, mains_of_day};
pub use conductivity::{
    Compensated, ConductivityAt25, Outputs as ConductivityFound, SALT, SALT_AT_MOST, factor_to_25,
};
pub use curve::{Outputs as TapCurveOutputs, TapCurve};
pub use hardness::{HardnessAsCaco3, Outputs as HardnessFound};
pub use inlet_pressure::{HOSE_RATED, INLET_PRESSURE, InletPressure, Outputs as InletPressures};
pub(crate) use inlet_pressure::{PRESSURE_ALONG, PRESSURE_STEPS, STATIC, looked_up_viscosity};
pub use line::{Fitting, Hose};
pub use mains_temperature::{MainsTemperature, MonthKnown, Origin, Outputs as TapYear, TapMonth};
pub use timed_jug::{Filling, FillingFlow, Outputs as TimedFlow, TimedJug};
