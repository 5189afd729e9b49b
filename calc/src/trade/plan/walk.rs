//! The fields of the plan in the order in which a technician meets them: first what one walk to the tap gives, then
//! what papers, labels and a quiet hour give.

/// Some fields that are read at one spot.
#[derive(Debug)]
pub struct Group {
    /// Permanent, kebab-case.
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// What to have at hand.
    pub about: &'static str,
    /// The ids of its fields.
    pub fields: &'static [&'static str],
}

/// What fifteen minutes at the tap give.
pub static AT_THE_TAP: &[Group] = &[
    Group {
        id: "the-place",
        name: "The place",
        about: "Ask facilities (estates).",
        fields: &["place-name", "ro-name", "source", "building-dosing", "disinfectant"],
    },
    Group {
        id: "the-water",
        name: "Water temperature",
        about: "Let the tap run until the reading is steady.",
        fields: &["tap-temperature", "coldest-temperature", "warmest-temperature"],
    },
    Group {
        id: "the-tap",
        name: "Tap pressure and flow",
        about: "A gauge on the tap, and a timed jug test (bucket test).",
        fields: &["shut-pressure", "jug-volume", "jug-time", "open-flow", "open-pressure"],
    },
    Group {
        id: "the-tests",
        name: "Water tests",
        about: "A chlorine test, a hardness drop test, a conductivity meter.",
        fields: &["total-chlorine", "free-chlorine", "hardness", "conductivity"],
    },
    Group { id: "the-hose", name: "Hose", about: "From the tap to the RO.", fields: &["hoses"] },
    Group {
        id: "the-cart",
        name: "Carbon and softener",
        about: "From the labels on the vessels or cartridges.",
        fields: &["carbon-kind", "bed-volume", "second-bed-volume", "resin-volume"],
    },
    Group {
        id: "the-ro",
        name: "RO",
        about: "As it runs now. Without a flow meter, use a timed jug test.",
        fields: &[
            "product-flow",
            "reject-flow",
            "anchor-temperature",
            "flush-reject-flow",
            "least-inlet-pressure",
        ],
    },
    Group {
        id: "the-machines",
        name: "Dialysis machines",
        about: "What they draw. The prescriber decides the dialysate flow.",
        fields: &["machines", "dialysate-flow", "peak-draw"],
    },
];

