//! Killing the browser again and again while somebody types.

use crate::setup::{browser, compiler};
use crate::{page, run};

/// Builds the page and kills the browser so many times; prints after each what was kept. More than the tests do at every
/// run, since each takes some seconds.
pub fn all(count: &str) -> Result<(), String> {
    let count: u32 = match count.parse() {
        Ok(count) if count > 0 => count,
        _ => return Err(format!("how often is the browser to be killed? {count} is no such number")),
    };
    let (compiler, browser) = run::step("set-up", || Ok((compiler::ready()?, browser::ready()?)))?;
    let page = run::step("page", || page::build_with(&compiler))?;
    run::step(&format!("{count} kills; no number typed more than a second before may be lost"), || {
        let test = "keeping::a_browser_that_dies_loses_no_more_than_a_second";
        let words = ["test", "--package", "tests", "--test", "browser", test, "--", "--exact", "--nocapture"];
        let mut kills = run::cargo(&words);
        kills
            .env("TAPSIDE_PAGE", &page)
            .env("CHROME", &browser.chrome)
            .env("CHROMEDRIVER", &browser.driver)
            .env("TAPSIDE_KILLS", count.to_string());
        run::run(&mut kills)
    })
}
