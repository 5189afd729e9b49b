//! Heat disinfection dose A0 at the coldest point, the time held, and since when it is cool again; from a log or from a
//! temperature that somebody watched.
//!
//! Rests on ISO 15883-1, annex B, for the dose. It does not say which dose, which hold or which cool-down an RO needs:
//! that stands in its instructions. What nobody measured counts nothing, whatever is entered.

use super::heat_log::{self, LogRow, ProbeDose};
use super::log_course::{COURSE, LogPoint, NotCredited, course};
use super::log_rows;
use super::probe_error::{Said, say};
use super::stretches::{Cooling, Counting, at_or_above, longest, stretches};
use crate::engine::quantity::{
    HeatDose, Temperature, TemperatureDifference, Time, celsius, kelvin_difference, kinds::HEAT_DOSE,
    kinds::TIME, minutes,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Slot, Stage, Stop, Term,
    Working, source,
};
use crate::trade::terms::heat::{
    COOL_TEMPERATURE, HELD_TIME, HOLD_TEMPERATURE, LOGGED_TEMPERATURE, LOGGED_TIME, NEEDED_DOSE, NEEDED_TIME,
    PROBE_TOLERANCE,
};
use crate::{choice, sheet, step};

choice!(/// Where a temperature that stands for a whole run comes from.
ReadFrom {
    Watched "watched-at-coldest-point" "Display of the probe at the coldest point, watched the whole time",
    SetPoint "set-point" "Set point of the heater",
});

pub(super) static DOSE_ASKED: Criterion = Criterion {
    id: "heat-dose",
    sentence: "Heat dose A0 that the readings show, at the coldest point",
    stage: Stage::Heat,
    side: Side::AtLeast,
    forecast: false,
    source: &source::ISO_15883_1,
    levers: &[],
    cases: &[],
    judges: Judges::Output("dose"),
};

pub(super) static HELD: Criterion = Criterion {
    id: "hold-time",
    sentence: "Unbroken time at or above the hold temperature, at the probe that held it for the shortest time",
    stage: Stage::Heat,
    side: Side::AtLeast,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::Output("hold-time"),
};

pub(super) static COOL: Criterion = Criterion {
    id: "cool-time",
    sentence: "Unbroken time at or below the cool-down temperature, at every probe",
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
    text: "Water scalds from 50 °C. No patient is connected. Disconnect and label the dialysis machine while the RO is hot. Hoses and drain must withstand the heat.",
};

static INSTRUCTIONS_DECIDE: Caution = Caution {
    id: "instructions-decide",
    text: "The RO's own instructions (temperature, time, sequence) and the medical director decide whether a run was a disinfection, not a dose alone. A log counts only if one of its probes is at the coldest point, the one farthest from the heater. Heat does not remove endotoxin that is already there.",
};

