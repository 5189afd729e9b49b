//! Answers requests, one JSON object a line, from standard input to standard output:
//! `cargo run --release --example evaluate < examples/requests.jsonl`.
//!
//! Each answer is written as soon as it is there, so that another program can ask, read and ask again.
//! Ends with 0 when every line was JSON, whatever it asked for; else with 1.

use std::io::{self, BufRead, Write};
use std::process::ExitCode;

use calc::documents::json;

fn main() -> io::Result<ExitCode> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    let mut all_json = true;
    for line in io::stdin().lock().split(b'\n') {
        let answer = json::answer_line(line?);
        all_json &= answer.was_json;
        writeln!(out, "{}", answer.text)?;
        out.flush()?;
    }
    Ok(if all_json { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}
