//! The search over a range: where the number is missing, where it equals the target, where it passes it, and where it
//! comes near without passing.

use super::Solution;
use super::bracket::{Ended, Point, narrow};
use crate::engine::curve::{Curve, Spacing};

/// Cells of the first grid.
const CELLS: u32 = 128;
/// Differences below so many units in the last place are rounding.
const ROUNDING: f64 = 8.0 * f64::EPSILON;
/// A stretch of equal numbers is a plateau from this share of the range on; a shorter one is a flat root.
const PLATEAU: f64 = 1e-3;
/// A lowest point nearer to the target than this share of its neighbours touches it.
const TOUCH: f64 = 1e-9;
/// How often a gap inside a gap is followed.
const DEEPEST: u32 = 1;
/// Halvings after which an edge is known to the last place.
const HALVINGS: u32 = 64;

impl Point {
    fn is_there(&self) -> bool {
        !self.above.is_nan()
    }

    fn is_equal(&self) -> bool {
        self.above == 0.0
    }

    /// Whether the target lies between the two.
    fn is_across(&self, other: &Point) -> bool {
        (self.above < 0.0 && other.above > 0.0) || (self.above > 0.0 && other.above < 0.0)
    }

    fn size(&self) -> f64 {
        self.above.abs()
    }
}

pub(super) struct Search {
    curve: Curve,
    target: f64,
    spacing: Spacing,
    found: Solution,
}

impl Search {
    pub fn new(curve: Curve, target: f64, spacing: Spacing, found: Solution) -> Self {
        Self { curve, target, spacing, found }
    }

    /// Everything in the range; the present value is one of the points looked at.
    pub fn run(mut self, present: Option<f64>) -> Solution {
        let samples = self.samples(present);
        self.equal(&samples);
        for pair in samples.windows(2) {
            if pair[0].is_across(&pair[1]) {
                self.cross(pair[0], pair[1], 0);
            }
        }
        for three in samples.windows(3) {
            self.gap_without_width(three);
            self.dip(three);
        }
        self.tidy();
        self.found
    }

    /// The number at `x`, what is only rounding taken as equal.
    fn point(&mut self, x: f64) -> Point {
        let point = self.exact(x);
        if point.size() <= self.rounding(point) { Point { x, above: 0.0 } } else { point }
    }

    pub(super) fn exact(&mut self, x: f64) -> Point {
        let above = self.curve.at(x) - self.target;
        Point { x, above: if above.is_finite() { above } else { f64::NAN } }
    }

    /// What rounding may be at the point that was evaluated last.
    fn rounding(&self, point: Point) -> f64 {
        ROUNDING * self.curve.magnitude(point.above + self.target).max(self.target.abs())
    }

    /// The grid, with the ends of every stretch in which the number is there.
    fn samples(&mut self, present: Option<f64>) -> Vec<Point> {
        let mut xs: Vec<f64> =
            (0..=CELLS).map(|i| self.spacing.at(f64::from(i) / f64::from(CELLS))).collect();
        let (low, high) = self.found.tried;
        xs.extend(present.filter(|x| (low..=high).contains(x)));
        xs.sort_by(f64::total_cmp);
        xs.dedup();
        let mut samples: Vec<Point> = Vec::with_capacity(xs.len());
        for x in xs {
            let point = self.point(x);
            if let Some(before) = samples.last().copied()
                && before.is_there() != point.is_there()
            {
                let (inside, outside) = if before.is_there() { (before, point) } else { (point, before) };
                let edge = self.last(inside, outside.x, Point::is_there);
                if edge != inside {
                    samples.push(edge);
                }
            }
            samples.push(point);
        }
        samples
    }

