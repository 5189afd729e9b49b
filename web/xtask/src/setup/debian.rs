//! Debian's compiler for the page.
//!
//! Debian packages its compiler with the source of the same library, so the library can be built for the browser once.
//! It is kept in the target folder: the machine gets packages and nothing else.

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use super::{compiler::TARGET, machine};
use crate::{place, run};

const RUSTC: &str = "/usr/bin/rustc";
const RUSTDOC: &str = "/usr/bin/rustdoc";
const CARGO: &str = "/usr/bin/cargo";
const CLIPPY: &str = "/usr/bin/cargo-clippy";
const SOURCE: &str = "/usr/lib/rustlib/src/rust/library";
/// The linker's package moves with the compiler, so its number is found out: see [`newest_linker`].
const PACKAGES: [&str; 4] = ["rustc-web", "cargo-web", "rust-web-src", "rust-web-clippy"];

/// Debian's compiler, complete.
pub struct Packages {
    /// What the compiler says of itself; a library belongs to one compiler.
    version: String,
    linker: PathBuf,
}

/// The library built for the browser.
pub struct Library {
    /// The folder that stands in for the compiler's own.
    pub sysroot: PathBuf,
    /// The linker to use with it.
    pub linker: PathBuf,
}

/// Debian's compiler, if all of it is here.
pub fn packages() -> Option<Packages> {
    if !Path::new(CARGO).is_file() || !Path::new(SOURCE).is_dir() {
        return None;
    }
    let version = run::output(&mut run::program(RUSTC, &["-vV"]))?;
    let least = backend(&version)?;
    let names = fs::read_dir("/usr/bin").ok()?.flatten();
    let newest = newest_numbered("wasm-ld-", names.filter_map(|entry| entry.file_name().into_string().ok()))?;
    // An older linker does not read what a newer compiler writes.
    (newest >= least)
        .then(|| Packages { version, linker: PathBuf::from(format!("/usr/bin/wasm-ld-{newest}")) })
}

impl Packages {
    fn sysroot() -> PathBuf {
        place::target().join("debian-library")
    }

    fn mark() -> PathBuf {
        Self::sysroot().join("compiler.txt")
    }

    /// The library, if it was built by this very compiler.
    pub fn library(&self) -> Option<Library> {
        let built_by = fs::read_to_string(Self::mark()).ok()?;
        (built_by == self.version).then(|| self.found())
    }

    fn found(&self) -> Library {
        Library { sysroot: Self::sysroot(), linker: self.linker.clone() }
    }

    /// Builds the library from Debian's source, which takes about a minute.
    pub fn build_library(&self) -> Result<Library, String> {
        println!("set-up: building the library for {TARGET} with Debian's compiler, once");
        let say = |error: std::io::Error| format!("the library could not be put in its place: {error}");
        let folder = place::target().join("debian-library-build");
        remove(&folder).map_err(say)?;
        remove(&Self::sysroot()).map_err(say)?;
        // What was compiled against an earlier library does not fit this one.
        remove(&place::page_target()).map_err(say)?;

        // The library is built as the dependency of a crate; this one is empty.
        fs::create_dir_all(folder.join("src")).map_err(say)?;
        fs::write(folder.join("src/lib.rs"), "").map_err(say)?;
        fs::write(
            folder.join("Cargo.toml"),
            "[package]\nname = \"empty\"\nedition = \"2024\"\n[workspace]\n[profile.release]\npanic = \"abort\"\n",
        )
        .map_err(say)?;
        let mut build = cargo(&["build", "--release", "--target", TARGET]);
        build
            .arg("-Zbuild-std=std,panic_abort,proc_macro,test")
            .current_dir(&folder)
            .env("CARGO_TARGET_DIR", folder.join("target"))
            .env("RUSTC_BOOTSTRAP", "1")
            // Optimizing across crates reads bitcode from the library.
            .env("CARGO_ENCODED_RUSTFLAGS", "-Cembed-bitcode=yes");
        run::run(&mut build)?;

        let library = Self::sysroot().join("lib/rustlib").join(TARGET).join("lib");
        fs::create_dir_all(&library).map_err(say)?;
        let built = folder.join("target").join(TARGET).join("release/deps");
        for entry in fs::read_dir(built).map_err(say)?.flatten() {
            let (file, name) = (entry.path(), entry.file_name());
            let of_library = !name.to_string_lossy().starts_with("libempty-");
            if file.extension().is_some_and(|extension| extension == "rlib") && of_library {
                fs::copy(&file, library.join(name)).map_err(say)?;
            }
        }
        if !holds_library(&library) {
            return Err("the library was built, but is not where it was looked for".to_owned());
        }
        fs::write(Self::mark(), &self.version).map_err(say)?;
        remove(&folder).map_err(say)?;
        Ok(self.found())
    }
}

