//! The mark of a state: a shape of its own for each, so that no colour is needed.

use calc::engine::sheet::State;
use yew::prelude::*;

/// The mark of a state. The words stand beside it, so a screen reader passes it over.
pub fn mark(state: State) -> Html {
    let shape = match state {
        State::NotMet => html! {
            <>
                <rect class="solid" x="1.5" y="1.5" width="21" height="21" />
                <path class="cut" d="M7 7 L17 17 M17 7 L7 17" />
            </>
        },
        State::NotKnown => html! {
            <>
                <circle class="dashed" cx="12" cy="12" r="10" />
                <path class="line" d="M9 9.5 a3 3 0 1 1 4.2 2.7 q-1.2 0.6 -1.2 2.1 M12 16.6 v1.6" />
            </>
        },
        State::Marginal => html! {
            <>
                <circle class="line" cx="12" cy="12" r="10" />
                <path class="solid" d="M12 2 a10 10 0 0 1 0 20 z" />
            </>
        },
        State::Met => html! {
            <>
                <circle class="line" cx="12" cy="12" r="10" />
                <path class="line" d="M7 12.5 L10.7 16 L17 8.5" />
            </>
        },
        State::DoesNotApply => html! {
            <>
                <circle class="faint" cx="12" cy="12" r="10" />
                <path class="line" d="M7 12 H17" />
            </>
        },
    };
    html! { <svg class="mark" viewBox="0 0 24 24" aria-hidden="true" focusable="false">{ shape }</svg> }
}
