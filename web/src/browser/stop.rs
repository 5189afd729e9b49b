//! What happens when the program stops: an old number that no longer follows its inputs is a hazard, so the shell
//! takes the numbers off the screen and shows what was typed. The shell's side of this is in `index.html`.
//!
//! - [`install`] once, first of all: from then on a panic reports itself to the shell.
//! - [`keep`] at every change: the typed text lies outside the part that can stop.
//!
//! Where there is no shell (component tests), both do nothing.

use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(catch, js_name = tapside_stopped)]
    fn shell_stopped(message: &str) -> Result<(), JsValue>;
    #[wasm_bindgen(catch, js_name = tapside_keep)]
    fn shell_keep(name: &str, text: &str) -> Result<(), JsValue>;
}

/// Makes every panic take the numbers off the screen.
pub fn install() {
    // Through Yew, which would otherwise put a hook of its own over one that was set behind its back.
    yew::set_custom_panic_hook(Box::new(|panic| stopped(&panic.to_string())));
}

/// Takes the numbers off the screen; `message` is for whoever mends the program.
pub fn stopped(message: &str) {
    // Nothing more can be done here: a shell that cannot show the notice sees the failed call in `window.onerror`.
    let _ = shell_stopped(message);
}

/// Keeps `text` under `name`, to be shown if the program stops; an empty text forgets it.
///
/// Cheap enough for every key press when `name` is one field.
pub fn keep(name: &str, text: &str) {
    // Only a page without a shell refuses, and there is nobody to tell.
    let _ = shell_keep(name, text);
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use wasm_bindgen_test::wasm_bindgen_test;
    use web_sys::js_sys::eval;

    use super::*;

    #[wasm_bindgen_test]
    fn the_shell_hears_what_was_typed_and_why_the_program_stopped() {
        // Without a shell nothing happens.
        keep("flow", "1");
        stopped("nothing");

        let shell = "window.heard = [];
            window.tapside_keep = (name, text) => heard.push(name + '=' + text);
            window.tapside_stopped = (message) => heard.push(message);";
        eval(shell).unwrap();
        keep("flow", "1,5 gpm");
        stopped("a reason");
        let heard = eval("heard.join('; ')").unwrap();
        assert_eq!(heard.as_string().as_deref(), Some("flow=1,5 gpm; a reason"));
    }
}
