//! What this machine is, as far as installing goes.

use std::path::Path;

use crate::{place, run};

/// Whether packages can be installed here by `apt-get`.
pub fn has_apt() -> bool {
    Path::new("/etc/debian_version").is_file() && place::program(&["apt-get"]).is_some()
}

/// Whether this program may change the machine.
pub fn is_root() -> bool {
    run::output(&mut run::program("id", &["-u"])).is_some_and(|id| id.trim() == "0")
}

/// Installs packages; only for root where there is `apt-get`.
pub fn install(packages: &[&str]) -> Result<(), String> {
    println!("set-up: installing {}", packages.join(" "));
    run::run(&mut run::program("apt-get", &["update", "--quiet"]))?;
    let mut install = run::program("apt-get", &["install", "--quiet", "--yes", "--no-install-recommends"]);
    run::run(install.args(packages).env("DEBIAN_FRONTEND", "noninteractive"))
}

/// The commands of an administrator that have the effect of [`install`].
pub fn install_commands(packages: &[&str]) -> String {
    format!("    apt-get update\n    apt-get install --no-install-recommends {}", packages.join(" "))
}
