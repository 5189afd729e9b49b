//! The tests with random values, again and again: `test` runs them with the same values each time, so that it cannot fail
//! by chance. A fault found here names its seed, which then belongs among the found seeds of that test.

use crate::run;

/// Runs them `count` times, each time with other values.
pub fn all(count: &str) -> Result<(), String> {
    let count: u32 = count.parse().map_err(|_| format!("not a number of runs: {count}"))?;
    for turn in 1..=count {
        run::step(&format!("random values, {turn} of {count}"), || {
            run::run(&mut run::cargo(&[
                "test",
                "--package",
                "tests",
                "--test",
                "properties",
                "--test",
                "record",
            ]))
        })?;
    }
    Ok(())
}
