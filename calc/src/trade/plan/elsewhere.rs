//! Fields of the plan that a sheet works out from what a technician has at hand instead.

/// A number of one sheet that is a field of the plan.
#[derive(Debug, PartialEq, Eq)]
pub struct WorkedOut {
    /// The id of the plan's input.
    pub field: &'static str,
    /// The id of the sheet.
    pub sheet: &'static str,
    /// The id of its output.
    pub output: &'static str,
}

const fn worked_out(field: &'static str, sheet: &'static str, output: &'static str) -> WorkedOut {
    WorkedOut { field, sheet, output }
}

/// All of them, in the order of the walk.
pub static WORKED_OUT: &[WorkedOut] = &[
    worked_out("coldest-temperature", "mains-temperature", "coldest-temperature"),
    worked_out("warmest-temperature", "mains-temperature", "warmest-temperature"),
    worked_out("open-flow", "timed-jug", "timed-flow"),
    worked_out("hardness", "hardness", "hardness-by-drops"),
    worked_out("conductivity", "conductivity", "conductivity"),
    worked_out("bed-volume", "carbon-vessel", "bed-volume"),
    worked_out("second-bed-volume", "carbon-vessel", "bed-volume"),
    worked_out("product-flow", "timed-jug", "timed-flow"),
    worked_out("reject-flow", "timed-jug", "timed-flow"),
    worked_out("flush-reject-flow", "timed-jug", "timed-flow"),
    worked_out("feed-sdi", "silt-density-index", "index"),
    worked_out("hardness-after-softener", "hardness", "hardness-by-drops"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::program::catalogue::find;

    #[test]
    fn each_is_a_number_of_the_same_kind() {
        let plan = find("plan").unwrap().declaration;
        for WorkedOut { field, sheet, output } in WORKED_OUT {
            let asked =
                plan.inputs.iter().find(|input| input.id == *field).unwrap_or_else(|| panic!("{field}"));
            let sheet = find(sheet).unwrap_or_else(|| panic!("{sheet}")).declaration;
            let given =
                sheet.outputs.iter().find(|found| found.id == *output).unwrap_or_else(|| panic!("{output}"));
            let kinds = (asked.term.kind.map(|kind| kind.id), given.term.kind.map(|kind| kind.id));
            assert!(kinds.0.is_some() && kinds.0 == kinds.1, "{field}: {kinds:?}");
        }
    }
}