/// What the papers and a quiet hour give.
pub static IN_DETAIL: &[Group] = &[
    Group {
        id: "control",
        name: "RO control and limits",
        about: "From the RO's instructions.",
        fields: &["control", "label-flow", "pump-pressure", "pressure-limit", "highest-recovery"],
    },
    Group {
        id: "year",
        name: "The year",
        about: "From the utility, a building log, or your own readings over a year.",
        fields: &["months", "highest-total-chlorine", "tempered-temperature", "hot-temperature"],
    },
    Group {
        id: "laboratory",
        name: "Laboratory report of the feed water",
        about: "From the water supplier, or from your own sample. It serves hardness, scale and contaminants.",
        fields: &["feed-report", "feed-ph", "ph-temperature", "limit-set"],
    },
    Group {
        id: "feed-limits",
        name: "Feed water limits of the RO",
        about: "From the RO's instructions. What they leave open is not checked.",
        fields: &[
            "highest-feed-temperature",
            "lowest-feed-temperature",
            "highest-feed-hardness",
            "highest-feed-iron",
            "highest-feed-manganese",
            "highest-feed-turbidity",
            "highest-feed-sdi",
            "highest-feed-free-chlorine",
            "lowest-feed-ph",
            "highest-feed-ph",
        ],
    },
    Group {
        id: "feed-tests",
        name: "More tests of the feed water",
        about: "Needed only where the RO's instructions set a limit.",
        fields: &["iron", "manganese", "turbidity", "feed-sdi", "inlet-free-chlorine", "newer-water-data"],
    },
    Group {
        id: "filter",
        name: "Sediment filter",
        about: "Two gauges, one before and one after it.",
        fields: &[
            "cartridges",
            "cartridge-length",
            "guideline-flow",
            "filter-drop",
            "filter-drop-flow",
            "filter-drop-temperature",
            "filter-change-drop",
        ],
    },
    Group {
        id: "line",
        name: "The rest of the line",
        about: "Everything else between tap and RO that loses pressure.",
        fields: &[
            "line-drop",
            "line-drop-flow",
            "fittings",
            "rise",
            "lowest-shut-pressure",
            "highest-shut-pressure",
            "hose-rating",
        ],
    },
    Group { id: "carbon-rule", name: "Carbon rule", about: "What this place relies on.", fields: &["rule"] },
    Group {
        id: "carbon-label",
        name: "Carbon label",
        about: "From the cartridge label or its test report.",
        fields: &["rated-disinfectant", "rated-volume", "rated-flow", "rated-inlet", "rated-outlet"],
    },
    Group {
        id: "softener",
        name: "Softener",
        about: "From its label, and how it is set.",
        fields: &["resin-capacity", "regeneration-interval", "hardness-after-softener", "iron-factor"],
    },
    Group {
        id: "sessions",
        name: "Sessions",
        about: "How a usual day runs.",
        fields: &[
            "rinses",
            "session-time",
            "set-up-time",
            "set-up-running-time",
            "rinse-time",
            "time-around-session",
            "turnaround-time",
            "sessions",
            "day-hours",
            "session-running-time",
            "daily-running-time",
        ],
    },
    Group {
        id: "heating",
        name: "Heating the dialysate",
        about: "From the dialysis machine's instructions. The prescriber decides the temperature.",
        fields: &[
            "heater-power",
            "dialysate-temperature",
            "heat-returned",
            "highest-inlet-temperature",
            "pump-heat",
        ],
    },
    Group {
        id: "socket",
        name: "Electrical outlet (socket)",
        about: "From the labels of the devices, and the rating on the breaker.",
        fields: &[
            "breaker-rating",
            "supply-voltage",
            "ro-current",
            "machine-current",
            "other-current",
            "continuous-share",
        ],
    },
    Group {
        id: "drain",
        name: "Drain",
        about: "A bucket and a watch, and a look at where the lines end.",
        fields: &["drain-flow", "machine-effluent", "surplus"],
    },
    Group {
        id: "cost",
        name: "Price of the water",
        about: "From the water bill.",
        fields: &["water-price", "drain-price"],
    },
    Group {
        id: "allowances",
        name: "Allowances",
        about: "Added on top of the numbers. Each can be changed.",
        fields: &["forms", "fouling-allowance", "demand-margin"],
    },
];

/// Readings that hold only in the water in which they were taken, each with the field that keeps its temperature. The
/// form fills that field with the tap's temperature of the moment, once, when the reading is typed: afterwards it goes
/// with the RO, wherever that is moved.
static READ_IN_WATER: &[(&str, &str)] =
    &[("product-flow", "anchor-temperature"), ("filter-drop", "filter-drop-temperature")];

/// The field that keeps the temperature of the water in which this one was read, if it has one.
pub fn water_of(field: &str) -> Option<&'static str> {
    READ_IN_WATER.iter().find(|(reading, _)| *reading == field).map(|(_, temperature)| *temperature)
}

/// Whether a field stands on the second view: its papers and labels may not be at hand yet.
pub fn is_in_detail(field: &str) -> bool {
    IN_DETAIL.iter().any(|group| group.fields.contains(&field))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Sheet;
    use crate::trade::plan::Plan;
    use std::collections::BTreeSet;

    #[test]
    fn every_field_is_met_once() {
        let declared: Vec<&str> = Plan::DECLARATION.inputs.iter().map(|field| field.id).collect();
        let met: Vec<&str> =
            AT_THE_TAP.iter().chain(IN_DETAIL).flat_map(|group| group.fields.iter().copied()).collect();
        let sorted = |ids: &[&'static str]| ids.iter().copied().collect::<BTreeSet<_>>();
        assert_eq!(
            sorted(&declared),
            sorted(&met),
            "a field of the plan stands in no group, or a group has another"
        );
        assert_eq!(declared.len(), met.len(), "a field stands in two groups");
    }
}
