//! Figures to look at; no check rests on them.

use crate::setup::{browser, compiler};
use crate::{page, run};

/// Prints the size of the file, how fast the plan is, and how fast the finished page is in a browser.
pub fn all() -> Result<(), String> {
    let (compiler, browser) = run::step("set-up", || Ok((compiler::ready()?, browser::ready()?)))?;
    let page = run::step("size of the file (bound 1 300 000 bytes)", || page::build_with(&compiler))?;
    run::step("the program alone", || {
        run::run(&mut run::cargo(&["run", "--release", "--example", "bench"]))
    })?;
    run::step("the page in a browser", || {
        let words =
            ["test", "--package", "tests", "--test", "browser", "figures", "--", "--ignored", "--nocapture"];
        let mut figures = run::cargo(&words);
        figures
            .env("TAPSIDE_PAGE", &page)
            .env("CHROME", &browser.chrome)
            .env("CHROMEDRIVER", &browser.driver);
        run::run(&mut figures)
    })
}
