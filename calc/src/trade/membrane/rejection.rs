//! Rejection and salt passage, on the feed and on the mean basis, and against this RO's own baseline.
//!
//! By mass balance. Conductivity says nothing of a single contaminant: each at its limit is nearly invisible in it.

use super::recovery::known_mean_factor;
use crate::engine::quantity::{
    Conductivity, Ratio,
    kinds::{NUMBER, RATIO},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Problem, Sentence, Side, Stage, Stop, Term, Working, source,
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

/// A rise of the salt passage by this factor asks for a look (common practice, no source: 5 to 10 %).
const LOOK_AGAIN: f64 = 1.1;

static CONDUCTIVITY_IS_NO_TEST: Caution = Caution {
    id: "conductivity-is-no-contaminant-test",
    text: "Rejection by conductivity says that the membrane holds salt back. It does not show that nitrate, fluoride, aluminium, lead or chloramine are low: only their own tests do.",
};

static BASELINE_COUNTS: Caution = Caution {
    id: "baseline-counts",
    text: "Judge rejection against this RO's own baseline on this water: 95 % is sound on soft water, 90 % may be a failed membrane on hard. From 98 to 96 % the salt passage has doubled.",
};

sheet! {
    /// The share of the salt that the membrane holds back (rejection), and the share that passes.
    Rejection, "rejection", "Rejection and salt passage", Stage::Membrane,
    sources: &[&source::MASS_BALANCE, &source::SOLUTION_DIFFUSION, &source::COMMON_PRACTICE],
    cautions: &[&CONDUCTIVITY_IS_NO_TEST, &BASELINE_COUNTS],
    criteria: &[&PASSAGE_RATIO],
    inputs: {
        feed     "feed-conductivity":    Conductivity = membrane::FEED_CONDUCTIVITY,
        product  "product-conductivity": Conductivity = membrane::PRODUCT_CONDUCTIVITY,
        recovery "recovery":             Known<Ratio> = membrane::RECOVERY,
        baseline "baseline-rejection":   Known<Ratio> = membrane::BASELINE_REJECTION,
    }
    outputs Outputs: {
        rejection "rejection":          Ratio        = Term::number(&RATIO, "Rejection, on the feed", "R"),
        passage   "salt-passage":       Ratio        = Term::number(&RATIO, "Salt passage, on the feed", "SP"),
        on_mean   "mean-rejection":     Known<Ratio> = Term::number(&RATIO, "Rejection, on the mean of the feed side", "R_mean"),
        ratio     "salt-passage-ratio": Known<f64>   = Term::number(&NUMBER, "Salt passage over the baseline's", "SP/SP_0"),
    }
}

impl Evaluate for Rejection {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &Rejection { feed, product, recovery, baseline } = self;
        if product > feed {
            let sentence = Sentence::plain(
                "the product ({product}) conducts more than the feed ({feed}); look whether the two readings are swapped",
            );
            return Err(Problem::new(
                "product-conductivity",
                sentence.quantity("product", product).quantity("feed", feed),
            )
            .into());
        }
        step!(w, passage "SP": Ratio = product / feed);
        step!(w, rejection "R" = 1.0 - passage);
        let on_mean = known_mean_factor(recovery, w).map(|mean_factor| {
            step!(w, on_mean "R_mean" = 1.0 - passage / mean_factor);
            on_mean
        });
        let ratio = baseline.map(|baseline| {
            step!(w, ratio "SP/SP_0" = passage / (1.0 - baseline));
            ratio
        });
        w.judge_known(&PASSAGE_RATIO, ratio, Ok(LOOK_AGAIN));
        Ok(Outputs { rejection, passage, on_mean, ratio })
    }
}
