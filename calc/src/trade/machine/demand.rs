//! What the dialysis machines draw from the RO: the required product flow, and the water per session and per day.
//!
//! The highest flow is a design convention of the trade: an allowance on the dialysate flow of all machines, or one
//! machine's peak beside the others' treatment, whichever is more; two peaks never at once.

use crate::engine::quantity::{Flow, Ratio, Time, Volume, kinds::FLOW, kinds::NUMBER, kinds::VOLUME};
use crate::engine::sheet::{Caution, Evaluate, Known, Stage, Stop, Term, Working, source};
use crate::trade::terms::machine;
use crate::{choice, sheet, step};

choice!(/// Whether rinses are kept out of other sessions.
    Rinses { Any "any-time" "Yes, at any time", Apart "kept-apart" "No, rinses are kept out of other sessions" });

pub(super) static PRESCRIBER_DECIDES: Caution = Caution {
    id: "prescriber-decides",
    text: "The dialysate flow is prescribed. Never lower it to fit the water unless the prescriber decides so.",
};

sheet! {
    /// The product flow that the machines need, and the product water per session and per day.
    MachineDemand, "machine-demand", "Required product flow", Stage::Machine,
    also: &["dialysate flow", "GPD"],
    sources: &[&source::COMMON_PRACTICE],
    cautions: &[&PRESCRIBER_DECIDES],
    criteria: &[],
    inputs: {
        machines  "machines":       f64            = machine::MACHINES,
        dialysate "dialysate-flow": Flow           = machine::DIALYSATE_FLOW,
        peak      "peak-draw":      Known<Flow>    = machine::PEAK_DRAW,
        rinses    "rinses":         Option<Rinses> = machine::RINSES,
        margin    "demand-margin":  Option<f64>    = machine::DEMAND_MARGIN,
        time      "session-time":   Known<Time>    = machine::SESSION_TIME,
        share     "water-share":    Option<Ratio>  = machine::WATER_SHARE,
        extra     "extra-water":    Option<Volume> = machine::EXTRA_WATER,
        sessions  "sessions":       Known<f64>     = machine::SESSIONS,
    }
    outputs Outputs: {
        demand      "demand":          Known<Flow>   = Term::number(&FLOW, "Required product flow", "Q_need"),
        steady      "steady-demand":   Flow          = Term::number(&FLOW, "All machines treating, with demand allowance", "Q_steady"),
        overlapping "overlap-demand":  Known<Flow>   = Term::number(&FLOW, "One machine at its peak draw, the others treating", "Q_overlap"),
        raised      "demand-raised":   Known<f64>    = Term::number(&NUMBER, "Demand allowance, as a factor on the required flow", "k_m"),
        a_session   "session-volume":  Known<Volume> = Term::number(&VOLUME, "Product water per session", "V_s"),
        a_day       "day-volume":      Known<Volume> = Term::number(&VOLUME, "Product water per day", "V_d"),
    }
}

/// Allowance on the dialysate flow (common practice, no source).
pub const MARGIN: f64 = 1.2;

impl Evaluate for MachineDemand {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &MachineDemand { machines, dialysate, .. } = self;
        let margin = self.margin.unwrap_or(MARGIN);
        w.bind("margin", "m", margin);
        step!(w, steady "Q_steady" = margin * machines * dialysate);
        let overlapping = self.peak.map(|peak| match self.rinses {
            Some(Rinses::Apart) => peak,
            Some(Rinses::Any) | None => {
                step!(w, overlapping "Q_overlap" = (machines - 1.0) * dialysate + peak);
                overlapping
            }
        });
        let demand = overlapping.map(|overlapping| {
            w.bind("overlapping", "Q_overlap", overlapping);
            step!(w, demand "Q_need" = steady.max(overlapping));
            demand
        });
        let raised = demand.and_then(|demand| {
            let overlapping = overlapping?;
            w.bind("demand", "Q_need", demand);
            step!(w, raised "k_m" = demand / (machines * dialysate).max(overlapping));
            Ok(raised)
        });
        let a_session = self.time.map(|time| {
            let (share, extra) =
                (self.share.unwrap_or(Ratio::of(1.0)), self.extra.unwrap_or(Volume::of(0.0)));
            w.bind("share", "f_w", share);
            w.bind("extra", "V_x", extra);
            step!(w, a_session "V_s" = dialysate * time * share + extra);
            a_session
        });
        let a_day = a_session.and_then(|a_session| {
            let sessions = self.sessions?;
            step!(w, a_day "V_d" = sessions * a_session);
            Ok(a_day)
        });
        Ok(Outputs { demand, steady, overlapping, raised, a_session, a_day })
    }
}
