//! Product flow, salt passage and pressure drop, normalized to start-up: is it the membrane, or only the water?
//!
//! After ASTM D4516-19a, clause 6.1, as quoted by a secondary page: net driving pressure with osmotic pressures of the mean
//! feed side, temperature correction, and salt passage by the solution-diffusion model. The standard leaves the temperature
//! correction to the membrane's supplier, so that without a form entered the one that flatters the membrane least is
//! judged. The pressure drop follows trade practice. Where a pressure or a conductivity is not entered, the number is shown
//! and can fail; it cannot pass, since a raised pump pressure would hide a worse membrane. Of one membrane stage.

mod drop;
mod instruments;
mod state;

pub use instruments::SameInstruments;

use super::correction::{self, Form};
use super::rejection::{HOLD, PRODUCT_BELOW_FEED, at_limit};
use crate::engine::quantity::{
    Conductivity, Flow, Pressure, PressureDifference, Ratio, Temperature, kinds, percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Field, Judges, Known, Missing, Sentence, Side, Slot, Stage, Stop, Term,
    Working, source,
};
use crate::trade::cases;
use crate::trade::terms::{membrane, tap::TAP_TEMPERATURE};
use crate::{output_row, sheet, step};
use state::{Found, Ids, State};

static FLOW_KEPT: Criterion = Criterion {
    id: "normalized-flow",
    sentence: "Normalized product flow, share of start-up",
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
    sentence: "Normalized salt passage over that at start-up",
    stage: Stage::Membrane,
    side: Side::Below,
    forecast: false,
    source: &source::COMMON_PRACTICE,
    levers: &[],
    cases: &[],
    judges: Judges::Output("normalized-salt-passage-ratio"),
};

static DROP_KEPT: Criterion = Criterion {
    id: "normalized-drop",
    sentence: "Normalized pressure drop along the membrane over that at start-up",
    stage: Stage::Membrane,
    side: Side::Below,
    forecast: false,
    source: &source::COMMON_PRACTICE,
    levers: &[],
    cases: &[],
    judges: Judges::Output("normalized-drop-ratio"),
};

/// Common practice, no source: the trade looks again when the normalized flow has fallen by 10 to 15 %, the salt passage
/// risen by 5 to 10 %, the pressure drop risen by 10 to 15 %. Ten per cent lies in each of these ranges.
const FLOW_LOOK_AGAIN: Ratio = percent(90.0);
const PASSAGE_LOOK_AGAIN: f64 = 1.1;
const DROP_LOOK_AGAIN: f64 = 1.1;
/// As much above start-up as below it asks for a look (common practice, no source).
const MORE_THAN_AT_START: Ratio = percent(110.0);

static COLD_HIDES: Caution = Caution {
    id: "cold-hides-a-worse-membrane",
    text: "On a cold day an RO makes little product and holds salt back well, so a worse membrane can look better. Compare normalized numbers only. Clean or replace it as the RO's instructions say.",
};

static TREND_DECIDES: Caution = Caution {
    id: "one-reading-is-no-trend",
    text: "One reading is no trend. Read again with the same instruments as at start-up before anything is done.",
};

output_row! {
    /// What one published form of the temperature correction makes of the reading.
    FormFlow {
        form  "form":  Form  = Term::other("Temperature correction method"),
        flow  "flow":  Flow  = Term::number(&kinds::FLOW, "Normalized product flow", "Q_ps"),
        share "share": Ratio = Term::number(&kinds::RATIO, "Share of start-up", "Q_ps/Q_p0"),
    }
}

