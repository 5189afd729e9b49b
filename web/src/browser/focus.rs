//! Where the keyboard is.

use wasm_bindgen::JsCast;
use web_sys::{HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition};

/// Moves the focus to an element and its label into view; `false` where there is no such element.
pub fn on(id: &str) -> bool {
    let Some(element) = element(id) else { return false };
    unfold(&element);
    // The focus alone would scroll the field to the edge of the screen and leave its label outside.
    let around = element.closest(".field").ok().flatten();
    let options = ScrollIntoViewOptions::new();
    options.set_block(ScrollLogicalPosition::Center);
    around.as_ref().unwrap_or(&element).scroll_into_view_with_scroll_into_view_options(&options);
    let focus = web_sys::FocusOptions::new();
    focus.set_prevent_scroll(true);
    element.focus_with_options(&focus).is_ok()
}

/// Opens everything folded around an element.
fn unfold(element: &HtmlElement) {
    let mut around = element.closest("details").ok().flatten();
    while let Some(folded) = around {
        // an attribute that any `details` has
        let _ = folded.set_attribute("open", "");
        around = folded.parent_element().and_then(|outer| outer.closest("details").ok().flatten());
    }
}

fn element(id: &str) -> Option<HtmlElement> {
    let document = web_sys::window()?.document()?;
    document.get_element_by_id(id)?.dyn_into().ok()
}

/// Moves the focus to the name of a view that begins at the top.
pub fn at_top(id: &str) {
    if let Some(window) = web_sys::window() {
        window.scroll_to_with_x_and_y(0.0, 0.0);
    }
    if let Some(element) = element(id) {
        let focus = web_sys::FocusOptions::new();
        focus.set_prevent_scroll(true);
        // An element that is there takes the focus.
        let _ = element.focus_with_options(&focus);
    }
}
