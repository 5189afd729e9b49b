//! Least squares: sums of chosen functions, a straight line, and where that line meets a level.
//!
//! Householder reflections on the readings themselves, not on their products, so that closely alike columns keep their
//! digits. Checked with the certified values of the NIST Statistical Reference Datasets.

use super::{t_quantile, t_two_sided};

/// A fit by least squares.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// One for each column.
    pub coefficients: Vec<f64>,
    /// Their standard errors; none without a degree of freedom.
    pub standard_errors: Option<Vec<f64>>,
    /// The standard deviation of the readings about the fit; none without a degree of freedom.
    pub residual: Option<f64>,
}

/// Fits readings by a sum of columns, each column being one value for each reading.
///
/// `None` with fewer readings than columns, or where a column is a sum of the others.
///
/// # Formula
/// min over b of Σ (yᵢ − Σ bⱼ xᵢⱼ)²; s² = that sum / (n − p); u(bⱼ)² = s² · ((XᵀX)⁻¹)ⱼⱼ
///
/// # Accuracy
/// Nine digits of the NIST reference sets up to the fifth power of 0 to 20, twelve of their lines.
///
/// # Errors
/// `None` as said above, and where a number is not finite.
///
/// # Source
/// G. H. Golub, C. F. Van Loan, Matrix Computations, Householder QR.
///
/// # Example
///
/// ```
/// use calc::engine::statistics::line::least_squares;
/// // NIST reference set NoInt1: a line through the origin
/// let x: Vec<f64> = (60..=70).map(f64::from).collect();
/// let y: Vec<f64> = (130..=140).map(f64::from).collect();
/// let fit = least_squares(&[x], &y).unwrap();
/// assert!((fit.coefficients[0] - 2.07438016528926).abs() < 1e-12);
/// assert!((fit.residual.unwrap() - 3.56753034006338).abs() < 1e-12);
/// assert_eq!(least_squares(&[vec![0.0, 0.0]], &[1.0, 2.0]), None);
/// ```
pub fn least_squares(columns: &[Vec<f64>], readings: &[f64]) -> Option<Fit> {
    let (rows, width) = (readings.len(), columns.len());
    if width == 0 || rows < width || columns.iter().any(|column| column.len() != rows) {
        return None;
    }
    let mut a: Vec<Vec<f64>> = columns.to_vec();
    let mut y = readings.to_vec();
    let mut diagonal = Vec::with_capacity(width);
    for j in 0..width {
        let scale = columns[j].iter().map(|x| x * x).sum::<f64>().sqrt();
        let norm = a[j][j..].iter().map(|x| x * x).sum::<f64>().sqrt();
        if !norm.is_finite() || norm <= 1e-13 * scale {
            return None;
        }
        let head = if a[j][j] > 0.0 { -norm } else { norm };
        let mut reflection = a[j][j..].to_vec();
        reflection[0] -= head;
        let square: f64 = reflection.iter().map(|v| v * v).sum();
        for column in a[j..].iter_mut().chain(std::iter::once(&mut y)) {
            let along = 2.0 * reflection.iter().zip(&column[j..]).map(|(v, x)| v * x).sum::<f64>() / square;
            for (x, v) in column[j..].iter_mut().zip(&reflection) {
                *x -= along * v;
            }
        }
        diagonal.push(head);
    }
    // R b = Qᵀy, from the last one up; the columns of R⁻¹ in the same way
    let back = |right: &dyn Fn(usize) -> f64| {
        let mut solved = vec![0.0; width];
        for i in (0..width).rev() {
            let known: f64 = (i + 1..width).map(|j| a[j][i] * solved[j]).sum();
            solved[i] = (right(i) - known) / diagonal[i];
        }
        solved
    };
    let coefficients = back(&|i| y[i]);
    if coefficients.iter().any(|b| !b.is_finite()) {
        return None;
    }
    let freedom = rows - width;
    let residual =
        (freedom > 0).then(|| (y[width..].iter().map(|r| r * r).sum::<f64>() / freedom as f64).sqrt());
    let standard_errors = residual.map(|residual| {
        let inverse: Vec<Vec<f64>> = (0..width).map(|k| back(&|i| if i == k { 1.0 } else { 0.0 })).collect();
        (0..width)
            .map(|j| residual * inverse.iter().map(|column| column[j] * column[j]).sum::<f64>().sqrt())
            .collect()
    });
    Some(Fit { coefficients, standard_errors, residual })
}

/// A straight line through readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The value at zero.
    pub intercept: f64,
    /// The change with each unit.
    pub slope: f64,
    /// Standard error of the slope.
    pub slope_error: f64,
    /// Standard deviation of the readings about the line.
    pub residual: f64,
    /// How many readings.
    pub count: usize,
    mean_x: f64,
    mean_y: f64,
    sxx: f64,
}

/// Where a line meets a level, with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// The place itself.
    pub at: f64,
    /// The ends of Fieller's interval.
    pub interval: (f64, f64),
}

