//! The tables of check values: what stands in a row, and what a sheet says to its inputs.

use calc::documents::json::{Filled, fill};
use calc::engine::sheet::{Absence, Answer, Assessment, Entry, Shape};
use calc::{engine::sheet::Field, program::catalogue};
use serde_json::{Map, Value as Json};
use std::path::{Path, PathBuf};

/// Where an expected value comes from. There is none for our own output.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Printed in the source, and computed here from other numbers that it prints.
    Published,
    /// A table of the program compared with the page from which it was copied: that guards the copy and shows no arithmetic.
    Transcribed,
    /// Worked in the note.
    ByHand,
    /// By a general reference library, named with its version.
    Independent,
    /// By definition.
    Definition,
    /// What the trade does; no document is behind it.
    CommonPractice,
    /// Recalled from a named source that was not opened.
    Memory,
    /// Inputs that must be refused; the expected value is the field at which they are.
    Error,
}

impl Kind {
    /// As it stands in the tables.
    pub const ALL: [(&'static str, Kind); 8] = [
        ("published", Kind::Published),
        ("transcribed", Kind::Transcribed),
        ("by-hand", Kind::ByHand),
        ("independent", Kind::Independent),
        ("definition", Kind::Definition),
        ("common-practice", Kind::CommonPractice),
        ("memory", Kind::Memory),
        ("error", Kind::Error),
    ];

    /// By the word that stands in the tables.
    ///
    /// # Errors
    /// There is no such kind.
    pub fn named(word: &str) -> Result<Kind, String> {
        let named = Kind::ALL.iter().find(|(name, _)| *name == word);
        named.map(|(_, kind)| *kind).ok_or_else(|| format!("there is no kind “{word}”"))
    }

    /// The word that stands in the tables.
    pub fn word(self) -> &'static str {
        Kind::ALL.iter().find(|(_, kind)| *kind == self).map_or("", |(name, _)| name)
    }

    /// Whether it comes from outside this program.
    pub fn is_evidence(self) -> bool {
        matches!(self, Kind::Published | Kind::ByHand | Kind::Independent)
    }
}

/// One row of a table.
#[derive(Debug, Clone)]
pub struct Row {
    /// `tests/published/carbon.csv:3`
    pub at: String,
    /// The id of the sheet.
    pub sheet: String,
    /// As in the JSON interface.
    pub inputs: Map<String, Json>,
    /// `contact-time`, `months[feb].temperature`, `check:contact-time`, `warning:runs/fillings-differ`.
    pub output: String,
    /// A number, an id or a text, `not-known`, `none-exists`.
    pub expected: String,
    /// Of the number.
    pub unit: String,
    /// In the unit, or per cent of the value; empty: half a unit of the last printed digit.
    pub tolerance: String,
    /// Where it comes from.
    pub kind: Kind,
    /// Who says so.
    pub source: String,
    /// Page, table, equation.
    pub place: String,
    /// The arithmetic, or why the tolerance is what it is.
    pub note: String,
}

const COLUMNS: [&str; 10] =
    ["sheet", "inputs", "output", "expected", "unit", "tolerance", "kind", "source", "place", "note"];

/// Every row of every table.
///
/// # Errors
/// A sentence with file and line for a table that is not as it should be.
pub fn all() -> Result<Vec<Row>, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("published");
    let entries = std::fs::read_dir(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut files: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    files.retain(|path| path.extension().is_some_and(|extension| extension == "csv"));
    files.sort();
    let mut rows = Vec::new();
    for file in files {
        let text = std::fs::read_to_string(&file).map_err(|error| format!("{}: {error}", file.display()))?;
        let name = file.file_name().map_or("".into(), |name| name.to_string_lossy());
        rows.extend(of_table(&name, &text)?);
    }
    Ok(rows)
}

