//! The density of liquid water at 0.1 MPa.

use super::held;
use crate::engine::quantity::{Density, Temperature};

/// The specific gas constant of water in J/(kg K), as SR6-08(2011) takes it.
const GAS_CONSTANT: f64 = 461.518_05;
/// The pressure for which the equation holds, in Pa.
const PRESSURE: f64 = 1e5;
/// The temperature by which the equation is scaled, in K.
const SCALE: f64 = 10.0;

/// The constant term of the equation for the volume.
const CONSTANT: f64 = 1.937_631_57e-2;
/// Coefficients and powers of the terms in α, which grow with heat.
const HOT: [(f64, i32); 5] = [
    (6.744_584_46e3, 4),
    (-2.225_216_04e5, 5),
    (1.002_312_47e8, 7),
    (-1.635_521_18e9, 8),
    (8.322_996_58e9, 9),
];
/// Coefficients and powers of the terms in β, which grow with cold.
const COLD: [(f64, i32); 6] = [
    (5.785_452_92e-3, 1),
    (-1.531_956_65e-2, 2),
    (3.113_378_59e-2, 3),
    (-4.235_462_41e-2, 4),
    (3.387_135_07e-2, 5),
    (-1.199_467_61e-2, 6),
];

/// The density of pure liquid water at 0.1 MPa.
///
/// For every stage of the water's way at mains pressure; a pressure of 0.7 MPa adds 0.03 %.
///
/// # Formula
/// ρ = 1 / v, v = (R T_r / p_0) (a_5 + Σ a_i α^n_i + Σ b_i β^m_i), α = T_r / (593 K − T), β = T_r / (T − 232 K)
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | T | temperature | K | 253.15 to 383.15 |
/// | R | specific gas constant, 461.51805 | J/(kg K) | |
/// | T_r | 10 | K | |
/// | p_0 | pressure, 0.1 MPa | Pa | |
/// | a, b, n, m | coefficients and powers of the release | 1 | |
/// | v | specific volume | m³/kg | |
/// | ρ | density (returned) | kg/m³ | |
///
/// # Accuracy
/// Follows IAPWS-95 within 4 parts in 10⁸ from 1 to 99 °C (checked against `iapws` 1.5.5).
///
/// # Errors
/// None. A temperature outside the range gives the density at the nearer end, so that the answer stays finite.
///
/// # Source
/// `iapws-sr6-08`: IAPWS SR6-08(2011), equation for the specific volume. Check values: IAPWS-95 (R6-95) at 0.1 MPa.
///
/// # Example
/// ```
/// use calc::{engine::quantity::celsius, trade::water::{HIGHEST, density}};
/// assert!((density(celsius(25.0)).si() - 997.047).abs() < 0.0005);
/// assert_eq!(density(celsius(150.0)), density(HIGHEST)); // held, not continued
/// ```
pub fn density(temperature: Temperature) -> Density {
    let t = held(temperature);
    let alpha = SCALE / (593.0 - t);
    let beta = SCALE / (t - 232.0);
    let hot: f64 = HOT.iter().map(|&(a, n)| a * alpha.powi(n)).sum();
    let cold: f64 = COLD.iter().map(|&(b, m)| b * beta.powi(m)).sum();
    let volume = GAS_CONSTANT * SCALE / PRESSURE * (CONSTANT + hot + cold);
    Density::of(1.0 / volume)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::celsius;

    #[test]
    fn water_is_densest_near_four_degrees() {
        let steps = || (0..=2000).map(|i| f64::from(i) * 0.01);
        let densest = steps().max_by(|a, b| density(celsius(*a)).si().total_cmp(&density(celsius(*b)).si()));
        // 3.98 °C, a textbook value
        assert!(densest.is_some_and(|t| (t - 3.98).abs() < 0.02), "{densest:?}");
    }

    #[test]
    fn finite_for_every_number() {
        for t in [f64::NEG_INFINITY, -1e308, 0.0, 232.0, 593.0, 1e308, f64::INFINITY] {
            let density = density(Temperature::of(t)).si();
            assert!((900.0..1000.0).contains(&density), "{t} K: {density}");
        }
    }
}
