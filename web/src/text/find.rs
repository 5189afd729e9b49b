//! What is said where one begins, and where one looks for a calculation.

words! {
    /// The words of finding.
    pub struct Find {
        /// Of the field.
        pub label: &'static str,
        /// What may be typed.
        pub hint: &'static str,
        /// Nothing was found.
        pub none: &'static str,
        /// One was.
        pub one: &'static str,
        /// `{count}`
        pub several: &'static str,
        /// `{count}`, `{most}`
        pub best: &'static str,
        /// A number that the calculation gives: `{name}`.
        pub gives: &'static str,
        /// A number that it asks for: `{name}`.
        pub asks: &'static str,
        /// Over the questions.
        pub questions: &'static str,
        /// With what people come, and the sheet that answers; without one, the place.
        pub question: [(&'static str, Option<&'static str>); 7],
    }
}

pub(super) const ENGLISH: Find = Find {
    label: "Find a calculation",
    hint: "By name, symbol, unit or abbreviation: EBCT, TCF, A0, gpg, salt passage",
    none: "Nothing found. Try another word, or look through the list under Calculations.",
    one: "1 calculation",
    several: "{count} calculations",
    best: "{count} calculations, the best {most} of them:",
    gives: "Gives: {name}",
    asks: "Asks for: {name}",
    questions: "What do you need?",
    question: [
        ("Does this RO fit a new room?", None),
        ("Is the carbon big enough?", Some("carbon-contact-time")),
        ("Can the session go on after this chlorine test?", Some("chlorine-test")),
        ("Was that run a heat disinfection?", Some("heat-dose")),
        ("Is the disinfectant rinsed out?", Some("rinse-out")),
        ("Is the laboratory report within its limits?", Some("chemical-limits")),
        ("Is the RO losing flow, or is the water just colder?", Some("normalized-performance")),
    ],
};
