//! The softener: how much hardness it takes up before it must be regenerated, and what it costs in salt.

mod regeneration;
mod salt;

pub use regeneration::{Outputs, SOFTENED_WATER, SOFTENER_LASTS, Softener};
