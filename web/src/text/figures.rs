//! What the figures say that follow from a declaration.

words! {
    /// The words of the figures.
    pub struct Figures {
        /// Over the bars of the checks.
        pub bars: &'static str,
        /// How a bar is read.
        pub reading: &'static str,
        /// Wrong side by so much of the limit: of a minimum, of a maximum: `{share}`.
        pub short_by: [&'static str; 2],
        /// Right side by so much of it.
        pub to_spare: &'static str,
        /// The left end of their scale.
        pub spare: &'static str,
        /// The line.
        pub limit: &'static str,
        /// The right end: `{share}`.
        pub past: &'static str,
        /// One bar for several months: `{count}`.
        pub worst_month: &'static str,
        /// A check that stands for months too.
        pub and_months: [&'static str; 2],
        /// Bars that only have a side.
        pub side_only: &'static str,
        /// Which time of the year is drawn.
        pub time: &'static str,
        /// Which of the cases is drawn.
        pub case: &'static str,
        /// The state of a spot.
        pub state: &'static str,
        /// What flows at a spot.
        pub flow: &'static str,
        /// Spots of one flow: `{first}`, `{last}`, `{flow}`.
        pub from_to: &'static str,
        /// Over what a figure lacks.
        pub not_drawn: &'static str,
        /// Over the column of bars on paper.
        pub bar_head: &'static str,
        /// Over the column of margins.
        pub margin_head: &'static str,
        /// The slider over the months.
        pub month: &'static str,
        /// It stands at its beginning.
        pub no_month: &'static str,
        /// The time of the year that is chosen by it.
        pub by_month: &'static str,
        /// Where a sample is taken.
        pub port: &'static str,
        /// A gauge, a jug, a thermometer, a sample.
        pub tools: [&'static str; 4],
        /// What has not been entered yet.
        pub to_be_read: &'static str,
        /// A stretch that does not count: `{name}`, `{why}`.
        pub shaded: &'static str,
        /// What nobody tested, counted among results.
        pub not_tested: &'static str,
        /// Over the list of what nobody tested.
        pub untested: [&'static str; 2],
        /// A set that limits nothing of a report.
        pub no_limits: &'static str,
        /// A limit: `{limit}`.
        pub limit_of: &'static str,
        /// A result over its limit: `{share}`.
        pub share_of_limit: &'static str,
        /// How many sessions, of one and of more.
        pub sessions: [&'static str; 2],
        /// The whole day: `{count}`, `{from}`, `{to}`.
        pub day: &'static str,
        /// What is left of the hours, and how far they are passed: `{time}`, `{hours}`.
        pub day_left: [&'static str; 2],
        /// How times without a clock are meant.
        pub since_set_up: &'static str,
        /// Nothing happens.
        pub empty_day: &'static str,
        /// Low.
        pub ro_off: &'static str,
        /// Half high.
        pub ro_on: &'static str,
        /// The line at the end of the hours.
        pub day_ends: &'static str,
        /// The mark before a stretch.
        pub carbon_change: &'static str,
    }
}

/// English.
pub const ENGLISH: Figures = Figures {
    bars: "Every check against its limit",
    reading: "A bar past the line is not met.",
    short_by: ["{share} short", "{share} over"],
    to_spare: "{share} spare",
    spare: "100 % spare",
    limit: "limit",
    past: "{share} past it",
    worst_month: "worst of {count} months",
    and_months: ["and 1 month", "and {count} months"],
    side_only: "A dashed box shows only the side: there is no share of a limit of zero, or on a scale without a true zero.",
    time: "Time of the year",
    case: "RO",
    state: "State, all year",
    flow: "Flow",
    from_to: "{first} to {last} {flow}",
    not_drawn: "Not drawn, since it is not known:",
    bar_head: "To the limit",
    margin_head: "Spare or short",
    month: "Month",
    no_month: "as chosen above",
    by_month: "Month by month",
    port: "Sample port",
    tools: ["Gauge", "Jug and watch", "Thermometer", "Sample"],
    to_be_read: "not entered",
    shaded: "{name}: {why}",
    not_tested: "not tested",
    untested: ["Not tested: 1 substance", "Not tested: {count} substances"],
    no_limits: "no limits for these substances",
    limit_of: "limit {limit}",
    share_of_limit: "{share} of it",
    sessions: ["1 session", "{count} sessions"],
    day: "{count}, {from} to {to}",
    day_left: ["{time} spare of {hours}.", "Over by {time}: only {hours} available."],
    since_set_up: "Times count from the first set-up, in hours and minutes.",
    empty_day: "No session that day.",
    ro_off: "set-up, RO off",
    ro_on: "RO running",
    day_ends: "end of the day",
    carbon_change: "change the first carbon",
};
