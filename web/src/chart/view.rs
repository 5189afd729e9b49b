//! A chart with everything that belongs to it.

use super::cursor::{self, Go};
use super::data::Chart;
use super::draw::Drawing;
use super::plot::Plot;
use super::table::NumbersTable;
use super::width::use_width;
use super::{key, summary::summary};
use crate::text::{WORDS, alone};
use std::rc::Rc;
use yew::prelude::*;

/// A chart to be shown.
#[derive(Properties, PartialEq, Clone)]
pub struct ChartProps {
    /// The id of the drawing; those of its parts begin with it.
    pub id: AttrValue,
    /// What is shown.
    pub chart: Rc<Chart>,
}

/// A chart: its name, its sentence, the drawing with a cursor, the value under it, the table.
#[component]
pub fn ChartView(props: &ChartProps) -> Html {
    let ChartProps { id, chart } = props;
    let (whole, drawing) = (use_node_ref(), use_node_ref());
    let width = use_width(&whole);
    let plot =
        use_memo((Rc::clone(chart), width), |(chart, width)| width.map(|width| Plot::of(chart, width)));
    let sentence = use_memo(Rc::clone(chart), |chart| AttrValue::from(summary(chart)));
    let place = use_state_eq(|| None::<usize>);
    let here = place.filter(|place| *place < chart.xs.len());

    let to_pointer = {
        let (place, plot, chart, drawing) =
            (place.setter(), Rc::clone(&plot), Rc::clone(chart), drawing.clone());
        Callback::from(move |event: PointerEvent| {
            let Some(plot) = plot.as_ref() else { return };
            place.set(cursor::under(&event, &drawing, plot, &chart));
        })
    };
    let from_pointer = {
        let place = place.setter();
        // A finger that is lifted has shown what was to be read.
        Callback::from(move |event: PointerEvent| {
            if event.pointer_type() == "mouse" {
                place.set(None);
            }
        })
    };
    let by_key = {
        let (place, last) = (place.clone(), chart.xs.len().checked_sub(1));
        Callback::from(move |event: KeyboardEvent| {
            if let (Some(go), Some(last)) = (Go::of(&event.key()), last) {
                event.prevent_default();
                place.set(go.from(*place, last));
            }
        })
    };
    let of_part = |part: &str| format!("{id}-{part}");
    html! {
        <figure class="chart" ref={whole}>
            <figcaption id={of_part("title")}>{ &chart.title }</figcaption>
            <p class="chart-summary" id={of_part("summary")}>{ (*sentence).clone() }</p>
            if let Some(plot) = plot.as_ref() {
                { key::key(chart, plot) }
                <p class="chart-axis" aria-hidden="true">{ upwards(chart, plot) }</p>
                <svg {id} ref={drawing} role="img" tabindex="0" aria-labelledby={of_part("title")}
                    aria-describedby={format!("{id}-summary {id}-reading")}
                    viewBox={format!("0 0 {:.1} {:.1}", plot.width, plot.height)}
                    onpointermove={to_pointer.clone()} onpointerdown={to_pointer} onpointerleave={from_pointer}
                    onkeydown={by_key}>
                    <Drawing chart={Rc::clone(chart)} plot={Rc::new(plot.clone())} />
                    { cursor::cursor(chart, plot, here) }
                </svg>
                if !chart.stepped { <p class="chart-axis chart-along" aria-hidden="true">{ chart.x.title() }</p> }
            }
            <p class="chart-reading" id={of_part("reading")} role="status">
                { here.map_or_else(|| WORDS.chart.hint.to_owned(), |place| cursor::says(chart, place)) }
            </p>
            if chart.series.iter().any(|series| !series.half_widths.is_empty()) {
                <p class="chart-band">{ WORDS.chart.band }</p>
            }
            <NumbersTable id={of_part("table")} chart={Rc::clone(chart)} />
        </figure>
    }
}

/// The title of the upward axis.
fn upwards(chart: &Chart, plot: &Plot) -> String {
    let title = alone(&chart.y.title());
    let title = title.trim_end_matches('.');
    if plot.y.is_logarithmic() { format!("{title} ({})", WORDS.chart.logarithmic) } else { title.to_owned() }
}
