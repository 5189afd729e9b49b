//! The year of the tap water month by month: measured, else from a log, else from the climate; each row says which.
//!
//! The climate's months are those of [`mains_of_day`] on the 15th. A month of which nothing is known stays empty, and
//! with it the coldest and the warmest, since that month could be either.

use super::climate::{Climate, Hemisphere, mains_of_day};
use crate::engine::calendar::Month;
use crate::engine::quantity::{
    Temperature, TemperatureDifference, celsius, kelvin_difference, kinds::TEMPERATURE,
};
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Problem, Sentence, Slot, Stage, Stop, Term, Working, source,
};
use crate::trade::cases;
use crate::trade::terms::mains;
use crate::{choice, input_row, output_row, sheet};

choice!(/// Where a month's temperature comes from.
    Origin { Measured "measured" "Measured at this tap", Log "log" "Log of the utility or the building", Climate "climate" "Climate model" });

input_row! {
    /// What is known of one month.
    MonthKnown {
        month    "month":                Month               = Term::other("Month").unique(),
        measured "measured-temperature": Option<Temperature> = mains::MEASURED_TEMPERATURE,
        logged   "logged-temperature":   Option<Temperature> = mains::LOGGED_TEMPERATURE,
    }
}

output_row! {
    /// One month of the tap water.
    TapMonth {
        month       "month":       Month              = Term::other("Month"),
        temperature "temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Water temperature", "T"),
        origin      "origin":      Known<Origin>      = Term::other("Source"),
    }
}

static MODEL_IS_NO_READING: Caution = Caution {
    id: "model-is-no-reading",
    text: "A climate model does not know this building. Lakes and shallow wells are colder in winter; risers beside hot pipes are warmer all year. Before relying on the coldest month, ask the utility or measure at the tap in that month.",
};

/// The 15th of each month, as a day of the year.
const FIFTEENTH: [f64; 12] =
    [15.0, 46.0, 74.0, 105.0, 135.0, 166.0, 196.0, 227.0, 258.0, 288.0, 319.0, 349.0];
/// The least that every field of water from a tap takes; colder water is ice in the pipe.
const LEAST: Temperature = celsius(0.5);
/// A reading that leaves the log or the model by more than this is pointed out (common practice, no source).
const USUAL_DIFFERENCE: TemperatureDifference = kelvin_difference(3.0);

sheet! {
    /// Temperature of the tap water in each month: measured, else from a log, else from the climate.
    MainsTemperature, "mains-temperature", "Tap temperature through the year", Stage::Tap,
    also: &["water temperature", "winter"],
    sources: &[&source::BURCH_CHRISTENSEN_2007, &source::COMMON_PRACTICE],
    cautions: &[&MODEL_IS_NO_READING],
    criteria: &[],
    inputs: {
        months     "months":                Option<Vec<MonthKnown>>      = Term::other("Known months")
            .help("One row per month. If a month has both, the reading counts.")
            .assumed("the climate model for all twelve"),
        mean_air   "mean-air-temperature":  Known<Temperature>           = mains::MEAN_AIR_TEMPERATURE,
        air_range  "air-temperature-range": Known<TemperatureDifference> = mains::AIR_TEMPERATURE_RANGE,
        hemisphere "hemisphere":            Known<Hemisphere>            = mains::HEMISPHERE,
    }
    outputs Outputs: {
        year          "tap-year":            Vec<TapMonth>      = Term::other("Tap temperature, month by month"),
        coldest       "coldest-temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Coldest month", "T_cold"),
        coldest_month "coldest-month":       Known<Month>       = Term::other("In which month"),
        warmest       "warmest-temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Warmest month", "T_warm"),
        warmest_month "warmest-month":       Known<Month>       = Term::other("In which month"),
    }
}

impl Evaluate for MainsTemperature {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let rows = self.months.as_deref().unwrap_or(&[]);
        let twice = twice(rows);
        if !twice.is_empty() {
            return Err(Stop::Problems(twice));
        }
        self.compare(rows, w);
        let climate = self.climate();
        let year: Vec<TapMonth> = Month::ALL.iter().map(|&month| of_month(month, rows, climate, w)).collect();
        doubt_model(&year, climate, w);
        show_model(&year, climate, w);
        let coldest = extreme(&year, |a, b| a < b);
        let warmest = extreme(&year, |a, b| a > b);
        Ok(Outputs {
            coldest: coldest.map(|(temperature, _)| temperature),
            coldest_month: coldest.map(|(_, month)| month),
            warmest: warmest.map(|(temperature, _)| temperature),
            warmest_month: warmest.map(|(_, month)| month),
            year,
        })
    }
}

