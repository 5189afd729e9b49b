//! The cursor: a place of the chart, chosen by a pointer or by the arrow keys, and what is read there.

use super::data::Chart;
use super::plot::Plot;
use crate::text::{WORDS, alone};
use yew::prelude::*;

/// Where a key leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Go {
    /// The place before.
    Back,
    /// The next place.
    On,
    /// A tenth of the chart back.
    FarBack,
    /// A tenth of the chart on.
    FarOn,
    /// The first place.
    First,
    /// The last place.
    Last,
    /// Out of the chart.
    Away,
}

impl Go {
    /// What a key means; `None` for a key that is not ours.
    pub fn of(key: &str) -> Option<Self> {
        Some(match key {
            "ArrowLeft" => Go::Back,
            "ArrowRight" => Go::On,
            "PageDown" => Go::FarBack,
            "PageUp" => Go::FarOn,
            "Home" => Go::First,
            "End" => Go::Last,
            "Escape" => Go::Away,
            _ => return None,
        })
    }

    /// From a place, or from nowhere, among the places up to `last`.
    pub fn from(self, place: Option<usize>, last: usize) -> Option<usize> {
        let far = (last / 10).max(1);
        Some(match (self, place) {
            (Go::Away, _) => return None,
            (Go::First, _) | (Go::On | Go::FarOn, None) => 0,
            (Go::Last, _) | (Go::Back | Go::FarBack, None) => last,
            (Go::Back, Some(place)) => place.saturating_sub(1),
            (Go::On, Some(place)) => (place + 1).min(last),
            (Go::FarBack, Some(place)) => place.saturating_sub(far),
            (Go::FarOn, Some(place)) => (place + far).min(last),
        })
    }
}

/// The place under a pointer.
pub fn under(event: &PointerEvent, drawing: &NodeRef, plot: &Plot, chart: &Chart) -> Option<usize> {
    let shown = drawing.cast::<web_sys::Element>()?.get_bounding_client_rect();
    let share = (f64::from(event.client_x()) - shown.left()) / shown.width();
    if share.is_finite() { plot.nearest(chart, share * plot.width) } else { None }
}

/// What is read at a place: where it is, and the value of each line there.
pub fn says(chart: &Chart, place: usize) -> String {
    let Some(x) = chart.xs.at(place) else { return String::new() };
    let several = chart.series.len() > 1;
    let values = chart.series.iter().map(|series| {
        let value = series.says(place, &chart.y).unwrap_or_else(|| WORDS.chart.missing_here.to_owned());
        let name = if several { &series.name } else { &chart.y.name };
        format!("{name} {value}")
    });
    let shade = chart.shades.iter().find(|shade| shade.from < x && x < shade.to);
    let values = values.chain(shade.map(|shade| shade.words.to_string())).collect::<Vec<_>>().join("; ");
    alone(&format!("{} {}: {values}", chart.x.name, chart.x.value(x)))
}

/// A line through the place, and a ring on each line there.
pub fn cursor(chart: &Chart, plot: &Plot, place: Option<usize>) -> Html {
    let at = place.and_then(|place| Some((place, plot.x.at(chart.xs.at(place)?))));
    let Some((place, x)) = at else { return Html::default() };
    let x = format!("{x:.1}");
    let heights = chart.series.iter().filter_map(|series| series.ys.at(place)).map(|y| plot.y.at(y));
    html! {
        <g class="chart-cursor">
            <line x1={x.clone()} x2={x.clone()} y1={format!("{:.1}", plot.top)} y2={format!("{:.1}", plot.bottom)} />
            { for heights.map(|y| html! { <circle cx={x.clone()} cy={format!("{y:.1}")} r="5" /> }) }
        </g>
    }
}

#[cfg(test)]
mod tests {
    use super::super::data::{Axis, Series, Values};
    use super::*;

    #[test]
    fn keys_lead_along_and_stop_at_the_ends() {
        let go = |key: &str, place| Go::of(key).and_then(|go| go.from(place, 199));
        assert_eq!(go("ArrowRight", None), Some(0));
        assert_eq!(go("ArrowLeft", None), Some(199));
        assert_eq!((go("ArrowRight", Some(7)), go("ArrowLeft", Some(7))), (Some(8), Some(6)));
        assert_eq!((go("ArrowRight", Some(199)), go("ArrowLeft", Some(0))), (Some(199), Some(0)));
        assert_eq!((go("PageUp", Some(190)), go("PageDown", Some(30))), (Some(199), Some(11)));
        assert_eq!(
            (go("Home", Some(7)), go("End", Some(7)), go("Escape", Some(7))),
            (Some(0), Some(199), None)
        );
        assert_eq!(Go::of("Tab"), None);
    }

    #[test]
    fn the_value_is_read_with_its_interval() {
        let series = |name: &str, ys: [f64; 2], half_widths: Vec<f64>| Series {
            name: name.to_owned().into(),
            ys: Values::of(ys),
            half_widths: Values::of(half_widths),
        };
        let mut chart = Chart {
            title: "".into(),
            x: Axis::even("flow", "L/min"),
            y: Axis::even("contact time", "min"),
            xs: Values::of([2.0, 4.0]),
            series: vec![series("", [10.0, 5.0], vec![0.673])],
            limits: Vec::new(),
            marks: Vec::new(),
            shades: Vec::new(),
            stepped: false,
        };
        let plain = |chart: &Chart, place| says(chart, place).replace('\u{a0}', " ");
        assert_eq!(plain(&chart, 0), "Flow 2.00 L/min: contact time 10.0 ± 0.67 min.");
        assert_eq!(plain(&chart, 1), "Flow 4.00 L/min: contact time 5.00 min.");
        chart.series = vec![series("first", [10.0, 5.0], vec![]), series("both", [20.0, f64::NAN], vec![])];
        assert_eq!(plain(&chart, 1), "Flow 4.00 L/min: first 5.00 min; both not known here.");
    }
}
