//! The commands of this checkout: `cargo xtask page`, `test`, `bench`, `kills`, `twice`, `seeds`, `mutants`.
//!
//! This program reads the command, sets up what is missing and starts cargo; it depends on nothing, so that it is built
//! in a moment. The work on the page's file is done by the package `pack`.

mod bench;
mod kills;
mod mutants;
mod page;
mod place;
mod run;
mod seeds;
mod setup;
mod test;
mod twice;

use std::{env, process::ExitCode};

const HELP: &str = "\
cargo xtask page           build the whole program into one file, dist/index.html; says where it is and how large
cargo xtask page --open    the same, then open it in the browser
cargo xtask test           run every check: format, lints, tests, the page in a browser, cross-checks
cargo xtask bench          print how large the file is, how fast the plan and the page are
cargo xtask kills [n]      kill the browser n times (20) while somebody types, and print what was kept
cargo xtask twice          build the page of the last commit in two fresh copies and compare them byte for byte
cargo xtask seeds [n]      run the tests with random values n times (20), each time with others
cargo xtask mutants [file] change the carbon stage in one place after the other (or one of its files, such as life), and
                           print which changes the check values do not notice
cargo xtask --help         this text

What is missing is set up by the command itself, once: the compiler's WebAssembly target (page), a browser with its
driver (test, bench, kills) and a Python environment in target/python (test). What would need an administrator is
installed when run by one on Debian and its kin; otherwise the commands are printed and nothing is changed.

CHROME and CHROMEDRIVER name a browser and its driver; CARGO_TARGET_DIR moves what is built, as with cargo.
`test` hands both names to the browser tests, and the finished file as TAPSIDE_PAGE; to the cross-checks in
tests/python the program that answers JSON requests, as TAPSIDE_EVALUATE.
";

fn main() -> ExitCode {
    let words: Vec<String> = env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["page"] => page::build().map(|_| ()),
        ["page", "--open"] => page::build().and_then(|page| page::open(&page)),
        ["test"] => test::all(),
        ["bench"] => bench::all(),
        ["twice"] => twice::all(),
        ["kills"] => kills::all("20"),
        ["seeds"] => seeds::all("20"),
        ["seeds", count] => seeds::all(count),
        ["mutants"] => mutants::all(None),
        ["mutants", file] => mutants::all(Some(file)),
        ["kills", count] => kills::all(count),
        [] | ["--help" | "-h" | "help"] => {
            print!("{HELP}");
            Ok(())
        }
        _ => Err(format!("no such command: {}\n\n{HELP}", words.join(" "))),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            eprintln!("\n{problem}");
            ExitCode::FAILURE
        }
    }
}