/// Every row of one table, from its text: inside a browser there are no files.
///
/// # Errors
/// As [`all`].
pub fn of_table(name: &str, text: &str) -> Result<Vec<Row>, String> {
    let mut rows: Vec<Row> = Vec::new();
    for (at, record) in records(&format!("tests/published/{name}"), &COLUMNS, text)? {
        let row = row(&record, rows.last()).map_err(|why| format!("{at}: {why}"))?;
        rows.push(Row { at, ..row });
    }
    Ok(rows)
}

/// The records of one table with these columns, each with its place.
///
/// # Errors
/// A sentence with file and line for a table that is not as it should be.
pub fn records(name: &str, columns: &[&str], text: &str) -> Result<Vec<(String, csv::StringRecord)>, String> {
    // semicolons and no quotation marks around cells, so that the JSON of the inputs can be read by a person
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(b';')
        .quoting(false)
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let head = reader.headers().map_err(|error| format!("{name}: {error}"))?;
    if head.iter().ne(columns.iter().copied()) {
        return Err(format!("{name}: the columns are not {}", columns.join("; ")));
    }
    let placed = |record: Result<csv::StringRecord, csv::Error>| {
        let record = record.map_err(|error| format!("{name}: {error}"))?;
        let line = record.position().map_or(0, csv::Position::line);
        Ok((format!("{name}:{line}"), record))
    };
    reader.records().map(placed).collect()
}

/// An empty sheet and empty inputs repeat those of the row above.
fn row(record: &csv::StringRecord, above: Option<&Row>) -> Result<Row, String> {
    let cell = |index: usize| record.get(index).unwrap_or("").to_owned();
    let repeated = cell(0).is_empty() && cell(1).is_empty();
    let (sheet, inputs) = match above {
        Some(above) if repeated => (above.sheet.clone(), above.inputs.clone()),
        _ => {
            let inputs: Json =
                serde_json::from_str(&cell(1)).map_err(|error| format!("the inputs are no JSON: {error}"))?;
            let Json::Object(inputs) = inputs else { return Err("the inputs are no JSON object".into()) };
            (cell(0), inputs)
        }
    };
    Ok(Row {
        at: String::new(),
        sheet,
        inputs,
        output: cell(2),
        expected: cell(3),
        unit: cell(4),
        tolerance: cell(5),
        kind: Kind::named(&cell(6))?,
        source: cell(7),
        place: cell(8),
        note: cell(9),
    })
}

