//! Which line is which, above the drawing, where there is no room beside the lines.

use super::data::Chart;
use super::draw::{fill_class, line_class, symbol};
use super::plot::Plot;
use yew::prelude::*;

/// The key; nothing for an only line without shaded stretches, or where the names stand beside their lines.
pub fn key(chart: &Chart, plot: &Plot) -> Html {
    let names = if chart.series.len() < 2 || !plot.names.is_empty() { &[] } else { chart.series.as_slice() };
    let mut shaded: Vec<&str> = chart.shades.iter().map(|shade| shade.words.as_str()).collect();
    shaded.sort_unstable();
    shaded.dedup();
    if names.is_empty() && shaded.is_empty() {
        return Html::default();
    }
    html! {
        <ul class="chart-key">
            { for shaded.into_iter().map(|words| html! {
                <li>
                    <svg viewBox="0 0 44 14" aria-hidden="true" focusable="false">
                        <rect class="chart-shade" x="1" y="0" width="42" height="14" />
                    </svg>
                    { " " }{ words }
                </li>
            }) }
            { for names.iter().enumerate().map(|(index, series)| html! {
                <li>
                    <svg viewBox="0 0 44 14" aria-hidden="true" focusable="false">
                        <path class={line_class(index)} d="M1 7H43" />
                        <path class={format!("chart-mark {}", fill_class(index))} d={symbol(index, 22.0, 7.0, 4.5)} />
                    </svg>
                    { " " }{ &series.name }
                </li>
            }) }
        </ul>
    }
}
