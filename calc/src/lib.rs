//! The calculations of Tapside: pure, without browser, clock, locale, file or entropy.

pub mod quantity;
pub mod water;
#[macro_use]
pub mod sheet;
pub mod calendar;
pub mod carbon;
pub mod catalogue;
pub mod disinfect;
pub mod json;
pub mod machine;
pub mod membrane;
pub mod reading;
pub mod reason;
pub mod record;
pub mod sediment;
pub mod tap;
pub mod terms;
pub mod uncertainty;