/// Whether the folder holds the standard library.
pub fn holds_library(folder: &Path) -> bool {
    fs::read_dir(folder).is_ok_and(|entries| {
        entries.flatten().any(|entry| entry.file_name().to_string_lossy().starts_with("libstd-"))
    })
}

/// Debian's cargo with Debian's compiler and lints, whichever come first on the search path.
pub fn cargo(words: &[&str]) -> Command {
    // Cargo would take the lints that the search path names first, which know the library of another compiler.
    let program = if words.first() == Some(&"clippy") { CLIPPY } else { CARGO };
    let mut command = run::program(program, &run::locked(words));
    command
        .env("CARGO", CARGO)
        .env("RUSTC", RUSTC)
        .env("RUSTDOC", RUSTDOC)
        // Set by a toolchain manager for its own programs; Debian's would pass it on.
        .env_remove("RUSTUP_TOOLCHAIN");
    command
}

/// Whether Debian's lints are here.
pub fn has_clippy() -> bool {
    Path::new(CLIPPY).is_file()
}

/// Installs Debian's lints.
pub fn install_clippy() -> Result<(), String> {
    machine::provide("Debian's clippy", &["rust-web-clippy"])
}

/// Installs Debian's compiler.
pub fn install() -> Result<(), String> {
    let linker = newest_linker().ok_or("Debian offers no linker `lld-NN`: is the list of packages empty?")?;
    let mut packages = PACKAGES.to_vec();
    packages.push(&linker);
    machine::install(&packages)
}

/// The commands of an administrator that have the effect of [`install`].
pub fn install_commands() -> String {
    let linker = newest_linker().unwrap_or_else(|| "lld-22".to_owned());
    let mut packages = PACKAGES.to_vec();
    packages.push(&linker);
    machine::install_commands(&packages)
}

/// The name of the newest linker package.
fn newest_linker() -> Option<String> {
    let list = run::output(&mut run::program("apt-cache", &["pkgnames", "lld-"]))?;
    newest_numbered("lld-", list.lines().map(str::to_owned)).map(|number| format!("lld-{number}"))
}

/// The highest number behind the prefix; names with anything else behind it do not count.
fn newest_numbered(prefix: &str, names: impl Iterator<Item = String>) -> Option<u32> {
    names.filter_map(|name| name.strip_prefix(prefix)?.parse().ok()).max()
}

/// The main version of the compiler's backend, from what it says of itself.
fn backend(version: &str) -> Option<u32> {
    let line = version.lines().find_map(|line| line.strip_prefix("LLVM version: "))?;
    line.split('.').next()?.parse().ok()
}

fn remove(folder: &Path) -> std::io::Result<()> {
    if folder.exists() { fs::remove_dir_all(folder) } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_linker_is_found_by_its_number() {
        let names = ["lld-9", "lld-14", "lld-22", "lld-19-doc", "lld", "liblld-23"];
        assert_eq!(newest_numbered("lld-", names.iter().map(|&name| name.to_owned())), Some(22));
        assert_eq!(newest_numbered("lld-", std::iter::empty()), None);
    }

    #[test]
    fn the_backend_is_read_from_what_the_compiler_says() {
        // As printed by `rustc -vV`.
        let version =
            "rustc 1.96.0 (ac68faa20 2026-05-25)\nbinary: rustc\nrelease: 1.96.0\nLLVM version: 22.1.8\n";
        assert_eq!(backend(version), Some(22));
        assert_eq!(backend("rustc 1.96.0"), None);
    }
}
