//! Heat dose A0 at the coldest probe, the time held, and since when it is cool again; from a log or from set values.
//!
//! Rests on ISO 15883-1, annex B, for the dose. It does not say which dose, which hold or which end an RO needs: that
//! stands in its instructions.

use super::heat_log::{self, LogRow, ProbeDose};
use super::log_rows;
use super::stretches::{Cooling, Counting, at_or_above, longest, stretches};
use crate::engine::quantity::{
    HeatDose, Temperature, Time, celsius, kelvin_difference, kinds::HEAT_DOSE, kinds::TIME, minutes,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Sentence, Side, Slot, Stage, Stop, Term, Working,
    source,
};
use crate::trade::terms::heat::{
    COOL_TEMPERATURE, HELD_TIME, HOLD_TEMPERATURE, LOGGED_TEMPERATURE, LOGGED_TIME, NEEDED_DOSE, NEEDED_TIME,
};
use crate::{sheet, step};

static DOSE_ASKED: Criterion = Criterion {
    id: "heat-dose",
    sentence: "Heat dose A0 at the coldest probe, as the instructions ask",
    stage: Stage::Heat,
    side: Side::AtLeast,
    forecast: false,
    source: &source::ISO_15883_1,
    levers: &[],
    cases: &[],
    judges: Judges::Output("dose"),
};

static HELD: Criterion = Criterion {
    id: "hold-time",
    sentence: "Unbroken time at or above the temperature to hold, at the probe that held it shortest",
    stage: Stage::Heat,
    side: Side::AtLeast,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::Output("hold-time"),
};

static COOL: Criterion = Criterion {
    id: "cool-time",
    sentence: "Time for which every probe has stayed at or below the temperature asked before use",
    stage: Stage::Heat,
    side: Side::AtLeast,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::Output("cool-time"),
};

pub(super) static SCALD: Caution = Caution {
    id: "scald",
    text: "Water from 50 °C on scalds. No patient is connected, the dialysis machine is taken off and labelled while the RO is hot, and hoses and drain must stand the heat.",
};

static INSTRUCTIONS_DECIDE: Caution = Caution {
    id: "instructions-decide",
    text: "Whether a run was a disinfection is decided by the RO's own instructions (temperature, time, sequence) and the medical director, not by a dose alone. Heat does not remove endotoxin that is already there.",
};

sheet! {
    /// The moist-heat dose A0 of a run, in equivalent seconds at 80 °C, at the probe that stayed coldest.
    HeatDoseOfRun, "heat-dose", "Heat dose of a run", Stage::Heat,
    sources: &[&source::ISO_15883_1, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&SCALD, &INSTRUCTIONS_DECIDE],
    criteria: &[&DOSE_ASKED, &HELD, &COOL],
    inputs: {
        log             "log":             Option<Vec<LogRow>> = Term::other("Log of the run")
            .help("One row a reading. With several probes, name the probe in each row; the coldest one counts.")
            .assumed("set temperature and time"),
        set_temperature "set-temperature": Option<Temperature> = LOGGED_TEMPERATURE.named("Temperature held, without a log").symbol("T"),
        set_time        "set-time":        Option<Time>        = HELD_TIME,
        longest_gap     "longest-gap":     Option<Time>        = HELD_TIME.named("Longest interval that still counts").symbol("t_gap").units("s", "s")
            .help("A longer one gets no credit: what happened in it is not known.")
            .assumed("twice the usual interval of the log, two minutes at most"),
        needed          "needed-dose":     Known<HeatDose>     = NEEDED_DOSE,
        hold_temperature "hold-temperature": Known<Temperature> = HOLD_TEMPERATURE,
        needed_hold      "needed-hold-time": Known<Time>        = NEEDED_TIME.named("Time to hold it").symbol("t_hold,needed"),
        cool_temperature "cool-temperature": Known<Temperature> = COOL_TEMPERATURE,
        needed_cool      "needed-cool-time": Known<Time>        = NEEDED_TIME.named("Time to stay at or below it").symbol("t_cool,needed"),
    }
    outputs Outputs: {
        dose      "dose":          Known<HeatDose>       = Term::number(&HEAT_DOSE, "Heat dose A0 at the coldest probe", "A_0"),
        coldest   "coldest-probe": Known<String>         = Term::other("Coldest probe"),
        probes    "probes":        Vec<ProbeDose>        = Term::other("Each probe"),
        held      "hold-time":     Known<Time>           = Term::number(&TIME, "Time held, from reading to reading", "t_hold"),
        cool_since "cool-since":   Known<Time>           = LOGGED_TIME.named("Cool since, in log time").symbol("t_cool").units("min", "min"),
        cool_stayed "cool-time":   Known<Time>           = Term::number(&TIME, "Cool for", "Δt_cool"),
        cool_enough "cool-enough": Known<Time>           = LOGGED_TIME.named("Cool enough from, in log time").symbol("t_enough").units("min", "min"),
        countings "countings":     Vec<Counting>         = Term::other("Each counting of the cool time, after the highest reading"),
    }
}

/// The interval between two readings that still follows a ramp (common practice, no source).
const DENSE: Time = minutes(1.0);
/// What happened in a longer interval is not known, unless the log's owner says that it is (common practice, no source).
const LONGEST: Time = minutes(2.0);

