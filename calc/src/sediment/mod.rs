//! The sediment filter in front of everything else.

mod cartridges;

pub use cartridges::{CARTRIDGE_FLOW, LengthChoice, Outputs as SedimentFilters, SedimentFilter};
