//! Takes the check values that are printed elsewhere, and those that are recalled, out of the tables that the tests read:
//! the page shows them beside what it computes. The others would make the file larger and are counted only.

use std::{collections::BTreeMap, env, fs, path::Path};

/// Kinds of rows whose values the page shows.
const SHOWN: [&str; 2] = ["published", "memory"];
/// Where the kind stands in a row.
const KIND: usize = 6;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let tables = Path::new(&env::var("CARGO_MANIFEST_DIR")?).join("../tests/published");
    println!("cargo::rerun-if-changed={}", tables.display());
    let mut files: Vec<_> = fs::read_dir(tables)?.flatten().map(|entry| entry.path()).collect();
    files.retain(|path| path.extension().is_some_and(|extension| extension == "csv"));
    files.sort();

    let mut rows = String::new();
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for file in &files {
        let text = fs::read_to_string(file)?;
        let mut lines = text.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('#'));
        let head = lines.next().unwrap_or_default();
        if rows.is_empty() {
            rows = format!("{head}\n");
        }
        // an empty sheet and empty inputs repeat those of the row above, which may not be among the shown ones
        let mut above = ["", ""];
        for line in lines {
            let cells: Vec<&str> = line.split(';').map(str::trim).collect();
            let [sheet, inputs, rest @ ..] = cells.as_slice() else { continue };
            if !(sheet.is_empty() && inputs.is_empty()) {
                above = [sheet, inputs];
            }
            let kind = cells.get(KIND).copied().unwrap_or_default();
            *counts.entry(kind.to_owned()).or_default() += 1;
            if SHOWN.contains(&kind) {
                rows += &format!("{};{};{}\n", above[0], above[1], rest.join(";"));
            }
        }
    }

    let counts: Vec<String> = counts.iter().map(|(kind, count)| format!("({kind:?}, {count})")).collect();
    let out = env::var("OUT_DIR")?;
    fs::write(Path::new(&out).join("check_values.csv"), rows)?;
    fs::write(Path::new(&out).join("check_value_counts.rs"), format!("[{}]", counts.join(", ")))?;
    Ok(())
}
