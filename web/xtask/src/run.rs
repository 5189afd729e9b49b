//! Starting other programs.

use std::{
    env,
    ffi::{OsStr, OsString},
    process::{Command, Stdio},
    time::Instant,
};

use crate::place;

/// The cargo that started this program, in the checkout, building where this program builds.
pub fn cargo(words: &[&str]) -> Command {
    let mut command = Command::new(cargo_name());
    command.args(locked(words)).current_dir(place::root()).env("CARGO_TARGET_DIR", place::target());
    command
}

/// The cargo that started this program.
pub fn cargo_name() -> OsString {
    env::var_os("CARGO").unwrap_or_else(|| "cargo".into())
}

/// The words of a cargo command that builds from exactly the versions in the lock file; formatting knows no versions.
pub fn locked<'a>(words: &[&'a str]) -> Vec<&'a str> {
    let mut words = words.to_vec();
    if words.first().is_some_and(|&command| command != "fmt") {
        words.insert(1, "--locked");
    }
    words
}

/// Another program, in the checkout.
pub fn program(name: impl AsRef<OsStr>, words: &[&str]) -> Command {
    let mut command = Command::new(name);
    command.args(words).current_dir(place::root());
    command
}

/// Runs it to the end, its output passed on.
pub fn run(command: &mut Command) -> Result<(), String> {
    let shown = shown(command);
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("failed ({status}): {shown}")),
        Err(error) => Err(format!("could not be started ({error}): {shown}")),
    }
}

/// What it prints, if it succeeds; its errors are not shown.
pub fn output(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then_some(text)
}

/// Announces a step, does it, and says how long it took.
pub fn step<T>(name: &str, work: impl FnOnce() -> Result<T, String>) -> Result<T, String> {
    println!("\n== {name}");
    let start = Instant::now();
    let result = work();
    let end = if result.is_ok() { "done" } else { "FAILED" };
    println!("== {name}: {end} in {:.1} s", start.elapsed().as_secs_f64());
    result
}

fn shown(command: &Command) -> String {
    let mut text = command.get_program().to_string_lossy().into_owned();
    for word in command.get_args() {
        text.push(' ');
        text += &word.to_string_lossy();
    }
    text
}