impl MainsTemperature {
    /// The climate, where all of it was entered.
    fn climate(&self) -> Known<Climate> {
        if self.mean_air.is_err() && self.air_range.is_err() {
            let why = "each month needs a reading or a log, or the climate of the place";
            return Err(Missing::not_known("months", why));
        }
        Ok(Climate { mean_air: self.mean_air?, range: self.air_range?, hemisphere: self.hemisphere? })
    }

    /// Points out where the tap leaves the log.
    fn compare(&self, rows: &[MonthKnown], w: &mut Working) {
        for row in rows {
            let (Some(measured), Some(logged)) = (row.measured, row.logged) else { continue };
            let apart = measured.max(logged) - measured.min(logged);
            if apart > USUAL_DIFFERENCE {
                w.warn(
                    "months", "log-differs",
                    Sentence::plain("{month}: the reading and the log are {apart} apart. Let the water run longer, or ask which pipe warms it. The reading is used")
                        .with("month", Slot::Word(name(row.month)))
                        .quantity("apart", apart),
                );
            }
        }
    }
}

fn name(month: Month) -> &'static str {
    Month::NAMED[month as usize].name
}

/// The rows that name a month once more.
fn twice(rows: &[MonthKnown]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (index, row) in rows.iter().enumerate() {
        if let Some(first) = rows[..index].iter().position(|other| other.month == row.month) {
            let sentence = Sentence::plain("{month} is in rows {first} and {row}: keep one of them")
                .with("month", Slot::Word(name(row.month)))
                .with("first", Slot::Count(first as i64 + 1))
                .with("row", Slot::Count(index as i64 + 1));
            problems.push(Problem { field: "months", cell: Some((index, "month")), sentence });
        }
    }
    problems
}

fn of_month(month: Month, rows: &[MonthKnown], climate: Known<Climate>, w: &mut Working) -> TapMonth {
    let row = rows.iter().find(|row| row.month == month);
    let (temperature, origin) = if let Some(measured) = row.and_then(|row| row.measured) {
        (Ok(measured), Ok(Origin::Measured))
    } else if let Some(logged) = row.and_then(|row| row.logged) {
        (Ok(logged), Ok(Origin::Log))
    } else {
        let modelled = climate.map(|climate| w.quietly(|w| of_climate(month, climate, w)));
        (modelled, modelled.map(|_| Origin::Climate))
    };
    TapMonth { month, temperature, origin }
}

fn of_climate(month: Month, climate: Climate, w: &mut Working) -> Temperature {
    let water = mains_of_day(climate, FIFTEENTH[month as usize], w);
    if water < LEAST {
        w.warn(
            "mean-air-temperature", "model-freezes",
            "the model gives water below freezing in some months. It is held at 0.5 °C there, which only means “very cold”",
        );
    }
    water.max(LEAST)
}

/// Points out the known month that the model misses most: its other months are then no better.
fn doubt_model(year: &[TapMonth], climate: Known<Climate>, w: &mut Working) {
    let Ok(climate) = climate else { return };
    let known = year.iter().filter(|row| row.origin != Ok(Origin::Climate));
    let missed = known.filter_map(|row| {
        let known = row.temperature.ok()?;
        let day = FIFTEENTH[row.month as usize];
        let model = w.quietly(|w| mains_of_day(climate, day, w)).max(LEAST);
        Some((row.month, known.max(model) - known.min(model), model))
    });
    let Some((month, apart, model)) = missed.max_by(|a, b| a.1.si().total_cmp(&b.1.si())) else { return };
    if apart > USUAL_DIFFERENCE {
        w.warn(
            "months", "model-differs",
            Sentence::plain("{month}: the climate model gives {model}, {apart} off. It does not fit this water: do not rely on it for the other months")
                .with("month", Slot::Word(name(month)))
                .quantity("model", model)
                .quantity("apart", apart),
        );
    }
}

