//! The bench and the classroom.

mod osmotic_pressure;

pub use osmotic_pressure::{OsmoticPressure, Outputs as OsmoticPressures, as_sodium_chloride};
