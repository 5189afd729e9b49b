//! The drawing itself: axes, bands, lines, limits, marks. It changes with the data and the room, never with the cursor.

use super::data::{Chart, Limit, Mark, Series, Shade, Wrong};
use super::path::{Point, area, hatch, line};
use super::plot::{LINE, Plot, breadth};
use std::rc::Rc;
use yew::prelude::*;

/// Lines that have as many places or fewer carry a mark at each.
const FEW: usize = 31;
/// Of several longer lines each carries so many marks.
const MARKS: usize = 6;

/// What is drawn, and where.
#[derive(Properties, PartialEq, Clone)]
pub struct DrawingProps {
    /// What is drawn.
    pub chart: Rc<Chart>,
    /// Where.
    pub plot: Rc<Plot>,
}

/// The drawing without the cursor.
#[component]
pub fn Drawing(props: &DrawingProps) -> Html {
    let DrawingProps { chart, plot } = props;
    html! {
        <>
            { for chart.shades.iter().map(|shade| shaded(plot, shade)) }
            { axes(chart, plot) }
            { for chart.series.iter().map(|series| band(chart, plot, series)) }
            { for chart.limits.iter().map(|limit| limit_line(chart, plot, limit)) }
            { for chart.series.iter().enumerate().map(|(index, series)| series_line(chart, plot, index, series)) }
            { for chart.limits.iter().map(|limit| limit_words(chart, plot, limit)) }
            { for chart.marks.iter().enumerate().map(|(index, mark)| mark_at(plot, mark, index)) }
        </>
    }
}

/// A length as an attribute.
fn unit(length: f64) -> String {
    format!("{length:.1}")
}

/// How much wider than the usual letter the widest text is.
const MOST: f64 = 1.25;

/// The length to which a text is drawn closer; none where it fits.
fn within(text: &str, most: f64) -> Option<String> {
    (MOST * breadth(text) > most && most > 0.0).then(|| unit(most))
}

fn axes(chart: &Chart, plot: &Plot) -> Html {
    let Plot { left, right, top, bottom, .. } = *plot;
    let upwards = plot.y_ticks.at.iter().zip(&plot.y_ticks.labels).map(|(at, label)| {
        let y = plot.y.at(*at);
        html! {
            <>
                <line class="chart-grid" x1={unit(left)} x2={unit(right)} y1={unit(y)} y2={unit(y)} />
                <text text-anchor="end" x={unit(left - 6.0)} y={unit(y + 4.5)}>{ label }</text>
            </>
        }
    });
    let apart = plot.x_ticks.at.windows(2).map(|pair| (plot.x.at(pair[1]) - plot.x.at(pair[0])).abs());
    let each = if chart.stepped { apart.fold(f64::INFINITY, f64::min) } else { f64::INFINITY };
    let along = plot.x_ticks.at.iter().zip(&plot.x_ticks.labels).map(|(at, label)| {
        let at = plot.x.at(*at);
        // the first and the last one stay within the drawing
        let half = MOST * breadth(label) / 2.0;
        let (anchor, end) = match at {
            _ if at + half > plot.width => ("end", plot.width),
            _ if at < half => ("start", 0.0),
            _ => ("middle", at),
        };
        let x = unit(at);
        html! {
            <>
                <line class="chart-edge" x1={x.clone()} x2={x} y1={unit(bottom)} y2={unit(bottom + 5.0)} />
                <text text-anchor={anchor} x={unit(end)} y={unit(bottom + 18.0)} textLength={within(label, each - 4.0)} lengthAdjust="spacingAndGlyphs">{ label }</text>
            </>
        }
    });
    let edges = format!("M{left:.1} {top:.1}V{bottom:.1}H{right:.1}");
    html! { <>{ for upwards }{ for along }<path class="chart-edge" d={edges} /></> }
}

/// A stretch that stands apart, with its words where there is room for them.
fn shaded(plot: &Plot, shade: &Shade) -> Html {
    let (from, to) = (plot.x.within(shade.from), plot.x.within(shade.to));
    let (top, high) = (plot.top, plot.bottom - plot.top);
    let has_room = breadth(&shade.words) + 8.0 <= to - from;
    html! {
        <>
            <rect class="chart-shade" x={unit(from)} y={unit(top)} width={unit((to - from).max(2.0))} height={unit(high)} />
            if has_room {
                <text class="chart-name" text-anchor="middle" x={unit((from + to) / 2.0)} y={unit(top + LINE)}>{ &shade.words }</text>
            }
        </>
    }
}