impl Row {
    /// The sheet it is about.
    ///
    /// # Errors
    /// There is no such sheet.
    pub fn entry(&self) -> Result<&'static Entry, String> {
        catalogue::find(&self.sheet).ok_or_else(|| format!("{}: there is no sheet “{}”", self.at, self.sheet))
    }

    /// The inputs as the sheet reads them.
    ///
    /// # Errors
    /// There is no such sheet.
    pub fn filled(&self) -> Result<Filled, String> {
        Ok(fill(self.entry()?.declaration, &self.inputs))
    }

    /// Everything that the sheet says.
    ///
    /// # Errors
    /// There is no such sheet.
    pub fn assessed(&self) -> Result<Assessment, String> {
        Ok(self.entry()?.assess(&self.filled()?.values, true))
    }

    /// The half-width within which the expected number is met, in its unit.
    ///
    /// # Errors
    /// A number or a tolerance that cannot be read.
    pub fn half_width(&self) -> Result<f64, String> {
        half_width(&self.expected, &self.tolerance).map_err(|why| format!("{}: {why}", self.at))
    }

    /// Compares one answer with what is expected.
    ///
    /// # Errors
    /// The sentence that tells the difference.
    pub fn compare(&self) -> Result<(), String> {
        let off = |found: String| {
            Err(format!("{}: {} is {found}, expected {} {}", self.at, self.output, self.expected, self.unit))
        };
        let entry = self.entry()?;
        let filled = self.filled()?;
        let assessed = entry.assess(&filled.values, true);
        let mut refused: Vec<String> =
            filled.problems.iter().chain(&assessed.problems).map(place_of_problem).collect();
        refused.extend(filled.unknown.iter().map(|unknown| unknown.name.clone()));
        if self.kind == Kind::Error {
            return if refused.contains(&self.expected) { Ok(()) } else { off(format!("{refused:?}")) };
        }
        if !refused.is_empty() {
            return off(format!("not there, since these were refused: {refused:?}"));
        }
        if let Some(found) = self.said(&assessed) {
            return if found == self.expected { Ok(()) } else { off(found) };
        }
        let answer = self.answer(entry, &assessed)?;
        match &answer {
            Answer::Number(si, kind) => {
                let unit = kind
                    .written(&self.unit)
                    .ok_or_else(|| format!("{}: {} has no unit “{}”", self.at, kind.name, self.unit))?;
                let value = unit.of_si(*si);
                let Ok(expected) = self.expected.parse::<f64>() else { return off(value.to_string()) };
                // the last bits of the conversion itself
                let room = self.half_width()? + 1e-12 * expected.abs();
                if (value - expected).abs() <= room {
                    Ok(())
                } else {
                    off(format!("{value}, outside of ± {room:.3e}"))
                }
            }
            Answer::Below(si, kind) => {
                let unit = kind
                    .written(&self.unit)
                    .ok_or_else(|| format!("{}: {} has no unit “{}”", self.at, kind.name, self.unit))?;
                let value = unit.of_si(*si);
                let expected = self.expected.strip_prefix('<').and_then(|limit| limit.parse::<f64>().ok());
                match expected {
                    Some(limit) if (value - limit).abs() <= 1e-12 * limit.abs() => Ok(()),
                    _ => off(format!("<{value}")),
                }
            }
            other => {
                let found = word(other);
                if found == self.expected { Ok(()) } else { off(found) }
            }
        }
    }

    /// The state of a check, how many warnings there are, whether a caution is raised; none for an output.
    fn said(&self, assessed: &Assessment) -> Option<String> {
        let (what, id) = self.output.split_once(':')?;
        match what {
            "check" => {
                let check = assessed.checks.iter().find(|check| check.id() == id);
                Some(check.map_or_else(|| "none".to_owned(), |check| check.state.id().to_owned()))
            }
            "warning" => {
                let (field, id) = id.split_once('/').map_or((id, None), |(field, id)| (field, Some(id)));
                let of = assessed.warnings.iter().filter(|warning| warning.field == field);
                Some(of.filter(|warning| id.is_none_or(|id| warning.id == id)).count().to_string())
            }
            "caution" => {
                let is_raised = assessed.cautions.iter().any(|caution| caution.id == id);
                Some(if is_raised { "yes" } else { "no" }.to_owned())
            }
            _ => None,
        }
    }

    /// What the program says beside what is printed, in the unit of the row and to two digits more.
    ///
    /// # Errors
    /// There is no such answer.
    pub fn beside(&self) -> Result<Beside, String> {
        let entry = self.entry()?;
        let assessed = self.assessed()?;
        if let Some(found) = self.said(&assessed) {
            return Ok(Beside { found, difference: None });
        }
        let answer = self.answer(entry, &assessed)?;
        let (Answer::Number(si, kind), Ok(expected)) = (&answer, self.expected.parse::<f64>()) else {
            return Ok(Beside { found: word(&answer), difference: None });
        };
        let unit =
            kind.written(&self.unit).ok_or_else(|| format!("{} has no unit “{}”", kind.name, self.unit))?;
        let value = unit.of_si(*si);
        let digits = decimals(&self.expected) + 2;
        Ok(Beside {
            found: format!("{value:.digits$}"),
            difference: Some(format!("{:+.digits$}", value - expected)),
        })
    }

    /// The id of the output, and the row and the column of the cell where it is a table.
    pub fn path(&self) -> Option<(&str, Option<(&str, &str)>)> {
        match self.output.split_once('[') {
            Some((id, rest)) => Some((id, Some(rest.split_once("].")?))),
            None => Some((&self.output, None)),
        }
    }

    /// The answer to which the path leads.
    ///
    /// # Errors
    /// There is no such output, or no such row in it.
    pub fn answer(&self, entry: &'static Entry, assessed: &Assessment) -> Result<Answer, String> {
        let declaration = entry.declaration;
        let lost = || format!("{}: {} has no output “{}”", self.at, self.sheet, self.output);
        let (id, cell) = self.path().ok_or_else(lost)?;
        let index = declaration.output(id).ok_or_else(lost)?;
        let answer = assessed.answers.get(index).ok_or_else(lost)?;
        let Some((key, column)) = cell else { return Ok(answer.clone()) };
        let Shape::Table(columns) = declaration.outputs[index].shape else { return Err(lost()) };
        let column = columns.iter().position(|field: &Field| field.id == column).ok_or_else(lost)?;
        let Answer::Table(rows) = answer else { return Err(format!("{}: {id} is {answer:?}", self.at)) };
        let row = match key.parse::<usize>() {
            Ok(number) => rows.get(number.wrapping_sub(1)),
            Err(_) => rows.iter().find(|cells| cells.iter().any(|cell| word(cell) == key)),
        };
        row.and_then(|cells| cells.get(column)).cloned().ok_or_else(lost)
    }
}

