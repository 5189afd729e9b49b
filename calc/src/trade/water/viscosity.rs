//! The dynamic viscosity of water, by two formulas of IAPWS that witness for each other.

use super::held;
use crate::engine::quantity::{Density, Temperature, Viscosity};

/// Coefficients in µPa·s of SR6-08(2011), of the powers −1.9, −7.7, −19.6 and −40.
const TERMS: [f64; 4] = [280.68, 511.45, 61.131, 0.459_03];

/// The viscosity of pure liquid water at 0.1 MPa.
///
/// For every stage of the water's way at mains pressure; 0.7 MPa take 0.07 % off at 1 °C and less above.
/// Where the density is far from that of the liquid at 0.1 MPa, use [`viscosity_iapws_2008`].
///
/// # Formula
/// µ = 10⁻⁶ Pa·s · Σ a_i (T / 300 K)^b_i
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | T | temperature | K | 253.15 to 383.15 |
/// | a | 280.68, 511.45, 61.131, 0.45903 | 1 | |
/// | b | −1.9, −7.7, −19.6, −40 | 1 | |
/// | µ | dynamic viscosity (returned) | Pa·s | |
///
/// # Accuracy
/// Follows R12-08 within 4 parts in 10⁵ from 0 to 99 °C (tested). Recalled: R12-08 itself is good to 1 %.
///
/// # Errors
/// None. A temperature outside the range gives the viscosity at the nearer end, so that the answer stays finite.
///
/// # Source
/// `iapws-sr6-08`: IAPWS SR6-08(2011), equation 7. Check values: R12-08 at the density of IAPWS-95.
///
/// # Example
/// ```
/// use calc::{engine::quantity::celsius, trade::water::{LOWEST, viscosity}};
/// assert!((viscosity(celsius(20.0)).si() - 1.0016e-3).abs() < 0.5e-7);
/// assert_eq!(viscosity(celsius(-40.0)), viscosity(LOWEST)); // held, not continued
/// ```
pub fn viscosity(temperature: Temperature) -> Viscosity {
    // The innermost loop of a year of temperatures: every power is a whole one times a power of the tenth root.
    let scaled = held(temperature) / 300.0;
    let tenth = (0.1 * scaled.ln()).exp();
    let [a, b, c, d] = TERMS;
    let terms = [
        a * tenth * scaled.powi(-2),
        b * tenth.powi(3) * scaled.powi(-8),
        c * tenth.powi(4) * scaled.powi(-20),
        d * scaled.powi(-40),
    ];
    Viscosity::of(1e-6 * terms.iter().sum::<f64>())
}

/// The critical temperature in K and the critical density in kg/m³, by which R12-08 scales.
const CRITICAL: (f64, f64) = (647.096, 322.0);

/// Coefficients of the viscosity of the dilute gas.
const DILUTE: [f64; 4] = [1.677_52, 2.204_62, 0.636_656_4, -0.241_605];

/// Powers i of the temperature term, j of the density term, and the coefficient of their product.
const DENSE: [(i32, i32, f64); 21] = [
    (0, 0, 5.200_94e-1),
    (1, 0, 8.508_95e-2),
    (2, 0, -1.083_74),
    (3, 0, -2.895_55e-1),
    (0, 1, 2.225_31e-1),
    (1, 1, 9.991_15e-1),
    (2, 1, 1.887_97),
    (3, 1, 1.266_13),
    (5, 1, 1.205_73e-1),
    (0, 2, -2.813_78e-1),
    (1, 2, -9.068_51e-1),
    (2, 2, -7.724_79e-1),
    (3, 2, -4.898_37e-1),
    (4, 2, -2.570_40e-1),
    (0, 3, 1.619_13e-1),
    (1, 3, 2.573_99e-1),
    (0, 4, -3.253_72e-2),
    (3, 4, 6.984_52e-2),
    (4, 5, 8.721_02e-3),
    (3, 6, -4.356_73e-3),
    (5, 6, -5.932_64e-4),
];

