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

/// Installs what is missing, if that is possible here; otherwise says what a person has to do.
pub fn provide(missing: &str, packages: &[&str]) -> Result<(), String> {
    match instead_of_installing(missing, packages, has_apt(), is_root()) {
        None => install(packages),
        Some(words) => Err(words),
    }
}

/// What to say where nothing can be installed.
fn instead_of_installing(missing: &str, packages: &[&str], apt: bool, root: bool) -> Option<String> {
    match (apt, root) {
        (true, true) => None,
        (true, false) => Some(format!(
            "{missing} is missing. As root, run\n\n{}\n\nand then this command again. Nothing was changed.",
            install_commands(packages)
        )),
        (false, _) => Some(format!(
            "{missing} is missing. Install it (Debian's packages are called {}) and run this command again.",
            packages.join(", ")
        )),
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_root_with_apt_installs() {
        let words = |apt, root| instead_of_installing("The thing", &["a", "b"], apt, root);
        assert_eq!(words(true, true), None);
        assert!(
            words(true, false)
                .is_some_and(|words| words.contains("    apt-get install --no-install-recommends a b\n"))
        );
        assert!(words(false, true).is_some_and(|words| !words.contains("apt-get") && words.contains("a, b")));
        assert_eq!(words(false, true), words(false, false));
    }
}
