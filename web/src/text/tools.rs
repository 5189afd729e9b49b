//! What the tools say that act on any sheet: the sweep, solving backwards, the shares of the uncertainty.

words! {
    /// The words of the tools.
    pub struct Tools {
        /// The name of the sweep.
        pub sweep: &'static str,
        /// What it does.
        pub sweep_hint: &'static str,
        /// The name of solving backwards.
        pub backwards: &'static str,
        /// What it does.
        pub backwards_hint: &'static str,
        /// The name of the shares of the uncertainty.
        pub shares: &'static str,
        /// What they are.
        pub shares_hint: &'static str,
        /// Entries must be mended first.
        pub mend_first: &'static str,
        /// A needed field is empty.
        pub fill_first: &'static str,
        /// The name of the tools of one stage.
        pub of_stage: &'static str,
        /// What they are.
        pub of_stage_hint: &'static str,
        /// A stage has no number yet.
        pub no_number: &'static str,
        /// There is nothing that could be turned.
        pub no_dial: &'static str,
        /// The list of numbers.
        pub number: &'static str,
        /// The list of inputs along which is swept.
        pub along: &'static str,
        /// The list of inputs that are solved for.
        pub freed: &'static str,
        /// The group of outputs in a list.
        pub values: &'static str,
        /// The group of checks in a list.
        pub checks: &'static str,
        /// A column of readings, turned all at once.
        pub all_readings: &'static str,
        /// The name of the chart.
        pub over: &'static str,
        /// The place of the present value.
        pub now: &'static str,
        /// A limit that is not the same everywhere.
        pub moving_limit: &'static str,
        /// While it is computed.
        pub computing: &'static str,
        /// The wished value.
        pub wished: &'static str,
        /// The wished value, of a check.
        pub wished_of_check: &'static str,
        /// Nothing was typed yet.
        pub type_wish: &'static str,
        /// Over several values that were found, and over a single one.
        pub found: [&'static str; 2],
        /// The same where what is solved for is that a check is just met.
        pub found_of_check: [&'static str; 2],
        /// One value.
        pub root: &'static str,
        /// Every value of a stretch.
        pub stretch: &'static str,
        /// No whole number gives it.
        pub between_whole: &'static str,
        /// What is there now.
        pub present: &'static str,
        /// What is there now, of an empty field.
        pub present_empty: &'static str,
        /// A jump beside the values.
        pub jump: &'static str,
        /// Where was looked.
        pub looked: &'static str,
        /// Nothing is known of the number's uncertainty.
        pub no_interval: &'static str,
        /// The interval of the number.
        pub interval: &'static str,
        /// Where measuring better helps most.
        pub measure_better: &'static str,
        /// Inputs that are read with one instrument.
        pub one_instrument: &'static str,
        /// Inputs of which no tolerance is known.
        pub without_tolerance: &'static str,
    }
}

/// English.
pub const ENGLISH: Tools = Tools {
    sweep: "What if one entry changes",
    sweep_hint: "Draws one result while one entry varies over its usual range. All other entries stay the same.",
    backwards: "What would it take",
    backwards_hint: "Finds the value of one entry that gives the result you need. All other entries stay the same.",
    shares: "Where the uncertainty comes from",
    shares_hint: "How much each entry adds to the 95 % interval of a result, from the usual accuracy of the instruments. The shares are parts of the variance and add up to 100 %.",
    mend_first: "Fix the entries above first.",
    fill_first: "Fill in the required fields first.",
    of_stage: "What if, accuracy",
    of_stage_hint: "For each result here: what happens if an entry changes, what it would take to pass, and what to measure better.",
    no_number: "There is no result here yet.",
    no_dial: "There is no number here to vary.",
    number: "Result",
    along: "Entry to vary",
    freed: "Entry to solve for",
    values: "Values",
    checks: "Checks",
    all_readings: "{name}, all readings shifted by the same amount",
    over: "{number} against {along}",
    now: "now",
    moving_limit: "the limit, which changes too",
    computing: "Computing …",
    wished: "Result needed",
    wished_of_check: "Solves for just passing the check.",
    type_wish: "Enter the result you need.",
    found: ["To just get there you need any one of these:", "To just get there you need:"],
    found_of_check: ["To just pass you need any one of these:", "To just pass you need:"],
    root: "{name} {value}",
    stretch: "{name} anywhere from {low} to {high}",
    between_whole: "no whole number; between {low} and {high}",
    present: "Now it is {value}.",
    present_empty: "The field is empty now.",
    jump: "At {jump} the result jumps past what you need. That is not a solution.",
    looked: "Searched from {low} to {high}.",
    no_interval: "There is no interval for this result: it is missing, or the accuracy of its entries is not known.",
    interval: "{number}: {value} ± {half} (95 %).",
    measure_better: "To narrow it down, measure this more accurately first: {name}.",
    one_instrument: "{names} (same instrument)",
    without_tolerance: "Not included, because the accuracy is not known: {names}.",
};
