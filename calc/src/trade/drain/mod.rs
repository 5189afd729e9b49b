//! Drain and socket: where the water goes, and where the current comes from.

mod electrical;
mod load;

pub use electrical::{BREAKER_LOAD, ElectricalLoad, Outputs as ElectricalLoads};
pub use load::{DRAIN_TAKES, DrainLoad, Outputs as DrainLoads, Surplus};
