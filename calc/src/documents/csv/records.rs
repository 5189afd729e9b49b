//! Lines into cells.

use crate::engine::sheet::Sentence;
use csv_core::{ReadRecordResult, ReaderBuilder};

/// The cells of one line.
#[derive(Debug, PartialEq)]
pub(super) struct Record {
    /// Where it begins, counted from 1.
    pub line: u64,
    pub cells: Vec<String>,
}

impl Record {
    fn is_empty(&self) -> bool {
        self.cells.iter().all(|cell| cell.trim().is_empty())
    }
}

/// All lines that have anything in them.
pub(super) fn of(text: &str) -> Result<Vec<Record>, Sentence> {
    // a mark that some spreadsheets put before the text
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = ReaderBuilder::new().delimiter(delimiter(text)).build();
    let (mut records, mut input) = (Vec::new(), text.as_bytes());
    // what belongs to one record: its bytes without quotation marks, and where each cell ends
    let (mut bytes, mut ends) = (vec![0; text.len() + 1], vec![0; text.len() + 2]);
    let (mut written, mut cells) = (0, 0);
    let (mut line, mut next_line) = (1, 1);
    loop {
        if (written, cells) == (0, 0) {
            // empty lines before a record are not its own
            let blank = input.iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
            next_line += line_ends(&input[..blank]);
            input = &input[blank..];
            line = next_line;
        }
        let (result, eaten, bytes_more, cells_more) =
            reader.read_record(input, &mut bytes[written..], &mut ends[cells..]);
        next_line += line_ends(&input[..eaten]);
        input = &input[eaten..];
        written += bytes_more;
        cells += cells_more;
        match result {
            ReadRecordResult::Record => {
                let starts = std::iter::once(0).chain(ends.iter().copied());
                let cell =
                    |(start, end): (usize, usize)| String::from_utf8_lossy(&bytes[start..end]).into_owned();
                let record =
                    Record { line, cells: starts.zip(ends[..cells].iter().copied()).map(cell).collect() };
                if !record.is_empty() {
                    records.push(record);
                }
                (written, cells) = (0, 0);
            }
            // the end of the text ends the last record too
            ReadRecordResult::InputEmpty => {}
            ReadRecordResult::End => return Ok(records),
            // both are as long as the text
            ReadRecordResult::OutputFull | ReadRecordResult::OutputEndsFull => {
                return Err(Sentence::plain("this text cannot be read as lines of cells"));
            }
        }
    }
}

fn line_ends(bytes: &[u8]) -> u64 {
    bytes.iter().filter(|byte| **byte == b'\n').count() as u64
}

/// What stands between the cells: the tabulator of a spreadsheet, or whichever of semicolon and comma the first line has
/// outside of quotation marks; a semicolon leaves the comma to the decimals.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let outside = first.split('"').step_by(2);
    let has = |mark: char| outside.clone().any(|part| part.contains(mark));
    match () {
        () if has('\t') => b'\t',
        () if has(';') => b';',
        () => b',',
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(text: &str) -> Vec<Vec<String>> {
        of(text).unwrap().into_iter().map(|record| record.cells).collect()
    }

    /// RFC 4180, section 2: quotation marks around a cell, doubled inside of it, a line break in it.
    #[test]
    fn as_the_standard_has_it() {
        assert_eq!(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]);
        assert_eq!(
            cells("\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            [["aaa", "b \r\nbb", "ccc"], ["zzz", "yyy", "xxx"]]
        );
        assert_eq!(cells("\"aaa\",\"b\"\"bb\",\"ccc\""), [["aaa", "b\"bb", "ccc"]]);
    }

    #[test]
    fn the_first_line_tells_the_mark_between_cells() {
        assert_eq!(cells("a;b\n1,5;2"), [["a", "b"], ["1,5", "2"]]);
        assert_eq!(cells("a\tb, c\n1;5\t2"), [["a", "b, c"], ["1;5", "2"]]);
        assert_eq!(cells("\"a;b\",c\n1,2"), [["a;b", "c"], ["1", "2"]]);
    }

    #[test]
    fn lines_are_counted_with_the_empty_ones() {
        let lines: Vec<u64> =
            of("\u{feff}a,b\n\n1,2\n,\n\"x\ny\",3\n4,5").unwrap().iter().map(|record| record.line).collect();
        assert_eq!(lines, [1, 3, 5, 7]);
    }
}
