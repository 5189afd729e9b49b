//! What a count of colonies says of the water: the exact interval of a Poisson count (F. Garwood, Biometrika 28 (1936) 437).

/// Sums stop where a further term no longer changes them.
const LEAST_TERM: f64 = 1e-18;

/// The mean of which a count of at most `count` has the probability `tail`.
///
/// # Formula
/// Σ e^(−μ) μ^k / k!, k = 0 … n, = tail; the same as μ = ½ χ²(1 − tail; 2n + 2)
///
/// # Accuracy
/// By bisection to the last bits; against printed tables in tests/published/formulas/statistics.csv and chi-squared quantiles of a
/// reference library in tests/published/product.csv.
///
/// # Errors
/// None; for a tail from 0.0005 to 0.999 and counts to 1,000.
///
/// # Source
/// Garwood 1936.
///
/// # Example
/// ```
/// use calc::trade::product::poisson::upper;
/// // no colony: e^(−μ) = 0.05
/// assert!((upper(0, 0.05) - 2.9957).abs() < 5e-5);
/// ```
pub fn upper(count: u32, tail: f64) -> f64 {
    let n = f64::from(count);
    // beyond the mean all terms below the last fall
    let at_most = |mean: f64| {
        let mut term = 1.0;
        let mut sum = 1.0;
        for k in (1..=count).rev() {
            term *= f64::from(k) / mean;
            sum += term;
            if term < LEAST_TERM * sum {
                break;
            }
        }
        sum * last_term(count, mean)
    };
    bisect(0.0, n + 10.0 * (n + 4.0).sqrt() + 10.0, |mean| at_most(mean) > tail)
}

/// The mean of which a count of at least `count` has the probability `tail`; 0 for no colony.
pub fn lower(count: u32, tail: f64) -> f64 {
    if count == 0 {
        return 0.0;
    }
    let n = f64::from(count);
    let at_least = |mean: f64| {
        let mut term = 1.0;
        let mut sum = 1.0;
        let mut k = n;
        while term > LEAST_TERM * sum {
            k += 1.0;
            term *= mean / k;
            sum += term;
        }
        sum * last_term(count, mean)
    };
    bisect(0.0, n, |mean| at_least(mean) < tail)
}

/// e^(−μ) μ^n / n!
fn last_term(count: u32, mean: f64) -> f64 {
    let ln_factorial: f64 = (2..=count).map(|k| f64::from(k).ln()).sum();
    (f64::from(count) * mean.ln() - mean - ln_factorial).exp()
}

/// The place where `is_before` ceases to hold.
fn bisect(mut low: f64, mut high: f64, is_before: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if is_before(middle) { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_colony_leaves_the_known_bounds() {
        // e^(−μ) = 0.05 and 0.025
        assert!((upper(0, 0.05) - 20f64.ln()).abs() < 1e-12);
        assert!((upper(0, 0.025) - 40f64.ln()).abs() < 1e-12);
        assert_eq!(lower(0, 0.025), 0.0);
    }

    #[test]
    fn printed_intervals_hold() {
        // 95 % intervals as they stand in tables of Poisson counts: 10 and 25
        for (count, low, high) in [(10, 4.80, 18.39), (25, 16.18, 36.90)] {
            assert!((lower(count, 0.025) - low).abs() < 0.005, "{count}");
            assert!((upper(count, 0.025) - high).abs() < 0.005, "{count}");
        }
    }

    #[test]
    fn one_colony_by_hand() {
        // 1 − e^(−μ) = 0.025
        assert!((lower(1, 0.025) + 0.975f64.ln()).abs() < 1e-12);
    }
}
