//! The licences of the packages that the file carries, as text inside it: a copy that is handed on brings them along.
//!
//! What the module is made of is asked of cargo. A package under a licence that is not accepted here is refused, so that
//! a new dependency is looked at before it is carried around.

use std::{
    collections::BTreeSet,
    fmt::Write as _,
    fs,
    path::{Path, PathBuf},
};

use cargo_metadata::{DependencyKind, Metadata, MetadataCommand, Package, PackageId, TargetKind};
use spdx::{Expression, Licensee, ParseMode};

/// What is in the file.
const MODULES: [&str; 2] = ["web", "unpack"];
/// Accepted, and taken in this order where a package leaves the choice: the shorter text first.
const ACCEPTED: [&str; 4] = ["MIT", "Zlib", "Unicode-3.0", "Apache-2.0"];

/// The licences as one text.
pub fn text(checkout: &Path) -> Result<String, String> {
    let metadata = MetadataCommand::new()
        .manifest_path(checkout.join("web/Cargo.toml"))
        .other_options(["--locked", "--filter-platform", "wasm32-unknown-unknown"].map(str::to_owned))
        .exec()
        .map_err(|error| format!("cargo does not say what the page is made of: {error}"))?;
    let packages = carried(&metadata)?;
    let mut text = String::new();
    for accepted in ACCEPTED {
        let mut under = Vec::new();
        for package in &packages {
            if taken(package)?.contains(&accepted) {
                under.push(*package);
            }
        }
        if !under.is_empty() {
            list(&mut text, accepted, &under, checkout)?;
        }
    }
    Ok(text)
}

/// The packages whose code stands in the modules, by name: what is linked, not what only helps to build it.
fn carried(metadata: &Metadata) -> Result<Vec<&Package>, String> {
    let resolve = metadata.resolve.as_ref().ok_or("cargo resolves nothing")?;
    let modules = metadata.workspace_packages().into_iter();
    let mut open: Vec<_> = modules
        .filter(|package| MODULES.contains(&package.name.as_str()))
        .map(|package| &package.id)
        .collect();
    if open.len() != MODULES.len() {
        return Err(format!("the workspace does not have each of {MODULES:?}"));
    }
    let mut seen: BTreeSet<&PackageId> = open.iter().copied().collect();
    while let Some(id) = open.pop() {
        for dependency in resolve.nodes.iter().filter(|node| node.id == *id).flat_map(|node| &node.deps) {
            let is_linked = dependency.dep_kinds.iter().any(|kind| kind.kind == DependencyKind::Normal);
            if is_linked && !is_macro(&metadata[&dependency.pkg]) && seen.insert(&dependency.pkg) {
                open.push(&dependency.pkg);
            }
        }
    }
    let mut packages: Vec<&Package> = seen.into_iter().map(|id| &metadata[id]).collect();
    packages.retain(|package| package.source.is_some());
    packages.sort_by_key(|package| (package.name.as_str(), &package.version));
    Ok(packages)
}

/// A macro runs in the compiler; its own code is not in the module.
fn is_macro(package: &Package) -> bool {
    package.targets.iter().any(|target| target.kind.contains(&TargetKind::ProcMacro))
}

/// Under which of the accepted licences a package is taken; a package can ask for two.
fn taken(package: &Package) -> Result<Vec<&'static str>, String> {
    let named = package.license.as_deref().unwrap_or_default();
    chosen(named).ok_or_else(|| {
        format!(
            "{} {} is under “{named}”, which is none of {}: look at it, then accept it in web/pack/src/licences.rs or do without the package",
            package.name,
            package.version,
            ACCEPTED.join(", ")
        )
    })
}

/// The fewest accepted licences that satisfy the expression.
fn chosen(expression: &str) -> Option<Vec<&'static str>> {
    let expression = Expression::parse_mode(expression, ParseMode::LAX).ok()?;
    let accepted: Vec<Licensee> = ACCEPTED.iter().filter_map(|name| Licensee::parse(name).ok()).collect();
    let asked = expression.minimized_requirements(&accepted).ok()?;
    let names: Vec<&str> = asked.iter().filter_map(|asked| Some(asked.license.id()?.name)).collect();
    Some(ACCEPTED.into_iter().filter(|accepted| names.contains(accepted)).collect())
}

