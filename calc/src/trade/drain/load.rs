//! What must go down the drain, running and in flush, against the drain capacity that a bucket test showed.
//!
//! By conservation of mass: what enters the RO and is not drawn by a machine leaves as reject or surplus, and what a
//! machine draws leaves as spent dialysate. Not covered: the salt of the concentrates and the water taken off the
//! patient, a few per cent of the dialysate.

use crate::engine::quantity::{Flow, kinds::FLOW};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Problem, Sentence, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::cases;
use crate::trade::membrane::NEVER_FLUSHES;
use crate::trade::terms::{drain, membrane, tap};
use crate::{choice, sheet, step};

choice!(/// Where surplus product water goes.
Surplus {
    Drain "drain" "To the drain",
    Pump "pump" "Back to the RO's pump",
    None "none" "No surplus: the RO makes only what is drawn",
});

/// What must go down, within what was poured down.
pub static DRAIN_TAKES: Criterion = Criterion {
    id: "drain-load",
    sentence: "Flow to the drain, within its capacity",
    stage: Stage::Drain,
    side: Side::AtMost,
    forecast: true,
    source: &source::MASS_BALANCE,
    levers: &["reject-flow", "flush-reject-flow"],
    cases: &[cases::RUNNING, cases::FLUSH],
    judges: Judges::Each(&[("running", "drained-running"), ("flush", "drained-flush")]),
};

static AIR_GAP: Caution = Caution {
    id: "air-gap",
    text: "The drain line ends above the drain with an air gap, never in it. After a heat disinfection the drain must withstand the heat. Local plumbing codes and facilities (estates) decide.",
};

sheet! {
    /// What reject, surplus and machines send to the drain, against the drain capacity.
    DrainLoad, "drain-load", "Drain load", Stage::Drain,
    also: &["air gap", "wastewater"],
    sources: &[&source::MASS_BALANCE],
    cautions: &[&AIR_GAP],
    criteria: &[&DRAIN_TAKES],
    inputs: {
        feed     "running-flow":     Known<Flow>     = tap::RUNNING_FLOW,
        flush    "flush-flow":       Known<Flow>     = tap::FLUSH_FLOW,
        product  "product-flow":     Known<Flow>     = membrane::PRODUCT_FLOW,
        effluent "machine-effluent": Known<Flow>     = drain::MACHINE_EFFLUENT,
        surplus  "surplus":          Option<Surplus> = drain::SURPLUS,
        takes    "drain-flow":       Known<Flow>     = drain::DRAIN_FLOW,
    }
    outputs Outputs: {
        running  "drained-running": Known<Flow> = Term::number(&FLOW, "Flow to the drain, running", "Q_w"),
        flushing "drained-flush":   Known<Flow> = Term::number(&FLOW, "Flow to the drain, in flush", "Q_w"),
    }
}

impl Evaluate for DrainLoad {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        if let (Ok(feed), Ok(product)) = (self.feed, self.product)
            && product > feed
        {
            let sentence = Sentence::plain(
                "the product flow ({product}) is above the feed flow ({feed}) that it is made from: check both and their units",
            );
            let sentence = sentence.quantity("product", product).quantity("feed", feed);
            return Err(Problem::new("product-flow", sentence).into());
        }
        if let (Ok(flush), Ok(product)) = (self.flush, self.product)
            && flush.si() > 0.0
            && product > flush
        {
            let sentence = Sentence::plain(
                "the feed flow in flush ({flush}) is product and reject together, and the product flow alone is {product}: check both and their units",
            );
            let sentence = sentence.quantity("product", product).quantity("flush", flush);
            return Err(Problem::new("flush-flow", sentence).into());
        }
        let never = match self.flush {
            Ok(flow) => flow.si() == 0.0,
            Err(missing) => missing.is_none(),
        };
        let running = w.in_case(cases::RUNNING, |w| {
            let drained = self.drained(self.feed, w);
            w.judge_known(&DRAIN_TAKES, drained, self.takes);
            drained
        });
        let flushing = if never {
            Err(NEVER_FLUSHES)
        } else {
            w.in_case(cases::FLUSH, |w| {
                let drained = self.drained(self.flush, w);
                w.judge_known(&DRAIN_TAKES, drained, self.takes);
                drained
            })
        };
        Ok(Outputs { running, flushing })
    }
}

impl DrainLoad {
    /// What leaves of a flow that enters.
    fn drained(&self, feed: Known<Flow>, w: &mut Working) -> Known<Flow> {
        let (feed, product, effluent) = (feed?, self.product?, self.effluent?);
        w.bind("entering", "Q_f", feed);
        let entering = feed;
        match self.surplus {
            Some(Surplus::Pump) => {
                step!(w, drained "Q_w" = entering - product + effluent);
                Ok(drained)
            }
            // a tank or the line may give a machine more for a while than the RO makes; an RO that makes only what is drawn
            // pushes what it makes less into the reject
            Some(Surplus::Drain | Surplus::None) | None => {
                step!(w, drained "Q_w" = entering - product + product.max(effluent));
                Ok(drained)
            }
        }
    }
}