/// The points of a line on the drawing, a gap where a value is missing.
fn points<'a>(
    chart: &'a Chart,
    plot: &'a Plot,
    y: impl Fn(usize) -> Option<f64> + 'a,
) -> impl Iterator<Item = Option<Point>> + 'a {
    (0..chart.xs.len()).map(move |place| Some((plot.x.at(chart.xs.at(place)?), plot.y.within(y(place)?))))
}

fn band(chart: &Chart, plot: &Plot, series: &Series) -> Html {
    if series.half_widths.is_empty() {
        return Html::default();
    }
    let edge = |place: usize| {
        let (x, y, half) = (chart.xs.at(place)?, series.ys.at(place)?, series.half_widths.at(place)?);
        Some((plot.x.at(x), plot.y.within(y - half), plot.y.within(y + half)))
    };
    html! { <path class="chart-interval" d={area((0..chart.xs.len()).map(edge))} /> }
}

fn series_line(chart: &Chart, plot: &Plot, index: usize, series: &Series) -> Html {
    let at: Vec<Option<Point>> = points(chart, plot, |place| series.ys.at(place)).collect();
    let is_one = chart.series.len() == 1;
    // Each line has its marks at places of its own, so that they do not lie on one another.
    let (every, first) = match at.len() {
        few if few <= FEW => (1, 0),
        many => ((many / MARKS).max(1), (many / MARKS) * (2 * index + 1) / (2 * chart.series.len())),
    };
    let marks = at.iter().skip(first).step_by(every).flatten();
    let marks = marks.take(if is_one && at.len() > FEW { 0 } else { usize::MAX });
    let marks: String = marks.map(|(x, y)| symbol(index, *x, *y, 4.5)).collect();
    html! {
        <>
            <path class={line_class(index)} d={if chart.stepped { treads(plot, &at) } else { line(at.into_iter()) }} />
            if !marks.is_empty() { <path class={format!("chart-mark {}", fill_class(index))} d={marks} /> }
            if let Some(y) = plot.names.get(index) {
                <text class="chart-name" x={unit(plot.right + 7.0)} y={unit(y + 4.5)}>{ &series.name }</text>
            }
        </>
    }
}

/// A line that is level over each place; where one is missing, it ends and begins anew.
fn treads(plot: &Plot, at: &[Option<Point>]) -> String {
    let half = (plot.x.at(0.5) - plot.x.at(0.0)).abs();
    line(at.iter().flat_map(|point| match point {
        Some((x, y)) => [Some((x - half, *y)), Some((x + half, *y))],
        None => [None, None],
    }))
}

/// How many lines can be told apart: as many as there are published forms of the temperature correction.
const LINES: usize = 5;

/// The class of a line: its dash.
pub fn line_class(index: usize) -> String {
    format!("chart-line chart-line-{}", index % LINES)
}

/// Every second mark is open.
pub fn fill_class(index: usize) -> &'static str {
    if index.is_multiple_of(2) { "chart-solid" } else { "chart-open" }
}

/// The mark of a line: a disc, a square, a triangle, a diamond, a cross.
pub fn symbol(index: usize, x: f64, y: f64, size: f64) -> String {
    let (s, double) = (size, 2.0 * size);
    match index % LINES {
        0 => format!("M{:.1} {y:.1}a{s} {s} 0 1 0 {double} 0a{s} {s} 0 1 0 -{double} 0Z", x - s),
        1 => format!("M{:.1} {:.1}h{double}v{double}h-{double}Z", x - s, y - s),
        2 => format!("M{x:.1} {:.1}L{:.1} {:.1}H{:.1}Z", y - 1.2 * s, x + 1.1 * s, y + s, x - 1.1 * s),
        4 => {
            let (t, u) = (0.4 * s, 0.8 * s);
            format!(
                "M{:.1} {:.1}h{u:.1}v{u:.1}h{u:.1}v{u:.1}h-{u:.1}v{u:.1}h-{u:.1}v-{u:.1}h-{u:.1}v-{u:.1}h{u:.1}Z",
                x - t,
                y - t - u
            )
        }
        _ => format!(
            "M{x:.1} {:.1}L{:.1} {y:.1}L{x:.1} {:.1}L{:.1} {y:.1}Z",
            y - 1.3 * s,
            x + 1.3 * s,
            y + 1.3 * s,
            x - 1.3 * s
        ),
    }
}

