//! Where an axis has its ticks, and what stands beside them.

use calc::engine::quantity::show::significant;

/// Ticks at 1, 2 or 5 times a power of ten.
#[derive(Debug, Clone, PartialEq)]
pub struct Ticks {
    /// Ascending.
    pub at: Vec<f64>,
    /// One for each.
    pub labels: Vec<String>,
}

/// The least step of 1, 2 or 5 times a power of ten with which a span has at most so many steps.
pub fn step(span: f64, at_most: usize) -> f64 {
    let least = span / at_most.max(1) as f64;
    if !(least > 0.0 && least.is_finite()) {
        return 1.0;
    }
    let power = 10f64.powi(least.log10().floor() as i32);
    // the least step itself is round, but for its last bit
    let enough = |step: &f64| *step >= least * (1.0 - 1e-9);
    [1.0, 2.0, 5.0, 10.0].map(|m| m * power).into_iter().find(enough).unwrap_or(10.0 * power)
}

/// Every multiple of one step in the range.
pub fn even(low: f64, high: f64, at_most: usize) -> Ticks {
    let step = step(high - low, at_most);
    let slack = 1e-9;
    let (first, last) = ((low / step - slack).ceil(), (high / step + slack).floor());
    let count = (last - first).clamp(-1.0, 1000.0) as i64;
    let at: Vec<f64> = (0..=count).map(|i| (first + i as f64) * step).collect();
    let decimals = (-step.log10().floor()).max(0.0) as usize;
    let labels = at.iter().map(|value| label(*value, decimals)).collect();
    Ticks { at, labels }
}

/// Over several decades 1, 2 and 5 of each, or only the decades where these are too many; over less than that the
/// multiples of one step.
pub fn logarithmic(low: f64, high: f64, at_most: usize) -> Ticks {
    let decades = (low.log10().floor() as i32)..=(high.log10().ceil() as i32);
    let inside = |value: &f64| *value >= low * (1.0 - 1e-9) && *value <= high * (1.0 + 1e-9);
    let of = |multiples: &[f64]| -> Vec<f64> {
        let all = decades.clone().flat_map(|decade| multiples.iter().map(move |m| m * 10f64.powi(decade)));
        all.filter(inside).collect()
    };
    let fine = of(&[1.0, 2.0, 5.0]);
    let at = if fine.len() <= at_most { fine } else { of(&[1.0]) };
    if at.len() < 3 {
        return even(low, high, at_most);
    }
    let labels = at.iter().map(|value| label(*value, (-value.log10() - 1e-9).ceil().max(0.0) as usize));
    Ticks { labels: labels.collect(), at }
}

/// The range widened to the ticks around it.
pub fn rounded(low: f64, high: f64, at_most: usize, by_logarithm: bool) -> (f64, f64) {
    if by_logarithm {
        let around = |value: f64| {
            let decade = 10f64.powf(value.log10().floor());
            [1.0, 2.0, 5.0, 10.0].map(|multiple| multiple * decade)
        };
        let below = around(low).into_iter().rfind(|tick| *tick <= low * (1.0 + 1e-9));
        let above = around(high).into_iter().find(|tick| *tick >= high * (1.0 - 1e-9));
        return (below.unwrap_or(low), above.unwrap_or(high));
    }
    let step = step(high - low, at_most);
    ((low / step + 1e-9).floor() * step, (high / step - 1e-9).ceil() * step)
}

fn label(value: f64, decimals: usize) -> String {
    if value != 0.0 && !(1e-4..1e6).contains(&value.abs()) {
        return significant(value, 2);
    }
    format!("{value:.decimals$}").replace('-', "\u{2212}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labels(ticks: &Ticks) -> Vec<&str> {
        ticks.labels.iter().map(String::as_str).collect()
    }

    #[test]
    fn steps_are_one_two_or_five() {
        for (span, at_most, expected) in
            [(10.0, 5, 2.0), (10.0, 10, 1.0), (0.3, 6, 0.05), (7.0, 3, 5.0), (9.0, 1, 10.0), (1.0, 2, 0.5)]
        {
            let found = step(span, at_most);
            assert!((found - expected).abs() < 1e-12, "{span} in {at_most}: {found}");
        }
        assert_eq!(step(0.0, 5), 1.0);
        assert_eq!(step(f64::NAN, 5), 1.0);
    }

    #[test]
    fn labels_have_the_decimals_of_the_step() {
        assert_eq!(labels(&even(0.0, 1.0, 5)), ["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(labels(&even(-4.0, 4.0, 4)), ["−4", "−2", "0", "2", "4"]);
        assert_eq!(labels(&even(0.3, 2.9, 3)), ["1", "2"]);
        assert_eq!(labels(&even(0.0, 3e6, 3)), ["0", "1.0 × 10⁶", "2.0 × 10⁶", "3.0 × 10⁶"]);
    }

    #[test]
    fn decades_are_kept_where_all_are_too_many() {
        assert_eq!(labels(&logarithmic(0.1, 10.0, 8)), ["0.1", "0.2", "0.5", "1", "2", "5", "10"]);
        assert_eq!(labels(&logarithmic(0.1, 10.0, 5)), ["0.1", "1", "10"]);
        assert_eq!(labels(&logarithmic(3.0, 9.0, 4)), ["4", "6", "8"]);
    }

    #[test]
    fn a_range_is_widened_to_its_ticks() {
        assert_eq!(rounded(0.3, 8.7, 5, false), (0.0, 10.0));
        assert_eq!(rounded(2.0, 10.0, 4, false), (2.0, 10.0));
        let (low, high) = rounded(0.3, 870.0, 5, true);
        assert!((low - 0.2).abs() < 1e-12 && (high - 1000.0).abs() < 1e-9, "{low} {high}");
    }
}
