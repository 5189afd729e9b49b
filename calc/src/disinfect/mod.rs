//! Disinfection by heat.

mod heat_dose;
mod heat_log;

pub use heat_dose::{HeatDoseOfRun, Outputs as HeatDoses};
pub use heat_log::{LogRow, ProbeDose};
