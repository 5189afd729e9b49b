//! A compiler that can build for the browser.
//!
//! On an ordinary machine `rustup` adds the target in seconds. Where it reaches no server, Debian's compiler serves:
//! Debian packages it with the source of the same library, which is then built once (see [`super::debian`]).

use std::{env, path::PathBuf, process::Command};

use super::{debian, machine};
use crate::{place, run};

/// The target of the page.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// A compiler that can build the page.
pub enum Compiler {
    /// The one that built this program.
    Own,
    /// Debian's, with the library that was built from Debian's source.
    Debian(debian::Library),
}

impl Compiler {
    /// A cargo command for the page: these words, then the target.
    pub fn cargo(&self, words: &[&str]) -> Command {
        let mut command = run::cargo(words);
        let mut flags = remapped_paths();
        if let Compiler::Debian(library) = self {
            command = debian::cargo(words);
            command.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", &library.linker);
            flags.push("--sysroot".to_owned());
            flags.push(library.sysroot.display().to_string());
        }
        // The encoded form goes before any other flags, which are meant for programs of this machine.
        command
            .args(["--target", TARGET])
            .env("CARGO_ENCODED_RUSTFLAGS", flags.join("\u{1f}"))
            .env("CARGO_TARGET_DIR", place::page_target());
        command
    }

    /// Whether it can lint.
    pub fn lints(&self) -> bool {
        match self {
            Compiler::Own => true,
            Compiler::Debian(_) => debian::has_clippy(),
        }
    }
}

/// The page is passed around: it names no folder of whoever built it.
fn remapped_paths() -> Vec<String> {
    let home = env::home_dir().unwrap_or_default();
    let cargo = env::var_os("CARGO_HOME").map_or_else(|| home.join(".cargo"), PathBuf::from);
    let rustup = env::var_os("RUSTUP_HOME").map_or_else(|| home.join(".rustup"), PathBuf::from);
    [(cargo, "cargo"), (rustup, "rustup"), (place::root(), "tapside")]
        .iter()
        .map(|(folder, name)| format!("--remap-path-prefix={}={name}", folder.display()))
        .collect()
}

/// What was observed about this machine.
#[derive(Clone, Copy, Default)]
struct Facts {
    /// The compiler at hand has the target.
    own_target: bool,
    /// Debian's compiler has its library built.
    debian_library: bool,
    /// `rustup` is here.
    rustup: bool,
    /// `rustup` was asked for the target in this run.
    rustup_asked: bool,
    /// Debian's compiler, library source and linker are here.
    debian_packages: bool,
    /// Packages can be installed by `apt-get`.
    apt: bool,
    /// This program may change the machine.
    root: bool,
}

/// What to do next to have a compiler.
#[derive(Debug, PartialEq)]
enum Next {
    UseOwn,
    UseDebian,
    AddTarget,
    InstallPackages,
    BuildLibrary,
    Explain,
}

/// The cheapest way that is open: what is there, then seconds, then minutes, then words.
fn next(facts: Facts) -> Next {
    match facts {
        Facts { own_target: true, .. } => Next::UseOwn,
        Facts { debian_library: true, .. } => Next::UseDebian,
        Facts { rustup: true, rustup_asked: false, .. } => Next::AddTarget,
        Facts { debian_packages: true, .. } => Next::BuildLibrary,
        Facts { apt: true, root: true, .. } => Next::InstallPackages,
        _ => Next::Explain,
    }
}

