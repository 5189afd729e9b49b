//! Friction in a pipe that runs full: the Darcy friction factor, and what a fitting adds.
//!
//! Laminar flow by Hagen and Poiseuille, turbulent flow by Colebrook; between the two the turbulent value, which is the
//! higher one. The explicit formula of Swamee and Jain is a second opinion. Not covered: pipes that are coiled tightly
//! or narrower than 2.5 mm, and the entrance length, in which the loss is greater.

use crate::engine::quantity::{
    Density, Flow, FlowCoefficient, Length, PressureDifference, Velocity, Viscosity,
};
use std::f64::consts::{LN_10, PI};

/// The Reynolds number up to which disturbances die out and the flow stays laminar, ± 10.
/// Avila et al., Science 333 (2011) 192.
pub const LAMINAR_UP_TO: f64 = 2040.0;

/// The Reynolds number from which the flow is fully turbulent, and from which Colebrook's equation is validated.
pub const TURBULENT_FROM: f64 = 4000.0;

/// The greatest Reynolds number for which the equations are validated.
pub const VALIDATED_REYNOLDS: f64 = 1e8;

/// The greatest relative roughness for which the equations are validated.
pub const VALIDATED_ROUGHNESS: f64 = 0.05;

/// Where arguments are held: outside there is no water pipe, and inside every factor is finite.
const HELD_REYNOLDS: (f64, f64) = (1e-9, 1e12);
const HELD_ROUGHNESS: (f64, f64) = (0.0, 1.0);

/// Newton's rounds after which the solution is taken as it is; 3 are enough everywhere, as a test shows.
const MOST_ROUNDS: u32 = 8;
/// The last relative step of Newton's; what is left is less than half its square.
const LAST_STEP: f64 = 1e-6;

/// How water flows in a pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Regime {
    /// In layers.
    Laminar,
    /// Now this, now that: taken as turbulent, which costs more pressure.
    Transitional,
    /// In eddies.
    Turbulent,
}

/// A Darcy friction factor, with what its working shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrictionFactor {
    /// Darcy's factor, four times Fanning's.
    pub factor: f64,
    /// Where the flow stands.
    pub regime: Regime,
    /// Newton's rounds that the solution took; none for laminar flow.
    pub rounds: u32,
}

/// The mean velocity of a flow in a round bore.
pub fn mean_velocity(flow: Flow, bore: Length) -> Velocity {
    Velocity::of(flow.si() / area(bore))
}

/// The Reynolds number of a mean velocity in a round bore.
pub fn reynolds_number(velocity: Velocity, bore: Length, density: Density, viscosity: Viscosity) -> f64 {
    density.si() * velocity.si() * bore.si() / viscosity.si()
}

/// The pressure of a velocity, ρ v² / 2: what a loss coefficient is counted in.
pub fn velocity_pressure(density: Density, velocity: Velocity) -> PressureDifference {
    PressureDifference::of(0.5 * density.si() * velocity.si() * velocity.si())
}

fn area(bore: Length) -> f64 {
    PI / 4.0 * bore.si() * bore.si()
}

/// The Darcy friction factor of water in a round pipe.
///
/// Multiply by length over bore for the loss coefficient. At a Reynolds number of 2040 the factor jumps by more than
/// half, and with it every loss: a search for the flow of a given loss has to expect that.
///
/// # Formula
/// f = 64 / Re up to Re 2040; above, 1/√f = −2 log₁₀(e/3.7 + 2.51 / (Re √f))
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | Re | Reynolds number | 1 | 0 to 10⁸ |
/// | e | roughness of the wall over the bore | 1 | 0 to 0.05 |
/// | f | Darcy friction factor (returned) | 1 | |
///
/// # Accuracy
/// The equation is solved to 1 part in 10¹² (tested). Measured friction in clean pipes lies within about 10 to 15 % of it, and
/// the roughness of a hose is rarely known better than to a factor of 3 (common practice, no source). Between Re 2040
/// and 4000 the flow may be laminar or turbulent; the turbulent factor, in a smooth pipe 1.6 to 2.5 times the other, is
/// on the cautious side.
///
/// # Errors
/// None. Re is held to 10⁻⁹ to 10¹², so that flow at rest has a finite factor and thereby no loss; e is held to 0 to 1.
/// Beyond the validated range the equation is only continued: compare with [`VALIDATED_REYNOLDS`] and
/// [`VALIDATED_ROUGHNESS`].
///
/// # Source
/// `colebrook-1939`: J. Inst. Civ. Eng. 11 (1939) 133; transition: Avila et al., Science 333 (2011) 192.
/// Check values: solutions by `fluids` 1.3.1.
///
/// # Example
/// ```
/// use calc::trade::water::pipe::{Regime, friction_factor};
/// let water_hose = friction_factor(1e5, 1e-4);
/// assert!((water_hose.factor - 0.018514).abs() < 0.5e-6);
/// assert_eq!(friction_factor(1600.0, 1e-4).factor, 0.04);
/// assert_eq!(friction_factor(2500.0, 1e-4).regime, Regime::Transitional);
/// assert_eq!(friction_factor(1e5, -1.0), friction_factor(1e5, 0.0)); // held, not continued
/// ```
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> FrictionFactor {
    let reynolds = reynolds.clamp(HELD_REYNOLDS.0, HELD_REYNOLDS.1);
    if reynolds <= LAMINAR_UP_TO {
        return FrictionFactor { factor: 64.0 / reynolds, regime: Regime::Laminar, rounds: 0 };
    }
    let relative_roughness = relative_roughness.clamp(HELD_ROUGHNESS.0, HELD_ROUGHNESS.1);
    let (factor, rounds) = colebrook(reynolds, relative_roughness);
    let regime = if reynolds < TURBULENT_FROM { Regime::Transitional } else { Regime::Turbulent };
    FrictionFactor { factor, regime, rounds }
}