/// One answer beside what is expected of it.
pub struct Beside {
    /// The answer.
    pub found: String,
    /// Answer less expected value, where both are numbers.
    pub difference: Option<String>,
}

/// What is no number, as it is expected in a table: a row is found by it too.
pub fn word(answer: &Answer) -> String {
    match answer {
        Answer::Number(si, _) => si.to_string(),
        Answer::Below(si, _) => format!("<{si}"),
        Answer::Choice(one) => one.id.to_owned(),
        Answer::Date(date) => date.to_string(),
        Answer::Moment(moment) => moment.to_string(),
        Answer::Text(text) => text.clone(),
        Answer::Word(text) => (*text).to_owned(),
        Answer::Table(rows) => format!("{} rows", rows.len()),
        Answer::Missing(missing) => match missing.absence {
            Absence::Empty | Absence::NotKnown => "not-known".to_owned(),
            Absence::NoneExists => "none-exists".to_owned(),
        },
    }
}

/// `flow`, `log[2].time`; rows counted from 1.
fn place_of_problem(problem: &calc::engine::sheet::Problem) -> String {
    match problem.cell {
        Some((row, column)) => format!("{}[{}].{column}", problem.field, row + 1),
        None => problem.field.to_owned(),
    }
}

/// The half-width within which an expected number is met: half a unit of its last digit, or the tolerance that is given.
///
/// # Errors
/// A number or a tolerance that cannot be read.
pub fn half_width(expected: &str, tolerance: &str) -> Result<f64, String> {
    let number = |text: &str| text.parse::<f64>().map_err(|_| format!("“{text}” is no number"));
    match tolerance.strip_suffix('%') {
        Some(share) => Ok(number(share.trim())? / 100.0 * number(expected)?.abs()),
        None if tolerance.is_empty() => Ok(half_of_last_digit(expected)),
        None => number(tolerance),
    }
}

/// Half a unit of the last digit of a number as it is printed.
fn half_of_last_digit(printed: &str) -> f64 {
    0.5 * 10f64.powi(last_digit(printed))
}

/// The power of ten of the last digit of a number as it is printed.
fn last_digit(printed: &str) -> i32 {
    let (mantissa, exponent) = match printed.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, exponent.parse().unwrap_or(0)),
        None => (printed, 0),
    };
    let decimals = mantissa.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    exponent - i32::try_from(decimals).unwrap_or(0)
}

/// How many decimals a number has as it is printed, a power of ten written out.
fn decimals(printed: &str) -> usize {
    usize::try_from(-last_digit(printed)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_printed_digit_counts() {
        for (printed, half) in
            [("4.98", 0.005), ("600", 0.5), ("1.50", 0.005), ("2e-3", 0.0005), ("-0.7", 0.05)]
        {
            assert!((half_of_last_digit(printed) / half - 1.0).abs() < 1e-12, "{printed}");
        }
        assert_eq!(["4.98", "600", "2e-3", "1.5e4"].map(decimals), [2, 0, 3, 0]);
    }
}
