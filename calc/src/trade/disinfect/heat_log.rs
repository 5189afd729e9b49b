//! The heat dose of one probe from its log: an exact integral between the readings, no credit for gaps.
//!
//! Rests on ISO 15883-1, annex B: A0 = Σ 10^((T − 80 °C) / 10 K) · Δt, nothing counted below 65 °C.

use super::log_course::no_credit;
use crate::engine::quantity::{
    HeatDose, Temperature, TemperatureDifference, Time, celsius,
    kinds::{HEAT_DOSE, NUMBER, TEMPERATURE, TIME},
};
use crate::engine::sheet::{Known, Missing, Problem, Sentence, Slot, Term};
use crate::trade::terms::heat::{LOGGED_TEMPERATURE, LOGGED_TIME};
use crate::{input_row, output_row};

/// Temperature rise for which the same effect needs a tenth of the time, in kelvin (ISO 15883-1).
const Z: f64 = 10.0;
/// Below it nothing is counted (ISO 15883-1).
pub const FLOOR: Temperature = celsius(65.0);
/// Water under one atmosphere is no hotter.
pub const BOILING: Temperature = celsius(100.0);
/// In kelvin a second: flushing a hot loop with cold water makes half of it (common practice, no source).
const FASTEST: f64 = 30.0 / 60.0;
/// Within so much two readings may differ at any speed, since a probe has digits (common practice, no source).
const DIGITS: f64 = 2.0;

/// Whether water in a loop cannot change so fast, so that one of the two readings is wrong.
pub fn is_leap(interval: Time, from: Temperature, to: Temperature) -> bool {
    let rise = (to - from).si().abs();
    rise > FASTEST * interval.si() && rise > DIGITS
}

/// Whether an interval between two readings counts: short enough, and with readings that can be right.
fn is_credited(interval: Time, from: Temperature, to: Temperature, longest: Time) -> bool {
    no_credit(interval, from, to, longest).is_none()
}

input_row! {
    /// One reading of a log.
    LogRow {
        probe       "probe":       Option<String>      = Term::other("Probe").assumed("one probe"),
        time        "time":        Time                = LOGGED_TIME,
        temperature "temperature": Option<Temperature> = LOGGED_TEMPERATURE,
    }
}

output_row! {
    /// What one probe's log adds up to.
    ProbeDose {
        probe     "probe":     String             = Term::other("Probe"),
        dose      "dose":      Known<HeatDose>    = Term::number(&HEAT_DOSE, "Heat dose A0", "A_0"),
        trapezoid "trapezoid": Known<HeatDose>    = Term::number(&HEAT_DOSE, "The same by trapezoids, for comparison", "A_0,trapezoid"),
        highest   "highest":   Known<Temperature> = Term::number(&TEMPERATURE, "Highest reading", "T_max"),
        counted   "counted":   Time               = Term::number(&TIME, "Time at or above 65 °C", "t_65"),
        held      "held":      Known<Time>        = Term::number(&TIME, "Longest unbroken time at or above the hold temperature", "t_hold"),
        above     "above":     Known<Time>        = Term::number(&TIME, "Total time at or above it, changing evenly between readings", "t_above"),
        gaps      "gaps":      Time               = Term::number(&TIME, "Time without credit: no readings, or readings that cannot be right", "t_gap"),
        intervals "intervals": f64                = Term::number(&NUMBER, "Intervals", "n"),
        if_high   "dose-if-high": Known<HeatDose> = Term::number(&HEAT_DOSE, "Heat dose if it reads high by its accuracy", "A_0,low"),
        held_if_high "held-if-high": Known<Time>  = Term::number(&TIME, "Hold time if it reads high by its accuracy", "t_hold,low"),
    }
}

/// What a probe is called in answers: rows without a name are those of an unnamed one.
pub fn shown(probe: &str) -> &str {
    if probe.is_empty() { "unnamed" } else { probe }
}

/// Equivalent seconds at 80 °C in each second at this temperature.
fn rate(celsius: f64) -> f64 {
    10f64.powf((celsius - 80.0) / Z)
}

