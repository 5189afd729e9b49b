//! The temperature correction in its published forms side by side, with how much they disagree.
//!
//! Rests on the forms of [`correction`] and on three printed tables. None of them is this membrane's own: the table in its
//! instructions goes before all.

use super::correction::{self, Form, K_COLD, K_MIDDLE, K_WARM, STANDARD};
use crate::quantity::{Temperature, celsius, kelvin, kelvin_difference, kinds::NUMBER};
use crate::sheet::{Caution, Evaluate, Known, Missing, Sentence, Stage, Stop, Term, Working, source};
use crate::terms::{membrane::ANCHOR_TEMPERATURE, tap::TAP_TEMPERATURE};
use crate::{absolute, output_row, sheet, step, water};

static OWN_TABLE_FIRST: Caution = Caution {
    id: "own-table-first",
    text: "The table in the membrane's or the RO's own instructions goes before every form shown here; in cold water it may be a quarter lower than any of them.",
};

output_row! {
    /// One form.
    FormFactor {
        form   "form":   Form = Term::other("Form"),
        factor "factor": f64  = Term::number(&NUMBER, "Factor relative to 25 °C", "f"),
        ratio  "ratio":  f64  = Term::number(&NUMBER, "Ratio to the reading's temperature", "r"),
    }
}

output_row! {
    /// One printed table.
    TableFactor {
        table  "table":  String     = Term::other("Printed table"),
        factor "factor": Known<f64> = Term::number(&NUMBER, "Factor relative to 25 °C", "f"),
    }
}

sheet! {
    /// How much product flow changes with temperature, by every published form, and how far they disagree.
    TemperatureCorrection, "temperature-correction", "Temperature correction", Stage::Membrane,
    sources: &[&source::ASTM_D4516, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE],
    cautions: &[&OWN_TABLE_FIRST],
    criteria: &[],
    inputs: {
        temperature "temperature":        Temperature         = TAP_TEMPERATURE.named("Water temperature asked about"),
        anchor      "anchor-temperature": Option<Temperature> = ANCHOR_TEMPERATURE.assumed("25 °C"),
    }
    outputs Outputs: {
        lowest  "lowest-ratio":  f64              = Term::number(&NUMBER, "Lowest ratio to the reading's temperature", "r_min"),
        highest "highest-ratio": f64              = Term::number(&NUMBER, "Highest ratio to the reading's temperature", "r_max"),
        spread  "spread":        f64              = Term::number(&NUMBER, "Highest over lowest, less one", "s"),
        forms   "form-factors":  Vec<FormFactor>  = Term::other("Every form"),
        tables  "table-factors": Vec<TableFactor> = Term::other("Printed tables, shown and never chosen"),
    }
}

impl Evaluate for TemperatureCorrection {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &TemperatureCorrection { temperature, anchor } = self;
        let anchor = anchor.unwrap_or(STANDARD);
        let (to, from) = (correction::factors(temperature), correction::factors(anchor));
        record_forms(temperature, w);
        let forms = Form::ALL.into_iter().zip(to.iter().zip(&from)).map(|(form, (factor, at_anchor))| {
            FormFactor { form, factor: *factor, ratio: factor / at_anchor }
        });
        let ((lowest_form, lowest), (highest_form, highest)) = correction::extreme_ratios(&to, &from);
        for (name, form, ratio) in
            [(("lowest", "r_min"), lowest_form, lowest), (("highest", "r_max"), highest_form, highest)]
        {
            w.procedure(name, ratio, || {
                Sentence::plain("ratio from {anchor}, of all five forms, by form {form}")
                    .quantity("anchor", anchor)
                    .with("form", crate::sheet::Slot::Word(form.name()))
            });
        }
        step!(w, spread "s" = highest / lowest - 1.0);
        let tables = correction::TABLES.iter().map(|table| TableFactor {
            table: table.name.to_owned(),
            factor: table.factor(temperature).ok_or(Missing::none_exists("outside the printed rows")),
        });
        Ok(Outputs { lowest, highest, spread, forms: forms.collect(), tables: tables.collect() })
    }
}

impl Form {
    /// In words.
    pub const fn name(self) -> &'static str {
        Self::NAMED[self as usize].name
    }
}

/// The five factors as steps of the working.
fn record_forms(temperature: Temperature, w: &mut Working) {
    if !w.is_recording() {
        return;
    }
    absolute!(w, kelvins "T_K" = temperature);
    if temperature < STANDARD {
        step!(w, form_a "f_A" = (kelvin(3020.0) / kelvin(298.15) - kelvin(3020.0) / kelvins).exp());
        debug_assert!((form_a - correction::factor(Form::A, temperature)).abs() < 1e-12 && K_COLD == 3020.0);
    } else {
        step!(w, form_a "f_A" = (kelvin(2640.0) / kelvin(298.15) - kelvin(2640.0) / kelvins).exp());
        debug_assert!((form_a - correction::factor(Form::A, temperature)).abs() < 1e-12);
    }
    step!(w, form_b "f_B" = (kelvin(2640.0) / kelvin(298.15) - kelvin(2640.0) / kelvins).exp());
    step!(w, form_c "f_C" = (kelvin(2700.0) / kelvin(298.15) - kelvin(2700.0) / kelvins).exp());
    step!(w, form_d "f_D" = 1.03_f64.powf((temperature - celsius(25.0)) / kelvin_difference(1.0)));
    let standard = water::viscosity(STANDARD);
    let viscosity = water::viscosity(temperature);
    w.procedure(("standard", "μ_25"), standard, || {
        Sentence::plain("viscosity of water at 25 °C, IAPWS SR6-08")
    });
    w.procedure(("viscosity", "μ"), viscosity, || {
        Sentence::plain("viscosity of water at this temperature, IAPWS SR6-08")
    });
    step!(w, form_e "f_E" = standard / viscosity);
    debug_assert!(
        [form_b, form_c, form_d, form_e].iter().all(|factor| factor.is_finite()) && K_WARM < K_MIDDLE
    );
}
