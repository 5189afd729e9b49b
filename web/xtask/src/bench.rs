//! Figures to look at; no check rests on them.

use crate::{page, place, run};

/// Prints the size of the file, and how fast the plan is once there is a program that measures it.
pub fn all() -> Result<(), String> {
    run::step("size of the file", page::build)?;
    if place::root().join("examples").join("bench.rs").is_file() {
        run::step("speed", || run::run(&mut run::cargo(&["run", "--release", "--example", "bench"])))?;
    }
    Ok(())
}
