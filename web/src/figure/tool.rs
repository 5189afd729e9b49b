//! What one reads with: a sign of its own for each.

use crate::text::WORDS;
use calc::engine::sheet::Tool;
use yew::prelude::*;

/// The sign; its words are read aloud beside it.
pub fn tool(tool: Tool) -> Html {
    let shape = match tool {
        Tool::Gauge => "M12 3a9 9 0 1 0 .01 0ZM12 12L16.5 7.5M7 16.5h10",
        Tool::Jug => "M5 4h11l-1.5 16h-8ZM15.7 8h4.3l-1.2 7h-3.6M5.6 11h9.8",
        Tool::Thermometer => "M10 14V5a2 2 0 0 1 4 0v9a4 4 0 1 1 -4 0ZM12 18V9M16.5 6h3M16.5 10h3",
        Tool::Sample => {
            "M12 3C9 8 6.5 11 6.5 15a5.5 5.5 0 0 0 11 0C17.5 11 15 8 12 3ZM9.5 15.5a2.6 2.6 0 0 0 2.5 2.5"
        }
    };
    html! { <svg class="read-with" viewBox="0 0 24 24" aria-hidden="true" focusable="false"><path d={shape} /></svg> }
}

/// In words.
pub fn tool_words(tool: Tool) -> &'static str {
    let [gauge, jug, thermometer, sample] = WORDS.figure.tools;
    match tool {
        Tool::Gauge => gauge,
        Tool::Jug => jug,
        Tool::Thermometer => thermometer,
        Tool::Sample => sample,
    }
}

/// Every sign with its words.
pub fn key() -> Html {
    const ALL: [Tool; 4] = [Tool::Gauge, Tool::Jug, Tool::Thermometer, Tool::Sample];
    html! {
        <ul class="read-key">{ for ALL.map(|one| html! { <li>{ tool(one) }{ tool_words(one) }</li> }) }</ul>
    }
}
