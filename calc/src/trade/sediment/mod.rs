//! The sediment filter: its cartridges, and the pressure drop that a room can afford.

mod cartridges;
mod limit;

pub use cartridges::{CARTRIDGE_FLOW, LengthChoice, Outputs as SedimentFilters, SedimentFilter};
pub use limit::{FILTER_LIMIT, FilterLimit, Outputs as FilterLimits};
