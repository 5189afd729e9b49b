//! Disinfection by heat.

mod heat_dose;
mod heat_log;
mod log_rows;
mod stretches;

pub use heat_dose::{HeatDoseOfRun, Outputs as HeatDoses};
pub use heat_log::{LogRow, ProbeDose};
pub use stretches::{Counting, EndedBy, Stretch};
