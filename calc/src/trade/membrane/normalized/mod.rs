//! Product flow and salt passage, normalized to the state at start-up: is it the membrane, or only the water?
//!
//! After ASTM D4516-19a, clause 6.1, as quoted by a secondary page: net driving pressure with osmotic pressures of the mean
//! feed side, temperature correction, and salt passage by the solution-diffusion model. Where a pressure or a conductivity
//! is not entered, the driving pressure is taken as unchanged and temperature alone is taken out. Of one membrane stage; fouling in
//! the feed channel, which shows in its pressure drop, is not normalized here.

mod state;

use super::correction::{self, Form};
use crate::engine::quantity::{
    Conductivity, Flow, Pressure, PressureDifference, Ratio, Temperature, kinds, percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Sentence, Side, Slot, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::{membrane, tap::TAP_TEMPERATURE};
use crate::{sheet, step};
use state::{Ids, State};

static FLOW_KEPT: Criterion = Criterion {
    id: "normalized-flow",
    sentence: "Product flow normalized to start-up, of that at start-up",
    stage: Stage::Membrane,
    side: Side::Above,
    forecast: false,
    source: &source::COMMON_PRACTICE,
    levers: &[],
    cases: &[],
    judges: Judges::Output("normalized-flow-ratio"),
};

static PASSAGE_KEPT: Criterion = Criterion {
    id: "normalized-salt-passage",
    sentence: "Salt passage normalized to start-up, over that at start-up",
    stage: Stage::Membrane,
    side: Side::Below,
    forecast: false,
    source: &source::COMMON_PRACTICE,
    levers: &[],
    cases: &[],
    judges: Judges::Output("normalized-salt-passage-ratio"),
};

/// A fall of the normalized flow to this share asks for a look (common practice, no source: 10 to 15 % less).
const FLOW_LOOK_AGAIN: Ratio = percent(90.0);
/// A rise of the normalized salt passage by this factor asks for a look (common practice, no source).
const PASSAGE_LOOK_AGAIN: f64 = 1.1;

static COLD_HIDES: Caution = Caution {
    id: "cold-hides-a-worse-membrane",
    text: "A cold day makes little product and holds salt back well: a membrane that has become worse can look better. Compare normalized numbers only, and clean or replace by the RO's instructions.",
};

static TREND_DECIDES: Caution = Caution {
    id: "one-reading-is-no-trend",
    text: "One reading is no trend: repeat it before anything is done, with the same instruments as at start-up.",
};

sheet! {
    /// Product flow and salt passage of today, as they would be in the state at start-up.
    NormalizedPerformance, "normalized-performance", "Performance normalized to start-up", Stage::Membrane,
    sources: &[&source::ASTM_D4516, &source::SOLUTION_DIFFUSION, &source::COMMON_PRACTICE],
    cautions: &[&COLD_HIDES, &TREND_DECIDES],
    criteria: &[&FLOW_KEPT, &PASSAGE_KEPT],
    inputs: {
        product          "product-flow":                  Flow                       = membrane::PRODUCT_FLOW,
        reject           "reject-flow":                   Known<Flow>                = membrane::REJECT_FLOW,
        temperature      "tap-temperature":               Temperature                = TAP_TEMPERATURE,
        feed             "feed-conductivity":             Known<Conductivity>        = membrane::FEED_CONDUCTIVITY,
        permeate         "product-conductivity":          Known<Conductivity>        = membrane::PRODUCT_CONDUCTIVITY,
        pressure         "pump-pressure":                 Known<Pressure>            = membrane::PUMP_PRESSURE,
        back_pressure    "product-pressure":              Option<Pressure>           = membrane::PRODUCT_PRESSURE,
        drop             "membrane-drop":                 Option<PressureDifference> = membrane::MEMBRANE_DROP,
        product_0        "baseline-product-flow":         Flow                       = membrane::BASELINE_PRODUCT_FLOW,
        reject_0         "baseline-reject-flow":          Known<Flow>                = membrane::BASELINE_REJECT_FLOW,
        temperature_0    "baseline-temperature":          Temperature                = membrane::BASELINE_TEMPERATURE,
        feed_0           "baseline-feed-conductivity":    Known<Conductivity>        = membrane::BASELINE_FEED_CONDUCTIVITY,
        permeate_0       "baseline-product-conductivity": Known<Conductivity>        = membrane::BASELINE_PRODUCT_CONDUCTIVITY,
        pressure_0       "baseline-pump-pressure":        Known<Pressure>            = membrane::BASELINE_PUMP_PRESSURE,
        back_pressure_0  "baseline-product-pressure":     Option<Pressure>           = membrane::BASELINE_PRODUCT_PRESSURE,
        drop_0           "baseline-membrane-drop":        Option<PressureDifference> = membrane::BASELINE_MEMBRANE_DROP,
        form             "correction-form":               Option<Form>               = membrane::CORRECTION_FORM,
        per_conductivity "salt-per-conductivity":         Option<f64>                = membrane::SALT_PER_CONDUCTIVITY,
    }
    outputs Outputs: {
        flow          "normalized-flow":               Flow                      = Term::number(&kinds::FLOW, "Product flow, normalized to start-up", "Q_ps"),
        flow_ratio    "normalized-flow-ratio":         Ratio                     = Term::number(&kinds::RATIO, "The same, of the product flow at start-up", "Q_ps/Q_p0"),
        lowest        "normalized-flow-lowest":        Flow                      = Term::number(&kinds::FLOW, "Lowest of all published temperature corrections", "Q_ps,min"),
        highest       "normalized-flow-highest":       Flow                      = Term::number(&kinds::FLOW, "Highest of all published temperature corrections", "Q_ps,max"),
        driving       "net-driving-pressure":          Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Net driving pressure today", "NDP"),
        driving_0     "baseline-net-driving-pressure": Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Net driving pressure at start-up", "NDP_0"),
        passage       "salt-passage":                  Known<Ratio>              = Term::number(&kinds::RATIO, "Salt passage today, on the feed", "SP"),
        normalized    "normalized-salt-passage":       Known<Ratio>              = Term::number(&kinds::RATIO, "Salt passage, normalized to start-up", "SP_s"),
        passage_ratio "normalized-salt-passage-ratio": Known<f64>                = Term::number(&kinds::NUMBER, "The same, over that at start-up", "SP_s/SP_0"),
    }
}

impl Evaluate for NormalizedPerformance {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let form = self.form.unwrap_or(Form::A);
        let per_conductivity = self.per_conductivity.unwrap_or(0.5);
        let today = w.in_case("today", |w| self.today().found(form, per_conductivity, w))?;
        let start = w.in_case("start-up", |w| self.start().found(form, per_conductivity, w))?;
        // how much more flow the state at start-up would drive than today's
        let (driving, driving_0) = match (today.driving, start.driving) {
            (Ok(driving), Ok(driving_0)) => (driving, driving_0),
            (Err(missing), _) | (_, Err(missing)) => {
                w.assume(
                    "pump-pressure",
                    Sentence::plain("driving pressure taken as unchanged since start-up, temperature alone is taken out: {lacking} is not entered")
                        .with("lacking", Slot::Word(missing.why)),
                );
                (PressureDifference::of(1e5), PressureDifference::of(1e5))
            }
        };
        let (product, product_0) = (self.product, self.product_0);
        // the start-up's was bound last
        w.bind("product", "Q_p", product);
        w.bind("driving", "NDP", driving);
        w.bind("driving_0", "NDP_0", driving_0);
        let (factor, factor_0) = (today.factors[form as usize], start.factors[form as usize]);
        w.bind("factor", "TCF", factor);
        w.bind("factor_0", "TCF_0", factor_0);
        step!(w, flow "Q_ps" = product * (driving_0 / driving) * (factor_0 / factor));
        step!(w, flow_ratio "Q_ps/Q_p0": Ratio = flow / product_0);
        let ((_, least), (_, most)) = correction::extreme_ratios(&start.factors, &today.factors);
        let lowest = product * ((driving_0 / driving) * least);
        let highest = product * ((driving_0 / driving) * most);
        for (name, flow) in [(("lowest", "Q_ps,min"), lowest), (("highest", "Q_ps,max"), highest)] {
            w.procedure(name, flow, || {
                "the same by all five published forms of the temperature correction".into()
            });
        }

        let normalized = today.passage.and_then(|passage| {
            let (mean_factor, mean_factor_0) = (today.mean_factor?, start.mean_factor?);
            w.bind("passage", "SP", passage);
            w.bind("mean_factor", "LMCF", mean_factor);
            w.bind("mean_factor_0", "LMCF_0", mean_factor_0);
            // salt passes the colder the slower, as water does
            step!(w, normalized "SP_s" = passage * (product / flow) * (factor_0 / factor) * (mean_factor_0 / mean_factor));
            Ok(normalized)
        });
        let passage_ratio = normalized.and_then(|normalized| {
            let passage_0 = start.passage?;
            w.bind("passage_0", "SP_0", passage_0);
            step!(w, passage_ratio "SP_s/SP_0" = normalized / passage_0);
            Ok(passage_ratio)
        });
        w.judge(&FLOW_KEPT, flow_ratio, FLOW_LOOK_AGAIN);
        w.judge_known(&PASSAGE_KEPT, passage_ratio, Ok(PASSAGE_LOOK_AGAIN));
        Ok(Outputs {
            flow,
            flow_ratio,
            lowest,
            highest,
            driving: today.driving,
            driving_0: start.driving,
            passage: today.passage,
            normalized,
            passage_ratio,
        })
    }
}

