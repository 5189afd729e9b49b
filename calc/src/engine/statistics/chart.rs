//! Control charts of single readings: Shewhart's, the exponentially weighted moving average, and cumulative sums (CUSUM).
//!
//! Rests on the NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 to 6.3.2.4. All need readings that scatter
//! about one level; counts near zero do not.

/// Mean range of two normal numbers over their standard deviation, d₂(2) = 2/√π, as the handbooks print it.
const RANGE_OF_TWO: f64 = 1.128;
/// How many standard deviations from the centre the limits are.
const WIDTH: f64 = 3.0;

/// Where a chart's limits come from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// The centre.
    pub centre: f64,
    /// The standard deviation of one reading.
    pub spread: f64,
}

/// The mean of the ranges of each two neighbours; `None` with fewer than two readings.
pub fn mean_moving_range(readings: &[f64]) -> Option<f64> {
    let ranges = readings.windows(2).map(|pair| (pair[1] - pair[0]).abs());
    (readings.len() >= 2).then(|| ranges.sum::<f64>() / (readings.len() - 1) as f64)
}

impl Level {
    /// From readings taken while all was well; `None` with fewer than two.
    ///
    /// # Formula
    /// centre = x̄; s = mean moving range / 1.128
    ///
    /// # Source
    /// NIST/SEMATECH e-Handbook, 6.3.2.2.
    pub fn of(readings: &[f64]) -> Option<Level> {
        let range = mean_moving_range(readings)?;
        let centre = readings.iter().sum::<f64>() / readings.len() as f64;
        Some(Level { centre, spread: range / RANGE_OF_TWO })
    }

    /// Equal readings have limits without a width, and differ from them in the last bits: so little is no difference.
    pub fn rounding(&self) -> f64 {
        1e-9 * self.centre.abs()
    }

    /// Lower and upper limit of single readings.
    pub fn limits(&self) -> (f64, f64) {
        (self.centre - WIDTH * self.spread, self.centre + WIDTH * self.spread)
    }

    /// Lower and upper limit of the weighted mean, as they are after many readings.
    ///
    /// # Formula
    /// centre ± 3 s √(λ / (2 − λ))
    ///
    /// # Source
    /// NIST/SEMATECH e-Handbook, 6.3.2.4.
    pub fn weighted_limits(&self, weight: f64) -> (f64, f64) {
        let half = WIDTH * self.spread * (weight / (2.0 - weight)).sqrt();
        (self.centre - half, self.centre + half)
    }
}

/// The exponentially weighted moving average: z = λ x + (1 − λ) z before.
pub fn weighted(start: f64, weight: f64, readings: &[f64]) -> Vec<f64> {
    let mut mean = start;
    let mut next = |reading: &f64| {
        mean = weight * reading + (1.0 - weight) * mean;
        mean
    };
    readings.iter().map(&mut next).collect()
}

/// The cumulative sums after one reading: how far the readings have run above the centre, and how far below it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sums {
    /// Of what lies above.
    pub high: f64,
    /// Of what lies below.
    pub low: f64,
}

/// The tabular CUSUM of readings in the order of their time.
///
/// # Formula
/// S_hi = max(0, S_hi before + x − centre − k), S_lo = max(0, S_lo before + centre − k − x)
///
/// | Symbol | Meaning |
/// |---|---|
/// | k | the allowance: drifts smaller than twice of it are let pass |
///
/// # Accuracy
/// Exact. From where a sum counts as out is a choice, usually 4 to 5 standard deviations.
///
/// # Errors
/// None.
///
/// # Source
/// NIST/SEMATECH e-Handbook, 6.3.2.3.
///
/// # Example
///
/// ```
/// use calc::engine::statistics::chart::cumulative;
/// // 2 above the centre, of which 0.5 is let pass, three times: 1.5, 3.0, 4.5
/// let sums = cumulative(50.0, 0.5, &[52.0, 52.0, 52.0]);
/// assert_eq!(sums.iter().map(|sums| sums.high).collect::<Vec<_>>(), [1.5, 3.0, 4.5]);
/// assert!(sums.iter().all(|sums| sums.low == 0.0));
/// ```
pub fn cumulative(centre: f64, allowance: f64, readings: &[f64]) -> Vec<Sums> {
    let mut sums = Sums { high: 0.0, low: 0.0 };
    let mut next = |reading: &f64| {
        sums = Sums {
            high: (sums.high + reading - centre - allowance).max(0.0),
            low: (sums.low + centre - allowance - reading).max(0.0),
        };
        sums
    };
    readings.iter().map(&mut next).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn individuals_of_the_handbook() {
        let readings = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        let level = Level::of(&readings).unwrap();
        assert!((mean_moving_range(&readings).unwrap() - 1.8778).abs() < 5e-5);
        let (low, high) = level.limits();
        assert!((level.centre - 50.81).abs() < 5e-3);
        assert!((low - 45.8159).abs() < 1e-4 && (high - 55.8041).abs() < 1e-4, "{low} {high}");
        assert_eq!(Level::of(&[1.0]), None);
    }

    #[test]
    fn weighted_mean_of_the_handbook() {
        let readings = [
            52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2,
            52.6, 52.4, 53.6, 52.1,
        ];
        let printed = [
            50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05,
            49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
        ];
        for (ours, printed) in weighted(50.0, 0.3, &readings).iter().zip(printed) {
            assert!((ours - printed).abs() <= 0.0051, "{ours} {printed}");
        }
        let (low, high) = Level { centre: 50.0, spread: 2.0539 }.weighted_limits(0.3);
        // the handbook goes on with 0.4201 for the root of 0.3 / 1.7
        assert!((high - 52.5884).abs() < 2e-4 && (low - 47.4115).abs() < 2e-4, "{low} {high}");
    }
}
