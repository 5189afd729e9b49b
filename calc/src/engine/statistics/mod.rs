//! Statistics of readings: a line with its interval, a trend without a line, control charts.
//!
//! Plain numbers in and out; what they mean is said by the sheet that asks. The distributions are those of `statrs`.
//!
//! * [`line`]: least squares, and where the line meets a level (Fieller's interval);
//! * [`rank`]: Mann-Kendall test and Theil-Sen slope, which one wild reading cannot turn;
//! * [`chart`]: Shewhart chart of individuals, the exponentially weighted moving average, and cumulative sums.

pub mod chart;
pub mod line;
pub mod rank;

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

/// The quantile of the t distribution; `None` without a degree of freedom or outside of 0 to 1.
///
/// ```
/// use calc::engine::statistics::t_quantile;
/// // the table of every textbook: 2.228 for 10 degrees of freedom, 95 % on two sides
/// assert!((t_quantile(0.975, 10.0).unwrap() - 2.228).abs() < 5e-4);
/// assert_eq!(t_quantile(0.975, 0.0), None);
/// ```
pub fn t_quantile(probability: f64, freedom: f64) -> Option<f64> {
    (0.0 < probability && probability < 1.0).then_some(())?;
    let quantile = StudentsT::new(0.0, 1.0, freedom).ok()?.inverse_cdf(probability);
    quantile.is_finite().then_some(quantile)
}

/// The probability of a t at least as far from zero, on both sides.
pub fn t_two_sided(t: f64, freedom: f64) -> Option<f64> {
    let probability = 2.0 * StudentsT::new(0.0, 1.0, freedom).ok()?.cdf(-t.abs());
    probability.is_finite().then_some(probability)
}

/// The probability of a standard normal number below this one.
pub fn normal_below(z: f64) -> f64 {
    Normal::standard().cdf(z).clamp(0.0, 1.0)
}

/// The standard normal number below which this share of all lies; `None` outside of 0 to 1.
///
/// ```
/// use calc::engine::statistics::normal_quantile;
/// // the table of every textbook: 1.645 for 95 % on one side
/// assert!((normal_quantile(0.95).unwrap() - 1.645).abs() < 5e-4);
/// assert_eq!(normal_quantile(1.0), None);
/// ```
pub fn normal_quantile(share: f64) -> Option<f64> {
    (0.0 < share && share < 1.0).then(|| Normal::standard().inverse_cdf(share))
}

/// The probability of a standard normal number at least as far from zero, on both sides.
pub fn normal_two_sided(z: f64) -> f64 {
    (2.0 * Normal::standard().cdf(-z.abs())).clamp(0.0, 1.0)
}
