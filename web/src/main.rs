//! The page of Tapside.

mod stop;

use yew::prelude::*;

/// What stands in the page until its sections are built.
#[component]
fn App() -> Html {
    let typed = use_state(String::new);
    let on_input = {
        let typed = typed.clone();
        Callback::from(move |event: InputEvent| {
            let text = event.target_unchecked_into::<web_sys::HtmlInputElement>().value();
            stop::keep("tap temperature", &text);
            typed.set(text);
        })
    };
    html! {
        <label>
            { "Tap temperature " }
            <input inputmode="decimal" value={(*typed).clone()} oninput={on_input} />
        </label>
    }
}

fn main() {
    stop::install();
    // Yew's default renderer would clear the whole body, and with it the notice that the program stopped.
    let mount = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("app"));
    match mount {
        Some(mount) => {
            yew::Renderer::<App>::with_root(mount).render();
        }
        None => stop::stopped("the shell has no element with the id `app`"),
    }
}

#[cfg(all(test, target_arch = "wasm32"))]
mod tests {
    use std::time::Duration;

    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    use super::*;

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_test]
    async fn a_field_is_named_by_its_label() {
        let document = web_sys::window().and_then(|window| window.document()).unwrap();
        let mount = document.create_element("div").unwrap();
        yew::Renderer::<App>::with_root(mount.clone()).render();
        yew::platform::time::sleep(Duration::ZERO).await;
        assert!(mount.query_selector("label input").unwrap().is_some(), "{}", mount.inner_html());
    }
}
