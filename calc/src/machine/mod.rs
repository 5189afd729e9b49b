//! The dialysis machines: what they draw.

mod demand;

pub use demand::{MachineDemand, Outputs as Demands, Rinses};