sheet! {
    /// Product flow, salt passage and pressure drop of today, as they would be in the state at start-up.
    NormalizedPerformance, "normalized-performance", "Normalized performance", Stage::Membrane,
    also: &["NPF", "fouling", "normalized permeate flow", "daily readings"],
    sources: &[&source::ASTM_D4516, &source::SOLUTION_DIFFUSION, &source::COMMON_PRACTICE],
    cautions: &[&COLD_HIDES, &TREND_DECIDES],
    criteria: &[&FLOW_KEPT, &PASSAGE_KEPT, &DROP_KEPT, &PRODUCT_BELOW_FEED],
    inputs: {
        product          "product-flow":                  Flow                       = membrane::PRODUCT_FLOW,
        reject           "reject-flow":                   Known<Flow>                = membrane::REJECT_FLOW,
        temperature      "tap-temperature":               Temperature                = TAP_TEMPERATURE,
        feed             "feed-conductivity":             Known<Conductivity>        = membrane::FEED_CONDUCTIVITY,
        permeate         "product-conductivity":          Known<Conductivity>        = membrane::PRODUCT_CONDUCTIVITY,
        pressure         "pump-pressure":                 Known<Pressure>            = membrane::PUMP_PRESSURE,
        back_pressure    "product-pressure":              Option<Pressure>           = membrane::PRODUCT_PRESSURE,
        drop             "membrane-drop":                 Option<PressureDifference> = membrane::MEMBRANE_DROP,
        reject_pressure  "reject-pressure":               Option<Pressure>           = membrane::REJECT_PRESSURE,
        product_0        "baseline-product-flow":         Flow                       = membrane::BASELINE_PRODUCT_FLOW,
        reject_0         "baseline-reject-flow":          Known<Flow>                = membrane::BASELINE_REJECT_FLOW,
        temperature_0    "baseline-temperature":          Temperature                = membrane::BASELINE_TEMPERATURE,
        feed_0           "baseline-feed-conductivity":    Known<Conductivity>        = membrane::BASELINE_FEED_CONDUCTIVITY,
        permeate_0       "baseline-product-conductivity": Known<Conductivity>        = membrane::BASELINE_PRODUCT_CONDUCTIVITY,
        pressure_0       "baseline-pump-pressure":        Known<Pressure>            = membrane::BASELINE_PUMP_PRESSURE,
        back_pressure_0  "baseline-product-pressure":     Option<Pressure>           = membrane::BASELINE_PRODUCT_PRESSURE,
        drop_0           "baseline-membrane-drop":        Option<PressureDifference> = membrane::BASELINE_MEMBRANE_DROP,
        reject_pressure_0 "baseline-reject-pressure":     Option<Pressure>           = membrane::BASELINE_REJECT_PRESSURE,
        same             "same-instruments":              Option<SameInstruments>    = membrane::SAME_INSTRUMENTS,
        form             "correction-form":               Option<Form>               = membrane::CORRECTION_FORM,
        per_conductivity "salt-per-conductivity":         Option<f64>                = membrane::SALT_PER_CONDUCTIVITY,
    }
    outputs Outputs: {
        flow          "normalized-flow":               Flow                      = Term::number(&kinds::FLOW, "Normalized product flow", "Q_ps"),
        flow_ratio    "normalized-flow-ratio":         Ratio                     = Term::number(&kinds::RATIO, "Normalized product flow, share of start-up", "Q_ps/Q_p0"),
        lowest        "normalized-flow-lowest":        Flow                      = Term::number(&kinds::FLOW, "Lowest of all temperature correction methods", "Q_ps,min"),
        highest       "normalized-flow-highest":       Flow                      = Term::number(&kinds::FLOW, "Highest of all temperature correction methods", "Q_ps,max"),
        driving       "net-driving-pressure":          Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Net driving pressure today", "NDP"),
        driving_0     "baseline-net-driving-pressure": Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Net driving pressure at start-up", "NDP_0"),
        passage       "salt-passage":                  Known<Ratio>              = Term::number(&kinds::RATIO, "Salt passage today, feed basis", "SP"),
        normalized    "normalized-salt-passage":       Known<Ratio>              = Term::number(&kinds::RATIO, "Normalized salt passage", "SP_s"),
        passage_ratio "normalized-salt-passage-ratio": Known<f64>                = Term::number(&kinds::NUMBER, "Normalized salt passage over that at start-up", "SP_s/SP_0"),
        drop_today    "drop-today":                    Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Pressure drop along the membrane today", "Δp"),
        drop          "normalized-drop":               Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Normalized pressure drop", "Δp_s"),
        drop_ratio    "normalized-drop-ratio":         Known<f64>                = Term::number(&kinds::NUMBER, "Normalized pressure drop over that at start-up", "Δp_s/Δp_0"),
        by_form       "by-form":                       Vec<FormFlow>             = Term::other("By each temperature correction method"),
    }
}

