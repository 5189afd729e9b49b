//! Heat dose A0 at the coldest probe, from a log or from set values.
//!
//! Rests on ISO 15883-1, annex B. It does not say which dose an RO needs: that stands in its instructions.

use super::heat_log::{self, LogRow, ProbeDose};
use crate::quantity::{HeatDose, Temperature, Time, celsius, kelvin_difference, kinds::HEAT_DOSE, minutes};
use crate::sheet::{
    Caution, Criterion, Evaluate, Known, Missing, Sentence, Side, Slot, Stage, Stop, Term, Working, source,
};
use crate::terms::heat::{HELD_TIME, LOGGED_TEMPERATURE, NEEDED_DOSE};
use crate::{sheet, step};

static DOSE_ASKED: Criterion = Criterion {
    id: "heat-dose",
    sentence: "Heat dose A0 at the coldest probe, as the instructions ask",
    stage: Stage::Heat,
    side: Side::AtLeast,
    forecast: false,
    source: &source::ISO_15883_1,
    levers: &[],
};

static SCALD: Caution = Caution {
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
    sources: &[&source::ISO_15883_1],
    cautions: &[&SCALD, &INSTRUCTIONS_DECIDE],
    criteria: &[&DOSE_ASKED],
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
    }
    outputs Outputs: {
        dose      "dose":          Known<HeatDose>       = Term::number(&HEAT_DOSE, "Heat dose A0 at the coldest probe", "A_0"),
        coldest   "coldest-probe": Known<String>         = Term::other("Coldest probe"),
        probes    "probes":        Vec<ProbeDose>        = Term::other("Each probe"),
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
        Ok(outputs)
    }
}

impl HeatDoseOfRun {
    fn of_set_values(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let set_temperature = self.set_temperature.ok_or(Missing::not_known("log", "Log of the run"))?;
        let set_time = self.set_time.ok_or(Missing::not_known("set-time", "Time held, without a log"))?;
        let dose = if set_temperature < heat_log::FLOOR {
            w.warn("set-temperature", "below 65 °C nothing is counted");
            HeatDose::of(0.0)
        } else {
            step!(w, rate "r" = 10.0_f64.powf((set_temperature - celsius(80.0)) / kelvin_difference(10.0)));
            step!(w, dose "A_0": HeatDose = rate * set_time.si());
            dose
        };
        Ok(Outputs {
            dose: Ok(dose),
            coldest: Err(Missing::not_known("log", "Log of the run")),
            probes: Vec::new(),
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
                "log",
                Sentence::plain("readings are {interval} apart, usually a minute at most (common practice, no source): what the water did between them is not known, and the dose takes it to change evenly")
                    .quantity("interval", usual),
            );
        }
        let longest = self.longest_gap.unwrap_or((usual * 2.0).min(LONGEST));
        let probes: Vec<ProbeDose> =
            heat_log::probes(log).into_iter().map(|probe| heat_log::dose(log, probe, longest)).collect();
        for probe in &probes {
            if probe.gaps.si() > 0.0 {
                w.warn(
                    "log",
                    Sentence::plain("probe {probe}: {gap} without readings got no credit")
                        .with("probe", Slot::Text(probe.probe.clone()))
                        .quantity("gap", probe.gaps),
                );
            }
            if let Ok(dose) = probe.dose {
                w.procedure(("dose", "A_0"), dose, || {
                    Sentence::plain("probe {probe}: exact integral of 10^((T − 80 °C)/10 K) over {intervals} intervals, from 65 °C on, the temperature changing evenly in each; {gap} without credit")
                        .with("probe", Slot::Text(probe.probe.clone()))
                        .with("intervals", Slot::Count(probe.intervals as i64))
                        .quantity("gap", probe.gaps)
                });
            }
        }
        let coldest = coldest(&probes);
        Ok(Outputs {
            dose: coldest.and_then(|probe| probe.dose),
            coldest: coldest.map(|probe| probe.probe.clone()),
            probes,
        })
    }
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