fn limit_points(chart: &Chart, plot: &Plot, limit: &Limit) -> Vec<Point> {
    match limit.at {
        // From edge to edge, also where the places leave room at the ends.
        super::data::Course::Level(level) if level.is_finite() => {
            let y = plot.y.at(level);
            vec![(plot.left, y), (plot.right, y)]
        }
        _ => points(chart, plot, |place| limit.at.at(place)).flatten().collect(),
    }
}

/// The line with strokes on its wrong side.
fn limit_line(chart: &Chart, plot: &Plot, limit: &Limit) -> Html {
    let at = limit_points(chart, plot, limit);
    let strokes = hatch(&at, limit.wrong == Wrong::Below);
    html! {
        <>
            <path class="chart-limit" d={line(at.into_iter().map(Some))} />
            <path class="chart-hatch" d={strokes} />
        </>
    }
}

/// What the limit asks, on its right side, where the lines are furthest away.
fn limit_words(chart: &Chart, plot: &Plot, limit: &Limit) -> Html {
    let at = limit_points(chart, plot, limit);
    let (Some(first), Some(last)) = (at.first().copied(), at.last().copied()) else { return Html::default() };
    let room = breadth(&limit.words);
    let free = |from: f64, to: f64, height: f64| {
        let near =
            chart.series.iter().flat_map(|series| points(chart, plot, |place| series.ys.at(place)).flatten());
        near.filter(|(x, _)| (from..=to).contains(x))
            .map(|(_, y)| (y - height).abs())
            .fold(f64::INFINITY, f64::min)
    };
    let left = ("start", (first.0 + 6.0, first.1), free(first.0, first.0 + room, first.1));
    let right = ("end", (last.0 - 4.0, last.1), free(last.0 - room, last.0, last.1));
    let between = (first.0 + last.0) / 2.0;
    let middle = ("middle", (between, first.1), free(between - room / 2.0, between + room / 2.0, first.1));
    let is_level = first.1 == last.1;
    let places = [left, right].into_iter().chain(is_level.then_some(middle));
    let best = places.reduce(|best, other| if other.2 > best.2 { other } else { best });
    let (anchor, (x, y), _) = best.unwrap_or(left);
    let above = limit.wrong == Wrong::Below;
    let above = if y < plot.top + LINE { false } else { above || y > plot.bottom - LINE };
    let y = if above { y - 6.0 } else { y + LINE };
    // words that are longer than the drawing are drawn closer, and stay off the numbers beside it
    let most = match anchor {
        "start" => plot.width - x,
        "end" => x - plot.left,
        _ => 2.0 * (x - plot.left).min(plot.width - x),
    };
    let length = within(&limit.words, most - 2.0);
    html! {
        <text class="chart-limit-words" text-anchor={anchor} x={unit(x)} y={unit(y)} textLength={length} lengthAdjust="spacingAndGlyphs">
            { &limit.words }
        </text>
    }
}

/// A named place, with the way down to the axis. Every second name stands under its place, so that neighbours keep apart.
fn mark_at(plot: &Plot, mark: &Mark, index: usize) -> Html {
    let (x, y) = (plot.x.within(mark.x), plot.y.within(mark.y));
    if !(x.is_finite() && y.is_finite()) {
        return Html::default();
    }
    let is_left = x + breadth(&mark.words) + 16.0 > plot.width;
    let (anchor, aside) = if is_left { ("end", -10.0) } else { ("start", 10.0) };
    let above = y > plot.top + 1.5 * LINE && (index.is_multiple_of(2) || y > plot.bottom - 1.5 * LINE);
    html! {
        <g class="chart-place">
            <line x1={unit(x)} x2={unit(x)} y1={unit(y)} y2={unit(plot.bottom)} />
            <path d={symbol(3, x, y, 6.0)} />
            <text text-anchor={anchor} x={unit(x + aside)} y={unit(if above { y - 9.0 } else { y + 1.3 * LINE })}>{ &mark.words }</text>
        </g>
    }
}