impl Evaluate for HeatDoseOfRun {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let outputs = match &self.log {
            Some(log) => self.of_log(log, w)?,
            None => self.of_set_values(w)?,
        };
        w.judge_known(&DOSE_ASKED, outputs.dose, self.needed);
        w.judge_known(&HELD, outputs.held, self.needed_hold);
        w.judge_known(&COOL, outputs.cool_stayed, self.needed_cool);
        Ok(outputs)
    }
}

impl HeatDoseOfRun {
    fn of_set_values(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let set_temperature = self.set_temperature.ok_or(Missing::not_known("log", "Log of the run"))?;
        let set_time = self.set_time.ok_or(Missing::not_known("set-time", "Time held, without a log"))?;
        let dose = if set_temperature < heat_log::FLOOR {
            w.warn("set-temperature", "nothing-counts-below-65", "below 65 °C nothing is counted");
            HeatDose::of(0.0)
        } else {
            step!(w, rate "r" = 10.0_f64.powf((set_temperature - celsius(80.0)) / kelvin_difference(10.0)));
            step!(w, dose "A_0": HeatDose = rate * set_time.si());
            dose
        };
        let held = self.hold_temperature.map(|hold| {
            let is_held = at_or_above(hold)(set_temperature);
            if is_held { set_time } else { Time::of(0.0) }
        });
        let no_log = Missing::not_known("log", "Log of the run");
        Ok(Outputs {
            dose: Ok(dose),
            coldest: Err(no_log),
            held,
            ..outputs(Vec::new(), Cooling::not_known(no_log))
        })
    }

    fn of_log(&self, log: &[LogRow], w: &mut Working) -> Result<Outputs, Stop> {
        let misplaced = heat_log::misplaced(log);
        if !misplaced.is_empty() {
            return Err(Stop::Problems(misplaced));
        }
        let few = Missing::not_known("log", "a log of at least two readings");
        let usual = heat_log::usual_interval(log).ok_or(few)?;
        if usual > DENSE {
            w.warn(
                "log", "readings-far-apart",
                Sentence::plain("readings are {interval} apart, usually a minute at most (common practice, no source): what the water did between them is not known, and the dose takes it to change evenly")
                    .quantity("interval", usual),
            );
        }
        let longest_gap = self.longest_gap.unwrap_or((usual * 2.0).min(LONGEST));
        let mut probes: Vec<ProbeDose> =
            heat_log::probes(log).into_iter().map(|probe| heat_log::dose(log, probe, longest_gap)).collect();
        for probe in &mut probes {
            let hold = probe.dose.and(self.hold_temperature);
            probe.held =
                hold.map(|hold| longest(&stretches(log, &probe.probe, longest_gap, at_or_above(hold))));
            probe.above = hold.map(|hold| heat_log::time_above(log, &probe.probe, hold, longest_gap));
            log_rows::warn(log, probe, longest_gap, w);
            if let Ok(dose) = probe.dose {
                w.procedure(("dose", "A_0"), dose, || {
                    Sentence::plain("probe {probe}: exact integral of 10^((T − 80 °C)/10 K) over {intervals} intervals, from 65 °C on, the temperature changing evenly in each; {gap} without credit")
                        .with("probe", Slot::Text(probe.probe.clone()))
                        .with("intervals", Slot::Count(probe.intervals as i64))
                        .quantity("gap", probe.gaps)
                });
            }
        }
        let cooling = match self.cool_temperature {
            Ok(limit) => Cooling::of(log, longest_gap, limit, self.needed_cool),
            Err(missing) => Cooling::not_known(missing),
        };
        if let Ok(enough) = cooling.enough {
            w.procedure(("cool_enough", "t_enough"), enough, || {
                Sentence::plain("the first moment at which every probe has stayed at or below the temperature for long enough, each counting from reading to reading; {count} countings after the highest reading")
                    .with("count", Slot::Count(cooling.countings.len() as i64))
            });
        }
        Ok(outputs(probes, cooling))
    }
}

fn outputs(probes: Vec<ProbeDose>, cooling: Cooling) -> Outputs {
    let coldest = coldest(&probes);
    Outputs {
        dose: coldest.and_then(|probe| probe.dose),
        coldest: coldest.map(|probe| probe.probe.clone()),
        held: shortest_hold(&probes),
        probes,
        cool_since: cooling.since,
        cool_stayed: cooling.stayed,
        cool_enough: cooling.enough,
        countings: cooling.countings,
    }
}

/// Of the longest unbroken holds of the probes the shortest: every place must have held it.
fn shortest_hold(probes: &[ProbeDose]) -> Known<Time> {
    let mut shortest: Known<Time> = Err(Missing::not_known("log", "Log of the run"));
    for probe in probes {
        let held = probe.held?;
        shortest = Ok(shortest.map_or(held, |shortest| shortest.min(held)));
    }
    shortest
}

/// The probe with the least dose; not known where one probe's dose is not, since that one might be the least.
fn coldest(probes: &[ProbeDose]) -> Known<&ProbeDose> {
    let mut coldest: Known<&ProbeDose> = Err(Missing::not_known("log", "Log of the run"));
    for probe in probes {
        let dose = probe.dose?;
        if coldest.is_err() || coldest.is_ok_and(|other| other.dose.is_ok_and(|least| dose < least)) {
            coldest = Ok(probe);
        }
    }
    coldest
}
