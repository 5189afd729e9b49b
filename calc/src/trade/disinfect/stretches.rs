//! How long a log stayed on one side of a temperature without a break, and since when it has been cool for long enough.
//!
//! A stretch is counted from reading to reading: it begins at a reading, so that no credit is given for a crossing
//! that nobody saw. A reading beyond the temperature ends it, and so does a gap. Temperature and time come from the
//! instructions of the RO; no source of the trade fixes them.

use super::heat_log::{LogRow, named, probes, shown};
use crate::engine::quantity::{Temperature, Time, kinds::NUMBER, kinds::TIME};
use crate::engine::sheet::{Answer, Field, Known, Missing, Output, OutputRow, Row, Term};
use crate::{choice, fields};

choice!(/// What ended a stretch.
EndedBy {
    Reading "reading" "A reading above the temperature",
    Gap "gap" "A gap without readings",
    End "log-ends" "The log ends",
});

/// An unbroken time on one side of a temperature, at one probe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// The first reading of it, in log time.
    pub from: Time,
    /// The last reading of it.
    pub to: Time,
    /// What came then.
    pub ended_by: EndedBy,
    /// The row that ended it, counted from 0.
    pub row: Option<usize>,
}

/// One cool-down period: an unbroken time for which a probe has stayed cool.
#[derive(Debug, Clone, PartialEq)]
pub struct Counting {
    /// Whose.
    pub probe: String,
    /// When, and what ended it.
    pub stretch: Stretch,
}

impl Row for Counting {
    const COLUMNS: &'static [Field] = fields!(Output:
        probe "probe": String = Term::other("Probe"),
        began "began": Time = Term::number(&TIME, "Began", "t_0"),
        lasted "lasted": Time = Term::number(&TIME, "Lasted", "Δt"),
        ended_by "ended-by": EndedBy = Term::other("Ended by"),
        row "row": Known<f64> = Term::number(&NUMBER, "Row of the log that ended it", "i"),
    );
}

impl OutputRow for Counting {
    fn answers(&self) -> Vec<Answer> {
        let Stretch { from, to, ended_by, row } = self.stretch;
        let row: Known<f64> =
            row.map(|row| row as f64 + 1.0).ok_or(Missing::none_exists("nothing in the log ended it"));
        vec![self.probe.answer(), from.answer(), (to - from).answer(), ended_by.answer(), row.answer()]
    }

    // How many countings there are changes with the readings themselves, so that a shifted probe would put other
    // numbers in the places of these: none of them is offered.
    fn numbers(&self, _sink: &mut Vec<f64>) {}
}

/// The same temperature written in two units differs in the last bits.
const SAME: f64 = 1e-9;

/// Whether a reading is at or above the temperature.
pub fn at_or_above(limit: Temperature) -> impl Fn(Temperature) -> bool {
    move |reading| reading.si() >= limit.si() - SAME
}

/// Whether a reading is at or below the temperature.
pub fn at_or_below(limit: Temperature) -> impl Fn(Temperature) -> bool {
    move |reading| reading.si() <= limit.si() + SAME
}

/// The unbroken stretches of one probe in which every reading holds.
pub fn stretches(
    log: &[LogRow],
    probe: &str,
    longest_gap: Time,
    holds: impl Fn(Temperature) -> bool,
) -> Vec<Stretch> {
    let mut found = Vec::new();
    let mut running: Option<Stretch> = None;
    let readings = named(log, probe).filter_map(|(index, row)| Some((index, row.time, row.temperature?)));
    for (index, time, temperature) in readings {
        let here = Stretch { from: time, to: time, ended_by: EndedBy::End, row: None };
        running = match (running, holds(temperature)) {
            (Some(stretch), true) if time - stretch.to <= longest_gap => {
                Some(Stretch { to: time, ..stretch })
            }
            (Some(stretch), true) => {
                found.push(Stretch { ended_by: EndedBy::Gap, row: Some(index), ..stretch });
                Some(here)
            }
            (Some(stretch), false) => {
                found.push(Stretch { ended_by: EndedBy::Reading, row: Some(index), ..stretch });
                None
            }
            (None, true) => Some(here),
            (None, false) => None,
        };
    }
    found.extend(running);
    found
}

/// The longest of them; none is no time at all.
pub fn longest(stretches: &[Stretch]) -> Time {
    stretches.iter().fold(Time::of(0.0), |longest, stretch| longest.max(stretch.to - stretch.from))
}

/// Since when a log has been cool enough at every probe.
#[derive(Debug, Clone, PartialEq)]
pub struct Cooling {
    /// When the counting began that counts.
    pub since: Known<Time>,
    /// How long all probes have stayed at or below the temperature since the last reading above it.
    pub stayed: Known<Time>,
    /// The first moment at which they had done so for long enough.
    pub enough: Known<Time>,
    /// Every counting after the highest reading.
    pub countings: Vec<Counting>,
}

const NO_LOG: Missing = Missing::empty("log", "Log of the run");
const NEVER: Missing = Missing::not_known("log", "the log ends before every probe is cool");
const TOO_SHORT: Missing =
    Missing::not_known("log", "the log ends before it has stayed cool for the required time");

