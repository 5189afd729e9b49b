//! How a chart is laid out on the room that it has: where its edges are, and what stands where.
//!
//! Lengths are in units of which [`EM`] are one letter height of the page, so a chart follows a reader's larger text as it
//! follows a narrower screen.

use super::data::{Chart, Spread};
use super::scale::{Scale, heights};
use super::ticks::Ticks;

/// Units in the size of the page's text.
pub const EM: f64 = 16.0;
/// The size of the text in the drawing; the style sheet has the same.
const TEXT: f64 = 13.5;
/// How wide a letter is on the average; rather too wide.
const LETTER: f64 = 0.58 * TEXT;
/// Lines of text need so much.
pub const LINE: f64 = 16.0;

/// A chart laid out.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// Of the whole drawing.
    pub width: f64,
    /// Of the whole drawing.
    pub height: f64,
    /// The edges of what is between the axes.
    pub left: f64,
    /// See `left`.
    pub right: f64,
    /// See `left`.
    pub top: f64,
    /// See `left`.
    pub bottom: f64,
    /// Along.
    pub x: Scale,
    /// Upwards.
    pub y: Scale,
    /// Along.
    pub x_ticks: Ticks,
    /// Upwards.
    pub y_ticks: Ticks,
    /// The heights at which the names of the lines stand beside their ends; empty where a key stands above instead.
    pub names: Vec<f64>,
}

impl Plot {
    /// On so much width.
    pub fn of(chart: &Chart, width: f64) -> Self {
        let height = (0.62 * width).clamp(200.0, 340.0);
        let (top, bottom) = (8.0, height - 22.0);
        let count = ((bottom - top) / 45.0) as usize;
        let y = Scale::up(heights(&chart.series, &chart.limits, &chart.marks), count, bottom, top);
        let y_ticks = y.ticks(count);
        let widest = y_ticks.labels.iter().map(|label| breadth(label)).fold(0.0, f64::max);
        let left = widest + 10.0;

        let names = chart.series.iter().map(|series| breadth(&series.name)).fold(0.0, f64::max) + 12.0;
        let last = chart.xs.len().checked_sub(1);
        let ends: Option<Vec<f64>> =
            chart.series.iter().map(|series| Some(y.at(series.ys.at(last?)?))).collect();
        let ends = ends.filter(|ends| ends.len() > 1 && names <= 0.3 * width).unwrap_or_default();
        let right = width - if ends.is_empty() { 14.0 } else { names };

        let x = Scale::along(&chart.x, chart.xs.there(), left, right);
        let x_ticks = x_ticks(chart, &x, right - left);
        Self {
            width,
            height,
            left,
            right,
            top,
            bottom,
            x,
            y,
            x_ticks,
            y_ticks,
            names: apart(&ends, LINE, top, bottom),
        }
    }

    /// The place of the chart that lies nearest to a point of the drawing.
    pub fn nearest(&self, chart: &Chart, at: f64) -> Option<usize> {
        let away = |x: f64| (self.x.at(x) - at).abs();
        chart.xs.placed().min_by(|a, b| away(a.1).total_cmp(&away(b.1))).map(|(place, _)| place)
    }
}

/// The breadth of a text in the drawing.
pub fn breadth(text: &str) -> f64 {
    LETTER * text.chars().count() as f64
}

/// The ticks along the chart; of the labels, those that do not run into their neighbour.
fn x_ticks(chart: &Chart, x: &Scale, room: f64) -> Ticks {
    if let Spread::Named(places) = &chart.x.spread {
        let each = room / places.len().max(1) as f64;
        let lengths: &[usize] = if chart.stepped { &[usize::MAX] } else { &[usize::MAX, 3, 1] };
        let letters = lengths.iter().copied().find(|letters| {
            places.iter().all(|name| LETTER * (name.chars().count().min(*letters)) as f64 + 4.0 <= each)
        });
        let short = |name: &yew::AttrValue| {
            name.chars().take(letters.unwrap_or(lengths[lengths.len() - 1])).collect()
        };
        return Ticks {
            at: (0..places.len()).map(|place| place as f64).collect(),
            labels: places.iter().map(short).collect(),
        };
    }
    let mut ticks = x.ticks(((room / 45.0) as usize).max(2));
    let mut free_from = f64::NEG_INFINITY;
    for (at, label) in ticks.at.iter().zip(&mut ticks.labels) {
        let half = breadth(label) / 2.0;
        if x.at(*at) - half < free_from {
            label.clear();
        } else {
            free_from = x.at(*at) + half + 6.0;
        }
    }
    ticks
}

