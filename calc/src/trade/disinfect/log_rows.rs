//! What is peculiar in the rows of a log and yet can be computed with: each a sentence with its row and column.
//!
//! Rests on the boiling of water at 100 °C under one atmosphere. How fast a loop of water changes is common practice,
//! no source. Rows that cannot be so at all are refused before (`heat_log::misplaced`, the possible range).

use super::heat_log::{BOILING, FLOOR, LogRow, ProbeDose, hot_periods, is_leap, named};
use crate::engine::quantity::{Temperature, Time};
use crate::engine::sheet::{Sentence, Slot, Working};

/// Of one kind so many are named; the rest are counted.
const NAMED: usize = 5;

/// Asks for the unit where no reading is colder than 65: a run that is logged from cold begins lower, while 65 to 100 °F
/// is water that never got hot (18 to 38 °C) and would count as a large dose.
pub fn warn_of_fahrenheit(log: &[LogRow], w: &mut Working) {
    let mut readings = log.iter().filter_map(|row| row.temperature).peekable();
    if readings.peek().is_some() && readings.all(|reading| reading >= FLOOR && reading <= BOILING) {
        w.warn(
            "log",
            "maybe-fahrenheit",
            "every reading lies between 65 and 100 °C, so the log does not show how the loop heated up; if these are degrees Fahrenheit, it never got hot: enter them in °F",
        );
    }
}

/// Warns of the rows of one probe that are peculiar; `name` is as it stands in the log.
pub fn warn(log: &[LogRow], name: &str, probe: &ProbeDose, longest_gap: Time, w: &mut Working) {
    let [mut twice, mut gaps, mut boiling, mut leaps] = [const { Vec::new() }; 4];
    let mut last: Option<(usize, Time, Temperature)> = None;
    let readings = named(log, name).filter_map(|(index, row)| Some((index, row.time, row.temperature?)));
    for (index, time, temperature) in readings {
        let of_row = |template| Sentence::plain(template).with("row", Slot::Count(index as i64 + 1));
        if temperature > BOILING {
            boiling.push(
                of_row("row {row}, temperature: {value} is hotter than water without pressure can be, so it got no credit; if the log is in degrees Fahrenheit, enter it in °F")
                    .quantity("value", temperature),
            );
        }
        if let Some((before_index, before_time, before)) = last {
            let (interval, rise) = (time - before_time, temperature - before);
            let before_row = Slot::Count(before_index as i64 + 1);
            if interval.si() == 0.0 {
                twice.push(
                    of_row("row {row}, time: the same as in row {before}, with the same temperature; it adds nothing")
                        .with("before", before_row),
                );
            } else if interval > longest_gap {
                gaps.push(
                    of_row("row {row}, time: {gap} after row {before}; without a reading in between it got no credit: log at least once a minute")
                        .with("before", before_row)
                        .quantity("gap", interval),
                );
            } else if is_leap(interval, before, temperature) {
                leaps.push(
                    of_row("row {row}, temperature: a change of {rise} within {interval} is faster than water in a loop changes (common practice, no source), so it got no credit; check the unit and the probe")
                        .quantity("rise", rise)
                        .quantity("interval", interval),
                );
            }
        }
        last = Some((index, time, temperature));
    }
    let periods = hot_periods(log, name);
    if periods > 1 {
        w.warn(
            "log",
            "several-runs",
            Sentence::plain("probe {probe}: {count} separate periods at or above 65 °C, whose doses are added; if these are several runs, enter each run by itself")
                .with("probe", Slot::Text(probe.probe.clone()))
                .with("count", Slot::Count(periods as i64)),
        );
    }
    if gaps.len() > NAMED {
        w.warn(
            "log",
            "gap-without-credit",
            Sentence::plain("probe {probe}: {gap} in total without credit")
                .with("probe", Slot::Text(probe.probe.clone()))
                .quantity("gap", probe.gaps),
        );
    }
    let named = [
        ("reading-twice", twice),
        ("gap-in-log", gaps),
        ("reading-above-boiling", boiling),
        ("reading-leaps", leaps),
    ];
    for (id, sentences) in named {
        let more = sentences.len().saturating_sub(NAMED);
        for sentence in sentences.into_iter().take(NAMED) {
            w.warn("log", id, sentence);
        }
        if more > 0 {
            w.warn(
                "log",
                "more-rows",
                Sentence::plain("and {count} more rows like the last one")
                    .with("count", Slot::Count(more as i64)),
            );
        }
    }
}