sheet! {
    /// The moist-heat dose A0 of a run, in equivalent seconds at 80 °C, at the coldest point.
    HeatDoseOfRun, "heat-dose", "Heat disinfection dose (A0)", Stage::Heat,
    also: &["A0", "thermal disinfection", "hot water"],
    sources: &[&source::ISO_15883_1, &source::DEVICE_INSTRUCTIONS, &source::COMMON_PRACTICE],
    cautions: &[&SCALD, &INSTRUCTIONS_DECIDE],
    criteria: &[&DOSE_ASKED, &HELD, &COOL],
    figures: &[&COURSE],
    inputs: {
        log             "log":             Option<Vec<LogRow>> = Term::other("Log of the run")
            .help("One row per reading. With several probes, name the probe in each row; the coldest one counts.")
            .assumed("temperature and time held, without a log"),
        set_temperature "set-temperature": Option<Temperature> = LOGGED_TEMPERATURE.named("Temperature held, without a log").symbol("T").help("What the probe at the coldest point showed for the whole time."),
        set_time        "set-time":        Option<Time>        = HELD_TIME,
        longest_gap     "longest-gap":     Option<Time>        = HELD_TIME.named("Longest gap between readings that still counts").symbol("t_gap").units("s", "s")
            .help("A longer gap gets no credit, since nobody knows what happened in it. More than two minutes never counts.")
            .assumed("twice the usual interval of the probe's readings, two minutes at most"),
        needed          "needed-dose":     Known<HeatDose>     = NEEDED_DOSE,
        hold_temperature "hold-temperature": Known<Temperature> = HOLD_TEMPERATURE,
        needed_hold      "needed-hold-time": Known<Time>        = NEEDED_TIME.named("Required hold time").symbol("t_hold,needed"),
        cool_temperature "cool-temperature": Known<Temperature> = COOL_TEMPERATURE,
        needed_cool      "needed-cool-time": Known<Time>        = NEEDED_TIME.named("Required cool time").symbol("t_cool,needed"),
        tolerance        "probe-tolerance":  Option<TemperatureDifference> = PROBE_TOLERANCE,
        read_from        "temperature-read-from": Known<ReadFrom> = Term::other("Where the temperature held was read")
            .help("Without a log only: a set point does not show how hot the coldest point was."),
    }
    outputs Outputs: {
        dose      "dose":          Known<HeatDose>       = Term::number(&HEAT_DOSE, "Heat dose A0 at the coldest point", "A_0"),
        coldest   "coldest-probe": Known<String>         = Term::other("Probe at the coldest point"),
        probes    "probes":        Vec<ProbeDose>        = Term::other("Each probe"),
        held      "hold-time":     Known<Time>           = Term::number(&TIME, "Hold time, from reading to reading", "t_hold"),
        cool_since "cool-since":   Known<Time>           = LOGGED_TIME.named("Cool since, in log time").symbol("t_cool").units("min", "min"),
        cool_stayed "cool-time":   Known<Time>           = Term::number(&TIME, "Cool time", "Δt_cool"),
        cool_enough "cool-enough": Known<Time>           = LOGGED_TIME.named("Cool-down complete at, in log time").symbol("t_enough").units("min", "min"),
        countings "countings":     Vec<Counting>         = Term::other("Cool-down periods, after the highest reading"),
        if_high   "dose-if-high":  Known<HeatDose>       = Term::number(&HEAT_DOSE, "Heat dose if the probes read high by their accuracy", "A_0,low"),
        held_if_high "hold-time-if-high": Known<Time>    = Term::number(&TIME, "Hold time if the probes read high by their accuracy", "t_hold,low"),
        cool_if_low "cool-time-if-low":   Known<Time>    = Term::number(&TIME, "Cool time if the probes read low by their accuracy", "Δt_cool,low"),
        course    "log-course":    Known<Vec<LogPoint>>    = Term::other("Reading by reading"),
        without   "not-credited":  Known<Vec<NotCredited>> = Term::other("Not credited"),
    }
}

/// The interval between two readings that still follows a ramp (common practice, no source).
const DENSE: Time = minutes(1.0);
/// What happened in a longer interval is not known, whoever says otherwise (common practice, no source).
const LONGEST: Time = minutes(2.0);
/// The wide end of usual thermometers (common practice, no source).
const USUAL_TOLERANCE: TemperatureDifference = kelvin_difference(1.0);

impl Evaluate for HeatDoseOfRun {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        match &self.log {
            Some(log) => self.of_log(log, w),
            None => self.of_set_values(w),
        }
    }
}

impl HeatDoseOfRun {
    fn tolerance(&self) -> TemperatureDifference {
        self.tolerance.unwrap_or(USUAL_TOLERANCE)
    }

    fn of_set_values(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let set_temperature = self.set_temperature.ok_or(Missing::empty("log", "Log of the run"))?;
        let set_time = self.set_time.ok_or(Missing::empty("set-time", "Time held, without a log"))?;
        if set_temperature > heat_log::BOILING {
            let too_hot = "water without pressure is no hotter than 100 °C: check the number and its unit";
            return Err(Problem::new("set-temperature", too_hot).into());
        }
        let dose = if set_temperature < heat_log::FLOOR {
            w.warn("set-temperature", "nothing-counts-below-65", "below 65 °C nothing is counted");
            HeatDose::of(0.0)
        } else {
            step!(w, rate "r" = 10.0_f64.powf((set_temperature - celsius(80.0)) / kelvin_difference(10.0)));
            step!(w, dose "A_0": HeatDose = rate * set_time.si());
            dose
        };
        let lowered = set_temperature - self.tolerance();
        let if_high = HeatDose::of(heat_log::held_at(lowered) * set_time.si());
        let held_at = |reading: Temperature| {
            let time = |hold| if at_or_above(hold)(reading) { set_time } else { Time::of(0.0) };
            self.hold_temperature.map(time)
        };
        let no_log = NO_LOG;
        let outputs = Outputs {
            dose: Ok(dose),
            coldest: Err(no_log),
            held: held_at(set_temperature),
            if_high: Ok(if_high),
            held_if_high: held_at(lowered),
            cool_if_low: Err(no_log),
            ..outputs(Vec::new(), Cooling::not_known(no_log))
        };
        w.judge_known(&DOSE_ASKED, self.shown(outputs.dose, self.needed), self.needed);
        w.judge_known(&HELD, self.shown(outputs.held, self.needed_hold), self.needed_hold);
        w.judge_known(&COOL, outputs.cool_stayed, self.needed_cool);
        if self.read_from == Ok(ReadFrom::Watched) {
            self.say_what_rests_on_the_probe(&outputs, w);
        }
        Ok(outputs)
    }

