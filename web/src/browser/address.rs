//! The browser's address line and the title of the page.

use crate::page::route::Route;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use yew::prelude::*;

/// The view that the address asks for; follows it.
#[hook]
pub fn use_route() -> Route {
    let route = use_state_eq(|| Route::of(&hash()).unwrap_or(Route::Start));
    {
        let route = route.setter();
        use_effect_with((), move |()| {
            let listener = Closure::<dyn Fn()>::new(move || {
                // A hash that is no address of ours leads to a place within the view.
                if let Some(next) = Route::of(&hash()) {
                    route.set(next);
                }
            });
            let window = web_sys::window();
            if let Some(window) = &window {
                window.set_onhashchange(Some(listener.as_ref().unchecked_ref()));
            }
            move || {
                if let Some(window) = window {
                    window.set_onhashchange(None);
                }
                drop(listener);
            }
        });
    }
    *route
}

/// Goes to another view.
pub fn go(address: &str) {
    if let Some(window) = web_sys::window() {
        // Refused only where the page is being closed.
        let _ = window.location().set_hash(address);
    }
}

/// The title, by which a person finds the tab: the view before the program.
pub fn set_title(view: &str) {
    if let Some(document) = web_sys::window().and_then(|window| window.document()) {
        let title = if view.is_empty() { "Tapside".to_owned() } else { format!("{view} – Tapside") };
        document.set_title(&title);
    }
}

/// The language that is asked for: `?language=accented` before the hash.
pub fn language() -> String {
    let asked = web_sys::window().and_then(|window| window.location().search().ok()).unwrap_or_default();
    asked.trim_start_matches('?').strip_prefix("language=").unwrap_or_default().to_owned()
}

fn hash() -> String {
    web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default()
}
