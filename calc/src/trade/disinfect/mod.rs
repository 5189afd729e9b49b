//! Disinfection by heat.

mod heat_dose;
mod heat_log;
mod heat_up;
mod log_course;
mod log_rows;
mod probe_error;
mod stretches;

pub use heat_dose::{HeatDoseOfRun, Outputs as HeatDoses, ReadFrom};
pub use heat_log::{LogRow, ProbeDose};
pub use heat_up::{HEAT_UP_TIME, HEATER_ABOVE_LOSS, HeatUp, Outputs as HeatUps};
pub use stretches::{Counting, EndedBy, Stretch};
