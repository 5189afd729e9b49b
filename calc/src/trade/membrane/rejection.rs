//! Rejection and salt passage, on the feed and on the average basis, and against this RO's own baseline.
//!
//! By mass balance. Conductivity says nothing of a single contaminant: each at its limit is nearly invisible in it.

use super::recovery::known_mean_factor;
use crate::engine::quantity::{
    Conductivity, Quantity, Ratio,
    kinds::{NUMBER, RATIO},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::membrane;
use crate::{sheet, step};

static PASSAGE_RATIO: Criterion = Criterion {
    id: "salt-passage-ratio",
    sentence: "Salt passage over this RO's own baseline",
    stage: Stage::Membrane,
    side: Side::Below,
    forecast: false,
    source: &source::COMMON_PRACTICE,
    levers: &[],
    cases: &[],
    judges: Judges::Output("salt-passage-ratio"),
};

/// Product water that conducts as much as the feed: no membrane is at work between them.
pub(super) static PRODUCT_BELOW_FEED: Criterion = Criterion {
    id: "product-below-feed",
    sentence: "Product conductivity, below that of the feed",
    stage: Stage::Membrane,
    side: Side::Below,
    forecast: false,
    source: &source::MASS_BALANCE,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

/// Raised where the product conducts as much as the feed or more.
pub(super) static HOLD: Caution = Caution {
    id: "product-above-feed",
    text: "Hold: do not use this water. Product as conductive as the feed, or more, has three usual causes: disinfectant, cleaner or salt still in the RO (residual), a torn or missing seal, or swapped probes or samples. Test for the residual of the last disinfection first, read again with the probes exchanged, and follow the RO's instructions.",
};

/// A rise of the salt passage by this factor asks for a look (common practice, no source: 5 to 10 %).
const LOOK_AGAIN: f64 = 1.1;

static CONDUCTIVITY_IS_NO_TEST: Caution = Caution {
    id: "conductivity-is-no-contaminant-test",
    text: "Rejection by conductivity shows that the membrane holds back salt. It does not show that nitrate, fluoride, aluminium (aluminum), lead or chloramine are low. Only their own tests do.",
};

pub(super) static BASELINE_COUNTS: Caution = Caution {
    id: "baseline-counts",
    text: "Compare rejection with this RO's own baseline, on this water and near the same temperature, since salt passes more slowly in cold water: 95 % can be sound on soft water, 90 % can be a failed membrane on hard water. From 98 % to 96 % the salt passage doubles.",
};

sheet! {
    /// The share of the salt that the membrane holds back (rejection), and the share that passes.
    Rejection, "rejection", "Rejection and salt passage", Stage::Membrane,
    also: &["percent rejection", "salt passage", "permeate conductivity"],
    sources: &[&source::MASS_BALANCE, &source::SOLUTION_DIFFUSION, &source::COMMON_PRACTICE],
    cautions: &[&CONDUCTIVITY_IS_NO_TEST, &BASELINE_COUNTS],
    criteria: &[&PRODUCT_BELOW_FEED, &PASSAGE_RATIO],
    inputs: {
        feed     "feed-conductivity":    Conductivity = membrane::FEED_CONDUCTIVITY,
        product  "product-conductivity": Conductivity = membrane::PRODUCT_CONDUCTIVITY,
        recovery "recovery":             Known<Ratio> = membrane::RECOVERY,
        baseline "baseline-rejection":   Known<Ratio> = membrane::BASELINE_REJECTION,
    }
    outputs Outputs: {
        rejection "rejection":          Ratio        = Term::number(&RATIO, "Rejection, feed basis", "R"),
        passage   "salt-passage":       Ratio        = Term::number(&RATIO, "Salt passage, feed basis", "SP"),
        on_mean   "mean-rejection":     Known<Ratio> = Term::number(&RATIO, "Rejection, average basis", "R_mean"),
        ratio     "salt-passage-ratio": Known<f64>   = Term::number(&NUMBER, "Salt passage over the baseline", "SP/SP_0"),
    }
}

impl Evaluate for Rejection {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &Rejection { feed, product, recovery, baseline } = self;
        w.judge(&PRODUCT_BELOW_FEED, product, feed);
        if product >= feed {
            w.caution(&HOLD);
        }
        step!(w, passage "SP": Ratio = product / feed);
        step!(w, rejection "R" = 1.0 - passage);
        let on_mean = known_mean_factor(recovery, w).map(|mean_factor| {
            step!(w, on_mean "R_mean" = 1.0 - passage / mean_factor);
            on_mean
        });
        let ratio = baseline.map(|baseline| {
            step!(w, ratio "SP/SP_0" = passage / (1.0 - baseline));
            at_limit(ratio, LOOK_AGAIN)
        });
        w.judge_known(&PASSAGE_RATIO, ratio, Ok(LOOK_AGAIN));
        Ok(Outputs { rejection, passage, on_mean, ratio })
    }
}

/// A ratio that differs from its limit only by rounding is the limit: 11 over 10 is 1.1, and must not pass as less.
pub(crate) fn at_limit<Q: Quantity>(ratio: Q, limit: Q) -> Q {
    if (ratio.si() - limit.si()).abs() <= 1e-12 * limit.si().abs() { limit } else { ratio }
}
