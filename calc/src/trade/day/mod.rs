//! The day: which sessions fit, which water they use.

mod change;
mod plan;

pub use change::{CarbonChange, until_change};
pub use plan::{DAY_LONG_ENOUGH, DayPlan, Outputs as DayOfSessions, SessionOfDay};
