//! Conductivity at 25 °C from that at another temperature, and what it says of total dissolved solids.
//!
//! Rests on the temperature correction of natural waters after ISO 7888. It holds for tap and feed water from about 60
//! to 1000 µS/cm, not for product water, whose conductivity follows the temperature otherwise.

use crate::engine::quantity::{
    Concentration, Conductivity, Temperature, celsius, kelvin_difference,
    kinds::{CONCENTRATION, CONDUCTIVITY},
};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Sentence, Stage, Stop, Term, Working, source};
use crate::trade::terms::{place, tap};
use crate::{choice, sheet, step};

choice!(/// Whether the meter shows the value at 25 °C by itself.
Compensated {
    At25 "at-25" "Yes, at 25 °C",
    AsItIs "as-it-is" "No, at the water's own temperature",
    NotKnown "not-known" "Not known",
});

static NO_TEST_OF_SUBSTANCES: Caution = Caution {
    id: "conductivity-is-no-analysis",
    text: "Conductivity does not show single substances: fluoride, nitrate, aluminium (aluminum) or lead at their limits hardly change it. TDS from conductivity is an estimate with a wide range, never a measurement.",
};

const READ: Term = place::CONDUCTIVITY_AT_TAP
    .named("Conductivity as shown by the meter")
    .symbol("κ_T")
    .help("In the jug, stirred, once the probe is as cold as the water.");
const AT_25: Term = Term::number(&CONDUCTIVITY, "Conductivity at 25 °C", "κ_25");
// 0.55 to 0.70 mg/L per µS/cm is printed; up to 0.80, for waters rich in sulfate, is common practice without a source
/// `low-salt`
pub const SALT: Term = Term::number(&CONCENTRATION, "TDS, low estimate", "TDS_low")
    .help("Of a natural water. After a softener as little as 0.47 to 0.50 mg/L per µS/cm, since the salt is then mostly sodium.");
/// `high-salt`
pub const SALT_AT_MOST: Term = SALT
    .named("TDS, high estimate")
    .symbol("TDS_high")
    .help("0.70 mg/L per µS/cm is printed. The 0.80 used here is common practice, no source.");

sheet! {
    /// Conductivity at 25 °C, and the range in which total dissolved solids (TDS) are expected.
    ConductivityAt25, "conductivity", "Conductivity", Stage::Tap,
    also: &["TDS", "EC", "uS"],
    sources: &[&source::ISO_7888, &source::STANDARD_METHODS_2510, &source::COMMON_PRACTICE],
    cautions: &[&NO_TEST_OF_SUBSTANCES],
    criteria: &[],
    inputs: {
        read        "read-conductivity": Conductivity       = READ,
        compensated "compensated":       Compensated         = place::COMPENSATED,
        temperature "tap-temperature":   Known<Temperature> = tap::TAP_TEMPERATURE,
    }
    outputs Outputs: {
        at_25   "conductivity":        Known<Conductivity>  = AT_25,
        linear  "linear-conductivity": Known<Conductivity>  = AT_25.named("Conductivity at 25 °C by 2 % per °C, for comparison").symbol("κ_25,2%"),
        low     "low-salt":            Known<Concentration> = SALT,
        high    "high-salt":           Known<Concentration> = SALT_AT_MOST,
    }
}

/// Up to which temperature the table of ISO 7888 goes.
const TABLE_ENDS: Temperature = celsius(35.9);
const STANDARD: Temperature = celsius(25.0);
/// For which waters it was made, in S/m.
const NATURAL: (f64, f64) = (60e-4, 1000e-4);

impl Evaluate for ConductivityAt25 {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let read = self.read;
        let (at_25, linear) = match self.compensated {
            Compensated::At25 => {
                let shown = Err(Missing::none_exists("the meter has corrected it to 25 °C already"));
                (Ok(read), shown)
            }
            Compensated::AsItIs => (self.turned(w), self.by_two_per_cent(w)),
            Compensated::NotKnown => {
                let missing = Missing::empty("compensated", place::COMPENSATED.name);
                (Err(missing), Err(missing))
            }
        };
        let is_beyond = at_25.is_ok_and(|at_25| !(NATURAL.0..=NATURAL.1).contains(&at_25.si()));
        if self.compensated == Compensated::AsItIs && is_beyond {
            w.warn(
                "read-conductivity",
                "unusual-water",
                Sentence::plain("the correction is for natural waters from {low} to {high}; outside that range it is a rough guide")
                    .quantity("low", Conductivity::of(NATURAL.0))
                    .quantity("high", Conductivity::of(NATURAL.1)),
            );
        }
        let salt = at_25.map(|at_25| {
            w.bind("at_25", "κ_25", at_25);
            // mg/L per µS/cm is 1e-3 kg/m³ per 1e-4 S/m
            step!(w, low "TDS_low": Concentration = 0.55 * 10.0 * at_25.si());
            step!(w, high "TDS_high": Concentration = 0.80 * 10.0 * at_25.si());
            (low, high)
        });
        Ok(Outputs { at_25, linear, low: salt.map(|salt| salt.0), high: salt.map(|salt| salt.1) })
    }
}

impl ConductivityAt25 {
    fn turned(&self, w: &mut Working) -> Known<Conductivity> {
        let (read, temperature) = (self.read, self.temperature?);
        if temperature > TABLE_ENDS {
            return Err(Missing::none_exists("the correction ends at 35.9 °C; let the sample cool"));
        }
        let factor = factor_to_25(temperature);
        w.procedure(("factor", "f_25"), factor, || {
            Sentence::plain("factor from {temperature} to 25 °C for natural waters, ISO 7888")
                .quantity("temperature", temperature)
        });
        step!(w, at_25 "κ_25" = read * factor);
        Ok(at_25)
    }

    fn by_two_per_cent(&self, w: &mut Working) -> Known<Conductivity> {
        let (read, temperature) = (self.read, self.temperature?);
        let warmer = temperature - STANDARD;
        w.bind("warmer", "T − 25 °C", warmer);
        step!(w, linear "κ_25,2%" = read / (1.0 + 0.02 * (warmer / kelvin_difference(1.0))));
        Ok(linear)
    }
}

/// What the conductivity of a natural water is multiplied by to have it at 25 °C.
///
/// # Formula
/// f = g(T) / g(25 °C), g = (1 − a) + a · v^n, v = A + exp(B + C / (T + D))
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | T | water temperature | °C | 0 to 35.9 |
/// | A, B, C, D | −0.198058, −1.992186, 231.17628, 86.39123 | 1 | |
/// | a, n | 0.962144, 0.965078 | 1 | |
///
/// # Accuracy
/// Gives every whole degree of the standard's table to its three decimals.
///
/// # Errors
/// None; outside of the range it is only continued, and the sheet does not use it there.
///
/// # Source
/// `iso-7888-1985`, table of f25; closed form as quoted by public code. Check values: tests/published/tap.csv.
///
/// # Example
/// ```
/// use calc::{engine::quantity::celsius, trade::tap::factor_to_25};
/// assert!((factor_to_25(celsius(10.0)) - 1.428).abs() < 0.0005);
/// ```
pub fn factor_to_25(temperature: Temperature) -> f64 {
    let against_20 = |celsius: f64| {
        let viscosity = -0.198_058 + (-1.992_186 + 231.176_28 / (celsius + 86.391_23)).exp();
        (1.0 - 0.962_144) + 0.962_144 * viscosity.powf(0.965_078)
    };
    against_20(temperature.si() - 273.15) / against_20(25.0)
}