impl Evaluate for NormalizedPerformance {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let per_conductivity = self.per_conductivity.unwrap_or(0.5);
        let today = w.in_case(cases::TODAY, |w| self.today()?.found(per_conductivity, w))?;
        let start = w.in_case(cases::START_UP, |w| self.start()?.found(per_conductivity, w))?;
        let form = self.form(&start, &today, w);
        let Pressures { now: driving, then: driving_0, whole } = pressures(&today, &start, w);
        let (product, product_0) = (self.product, self.product_0);
        // the start-up's was bound last
        w.bind("product", "Q_p", product);
        w.bind("driving", "NDP", driving);
        w.bind("driving_0", "NDP_0", driving_0);
        let (factor, factor_0) = (today.factors[form as usize], start.factors[form as usize]);
        for (name, factor, temperature) in [
            (("factor", "TCF"), factor, self.temperature),
            (("factor_0", "TCF_0"), factor_0, self.temperature_0),
        ] {
            w.procedure(name, factor, || {
                Sentence::plain("temperature correction at {temperature} by the method “{form}”")
                    .quantity("temperature", temperature)
                    .with("form", Slot::Word(form.name()))
            });
        }
        step!(w, flow "Q_ps" = product * (driving_0 / driving) * (factor_0 / factor));
        step!(w, flow_ratio "Q_ps/Q_p0": Ratio = flow / product_0);
        let flow_ratio = at_limit(flow_ratio, FLOW_LOOK_AGAIN);
        let by_form: Vec<FormFlow> = Form::ALL
            .into_iter()
            .map(|form| {
                let ratio = start.factors[form as usize] / today.factors[form as usize];
                let flow = product * ((driving_0 / driving) * ratio);
                FormFlow { form, flow, share: Ratio::of(flow / product_0) }
            })
            .collect();
        let ((_, least), (_, most)) = correction::extreme_ratios(&start.factors, &today.factors);
        let lowest = product * ((driving_0 / driving) * least);
        let highest = product * ((driving_0 / driving) * most);
        for (name, flow) in [(("lowest", "Q_ps,min"), lowest), (("highest", "Q_ps,max"), highest)] {
            w.procedure(name, flow, || {
                "the same by each of the five published temperature correction methods".into()
            });
        }

        let normalized = today.passage.and_then(|passage| {
            let (mean_factor, mean_factor_0) = (today.mean_factor?, start.mean_factor?);
            w.bind("passage", "SP", passage);
            w.bind("mean_factor", "LMCF", mean_factor);
            w.bind("mean_factor_0", "LMCF_0", mean_factor_0);
            // salt passes more slowly in cold water, as water does
            step!(w, normalized "SP_s" = passage * (product / flow) * (factor_0 / factor) * (mean_factor_0 / mean_factor));
            Ok(normalized)
        });
        let passage_ratio = normalized.and_then(|normalized| {
            let passage_0 = start.passage?;
            w.bind("passage_0", "SP_0", passage_0);
            step!(w, passage_ratio "SP_s/SP_0" = normalized / passage_0);
            Ok(at_limit(passage_ratio, PASSAGE_LOOK_AGAIN))
        });
        let kept = self.normalized_drop(&today, &start, w);
        let kept = kept.map(|(drop, ratio)| (drop, at_limit(ratio, DROP_LOOK_AGAIN)));

        let judged = unless_half_known(flow_ratio, flow_ratio > FLOW_LOOK_AGAIN, whole);
        w.judge_known(&FLOW_KEPT, judged, Ok(FLOW_LOOK_AGAIN));
        let judged = passage_ratio.and_then(|ratio| {
            let ratio = unless_half_known(ratio, ratio < PASSAGE_LOOK_AGAIN, whole)?;
            let flattered = self.temperature < self.temperature_0 && ratio < PASSAGE_LOOK_AGAIN;
            let worst = ratio * (most / (factor_0 / factor));
            if flattered && worst >= PASSAGE_LOOK_AGAIN { Err(COLDER_THAN_AT_START) } else { Ok(ratio) }
        });
        w.judge_known(&PASSAGE_KEPT, judged, Ok(PASSAGE_LOOK_AGAIN));
        w.judge_known(&DROP_KEPT, kept.map(|(_, ratio)| ratio), Ok(DROP_LOOK_AGAIN));
        if flow_ratio > MORE_THAN_AT_START {
            w.warn(
                "product-flow",
                "more-than-at-start",
                Sentence::plain("normalized product flow is {share} of that at start-up: more can mean a damaged membrane or seal, or a baseline of a membrane that was not clean; check salt passage")
                    .quantity("share", flow_ratio),
            );
        }
        w.judge_known(&PRODUCT_BELOW_FEED, self.permeate, self.feed);
        if let (Ok(feed), Ok(permeate)) = (self.feed, self.permeate)
            && permeate >= feed
        {
            w.caution(&HOLD);
        }
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
            drop_today: today.drop,
            drop: kept.map(|(drop, _)| drop),
            drop_ratio: kept.map(|(_, ratio)| ratio),
            by_form,
        })
    }

    fn instrument(&self, field: &'static Field) -> &'static str {
        instruments::of(field, self.same)
    }
}

