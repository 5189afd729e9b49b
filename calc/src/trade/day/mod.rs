//! A day of sessions.

mod plan;

pub use plan::{DAY_LONG_ENOUGH, DayPlan, Outputs as DayOfSessions};
