//! Whether the check values would notice a mistake: the carbon stage is changed in one place after the other, and the rows
//! are run against each change.

use std::{fs, path::Path};

use crate::{place, run};

/// The sheets that are changed.
const STAGE: &str = "calc/src/trade/carbon";
/// Changes that no row can notice, each with the reason.
const EXPLAINED: &str = include_str!("../mutants.txt");
/// The tests that run all rows: their values, and every formula from its shown numbers.
const ROWS: [&str; 2] = ["every_row_meets_its_value", "every_shown_formula"];
/// The tool's version: another one makes other changes.
const VERSION: &str = "27.1.0";

/// Changes all files of the stage, or one of them (`life`), and prints what the rows caught and what they missed. It begins
/// without a change: if a row fails then, nothing would be shown.
pub fn all(file: Option<&str>) -> Result<(), String> {
    let tool = place::target().join("mutants");
    run::step("set-up", || ready(&tool))?;
    run::step("the rows without a change", || {
        let mut rows = run::cargo(&["test", "--package", "tests", "--test", "published", "--"]);
        run::run(rows.args(ROWS))
    })?;
    let files = format!("{STAGE}/{}.rs", file.unwrap_or("*"));
    run::step(&format!("changes to {files}; each takes about a minute"), || {
        let mut mutants = run::program(program(&tool), &["mutants", "--no-shuffle"]);
        mutants
            .args(["--file", &files, "--jobs", "1", "--output"])
            .arg(&tool)
            .args(["--test-package", "tests", "--cargo-arg=--locked"])
            .args(["--cargo-arg=--test", "--cargo-arg=published"])
            // no quantity has a default, so that these would not compile
            .args(["--exclude-re", "Default::default|Known::(new|from)"])
            // done above, with the package that holds the rows
            .args(["--baseline", "skip", "--timeout", "300"])
            .args(["--", "--"])
            .args(ROWS)
            // apart: in the common folder a changed test would be taken for one of this checkout
            .env("CARGO_TARGET_DIR", tool.join("build"));
        // it fails where anything is missed; that is judged below
        let ended = run::run(&mut mutants);
        report(&tool.join("mutants.out"), ended)
    })
}

fn program(tool: &Path) -> std::path::PathBuf {
    tool.join("bin").join("cargo-mutants").with_extension(std::env::consts::EXE_EXTENSION)
}

/// The tool, installed into the target folder if it is not there.
fn ready(tool: &Path) -> Result<(), String> {
    if program(tool).is_file() {
        return Ok(());
    }
    println!("set-up: installing cargo-mutants");
    let mut install = run::cargo(&["install", "cargo-mutants", "--version", VERSION, "--debug", "--root"]);
    run::run(install.arg(tool).env("CARGO_TARGET_DIR", tool.join("build")))
}

/// Counts, and what was missed without an explanation.
fn report(out: &Path, ended: Result<(), String>) -> Result<(), String> {
    let lines = |name: &str| fs::read_to_string(out.join(name)).unwrap_or_default();
    let [caught, missed, unviable, timeout] =
        ["caught.txt", "missed.txt", "unviable.txt", "timeout.txt"].map(lines);
    let count = |text: &str| text.lines().count();
    if count(&caught) + count(&missed) == 0 {
        return ended.and(Err("nothing was changed".into()));
    }
    let open: Vec<String> =
        missed.lines().map(without_place).filter(|change| !is_explained(change)).collect();
    println!(
        "{} caught, {} missed of which {} are explained, {} unviable, {} never ended",
        count(&caught),
        count(&missed),
        count(&missed) - open.len(),
        count(&unviable),
        count(&timeout)
    );
    if open.is_empty() { Ok(()) } else { Err(format!("no row notices:\n{}", open.join("\n"))) }
}

/// `calc/src/…/life.rs: replace < with <= in …`, without line and column, which move.
fn without_place(line: &str) -> String {
    let mut parts = line.splitn(4, ':');
    match (parts.next(), parts.next(), parts.next(), parts.next()) {
        (Some(file), Some(_), Some(_), Some(change)) => format!("{file}:{change}"),
        _ => line.to_owned(),
    }
}

fn is_explained(change: &str) -> bool {
    let mut explained = EXPLAINED.lines().filter(|line| !line.starts_with('#'));
    explained.any(|line| line.split_once(" | ").is_some_and(|(known, _)| known == change))
}
