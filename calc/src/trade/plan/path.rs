//! The water path through tap, cart and RO to the dialysis machine: which numbers are shown at which spot.

use crate::engine::sheet::Stage;

/// Something that is shown at a spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// An input of the plan.
    Entered(&'static str),
    /// An output of the plan.
    Answered(&'static str),
    /// The number of a check, at its worst time of the year: the id of its criterion, and its case.
    Checked(&'static str, &'static str),
    /// What only a test at the spot can tell.
    ByTest,
}

/// A spot on the path.
#[derive(Debug)]
pub struct Spot {
    /// Where it is.
    pub stage: Stage,
    /// In words.
    pub name: &'static str,
    /// What is shown there, each with a short name.
    pub shows: &'static [(&'static str, Shown)],
}

use Shown::{Answered, ByTest, Checked, Entered};

/// The path, in the order of the water.
pub static WAY: &[Spot] = &[
    Spot {
        stage: Stage::Tap,
        name: "Tap",
        shows: &[
            ("Static pressure", Entered("shut-pressure")),
            ("Highest flow, running", Answered("feed-warmest")),
            ("Highest flow, in flush", Answered("flush-warmest")),
            ("Total chlorine", Entered("total-chlorine")),
            ("Hardness", Entered("hardness")),
            ("Conductivity", Entered("conductivity")),
            ("TDS, high estimate", Answered("high-salt")),
        ],
    },
    Spot {
        stage: Stage::Sediment,
        name: "Sediment filter",
        shows: &[
            ("Pressure drop now", Entered("filter-drop")),
            ("Highest pressure drop", Answered("lowest-filter-limit")),
            ("Left for filter and line", Answered("line-spare")),
            ("10-inch lengths needed", Answered("needed-ten-inch-equivalents")),
        ],
    },
    Spot {
        stage: Stage::Softener,
        name: "Softener",
        shows: &[
            ("Resin", Entered("resin-volume")),
            ("Lasts, RO running", Answered("softener-hours")),
            ("Hardness after the softener", ByTest),
        ],
    },
    Spot {
        stage: Stage::Carbon,
        name: "Carbon",
        shows: &[
            ("EBCT, running", Checked("contact-time", "running")),
            ("EBCT, in flush", Checked("contact-time", "flush")),
            ("Total chlorine after the carbon", ByTest),
        ],
    },
    Spot {
        stage: Stage::Membrane,
        name: "RO membrane",
        shows: &[
            ("Inlet pressure, running", Checked("inlet-pressure", "running")),
            ("Inlet pressure, in flush", Checked("inlet-pressure", "flush")),
            ("Product flow, coldest water", Answered("capacity-coldest")),
            ("Recovery, warmest water", Answered("recovery-warmest")),
            ("Calcite index of the reject", Checked("calcite-in-reject", "")),
            ("Reject flow to set, at least", Answered("needed-reject-flow")),
        ],
    },
    Spot {
        stage: Stage::Machine,
        name: "Dialysis machine",
        shows: &[
            ("Required product flow", Answered("demand")),
            ("Heater power needed", Answered("needed-heater-power")),
            ("Product conductivity", ByTest),
        ],
    },
    Spot {
        stage: Stage::Drain,
        name: "Drain",
        shows: &[
            ("To the drain, running", Checked("drain-load", "running")),
            ("To the drain, in flush", Checked("drain-load", "flush")),
            ("Drain capacity", Entered("drain-flow")),
        ],
    },
    Spot {
        stage: Stage::Day,
        name: "A day",
        shows: &[
            ("Sessions that fit", Answered("sessions-that-fit")),
            ("Feed water per day", Answered("day-feed-volume")),
            ("Water cost per session", Answered("session-cost")),
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Sheet;
    use crate::trade::plan::Plan;

    #[test]
    fn everything_shown_is_declared() {
        let plan = Plan::DECLARATION;
        for (_, shown) in WAY.iter().flat_map(|spot| spot.shows) {
            let declared = match shown {
                Entered(id) => plan.input(id).is_some(),
                Answered(id) => plan.output(id).is_some(),
                Checked(id, _) => plan.criteria.iter().any(|criterion| criterion.id == *id),
                ByTest => true,
            };
            assert!(declared, "{shown:?}");
        }
        assert!(WAY.is_sorted_by_key(|spot| Stage::ALL.iter().position(|stage| *stage == spot.stage)));
    }
}
