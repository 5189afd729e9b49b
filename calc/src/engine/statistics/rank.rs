//! A trend without the assumption of a line: Mann-Kendall test and Theil-Sen slope.
//!
//! Rests on H. B. Mann, Econometrica 13 (1945) 245, M. G. Kendall, Rank Correlation Methods (1975), and P. K. Sen,
//! J. Am. Statist. Ass. 63 (1968) 1379. Readings that follow one another closely are more alike than the test takes.

use super::normal_two_sided;

/// The Mann-Kendall test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kendall {
    /// Rising pairs less falling pairs.
    pub s: f64,
    /// The variance of S if there were no trend.
    pub variance: f64,
    /// The probability of such an S, on both sides, if there were no trend.
    pub probability: f64,
    /// Whether every order of the readings was counted; otherwise it is the normal approximation.
    pub exact: bool,
}

/// Up to so many readings every order is counted.
const COUNTED: usize = 10;

/// The Mann-Kendall test of readings in the order of their time; `None` with fewer than three.
///
/// # Formula
/// S = Σ sign(yⱼ − yᵢ), i < j; Var = (n (n − 1)(2n + 5) − Σ t (t − 1)(2t + 5)) / 18; z = (S ∓ 1) / √Var
///
/// # Accuracy
/// Up to ten readings without ties exact; otherwise the normal approximation, which wants eight.
///
/// # Errors
/// `None` with fewer than three readings.
///
/// # Source
/// As the head of the module says.
///
/// # Example
///
/// ```
/// use calc::engine::statistics::rank::kendall;
/// let published = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7];
/// let test = kendall(&published).unwrap();
/// assert_eq!(test.s, 54.0);
/// assert!((test.variance - 332.667).abs() < 5e-4);
/// assert!((test.probability / 2.0 - 0.0018).abs() < 5e-5); // printed for one side
/// assert_eq!(kendall(&[1.0, 2.0]), None);
/// ```
pub fn kendall(readings: &[f64]) -> Option<Kendall> {
    let count = readings.len();
    (count >= 3).then_some(())?;
    // of all pairs those that are tied neither rise nor fall
    let mut sorted = readings.to_vec();
    let falling = falling_pairs(&mut sorted);
    let groups = || sorted.chunk_by(|a, b| a == b).map(|group| group.len() as f64);
    let tied: f64 = groups().map(pairs).sum();
    let s = pairs(count as f64) - tied - 2.0 * falling as f64;
    let of = |n: f64| n * (n - 1.0) * (2.0 * n + 5.0);
    let ties: f64 = groups().map(of).sum();
    let variance = (of(count as f64) - ties) / 18.0;
    let exact = count <= COUNTED && ties == 0.0;
    let probability = if s == 0.0 {
        1.0
    } else if exact {
        counted_probability(count, s)
    } else {
        normal_two_sided((s.abs() - 1.0) / variance.sqrt())
    };
    Some(Kendall { s, variance, probability, exact })
}

/// The share of all orders of so many readings whose |S| is at least as large.
fn counted_probability(count: usize, s: f64) -> f64 {
    // orders by their number of falling pairs, one reading added after the other
    let mut orders = vec![1.0];
    for added in 1..count {
        let mut next = vec![0.0; orders.len() + added];
        for (falling, number) in orders.iter().enumerate() {
            for more in 0..=added {
                next[falling + more] += number;
            }
        }
        orders = next;
    }
    let pairs = pairs(count as f64);
    let all: f64 = orders.iter().sum();
    let is_as_far = |falling: usize| (pairs - 2.0 * falling as f64).abs() >= s.abs();
    orders
        .iter()
        .enumerate()
        .filter(|(falling, _)| is_as_far(*falling))
        .map(|(_, number)| number)
        .sum::<f64>()
        / all
}

/// How many pairs so many things make.
fn pairs(count: f64) -> f64 {
    count * (count - 1.0) / 2.0
}

/// How many pairs fall, the later number being less than the earlier one. Sorts by merging, which counts them on the way:
/// ten years of readings are millions of pairs, and none of them is kept.
fn falling_pairs(numbers: &mut [f64]) -> u64 {
    let mut room = numbers.to_vec();
    sort_counting(numbers, &mut room, &|number| *number, &mut |_, _| {})
}