impl Cooling {
    /// Where it is not known, and why.
    pub fn not_known(missing: Missing) -> Self {
        Self { since: Err(missing), stayed: Err(missing), enough: Err(missing), countings: Vec::new() }
    }

    /// Of a log. All probes must be cool at once; what was cool before the last reading above the temperature counts
    /// no more, since the water has been hot after it.
    pub fn of(
        log: &[LogRow],
        longest_gap: impl Fn(&str) -> Time,
        limit: Temperature,
        needed: Known<Time>,
    ) -> Self {
        let hottest = log.iter().filter_map(|row| Some((row.time, row.temperature?))).fold(None, hotter);
        let Some((peak, _)) = hottest else { return Self::not_known(NO_LOG) };
        let is_cool = at_or_below(limit);
        let mut together: Option<Vec<(Time, Time)>> = None;
        let mut last_above = f64::NEG_INFINITY;
        let mut countings = Vec::new();
        for probe in probes(log) {
            let cool = stretches(log, probe, longest_gap(probe), &is_cool);
            let spans: Vec<(Time, Time)> = cool.iter().map(|stretch| (stretch.from, stretch.to)).collect();
            together = Some(together.map_or(spans.clone(), |others| common(&others, &spans)));
            let above = named(log, probe)
                .filter(|(_, row)| row.temperature.is_some_and(|temperature| !is_cool(temperature)));
            last_above = above.fold(last_above, |last, (_, row)| last.max(row.time.si()));
            let after = cool.into_iter().filter(|stretch| stretch.from >= peak);
            countings.extend(after.map(|stretch| Counting { probe: shown(probe).to_owned(), stretch }));
        }
        let mut spans = together.unwrap_or_default();
        spans.retain(|(from, _)| from.si() > last_above);
        let full = needed.ok().and_then(|needed| {
            spans.iter().find(|(from, to)| (*to - *from).si() >= needed.si() - SAME).copied()
        });
        let counted = full.or(spans.last().copied());
        Self {
            since: counted.map(|(from, _)| from).ok_or(NEVER),
            stayed: Ok(counted.map_or(Time::of(0.0), |(from, to)| to - from)),
            enough: needed.and_then(|needed| full.map(|(from, _)| from + needed).ok_or(TOO_SHORT)),
            countings,
        }
    }
}

fn hotter(highest: Option<(Time, Temperature)>, row: (Time, Temperature)) -> Option<(Time, Temperature)> {
    match highest {
        Some((_, temperature)) if temperature >= row.1 => highest,
        _ => Some(row),
    }
}

/// The times that lie in both lists.
fn common(a: &[(Time, Time)], b: &[(Time, Time)]) -> Vec<(Time, Time)> {
    let mut both: Vec<(Time, Time)> = a
        .iter()
        .flat_map(|(from, to)| b.iter().map(move |(since, until)| (from.max(*since), to.min(*until))))
        .filter(|(from, to)| from <= to)
        .collect();
    both.sort_by(|a, b| a.0.si().total_cmp(&b.0.si()));
    both
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::{celsius, minutes};

    fn log(probe: &str, readings: &[f64]) -> Vec<LogRow> {
        let row = |(minute, temperature): (usize, &f64)| LogRow {
            probe: Some(probe.to_owned()),
            time: minutes(minute as f64),
            temperature: Some(celsius(*temperature)),
        };
        readings.iter().enumerate().map(row).collect()
    }

    #[test]
    fn what_was_cool_before_the_run_is_not_cool_enough() {
        let readings = log("", &[20.0, 20.0, 20.0, 80.0, 60.0, 30.0, 29.0]);
        let cooling = Cooling::of(&readings, |_| minutes(2.0), celsius(35.0), Ok(minutes(2.0)));
        assert_eq!(cooling.since, Ok(minutes(5.0)));
        assert_eq!(cooling.enough, Err(TOO_SHORT));
        assert_eq!(cooling.countings.len(), 1);
    }

    #[test]
    fn every_probe_must_be_cool_at_once() {
        let mut readings = log("outlet", &[80.0, 34.0, 34.0, 34.0, 34.0, 34.0]);
        readings.extend(log("return", &[80.0, 70.0, 60.0, 34.0, 34.0, 34.0]));
        let cooling = Cooling::of(&readings, |_| minutes(2.0), celsius(35.0), Ok(minutes(2.0)));
        assert_eq!((cooling.since, cooling.enough), (Ok(minutes(3.0)), Ok(minutes(5.0))));
    }

    #[test]
    fn the_same_temperature_in_fahrenheit_is_the_same() {
        let of_fahrenheit = crate::engine::quantity::kinds::TEMPERATURE.unit("°F").to_si(95.0);
        assert!(at_or_below(celsius(35.0))(Temperature::of(of_fahrenheit)));
        assert!(at_or_above(celsius(35.0))(Temperature::of(of_fahrenheit)));
        assert!(!at_or_below(celsius(35.0))(celsius(35.1)));
    }
}
