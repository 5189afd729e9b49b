//! The dialysis machines: what they draw, and the heat that their water needs.

mod demand;
mod heating;

pub use demand::{MARGIN, MachineDemand, Outputs as Demands, Rinses};
pub use heating::{MACHINE_HEATING, MachineHeating, Outputs as Heating, PRODUCT_COOL_ENOUGH, PUMP_HEAT};
