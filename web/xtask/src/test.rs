//! Every check, the cheap ones first; the first that fails ends the run.

use crate::{page, run};

/// Runs them all.
pub fn all() -> Result<(), String> {
    run::step("format", || run::run(&mut run::cargo(&["fmt", "--all", "--check"])))?;
    run::step("page", page::build)?;
    Ok(())
}
