//! Equilibrium constants and ion sizes, as the database phreeqc.dat of PHREEQC 3 has them.
//!
//! Carbonate species and calcite are those of Plummer and Busenberg (1982). Reactions are written from the free ions:
//! `Ca²⁺ + CO₃²⁻ + H⁺ = CaHCO₃⁺`; hydroxides and silicate give off a proton.

use crate::engine::quantity::Temperature;

/// The gas constant in kcal/(mol K), in which the enthalpies of the database stand.
const GAS: f64 = 1.987_204e-3;

/// log K = a + b T + c/T + d log T + e/T² + f T²
#[derive(Debug, Clone, Copy)]
struct Analytic([f64; 6]);

/// log K at 25 °C, and the enthalpy of the reaction in kcal/mol.
#[derive(Debug, Clone, Copy)]
struct VantHoff(f64, f64);

impl Analytic {
    /// At a temperature in K, of which the decadic logarithm is handed over too.
    fn at(self, t: f64, log_t: f64) -> f64 {
        let [a, b, c, d, e, f] = self.0;
        a + b * t + c / t + d * log_t + e / (t * t) + f * t * t
    }
}

impl VantHoff {
    fn at(self, t: f64) -> f64 {
        let Self(at_25, enthalpy) = self;
        at_25 + enthalpy / (GAS * std::f64::consts::LN_10) * (1.0 / 298.15 - 1.0 / t)
    }
}

/// Ten to that power; half as dear as a power of any number.
pub(super) fn decades(exponent: f64) -> f64 {
    (exponent * std::f64::consts::LN_10).exp()
}

const WATER: Analytic = Analytic([293.29227, 0.1360833, -10576.913, -123.73158, 0.0, -6.996455e-5]);
const HCO3: Analytic = Analytic([107.8871, 0.03252849, -5151.79, -38.92561, 563713.9, 0.0]);
const CO2: Analytic = Analytic([464.1965, 0.09344813, -26986.16, -165.75951, 2248628.9, 0.0]);
const CACO3: Analytic = Analytic([-1228.732, -0.299440, 35512.75, 485.818, 0.0, 0.0]);
const CAHCO3: Analytic = Analytic([1317.0071, 0.34546894, -39916.84, -517.70761, 563713.9, 0.0]);
const MGCO3: Analytic = Analytic([0.9910, 0.00667, 0.0, 0.0, 0.0, 0.0]);
const MGHCO3: Analytic = Analytic([48.6721, 0.03252849, -2614.335, -18.00263, 563713.9, 0.0]);
const HSO4: Analytic = Analytic([-56.889, 0.006473, 2307.9, 19.8858, 0.0, 0.0]);
const KSO4: Analytic = Analytic([3.106, 0.0, -673.6, 0.0, 0.0, 0.0]);
const H3SIO4: Analytic = Analytic([-302.3724, -0.050698, 15669.69, 108.18466, -1119669.0, 0.0]);
const CASO4: VantHoff = VantHoff(2.25, 1.325);
const CAOH: VantHoff = VantHoff(-12.78, 0.0);
const MGOH: VantHoff = VantHoff(-11.44, 15.952);
const MGSO4: VantHoff = VantHoff(2.37, 4.550);
const NACO3: VantHoff = VantHoff(1.27, 8.91);
const NAHCO3: VantHoff = VantHoff(-0.25, -1.0);
const NASO4: VantHoff = VantHoff(0.7, 1.120);
const CALCITE: Analytic = Analytic([-171.9065, -0.077993, 2839.319, 71.595, 0.0, 0.0]);
const GYPSUM: Analytic = Analytic([68.2401, 0.0, -3221.51, -25.0627, 0.0, 0.0]);

/// Equilibrium constants at one temperature.
#[derive(Debug, Clone, Copy)]
pub(super) struct Constants {
    pub water: f64,
    pub hco3: f64,
    pub co2: f64,
    pub caco3: f64,
    pub cahco3: f64,
    pub caso4: f64,
    pub caoh: f64,
    pub mgco3: f64,
    pub mghco3: f64,
    pub mgso4: f64,
    pub mgoh: f64,
    pub naco3: f64,
    pub nahco3: f64,
    pub naso4: f64,
    pub kso4: f64,
    pub hso4: f64,
    pub h3sio4: f64,
    /// Solubility product.
    pub calcite: f64,
    /// Solubility product.
    pub gypsum: f64,
}

