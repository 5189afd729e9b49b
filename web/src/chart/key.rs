//! Which line is which, above the drawing, where there is no room beside the lines.

use super::data::Chart;
use super::draw::{fill_class, line_class, symbol};
use super::plot::Plot;
use yew::prelude::*;

/// The key; nothing for an only line, or where the names stand beside their lines.
pub fn key(chart: &Chart, plot: &Plot) -> Html {
    if chart.series.len() < 2 || !plot.names.is_empty() {
        return Html::default();
    }
    html! {
        <ul class="chart-key">
            { for chart.series.iter().enumerate().map(|(index, series)| html! {
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