/// Salt takes the factor of the water here, since a membrane's own is rarely known. Published is that salt slows down more
/// than water in the cold, which would make the passage higher than that: up to where the two factors could turn the
/// answer, a colder reading that passes shows nothing.
const COLDER_THAN_AT_START: Missing = Missing::not_known(
    "tap-temperature",
    "in water this much colder than at start-up, salt passage falls by itself, and how far is not known for this membrane: read again near the start-up temperature",
);

/// Net driving pressures to compare, and what of them is missing.
struct Pressures {
    now: PressureDifference,
    then: PressureDifference,
    whole: Known<()>,
}

/// The net driving pressures where both are known, otherwise as much of them as is.
fn pressures(today: &Found, start: &Found, w: &mut Working) -> Pressures {
    let whole = today.driving.and_then(|now| Ok((now, start.driving?)));
    let missing = match whole {
        Ok((now, then)) => return Pressures { now, then, whole: Ok(()) },
        Err(missing) => missing,
    };
    if let (Ok(now), Ok(then)) = (today.hydraulic, start.hydraulic) {
        w.assume(
            missing.field,
            Sentence::plain("osmotic pressure left out of the driving pressure; missing: {lacking}")
                .with("lacking", Slot::Word(missing.why)),
        );
        return Pressures { now, then, whole: Err(missing) };
    }
    let missing = today.hydraulic.and(start.hydraulic).err().unwrap_or(missing);
    w.assume(
        "pump-pressure",
        Sentence::plain("driving pressure taken as unchanged since start-up, only temperature is corrected; missing: {lacking}")
            .with("lacking", Slot::Word(missing.why)),
    );
    Pressures { now: PressureDifference::of(1e5), then: PressureDifference::of(1e5), whole: Err(missing) }
}

/// A number that would pass, and of whose driving pressure a part is missing, shows nothing: a raised pump pressure would
/// hide the fall. One that fails asks for a look either way.
fn unless_half_known<T>(number: T, passes: bool, whole: Known<()>) -> Known<T> {
    match whole {
        Err(missing) if passes => Err(missing),
        _ => Ok(number),
    }
}

impl NormalizedPerformance {
    /// The form that counts: the one entered, otherwise the one that gives the lowest normalized flow.
    fn form(&self, start: &Found, today: &Found, w: &mut Working) -> Form {
        if let Some(form) = self.form {
            return form;
        }
        let ((lowest, least), (_, most)) = correction::extreme_ratios(&start.factors, &today.factors);
        if least < most {
            w.assume(
                "correction-form",
                Sentence::plain("“{form}” counts: of the five published methods it gives the lowest normalized flow for this reading")
                    .with("form", Slot::Word(lowest.name())),
            );
        }
        lowest
    }

    fn today(&self) -> Result<State, Stop> {
        let ids =
            Ids { pressure: "pump-pressure", drop: "membrane-drop", reject_pressure: "reject-pressure" };
        Ok(State {
            name: "today",
            product: self.product,
            reject: self.reject,
            temperature: self.temperature,
            feed: self.feed,
            permeate: self.permeate,
            pressure: self.pressure,
            back_pressure: self.back_pressure.unwrap_or(Pressure::of(0.0)),
            drop: ids.drop(self.pressure, self.drop, self.reject_pressure, membrane::MEMBRANE_DROP.name)?,
            // without a reading the driving pressure of today is taken as high as it can be
            drop_for_driving: PressureDifference::of(0.0),
            ids,
        })
    }

    fn start(&self) -> Result<State, Stop> {
        let ids = Ids {
            pressure: "baseline-pump-pressure",
            drop: "baseline-membrane-drop",
            reject_pressure: "baseline-reject-pressure",
        };
        let today = self.today()?;
        // at start-up the product read below the feed, or it is no baseline
        let permeate = match (self.feed_0, self.permeate_0) {
            (Ok(feed), Ok(permeate)) if permeate >= feed => Err(Missing::not_known(
                "baseline-product-conductivity",
                "at start-up the product read as high as the feed, so it cannot be the baseline",
            )),
            _ => self.permeate_0,
        };
        Ok(State {
            name: "at start-up",
            product: self.product_0,
            reject: self.reject_0,
            temperature: self.temperature_0,
            feed: self.feed_0,
            permeate,
            pressure: self.pressure_0,
            back_pressure: self.back_pressure_0.unwrap_or(today.back_pressure),
            drop: ids.drop(
                self.pressure_0,
                self.drop_0,
                self.reject_pressure_0,
                membrane::BASELINE_MEMBRANE_DROP.name,
            )?,
            drop_for_driving: today.drop.unwrap_or(today.drop_for_driving),
            ids,
        })
    }
}

#[cfg(test)]
mod tests;
