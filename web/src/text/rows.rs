//! What is said of rows that come from a text or go into one.

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
    pub found: &'static str,
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
    pub take: &'static str,
    /// The same where there are rows: `{count}`.
    pub take_instead: &'static str,
    /// The file is too long.
    pub too_long: &'static str,
    /// Saves the rows.
    pub save: &'static str,
}

/// In English.
pub const ENGLISH: Rows = Rows {
    from_text: "Rows from a spreadsheet or a file",
    hint: "One line for each row, under a head that names the columns ({columns}), each with its unit in brackets, such as Temperature (°F). Comma, semicolon or tab between the cells; decimal point or comma. Nothing is taken over before you have seen what was found.",
    text: "Paste the lines here",
    file: "Or open a file (CSV)",
    found: "{rows} rows were read: {columns}.",
    in_unit: "{column} in {unit}",
    in_no_unit: "{column} in {unit}, since the text names no unit: look whether that is so",
    lacking: "Not in the text: {columns}.",
    ignored: "Not read, since the table has no such column: {columns}.",
    first: "The first of them, to be compared with your text:",
    left_out: "Lines that are left out: {count}.",
    look_at: "To look at, by the lines of the text; a cell that cannot be read stays to be mended in the table:",
    in_line: "Line {line}: ",
    in_cell: "Line {line}, {column}: ",
    take: "Take these rows over",
    take_instead: "Take these rows over in place of the {count} that are there",
    too_long: "This file is too long for a table: take the rows that are needed.",
    save: "Save these rows as a file (CSV)",
};
