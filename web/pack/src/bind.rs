//! Binds the compiled module to the browser.

use std::path::Path;

use wasm_bindgen_cli_support::Bindgen;

/// A module with the script that connects it to the browser.
pub struct Bound {
    /// The bytes of the WebAssembly module.
    pub module: Vec<u8>,
    /// The classic script that loads it.
    pub glue: String,
}

/// Reads the module that the compiler wrote. The script puts its loader into the global variable of that name.
pub fn bind(module: &Path, global: &str) -> Result<Bound, String> {
    let say = |error| format!("{}: {error:?}", module.display());
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(module)
        .out_name("tapside")
        // A classic script: a browser refuses to load a module script from a file.
        .no_modules(true)
        .map_err(say)?
        .no_modules_global(global)
        .map_err(say)?
        .typescript(false)
        // Otherwise the glue makes itself an address from where the page lies.
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true);
    let mut output = bindgen.generate_output().map_err(say)?;
    Ok(Bound { module: output.wasm_mut().emit_wasm(), glue: without_comments(output.js()) })
}

/// The script without the lines that are nothing but a comment: they name addresses, and cost room in every copy.
fn without_comments(script: &str) -> String {
    let code = script.lines().filter(|line| !line.trim_start().starts_with("//"));
    code.collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_lines_of_comment_go() {
        let script = "a(); // b\n    // See https://example.org\nc('//');\n";
        assert_eq!(without_comments(script), "a(); // b\nc('//');");
    }
}