/// A compiler for the page, set up if need be.
pub fn ready() -> Result<Compiler, String> {
    let mut rustup_asked = false;
    loop {
        let own_target = own_target();
        // The rest is looked at only where it matters: on most machines the target is simply there.
        let packages = if own_target { None } else { debian::packages() };
        let library = packages.as_ref().and_then(debian::Packages::library);
        let facts = Facts {
            own_target,
            debian_library: library.is_some(),
            rustup: !own_target && place::program(&["rustup"]).is_some(),
            rustup_asked,
            debian_packages: packages.is_some(),
            apt: !own_target && machine::has_apt(),
            root: !own_target && machine::is_root(),
        };
        match (next(facts), packages, library) {
            (Next::UseOwn, ..) => return Ok(Compiler::Own),
            (Next::UseDebian, _, Some(library)) => return Ok(Compiler::Debian(library)),
            (Next::AddTarget, ..) => {
                println!("set-up: adding the target {TARGET}");
                rustup_asked = true;
                // A refusal is no end: the next round sees that the target is not there and tries the next way.
                if let Err(problem) = run::run(&mut run::program("rustup", &["target", "add", TARGET])) {
                    println!("{problem}");
                }
            }
            (Next::BuildLibrary, Some(packages), _) => {
                return packages.build_library().map(Compiler::Debian);
            }
            (Next::InstallPackages, ..) => {
                debian::install()?;
                if debian::packages().is_none() {
                    return Err("Debian's packages were installed, but they lack a part.".to_owned());
                }
            }
            _ => return Err(explanation(facts)),
        }
    }
}

/// Whether the compiler at hand has the library of the target.
fn own_target() -> bool {
    let rustc = env::var("RUSTC").unwrap_or_else(|_| "rustc".to_owned());
    run::output(&mut run::program(&rustc, &["--print", "target-libdir", "--target", TARGET]))
        .is_some_and(|folder| debian::holds_library(folder.trim().as_ref()))
}

/// What a person has to do where this program can do nothing.
fn explanation(facts: Facts) -> String {
    let mut text = format!("The page needs the compiler's target {TARGET}, which is not here.\n");
    if facts.rustup_asked {
        text += "`rustup` could not get it: see its message above. With a connection to its server, run\n\n";
    } else {
        text += "With `rustup` (https://rustup.rs), run\n\n";
    }
    text += &format!("    rustup target add {TARGET}\n");
    if facts.apt {
        text += &format!(
            "\nWithout one, Debian's compiler serves as well; as root, run\n\n{}\n",
            debian::install_commands()
        );
    }
    text += "\nand then this command again. Nothing was changed.";
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    const BARE: Facts = Facts {
        own_target: false,
        debian_library: false,
        rustup: false,
        rustup_asked: false,
        debian_packages: false,
        apt: false,
        root: false,
    };

    #[test]
    fn what_is_there_is_used_and_nothing_is_installed() {
        for root in [false, true] {
            let facts = Facts { rustup: true, apt: true, debian_packages: true, root, ..BARE };
            assert_eq!(next(Facts { own_target: true, ..facts }), Next::UseOwn);
            assert_eq!(next(Facts { debian_library: true, ..facts }), Next::UseDebian);
        }
    }

    #[test]
    fn rustup_is_asked_first_and_only_once() {
        let facts = Facts { rustup: true, apt: true, root: true, ..BARE };
        assert_eq!(next(facts), Next::AddTarget);
        assert_eq!(next(Facts { rustup_asked: true, ..facts }), Next::InstallPackages);
    }

    #[test]
    fn debians_packages_are_used_by_anyone_once_they_are_there() {
        let facts = Facts { debian_packages: true, apt: true, ..BARE };
        assert_eq!(next(facts), Next::BuildLibrary);
        assert_eq!(next(Facts { root: true, ..facts }), Next::BuildLibrary);
    }

    #[test]
    fn who_is_not_root_is_told_the_commands_and_nothing_is_changed() {
        let facts = Facts { rustup: true, rustup_asked: true, apt: true, ..BARE };
        assert_eq!(next(facts), Next::Explain);
        let text = explanation(facts);
        assert!(text.contains("    rustup target add wasm32-unknown-unknown\n"), "{text}");
        assert!(text.contains("    apt-get install --no-install-recommends rustc-web "), "{text}");
        assert!(text.contains("Nothing was changed."), "{text}");
    }

    #[test]
    fn root_without_apt_is_told_what_is_needed() {
        let facts = Facts { root: true, ..BARE };
        assert_eq!(next(facts), Next::Explain);
        assert!(!explanation(facts).contains("apt-get"));
    }
}
