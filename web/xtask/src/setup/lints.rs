//! The formatter and the lints, which a small installation of Rust leaves out.

use crate::run;

/// Both, added by `rustup` if need be.
pub fn ready() -> Result<(), String> {
    for (command, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        if run::output(&mut run::cargo(&[command, "--version"])).is_some() {
            continue;
        }
        println!("set-up: adding {component}");
        run::run(&mut run::program("rustup", &["component", "add", component]))
            .map_err(|problem| format!("{problem}\nThe checks need `cargo {command}`, which is not here."))?;
    }
    Ok(())
}
