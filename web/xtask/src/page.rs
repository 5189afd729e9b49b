//! The page as one file.

use std::{
    path::{Path, PathBuf},
    process::Command,
};

use crate::{
    place, run,
    setup::compiler::{self, Compiler},
};

/// Builds `dist/index.html`, prints where it is and how large, and returns its place.
pub fn build() -> Result<PathBuf, String> {
    let compiler = compiler::ready()?;
    build_with(&compiler)
}

/// The same with a compiler that is known to be ready.
pub fn build_with(compiler: &Compiler) -> Result<PathBuf, String> {
    run::run(&mut compiler.cargo(&[
        "build",
        "--package",
        "web",
        "--package",
        "unpack",
        "--profile",
        "page",
    ]))?;
    let modules = place::page_target().join(compiler::TARGET).join("page");
    let page = place::page();
    let mut pack = run::cargo(&["run", "--quiet", "--package", "pack", "--"]);
    run::run(pack.arg(place::root()).arg(modules).arg(&page))?;
    Ok(page)
}

/// Opens the file in the browser that this machine prefers.
pub fn open(page: &Path) -> Result<(), String> {
    let mut opener = if cfg!(windows) {
        let mut explorer = Command::new("explorer");
        explorer.arg(page);
        explorer
    } else {
        let name = if cfg!(target_os = "macos") { "open" } else { "xdg-open" };
        let mut opener = Command::new(name);
        opener.arg(page);
        opener
    };
    // Not waited for: some openers last as long as the browser.
    opener
        .spawn()
        .map(|_| ())
        .map_err(|error| format!("could not open a browser ({error}); open {} by hand", page.display()))
}
