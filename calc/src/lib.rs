//! The calculations of Tapside: pure, without browser, clock, locale, file or entropy.

pub mod quantity;
pub mod water;
#[macro_use]
pub mod sheet;
pub mod calendar;
pub mod carbon;
pub mod catalogue;
pub mod curve;
pub mod disinfect;
pub mod json;
pub mod machine;
pub mod membrane;
pub mod plan;
pub mod reading;
pub mod reason;
pub mod record;
pub mod sediment;
pub mod solve;
pub mod sweep;
pub mod tap;
pub mod terms;
pub mod uncertainty;
