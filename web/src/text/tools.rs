//! What the tools say that act on any sheet: the sweep, solving backwards, the shares of the uncertainty.

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

/// English.
pub const ENGLISH: Tools = Tools {
    sweep: "How an answer follows an entry",
    sweep_hint: "Draws one number while one entry is turned through its usual range and all others stay.",
    backwards: "Solve backwards",
    backwards_hint: "Finds every value of one entry with which a number comes out as wished; all others stay.",
    shares: "Where the uncertainty comes from",
    shares_hint: "How much each entry contributes to the 95 % interval of a number, by the usual tolerances of the instruments. The shares are of its variance and add up to 100 %.",
    mend_first: "Mend the entries first: with one left out the numbers would be those of an empty field.",
    fill_first: "Fill the fields that the sheet needs first.",
    of_stage: "Sweep, solve backwards, shares of the uncertainty",
    of_stage_hint: "For each number of this stage: how it follows an entry of the place, with which entries it comes out as wished, and what to measure better.",
    no_number: "No number of this stage is known yet.",
    no_dial: "No entry of this sheet can be turned.",
    number: "Number",
    along: "Entry that is turned",
    freed: "Entry that is free",
    values: "Values",
    checks: "Checks",
    all_readings: "{name}, all readings shifted together",
    over: "{number} over {along}",
    now: "now",
    moving_limit: "the limit, which follows too",
    computing: "Computing …",
    wished: "Wished value",
    wished_of_check: "What is wished is that the check is just met.",
    type_wish: "Enter the value that is wished for.",
    found: ["It comes out so with any of these:", "It comes out so with:"],
    root: "{name} {value}",
    stretch: "{name} anywhere from {low} to {high}",
    between_whole: "no whole number: between {low} and {high}",
    present: "Now it is {value}.",
    present_empty: "Now the field is empty.",
    jump: "At {jump} the number jumps over the wished one; that is no solution.",
    looked: "Looked for from {low} to {high}.",
    no_interval: "No interval is known of this number: it is missing, or no tolerance is known of what it comes from.",
    interval: "{number}: {value} ± {half} (95 %).",
    measure_better: "To know it better, measure this more closely first: {name}.",
    one_instrument: "{names}, read with one instrument",
    without_tolerance: "Not counted, since no tolerance is known: {names}.",
};
