//! What any calculation is made of, whatever its subject: no formula of the trade stands here.

pub mod calendar;
pub mod curve;
mod decided;
pub mod language;
pub mod monte_carlo;
pub mod quantity;
pub mod reason;
#[macro_use]
pub mod sheet;
pub mod solve;
pub mod statistics;
pub mod sweep;
pub mod uncertainty;
