//! The page of Tapside: shows what `calc` declares and computes, and holds no arithmetic of the trade.
//!
//! - `state` is everything that the page knows, with one pure function for what can happen; it touches no browser.
//! - `sections` show the open record: what is entered of a place, whether the RO fits, what is kept.
//! - `sheet` shows any sheet from its declaration, `fields` its form, `math` its formulas.
//! - `chart` draws plain numbers, without a trade in it.
//! - `figure` draws what a sheet declares: its checks as bars.
//! - `store` keeps records on this device, `keeping` saves the open one while it is changed.
//! - `text` holds the page's own words, `ids` the ids that links and browser tests rest on.

mod address;
mod app;
pub mod chart;
mod clock;
pub mod fields;
mod figure;
mod focus;
mod ids;
mod keeping;
mod math;
mod parts;
mod record;
mod route;
mod sections;
mod sheet;
mod slices;
pub mod state;
mod still;
pub mod stop;
pub mod store;
mod text;

pub use app::App;
pub use still::Still;

/// Mounts the page in the shell.
pub fn start() {
    stop::install();
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
