//! A section that is folded, with its result in one line: what it says in short is seen without opening it.

use yew::prelude::*;

/// A folded section.
#[derive(Properties, PartialEq, Clone)]
pub struct FoldProps {
    /// Of the `details`.
    pub id: AttrValue,
    /// The heading.
    pub title: AttrValue,
    /// What is in it, in one line.
    #[prop_or_default]
    pub result: AttrValue,
    /// Whether it stands open at first.
    #[prop_or_default]
    pub open: bool,
    /// What is folded.
    pub children: Html,
}

/// The heading and the result stay in sight.
#[component]
pub fn Fold(props: &FoldProps) -> Html {
    let FoldProps { id, title, result, open, children } = props.clone();
    html! {
        <details class="folded" {id} {open}>
            <summary>
                <h3>{ title }</h3>
                if !result.is_empty() { <span class="fold-result">{ result }</span> }
            </summary>
            { children }
        </details>
    }
}
