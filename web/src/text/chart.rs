//! What a chart says.

words! {
    /// The words of every chart.
    pub struct Chart {
        /// What is drawn, and over which range.
        pub drawn: &'static str,
        /// What is drawn as stairs: `{what}`, `{steps}`.
        pub stepped: &'static str,
        /// The steps of one line: `{name}`, `{values}`, `{unit}`.
        pub of_steps: &'static str,
        /// Nothing is drawn.
        pub nothing: &'static str,
        /// The lowest and the highest value of the only line, and of one among several.
        pub extremes: [&'static str; 2],
        /// Before a value along the chart, and before a named place.
        pub at: [&'static str; 2],
        /// The same value everywhere.
        pub constant: [&'static str; 2],
        /// A stretch that stands apart: `{words}`, `{from}`, `{to}`.
        pub shaded: &'static str,
        /// How many more there are: `{count}`.
        pub more_shaded: &'static str,
        /// Some places are missing.
        pub gaps: &'static str,
        /// Where the limit is crossed.
        pub crosses: &'static str,
        /// In which of the named places the limit is not kept.
        pub wrong_in: &'static str,
        /// It is never crossed, on its right side and on its wrong one.
        pub never_crossed: [&'static str; 2],
        /// How the last step of a line stands to the limit, right and wrong: `{name}`, `{limit}`, `{place}`.
        pub ends: [&'static str; 2],
        /// How to read values off.
        pub hint: &'static str,
        /// Nothing is there at the cursor.
        pub missing_here: &'static str,
        /// What the shaded band is.
        pub band: &'static str,
        /// That the heights are spread by their logarithm.
        pub logarithmic: &'static str,
        /// The table of the same numbers.
        pub table: &'static str,
        /// Over a column of half widths.
        pub half_width: &'static str,
    }
}

/// English.
pub const ENGLISH: Chart = Chart {
    drawn: "{what} against {along} from {from} to {to}",
    stepped: "{what} step by step ({steps})",
    of_steps: "{name} {values} {unit}",
    nothing: "{what} is not known anywhere from {from} to {to}, so nothing is drawn",
    extremes: [
        "lowest {low} {at} {low_at}, highest {high} {at} {high_at}",
        "{name} lowest {low} {at} {low_at}, highest {high} {at} {high_at}",
    ],
    at: ["at", "in"],
    constant: ["{value} everywhere", "{name} {value} everywhere"],
    shaded: "{words} from {from} to {to}",
    more_shaded: "and {count} more",
    gaps: "not known in places",
    crosses: "crosses the limit ({limit}) at about {places}",
    wrong_in: "not met ({limit}) in {places}",
    never_crossed: ["met ({limit}) everywhere", "not met ({limit}) anywhere"],
    ends: ["{name} met ({limit}) at {place}", "{name} not met ({limit}) at {place}"],
    hint: "To read values, point at the chart, or select it and press the arrow keys.",
    missing_here: "not known here",
    band: "The shaded band is the 95 % interval.",
    logarithmic: "logarithmic scale",
    table: "Show the numbers as a table",
    half_width: "±, 95 %",
};
