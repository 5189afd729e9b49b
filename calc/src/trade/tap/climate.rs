//! Temperature of mains water from the climate, where nobody has measured it.
//!
//! Rests on Burch and Christensen (2007), a fit to mains in the United States. It knows neither the depth of the main nor
//! a lake, a well or a warm riser, and it states no uncertainty for a single town: a measured value goes before it.

use crate::engine::quantity::{Temperature, TemperatureDifference};
use crate::engine::sheet::{Sentence, Slot, Working};
use crate::{choice, step};

choice!(/// On which side of the equator.
    Hemisphere { North "north" "Northern", South "south" "Southern" });

/// The climate of a place.
#[derive(Debug, Clone, Copy)]
pub struct Climate {
    /// Mean air temperature of the year.
    pub mean_air: Temperature,
    /// The warmest monthly mean of the air less the coldest.
    pub range: TemperatureDifference,
    /// Where the seasons fall.
    pub hemisphere: Hemisphere,
}

/// Temperature of mains water on a day of the year.
///
/// For a main whose temperature nobody has read. Where there is a reading or a log, use it.
///
/// # Formula
/// T = T_air + 6 + R · (ΔT / 2) · sin(0.986° · (d − 15 − L) − 90°), R = 0.4 + 0.01 · (T_air − 44), L = 35 − (T_air − 44)
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | T_air | mean air temperature of the year | °F | 23 to 95 |
/// | ΔT | range of the monthly mean air temperatures | °F | 0 to 108 |
/// | d | day of the year | d | 1 to 365 |
/// | R | swing of the water over that of the air | 1 | |
/// | L | by how much the water follows the air | d | |
/// | T | water temperature (returned) | °F | |
///
/// South of the equator + 90° stands in place of − 90°.
///
/// # Accuracy
/// A fit; no uncertainty is stated for a single town. In a hard climate the result lies below the freezing point.
///
/// # Errors
/// None.
///
/// # Source
/// `burch-christensen-2007`, as public building energy codes quote it.
/// Check values: worked by hand for several days; among the published values those of whole years.
///
/// # Example
/// ```
/// use calc::engine::quantity::{Quantity, Temperature, TemperatureDifference, kinds::TEMPERATURE, kinds::TEMPERATURE_DIFFERENCE};
/// use calc::engine::sheet::Working;
/// use calc::trade::tap::{Climate, Hemisphere, mains_of_day};
/// let climate = Climate {
///     mean_air: Temperature::from_si(TEMPERATURE.unit("°F").to_si(50.0)),
///     range: TemperatureDifference::from_si(TEMPERATURE_DIFFERENCE.unit("°F").to_si(50.0)),
///     hemisphere: Hemisphere::North,
/// };
/// // R = 0.46, L = 29 d; day 15: angle 0.986° · (−29) − 90° = −118.594°, sine −0.87802; 56 − 11.5 · 0.87802 = 45.903 °F
/// let water = mains_of_day(climate, 15.0, &mut Working::silent());
/// assert!((water.si() - 273.15 - 7.724).abs() < 0.0005);
/// ```
pub fn mains_of_day(climate: Climate, day: f64, w: &mut Working) -> Temperature {
    let mean = (climate.mean_air.si() - 273.15) * 1.8 + 32.0;
    w.conversion(("mean", "T_air,°F"), "mean_air", climate.mean_air, mean);
    let range = climate.range.si() * 1.8;
    w.conversion(("range", "ΔT_air,°F"), "air_range", climate.range, range);
    w.bind("day", "d", day);
    step!(w, ratio "R" = 0.4 + 0.01 * (mean - 44.0));
    step!(w, lag "L" = 35.0 - (mean - 44.0));
    let angle = match climate.hemisphere {
        Hemisphere::North => {
            step!(w, angle "φ" = 0.986 * (day - 15.0 - lag) - 90.0);
            angle
        }
        Hemisphere::South => {
            step!(w, angle "φ" = 0.986 * (day - 15.0 - lag) + 90.0);
            angle
        }
    };
    let sine = angle.to_radians().sin();
    w.procedure(("sine", "sin φ"), sine, || {
        Sentence::plain("sine of φ in degrees, on day {day} of the year").with("day", Slot::Count(day as i64))
    });
    step!(w, fahrenheit "T_°F" = mean + 6.0 + ratio * range / 2.0 * sine);
    let water = Temperature::of((fahrenheit - 32.0) / 1.8 + 273.15);
    w.conversion(("water", "T"), "fahrenheit", fahrenheit, water);
    water
}

#[cfg(test)]
mod tests {
    use super::*;

    fn climate(mean: f64, range: f64) -> Climate {
        Climate {
            mean_air: Temperature::of((mean - 32.0) / 1.8 + 273.15),
            range: TemperatureDifference::of(range / 1.8),
            hemisphere: Hemisphere::North,
        }
    }

    fn fahrenheit(climate: Climate, day: i32) -> f64 {
        (mains_of_day(climate, f64::from(day), &mut Working::silent()).si() - 273.15) * 1.8 + 32.0
    }

    #[test]
    fn days_of_the_year_worked_by_hand() {
        // mean and range of the air in °F, day, water in °F
        for (mean, range, day, expected) in [
            (50.0, 50.0, 46, 44.507),
            (50.0, 50.0, 197, 66.044),
            (57.0, 38.0, 15, 53.643),
            (57.0, 38.0, 228, 72.964),
            (45.0, 60.0, 32, 39.223),
            (62.0, 30.0, 105, 65.308),
        ] {
            let ours = fahrenheit(climate(mean, range), day);
            assert!((ours - expected).abs() < 0.0005, "{mean}, {range}, day {day}: {ours}");
        }
    }

    #[test]
    fn the_mean_of_the_year_lies_six_degrees_above_the_air() {
        let of = |day: i32| fahrenheit(climate(50.3, 48.0), day);
        let mean = (1..=365).map(of).sum::<f64>() / 365.0;
        assert!((mean - 56.3).abs() < 0.01, "{mean}");
        let coldest = (1..=365).min_by(|a, b| of(*a).total_cmp(&of(*b)));
        assert_eq!(coldest, Some(44));
        assert!((of(44) - 45.19).abs() < 0.005);
    }

    #[test]
    fn the_south_has_its_winter_half_a_year_later() {
        let north = climate(50.0, 50.0);
        let south = Climate { hemisphere: Hemisphere::South, ..north };
        let swing = |climate, day| fahrenheit(climate, day) - 56.0;
        assert!((swing(north, 44) + swing(south, 44)).abs() < 1e-9);
    }
}
