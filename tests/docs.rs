//! How the formulas are documented, by a simple look at the source.

use std::path::{Path, PathBuf};

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

/// The doc comment above each public function of a file.
fn documented_functions(text: &str) -> Vec<(String, String)> {
    let mut functions = Vec::new();
    let mut docs = String::new();
    for line in text.lines().map(str::trim_start) {
        if let Some(doc) = line.strip_prefix("///") {
            docs.push_str(doc.trim());
            docs.push('\n');
        } else if let Some(rest) = line.strip_prefix("pub fn ").or_else(|| line.strip_prefix("pub const fn "))
        {
            let name = rest.split(['(', '<']).next().unwrap_or("").to_owned();
            functions.push((name, std::mem::take(&mut docs)));
        } else if !line.starts_with("#[") {
            docs.clear();
        }
    }
    functions
}

/// The headings of a formula's documentation, in their order.
const HEADINGS: [&str; 5] = ["# Formula", "# Accuracy", "# Errors", "# Source", "# Example"];

#[test]
fn formulas_are_documented() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../calc/src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    assert!(files.len() > 30, "the source of calc was not found");
    let mut failures = Vec::new();
    for file in files {
        let text = std::fs::read_to_string(&file).unwrap();
        let name = file.strip_prefix(&root).unwrap_or(&file).display().to_string();
        if text.contains("\nsheet! {")
            && !name.ends_with("tests.rs")
            && text.lines().take_while(|line| line.starts_with("//!")).count() < 3
        {
            failures.push(format!("{name}: the head does not say what the sheet rests on"));
        }
        for (function, docs) in
            documented_functions(&text).iter().filter(|(_, docs)| docs.contains("# Formula"))
        {
            let places: Vec<Option<usize>> = HEADINGS.iter().map(|heading| docs.find(heading)).collect();
            let found: Vec<usize> = places.iter().flatten().copied().collect();
            // a part of a sheet names its source; a correlation that others use has everything
            let whole = docs.contains("# Accuracy") && places.contains(&None);
            if places[3].is_none() || whole || !found.is_sorted() {
                failures.push(format!("{name}: {function} lacks a heading of {HEADINGS:?}, or their order"));
            }
        }
    }
    assert!(failures.is_empty(), "{} failures:\n{}", failures.len(), failures.join("\n"));
}
