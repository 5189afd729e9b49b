//! The pressure drop of the sediment filter that this room can afford, at each time of the year.

use super::{InletAt, Plan};
use crate::engine::quantity::{PressureDifference, kinds};
use crate::engine::sheet::{Known, Missing, Sheet, Term, Working, part};
use crate::output_row;
use crate::trade::membrane::{Season, SeasonFlow};
use crate::trade::sediment::{FILTER_LIMIT, FilterLimit};
use crate::trade::terms::tap::FILTER_DROP_TEMPERATURE;

output_row! {
    /// What the room can afford at one time of the year, at the flow and temperature at which the drop was read.
    FilterLimitAt {
        season "season":       Season                    = Term::other("When"),
        limit  "filter-limit": Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Highest pressure drop for this room", "Δp_limit"),
        spare  "filter-spare": Known<PressureDifference> = Term::number(&kinds::PRESSURE_DIFFERENCE, "Left until the filter must be changed", "Δp_left"),
    }
}

impl Plan {
    /// The limit of the filter, judged at its worst time of the year.
    pub(super) fn filter_limits(
        &self,
        seasons: &[SeasonFlow],
        inlet: &[InletAt],
        w: &mut Working,
    ) -> Vec<FilterLimitAt> {
        w.worst_season(|w| {
            let both = seasons.iter().zip(inlet);
            both.map(|(at, left)| w.in_season(at.season.when(), |w| self.filter_limit_at(at, left, w)))
                .collect()
        })
    }

    fn filter_limit_at(&self, at: &SeasonFlow, left: &InletAt, w: &mut Working) -> FilterLimitAt {
        let limit = w.stage(&[&FILTER_LIMIT], |w| {
            let sheet = FilterLimit {
                running: at.feed,
                flush: at.flush,
                temperature: at.temperature?,
                left_running: left.running,
                left_flush: left.flush,
                least: self.least_inlet?,
                filter_drop: self.filter_there()?,
                filter_flow: self.filter_flow?,
                filter_temperature: self.filter_temperature?,
            };
            sheet.run(w)
        });
        FilterLimitAt {
            season: at.season,
            limit: part(&limit, |limit| limit.limit),
            spare: part(&limit, |limit| limit.spare),
        }
    }

    /// The same of the filter as it is now. No drop at all says that there is no filter, which cartridges contradict.
    fn filter_there(&self) -> Known<PressureDifference> {
        let drop = self.filter_read(self.filter_drop)?;
        if drop.si() == 0.0 && self.cartridges?.is_some() {
            return Err(Missing::not_known(
                "filter-drop",
                "a drop of 0 means that there is no filter, but cartridges are entered: read the drop at a higher flow",
            ));
        }
        Ok(drop)
    }

    /// A drop, which says nothing of other water as long as its own is not known: the cart moves from tap to tap.
    pub(super) fn filter_read(&self, drop: Known<PressureDifference>) -> Known<PressureDifference> {
        let drop = drop?;
        if drop.si() > 0.0 && self.filter_temperature?.is_none() {
            return Err(Missing::empty("filter-drop-temperature", FILTER_DROP_TEMPERATURE.name));
        }
        Ok(drop)
    }
}

/// The lowest of the year.
pub(super) fn lowest(
    mut differences: impl Iterator<Item = Known<PressureDifference>>,
) -> Known<PressureDifference> {
    let first = differences.next().unwrap_or(Err(super::stages::NO_SEASON))?;
    differences.try_fold(first, |lowest, difference| Ok(lowest.min(difference?)))
}
