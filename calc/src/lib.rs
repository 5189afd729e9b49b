//! The calculations of Tapside: pure, without browser, clock, locale, file or entropy.

pub mod quantity;
