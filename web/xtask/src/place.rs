//! Where things are.

use std::{
    env,
    path::{Path, PathBuf},
};

/// The checkout.
pub fn root() -> PathBuf {
    // Asked when run: two checkouts that share a target folder share this program as well.
    let here = env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
    let here = Path::new(&here);
    here.ancestors().nth(2).unwrap_or(here).to_owned()
}

/// What cargo builds for this machine.
pub fn target() -> PathBuf {
    match env::var_os("CARGO_TARGET_DIR") {
        // A relative folder is meant from where the command was given.
        Some(folder) => env::current_dir().unwrap_or_else(|_| root()).join(folder),
        None => root().join("target"),
    }
}

/// What cargo builds for the browser: apart, since it may come from another compiler.
pub fn page_target() -> PathBuf {
    target().join("page")
}

/// The finished file.
pub fn page() -> PathBuf {
    root().join("dist").join("index.html")
}

/// The first of these programs that the search path holds; a name with a separator is taken as it is.
pub fn program(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH").unwrap_or_default();
    names.iter().find_map(|name| {
        if Path::new(name).components().count() > 1 {
            return Path::new(name).is_file().then(|| PathBuf::from(name));
        }
        env::split_paths(&path)
            .map(|folder| folder.join(name).with_extension(env::consts::EXE_EXTENSION))
            .find(|file| file.is_file())
    })
}
