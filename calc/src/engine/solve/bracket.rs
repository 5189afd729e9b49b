//! Narrowing a bracket: interpolation where it helps, never slower than halving by more than one round.
//!
//! Oliveira and Takahashi, An enhancement of the bisection method average performance preserving minmax optimality,
//! ACM Transactions on Mathematical Software 47 (2020) 5: interpolate, truncate, project.

/// A value of the dial, and by how much the number is above the target there; not a number where it is missing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Point {
    pub x: f64,
    pub above: f64,
}

/// How the narrowing ended.
pub(crate) enum Ended {
    /// At a point that equals the target, between two that do not.
    Equal(Point, Point, Point),
    /// At a point where the number is missing, between two where it is there.
    Missing(Point, Point, Point),
    /// At two neighbours with the target between them.
    Across(Point, Point),
}

/// Narrows a bracket with the target between its ends down to twice the least step.
pub(crate) fn narrow(
    from: Point,
    to: Point,
    least_step: f64,
    evaluate: &mut dyn FnMut(f64) -> Point,
) -> Ended {
    let (mut a, mut b) = (from, to);
    // κ₁ = 0.2 over the width, κ₂ = 2, n₀ = 1: as the paper proposes
    let strength = 0.2 / (b.x - a.x);
    let rounds = ((b.x - a.x) / (2.0 * least_step)).log2().ceil().max(0.0) + 1.0;
    let mut allowed = least_step * rounds.exp2();
    // the bound holds but for rounding, which must not make the search endless
    for _ in 0..2 * rounds as u32 {
        let middle = f64::midpoint(a.x, b.x);
        let inside = |x: &f64| a.x < *x && *x < b.x;
        let x = [propose(a, b, strength, allowed), middle].into_iter().find(inside);
        let Some(x) = x.filter(|_| b.x - a.x > 2.0 * least_step) else { break };
        allowed /= 2.0;
        let point = evaluate(x);
        if point.above.is_nan() {
            return Ended::Missing(a, point, b);
        } else if point.above == 0.0 {
            return Ended::Equal(a, point, b);
        } else if (point.above < 0.0) == (a.above < 0.0) {
            a = point;
        } else {
            b = point;
        }
    }
    Ended::Across(a, b)
}

/// The next point: of the secant, moved towards the middle a little, and no further from the middle than keeps the
/// number of rounds bounded.
fn propose(a: Point, b: Point, strength: f64, allowed: f64) -> f64 {
    let width = b.x - a.x;
    let middle = f64::midpoint(a.x, b.x);
    let secant = a.x + width * (a.above / (a.above - b.above));
    if !secant.is_finite() {
        return middle;
    }
    let towards_middle = (middle - secant).signum();
    let truncation = strength * width * width;
    let moved =
        if truncation <= (middle - secant).abs() { secant + towards_middle * truncation } else { middle };
    let reach = (allowed - width / 2.0).max(0.0);
    if (moved - middle).abs() <= reach { moved } else { middle - towards_middle * reach }
}
