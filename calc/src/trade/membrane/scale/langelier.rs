//! The index of Langelier and Ryznar, by the constants of today and by three older sets that are still printed.

use crate::engine::quantity::{Concentration, Molality, Ph, SaturationIndex, Temperature};
use crate::engine::sheet::Working;
use crate::trade::water::Analyte;
use crate::trade::water::activity::DebyeHueckel;
use crate::{absolute, choice, step};

choice!(/// A set of constants for the index.
Constants {
    Today "plummer-busenberg" "Today's: Plummer and Busenberg 1982, as in Standard Methods 2330 B",
    Linear "linear" "Older: pK2 − pKs from 2902.39/T + 0.02379 T − 6.498 and 8.03 + 0.01183 t",
    Tabled "tabled" "Older: the printed table of a constant, 0 to 50 °C",
    Simplified "simplified" "Simplified: (9.3 + A + B) − (C + D)",
});

impl Constants {
    /// All of them.
    pub const ALL: [Constants; 4] = [Self::Today, Self::Linear, Self::Tabled, Self::Simplified];
}

/// What the index needs of a water.
#[derive(Debug, Clone, Copy)]
pub struct Water {
    /// As Ca; more than nothing.
    pub calcium: Concentration,
    /// As CaCO3; more than nothing.
    pub alkalinity: Concentration,
    /// At its temperature.
    pub ph: Ph,
    /// Without ion pairs.
    pub ionic_strength: Molality,
    /// All that is dissolved.
    pub dissolved: Concentration,
}

/// The pH at which the water would neither dissolve nor leave calcium carbonate.
///
/// # Formula
/// pH_s = pK_2 − pK_s + pCa + pAlk + 5 pf, pf = A (√I / (1 + √I) − 0.3 I)
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | pCa, pAlk | −log₁₀ of calcium in mol/L and of alkalinity in eq/L | | |
/// | pK_2, pK_s | of hydrogen carbonate and of calcite | | 0 to 90 °C |
/// | I | ionic strength | mol/kg | below 0.5 |
///
/// # Accuracy
/// Within 0.06 of the saturation index of calcite for tap waters; up to 0.13 too high in salty rejects, whose ion pairs it
/// leaves out. With an ionic strength estimated as TDS / 40 000 it reads up to 0.09 lower. All alkalinity counts as hydrogen carbonate, which holds below pH 9.
///
/// # Errors
/// None for a water that has calcium and alkalinity.
///
/// # Source
/// `sm-2330-b`, with the constants of `plummer-busenberg-1982`. Check values: tests/published/scale.csv.
///
/// # Example
/// ```
/// use calc::trade::membrane::scale::langelier::{Water, saturation_ph};
/// use calc::engine::quantity::{Concentration, Molality, Ph, celsius};
/// use calc::engine::sheet::Working;
/// let milligrams = |value: f64| Concentration::of(value * 1e-3);
/// let water = Water {
///     calcium: milligrams(110.0),
///     alkalinity: milligrams(290.0),
///     ph: Ph::of(7.3),
///     ionic_strength: Molality::of(0.01192),
///     dissolved: milligrams(636.6),
/// };
/// let index = water.ph - saturation_ph(&water, celsius(11.0), &mut Working::silent());
/// assert!((index.si() - 0.203).abs() < 0.001);
/// ```
pub fn saturation_ph(water: &Water, temperature: Temperature, w: &mut Working) -> Ph {
    let &Water { calcium, alkalinity, ionic_strength, .. } = water;
    w.bind("temperature", "T", temperature);
    w.bind("calcium", "Ca", calcium);
    w.bind("alkalinity", "Alk", alkalinity);
    w.bind("ionic_strength", "I", ionic_strength);
    absolute!(w, kelvins "T_K" = temperature);
    step!(w, second "pK_2": f64 = 107.8871 + 0.03252849 * kelvins.si() - 5151.79 / kelvins.si() - 38.92561 * kelvins.si().log10() + 563713.9 / kelvins.si().powi(2));
    step!(w, solubility "pK_s": f64 = 171.9065 + 0.077993 * kelvins.si() - 2839.319 / kelvins.si() - 71.595 * kelvins.si().log10());
    let p_f = activity(temperature, ionic_strength, w);
    step!(w, p_ca "pCa": f64 = -(calcium.si() / 40.078).log10());
    step!(w, p_alk "pAlk": f64 = -(2.0 * alkalinity.si() / 100.086).log10());
    step!(w, saturation_ph "pH_s": Ph = second - solubility + p_ca + p_alk + 5.0 * p_f);
    saturation_ph
}