/// Colebrook's factor and the rounds it took: Newton's method for x = 1/√f, begun from the equation itself with a
/// middling factor on its right side. The function x + 2 log₁₀(rough + smooth x) rises and is concave, so that the
/// method cannot go astray.
fn colebrook(reynolds: f64, relative_roughness: f64) -> (f64, u32) {
    const PER_LN: f64 = 2.0 / LN_10;
    const MIDDLING: f64 = 7.0;
    let rough = relative_roughness / 3.7;
    let smooth = 2.51 / reynolds;
    let mut x = -PER_LN * (rough + smooth * MIDDLING).ln();
    let mut rounds = 0;
    while rounds < MOST_ROUNDS {
        rounds += 1;
        let inside = rough + smooth * x;
        let step = (x + PER_LN * inside.ln()) / (1.0 + PER_LN * smooth / inside);
        x -= step;
        if step.abs() <= LAST_STEP * x {
            break;
        }
    }
    (1.0 / (x * x), rounds)
}

/// The Darcy friction factor of turbulent flow by an explicit formula.
///
/// A second opinion on [`friction_factor`], for a check by hand; up to 3 % above it in a hose.
///
/// # Formula
/// f = 0.25 / \[log₁₀(e/3.7 + 5.74 / Re^0.9)\]²
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | Re | Reynolds number | 1 | 5000 to 10⁸ |
/// | e | roughness of the wall over the bore | 1 | 10⁻⁶ to 0.05 |
/// | f | Darcy friction factor (returned) | 1 | |
///
/// # Accuracy
/// Within 3 % of Colebrook's equation in its range (checked on a grid); 2.2 % above it at Re 4000 and e 0.002.
///
/// # Errors
/// None. Re is held to 4000 to 10¹² and e to 0 to 1, so that the answer stays finite.
///
/// # Source
/// `swamee-jain-1976`: J. Hydraul. Div. ASCE 102 (1976) 657. Check values: `fluids` 1.3.1.
///
/// # Example
/// ```
/// use calc::trade::water::pipe::friction_factor_swamee_jain_1976 as swamee_jain;
/// assert!((swamee_jain(60_000.0, 0.0023) - 0.027).abs() < 0.0005);
/// assert_eq!(swamee_jain(100.0, 0.0), swamee_jain(4000.0, 0.0)); // held: it knows no laminar flow
/// ```
pub fn friction_factor_swamee_jain_1976(reynolds: f64, relative_roughness: f64) -> f64 {
    let reynolds = reynolds.clamp(TURBULENT_FROM, HELD_REYNOLDS.1);
    let relative_roughness = relative_roughness.clamp(HELD_ROUGHNESS.0, HELD_ROUGHNESS.1);
    let root = (relative_roughness / 3.7 + 5.74 / reynolds.powf(0.9)).log10();
    0.25 / (root * root)
}

