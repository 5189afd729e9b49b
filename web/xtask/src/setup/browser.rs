//! A browser and the driver that lets a test use it as a person does.

use std::{env, fs, path::PathBuf};

use super::machine;
use crate::place;

const CHROME: &[&str] = &[
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];
const DRIVER: &[&str] = &["chromedriver"];

/// Both programs.
pub struct Browser {
    /// The browser.
    pub chrome: PathBuf,
    /// Its driver.
    pub driver: PathBuf,
}

/// A browser with its driver, installed if need be. None is an error: a page that no browser has opened is not tested.
pub fn ready() -> Result<Browser, String> {
    if let Some(browser) = found()? {
        return Ok(browser);
    }
    let missing = "A browser or its driver (Chromium or Chrome, and chromedriver of the same version)";
    machine::provide(missing, &["chromium", "chromium-driver"])
        .map_err(|words| format!("{words}\nCHROME and CHROMEDRIVER can name programs that lie elsewhere."))?;
    found()?.ok_or_else(|| format!("{missing} is still missing after the installation."))
}

fn found() -> Result<Option<Browser>, String> {
    let (chrome, driver) = (named("CHROME", CHROME)?, named("CHROMEDRIVER", DRIVER)?);
    Ok(chrome.zip(driver).map(|(chrome, driver)| Browser { chrome, driver }))
}

/// The program that the environment names, else one that is found.
fn named(variable: &str, names: &[&str]) -> Result<Option<PathBuf>, String> {
    match env::var(variable) {
        Ok(name) => place::program(&[&name])
            .map(Some)
            .ok_or_else(|| format!("{variable} names {name}, which is not there.")),
        Err(_) => Ok(place::program(names)),
    }
}

impl Browser {
    /// Writes how the driver starts the browser, for the runner of tests inside the page, and returns the file's place.
    pub fn capabilities(&self) -> Result<PathBuf, String> {
        let file = place::target().join("webdriver.json");
        fs::write(&file, capabilities(&self.chrome.to_string_lossy()))
            .map_err(|error| format!("{}: {error}", file.display()))?;
        Ok(file)
    }
}

/// No sandbox: in a container there is none to be had, and the only page opened is our own. Nothing in the background:
/// it would be the one thing that reaches for the network.
fn capabilities(chrome: &str) -> String {
    let chrome = chrome.replace('\\', "\\\\").replace('"', "\\\"");
    format!(
        "{{\"goog:chromeOptions\": {{\"binary\": \"{chrome}\", \"args\": [\"--headless\", \"--no-sandbox\", \
         \"--disable-gpu\", \"--disable-dev-shm-usage\", \"--disable-quic\", \"--disable-sync\", \"--no-first-run\", \
         \"--disable-background-networking\", \"--disable-component-update\"]}}}}\n"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_stays_one_text() {
        assert!(capabilities("C:\\a \"b\"\\chrome.exe").contains(r#""binary": "C:\\a \"b\"\\chrome.exe""#));
    }
}
