//! What is said of what the program rests on.

words! {
    /// The words in one language.
    pub struct Basis {
        /// The name of the view.
        pub title: &'static str,
        /// What it is.
        pub about: &'static str,
        /// How the numbers are checked: `{sheets}`, `{all}`, `{published}`, `{by-hand}`, `{independent}`, `{memory}`.
        pub checked: &'static str,
        /// Unfolds everything, for paper.
        pub open_all: &'static str,
        /// The way to a calculation: `{sheet}`.
        pub open_sheet: &'static str,
        /// Over the sources of one.
        pub sources: &'static str,
        /// What is taken for empty fields of one.
        pub assumed: &'static str,
        /// `{field}`, `{assumed}`
        pub if_empty: &'static str,
        /// Over its check values.
        pub values: &'static str,
        /// A check value beside the answer: `{printed}`, `{found}`.
        pub beside: &'static str,
        /// The same for numbers: `{printed}`, `{found}`, `{difference}`.
        pub differs: &'static str,
        /// How many warnings of a field there are: `{field}`.
        pub warned: &'static str,
        /// A value that is recalled.
        pub recalled: &'static str,
        /// Over the sets of limits.
        pub limits: &'static str,
        /// `{chemical}`, `{microbial}`
        pub of_limits: &'static str,
        /// Over what is recalled and was not opened.
        pub memory: &'static str,
        /// What that means.
        pub about_memory: &'static str,
        /// Over what the program does not do.
        pub not_done: &'static str,
        /// What it does not do.
        pub does_not: [&'static str; 9],
        /// The way here.
        pub link: &'static str,
    }
}

pub(super) const ENGLISH: Basis = Basis {
    title: "What this rests on",
    about: "Every source, limit, assumption and check value behind the numbers, and what the program does not do. A water test decides, and the people responsible for it.",
    checked: "{all} check values test the {sheets} calculations before each release. {published} of them are printed in a standard, a handbook, a regulation or a paper and are computed again below. {by-hand} are worked by hand, {independent} come from reference libraries, {memory} are recalled and were not read again. The others are definitions, copies of printed tables, and entries that must be refused.",
    open_all: "Unfold everything, for printing",
    open_sheet: "Open {sheet}",
    sources: "Sources",
    assumed: "Assumed for empty fields",
    if_empty: "{field}: {assumed}",
    values: "Check values, computed now",
    beside: "printed {printed}, computed {found}",
    differs: "printed {printed}, computed {found}, difference {difference}",
    warned: "Warnings at {field}",
    recalled: "recalled, not read again",
    limits: "Sets of limits",
    of_limits: "Chemical limits: {chemical}. Microbial limits: {microbial}.",
    memory: "Recalled, not read again",
    about_memory: "These texts were not open when their values were entered. Check each against the text before you rely on it.",
    not_done: "What Tapside does not do",
    does_not: [
        "It does not measure anything. It works with what is entered.",
        "It is no alarm: it does not ring and does not watch the water.",
        "It does not say that water can be used. A water test and the people responsible decide.",
        "It does not change what the RO's own instructions, the medical director or local codes say. Where they ask for more, they count.",
        "It does not know how carbon, resin or membranes will age. It works out what they can do by their labels and readings.",
        "It does not find organisms between samples, and does not predict biofilm.",
        "It does not prescribe treatment: session time, flows and dialysate come from the prescription.",
        "It does not keep patients' names, and sends nothing to anybody.",
        "It does not replace a licensed electrician or plumber.",
    ],
    link: "What all calculations rest on",
};
