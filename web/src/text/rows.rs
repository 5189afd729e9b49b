//! What is said of rows that come from a text or go into one.

words! {
    /// The words of the rows.
    pub struct Rows {
        /// The name of the fold.
        pub from_text: &'static str,
        /// What may be in such a text: `{columns}`.
        pub hint: &'static str,
        /// The label of the text.
        pub text: &'static str,
        /// The label of the file.
        pub file: &'static str,
        /// What is taken over: `{rows}`, `{columns}`.
        pub found: [&'static str; 2],
        /// A column with the unit over it: `{column}`, `{unit}`.
        pub in_unit: &'static str,
        /// The same where the text names no unit: `{column}`, `{unit}`.
        pub in_no_unit: &'static str,
        /// Columns of the table that the text does not have: `{columns}`.
        pub lacking: &'static str,
        /// Columns of the text that the table does not have: `{columns}`.
        pub ignored: &'static str,
        /// Over the first rows.
        pub first: &'static str,
        /// Lines without a place: `{count}`.
        pub left_out: &'static str,
        /// Over the remarks.
        pub look_at: &'static str,
        /// One of them: `{line}`.
        pub in_line: &'static str,
        /// One of them in a column: `{line}`, `{column}`.
        pub in_cell: &'static str,
        /// Puts them into the table.
        pub take: [&'static str; 2],
        /// The same where there are rows: `{count}`.
        pub take_instead: [&'static str; 2],
        /// The file is too long.
        pub too_long: &'static str,
        /// Saves the rows.
        pub save: &'static str,
    }
}

/// In English.
pub const ENGLISH: Rows = Rows {
    from_text: "Paste or open rows (spreadsheet, CSV)",
    hint: "One row per reading, under a header line that names the columns ({columns}) with the unit in brackets, such as Temperature (°F). Separate cells by comma, semicolon or tab. Decimal point or decimal comma. You see what was found before anything is used.",
    text: "Paste rows here",
    file: "Or open a CSV file",
    found: ["1 row was read: {columns}.", "{count} rows were read: {columns}."],
    in_unit: "{column} in {unit}",
    in_no_unit: "{column} in {unit} (no unit in the text: check this)",
    lacking: "Missing columns: {columns}.",
    ignored: "Columns not used: {columns}.",
    first: "Compare the first rows with your text:",
    left_out: "Lines left out: {count}.",
    look_at: "Check these lines. You can fix a cell in the table afterwards:",
    in_line: "Line {line}: ",
    in_cell: "Line {line}, {column}: ",
    take: ["Use this row", "Use these rows"],
    take_instead: ["Replace the 1 row in the table", "Replace the {count} rows in the table"],
    too_long: "This file is too long for a table. Open a file with only the rows you need.",
    save: "Save these rows as a CSV file",
};