    /// Too little is too little, wherever the temperature was read; enough is shown only by a reading.
    fn shown<Q: Copy + PartialOrd>(&self, value: Known<Q>, needed: Known<Q>) -> Known<Q> {
        const SET_POINT: Missing = Missing::not_known(
            "temperature-read-from",
            "a set point does not show how hot the coldest point was: enter the log of a probe there",
        );
        if value.is_ok_and(|value| needed.is_ok_and(|needed| value < needed)) {
            return value;
        }
        match self.read_from? {
            ReadFrom::Watched => value,
            ReadFrom::SetPoint => Err(SET_POINT),
        }
    }

    fn of_log(&self, log: &[LogRow], w: &mut Working) -> Result<Outputs, Stop> {
        let misplaced = heat_log::misplaced(log);
        if !misplaced.is_empty() {
            return Err(Stop::Problems(misplaced));
        }
        let names = heat_log::probes(log);
        let usual = |probe: &&str| heat_log::usual_interval(log, probe);
        if names.iter().all(|probe| usual(probe).is_none()) {
            return Err(Missing::not_known("log", "a log of at least two readings").into());
        }
        // a longer interval gets no credit, and its rows are named
        let credited =
            names.iter().filter_map(|probe| usual(probe).filter(|usual| *usual <= self.gap_of(log, probe)));
        if let Some(usual) = credited.reduce(Time::max).filter(|usual| *usual > DENSE) {
            w.warn(
                "log",
                "readings-far-apart",
                Sentence::plain("readings are usually {interval} apart, which is more than a minute (common practice, no source): the dose assumes that the temperature changed evenly between two readings")
                    .quantity("interval", usual),
            );
        }
        if self.longest_gap.is_some_and(|gap| gap > LONGEST) {
            w.warn(
                "longest-gap",
                "gap-above-cap",
                Sentence::plain("more than {cap} without a reading never counts, whatever is entered here (the limit of this program; common practice, no source)")
                    .quantity("cap", LONGEST),
            );
        }
        log_rows::warn_of_fahrenheit(log, w);
        let mut probes = Vec::with_capacity(names.len());
        for name in names {
            probes.push(self.probe(log, name, w));
        }
        let cooling = |lowered: TemperatureDifference| match self.cool_temperature {
            Ok(limit) => Cooling::of(log, |probe| self.gap_of(log, probe), limit - lowered, self.needed_cool),
            Err(missing) => Cooling::not_known(missing),
        };
        let cooled = cooling(kelvin_difference(0.0));
        if let Ok(enough) = cooled.enough {
            w.procedure(("cool_enough", "t_enough"), enough, || {
                Sentence::plain("the first moment at which every probe has stayed at or below the temperature for long enough, each period from reading to reading; {count} cool-down periods after the highest reading")
                    .with("count", Slot::Count(cooled.countings.len() as i64))
            });
        }
        let mut outputs = outputs(probes, cooled);
        let (course, without) = course(log, |probe| self.gap_of(log, probe));
        (outputs.course, outputs.without) = (Ok(course), Ok(without));
        outputs.cool_if_low = cooling(self.tolerance()).stayed;
        w.judge_known(&DOSE_ASKED, outputs.dose, self.needed);
        w.judge_known(&HELD, outputs.held, self.needed_hold);
        w.judge_known(&COOL, outputs.cool_stayed, self.needed_cool);
        self.say_what_rests_on_the_probe(&outputs, w);
        Ok(outputs)
    }

