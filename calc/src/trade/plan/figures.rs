//! What is drawn of the plan's numbers.

use crate::engine::sheet::Shown::{Answered, At, ByTest, Entered};
use crate::engine::sheet::{Draws, Figure, Flight, Shown, Spot, Stage};
use crate::trade::day::{CLOCKED, DAY};
use crate::trade::tap::{INLET_PRESSURE, PRESSURE_ALONG, PRESSURE_STEPS, STATIC};

/// The pressure on its way to the RO.
pub static STAIRS: Figure = Figure {
    id: "pressure-stairs",
    name: "Pressure from the tap to the RO inlet",
    about: "Each step down is what tap, hose, filter and rest of the line take at the flow of that time of the year.",
    opens_at: Some(&INLET_PRESSURE),
    draws: Draws::Stairs {
        quantity: PRESSURE_ALONG.0,
        along: PRESSURE_ALONG.1,
        steps: PRESSURE_STEPS,
        flights: &[
            Flight {
                name: "running, filter as it is",
                at: &stairs("tap-running", "filter-running", "running"),
            },
            Flight { name: "in flush, filter as it is", at: &stairs("tap-flush", "filter-flush", "flush") },
            Flight {
                name: "running, filter loaded",
                at: &stairs("tap-running", "filter-running", "running-loaded"),
            },
            Flight {
                name: "in flush, filter loaded",
                at: &stairs("tap-flush", "filter-flush", "flush-loaded"),
            },
        ],
        least: Shown::Entered("least-inlet-pressure"),
    },
};

const fn stairs(tap: &'static str, filter: &'static str, inlet: &'static str) -> [Shown; 4] {
    [STATIC, At("inlet", tap), At("inlet", filter), At("inlet", inlet)]
}

/// A day of this place.
pub static DAY_OF_PLACE: Figure = Figure { draws: Draws::Clock(CLOCKED), ..DAY };

/// The water on its way from the tap to the dialysis machine, and what leaves it for the drain.
pub static WATER_PATH: Figure = Figure {
    id: "water-path",
    name: "Water path",
    about: "The pipe is as wide as the flow. What cannot be computed after a filter is marked “by test only”.",
    opens_at: None,
    draws: Draws::Path {
        cases: &[("running", "Running"), ("flush", "In flush")],
        spots: &[
            Spot {
                stage: Stage::Tap,
                name: "Tap",
                flow: FEED,
                shows: &[
                    ("Static pressure", &[Entered("shut-pressure")]),
                    ("Pressure at this flow", &[At("inlet", "tap-running"), At("inlet", "tap-flush")]),
                    ("Total chlorine", &[Entered("total-chlorine")]),
                    ("Hardness", &[Entered("hardness")]),
                    ("Conductivity", &[Entered("conductivity")]),
                ],
            },
            Spot {
                stage: Stage::Sediment,
                name: "Sediment filter",
                flow: FEED,
                shows: &[
                    ("Pressure before it", &[At("inlet", "filter-running"), At("inlet", "filter-flush")]),
                    ("Pressure drop now", &[Entered("filter-drop")]),
                    ("Highest for this room", &[At("filter-limits", "filter-limit")]),
                ],
            },
            Spot {
                stage: Stage::Softener,
                name: "Softener",
                flow: FEED,
                shows: &[
                    ("Resin", &[Entered("resin-volume")]),
                    ("Lasts, RO running", &[At("softener", "hours")]),
                    ("Hardness after it", &[ByTest]),
                ],
            },
            Spot {
                stage: Stage::Carbon,
                name: "Carbon",
                flow: FEED,
                shows: &[
                    ("EBCT, all carbon", &[At("carbon", "running-total"), At("carbon", "flush-total")]),
                    ("Total chlorine after it", &[ByTest]),
                ],
            },
            Spot {
                stage: Stage::Membrane,
                name: "RO membrane",
                flow: FEED,
                shows: &[
                    ("Inlet pressure", &[At("inlet", "running"), At("inlet", "flush")]),
                    ("Least inlet pressure", &[Entered("least-inlet-pressure")]),
                    ("Recovery, running", &[At("seasons", "recovery")]),
                ],
            },
            Spot {
                stage: Stage::Machine,
                name: "Dialysis machine",
                flow: &[At("seasons", "product"), At("seasons", "product")],
                shows: &[
                    ("Required product flow", &[Answered("demand")]),
                    ("Product conductivity", &[ByTest]),
                ],
            },
            Spot {
                stage: Stage::Drain,
                name: "Drain",
                flow: &[At("drained", "running"), At("drained", "flush")],
                shows: &[("Drain capacity", &[Entered("drain-flow")])],
            },
        ],
    },
};

/// What the RO draws, through everything before it.
const FEED: &[Shown] = &[At("seasons", "feed"), At("seasons", "flush")];
