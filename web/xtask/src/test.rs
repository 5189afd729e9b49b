//! Every check; the first that fails ends the run.

use std::{fs, path::PathBuf, process::Command};

use crate::{
    page, place,
    run::{self, step},
    setup::{
        browser::{self, Browser},
        compiler::{self, Compiler},
        debian, lints, python,
    },
};

/// Runs them all.
pub fn all() -> Result<(), String> {
    let (compiler, browser, python) = step("set-up", || {
        lints::ready()?;
        let compiler = compiler::ready()?;
        if !compiler.lints() {
            debian::install_clippy()?;
        }
        Ok((compiler, browser::ready()?, python::ready()?))
    })?;
    step("format", || run::run(&mut run::cargo(&["fmt", "--all", "--check"])))?;
    step("lints", || {
        let mut clippy = run::cargo(&["clippy", "--workspace", "--all-targets", "--features", "pack/runner"]);
        run::run(clippy.args(["--", "--deny", "warnings"]))
    })?;
    step("lints of the page", || {
        let mut clippy = compiler.cargo(&["clippy", "--package", "web", "--all-targets"]);
        run::run(clippy.args(["--", "--deny", "warnings"]))
    })?;
    let page = step("page", || page::build_with(&compiler))?;
    step("tests, those of the finished page in a browser included", || {
        // all of them, so that one run names everything that fails
        let mut tests = run::cargo(&["test", "--workspace", "--no-fail-fast"]);
        tests.env("TAPSIDE_PAGE", &page).env("CHROME", &browser.chrome).env("CHROMEDRIVER", &browser.driver);
        // The same random values for everybody: what fails here fails at the desk. Others are tried by `seeds`.
        tests.env("PROPTEST_RNG_SEED", "1");
        run::run(&mut tests)
    })?;
    step("tests inside the page", || inside(&compiler, &browser))?;
    if let Some(python) = python {
        step("cross-checks", || cross_checks(&python))?;
    }
    println!("\nEvery check passed.");
    Ok(())
}

/// The tests that run as WebAssembly in a browser.
fn inside(compiler: &Compiler, browser: &Browser) -> Result<(), String> {
    run::run(&mut run::cargo(&["build", "--package", "pack", "--features", "runner"]))?;
    let runner = place::target().join("debug").join("wasm-test-runner");
    // Examples in documentation were run with the other tests; here they would need a library for `rustdoc` too.
    let mut tests = compiler.cargo(&["test", "--package", "web", "--tests"]);
    tests
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner)
        .env("CHROMEDRIVER", &browser.driver)
        .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", browser.capabilities()?)
        // Seconds; the usual 20 are short for a slow machine with all published values.
        .env("WASM_BINDGEN_TEST_TIMEOUT", "300");
    run::run(&mut tests)
}

/// The comparisons with reference libraries. They ask the program through its JSON interface.
fn cross_checks(python: &PathBuf) -> Result<(), String> {
    let folder = fs::read_dir(python::checks()).map_err(|error| error.to_string())?;
    let mut scripts: Vec<PathBuf> = folder.flatten().map(|entry| entry.path()).collect();
    scripts.retain(|file| file.extension().is_some_and(|extension| extension == "py"));
    scripts.sort();
    if scripts.is_empty() {
        return Ok(());
    }

    run::run(&mut run::cargo(&["build", "--workspace", "--example", "evaluate"]))?;
    let evaluate = place::target().join("debug").join("examples").join("evaluate");
    for script in scripts {
        let mut check = Command::new(python);
        check.arg(&script).current_dir(place::root()).env("TAPSIDE_EVALUATE", &evaluate);
        run::run(&mut check)?;
    }
    Ok(())
}
