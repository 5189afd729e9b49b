//! The tap of the room, its hose, and the pressure that is left at the RO.

mod curve;
mod inlet_pressure;
mod line;

pub use curve::{Outputs as TapCurveOutputs, TapCurve};
pub use inlet_pressure::{INLET_PRESSURE, InletPressure, Outputs as InletPressures};
pub use line::{Fitting, Hose};