impl NormalizedPerformance {
    fn today(&self) -> State {
        State {
            name: "today",
            product: self.product,
            reject: self.reject,
            temperature: self.temperature,
            feed: self.feed,
            permeate: self.permeate,
            pressure: self.pressure,
            back_pressure: self.back_pressure,
            drop: self.drop,
            ids: Ids { pressure: "pump-pressure", permeate: "product-conductivity" },
        }
    }

    fn start(&self) -> State {
        State {
            name: "at start-up",
            product: self.product_0,
            reject: self.reject_0,
            temperature: self.temperature_0,
            feed: self.feed_0,
            permeate: self.permeate_0,
            pressure: self.pressure_0,
            back_pressure: self.back_pressure_0,
            drop: self.drop_0,
            ids: Ids { pressure: "baseline-pump-pressure", permeate: "baseline-product-conductivity" },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::{celsius, litres_per_minute};
    use crate::engine::sheet::{Missing, Sheet};

    const OPEN: Missing = Missing::not_known("", "");

    /// In equal states the flow of today is the normalized one, whatever the form.
    #[test]
    fn equal_states_are_the_identity() {
        for form in Form::ALL {
            let sheet = NormalizedPerformance {
                product: litres_per_minute(1.3),
                reject: Ok(litres_per_minute(1.1)),
                temperature: celsius(25.0),
                feed: Ok(Conductivity::of(0.06)),
                permeate: Ok(Conductivity::of(0.001)),
                pressure: Ok(Pressure::of(9e5)),
                back_pressure: None,
                drop: None,
                product_0: litres_per_minute(1.5),
                reject_0: Ok(litres_per_minute(1.5 / 1.3 * 1.1)),
                temperature_0: celsius(25.0),
                feed_0: Ok(Conductivity::of(0.06)),
                permeate_0: Ok(Conductivity::of(0.001)),
                pressure_0: Ok(Pressure::of(9e5)),
                back_pressure_0: None,
                drop_0: None,
                form: Some(form),
                per_conductivity: None,
            };
            let outputs = sheet.run(&mut Working::silent()).unwrap();
            assert!((outputs.flow / litres_per_minute(1.3) - 1.0).abs() < 1e-12);
            assert!((outputs.passage_ratio.unwrap() - 1.0).abs() < 1e-12);
            let without = NormalizedPerformance { pressure: Err(OPEN), ..sheet };
            assert!(
                (without.run(&mut Working::silent()).unwrap().flow / litres_per_minute(1.3) - 1.0).abs()
                    < 1e-12
            );
        }
    }
}
