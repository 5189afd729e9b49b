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
    let mut s = 0.0;
    for (i, first) in readings.iter().enumerate() {
        for second in &readings[i + 1..] {
            s += f64::from(second.total_cmp(first) as i8) * f64::from(u8::from(second != first));
        }
    }
    let mut sorted = readings.to_vec();
    sorted.sort_by(f64::total_cmp);
    let of = |n: f64| n * (n - 1.0) * (2.0 * n + 5.0);
    let ties: f64 = sorted.chunk_by(|a, b| a == b).map(|group| of(group.len() as f64)).sum();
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
    let pairs = (count * (count - 1) / 2) as f64;
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

/// The Theil-Sen slope: the median of the slopes between all pairs of readings at different times.
pub fn theil_sen(points: &[(f64, f64)]) -> Option<f64> {
    let mut slopes = Vec::with_capacity(points.len() * points.len().saturating_sub(1) / 2);
    for (i, (x, y)) in points.iter().enumerate() {
        slopes.extend(
            points[i + 1..].iter().filter(|(other, _)| other != x).map(|(other, z)| (z - y) / (other - x)),
        );
    }
    let (count, middle) = (slopes.len(), slopes.len() / 2);
    (count > 0).then_some(())?;
    let (below, upper, _) = slopes.select_nth_unstable_by(middle, f64::total_cmp);
    let lower = below.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    Some(if count % 2 == 0 { (lower + *upper) / 2.0 } else { *upper })
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
    }
}
