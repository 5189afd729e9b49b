//! How much hot water brings a cold feed to a chosen temperature.
//!
//! By conservation of heat, with the same heat capacity on both sides. Not covered: a valve that hunts, hot water that
//! cools down while it runs, and what the hot side carries.

use super::product_flow_year::COLD_FEED_TEMPERED;
use crate::engine::quantity::{Flow, Ratio, Temperature, kinds::FLOW, kinds::RATIO};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::{membrane, tap};
use crate::{sheet, step};

/// The mixed feed, within what the RO withstands.
pub static TEMPERED_WITHIN: Criterion = Criterion {
    id: "tempered-feed",
    sentence: "Tempered feed temperature, within the RO's instructions",
    stage: Stage::Membrane,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["tempered-temperature"],
    cases: &[],
    judges: Judges::NoOutput,
};

/// The warmest feed of the year, tempered or not.
pub static FEED_WITHIN: Criterion = Criterion {
    id: "feed-temperature",
    sentence: "Warmest feed of the year, within the RO's instructions",
    stage: Stage::Membrane,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

/// What comes with the hot water.
pub static HOT_SIDE: Caution = Caution {
    id: "the-hot-side",
    text: "Hot water carries more metal, and dosing against legionella may be in the hot side only: have it analyzed. Above 50 °C (122 °F) it scalds. If the valve fails, the feed can be as hot as the hot tap: use only a valve that shuts off the hot side by itself.",
};

sheet! {
    /// The share of hot water that brings the feed to a chosen temperature.
    Tempering, "tempering", "Tempering the feed", Stage::Membrane,
    also: &["blending valve", "mixing valve", "hot water"],
    sources: &[&source::HEAT_BALANCE],
    cautions: &[&COLD_FEED_TEMPERED, &HOT_SIDE],
    criteria: &[&TEMPERED_WITHIN],
    inputs: {
        cold    "cold-temperature":         Temperature        = membrane::COLD_TEMPERATURE,
        hot     "hot-temperature":          Temperature        = membrane::HOT_TEMPERATURE,
        mixed   "tempered-temperature":     Temperature        = membrane::TEMPERED_TEMPERATURE,
        flow    "running-flow":             Known<Flow>        = tap::RUNNING_FLOW,
        highest "highest-feed-temperature": Known<Temperature> = membrane::HIGHEST_FEED_TEMPERATURE,
    }
    outputs Outputs: {
        share     "hot-share": Known<Ratio> = Term::number(&RATIO, "Hot water share of the feed", "s_h"),
        hot_flow  "hot-flow":  Known<Flow>  = Term::number(&FLOW, "Hot water flow", "Q_h"),
        cold_flow "cold-flow": Known<Flow>  = Term::number(&FLOW, "Cold water flow", "Q_c"),
    }
}

impl Evaluate for Tempering {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &Tempering { cold, hot, mixed, flow, highest } = self;
        w.judge_known(&TEMPERED_WITHIN, Ok(mixed), highest);
        let share = if mixed < cold {
            Err(Missing::none_exists("the cold water is already warmer than that"))
        } else if hot <= cold || mixed > hot {
            Err(Missing::none_exists("the hot water is not hot enough for that"))
        } else {
            step!(w, share "s_h": Ratio = (mixed - cold) / (hot - cold));
            Ok(share)
        };
        let flows = share.and_then(|share| {
            let flow = flow?;
            w.bind("share", "s_h", share);
            step!(w, hot_flow "Q_h" = share * flow);
            step!(w, cold_flow "Q_c" = flow - hot_flow);
            Ok((hot_flow, cold_flow))
        });
        Ok(Outputs { share, hot_flow: flows.map(|(hot, _)| hot), cold_flow: flows.map(|(_, cold)| cold) })
    }
}
