//! The line through dated readings, its meeting with a trigger as a date, and the rows of the chart.
//!
//! Rests on `statistics`; says nothing of what the readings are.

use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{Known, Missing, Term};
use crate::engine::statistics::chart::{Level, Sums, cumulative, weighted};
use crate::engine::statistics::line::Line;
use crate::{choice, input_row, output_row};
use chrono::{Days, NaiveDate};

choice!(/// What the line tells.
Verdict {
    Falling "falling" "Falling",
    Rising "rising" "Rising",
    None "no-trend" "No trend at 95 %",
    TooFew "too-few" "Too few readings to tell",
});

choice!(/// Where a reading stands in the chart.
Standing {
    Within "within" "Within limits",
    Single "reading-out" "Reading outside its limits",
    Weighted "weighted-out" "Weighted mean outside its limits",
    Unlimited "no-limits" "No limits",
    Summed "sum-out" "Cumulative sum outside its limit",
});

input_row! {
    /// One reading.
    Reading {
        date  "date":  NaiveDate   = Term::other("Day").help("Of the reading."),
        value "value": Option<f64> = Term::number(&NUMBER, "Reading", "y")
            .help("Leave it empty if there is none.").possible(0.0, 1e9, ""),
    }
}

output_row! {
    /// One reading in the chart.
    ChartRow {
        date     "date":     NaiveDate = Term::other("Day"),
        value    "value":    f64       = Term::number(&NUMBER, "Reading", "y"),
        weighted "weighted": Known<f64> = Term::number(&NUMBER, "Weighted mean (EWMA)", "z"),
        sum_high "sum-high": Known<f64> = Term::number(&NUMBER, "Cumulative sum above center", "S_hi"),
        sum_low  "sum-low":  Known<f64> = Term::number(&NUMBER, "Cumulative sum below center", "S_lo"),
        standing "standing": Standing  = Term::other("State"),
    }
}

/// The readings that are there, by their day.
pub fn in_order(readings: &[Reading]) -> Vec<(NaiveDate, f64)> {
    let mut dated: Vec<_> = readings.iter().filter_map(|row| Some((row.date, row.value?))).collect();
    dated.sort_by_key(|(date, _)| *date);
    dated
}

/// The same as days since the first.
pub fn by_day(dated: &[(NaiveDate, f64)]) -> Vec<(f64, f64)> {
    let first = dated.first().map(|(date, _)| *date);
    dated
        .iter()
        .map(|(date, value)| (first.map_or(0.0, |first| (*date - first).num_days() as f64), *value))
        .collect()
}

/// What the line through the readings tells at 95 %.
pub fn verdict(line: &Line, points: &[(f64, f64)]) -> Verdict {
    let (least, most) = points
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), (_, y)| (least.min(*y), most.max(*y)));
    // equal readings have a slope of the last bits, and a scatter of the last bits beside it
    let is_flat = most - least <= 1e-12 * most.abs();
    match line.slope_half_width() {
        _ if is_flat => Verdict::None,
        Some(half) if line.slope + half < 0.0 => Verdict::Falling,
        Some(half) if line.slope - half > 0.0 => Verdict::Rising,
        _ => Verdict::None,
    }
}

/// The day on which a line meets the trigger, with the ends of its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fitted {
    /// In days since the first reading: the place and the ends of its interval.
    pub days: [f64; 3],
    /// As dates: the day in which it falls, no later than the earliest, no earlier than the latest.
    pub dates: [NaiveDate; 3],
}

/// Beyond it a line tells nothing.
const HORIZON: f64 = 36_525.0;

/// The day on which the line meets the trigger, or why there is none.
pub fn meeting(line: &Line, verdict: Verdict, trigger: f64, falls: bool, first: NaiveDate) -> Known<Fitted> {
    let none = |why| Err(Missing::none_exists(why));
    match verdict {
        Verdict::TooFew => return Err(Missing::not_known("readings", "at least five readings")),
        Verdict::None => return none("there is no trend at 95 %"),
        Verdict::Falling | Verdict::Rising => {}
    }
    if (verdict == Verdict::Falling) != falls {
        return none("the readings move away from the trigger");
    }
    let Some(meeting) = line.meets(trigger) else { return none("there is no trend at 95 %") };
    if meeting.at < 0.0 {
        return none("the line was past the trigger from the first reading on");
    }
    let date = |days: f64| {
        let whole = Days::new(days.abs() as u64);
        let date = if days < 0.0 { first.checked_sub_days(whole) } else { first.checked_add_days(whole) };
        date.filter(|_| days.abs() <= HORIZON)
            .ok_or(Missing::none_exists("the line does not reach the trigger within a hundred years"))
    };
    let (low, high) = meeting.interval;
    Ok(Fitted {
        days: [meeting.at, low, high],
        dates: [date(meeting.at.floor())?, date(low.floor())?, date(high.ceil())?],
    })
}

/// What the chart counts with.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Of the newest reading in the weighted mean.
    pub weight: f64,
    /// What a cumulative sum lets pass at each reading, in the unit of the readings.
    pub allowance: f64,
    /// The cumulative sum that counts as out.
    pub decision: f64,
}

impl Rule {
    /// Whether one of the sums has passed its limit.
    pub fn is_out(&self, sums: Sums, level: &Level) -> bool {
        sums.high.max(sums.low) > self.decision + level.rounding()
    }
}

/// The readings with their weighted mean and cumulative sums, and where each stands.
pub fn chart(dated: &[(NaiveDate, f64)], level: Known<(Level, Rule)>) -> Vec<ChartRow> {
    let values: Vec<f64> = dated.iter().map(|(_, value)| *value).collect();
    let found = level.map(|(level, rule)| {
        let means = weighted(level.centre, rule.weight, &values);
        (level, rule, means, cumulative(level.centre, rule.allowance, &values))
    });
    let row = |(index, (date, value)): (usize, &(NaiveDate, f64))| match &found {
        Ok((level, rule, means, sums)) => {
            let (mean, sums) = (means[index], sums[index]);
            ChartRow {
                date: *date,
                value: *value,
                weighted: Ok(mean),
                sum_high: Ok(sums.high),
                sum_low: Ok(sums.low),
                standing: standing(level, rule, *value, mean, sums),
            }
        }
        Err(missing) => ChartRow {
            date: *date,
            value: *value,
            weighted: Err(*missing),
            sum_high: Err(*missing),
            sum_low: Err(*missing),
            standing: Standing::Unlimited,
        },
    };
    dated.iter().enumerate().map(row).collect()
}

/// The first of the three charts that is out.
fn standing(level: &Level, rule: &Rule, value: f64, mean: f64, sums: Sums) -> Standing {
    let room = level.rounding();
    let is_out = |value: f64, (low, high): (f64, f64)| value < low - room || value > high + room;
    if is_out(value, level.limits()) {
        Standing::Single
    } else if is_out(mean, level.weighted_limits(rule.weight)) {
        Standing::Weighted
    } else if rule.is_out(sums, level) {
        Standing::Summed
    } else {
        Standing::Within
    }
}