/// Sorts by a key and counts the pairs that were in falling order; `crossed` is told one pair for each step over the
/// earlier ones.
fn sort_counting<T: Copy>(
    items: &mut [T],
    room: &mut [T],
    key: &impl Fn(&T) -> f64,
    crossed: &mut impl FnMut(T, T),
) -> u64 {
    let count = items.len();
    if count < 2 {
        return 0;
    }
    let middle = count / 2;
    let mut falling = sort_counting(&mut items[..middle], room, key, crossed)
        + sort_counting(&mut items[middle..], room, key, crossed);
    room[..count].copy_from_slice(items);
    let (earlier, later) = room[..count].split_at(middle);
    let (mut i, mut j) = (0, 0);
    for place in items.iter_mut() {
        let takes_later = i == earlier.len() || (j < later.len() && key(&later[j]) < key(&earlier[i]));
        if takes_later {
            if i < earlier.len() {
                falling += (earlier.len() - i) as u64;
                crossed(earlier[i], later[j]);
            }
            *place = later[j];
            j += 1;
        } else {
            *place = earlier[i];
            i += 1;
        }
    }
    falling
}

/// The Theil-Sen slope: the median of the slopes between all pairs of readings at different times.
///
/// # Formula
/// median of (yⱼ − yᵢ) / (xⱼ − xᵢ) over all pairs with xᵢ < xⱼ
///
/// # Accuracy
/// The slope of a pair itself, with its rounding; of pairs whose slopes agree to 1e-13 of the steepest possible one, any.
/// The pairs are counted and never kept: a slope s has as many pairs below it as y − s x has falling pairs.
///
/// # Errors
/// `None` where all readings are of one time, or are not finite.
///
/// # Source
/// As the head of the module says.
///
/// # Example
///
/// ```
/// use calc::engine::statistics::rank::theil_sen;
/// // slopes 2, 1, 33, 0, 48.5, 97: the median is half-way between 2 and 33
/// assert_eq!(theil_sen(&[(0.0, 0.0), (1.0, 2.0), (2.0, 2.0), (3.0, 99.0)]), Some(17.5));
/// ```
pub fn theil_sen(points: &[(f64, f64)]) -> Option<f64> {
    // of one time none falls
    let mut points = points.to_vec();
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let same: f64 = points.chunk_by(|a, b| a.0 == b.0).map(|group| pairs(group.len() as f64)).sum();
    let count = (pairs(points.len() as f64) - same) as u64;
    let (least, most) = points
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), (_, y)| (least.min(*y), most.max(*y)));
    let steps = points.windows(2).map(|pair| pair[1].0 - pair[0].0).filter(|step| *step > 0.0);
    let step = steps.fold(f64::INFINITY, f64::min);
    // no pair is steeper than the whole range within the shortest time
    let steepest = 2.0 * (most - least) / step;
    (count > 0 && steepest.is_finite()).then_some(())?;
    if most == least {
        return Some(0.0);
    }
    let close = 1e-14 * steepest.max(least.abs().max(most.abs()) / step);
    let upper = ranked_slope(&points, count / 2, steepest, close);
    if count % 2 == 1 {
        return Some(upper);
    }
    Some((ranked_slope(&points, count / 2 - 1, steepest, close) + upper) / 2.0)
}

