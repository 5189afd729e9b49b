//! What is drawn of the plan's numbers.

use crate::engine::sheet::Shown::{Answered, At, ByTest, Entered};
use crate::engine::sheet::{Draws, Figure, Flight, Months, Read, Shown, Spot, Stage, Tool};
use crate::trade::day::{CLOCKED, DAY};
use crate::trade::membrane::Season;
use crate::trade::tap::{INLET_PRESSURE, PRESSURE_ALONG, PRESSURE_STEPS, STATIC};

/// The same in any month of the year: the water of that month runs from the tap.
const BY_MONTH: Months =
    Months { table: ["months", "month", "temperature"], field: "tap-temperature", time: Season::Today.id() };

/// The pressure on its way to the RO.
pub static STAIRS: Figure = Figure {
    id: "pressure-stairs",
    name: "Pressure from the tap to the RO inlet",
    about: "Each step down is what tap, hose, filter and rest of the line take at the flow of that time of the year.",
    opens_at: Some(&INLET_PRESSURE),
    months: Some(BY_MONTH),
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
    months: Some(BY_MONTH),
    draws: Draws::Path {
        cases: &[("running", "Running"), ("flush", "In flush")],
        spots: &[
            Spot {
                stage: Stage::Tap,
                name: "Tap",
                reads: &[
                    Read { tool: Tool::Gauge, field: "shut-pressure" },
                    Read { tool: Tool::Jug, field: "open-flow" },
                    Read { tool: Tool::Gauge, field: "open-pressure" },
                    Read { tool: Tool::Thermometer, field: "tap-temperature" },
                    Read { tool: Tool::Sample, field: "total-chlorine" },
                    Read { tool: Tool::Sample, field: "free-chlorine" },
                    Read { tool: Tool::Sample, field: "hardness" },
                    Read { tool: Tool::Sample, field: "conductivity" },
                ],
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
                reads: &[
                    Read { tool: Tool::Gauge, field: "filter-drop" },
                    Read { tool: Tool::Thermometer, field: "filter-drop-temperature" },
                ],
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
                reads: &[Read { tool: Tool::Sample, field: "hardness-after-softener" }],
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
                reads: &[Read { tool: Tool::Sample, field: "inlet-free-chlorine" }],
                flow: FEED,
                shows: &[
                    ("EBCT, all carbon", &[At("carbon", "running-total"), At("carbon", "flush-total")]),
                    ("Total chlorine after it", &[ByTest]),
                ],
            },
            Spot {
                stage: Stage::Membrane,
                name: "RO membrane",
                reads: &[
                    Read { tool: Tool::Jug, field: "product-flow" },
                    Read { tool: Tool::Jug, field: "reject-flow" },
                    Read { tool: Tool::Jug, field: "flush-reject-flow" },
                    Read { tool: Tool::Thermometer, field: "anchor-temperature" },
                ],
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
                reads: &[],
                flow: &[At("seasons", "product"), At("seasons", "product")],
                shows: &[
                    ("Required product flow", &[Answered("demand")]),
                    ("Product conductivity", &[ByTest]),
                ],
            },
            Spot {
                stage: Stage::Drain,
                name: "Drain",
                reads: &[Read { tool: Tool::Jug, field: "drain-flow" }],
                flow: &[At("drained", "running"), At("drained", "flush")],
                shows: &[("Drain capacity", &[Entered("drain-flow")])],
            },
        ],
    },
};

/// What the RO draws, through everything before it.
const FEED: &[Shown] = &[At("seasons", "feed"), At("seasons", "flush")];
