//! How product flow follows temperature: five published forms, which disagree the more the further from the reading.
//!
//! The forms A to C are exponentials from thin-film membrane practice (no standard fixes their constants: ASTM D4516
//! leaves them to the membrane's supplier), D is the older 3 % a kelvin, E the viscosity of water alone.

use crate::choice;
use crate::quantity::{Temperature, Viscosity, celsius};
use crate::water;
use std::sync::OnceLock;

choice!(/// A published form of the temperature correction factor, relative to 25 °C.
Form {
    A "a" "Exponential, 3020 K below and 2640 K above 25 °C",
    B "b" "Exponential, 2640 K",
    C "c" "Exponential, 2700 K",
    D "d" "3 % a kelvin",
    E "e" "Viscosity of water",
});

/// The temperature at which every factor is 1.
pub const STANDARD: Temperature = celsius(25.0);

impl Form {
    /// All of them.
    pub const ALL: [Form; 5] = [Form::A, Form::B, Form::C, Form::D, Form::E];
}

/// Constant of the exponential forms, in kelvin (common practice, no source).
pub const K_COLD: f64 = 3020.0;
/// Constant of the exponential forms, in kelvin (common practice, no source).
pub const K_WARM: f64 = 2640.0;
/// ln 1.03: a power by its logarithm costs half.
const LN_1_03: f64 = 0.029_558_802_241_544_4;
/// Constant of the exponential forms, in kelvin (common practice, no source).
pub const K_MIDDLE: f64 = 2700.0;

/// Product flow at this temperature over that at 25 °C, at the same net driving pressure.
///
/// # Formula
/// A, B, C: exp(K · (1/298.15 K − 1/T)); D: 1.03^(T − 25 °C); E: μ(25 °C)/μ(T)
///
/// | Symbol | Meaning | Unit | Range |
/// | T | water temperature | K | 1 to 45 °C |
/// | K | A: 3020 below and 2640 above 25 °C; B 2640; C 2700 | K | |
/// | μ | viscosity of water | Pa·s | |
///
/// # Accuracy
/// At 5 °C the highest form is 21 % above the lowest; at 15 °C 11 %.
///
/// # Errors
/// None: finite and positive for every temperature above absolute zero.
///
/// # Source
/// Constants: common practice, no source. Viscosity: IAPWS SR6-08. Check values: tests/published/membrane.csv.
///
/// # Example
/// ```
/// use calc::{membrane::correction::{Form, factor}, quantity::celsius};
/// assert!((factor(Form::A, celsius(5.0)) - 0.4827).abs() < 0.00005);
/// assert!((factor(Form::E, celsius(10.0)) - 0.6815).abs() < 0.00005);
/// ```
pub fn factor(form: Form, temperature: Temperature) -> f64 {
    let exponential = |k: f64| (k / STANDARD.si() - k / temperature.si()).exp();
    match form {
        Form::A if temperature < STANDARD => exponential(K_COLD),
        Form::A | Form::B => exponential(K_WARM),
        Form::C => exponential(K_MIDDLE),
        Form::D => (LN_1_03 * (temperature.si() - STANDARD.si())).exp(),
        Form::E => viscosity_at_standard() / water::viscosity(temperature),
    }
}

/// The viscosity at 25 °C, computed once.
fn viscosity_at_standard() -> Viscosity {
    static AT_STANDARD: OnceLock<Viscosity> = OnceLock::new();
    *AT_STANDARD.get_or_init(|| water::viscosity(STANDARD))
}

/// The factors of all forms at one temperature.
pub type Factors = [f64; 5];

/// The factors of all forms.
pub fn factors(temperature: Temperature) -> Factors {
    Form::ALL.map(|form| factor(form, temperature))
}

/// A form, and the ratio of product flows that it gives.
pub type FormRatio = (Form, f64);

/// The least and the greatest ratio from one temperature to another, one form at both ends of each.
pub fn extreme_ratios(to: &Factors, from: &Factors) -> (FormRatio, FormRatio) {
    let first = (Form::A, to[0] / from[0]);
    let (mut least, mut most) = (first, first);
    for (index, form) in Form::ALL.into_iter().enumerate() {
        let ratio = to[index] / from[index];
        if ratio < least.1 {
            least = (form, ratio);
        }
        if ratio > most.1 {
            most = (form, ratio);
        }
    }
    (least, most)
}

/// One printed table of factors (multiply the flow at 25 °C), shown beside the forms and never chosen.
#[derive(Debug)]
pub struct Table {
    /// As it is named here.
    pub name: &'static str,
    /// Celsius and factor, ascending.
    pub rows: &'static [(f64, f64)],
}

/// Three printed tables for thin-film membranes, as quoted by secondary documents.
pub static TABLES: [Table; 3] = [
    Table {
        name: "P1",
        rows: &[
            (5.0, 1.0 / 2.58),
            (10.0, 1.0 / 1.89),
            (12.0, 1.0 / 1.68),
            (15.0, 1.0 / 1.47),
            (20.0, 1.0 / 1.19),
            (27.0, 1.0 / 0.94),
            (30.0, 1.0 / 0.85),
        ],
    },
    Table {
        name: "P2",
        rows: &[
            (10.0, 1.0 / 1.711),
            (12.0, 1.0 / 1.588),
            (15.0, 1.0 / 1.422),
            (20.0, 1.0 / 1.189),
            (27.0, 1.0 / 0.943),
        ],
    },
    Table {
        name: "P3",
        rows: &[
            (5.0, 0.521),
            (10.0, 0.620),
            (12.0, 0.661),
            (15.0, 0.730),
            (20.0, 0.857),
            (27.0, 1.063),
            (30.0, 1.161),
        ],
    },
];

impl Table {
    /// The factor, straight between the printed rows; none outside of them.
    pub fn factor(&self, temperature: Temperature) -> Option<f64> {
        let celsius = temperature.si() - 273.15;
        // a printed row is met by what a person typed, whatever the last bit of its conversion
        let celsius =
            self.rows.iter().map(|row| row.0).find(|at| (at - celsius).abs() < 1e-9).unwrap_or(celsius);
        self.rows.windows(2).find_map(|pair| match pair {
            [(t1, f1), (t2, f2)] if (*t1..=*t2).contains(&celsius) => {
                Some(f1 + (f2 - f1) * (celsius - t1) / (t2 - t1))
            }
            _ => None,
        })
    }
}