/// Says how many months are the model's, and records the arithmetic of its coldest and its warmest one.
fn show_model(year: &[TapMonth], climate: Known<Climate>, w: &mut Working) {
    let Ok(climate) = climate else { return };
    let modelled: Vec<(Month, Temperature)> = year
        .iter()
        .filter(|row| row.origin == Ok(Origin::Climate))
        .filter_map(|row| Some((row.month, row.temperature.ok()?)))
        .collect();
    let coldest = modelled.iter().min_by(|a, b| a.1.si().total_cmp(&b.1.si()));
    let warmest = modelled.iter().max_by(|a, b| a.1.si().total_cmp(&b.1.si()));
    let (Some(coldest), Some(warmest)) = (coldest, warmest) else { return };
    w.assume(
        "months",
        Sentence::plain("{count} of twelve months are from a climate model, not measured. The arithmetic shows the coldest and the warmest of them")
            .with("count", Slot::Count(modelled.len() as i64)),
    );
    for (season, (month, _)) in [(cases::COLDEST, coldest), (cases::WARMEST, warmest)] {
        w.in_season(season, |w| of_climate(*month, climate, w));
    }
}

/// The coldest or the warmest month; not known where one month is not, since that one could be it.
fn extreme(
    year: &[TapMonth],
    beats: impl Fn(Temperature, Temperature) -> bool,
) -> Known<(Temperature, Month)> {
    let mut best: Known<(Temperature, Month)> = Err(Missing::empty("months", "Months"));
    for row in year {
        let temperature = row.temperature?;
        if best.is_ok_and(|(other, _)| beats(temperature, other)) || best.is_err() {
            best = Ok((temperature, row.month));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Sheet;

    fn sheet(months: &[(Month, Option<f64>, Option<f64>)]) -> MainsTemperature {
        let row = |&(month, measured, logged): &(Month, Option<f64>, Option<f64>)| MonthKnown {
            month,
            measured: measured.map(celsius),
            logged: logged.map(celsius),
        };
        let missing = Missing::not_known("", "");
        MainsTemperature {
            months: Some(months.iter().map(row).collect()),
            mean_air: Err(missing),
            air_range: Err(missing),
            hemisphere: Err(missing),
        }
    }

    #[test]
    fn the_reading_goes_before_the_log_and_the_log_before_the_climate() {
        let mut sheet = sheet(&[(Month::March, Some(6.0), Some(9.5)), (Month::April, None, Some(8.0))]);
        sheet.mean_air = Ok(celsius(10.0));
        sheet.air_range = Ok(kelvin_difference(20.0));
        sheet.hemisphere = Ok(Hemisphere::North);
        let mut w = Working::silent();
        let year = sheet.run(&mut w).unwrap().year;
        let origins: Vec<_> = year[1..5].iter().map(|row| row.origin.unwrap()).collect();
        assert_eq!(origins, [Origin::Climate, Origin::Measured, Origin::Log, Origin::Climate]);
        assert_eq!(year[2].temperature, Ok(celsius(6.0)));
        // reading and log are 3.5 K apart, reading and model 3.3 K, and ten months are the model's
        assert_eq!(w.warnings().len(), 3);
    }

    #[test]
    fn a_month_that_is_not_known_leaves_the_extremes_open() {
        let outputs = sheet(&[(Month::January, Some(4.0), None)]).run(&mut Working::silent()).unwrap();
        assert_eq!(outputs.year[0].temperature, Ok(celsius(4.0)));
        assert_eq!(outputs.coldest.unwrap_err().field, "months");
    }

    #[test]
    fn a_part_of_the_climate_names_what_it_lacks() {
        let mut sheet = sheet(&[]);
        sheet.mean_air = Ok(celsius(10.0));
        sheet.air_range = Err(Missing::empty("air-temperature-range", "Range"));
        let outputs = sheet.run(&mut Working::silent()).unwrap();
        assert_eq!(outputs.warmest.unwrap_err().field, "air-temperature-range");
    }

    #[test]
    fn a_month_stands_once() {
        let rows = [(Month::May, Some(12.0), None), (Month::May, None, Some(13.0))];
        let Err(Stop::Problems(problems)) = sheet(&rows).run(&mut Working::silent()) else { panic!() };
        assert_eq!(problems[0].cell, Some((1, "month")));
    }

    #[test]
    fn water_stays_liquid() {
        let mut sheet = sheet(&[]);
        sheet.mean_air = Ok(celsius(-4.0));
        sheet.air_range = Ok(kelvin_difference(55.0));
        sheet.hemisphere = Ok(Hemisphere::North);
        assert_eq!(sheet.run(&mut Working::silent()).unwrap().coldest, Ok(LEAST));
    }
}