/// The viscosity of water and steam at any density, without the enhancement near the critical point.
///
/// The witness of [`viscosity`], with published check values; needs a density, which [`viscosity`] does not.
///
/// # Formula
/// µ = 10⁻⁶ Pa·s · µ_0 µ_1, µ_0 = 100 √θ / Σ H_i θ^−i, µ_1 = exp\[δ Σ Σ H_ij (1/θ − 1)^i (δ − 1)^j\],
/// θ = T / 647.096 K, δ = ρ / 322 kg/m³
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | T | temperature | K | 253.15 to 1173.15 |
/// | ρ | density | kg/m³ | 0 to 1300 |
/// | H_i, H_ij | coefficients of the release | 1 | |
/// | µ | dynamic viscosity (returned) | Pa·s | |
///
/// # Accuracy
/// Recalled: 1 % in liquid water. Without the enhancement it is too low within a few kelvin of the critical point, by
/// 8 % at 647.35 K and the critical density (by `chemicals` 1.5.2).
///
/// # Errors
/// None. Values outside the ranges are held to their nearer ends, so that the answer stays finite.
///
/// # Source
/// `iapws-r12-08`: IAPWS R12-08 (2008), equations 10, 11 and 12 with µ_2 = 1. Check values: table 4.
///
/// # Example
/// ```
/// use calc::{engine::quantity::{Density, Temperature}, trade::water::viscosity_iapws_2008};
/// let at = |t, rho| viscosity_iapws_2008(Temperature::of(t), Density::of(rho)).si();
/// assert!((at(298.15, 998.0) - 889.735100e-6).abs() < 0.5e-12);
/// assert_eq!(at(298.15, -1.0), at(298.15, 0.0)); // held, not continued
/// ```
pub fn viscosity_iapws_2008(temperature: Temperature, density: Density) -> Viscosity {
    let theta = temperature.si().clamp(253.15, 1173.15) / CRITICAL.0;
    let delta = density.si().clamp(0.0, 1300.0) / CRITICAL.1;
    let powers: f64 = DILUTE.iter().zip(0..).map(|(h, i)| h / theta.powi(i)).sum();
    let dilute = 100.0 * theta.sqrt() / powers;
    let (warmth, excess) = (1.0 / theta - 1.0, delta - 1.0);
    let sum: f64 = DENSE.iter().map(|&(i, j, h)| h * warmth.powi(i) * excess.powi(j)).sum();
    Viscosity::of(1e-6 * dilute * (delta * sum).exp())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{engine::quantity::celsius, trade::water::density};

    #[test]
    fn the_two_formulas_agree_in_the_whole_range_of_use() {
        for t in (0..=990).map(|i| celsius(f64::from(i) * 0.1)) {
            let simple = viscosity(t).si();
            let full = viscosity_iapws_2008(t, density(t)).si();
            assert!((simple / full - 1.0).abs() < 4e-5, "{} K: {simple} and {full}", t.si());
        }
    }

    /// The powers as they are printed, in the plain way.
    #[test]
    fn the_roots_give_the_printed_powers() {
        let powers = [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.459_03, -40.0_f64)];
        for t in (0..=130).map(|i| 253.15 + f64::from(i)) {
            let plain: f64 = powers.iter().map(|(a, b)| 1e-6 * a * (t / 300.0).powf(*b)).sum();
            let ours = viscosity(Temperature::of(t)).si();
            assert!((ours / plain - 1.0).abs() < 1e-14, "{t} K: {ours}, expected {plain}");
        }
    }

    #[test]
    fn warmer_water_is_thinner() {
        let at = |i: i32| viscosity(Temperature::of(253.15 + f64::from(i))).si();
        assert!((0..130).all(|i| at(i) > at(i + 1)));
    }

    #[test]
    fn finite_for_every_number() {
        let ends = [f64::NEG_INFINITY, -1e308, 0.0, 300.0, 1e308, f64::INFINITY];
        for t in ends {
            assert!((1e-4..1e-2).contains(&viscosity(Temperature::of(t)).si()), "{t} K");
            for rho in ends {
                let full = viscosity_iapws_2008(Temperature::of(t), Density::of(rho)).si();
                assert!(full > 0.0 && full.is_finite(), "{t} K, {rho} kg/m³: {full}");
            }
        }
    }
}
