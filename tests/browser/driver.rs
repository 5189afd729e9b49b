//! The browser's driver as a child process: it never outlives its test.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// What the tests are given by whoever runs them.
pub fn given(variable: &str) -> PathBuf {
    let value = std::env::var_os(variable).unwrap_or_else(|| {
        panic!(
            "{variable} is not set: run `cargo xtask test`, which builds the page and finds a browser for it"
        )
    });
    let path = PathBuf::from(value);
    if path.is_absolute() {
        return path;
    }
    // Cargo runs a test in the folder of its package; a person gives the path from the checkout.
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/..")).join(path)
}

/// A driver with an empty profile for its one browser.
pub struct Driver {
    process: Child,
    port: u16,
    profile: PathBuf,
}

impl Driver {
    /// Starts it on a port that the system chooses.
    pub fn start() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let profile = format!("browser-{}-{number}", std::process::id());
        let profile = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(profile);
        let driver = given("CHROMEDRIVER");
        let mut process = Command::new(&driver)
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("{}: {error}", driver.display()));
        let output = process.stdout.take();
        let mut started = Self { process, port: 0, profile };
        let lines = BufReader::new(output.expect("the output is piped")).lines();
        let port = lines.map_while(Result::ok).find_map(|line| port_in(&line));
        started.port = port.expect("the driver says on which port it listens");
        started
    }

    /// Where it listens.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// The empty folder for the browser's own files.
    pub fn profile(&self) -> String {
        self.profile.display().to_string()
    }

    /// Asks the driver to close its browser and to end; whether it answered.
    fn shut_down(&self) -> bool {
        let Ok(mut stream) = TcpStream::connect(("127.0.0.1", self.port)) else { return false };
        let wait = Some(Duration::from_secs(5));
        stream.set_read_timeout(wait).is_ok()
            && stream.write_all(b"GET /shutdown HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n").is_ok()
            && stream.read(&mut [0; 64]).is_ok()
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        let end = Instant::now() + Duration::from_secs(5);
        if self.shut_down() {
            while Instant::now() < end && matches!(self.process.try_wait(), Ok(None)) {
                std::thread::sleep(Duration::from_millis(5));
            }
        }
        // Ended already, unless it hangs. Nobody is left to hear of a failure.
        let _ = self.process.kill();
        let _ = self.process.wait();
        let _ = std::fs::remove_dir_all(&self.profile);
    }
}

/// `ChromeDriver was started successfully on port 41357.`
fn port_in(line: &str) -> Option<u16> {
    let (_, port) = line.split_once("started successfully on port ")?;
    port.trim_end_matches('.').parse().ok()
}
