//! Packs the page into one file: binds the module to the browser, fills the shell, states the page's own policy.
//!
//! `pack CHECKOUT MODULES OUT`: the shell and the folder of the compiled modules in, the finished file out. `cargo xtask page`
//! starts it.

mod bind;
mod licences;
mod policy;
mod shell;
mod signs;
mod size;

use std::{env, fs, path::Path, process::ExitCode};

use sha2::{Digest, Sha256};

fn main() -> ExitCode {
    let arguments: Vec<String> = env::args().skip(1).collect();
    let [checkout, modules, out] = arguments.as_slice() else {
        eprintln!("usage: pack CHECKOUT MODULES OUT");
        return ExitCode::FAILURE;
    };
    match pack(Path::new(checkout), Path::new(modules), Path::new(out)) {
        Ok(report) => {
            print!("{report}");
            ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("pack: {problem}");
            ExitCode::FAILURE
        }
    }
}

/// Writes the finished file and says how large it and its parts are.
fn pack(checkout: &Path, modules: &Path, out: &Path) -> Result<String, String> {
    let shell = read(&checkout.join("index.html"))?;
    let style = read(&checkout.join("web/style.css"))?;
    let program = bind::bind(&modules.join("web.wasm"), "program")?;
    let unpack = bind::bind(&modules.join("unpack.wasm"), "unpack")?;
    let licences = licences::text(checkout)?;

    let page = assemble(&shell, &style, &program, &unpack, &licences)?;
    write_if_different(out, &page)?;

    Ok(size::report(
        out,
        &[
            ("file", page.as_bytes()),
            ("program", &program.module),
            ("glue", program.glue.as_bytes()),
            ("unpack", &unpack.module),
            ("glue", unpack.glue.as_bytes()),
            ("style", style.as_bytes()),
            ("licences", licences.as_bytes()),
        ],
    ))
}

/// The finished page.
fn assemble(
    shell: &str,
    style: &str,
    program: &bind::Bound,
    unpack: &bind::Bound,
    licences: &str,
) -> Result<String, String> {
    shell::refuse_end_tag("style", style, "the style sheet")?;
    let glue = [program.glue.trim(), unpack.glue.trim()].join("\n");
    shell::refuse_end_tag("script", &glue, "the glue")?;
    for (what, text) in [("the shell", shell), ("the style sheet", style), ("the glue", &glue)] {
        shell::refuse_address(text, what)?;
    }

    let style = style.trim();
    let version = format!(
        "Tapside {}, build {}",
        env!("CARGO_PKG_VERSION"),
        fingerprint(&[
            shell.as_bytes(),
            style.as_bytes(),
            glue.as_bytes(),
            &program.module,
            &unpack.module,
            licences.as_bytes()
        ])
    );
    // packed, for the file is carried around and copied as it lies on disk
    let program = format!(
        "{}\n{}\n<script>{glue}</script>",
        data("unpack", &size::packed_for_browser(&unpack.module)?),
        data("program", &size::packed(&program.module)?)
    );
    let filled = shell::fill(
        shell,
        &[
            ("policy", policy::PLACE),
            ("style", &format!("<style>{style}</style>")),
            ("starting", "<p>Starting.</p>"),
            ("version", &version),
            ("licences", &shell::escaped(licences)),
            ("program", &program),
        ],
    )?;
    policy::state(&filled)
}

/// Bytes that the shell finds by their name.
fn data(name: &str, bytes: &[u8]) -> String {
    format!("<script type=\"text/plain\" id=\"{name}\">{}</script>", signs::encode(bytes))
}

/// Twelve digits that tell two builds apart.
fn fingerprint(parts: &[&[u8]]) -> String {
    let mut hash = Sha256::new();
    for part in parts {
        // The length keeps "ab" + "c" apart from "a" + "bc".
        hash.update((part.len() as u64).to_le_bytes());
        hash.update(part);
    }
    hash.finalize().iter().take(6).map(|byte| format!("{byte:02x}")).collect()
}

fn read(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))
}

/// Leaves an equal file alone, so that whoever watches it sees only true changes.
fn write_if_different(path: &Path, text: &str) -> Result<(), String> {
    if fs::read_to_string(path).is_ok_and(|old| old == text) {
        return Ok(());
    }
    let say = |error| format!("{}: {error}", path.display());
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(say)?;
    }
    fs::write(path, text).map_err(say)
}

#[cfg(test)]
mod tests {
    use super::*;
    use flate2::read::GzDecoder;
    use lzma_rust2::LzmaReader;
    use std::io::Read;

    const SHELL: &str = include_str!("../../../index.html");

    fn program() -> bind::Bound {
        bind::Bound { module: b"\0asm, the program".to_vec(), glue: "let program;".to_owned() }
    }

    fn unpack() -> bind::Bound {
        bind::Bound { module: b"\0asm".to_vec(), glue: "let unpack;".to_owned() }
    }

    fn page(style: &str, program: &bind::Bound, licences: &str) -> Result<String, String> {
        assemble(SHELL, style, program, &unpack(), licences)
    }

    fn data_in(page: &str, name: &str) -> Vec<u8> {
        let (_, after) = page.split_once(&format!("<script type=\"text/plain\" id=\"{name}\">")).unwrap();
        signs::decode(after.split_once("</script>").unwrap().0)
    }

    #[test]
    fn the_shell_becomes_a_page_without_a_place_left_open() {
        let page = page("p { margin: 0 }", &program(), "1 < 2").unwrap();
        assert!(!page.contains("<!--"), "a comment is left");
        assert!(!page.contains("cargo xtask page"), "the words of the unbuilt shell are left");
        let mut module = Vec::new();
        GzDecoder::new(data_in(&page, "unpack").as_slice()).read_to_end(&mut module).unwrap();
        assert_eq!(module, unpack().module);
        module.clear();
        let packed = data_in(&page, "program");
        LzmaReader::new_mem_limit(packed.as_slice(), u32::MAX, None)
            .unwrap()
            .read_to_end(&mut module)
            .unwrap();
        assert_eq!(module, program().module);
        assert!(page.contains("<style>p { margin: 0 }</style>"));
        // The shell's two scripts and the glue between them.
        assert_eq!(page.matches("<script>").count(), 3);
        assert_eq!(page.matches("'sha256-").count(), 4);
        assert!(!page.contains(" style=") && !page.contains(" onclick="), "the policy forbids these");
        assert!(page.contains("1 &lt; 2"), "the licences");
    }

    #[test]
    fn a_part_that_would_break_out_is_refused() {
        let glue = bind::Bound { glue: "'</script>'".to_owned(), ..program() };
        assert!(page("", &glue, "").is_err());
        assert!(page("</style>", &program(), "").is_err());
    }

    #[test]
    fn a_part_with_an_address_is_refused() {
        let glue = bind::Bound { glue: "fetch('https://example.org')".to_owned(), ..program() };
        assert!(page("", &glue, "").is_err());
        assert!(page("a { background: url(//example.org/a.png) }", &program(), "").is_err());
        // a text to read, which nothing loads
        assert!(page("", &program(), "http://www.apache.org/licenses/").is_ok());
    }

    #[test]
    fn every_part_counts_in_the_fingerprint() {
        let one = fingerprint(&[b"ab", b"c"]);
        assert_eq!(one.len(), 12);
        assert_ne!(one, fingerprint(&[b"a", b"bc"]));
        assert_ne!(one, fingerprint(&[b"ab", b"d"]));
    }
}
