//! The texts of the program, for whoever translates it.
//!
//! `cargo run --example texts > texts.tsv` writes a line for each: its id, its English, and room for the translation, with
//! a tab between them. A place in braces stays as it is: `{value}`; of `{rows?row|rows}` the words are translated, for one
//! and for several.
//!
//! `cargo run --example texts -- translated.tsv` reads such a file back, names every line that is not whole, and writes the
//! table that `web/src/text/language.rs` takes in. Ends with 0 when every text is there.

use std::collections::BTreeMap;
use std::process::ExitCode;

use calc::engine::language::Table;
use tests::texts::{read, texts, written};

fn main() -> ExitCode {
    let texts = texts();
    let Some(file) = std::env::args().nth(1) else {
        print!("{}", written(&texts, &BTreeMap::new()));
        return ExitCode::SUCCESS;
    };
    let lines = match std::fs::read_to_string(&file) {
        Ok(lines) => lines,
        Err(error) => {
            eprintln!("{file}: {error}");
            return ExitCode::FAILURE;
        }
    };
    let (table, faults) = read(&texts, &lines);
    for fault in &faults {
        eprintln!("{file}: {fault}");
    }
    print!("{table}");
    eprintln!("{} of {} texts, {} bytes", table.lines().count(), texts.len(), table.len());
    let is_whole = faults.is_empty() && Table::read(table.leak()).is_ok();
    if is_whole { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
