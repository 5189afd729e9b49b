//! What keeps the RO running over weeks and months.

mod trend;
mod trend_fit;

pub use trend::{Basis, Outputs as Trends, Trend, TriggerSide};
pub use trend_fit::{ChartRow, Reading, Standing, Verdict};