    /// The longest stretch without a reading of one probe that still counts.
    fn gap_of(&self, log: &[LogRow], probe: &str) -> Time {
        let twice = || heat_log::usual_interval(log, probe).map_or(LONGEST, |usual| usual * 2.0);
        self.longest_gap.unwrap_or_else(twice).min(LONGEST)
    }

    fn probe(&self, log: &[LogRow], name: &str, w: &mut Working) -> ProbeDose {
        let gap = self.gap_of(log, name);
        let none = kelvin_difference(0.0);
        let mut probe = heat_log::dose(log, name, gap, none);
        let lowered = self.tolerance();
        probe.if_high = heat_log::dose(log, name, gap, lowered).dose;
        let held = |hold| {
            let is_hot = at_or_above(hold);
            longest(&stretches(log, name, gap, |reading| is_hot(reading) && reading <= heat_log::BOILING))
        };
        let hold = probe.dose.and(self.hold_temperature);
        probe.held = hold.map(held);
        probe.held_if_high = hold.map(|hold| held(hold + lowered));
        probe.above = hold.map(|hold| heat_log::time_above(log, name, hold, gap));
        log_rows::warn(log, name, &probe, gap, w);
        if let Ok(dose) = probe.dose {
            w.procedure(("dose", "A_0"), dose, || {
                Sentence::plain("probe {probe}: exact integral of 10^((T − 80 °C)/10 °C) over {intervals} intervals, from 65 °C on, the temperature changing evenly in each; {gap} without credit")
                    .with("probe", Slot::Text(probe.probe.clone()))
                    .with("intervals", Slot::Count(probe.intervals as i64))
                    .quantity("gap", probe.gaps)
            });
        }
        probe
    }

    fn say_what_rests_on_the_probe(&self, outputs: &Outputs, w: &mut Working) {
        const DOSE: Said = (
            "dose-rests-on-probe",
            "if the probes read high by {tolerance}, the dose is {then}, less than the required {needed}: check the probes against a calibrated thermometer, or run longer",
        );
        const HOLD: Said = (
            "hold-rests-on-probe",
            "if the probes read high by {tolerance}, the hold is {then}, shorter than the required {needed}: check the probes against a calibrated thermometer, or run hotter",
        );
        const COOLED: Said = (
            "cool-rests-on-probe",
            "if the probes read low by {tolerance}, it has been cool for {then}, shorter than the required {needed}: check the probes against a calibrated thermometer, or wait longer",
        );
        let tolerance = self.tolerance();
        say(DOSE, tolerance, (outputs.dose, outputs.if_high, self.needed), w);
        say(HOLD, tolerance, (outputs.held, outputs.held_if_high, self.needed_hold), w);
        say(COOLED, tolerance, (outputs.cool_stayed, outputs.cool_if_low, self.needed_cool), w);
    }
}

const NO_LOG: Missing = Missing::empty("log", "Log of the run");

fn outputs(probes: Vec<ProbeDose>, cooling: Cooling) -> Outputs {
    let coldest = least(&probes, |probe| probe.dose);
    Outputs {
        dose: coldest.and_then(|probe| probe.dose),
        coldest: coldest.map(|probe| probe.probe.clone()),
        held: least(&probes, |probe| probe.held).and_then(|probe| probe.held),
        if_high: least(&probes, |probe| probe.if_high).and_then(|probe| probe.if_high),
        held_if_high: least(&probes, |probe| probe.held_if_high).and_then(|probe| probe.held_if_high),
        cool_if_low: cooling.stayed,
        probes,
        cool_since: cooling.since,
        cool_stayed: cooling.stayed,
        cool_enough: cooling.enough,
        countings: cooling.countings,
        course: Err(NO_LOG),
        without: Err(NO_LOG),
    }
}

/// The probe with the least of something: every place must have it. Not known where it is not known of one probe, since
/// that one might have the least.
fn least<Q: PartialOrd>(probes: &[ProbeDose], of: impl Fn(&ProbeDose) -> Known<Q>) -> Known<&ProbeDose> {
    let mut least: Known<(&ProbeDose, Q)> = Err(Missing::empty("log", "Log of the run"));
    for probe in probes {
        let here = of(probe)?;
        if least.as_ref().map_or(true, |(_, least)| here < *least) {
            least = Ok((probe, here));
        }
    }
    least.map(|(probe, _)| probe)
}
