//! Whether the page of a commit is the same wherever it is built.

use std::{fs, path::Path};

use crate::{place, run};

/// Builds the page of the last commit from two fresh copies in folders of different names and compares the files byte
/// for byte, so that whoever holds a file can find out from which commit it comes.
pub fn all() -> Result<(), String> {
    let folder = place::target().join("twice");
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    }
    fs::create_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    // asked once: another commit may be made while the first copy is being built
    let commit = run::output(&mut run::program("git", &["rev-parse", "HEAD"]));
    let commit = commit.ok_or("git knows no last commit here")?;
    let mut pages = Vec::new();
    for name in ["one", "another-place"] {
        let copy = folder.join(name);
        pages.push(run::step(&format!("build in {name}"), || build(commit.trim(), &copy))?);
    }
    let [one, other] = pages.as_slice() else { return Err("two builds were made".to_owned()) };
    match one.iter().zip(other).position(|(one, other)| one != other) {
        None if one.len() == other.len() => {
            println!("\nBoth builds are the same {} bytes.", one.len());
            Ok(())
        }
        at => Err(format!("the builds differ from byte {} on", at.unwrap_or(one.len().min(other.len())))),
    }
}

/// The finished file of a fresh copy of a commit.
fn build(commit: &str, copy: &Path) -> Result<Vec<u8>, String> {
    let (from, to) = (place::root(), copy.display().to_string());
    run::run(run::program("git", &["clone", "--quiet"]).arg(from).arg(to))?;
    run::run(run::program("git", &["checkout", "--quiet", "--detach", commit]).current_dir(copy))?;
    let mut page = run::program(run::cargo_name(), &["xtask", "page"]);
    page.current_dir(copy).env("CARGO_TARGET_DIR", copy.join("target"));
    // the copy is its own checkout, and so must not be told of this one
    run::run(page.env_remove("CARGO_MANIFEST_DIR"))?;
    let file = copy.join("dist").join("index.html");
    fs::read(&file).map_err(|error| format!("{}: {error}", file.display()))
}
