//! The Python environment of the cross-checks: general reference libraries of exact versions, in the target folder.

use std::{
    fs,
    path::{Path, PathBuf},
};

use super::machine;
use crate::{place, run};

/// Where the cross-checks and the list of their libraries are.
pub fn checks() -> PathBuf {
    place::root().join("tests").join("python")
}

/// The interpreter of the environment, which is made if it is not there or the list has changed; none without a list.
pub fn ready() -> Result<Option<PathBuf>, String> {
    let list = checks().join("requirements.txt");
    let Ok(wanted) = fs::read_to_string(&list) else {
        return Ok(None);
    };
    let folder = place::target().join("python");
    let python = interpreter(&folder);
    let mark = folder.join("installed.txt");
    let installed = fs::read_to_string(&mark).is_ok_and(|installed| installed == wanted);
    if installed && python.is_file() {
        return Ok(Some(python));
    }

    println!("set-up: Python environment in {}", folder.display());
    if make(&folder).is_err() {
        machine::provide("Python 3 with its module venv", &["python3", "python3-venv"])?;
        make(&folder)?;
    }
    let mut install = run::program(&python, &["-m", "pip", "install"]);
    run::run(install.args(["--quiet", "--disable-pip-version-check", "--requirement"]).arg(&list))?;
    fs::write(&mark, wanted).map_err(|error| format!("{}: {error}", mark.display()))?;
    Ok(Some(python))
}

fn make(folder: &Path) -> Result<(), String> {
    let python = place::program(&["python3", "python"]).ok_or("there is no Python")?;
    let mut venv = run::program(&python, &["-m", "venv", "--clear"]);
    run::run(venv.arg(folder))
}

fn interpreter(folder: &Path) -> PathBuf {
    if cfg!(windows) { folder.join("Scripts").join("python.exe") } else { folder.join("bin").join("python") }
}
