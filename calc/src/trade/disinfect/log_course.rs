//! The course of a log, reading by reading: how the dose grows, and which stretches count nothing.

use super::heat_log::{BOILING, LogRow, dose_of, is_leap, named, probes};
use crate::engine::quantity::{
    HeatDose, Temperature, Time,
    kinds::{HEAT_DOSE, NUMBER, TEMPERATURE, TIME},
};
use crate::engine::sheet::{Draws, Figure, Lined, Panel, Parted, Shaded, Shown, Side, Term};
use crate::{choice, output_row};

choice!(/// Why the time between two readings counts nothing.
NoCredit {
    Gap "gap" "no readings",
    Boiling "above-boiling" "hotter than water can be",
    Leap "leap" "faster than water changes",
});

/// The probe, as a number.
const PROBE: Term = Term::number(&NUMBER, "Probe, in the order of “Each probe”", "n").whole();

output_row! {
    /// A reading, with the dose up to it.
    LogPoint {
        probe       "probe":       f64         = PROBE,
        time        "time":        Time        = Term::number(&TIME, "Log time", "t").units("min", "min"),
        temperature "temperature": Temperature = Term::number(&TEMPERATURE, "Temperature", "T"),
        dose        "dose":        HeatDose    = Term::number(&HEAT_DOSE, "Heat dose A0 so far", "A_0"),
    }
}

output_row! {
    /// A stretch between two readings that counts nothing.
    NotCredited {
        probe "probe": f64      = PROBE,
        from  "from":  Time     = Term::number(&TIME, "From", "t_1").units("min", "min"),
        to    "to":    Time     = Term::number(&TIME, "To", "t_2").units("min", "min"),
        why   "why":   NoCredit = Term::other("Why"),
    }
}

/// The log with its dose growing.
pub static COURSE: Figure = Figure {
    id: "heat-course",
    name: "Temperature and heat dose over time",
    about: "The dose grows only from 65 °C on, ten times as fast for each 10 °C more. Shaded time is not credited.",
    opens_at: None,
    months: None,
    draws: Draws::Lines(Lined {
        table: "log-course",
        along: "time",
        parted: Some(Parted {
            column: "probe",
            names: ("probes", "probe"),
            opens_at: "coldest-probe",
            label: "Probe",
        }),
        panels: &[
            Panel {
                name: "Temperature of the probe",
                quantity: "Temperature",
                lines: &[("Temperature", "temperature")],
                limit: Some((Shown::Entered("hold-temperature"), Side::AtLeast, "hold")),
                breaks: true,
            },
            Panel {
                name: "Heat dose A0 so far",
                quantity: "Heat dose A0",
                lines: &[("Heat dose A0", "dose")],
                limit: Some((Shown::Entered("needed-dose"), Side::AtLeast, "required")),
                breaks: false,
            },
        ],
        shaded: Some(Shaded { table: "not-credited", columns: ["from", "to", "why"], name: "not credited" }),
        here: None,
    }),
};

/// The readings of every probe with the dose up to each, and the stretches without credit.
pub fn course(log: &[LogRow], longest: impl Fn(&str) -> Time) -> (Vec<LogPoint>, Vec<NotCredited>) {
    let (mut points, mut without) = (Vec::with_capacity(log.len()), Vec::new());
    for (index, name) in probes(log).into_iter().enumerate() {
        let (probe, longest) = (index as f64 + 1.0, longest(name));
        let mut sum = 0.0;
        let mut last: Option<(Time, Temperature)> = None;
        for (time, temperature) in named(log, name).filter_map(|(_, row)| Some((row.time, row.temperature?)))
        {
            if let Some((from, before)) = last {
                match no_credit(time - from, before, temperature, longest) {
                    None => sum += dose_of(before, temperature, time - from).si(),
                    Some(why) => without.push(NotCredited { probe, from, to: time, why }),
                }
            }
            points.push(LogPoint { probe, time, temperature, dose: HeatDose::of(sum) });
            last = Some((time, temperature));
        }
    }
    (points, without)
}

/// Why an interval between two readings counts nothing; none where it counts.
pub fn no_credit(interval: Time, from: Temperature, to: Temperature, longest: Time) -> Option<NoCredit> {
    if interval > longest {
        Some(NoCredit::Gap)
    } else if from.max(to) > BOILING {
        Some(NoCredit::Boiling)
    } else if is_leap(interval, from, to) {
        Some(NoCredit::Leap)
    } else {
        None
    }
}
