//! The dialysis machines: what they draw.

mod demand;

pub use demand::{MARGIN, MachineDemand, Outputs as Demands, Rinses};
