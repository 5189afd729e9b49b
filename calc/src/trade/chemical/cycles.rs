//! How often to fill and drain until a solution is thin enough: each cycle leaves its share of the one before.

use crate::engine::quantity::{Concentration, Volume};
use crate::engine::sheet::{Known, Missing, Sentence, Working};
use crate::step;

/// A whole number that a quotient of logarithms misses by its last bits.
const SAME: f64 = 1e-9;

/// The least whole number of cycles after which less than the limit is left.
///
/// # Formula
/// C = C0 · (V_r / (V_r + V_f))^n, so that n is above ln(C0 / C) / ln((V_r + V_f) / V_r)
///
/// # Source
/// Conservation of mass, each filling mixed whole. Check values: tests/published/chemical.csv.
pub fn needed(
    (left, filled): (Volume, Volume),
    (start, limit): (Concentration, Concentration),
    w: &mut Working,
) -> Known<f64> {
    if left.si() <= 0.0 {
        return Err(Missing::none_exists("no circuit drains completely: measure what is left in it"));
    }
    step!(w, exact "n_0" = (start / limit).ln() / ((left + filled) / left).ln());
    // the limit itself is not below the limit
    let whole = (exact + SAME).floor() + 1.0;
    w.procedure(("whole", "n"), whole, || {
        Sentence::plain("the next whole number above it, since the limit itself is not below the limit")
    });
    Ok(whole)
}
