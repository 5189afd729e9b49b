//! Terms of what water costs.

use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::Term;

/// `water-price`
pub const WATER_PRICE: Term = Term::number(&NUMBER, "Price of a cubic metre", "c")
    .help("From the bill, in any currency.")
    .possible(0.0, 1e9, "");

/// `drain-price`
pub const DRAIN_PRICE: Term = WATER_PRICE
    .named("Price of a cubic metre sent to the drain")
    .symbol("c_d")
    .assumed("nothing more than the water's");