/// The negative logarithm of the activity coefficient of a single charged ion, after Davies.
fn activity(temperature: Temperature, ionic_strength: Molality, w: &mut Working) -> f64 {
    let a = DebyeHueckel::at(temperature).a;
    w.bind("a", "A", a);
    step!(w, root "√I": f64 = ionic_strength.si().sqrt());
    step!(w, p_f "pf": f64 = a * (root / (1.0 + root) - 0.3 * ionic_strength.si()));
    p_f
}

/// The index by one set of constants, without working.
pub fn index_by(constants: Constants, water: &Water, temperature: Temperature) -> SaturationIndex {
    let mut w = Working::silent();
    if constants == Constants::Today {
        return water.ph - saturation_ph(water, temperature, &mut w);
    }
    let (kelvins, t) = (temperature.si(), temperature.si() - 273.15);
    let milligrams_of_calcium = water.calcium.si() * 1000.0;
    let milligrams_of_alkalinity = water.alkalinity.si() * 1000.0;
    let amounts = -(Analyte::Calcium.moles(water.calcium)).log10()
        - (2.0 * Analyte::Alkalinity.moles(water.alkalinity)).log10();
    let p_f = activity(temperature, water.ionic_strength, &mut w);
    let saturation_ph = match constants {
        Constants::Simplified => {
            let dissolved = (water.dissolved.si() * 1000.0).max(1.0);
            let a = (dissolved.log10() - 1.0) / 10.0;
            let b = -13.12 * (t + 273.0).log10() + 34.55;
            // calcium as CaCO3
            let c = (milligrams_of_calcium * 100.086 / 40.078).log10() - 0.4;
            (9.3 + a + b) - (c + milligrams_of_alkalinity.log10())
        }
        Constants::Linear => {
            let constant = 2902.39 / kelvins + 0.02379 * kelvins - 6.498 - (8.03 + 0.01183 * t);
            amounts + constant + 5.0 * p_f
        }
        Constants::Today | Constants::Tabled => amounts + tabled(t) + 5.0 * p_f,
    };
    water.ph - Ph::of(saturation_ph)
}

/// The printed constant without dissolved salt, 0, 10, … 50 °C; straight lines between.
fn tabled(t: f64) -> f64 {
    const PRINTED: [f64; 6] = [2.45, 2.23, 2.02, 1.86, 1.68, 1.52];
    let place = (t / 10.0).clamp(0.0, 4.999_999);
    let (row, share) = (place as usize, place.fract());
    PRINTED[row] + share * (PRINTED[row + 1] - PRINTED[row])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::celsius;

    fn milligrams(value: f64) -> Concentration {
        Concentration::of(value * 1e-3)
    }

    /// pK2 − pKs without dissolved salt, computed by hand from each set: 0, 10, 20, 30 °C.
    #[test]
    fn older_constants_hide_scale_in_cold_water() {
        let water = Water {
            // pCa and pAlk are 3: what is left is the constant
            calcium: milligrams(40.078),
            alkalinity: milligrams(50.043),
            ph: Ph::of(8.0),
            ionic_strength: Molality::of(0.0),
            dissolved: milligrams(100.0),
        };
        for (constants, expected) in [
            (Constants::Today, [2.247, 2.077, 1.922, 1.778]),
            (Constants::Linear, [2.596, 2.340, 2.110, 1.903]),
            (Constants::Tabled, [2.45, 2.23, 2.02, 1.86]),
        ] {
            for (t, constant) in [0.0, 10.0, 20.0, 30.0].into_iter().zip(expected) {
                let index = index_by(constants, &water, celsius(t)).si();
                assert!((8.0 - index - 6.0 - constant).abs() < 0.0015, "{} at {t} °C", constants.id());
            }
        }
    }

    /// P. R. Roberge's example as quoted by secondary pages: −0.7 at 25 °C, +0.3 at 82 °C; re-evaluated pH_s 8.231 and 7.234.
    #[test]
    fn the_simplified_form_meets_its_printed_example() {
        let water = Water {
            calcium: milligrams(150.0 * 40.078 / 100.086),
            alkalinity: milligrams(34.0),
            ph: Ph::of(7.5),
            ionic_strength: Molality::of(0.008),
            dissolved: milligrams(320.0),
        };
        for (t, printed, exact) in [(25.0, -0.7, 8.231), (82.0, 0.3, 7.234)] {
            let index = index_by(Constants::Simplified, &water, celsius(t)).si();
            assert!((index - printed).abs() < 0.05, "{index} at {t} °C");
            assert!((7.5 - index - exact).abs() < 0.002, "{index} at {t} °C");
        }
    }
}
