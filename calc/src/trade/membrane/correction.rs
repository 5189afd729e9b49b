//! How product flow follows temperature: five published forms, which disagree the more the further from the reading.
//!
//! The forms A to C are exponentials from thin-film membrane practice (no standard fixes their constants: ASTM D4516
//! leaves them to the membrane's supplier), D is the older 3 % per °C, E the viscosity of water alone.

use crate::engine::quantity::{Temperature, Viscosity, celsius, kelvin, kelvin_difference};
use crate::engine::sheet::{Sentence, Working};
use crate::{absolute, choice, step, trade::water};
use std::sync::OnceLock;

choice!(/// A published form of the temperature correction factor, relative to 25 °C.
Form {
    A "a" "A: exponential, 3020 below and 2640 above 25 °C",
    B "b" "B: exponential, 2640",
    C "c" "C: exponential, 2700",
    D "d" "D: 3 % per °C",
    E "e" "E: viscosity of water",
});

/// The temperature at which every factor is 1.
pub const STANDARD: Temperature = celsius(25.0);

impl Form {
    /// All of them.
    pub const ALL: [Form; 5] = [Form::A, Form::B, Form::C, Form::D, Form::E];
}

/// The factors of all forms at one temperature, in the order of [`Form::ALL`].
pub type Factors = [f64; 5];

/// Product flow at this temperature over that at 25 °C, at the same net driving pressure, by every form.
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
/// use calc::{trade::membrane::correction::{Form, factors}, engine::quantity::celsius, engine::sheet::Working};
/// let at = |form: Form, t: f64| factors(celsius(t), &mut Working::silent())[form as usize];
/// assert!((at(Form::A, 5.0) - 0.4827).abs() < 0.00005);
/// assert!((at(Form::E, 10.0) - 0.6815).abs() < 0.00005);
/// ```
pub fn factors(temperature: Temperature, w: &mut Working) -> Factors {
    w.bind("temperature", "T", temperature);
    absolute!(w, kelvins "T_K" = temperature);
    let form_a = if temperature < STANDARD {
        step!(w, form_a "f_A" = (kelvin(3020.0) / kelvin(298.15) - kelvin(3020.0) / kelvins).exp());
        form_a
    } else {
        step!(w, form_a "f_A" = (kelvin(2640.0) / kelvin(298.15) - kelvin(2640.0) / kelvins).exp());
        form_a
    };
    step!(w, form_b "f_B" = (kelvin(2640.0) / kelvin(298.15) - kelvin(2640.0) / kelvins).exp());
    step!(w, form_c "f_C" = (kelvin(2700.0) / kelvin(298.15) - kelvin(2700.0) / kelvins).exp());
    step!(w, form_d "f_D" = 1.03_f64.powf((temperature - celsius(25.0)) / kelvin_difference(1.0)));
    let standard = viscosity_at_standard();
    w.procedure(("standard", "μ_25"), standard, || {
        Sentence::plain("viscosity of water at 25 °C, IAPWS SR6-08")
    });
    let viscosity = water::viscosity(temperature);
    w.procedure(("viscosity", "μ"), viscosity, || {
        Sentence::plain("viscosity of water at this temperature, IAPWS SR6-08")
    });
    step!(w, form_e "f_E" = standard / viscosity);
    [form_a, form_b, form_c, form_d, form_e]
}

/// The viscosity at 25 °C, computed once.
fn viscosity_at_standard() -> Viscosity {
    static AT_STANDARD: OnceLock<Viscosity> = OnceLock::new();
    *AT_STANDARD.get_or_init(|| water::viscosity(STANDARD))
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