impl Constants {
    /// Held to 0 to 100 °C, for which the database was made.
    pub fn at(temperature: Temperature) -> Self {
        let t = temperature.si().clamp(273.15, 373.15);
        let log_t = t.log10();
        let ten_to = |law: Analytic| decades(law.at(t, log_t));
        let by_enthalpy = |law: VantHoff| decades(law.at(t));
        Self {
            water: ten_to(WATER),
            hco3: ten_to(HCO3),
            co2: ten_to(CO2),
            caco3: ten_to(CACO3),
            cahco3: ten_to(CAHCO3),
            caso4: by_enthalpy(CASO4),
            caoh: by_enthalpy(CAOH),
            mgco3: ten_to(MGCO3),
            mghco3: ten_to(MGHCO3),
            mgso4: by_enthalpy(MGSO4),
            mgoh: by_enthalpy(MGOH),
            naco3: by_enthalpy(NACO3),
            nahco3: by_enthalpy(NAHCO3),
            naso4: by_enthalpy(NASO4),
            kso4: ten_to(KSO4),
            hso4: ten_to(HSO4),
            h3sio4: ten_to(H3SIO4),
            calcite: ten_to(CALCITE),
            gypsum: ten_to(GYPSUM),
        }
    }
}

/// Charge, size in Å and slope in kg/mol of an ion with a size of its own.
pub(super) type Size = (f64, f64, f64);

pub(super) const H: Size = (1.0, 9.0, 0.0);
pub(super) const OH: Size = (1.0, 3.5, 0.0);
/// Hydrogen carbonate, and the pairs of sulfate with sodium and potassium. Carbonate has the same size without a slope
/// and twice the charge, so that its coefficient is the fourth power.
pub(super) const HCO3_ION: Size = (1.0, 5.4, 0.0);
pub(super) const CA: Size = (2.0, 5.0, 0.165);
pub(super) const MG: Size = (2.0, 5.5, 0.20);
pub(super) const NA: Size = (1.0, 4.0, 0.075);
pub(super) const K: Size = (1.0, 3.5, 0.015);
pub(super) const SO4: Size = (2.0, 5.0, -0.04);
pub(super) const CAHCO3_ION: Size = (1.0, 6.0, 0.0);
pub(super) const MGOH_ION: Size = (1.0, 6.5, 0.0);
/// The pair of magnesium with hydrogen carbonate, and silicate.
pub(super) const MGHCO3_ION: Size = (1.0, 4.0, 0.0);
/// The slope of uncharged solutes; kg/mol.
pub(super) const UNCHARGED: f64 = 0.1;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::celsius;

    /// Plummer and Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011: log K of calcite −8.480, pK1 6.352, pK2 10.329.
    #[test]
    fn constants_at_25_degrees_are_as_printed() {
        let constants = Constants::at(celsius(25.0));
        for (ours, printed, room) in [
            (constants.calcite, -8.480, 0.0005),
            (constants.hco3, 10.329, 0.0005),
            (constants.co2 / constants.hco3, 6.352, 0.0005),
            (constants.cahco3 / constants.hco3, 1.106, 0.0005),
            (constants.caco3, 3.224, 0.002),
            (constants.gypsum, -4.58, 0.005),
            (constants.water, -13.995, 0.001),
            (constants.h3sio4, -9.83, 0.005),
            (constants.mghco3, 11.399, 0.002),
        ] {
            assert!((ours.log10() - printed).abs() <= room, "{} for {printed}", ours.log10());
        }
    }

    /// The equations of Plummer and Busenberg in Python 3.11: pK1, pK2 and pKs of calcite at 5 and 15 °C.
    #[test]
    fn the_equations_are_copied_rightly() {
        for (t, first, second, calcite) in [(5.0, 6.5163, 10.5544, 8.3942), (15.0, 6.4188, 10.4284, 8.4302)] {
            let constants = Constants::at(celsius(t));
            let near = |ours: f64, expected: f64| (ours.log10() - expected).abs() < 1e-4;
            assert!(near(constants.co2 / constants.hco3, first), "{t} °C");
            assert!(near(constants.hco3, second), "{t} °C");
            assert!(near(constants.calcite, -calcite), "{t} °C");
        }
    }
}
