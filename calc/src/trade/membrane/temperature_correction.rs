//! The temperature correction in its published forms side by side, with how much they disagree.
//!
//! Rests on the forms of [`correction`] and on three printed tables. None of them is this membrane's own: the table in its
//! instructions goes before all.

use super::correction::{self, Factors, Form, STANDARD};
use crate::engine::quantity::{
    Ratio, Temperature, celsius,
    kinds::{NUMBER, RATIO, TEMPERATURE},
};
use crate::engine::sheet::{
    Caution, Draws, Evaluate, Figure, Known, Lined, Missing, Panel, Sentence, Shown, Stage, Stop, Term,
    Working, source,
};
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

output_row! {
    /// How far the other forms lie from form A at one temperature, each over its own value at the reading.
    FormDifference {
        temperature "temperature": Temperature = Term::number(&TEMPERATURE, "Water temperature", "T"),
        b "b-over-a": Ratio = Term::number(&RATIO, "B over A, minus 1", "r_B/r_A - 1"),
        c "c-over-a": Ratio = Term::number(&RATIO, "C over A, minus 1", "r_C/r_A - 1"),
        d "d-over-a": Ratio = Term::number(&RATIO, "D over A, minus 1", "r_D/r_A - 1"),
        e "e-over-a": Ratio = Term::number(&RATIO, "E over A, minus 1", "r_E/r_A - 1"),
    }
}

/// From the coldest water on, in degrees Celsius, one row each.
const ROWS: std::ops::RangeInclusive<u8> = 2..=35;

/// The forms as differences: five lines that nearly lie on one another say less.
pub static DIFFERENCES: Figure = Figure {
    id: "form-differences",
    name: "Difference of each method from method A",
    about: "0 % is method A (exponential, 3020 below and 2640 above 25 °C). All agree at the temperature of the reading.",
    opens_at: None,
    months: None,
    draws: Draws::Lines(Lined {
        table: "form-differences",
        along: "temperature",
        parted: None,
        panels: &[Panel {
            name: "Product flow by each method, difference from method A",
            quantity: "Difference from method A",
            lines: &[
                ("B: 2640", "b-over-a"),
                ("C: 2700", "c-over-a"),
                ("D: 3 % per °C", "d-over-a"),
                ("E: viscosity", "e-over-a"),
            ],
            limit: None,
            breaks: false,
        }],
        shaded: None,
        here: Some(Shown::Entered("temperature")),
    }),
};

sheet! {
    /// How product flow changes with temperature, by each published method, and how far they disagree.
    TemperatureCorrection, "temperature-correction", "Temperature correction", Stage::Membrane,
    also: &["TCF", "cold water"],
    sources: &[&source::ASTM_D4516, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE],
    cautions: &[&OWN_TABLE_FIRST],
    criteria: &[],
    figures: &[&DIFFERENCES],
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
        differences "form-differences": Vec<FormDifference> = Term::other("Difference of each method from method A"),
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
        let differences = differences(temperature, &from, w);
        Ok(Outputs { lowest, highest, spread, forms: forms.collect(), tables: tables.collect(), differences })
    }
}

/// Over the year's water, with a row for the temperature of interest itself.
fn differences(temperature: Temperature, from: &Factors, w: &mut Working) -> Vec<FormDifference> {
    let mut temperatures: Vec<Temperature> = ROWS.map(|degrees| celsius(f64::from(degrees))).collect();
    let place = temperatures.partition_point(|row| *row < temperature);
    if temperatures.get(place) != Some(&temperature) {
        temperatures.insert(place, temperature);
    }
    let row = |temperature: Temperature| {
        let to = w.quietly(|w| correction::factors(temperature, w));
        let over_a = |form: usize| Ratio::of(to[form] / from[form] / (to[0] / from[0]) - 1.0);
        FormDifference { temperature, b: over_a(1), c: over_a(2), d: over_a(3), e: over_a(4) }
    };
    temperatures.into_iter().map(row).collect()
}

impl Form {
    /// In words.
    pub const fn name(self) -> &'static str {
        Self::NAMED[self as usize].name
    }
}
