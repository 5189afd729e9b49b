//! The page of Tapside: shows what `calc` declares and computes, and holds no arithmetic of the trade.
//!
//! - `page` is what stands around any view: the way through the views, their addresses and ids, finding, opening.
//! - `sections` show the open record: what is entered of a place, whether the RO fits, what is kept.
//! - `sheet` shows any sheet from its declaration, `fields` its form, `math` its formulas.
//! - `chart` draws plain numbers, without a trade in it; `figure` draws what a sheet declares: its checks as bars.
//! - `state` is everything that the page knows, with one pure function for what can happen; it touches no browser.
//! - `store` keeps records on this device, `keeping` saves the open one while it is changed.
//! - `browser` asks the browser for what is its own: address, clock, focus, files.
//! - `text` holds the page's own words.

mod browser;
pub mod chart;
pub mod fields;
mod figure;
mod keeping;
mod math;
mod page;
mod sections;
mod sheet;
pub mod state;
pub mod store;
mod text;

pub use page::app::App;
pub use page::still::Still;

use browser::stop;

/// Mounts the page in the shell.
pub fn start() {
    stop::install();
    text::speak(&browser::address::language());
    // Yew's default renderer would clear the whole body, and with it the notice that the program stopped.
    let mount = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("app"));
    match mount {
        Some(mount) => {
            // What the shell shows until the program runs.
            mount.set_inner_html("");
            yew::Renderer::<App>::with_root(mount).render();
        }
        None => stop::stopped("the shell has no element with the id `app`"),
    }
}

#[cfg(all(test, target_arch = "wasm32"))]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
