//! The least rinse by model, by flow or by filling and draining; the model fitted to readings; and what the residual tests
//! say.
//!
//! Rests on the mixed tank, tanks in series and plug flow (O. Levenspiel). Dead ends and the membrane give back what they
//! hold, so that every model is a minimum: the agent's own residual test decides, after the rinse and again after the water
//! has stood for as long as the instructions ask.

use super::agent::{Agent, TestKind};
use super::cycles;
use super::residual::ResidualTests;
use crate::engine::quantity::{
    Concentration, Flow, Time, Volume,
    kinds::{NUMBER, TIME, VOLUME},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Reported, Sentence, Side, Slot, Stage,
    Stop, Term, Working, source,
};
use crate::trade::product::poisson;
use crate::trade::run::Answered;
use crate::trade::terms::chemical;
use crate::{input_row, sheet, step};

input_row! {
    /// One reading of the rinse.
    RinseReading {
        time  "time":     Time                    = Term::number(&TIME, "Time since the rinse began", "t").help("From a watch.").plausible(0.0, 120.0, "min").possible(0.0, 1e5, "min"),
        found "residual": Reported<Concentration> = chemical::RESIDUAL,
    }
}

/// After the rinse.
pub static RESIDUAL_AFTER_RINSE: Criterion = Criterion {
    id: "residual-after-rinse",
    sentence: "Residual after the rinse below the limit, by the disinfectant's own test",
    stage: Stage::Chemical,
    side: Side::Below,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

/// After the water has stood.
pub static RESIDUAL_AFTER_PAUSE: Criterion = Criterion {
    id: "residual-after-pause",
    sentence: "Residual below the limit in the retest after the standing time, by the disinfectant's own test",
    ..RESIDUAL_AFTER_RINSE
};

/// Citric acid has no residual in mg/L.
pub static ACID_RINSED_OUT: Criterion = Criterion {
    id: "acid-rinsed-out",
    sentence: "pH and conductivity back at their values before the acid, read again after the standing time",
    side: Side::Answered,
    ..RESIDUAL_AFTER_RINSE
};

static RESIDUAL_TEST_DECIDES: Caution = Caution {
    id: "residual-test-decides",
    text: "The residual test decides when the rinse is over, never the clock: test now and again after the standing time; two people read it and write it down. A chlorine strip does not show peracetic acid. Keep the dialysis machine disconnected until then.",
};

sheet! {
    /// Minimum rinse time, by three models and by readings, and what the residual tests say now and after the standing time.
    RinseOut, "rinse-out", "Rinse-out of a disinfectant", Stage::Chemical,
    also: &["residual", "bleach", "peracetic acid"],
    sources: &[&source::LEVENSPIEL, &source::MASS_BALANCE, &source::DEVICE_INSTRUCTIONS, &source::TAC_117_32, &source::RESIDUAL_LIMITS],
    cautions: &[&RESIDUAL_TEST_DECIDES],
    criteria: &[&RESIDUAL_AFTER_RINSE, &RESIDUAL_AFTER_PAUSE, &ACID_RINSED_OUT],
    inputs: {
        held     "held-volume":        Volume                         = chemical::HELD_VOLUME,
        flow     "rinse-flow":         Flow                           = chemical::RINSE_FLOW,
        start    "wanted-concentration": Concentration                = chemical::WANTED,
        limit    "residual-limit":     Known<Concentration>           = chemical::RESIDUAL_LIMIT,
        tanks    "tanks":              Option<f64>                    = chemical::TANKS,
        readings "rinse-readings":     Option<Vec<RinseReading>>      = Term::other("Readings during the rinse").help("At least two, with their times. One row per reading.").assumed("no fit"),
        kind     "residual-test":      Known<TestKind>                = Term::other("Residual test used").help("Each disinfectant needs its own."),
        now      "residual-now":       Known<Reported<Concentration>> = chemical::RESIDUAL.named("Residual after the rinse").symbol("C_now"),
        later    "residual-later":     Known<Reported<Concentration>> = chemical::RESIDUAL.named("Residual in the retest, after the standing time").symbol("C_later"),
        pause    "pause":              Known<Time>                    = chemical::PAUSE,
        agent    "agent":              Known<Agent>                   = chemical::AGENT.help("Each has its own residual test and its own limit."),
        needed_pause "needed-pause":   Known<Time>                    = chemical::NEEDED_PAUSE,
        left     "volume-left":        Known<Volume>                  = chemical::VOLUME_LEFT,
        filled   "fill-volume":        Known<Volume>                  = chemical::FILL_VOLUME,
        baseline "back-at-baseline":   Known<Answered>                = Term::other("pH and conductivity back at their values before the acid").help("For citric acid, which has no residual test in mg/L. Read again after the standing time."),
    }
    outputs Outputs: {
        turnover  "turnover-time":     Time          = Term::number(&TIME, "Time for one held volume, plug flow", "τ"),
        mixed     "volumes-mixed":     Known<f64>    = Term::number(&NUMBER, "Rinse volumes, one mixed tank", "θ_1"),
        series    "volumes-series":    Known<f64>    = Term::number(&NUMBER, "Rinse volumes, tanks in series", "θ_N"),
        time      "rinse-time":        Known<Time>   = Term::number(&TIME, "Minimum rinse time, one mixed tank", "t_1"),
        in_series "rinse-time-series": Known<Time>   = Term::number(&TIME, "Minimum rinse time, tanks in series", "t_N"),
        effective "effective-volume":  Known<Volume> = Term::number(&VOLUME, "Effective volume, by the readings", "V_eff"),
        fitted    "rinse-time-fitted": Known<Time>   = Term::number(&TIME, "Rinse time to the limit, by the readings", "t_fit"),
        cycles    "fill-cycles":       Known<f64>    = Term::number(&NUMBER, "Fill-and-drain cycles, minimum", "n"),
    }
}

impl Evaluate for RinseOut {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &RinseOut { held, flow, start, .. } = self;
        let tests = self.tests();
        tests.refuse_softer_limit()?;
        step!(w, turnover "τ" = held / flow);
        let limit = self.limit.and_then(|limit| {
            (limit < start)
                .then_some(limit)
                .ok_or(Missing::none_exists("the solution itself is below the residual limit"))
        });
        let mixed = limit.map(|limit| {
            step!(w, mixed "θ_1" = (start / limit).ln());
            mixed
        });
        let time = mixed.map(|mixed| {
            step!(w, time "t_1" = mixed * turnover);
            time
        });
        let tanks = self.tanks.unwrap_or(1.0);
        let series = limit.map(|limit| {
            let series = poisson::upper(tanks as u32 - 1, limit / start) / tanks;
            w.procedure(("series", "θ_N"), series, || {
                Sentence::plain("the θ at which e^(−Nθ) Σ (Nθ)^k / k!, k from 0 to {last}, is the share that may be left, by bisection")
                    .with("last", Slot::Count(tanks as i64 - 1))
            });
            series
        });
        let in_series = series.map(|series| {
            step!(w, in_series "t_N" = series * turnover);
            in_series
        });
        let fit = self.fit(w)?;
        let effective = fit.map(|(rate, _)| {
            w.bind("rate", "k", rate);
            step!(w, effective "V_eff": Volume = flow.si() / rate);
            effective
        });
        let fitted = fit.and_then(|(rate, at_start)| Ok(Time::of((at_start - limit?.si().ln()) / rate)));
        let cycles = match (self.left, self.filled, limit) {
            (Ok(left), Ok(filled), Ok(limit)) => cycles::needed((left, filled), (start, limit), w),
            (left, filled, limit) => Err(left.err().or(filled.err()).or(limit.err()).unwrap_or(NO_CYCLES)),
        };
        tests.judge(w);
        Ok(Outputs { turnover, mixed, series, time, in_series, effective, fitted, cycles })
    }
}