/// Appends the packages under one licence with whom they are by, then its text.
fn list(text: &mut String, licence: &str, packages: &[&Package], checkout: &Path) -> Result<(), String> {
    let write = |_| "the text of the licences could not be put together".to_owned();
    writeln!(text, "Under the {licence} licence:\n").map_err(write)?;
    let mut own = String::new();
    for package in packages {
        writeln!(text, "{} {}", package.name, package.version).map_err(write)?;
        let file = licence_file(package, licence);
        for line in file.as_deref().map(copyrights).unwrap_or_default() {
            writeln!(text, "  {line}").map_err(write)?;
        }
        own = file.filter(|_| own.is_empty()).unwrap_or(own);
    }
    // our own copies of the two common ones name nobody else; of the others the package's own text is the only one here
    let words = match licence {
        "MIT" => read(&checkout.join("LICENSE-MIT"))?,
        "Apache-2.0" => read(&checkout.join("LICENSE-APACHE"))?,
        _ => own,
    };
    let words = words.lines().filter(|line| !is_copyright(line)).collect::<Vec<_>>().join("\n");
    writeln!(text, "\n{}\n", words.trim()).map_err(write)
}

/// The words of this licence in the package, where it brings them along; some are published without.
fn licence_file(package: &Package, licence: &str) -> Option<String> {
    let sign = match licence {
        "MIT" => "Permission is hereby granted",
        "Zlib" => "This notice may not be removed",
        "Unicode-3.0" => "UNICODE LICENSE V3",
        _ => "Apache License",
    };
    let folder = package.manifest_path.parent()?;
    let mut files: Vec<PathBuf> = fs::read_dir(folder).ok()?.flatten().map(|entry| entry.path()).collect();
    files.sort();
    files
        .iter()
        .filter(|file| is_licence(file))
        .find_map(|file| fs::read_to_string(file).ok().filter(|text| unwrapped(text).contains(sign)))
}

fn is_licence(file: &Path) -> bool {
    let name = file.file_name().map(|name| name.to_string_lossy().to_lowercase()).unwrap_or_default();
    ["licen", "copying"].iter().any(|start| name.starts_with(start))
}

/// Who a text names as its owners; a long list of them goes on in the lines below, up to an empty one.
fn copyrights(text: &str) -> Vec<&str> {
    let mut goes_on = false;
    let mut of_owners = |line: &&str| {
        goes_on = is_copyright(line) || (goes_on && !line.is_empty() && !line.starts_with("Permission"));
        goes_on
    };
    text.lines().map(str::trim).filter(|line| of_owners(line)).collect()
}

/// "Copyright (c) 2020 Somebody", and not a sentence about copyright or the form at the end of the Apache licence.
fn is_copyright(line: &str) -> bool {
    let line = line.trim();
    line.starts_with("Copyright ") && !line.contains('[') && line.chars().any(|c| c.is_ascii_digit())
}

/// The text as one line: licences are broken at different widths.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn read(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_names_what_it_carries() {
        let checkout = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        let text = text(&checkout).unwrap();
        for carried in ["\nyew ", "\nserde_json ", "\nchrono ", "\nfoldhash ", "\nwasm-bindgen "] {
            assert!(text.contains(carried), "{carried} is missing");
        }
        assert!(text.contains("Permission is hereby granted") && text.contains("Apache License"));
        for absent in ["\nweb ", "\ncalc ", "\nwasm-bindgen-macro ", "\nzopfli "] {
            assert!(!text.contains(absent), "{absent} is ours, or not in the page");
        }
        // the licence asks that whoever wrote it stays named
        assert!(text.contains("Copyright (c)"), "{text}");
    }

    #[test]
    fn the_choice_is_ours_and_what_is_not_accepted_is_refused() {
        for (expression, taken) in [
            ("MIT OR Apache-2.0", Some(vec!["MIT"])),
            ("Apache-2.0 / MIT", Some(vec!["MIT"])),
            ("Apache-2.0 OR BSL-1.0", Some(vec!["Apache-2.0"])),
            ("(MIT OR Apache-2.0) AND Unicode-3.0", Some(vec!["MIT", "Unicode-3.0"])),
            ("Zlib", Some(vec!["Zlib"])),
            ("MIT AND GPL-3.0-only", None),
            ("GPL-3.0-or-later", None),
            ("", None),
        ] {
            assert_eq!(chosen(expression), taken, "{expression}");
        }
    }

    #[test]
    fn an_owner_is_told_from_a_sentence() {
        assert_eq!(
            copyrights(
                "Copyright (c) 2019\n  A and others\n\nThe above copyright notice\nCopyright [yyyy] [name of owner]\n Copyright 2020 B\nPermission"
            ),
            ["Copyright (c) 2019", "A and others", "Copyright 2020 B"]
        );
    }
}
