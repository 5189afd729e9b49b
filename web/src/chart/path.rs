//! Lines and areas as the text of an SVG path. A long line is thinned to what can be seen of it.

use std::fmt::Write;

/// A point of the drawing.
pub type Point = (f64, f64);

/// A line through the points, broken where one is missing. A point alone between two gaps is drawn as a dot by the
/// round ends of the line.
pub fn line(points: impl Iterator<Item = Option<Point>>) -> String {
    let mut path = String::new();
    for stretch in stretches(points) {
        let mut command = 'M';
        let thinned = thin(&stretch);
        for (x, y) in &thinned {
            push(&mut path, command, *x, *y);
            command = 'L';
        }
        if let [only] = thinned.as_slice() {
            push(&mut path, 'L', only.0, only.1);
        }
    }
    path
}

/// The area between two heights at each place, broken where one of them is missing.
pub fn area(edges: impl Iterator<Item = Option<(f64, f64, f64)>>) -> String {
    let mut path = String::new();
    for stretch in stretches(edges) {
        let upper: Vec<Point> = stretch.iter().map(|(x, _, upper)| (*x, *upper)).collect();
        let lower: Vec<Point> = stretch.iter().map(|(x, lower, _)| (*x, *lower)).collect();
        let mut command = 'M';
        for (x, y) in thin(&upper).iter().chain(thin(&lower).iter().rev()) {
            push(&mut path, command, *x, *y);
            command = 'L';
        }
        path.push('Z');
    }
    path
}

/// Of all points in one column, one unit of the drawing wide, the first, the lowest, the highest and the last: the
/// line through them covers the same places as the whole one, and every extreme is kept.
pub fn thin(points: &[Point]) -> Vec<Point> {
    let mut thinned: Vec<Point> = Vec::with_capacity(points.len().min(4096));
    for column in points.chunk_by(|a, b| a.0.floor() == b.0.floor()) {
        let height = |a: &&Point, b: &&Point| a.1.total_cmp(&b.1);
        let ends = [column.first(), column.last()];
        let extremes = [column.iter().min_by(height), column.iter().max_by(height)];
        let kept =
            |point: &&Point| ends.iter().chain(&extremes).flatten().any(|kept| std::ptr::eq(*kept, *point));
        thinned.extend(column.iter().filter(kept));
    }
    thinned
}

/// Short strokes along a line, on the side that `down` says: the far side of a limit.
pub fn hatch(points: &[Point], down: bool) -> String {
    const APART: f64 = 9.0;
    const LENGTH: f64 = 6.0;
    let mut path = String::new();
    let mut next = points.first().map_or(0.0, |first| first.0 + APART / 2.0);
    for pair in points.windows(2) {
        let [(x0, y0), (x1, y1)] = [pair[0], pair[1]];
        while next <= x1 && x1 > x0 {
            let y = y0 + (y1 - y0) * (next - x0) / (x1 - x0);
            push(&mut path, 'M', next, y);
            push(&mut path, 'L', next - LENGTH * 0.7, if down { y + LENGTH } else { y - LENGTH });
            next += APART;
        }
    }
    path
}

/// The stretches without a gap.
fn stretches<T>(points: impl Iterator<Item = Option<T>>) -> Vec<Vec<T>> {
    let mut stretches = Vec::new();
    let mut open: Vec<T> = Vec::new();
    for point in points {
        match point {
            Some(point) => open.push(point),
            None if open.is_empty() => {}
            None => stretches.push(std::mem::take(&mut open)),
        }
    }
    if !open.is_empty() {
        stretches.push(open);
    }
    stretches
}

/// A tenth of a unit is finer than any screen.
fn push(path: &mut String, command: char, x: f64, y: f64) {
    // Writing to a text cannot fail.
    let _ = write!(path, "{command}{x:.1} {y:.1}");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_breaks_the_line() {
        let points = [Some((0.0, 1.0)), Some((2.0, 3.0)), None, Some((6.0, 7.0)), None];
        assert_eq!(line(points.into_iter()), "M0.0 1.0L2.0 3.0M6.0 7.0L6.0 7.0");
        assert_eq!(line(std::iter::empty()), "");
    }

    #[test]
    fn an_area_goes_there_and_back() {
        let edges = [Some((0.0, 5.0, 1.0)), Some((2.0, 6.0, 2.0))];
        assert_eq!(area(edges.into_iter()), "M0.0 1.0L2.0 2.0L2.0 6.0L0.0 5.0Z");
    }

    #[test]
    fn thinning_keeps_both_extremes_of_each_column_and_their_order() {
        // ten thousand points in a hundred columns, with one peak and one pit that must not be lost
        let mut points: Vec<Point> = (0..10_000).map(|i| (f64::from(i) / 100.0, f64::from(i % 7))).collect();
        points[4321].1 = 99.0;
        points[8765].1 = -99.0;
        let thinned = thin(&points);
        assert!(thinned.len() <= 400, "{}", thinned.len());
        assert!(thinned.contains(&points[4321]) && thinned.contains(&points[8765]));
        assert!(thinned.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        assert_eq!((thinned[0], thinned[thinned.len() - 1]), (points[0], points[9999]));
    }

    #[test]
    fn a_short_line_stays_whole() {
        let points: Vec<Point> = (0..200).map(|i| (2.0 * f64::from(i), 1.0)).collect();
        assert_eq!(thin(&points), points);
    }

    #[test]
    fn strokes_lie_on_the_wrong_side() {
        let path = hatch(&[(0.0, 50.0), (20.0, 50.0)], true);
        assert_eq!(path, "M4.5 50.0L0.3 56.0M13.5 50.0L9.3 56.0");
        assert!(hatch(&[(0.0, 50.0), (20.0, 50.0)], false).contains("44.0"));
    }
}
