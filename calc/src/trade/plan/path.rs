//! Which numbers of the plan belong to which stage of the water path, so that what is asked of a stage finds them.

use crate::engine::sheet::Stage;

/// The ids of outputs that are numbers, by stage.
pub static OUTPUTS_OF: &[(Stage, &[&str])] = &[
    (Stage::Tap, &["feed-warmest", "flush-warmest", "high-salt"]),
    (Stage::Sediment, &["lowest-filter-limit", "line-spare", "needed-ten-inch-equivalents"]),
    (Stage::Softener, &["softener-hours"]),
    (Stage::Membrane, &["capacity-coldest", "recovery-warmest", "needed-reject-flow"]),
    (Stage::Machine, &["demand", "needed-heater-power"]),
    (Stage::Day, &["sessions-that-fit", "day-feed-volume", "session-cost"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Sheet;
    use crate::trade::plan::Plan;

    #[test]
    fn every_one_is_declared() {
        let plan = Plan::DECLARATION;
        for id in OUTPUTS_OF.iter().flat_map(|(_, ids)| *ids) {
            let declared = plan.output(id).is_some_and(|index| plan.outputs[index].term.kind.is_some());
            assert!(declared, "{id}");
        }
    }
}
