//! The fields of the plan in the order in which a technician meets them: first what one walk to the tap gives, then
//! what the papers, the labels and a quiet hour give.

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
        about: "Ask those who run the building.",
        fields: &["place-name", "ro-name", "source", "building-dosing", "disinfectant"],
    },
    Group {
        id: "the-water",
        name: "How warm the water is",
        about: "Let the tap run until the thermometer stands still.",
        fields: &["tap-temperature", "coldest-temperature", "warmest-temperature"],
    },
    Group {
        id: "the-tap",
        name: "What the tap gives",
        about: "A gauge on the tap, a jug and a watch.",
        fields: &["shut-pressure", "jug-volume", "jug-time", "open-flow", "open-pressure"],
    },
    Group {
        id: "the-tests",
        name: "What is in the water",
        about: "A test of chlorine, a drop test of hardness, a meter.",
        fields: &["total-chlorine", "free-chlorine", "hardness", "conductivity"],
    },
    Group { id: "the-hose", name: "Hose", about: "From the tap to the RO.", fields: &["hoses"] },
    Group {
        id: "the-cart",
        name: "Carbon and softener",
        about: "Labels of the vessels or cartridges.",
        fields: &["carbon-kind", "bed-volume", "second-bed-volume", "resin-volume"],
    },
    Group {
        id: "the-ro",
        name: "RO",
        about: "As it runs now; jug and watch do where it has no flow meter.",
        fields: &["product-flow", "reject-flow", "flush-reject-flow", "least-inlet-pressure"],
    },
    Group {
        id: "the-machines",
        name: "Dialysis machines",
        about: "What they draw; the dialysate flow is the prescriber's.",
        fields: &["machines", "dialysate-flow", "peak-draw"],
    },
];

/// What the papers and a quiet hour give.
pub static IN_DETAIL: &[Group] = &[
    Group {
        id: "control",
        name: "How the RO is controlled",
        about: "From its instructions, and from the reading that stands for it.",
        fields: &[
            "control",
            "anchor-temperature",
            "label-flow",
            "pump-pressure",
            "pressure-limit",
            "highest-recovery",
        ],
    },
    Group {
        id: "year",
        name: "The year",
        about: "Utility, building log, or a year of own readings.",
        fields: &[
            "months",
            "highest-total-chlorine",
            "tempered-temperature",
            "hot-temperature",
            "highest-feed-temperature",
        ],
    },
    Group {
        id: "laboratory",
        name: "Laboratory report of the feed",
        about: "From the supplier, or of a sample of your own; once for hardness, scale and contaminants.",
        fields: &["feed-report", "feed-ph", "ph-temperature", "limit-set"],
    },
    Group {
        id: "filter",
        name: "Sediment filter",
        about: "Two gauges, one before and one behind it.",
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
        about: "Everything between tap and RO that takes pressure.",
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
    Group {
        id: "carbon-rule",
        name: "Rule for the carbon",
        about: "What this place relies on.",
        fields: &["rule"],
    },
    Group {
        id: "carbon-label",
        name: "Label of the carbon",
        about: "The cartridge's label or its test report.",
        fields: &["rated-disinfectant", "rated-volume", "rated-flow", "rated-inlet", "rated-outlet"],
    },
    Group {
        id: "softener",
        name: "Softener",
        about: "Its label, and how it is set.",
        fields: &[
            "resin-capacity",
            "regeneration-interval",
            "hardness-after-softener",
            "iron",
            "iron-factor",
        ],
    },
    Group {
        id: "sessions",
        name: "Sessions",
        about: "How a day goes.",
        fields: &[
            "rinses",
            "session-time",
            "time-around-session",
            "sessions",
            "day-hours",
            "session-running-time",
            "daily-running-time",
        ],
    },
    Group {
        id: "heating",
        name: "Warming the dialysate",
        about: "From the instructions of the dialysis machine; the temperature is the prescriber's.",
        fields: &["heater-power", "dialysate-temperature", "heat-returned"],
    },
    Group {
        id: "socket",
        name: "Socket",
        about: "The plates of the devices, and the breaker's own number.",
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
        about: "A bucket and a watch, and where the lines end.",
        fields: &["drain-flow", "machine-effluent", "surplus"],
    },
    Group {
        id: "cost",
        name: "Price of the water",
        about: "From the bill of the house.",
        fields: &["water-price", "drain-price"],
    },
    Group {
        id: "allowances",
        name: "Allowances",
        about: "What is put on top of the numbers, each open to be set otherwise.",
        fields: &["forms", "fouling-allowance", "demand-margin"],
    },
];

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
