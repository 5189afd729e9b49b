//! Terms of what water costs.

use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::Term;

/// `water-price`
pub const WATER_PRICE: Term = Term::number(&NUMBER, "Water price per m³", "c")
    .help("From the bill, in any currency.")
    .possible(0.0, 1e9, "");

/// `drain-price`
pub const DRAIN_PRICE: Term =
    WATER_PRICE.named("Sewer price per m³").symbol("c_d").assumed("0: the water price covers it");
