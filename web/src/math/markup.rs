//! Formulas as MathML, which every current browser sets by itself and a screen reader reads.

use super::Math;
use yew::prelude::*;

/// A formula within a line.
pub fn inline(math: &Math) -> Html {
    // Set as on a line of its own: the parts of a fraction keep their size.
    html! { <math displaystyle="true">{ part(math) }</math> }
}

/// Parentheses grow around a fraction only; around a mere index they would grow too.
fn row(parts: &[Math]) -> Html {
    let stretchy = if parts.iter().any(is_tall) { "true" } else { "false" };
    let in_row = |math: &Math| match math {
        Math::Sign(sign @ ("(" | ")" | "|")) => html! { <mo {stretchy}>{ *sign }</mo> },
        other => part(other),
    };
    html! { <mrow>{ for parts.iter().map(in_row) }</mrow> }
}

fn is_tall(math: &Math) -> bool {
    match math {
        Math::Over(..) => true,
        Math::Row(parts) => parts.iter().any(is_tall),
        Math::Index(a, b) | Math::Power(a, b) => is_tall(a) || is_tall(b),
        Math::Root(a) => is_tall(a),
        Math::Name(_) | Math::Number(_) | Math::Text(_) | Math::Sign(_) => false,
    }
}

fn part(math: &Math) -> Html {
    match math {
        Math::Name(text) => html! { <mi>{ text }</mi> },
        Math::Number(text) => html! { <mn>{ text }</mn> },
        Math::Text(text) => html! { <mtext>{ text }</mtext> },
        Math::Sign(sign) => html! { <mo>{ *sign }</mo> },
        Math::Row(parts) => row(parts),
        Math::Over(a, b) => html! { <mfrac>{ part(a) }{ part(b) }</mfrac> },
        Math::Index(a, b) => html! { <msub>{ part(a) }{ part(b) }</msub> },
        Math::Power(a, b) => html! { <msup>{ part(a) }{ part(b) }</msup> },
        Math::Root(a) => html! { <msqrt>{ part(a) }</msqrt> },
    }
}