/// The dose of one interval in which the temperature changes evenly, with the time of it at or above the floor.
///
/// # Formula
/// A0 = Δt · (z / ln 10) · (r₂ − r₁) / (T₂ − T₁), r = 10^((T − 80 °C) / z), over the part of the interval above 65 °C.
fn interval(from: f64, to: f64, seconds: f64) -> (f64, f64) {
    let floor = 65.0;
    let (low, high) = (from.min(to), from.max(to));
    if high < floor || seconds <= 0.0 {
        return (0.0, 0.0);
    }
    let low_counted = low.max(floor);
    if high - low < 1e-9 {
        return (rate(high) * seconds, seconds);
    }
    let counted = seconds * (high - low_counted) / (high - low);
    if high - low_counted < 1e-9 {
        return (rate(high) * counted, counted);
    }
    (counted * Z / std::f64::consts::LN_10 * (rate(high) - rate(low_counted)) / (high - low_counted), counted)
}

/// The dose of one interval in which the temperature changes evenly.
pub fn dose_of(from: Temperature, to: Temperature, time: Time) -> HeatDose {
    HeatDose::of(interval(from.si() - 273.15, to.si() - 273.15, time.si()).0)
}

/// Equivalent seconds in each second at a temperature that is held; none below the floor.
pub fn held_at(temperature: Temperature) -> f64 {
    if temperature < FLOOR { 0.0 } else { rate((temperature - celsius(80.0)).si() + 80.0) }
}

fn trapezoid(from: f64, to: f64, seconds: f64) -> f64 {
    let counted = |celsius: f64| if celsius < 65.0 { 0.0 } else { rate(celsius) };
    (counted(from) + counted(to)) / 2.0 * seconds
}

