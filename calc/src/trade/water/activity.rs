//! How ions hold each other back in dilute water: activity coefficients and the osmotic coefficient.
//!
//! Debye and Hückel's law with the extensions of Davies and of Truesdell and Jones. They hold for mixed waters up to an
//! ionic strength of about 0.1 mol/kg ([`RELIABLE`]); sea water has 0.7, tap water 0.001 to 0.03.

use super::density;
use crate::engine::quantity::{Molality, Temperature};

/// Up to here the extensions agree among themselves (common practice, no source).
pub const RELIABLE: Molality = Molality::of(0.1);

/// Debye and Hückel's constants at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DebyeHueckel {
    /// Of the decadic law; (kg/mol)^½.
    pub a: f64,
    /// Of the distance of closest approach; (kg/mol)^½ / Å.
    pub b: f64,
}

/// The dielectric constant of water (relative permittivity).
///
/// # Formula
/// ε = 87.740 − 0.40008 t + 9.398·10⁻⁴ t² − 1.410·10⁻⁶ t³
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | t | temperature | °C | 0 to 100 |
/// | ε | dielectric constant (returned) | 1 | |
///
/// # Accuracy
/// Within 0.2 % of IAPWS R8-97 from 1 to 60 °C.
///
/// # Errors
/// None. A temperature outside the range gives the value at the nearer end, so that the answer stays finite.
///
/// # Source
/// `malmberg-maryott-1956`. Check values: IAPWS R8-97 as computed by `iapws` 1.5.5.
///
/// # Example
/// ```
/// use calc::{engine::quantity::celsius, trade::water::activity::dielectric_constant};
/// assert!((dielectric_constant(celsius(25.0)) - 78.30).abs() < 0.005);
/// ```
pub fn dielectric_constant(temperature: Temperature) -> f64 {
    let t = (temperature.si() - 273.15).clamp(0.0, 100.0);
    87.740 - 0.40008 * t + 9.398e-4 * t * t - 1.410e-6 * t * t * t
}

impl DebyeHueckel {
    /// The constants at this temperature.
    ///
    /// # Formula
    /// A = 1.82483·10⁶ √d (ε T)^−3/2, B = 50.2916 √d (ε T)^−1/2
    ///
    /// | Symbol | Meaning | Unit | Range |
    /// |---|---|---|---|
    /// | d | density of water | kg/L | |
    /// | ε | dielectric constant | 1 | |
    /// | T | temperature | K | 273.15 to 373.15 |
    ///
    /// # Accuracy
    /// That of the dielectric constant: 0.3 % of A.
    ///
    /// # Errors
    /// None: finite for every temperature, held to the range of density and dielectric constant.
    ///
    /// # Source
    /// The factors follow from `codata-2018`: A = (2 π N d)^½ (e² / (4 π ε_0 ε k T))^3/2 / ln 10.
    ///
    /// # Example
    /// ```
    /// use calc::{engine::quantity::celsius, trade::water::activity::DebyeHueckel};
    /// let constants = DebyeHueckel::at(celsius(25.0));
    /// assert!((constants.a - 0.510).abs() < 0.0015 && (constants.b - 0.3286).abs() < 0.0005);
    /// ```
    pub fn at(temperature: Temperature) -> Self {
        let kelvins = temperature.si().clamp(273.15, 373.15);
        let root = (density(temperature).si() / 1000.0).sqrt();
        let polar = dielectric_constant(temperature) * kelvins;
        Self { a: 1.82483e6 * root / (polar * polar.sqrt()), b: 50.2916 * root / polar.sqrt() }
    }

    /// Decadic logarithm of the activity coefficient after Davies, of an ion of that charge.
    ///
    /// # Formula
    /// log γ = −A z² (√I / (1 + √I) − 0.3 I)
    ///
    /// # Source
    /// `davies-1962`.
    pub fn davies(&self, charge: f64, strength: f64) -> f64 {
        let root = strength.sqrt();
        -self.a * charge * charge * (root / (1.0 + root) - 0.3 * strength)
    }

    /// Decadic logarithm of the activity coefficient with an ion's own size (Å) and slope (kg/mol).
    ///
    /// # Formula
    /// log γ = −A z² √I / (1 + B å √I) + b I
    ///
    /// # Source
    /// `truesdell-jones-1974`: the law of WATEQ.
    pub fn sized(&self, charge: f64, size: f64, slope: f64, strength: f64) -> f64 {
        let root = strength.sqrt();
        -self.a * charge * charge * root / (1.0 + self.b * size * root) + slope * strength
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::celsius;

    /// IAPWS R8-97 at 0.1 MPa: iapws 1.5.5, `_Dielectric(rho, T)`.
    #[test]
    fn the_dielectric_constant_meets_iapws() {
        for (t, expected) in [(1.0, 87.502), (10.0, 83.974), (25.0, 78.408), (40.0, 73.201), (60.0, 66.774)] {
            let ours = dielectric_constant(celsius(t));
            assert!((ours / expected - 1.0).abs() < 0.002, "{t} °C: {ours}, expected {expected}");
        }
    }

    #[test]
    fn finite_for_every_number() {
        for t in [f64::NEG_INFINITY, 0.0, 1e308, f64::INFINITY] {
            let constants = DebyeHueckel::at(Temperature::of(t));
            assert!(constants.a.is_finite() && constants.b.is_finite(), "{t} K");
        }
    }
}