const NO_CYCLES: Missing = Missing::empty("fill-volume", "Volume filled in each cycle");

impl RinseOut {
    fn tests(&self) -> ResidualTests {
        let &Self { agent, limit, now, later, pause, needed_pause, baseline, .. } = self;
        ResidualTests { agent, test: self.kind, limit, now, later, pause, needed_pause, baseline }
    }

    /// Slope and start of ln C over time by least squares; readings "less than" something have no place on the line.
    fn fit(&self, w: &mut Working) -> Result<Known<(f64, f64)>, Stop> {
        const FEW: Missing =
            Missing::not_known("rinse-readings", "two readings with a number above 0, at different times");
        let Some(readings) = &self.readings else { return Ok(Err(FEW)) };
        if let Some(row) = readings.windows(2).position(|pair| pair[1].time <= pair[0].time) {
            return Err(Problem {
                field: "rinse-readings",
                cell: Some((row + 1, "time")),
                sentence: "each reading must be later than the one before".into(),
            }
            .into());
        }
        let points: Vec<(f64, f64)> = readings
            .iter()
            .filter_map(|reading| match reading.found {
                Reported::Is(value) if value.si() > 0.0 => Some((reading.time.si(), value.si().ln())),
                _ => None,
            })
            .collect();
        if points.len() < 2 {
            return Ok(Err(FEW));
        }
        let n = points.len() as f64;
        let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
        let (t, y) = (mean(|point| point.0), mean(|point| point.1));
        let spread: f64 = points.iter().map(|point| (point.0 - t).powi(2)).sum();
        let slope = points.iter().map(|point| (point.0 - t) * (point.1 - y)).sum::<f64>() / spread;
        if slope >= 0.0 {
            return Ok(Err(Missing::none_exists("the readings do not fall: nothing is being rinsed out")));
        }
        w.procedure(("slope", "k"), -slope, || {
            Sentence::plain("slope of ln C over time by least squares through {rows} readings, in 1/s")
                .with("rows", Slot::Count(points.len() as i64))
        });
        Ok(Ok((-slope, y - slope * t)))
    }
}
