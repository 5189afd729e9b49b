//! How cold and how warm the water becomes in a year, from what is known of it.

use super::MonthTemperature;
use crate::engine::calendar::Month;
use crate::engine::quantity::Temperature;

/// One end of the year.
#[derive(Debug, Clone, Copy)]
pub struct YearEnd {
    /// The most extreme of the stated one and of the months.
    pub stated: Temperature,
    /// The same with today's water.
    pub end: Temperature,
}

/// The end of the year. `None` where neither all twelve months nor the end itself are known: today's water, or a summer's
/// months, tell nothing of a winter.
pub fn year_end(
    extreme: fn(f64, f64) -> f64,
    stated: Option<Temperature>,
    months: Option<&[MonthTemperature]>,
    today: Option<Temperature>,
) -> Option<YearEnd> {
    let months = months.unwrap_or_default();
    if stated.is_none() && !is_whole_year(months) {
        return None;
    }
    let months = months.iter().map(|row| row.temperature.si());
    let stated = months.chain(stated.map(Temperature::si)).reduce(extreme).map(Temperature::of)?;
    let end = today.map_or(stated, |today| Temperature::of(extreme(stated.si(), today.si())));
    Some(YearEnd { stated, end })
}

fn is_whole_year(months: &[MonthTemperature]) -> bool {
    let found = months.iter().fold(0, |found, row| found | (1 << row.month as u32));
    found == (1_u32 << Month::ALL.len()) - 1
}

/// What reaches the RO of water at that temperature.
pub fn tempered(temperature: Temperature, tempered: Option<Temperature>) -> Temperature {
    tempered.map_or(temperature, |tempered| tempered.max(temperature))
}
