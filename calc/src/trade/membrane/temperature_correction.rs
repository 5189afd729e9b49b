//! The temperature correction in its published forms side by side, with how much they disagree.
//!
//! Rests on the forms of [`correction`] and on three printed tables. None of them is this membrane's own: the table in its
//! instructions goes before all.

use super::correction::{self, Form, STANDARD};
use crate::engine::quantity::{Temperature, kinds::NUMBER};
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Sentence, Stage, Stop, Term, Working, source};
use crate::trade::terms::{membrane::ANCHOR_TEMPERATURE, tap::TAP_TEMPERATURE};
use crate::{output_row, sheet, step};

static OWN_TABLE_FIRST: Caution = Caution {
    id: "own-table-first",
    text: "A table in the membrane's or the RO's own instructions comes before every method shown here. In cold water it can be a quarter lower than any of them.",
};

output_row! {
    /// One form.
    FormFactor {
        form   "form":   Form = Term::other("Temperature correction method"),
        factor "factor": f64  = Term::number(&NUMBER, "Factor, 25 °C = 1", "f"),
        ratio  "ratio":  f64  = Term::number(&NUMBER, "Factor over that at the reading", "r"),
    }
}

output_row! {
    /// One printed table.
    TableFactor {
        table  "table":  String     = Term::other("Printed table"),
        factor "factor": Known<f64> = Term::number(&NUMBER, "Factor, 25 °C = 1", "f"),
    }
}

sheet! {
    /// How product flow changes with temperature, by each published method, and how far they disagree.
    TemperatureCorrection, "temperature-correction", "Temperature correction", Stage::Membrane,
    also: &["TCF", "cold water"],
    sources: &[&source::ASTM_D4516, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE],
    cautions: &[&OWN_TABLE_FIRST],
    criteria: &[],
    inputs: {
        temperature "temperature":        Temperature         = TAP_TEMPERATURE.named("Water temperature of interest").help("Any temperature of the year."),
        anchor      "anchor-temperature": Option<Temperature> = ANCHOR_TEMPERATURE.assumed("25 °C"),
    }
    outputs Outputs: {
        lowest  "lowest-ratio":  f64              = Term::number(&NUMBER, "Lowest factor over that at the reading", "r_min"),
        highest "highest-ratio": f64              = Term::number(&NUMBER, "Highest factor over that at the reading", "r_max"),
        spread  "spread":        f64              = Term::number(&NUMBER, "Spread: highest over lowest, minus 1", "s"),
        forms   "form-factors":  Vec<FormFactor>  = Term::other("By each method"),
        tables  "table-factors": Vec<TableFactor> = Term::other("Printed tables, for comparison only"),
    }
}

impl Evaluate for TemperatureCorrection {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &TemperatureCorrection { temperature, anchor } = self;
        let anchor = anchor.unwrap_or(STANDARD);
        let from = w.quietly(|w| correction::factors(anchor, w));
        let to = correction::factors(temperature, w);
        let forms = Form::ALL.into_iter().zip(to.iter().zip(&from)).map(|(form, (factor, at_anchor))| {
            FormFactor { form, factor: *factor, ratio: factor / at_anchor }
        });
        let ((lowest_form, lowest), (highest_form, highest)) = correction::extreme_ratios(&to, &from);
        for (name, form, ratio) in
            [(("lowest", "r_min"), lowest_form, lowest), (("highest", "r_max"), highest_form, highest)]
        {
            w.procedure(name, ratio, || {
                Sentence::plain("factor over that at {anchor}, of all five methods, by “{form}”")
                    .quantity("anchor", anchor)
                    .with("form", crate::engine::sheet::Slot::Word(form.name()))
            });
        }
        step!(w, spread "s" = highest / lowest - 1.0);
        let tables = correction::TABLES.iter().map(|table| TableFactor {
            table: table.name.to_owned(),
            factor: table.factor(temperature).ok_or(Missing::none_exists("outside the printed table")),
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