impl Line {
    /// Through at least three readings, not all at one place.
    pub fn through(points: &[(f64, f64)]) -> Option<Line> {
        let n = points.len() as f64;
        let mean_x = points.iter().map(|(x, _)| x).sum::<f64>() / n;
        let mean_y = points.iter().map(|(_, y)| y).sum::<f64>() / n;
        let columns = [vec![1.0; points.len()], points.iter().map(|(x, _)| x - mean_x).collect()];
        let readings: Vec<f64> = points.iter().map(|(_, y)| *y).collect();
        let fit = least_squares(&columns, &readings)?;
        let (mut residual, errors) = (fit.residual?, fit.standard_errors?);
        let (mut slope, mut slope_error) = (fit.coefficients[1], errors[1]);
        // what lies within the last digits of the readings is rounding: no scatter, and no slope
        let rounding = 1e-13 * readings.iter().fold(0.0_f64, |most, y| most.max(y.abs()));
        let span = columns[1].iter().fold(0.0_f64, |most, d| most.max(d.abs()));
        if residual <= rounding {
            (residual, slope_error) = (0.0, 0.0);
        }
        if (slope * span).abs() <= rounding {
            slope = 0.0;
        }
        Some(Line {
            intercept: fit.coefficients[0] - slope * mean_x,
            slope,
            slope_error,
            residual,
            count: points.len(),
            mean_x,
            mean_y,
            sxx: columns[1].iter().map(|d| d * d).sum(),
        })
    }

    /// The value of the line.
    pub fn at(&self, x: f64) -> f64 {
        self.mean_y + self.slope * (x - self.mean_x)
    }

    /// t for 95 % on two sides.
    fn t(&self) -> Option<f64> {
        t_quantile(0.975, self.count.checked_sub(2)? as f64)
    }

    /// Half the width of the 95 % interval of the slope.
    pub fn slope_half_width(&self) -> Option<f64> {
        Some(self.t()? * self.slope_error)
    }

    /// The probability of such a slope, on both sides, if there were none.
    pub fn probability(&self) -> Option<f64> {
        match (self.slope == 0.0, self.slope_error == 0.0) {
            (true, _) => Some(1.0),
            (false, true) => Some(0.0),
            _ => t_two_sided(self.slope / self.slope_error, self.count as f64 - 2.0),
        }
    }

    /// Half the width of the interval in which 95 % of single further readings at `x` would lie.
    pub fn prediction_half_width(&self, x: f64) -> Option<f64> {
        let apart = x - self.mean_x;
        let spread = 1.0 + 1.0 / self.count as f64 + apart * apart / self.sxx;
        Some(self.t()? * self.residual * spread.sqrt())
    }

    /// Where the line meets a level, with Fieller's 95 % interval; `None` where the slope is not certain at 95 %, since
    /// the interval then has no ends.
    ///
    /// # Formula
    /// all x with (ȳ − y₀ + b (x − x̄))² ≤ t² s² (1/n + (x − x̄)² / Sxx)
    ///
    /// # Accuracy
    /// Exact for independent normal errors of one size. It is the interval of the line, not of a single reading.
    ///
    /// # Errors
    /// `None` where g = t² u(b)² / b² is 1 or more.
    ///
    /// # Source
    /// E. C. Fieller, J. R. Statist. Soc. B 16 (1954) 175.
    ///
    /// # Example
    ///
    /// ```
    /// use calc::engine::statistics::line::Line;
    /// let weekly = [100.0, 99.6, 99.3, 98.5, 98.4, 97.6, 97.5, 96.6, 96.3, 95.9, 95.1, 94.8];
    /// let points: Vec<(f64, f64)> = weekly.iter().enumerate().map(|(x, y)| (x as f64, *y)).collect();
    /// let meeting = Line::through(&points).unwrap().meets(90.0).unwrap();
    /// assert!((meeting.at - 20.974).abs() < 5e-4);
    /// assert!((meeting.interval.0 - 20.02).abs() < 5e-3 && (meeting.interval.1 - 22.05).abs() < 5e-3);
    /// let flat: Vec<(f64, f64)> = (0..6).map(|x| (f64::from(x), f64::from(x % 2))).collect();
    /// assert_eq!(Line::through(&flat).unwrap().meets(5.0), None);
    /// ```
    pub fn meets(&self, level: f64) -> Option<Meeting> {
        let ts = self.t()? * self.residual;
        let steep = self.slope * self.slope - ts * ts / self.sxx;
        if steep <= 0.0 {
            return None;
        }
        let above = self.mean_y - level;
        let middle = -above * self.slope;
        let root = (ts * ts * (above * above / self.sxx + steep / self.count as f64)).sqrt();
        let ends = [(middle - root) / steep, (middle + root) / steep].map(|d| self.mean_x + d);
        Some(Meeting { at: self.mean_x - above / self.slope, interval: (ends[0], ends[1]) })
    }
}

#[cfg(test)]
mod tests;
