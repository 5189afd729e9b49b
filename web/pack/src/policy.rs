//! The page's own policy: it runs the scripts that it was packed with and reaches nothing outside itself.

use base64::{Engine, engine::general_purpose::STANDARD};
use sha2::{Digest, Sha256};

/// Holds the place of the policy until the hashes are known. It stands before any style or script.
pub const PLACE: &str = "<!-- policy -->";

/// The page with its policy in place, made from the scripts and styles that really stand in it.
pub fn state(page: &str) -> Result<String, String> {
    let Some((before, after)) = page.split_once(PLACE) else {
        return Err("the page has no place for its policy".to_owned());
    };
    if before.contains("<script") || before.contains("<style") {
        return Err("the policy must stand before any script or style".to_owned());
    }
    let scripts = hashes(after, "script")?;
    let styles = hashes(after, "style")?;
    let policy = format!(
        "default-src 'none'; script-src {scripts} 'wasm-unsafe-eval'; style-src {styles}; img-src data:; \
         connect-src 'none'; object-src 'none'; base-uri 'none'; form-action 'none'"
    );
    Ok(format!("{before}<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">{after}"))
}

/// The hashes of all elements of that name; one with an attribute is a data block, which is not run.
fn hashes(page: &str, element: &str) -> Result<String, String> {
    let (start, end) = (format!("<{element}>"), format!("</{element}>"));
    let mut hashes = Vec::new();
    let mut rest = page;
    while let Some((_, after)) = rest.split_once(&start) {
        let Some((text, after)) = after.split_once(&end) else {
            return Err(format!("the page has a {element} without an end"));
        };
        hashes.push(format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text))));
        rest = after;
    }
    Ok(hashes.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_of_the_exact_text() {
        // SHA-256 of "abc": FIPS 180-4, example printed by NIST: ba7816bf 8f01cfea 414140de 5dae2223 b00361a3
        // 96177a9c b410ff61 f20015ad, here in base64.
        assert_eq!(
            hashes("<script>abc</script>", "script"),
            Ok("'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='".to_owned())
        );
        assert_ne!(hashes("<script>abc\n</script>", "script"), hashes("<script>abc</script>", "script"));
    }

    #[test]
    fn a_data_block_is_not_allowed_to_run() {
        let page = "<script type=\"text/plain\">abc</script>";
        assert_eq!(hashes(page, "script"), Ok(String::new()));
    }

    #[test]
    fn the_policy_reaches_nothing_outside() {
        let page = state(&format!("{PLACE}<style>a</style><script>abc</script>")).unwrap();
        for part in ["default-src 'none'", "connect-src 'none'", "form-action 'none'"] {
            assert!(page.contains(part), "{part} is missing in {page}");
        }
        assert!(!page.contains("unsafe-inline") && !page.contains("'unsafe-eval'"), "{page}");
    }

    #[test]
    fn a_script_before_the_policy_is_refused() {
        assert!(state(&format!("<script>abc</script>{PLACE}")).is_err());
        assert!(state("<script>abc</script>").is_err());
    }
}
