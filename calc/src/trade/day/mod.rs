//! The day: which sessions fit, which water they use.

mod change;
mod course;
mod plan;

pub use change::{CarbonChange, until_change};
pub use course::{CLOCKED, DAY, FirstCarbon, HoursOfSession};
pub use plan::{DAY_LONG_ENOUGH, DayPlan, Outputs as DayOfSessions, SessionOfDay};