    /// Of the points from `inside`, which fulfils it, to `outside`, which does not, the last that fulfils it.
    fn last(&mut self, mut inside: Point, mut outside: f64, fulfils: fn(&Point) -> bool) -> Point {
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(inside.x, outside);
            if middle == inside.x || middle == outside {
                break;
            }
            let point = self.point(middle);
            if fulfils(&point) {
                inside = point;
            } else {
                outside = middle;
            }
        }
        inside
    }

    /// The stretches of samples that equal the target.
    fn equal(&mut self, samples: &[Point]) {
        let mut start = 0;
        while start < samples.len() {
            let length = samples[start..].iter().take_while(|point| point.is_equal()).count();
            if length > 0 {
                let end = start + length - 1;
                let before = start.checked_sub(1).map(|i| samples[i].x);
                let after = samples.get(end + 1).map(|point| point.x);
                self.stretch(samples[start], samples[end], before, after);
            }
            start += length.max(1);
        }
    }

    /// A stretch of equal points; before and after it, if there is anything, is a point that is not equal.
    fn stretch(&mut self, first: Point, last: Point, before: Option<f64>, after: Option<f64>) {
        let from = before.map_or(first, |x| self.last(first, x, Point::is_equal)).x;
        let to = after.map_or(last, |x| self.last(last, x, Point::is_equal)).x;
        if self.spacing.share(to) - self.spacing.share(from) > PLATEAU {
            self.found.plateaus.push((from, to));
        } else if to - from > 1e-9 * to.abs() {
            // flat as a cubic at its turning point: the middle is the best guess
            self.found.roots.push(f64::midpoint(from, to));
        } else {
            self.found.roots.push(first.x);
        }
    }

    /// Narrows down where the number passes the target between two points.
    fn cross(&mut self, from: Point, to: Point, depth: u32) {
        let least = Self::least_step(from, to);
        match narrow(from, to, least, &mut |x| self.exact(x)) {
            Ended::Equal(left, at, right) => {
                let near = 1e-6 * (to.x - from.x);
                let beside = [(at.x - near).max(left.x), (at.x + near).min(right.x)];
                if beside.into_iter().any(|x| self.point(x).is_equal()) {
                    self.stretch(at, at, Some(left.x), Some(right.x));
                } else {
                    self.found.roots.push(at.x);
                }
            }
            Ended::Missing(left, at, right) => self.gap(left, at, right, depth),
            Ended::Across(left, right) => self.root_or_jump((from, to), left, right),
        }
    }

    /// The step below which two values are the same.
    fn least_step(from: Point, to: Point) -> f64 {
        f64::EPSILON * from.x.abs().max(to.x.abs()) + 1e-18 * (to.x - from.x)
    }

    /// Both sides of a crossing are compared: the step across a root is of the size of the steps beside it, across a
    /// jump it is not; and at a root the number comes near the target, at a pole it runs away.
    fn root_or_jump(&mut self, (from, to): (Point, Point), left: Point, right: Point) {
        let near = (1e-9 * (to.x - from.x)).max(4.0 * Self::least_step(from, to));
        let before = self.exact((left.x - near).max(from.x));
        let after = self.exact((right.x + near).min(to.x));
        let step = |a: Point, b: Point| Some((a.above - b.above).abs()).filter(|step| step.is_finite());
        let beside = step(before, left).unwrap_or(0.0) + step(right, after).unwrap_or(0.0);
        let across = left.size() + right.size();
        let best = if left.size() <= right.size() { left } else { right };
        let is_steep_only = across <= 100.0 * beside && best.size() < from.size().max(to.size());
        let best = self.point(best.x);
        if best.is_equal() || is_steep_only || across <= 8.0 * self.rounding(best) {
            self.found.roots.push(best.x);
        } else {
            self.found.jumps.push(best.x);
        }
    }

    /// A stretch without the number between two points on both sides of the target: no root lies in it, but one may
    /// lie beside it.
    fn gap(&mut self, left: Point, missing: Point, right: Point, depth: u32) {
        let before = self.last(left, missing.x, Point::is_there);
        let after = self.last(right, missing.x, Point::is_there);
        if self.gap_without_width(&[before, missing, after]) || depth >= DEEPEST {
            return;
        }
        for (from, to) in [(left, before), (after, right)] {
            if from.is_across(&to) {
                self.cross(from, to, depth + 1);
            }
        }
        for edge in [before, after] {
            if edge.is_equal() {
                self.found.roots.push(edge.x);
            }
        }
    }

    /// A single missing point with the target between its sides is a jump: a pole met exactly.
    fn gap_without_width(&mut self, three: &[Point]) -> bool {
        let &[before, missing, after] = three else { return false };
        let is_narrow = self.spacing.share(after.x) - self.spacing.share(before.x) < 1e-12;
        let is_jump = is_narrow && !missing.is_there() && before.is_across(&after);
        if is_jump {
            self.found.jumps.push(missing.x);
        }
        is_jump
    }

    /// Where the number comes nearest to the target without passing it, by golden section: it may touch it, or pass it
    /// twice between two samples.
    fn dip(&mut self, three: &[Point]) {
        let &[mut left, mut low, mut right] = three else { return };
        let ends = (left, right);
        let same_side = left.above * low.above > 0.0 && low.above * right.above > 0.0;
        let depth = left.size().max(right.size()) - low.size();
        // a valley much shallower than it is far away does not reach down
        let is_near = low.size() <= left.size().min(right.size()) && low.size() <= 2.0 * depth;
        if !same_side || !is_near {
            return;
        }
        while right.x - left.x > 1e-11 * (ends.1.x - ends.0.x) {
            const GOLDEN: f64 = 0.381_966_011_250_105_2;
            let goes_right = right.x - low.x > low.x - left.x;
            let side = if goes_right { right.x } else { left.x };
            let x = low.x + GOLDEN * (side - low.x);
            if x == low.x || x == side {
                break;
            }
            let point = self.point(x);
            if !point.is_there() {
                return;
            } else if point.is_equal() {
                return self.stretch(point, point, Some(left.x), Some(right.x));
            } else if point.is_across(&low) {
                self.cross(left, point, 0);
                return self.cross(point, right, 0);
            }
            match (point.size() < low.size(), goes_right) {
                (true, true) => (left, low) = (low, point),
                (true, false) => (right, low) = (low, point),
                (false, true) => right = point,
                (false, false) => left = point,
            }
        }
        if low.size() <= TOUCH * ends.0.size().max(ends.1.size()) {
            self.found.roots.push(low.x);
        }
    }

    /// In order, each once.
    fn tidy(&mut self) {
        let spacing = self.spacing;
        let same = |a: f64, b: f64| a == b || (spacing.share(a) - spacing.share(b)).abs() <= 1e-9;
        let found = &mut self.found;
        for list in [&mut found.roots, &mut found.jumps] {
            list.sort_by(f64::total_cmp);
            list.dedup_by(|a, b| same(*a, *b));
        }
        found.plateaus.sort_by(|a, b| a.0.total_cmp(&b.0));
        found.plateaus.dedup_by(|later, earlier| {
            let is_same = later.0 <= earlier.1;
            if is_same {
                earlier.1 = earlier.1.max(later.1);
            }
            is_same
        });
        let plateaus = &found.plateaus;
        found.roots.retain(|root| !plateaus.iter().any(|(from, to)| (from..=to).contains(&root)));
        found.evaluations = self.curve.evaluations();
    }
}
