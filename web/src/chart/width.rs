//! The room that a chart has.

use super::plot::EM;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{HtmlElement, ResizeObserver};
use yew::prelude::*;

/// A drawing is never laid out on less.
const LEAST: f64 = 120.0;

/// The width of an element, in units of which [`EM`] are the size of its text; follows it. `None` until it is known.
#[hook]
pub fn use_width(element: &NodeRef) -> Option<f64> {
    let width = use_state_eq(|| None::<f64>);
    {
        let (element, width) = (element.clone(), width.setter());
        use_effect_with((), move |()| {
            let element = element.cast::<HtmlElement>();
            let look = {
                let element = element.clone();
                move || {
                    // Nothing can be measured while it is hidden: what was measured before still holds.
                    if let Some(measured) = element.as_ref().and_then(measured) {
                        width.set(Some(measured));
                    }
                }
            };
            look();
            let look = Closure::<dyn Fn()>::new(look);
            let observer = ResizeObserver::new(look.as_ref().unchecked_ref()).ok();
            if let (Some(observer), Some(element)) = (&observer, &element) {
                observer.observe(element);
            }
            move || {
                if let Some(observer) = observer {
                    observer.disconnect();
                }
                drop(look);
            }
        });
    }
    *width
}

fn measured(element: &HtmlElement) -> Option<f64> {
    let style = web_sys::window()?.get_computed_style(element).ok()??;
    let size = style.get_property_value("font-size").ok()?;
    let size: f64 = size.trim_end_matches("px").parse().ok()?;
    let width = (f64::from(element.client_width()) * EM / size).round();
    (width > 0.0 && width.is_finite()).then_some(width.max(LEAST))
}
