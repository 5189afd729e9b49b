//! The highest recovery at which no scale is expected: each index, solved backwards.

use super::concentrate::{Feed, Side};
use crate::choice;
use crate::engine::quantity::Ratio;
use crate::engine::sheet::{Known, Missing};
use crate::engine::solve::bracket::{Ended, Point, narrow};

choice!(/// What can form on the membrane.
Scale {
    Calcite "calcite" "Calcium carbonate (calcite)",
    Silica "silica" "Amorphous silica",
    Gypsum "gypsum" "Calcium sulfate (gypsum)",
});

/// Up to here it is looked for.
pub(super) const HIGHEST: f64 = 0.9;

/// Where a limit is met.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Highest {
    At(Ratio),
    /// The feed itself is beyond it.
    Exceeded,
    /// Not up to [`HIGHEST`].
    NotReached,
    Unknown(Missing),
}

impl Highest {
    /// Where `above`, which rises with the recovery, passes nothing.
    pub fn of(feed: &Feed, above: impl Fn(&Side) -> Known<f64>) -> Self {
        if let Err(missing) = above(&feed.side()) {
            return if missing.is_none() { Self::NotReached } else { Self::Unknown(missing) };
        }
        // over the logarithm of what is left of the water, in which every index is nearly straight
        let recovery = |u: f64| Ratio::of(1.0 - (-u).exp());
        let at = |u: f64| {
            let side = if u > 0.0 { feed.reject(feed.factor(recovery(u))) } else { Ok(feed.side()) };
            Point { x: u, above: side.and_then(|side| above(&side)).unwrap_or(f64::NAN) }
        };
        let (low, high) = (at(0.0), at(-(1.0 - HIGHEST).ln()));
        if low.above >= 0.0 {
            return Self::Exceeded;
        }
        if high.above < 0.0 {
            return Self::NotReached;
        }
        if high.above.is_nan() {
            return Self::Unknown(Missing::not_known("feed-report", TOO_SALTY));
        }
        match narrow(low, high, 1e-11, &mut { at }) {
            Ended::Equal(_, point, _) => Self::At(recovery(point.x)),
            Ended::Across(left, _) => Self::At(recovery(left.x)),
            Ended::Missing(..) => Self::Unknown(Missing::not_known("feed-report", TOO_SALTY)),
        }
    }

    /// The recovery, or why there is none.
    pub fn known(self) -> Known<Ratio> {
        match self {
            Self::At(recovery) => Ok(recovery),
            Self::Exceeded => Err(Missing::none_exists("the feed itself is at the limit or past it")),
            Self::NotReached => Err(Missing::none_exists("not reached up to a recovery of 90 %")),
            Self::Unknown(missing) => Err(missing),
        }
    }

    /// Of several, the one that binds first. What is not known could be lower than all others.
    pub fn first(all: &[Highest]) -> Highest {
        if all.contains(&Self::Exceeded) {
            return Self::Exceeded;
        }
        if let Some(unknown) = all.iter().find(|one| matches!(one, Self::Unknown(_))) {
            return *unknown;
        }
        let recoveries = all
            .iter()
            .filter_map(|one| if let Self::At(recovery) = one { Some(recovery.si()) } else { None });
        let lowest = recoveries.fold(f64::INFINITY, f64::min);
        if lowest.is_finite() { Self::At(Ratio::of(lowest)) } else { Self::NotReached }
    }
}

const TOO_SALTY: &str = "the reject becomes too salty for this method";
