//! What goes down the drain at each time of the year.

use super::Plan;
use crate::engine::quantity::{Flow, kinds};
use crate::engine::sheet::{Known, Sheet, Term, Working, part};
use crate::output_row;
use crate::trade::drain::{DRAIN_TAKES, DrainLoad};
use crate::trade::membrane::{Season, SeasonFlow};

output_row! {
    /// What goes down the drain at one time of the year.
    DrainedAt {
        season  "season":  Season      = Term::other("When"),
        running "running": Known<Flow> = Term::number(&kinds::FLOW, "To the drain, running", "Q_w"),
        flush   "flush":   Known<Flow> = Term::number(&kinds::FLOW, "To the drain, in flush", "Q_w"),
    }
}

impl Plan {
    /// Load on the drain, running and in flush, each at its worst time of the year.
    pub(super) fn drained(
        &self,
        seasons: &[SeasonFlow],
        demand: Known<Flow>,
        w: &mut Working,
    ) -> Vec<DrainedAt> {
        w.worst_season(|w| {
            self.telling(seasons)
                .map(|at| w.in_season(at.season.when(), |w| self.drained_at(at, demand, w)))
                .collect()
        })
    }

    fn drained_at(&self, at: &SeasonFlow, demand: Known<Flow>, w: &mut Working) -> DrainedAt {
        let drained = w.stage(&[&DRAIN_TAKES], |w| {
            let sheet = DrainLoad {
                feed: at.feed,
                flush: at.flush,
                product: at.product,
                // all that they draw leaves them as spent dialysate or rinse
                effluent: self.effluent.and_then(|effluent| effluent.map_or(demand, Ok)),
                surplus: self.surplus?,
                takes: self.drain_takes,
            };
            sheet.run(w)
        });
        DrainedAt {
            season: at.season,
            running: part(&drained, |drained| drained.running),
            flush: part(&drained, |drained| drained.flushing),
        }
    }
}