/// The names of the probes of a log, in the order in which they appear; the empty one is that of rows without a name.
pub fn probes(log: &[LogRow]) -> Vec<&str> {
    let mut names: Vec<&str> = Vec::new();
    for row in log {
        let name = row.probe.as_deref().unwrap_or("");
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// The rows of one probe, with their place in the log.
pub fn named<'a>(log: &'a [LogRow], probe: &'a str) -> impl Iterator<Item = (usize, &'a LogRow)> {
    log.iter().enumerate().filter(move |(_, row)| row.probe.as_deref().unwrap_or("") == probe)
}

/// The rows in which time runs backwards for their own probe, or in which it stands still while the temperature does
/// not: those are the readings of two probes, whose mean would hide the colder one.
pub fn misplaced(log: &[LogRow]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for name in probes(log) {
        let mut last = f64::NEG_INFINITY;
        let mut before: Option<Temperature> = None;
        for (index, row) in named(log, name) {
            if row.time.si() < last {
                let sentence = Sentence::plain(
                    "time runs backwards in row {row}; sort the rows, or split the log in two",
                )
                .with("row", Slot::Count(index as i64 + 1));
                problems.push(Problem { field: "log", cell: Some((index, "time")), sentence });
            }
            let jumps = matches!((before, row.temperature), (Some(before), Some(now)) if before != now);
            if row.time.si() == last && jumps {
                let sentence = Sentence::plain(
                    "row {row} has another temperature at the same time: name the probe in each row, or enter the seconds",
                )
                .with("row", Slot::Count(index as i64 + 1));
                problems.push(Problem { field: "log", cell: Some((index, "time")), sentence });
            }
            last = last.max(row.time.si());
            before = row.temperature;
        }
    }
    problems
}

/// The usual interval between two readings of one probe: the median.
pub fn usual_interval(log: &[LogRow], probe: &str) -> Option<Time> {
    let times: Vec<f64> = named(log, probe).map(|(_, row)| row.time.si()).collect();
    let mut intervals: Vec<f64> = times.windows(2).map(|pair| pair[1] - pair[0]).collect();
    intervals.retain(|seconds| *seconds > 0.0);
    intervals.sort_by(f64::total_cmp);
    intervals.get(intervals.len().checked_sub(1)? / 2).map(|seconds| Time::of(*seconds))
}

const NO_HOLD: Missing = Missing::empty("hold-temperature", "Hold temperature");

/// How long one probe was at or above a temperature, which changes evenly between two readings.
pub fn time_above(log: &[LogRow], probe: &str, limit: Temperature, longest: Time) -> Time {
    let mut sum = Time::of(0.0);
    let mut last: Option<(Time, Temperature)> = None;
    for (time, temperature) in named(log, probe).filter_map(|(_, row)| Some((row.time, row.temperature?))) {
        if let Some((then, before)) = last
            && is_credited(time - then, before, temperature, longest)
        {
            let (low, high) = (before.min(temperature), before.max(temperature));
            let share = if low >= limit {
                1.0
            } else if high < limit {
                0.0
            } else {
                (high - limit) / (high - low)
            };
            sum = sum + (time - then) * share;
        }
        last = Some((time, temperature));
    }
    sum
}

/// How often one probe was at or above the floor, each time from and to a reading below it.
pub fn hot_periods(log: &[LogRow], probe: &str) -> usize {
    let mut was_hot = false;
    let rises = named(log, probe).filter_map(|(_, row)| row.temperature).filter(|temperature| {
        let is_hot = *temperature >= FLOOR;
        let before = std::mem::replace(&mut was_hot, is_hot);
        is_hot && !before
    });
    rises.count()
}

/// What one probe's readings add up to, each lowered by as much as the probe reads high. An interval longer than `longest`
/// counts nothing, since what happened in it is not known, nor does one with a reading that cannot be right.
pub fn dose(log: &[LogRow], probe: &str, longest: Time, reads_high: TemperatureDifference) -> ProbeDose {
    let mut sum = ProbeDose {
        probe: shown(probe).to_owned(),
        dose: Err(Missing::not_known("log", "a probe has fewer than two readings")),
        trapezoid: Err(Missing::not_known("log", "a probe has fewer than two readings")),
        highest: Err(Missing::not_known("log", "a probe has no reading")),
        counted: Time::of(0.0),
        held: Err(NO_HOLD),
        above: Err(NO_HOLD),
        gaps: Time::of(0.0),
        intervals: 0.0,
        if_high: Err(Missing::not_known("log", "a probe has fewer than two readings")),
        held_if_high: Err(NO_HOLD),
    };
    let (mut exact, mut rough) = (0.0, 0.0);
    let of = |temperature: Temperature| temperature.si() - reads_high.si() - 273.15;
    let mut last: Option<(Time, Temperature)> = None;
    for (time, temperature) in named(log, probe).filter_map(|(_, row)| Some((row.time, row.temperature?))) {
        sum.highest = Ok(sum.highest.map_or(temperature, |highest| highest.max(temperature)));
        if let Some((then, before)) = last {
            let long = time - then;
            if is_credited(long, before, temperature, longest) {
                let (dose, counted) = interval(of(before), of(temperature), long.si());
                exact += dose;
                rough += trapezoid(of(before), of(temperature), long.si());
                sum.counted = sum.counted + Time::of(counted);
            } else {
                sum.gaps = sum.gaps + long;
            }
            sum.intervals += 1.0;
        }
        last = Some((time, temperature));
    }
    if sum.intervals > 0.0 {
        sum.dose = Ok(HeatDose::of(exact));
        sum.trapezoid = Ok(HeatDose::of(rough));
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_even_ramp_has_a_closed_form() {
        // 65 to 85 °C at 1 K/min: 60 · (10 / ln 10) · (3.162278 − 0.031623) = 815.78 s, worked by hand
        let (dose, counted) = interval(65.0, 85.0, 1200.0);
        assert!((dose - 815.78).abs() < 0.01, "{dose}");
        assert!((counted - 1200.0).abs() < 1e-9);
    }

    #[test]
    fn one_long_ramp_counts_as_many_short_ones() {
        let whole = interval(50.0, 90.0, 4000.0).0;
        let parts: f64 = (0..4000)
            .map(|s| interval(50.0 + f64::from(s) / 100.0, 50.01 + f64::from(s) / 100.0, 1.0).0)
            .sum();
        assert!((whole - parts).abs() < 1e-6 * whole, "{whole} {parts}");
    }

    #[test]
    fn nothing_counts_below_the_floor() {
        assert_eq!(interval(20.0, 64.9, 600.0), (0.0, 0.0));
        assert!((interval(65.0, 65.0, 36_000.0).0 - 1138.42).abs() < 0.01);
    }
}