/// The heights moved apart until each has its line of text, in the same order, within the edges.
fn apart(heights: &[f64], line: f64, top: f64, bottom: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..heights.len()).collect();
    order.sort_by(|a, b| heights[*a].total_cmp(&heights[*b]));
    let mut moved = heights.to_vec();
    let mut least = top + line / 2.0;
    for place in &order {
        moved[*place] = moved[*place].max(least);
        least = moved[*place] + line;
    }
    let mut most = bottom;
    for place in order.iter().rev() {
        moved[*place] = moved[*place].min(most);
        most = moved[*place] - line;
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::super::data::{Axis, Series, Values};
    use super::*;

    fn chart(lines: &[&[f64]]) -> Chart {
        Chart {
            title: "".into(),
            x: Axis::even("flow", "L/min"),
            y: Axis::even("time", "min"),
            xs: Values::of([1.0, 2.0, 3.0]),
            series: lines
                .iter()
                .map(|ys| Series {
                    name: "capacity".into(),
                    ys: Values::of(ys.to_vec()),
                    half_widths: Values::of([]),
                })
                .collect(),
            limits: Vec::new(),
            marks: Vec::new(),
            shades: Vec::new(),
            stepped: false,
        }
    }

    #[test]
    fn names_stand_apart_and_within_the_edges() {
        assert_eq!(apart(&[50.0, 52.0, 10.0], 16.0, 0.0, 100.0), [50.0, 66.0, 10.0]);
        assert_eq!(apart(&[99.0, 98.0], 16.0, 0.0, 100.0), [100.0, 84.0]);
        assert_eq!(apart(&[], 16.0, 0.0, 100.0), [0.0; 0]);
    }

    #[test]
    fn names_stand_beside_the_lines_where_there_is_room() {
        let lines: [&[f64]; 2] = [&[1.0, 2.0, 3.0], &[3.0, 2.0, 1.0]];
        assert_eq!(Plot::of(&chart(&lines), 600.0).names.len(), 2);
        assert!(Plot::of(&chart(&lines), 200.0).names.is_empty(), "no room on a phone");
        assert!(Plot::of(&chart(&lines[..1]), 600.0).names.is_empty(), "the axis names an only line");
        let gone: [&[f64]; 2] = [&[1.0, 2.0, 3.0], &[3.0, 2.0, f64::NAN]];
        assert!(Plot::of(&chart(&gone), 600.0).names.is_empty(), "no end to stand beside");
    }

    #[test]
    fn everything_lies_between_the_edges() {
        for width in [150.0, 290.0, 700.0] {
            let lines: [&[f64]; 1] = [&[0.001, 20.0, 3e5]];
            let plot = Plot::of(&chart(&lines), width);
            assert!(plot.left > 0.0 && plot.left < plot.right && plot.right < width, "{plot:?}");
            for y in [0.001, 20.0, 3e5] {
                assert!((plot.top..=plot.bottom).contains(&plot.y.at(y)), "{y} of {plot:?}");
            }
            assert!(plot.x_ticks.labels.iter().any(|label| !label.is_empty()));
        }
    }

    #[test]
    fn the_nearest_place_is_found() {
        let lines: [&[f64]; 1] = [&[1.0, 2.0, 3.0]];
        let chart = chart(&lines);
        let plot = Plot::of(&chart, 400.0);
        for (place, x) in [(0, plot.left - 30.0), (1, plot.x.at(2.1)), (2, 1000.0)] {
            assert_eq!(plot.nearest(&chart, x), Some(place));
        }
    }

    #[test]
    fn twelve_months_are_shortened_to_fit() {
        let mut chart = chart(&[&[1.0, 2.0, 3.0]]);
        let months = ["January", "February", "September"].map(yew::AttrValue::from);
        chart.x = Axis::named("month", months.iter().cloned().cycle().take(12).collect::<Vec<_>>());
        chart.xs = Values::of((0..12).map(f64::from).collect::<Vec<_>>());
        assert_eq!(Plot::of(&chart, 1200.0).x_ticks.labels[2], "September");
        assert_eq!(Plot::of(&chart, 600.0).x_ticks.labels[2], "Sep");
        assert_eq!(Plot::of(&chart, 290.0).x_ticks.labels[2], "S");
    }
}