/// The loss coefficient of a fitting whose flow coefficient is known, counted in the velocity pressure of a bore.
///
/// For couplings, valves and strainers with a Kv or Cv; add it to the friction of the pipe of that bore.
///
/// # Formula
/// K = 2 Δp_1 A² / (ρ_1 Kv²), A = π d² / 4
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | Kv | flow at the pressure drop Δp_1 | m³/s | > 0 |
/// | d | bore in whose velocity K is counted | m | > 0 |
/// | Δp_1 | 1 bar | Pa | |
/// | ρ_1 | density of water at 15 °C, 999.1 | kg/m³ | |
/// | K | loss coefficient (returned) | 1 | |
///
/// # Accuracy
/// Exact by definition, but for the temperature of the reference water, which not every catalogue states: 0.1 % between 4 and 20 °C.
///
/// # Errors
/// None, but a flow coefficient of zero gives an infinite K: the fitting is closed.
///
/// # Source
/// IEC 60534-2-1, definition of the flow coefficient Kv. Check values: `fluids` 1.3.1.
///
/// # Example
/// ```
/// use calc::{engine::quantity::{FlowCoefficient, millimetres}, trade::water::pipe::loss_coefficient};
/// let valve = FlowCoefficient::of(2.0 / 3600.0); // Kv 2
/// assert!((loss_coefficient(valve, millimetres(12.7)) - 10.406).abs() < 0.01);
/// assert!(loss_coefficient(FlowCoefficient::of(0.0), millimetres(12.7)).is_infinite()); // closed
/// ```
pub fn loss_coefficient(flow_coefficient: FlowCoefficient, bore: Length) -> f64 {
    const DROP: f64 = 1e5;
    const DENSITY: f64 = 999.1;
    let velocity = flow_coefficient.si() / area(bore);
    2.0 * DROP / (DENSITY * velocity * velocity)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reynolds numbers from just above the laminar bound to 10¹², relative roughnesses from none to 1.
    fn grid() -> impl Iterator<Item = (f64, f64)> {
        (0..=180).flat_map(|i| {
            let reynolds = 2040.1 * 10f64.powf(f64::from(i) * 8.69 / 180.0);
            let rough = (0..=60).map(|j| 10f64.powf(f64::from(j) / 10.0 - 6.0));
            std::iter::once(0.0).chain(rough).map(move |e| (reynolds, e))
        })
    }

    #[test]
    fn the_equation_is_solved_everywhere() {
        for (reynolds, e) in grid() {
            let FrictionFactor { factor, rounds, .. } = friction_factor(reynolds, e);
            let x = 1.0 / factor.sqrt();
            let residual = x + 2.0 * (e / 3.7 + 2.51 * x / reynolds).log10();
            assert!(residual.abs() < 4e-13 * x, "Re {reynolds}, e {e}: {residual}");
            assert!(rounds <= 3, "Re {reynolds}, e {e}: {rounds} rounds");
        }
    }

    #[test]
    fn in_doubt_the_higher_factor() {
        for i in 2041..4000 {
            let reynolds = f64::from(i);
            assert!(friction_factor(reynolds, 0.0).factor > 64.0 / reynolds);
        }
    }

    #[test]
    fn rough_walls_take_more() {
        for (reynolds, e) in grid() {
            let smoother = friction_factor(reynolds, e * 0.99).factor;
            assert!(friction_factor(reynolds, e).factor >= smoother, "Re {reynolds}, e {e}");
        }
    }

    #[test]
    fn the_explicit_formula_is_close() {
        for (reynolds, e) in grid().filter(|&(re, e)| (5e3..1e8).contains(&re) && (1e-6..=0.05).contains(&e))
        {
            let ratio = friction_factor_swamee_jain_1976(reynolds, e) / friction_factor(reynolds, e).factor;
            assert!((ratio - 1.0).abs() < 0.03, "Re {reynolds}, e {e}: {ratio}");
        }
    }

    #[test]
    fn finite_for_every_number() {
        let ends = [f64::NEG_INFINITY, -1.0, 0.0, 5e-324, 1.0, 2040.0, 1e5, 1e308, f64::INFINITY];
        for (reynolds, e) in ends.iter().flat_map(|&re| ends.iter().map(move |&e| (re, e))) {
            let factor = friction_factor(reynolds, e).factor;
            assert!(factor > 0.0 && factor.is_finite(), "Re {reynolds}, e {e}: {factor}");
            let explicit = friction_factor_swamee_jain_1976(reynolds, e);
            assert!(explicit > 0.0 && explicit.is_finite(), "Re {reynolds}, e {e}: {explicit}");
        }
        let at_rest =
            friction_factor(0.0, 0.0).factor * velocity_pressure(Density::of(1e3), Velocity::of(0.0));
        assert_eq!(at_rest.si(), 0.0);
    }
}
