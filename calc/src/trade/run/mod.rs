//! What keeps the RO running over weeks and months.

mod idle_return;
mod schedule;
mod series;
mod trend;
mod trend_fit;

pub use idle_return::{Answered, Because, Doing, IdleReturn, Outputs as IdleReturns, Outstanding};
pub use schedule::{DueBy, DueState, DueTask, Outputs as DueTasks, Schedule, Span, Task};
pub use series::{SERIES, Series, SeriesOf, series};
pub use trend::{Basis, Outputs as Trends, Trend, TriggerSide};
pub use trend_fit::{ChartRow, Reading, Standing, Verdict};
