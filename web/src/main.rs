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