/// The slope that has so many pairs below it. Narrowed by counting until the ends are close, then taken from a pair that
/// lies between them.
fn ranked_slope(points: &[(f64, f64)], rank: u64, steepest: f64, close: f64) -> f64 {
    let mut keys = Vec::with_capacity(points.len());
    let mut below = |slope: f64| {
        keys.clear();
        keys.extend(points.iter().map(|(x, y)| y - slope * x));
        falling_pairs(&mut keys)
    };
    let (mut low, mut high) = (-steepest, steepest);
    while high - low > close {
        let middle = low + (high - low) / 2.0;
        if middle <= low || middle >= high {
            break;
        }
        if below(middle) <= rank { low = middle } else { high = middle }
    }
    let middle = low + (high - low) / 2.0;
    // between two slopes a little apart those pairs change their order whose slope lies there
    let (before, after) = (low - 2.0 * close, high + 2.0 * close);
    let mut order = points.to_vec();
    order.sort_by(|a, b| (a.1 - before * a.0).total_cmp(&(b.1 - before * b.0)).then(a.0.total_cmp(&b.0)));
    let mut room = order.clone();
    let mut nearest: Option<f64> = None;
    sort_counting(&mut order, &mut room, &|(x, y)| y - after * x, &mut |first, second| {
        let slope = (second.1 - first.1) / (second.0 - first.0);
        let is_nearer = nearest.is_none_or(|found| (slope - middle).abs() < (found - middle).abs());
        if slope.is_finite() && is_nearer {
            nearest = Some(slope);
        }
    });
    nearest.unwrap_or(middle)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_readings_are_counted() {
        // four readings, all rising: 1 of 24 orders on each side
        let test = kendall(&[1.0, 2.0, 3.0, 4.0]).unwrap();
        assert!(test.exact && (test.probability - 2.0 / 24.0).abs() < 1e-15);
        // S = 4 of 6: four orders of 24 have at most one falling pair
        let test = kendall(&[1.0, 2.0, 4.0, 3.0]).unwrap();
        assert!((test.probability - 8.0 / 24.0).abs() < 1e-15);
        assert_eq!(kendall(&[1.0, 1.0, 1.0]).unwrap().probability, 1.0);
    }

    #[test]
    fn the_median_slope() {
        let points: Vec<(f64, f64)> =
            [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7]
                .iter()
                .enumerate()
                .map(|(x, y)| (x as f64, *y))
                .collect();
        assert!((theil_sen(&points).unwrap() - 0.56667).abs() < 5e-6);
        assert_eq!(
            theil_sen(&[(0.0, 0.0), (1.0, 2.0), (2.0, 2.0), (3.0, 100.0)]),
            Some((2.0 + 100.0 / 3.0) / 2.0)
        );
        assert_eq!(theil_sen(&[(1.0, 2.0), (1.0, 3.0)]), None);
        assert_eq!(theil_sen(&[(0.0, 5.0), (1.0, 5.0), (2.0, 5.0), (3.0, 5.0)]), Some(0.0));
    }

    /// What is counted is what a list of all pairs gives, ties and several readings a day among them.
    #[test]
    fn counting_finds_what_listing_all_pairs_finds() {
        let mut state = 7_u64;
        let mut draw = |n: u64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) % n
        };
        for count in [3, 4, 7, 20, 21, 101] {
            for levels in [2, 9, 100_000] {
                let points: Vec<(f64, f64)> =
                    (0..count).map(|_| (draw(2 * count as u64) as f64, draw(levels) as f64 / 7.0)).collect();
                let mut slopes = Vec::new();
                let mut s = 0.0;
                for (i, (x, y)) in points.iter().enumerate() {
                    for (other, z) in &points[i + 1..] {
                        s += f64::from(i8::from(z > y)) - f64::from(i8::from(z < y));
                        if other != x {
                            slopes.push((z - y) / (other - x));
                        }
                    }
                }
                slopes.sort_by(f64::total_cmp);
                let middle = slopes.len() / 2;
                let median = match slopes.len() {
                    0 => None,
                    n if n % 2 == 1 => Some(slopes[middle]),
                    _ => Some((slopes[middle - 1] + slopes[middle]) / 2.0),
                };
                let values: Vec<f64> = points.iter().map(|(_, y)| *y).collect();
                assert_eq!(kendall(&values).unwrap().s, s);
                match (theil_sen(&points), median) {
                    (Some(ours), Some(listed)) => assert!((ours - listed).abs() <= 1e-9, "{ours} {listed}"),
                    (ours, listed) => assert_eq!(ours, listed),
                }
            }
        }
    }

    /// Seventy thousand readings are 2.4e9 pairs.
    #[test]
    fn many_readings_need_no_room_for_their_pairs() {
        let points: Vec<(f64, f64)> =
            (0..70_000).map(|i| (f64::from(i), 100.0 - 0.001 * f64::from(i) + f64::from(i % 7))).collect();
        let slope = theil_sen(&points).unwrap();
        assert!((slope + 0.001).abs() < 1e-5, "{slope}");
        let values: Vec<f64> = points.iter().map(|(_, y)| *y).collect();
        assert!(kendall(&values).unwrap().s < 0.0);
    }
}
