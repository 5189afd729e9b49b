//! The least rinse by model, the model fitted to readings, and what the residual tests say.
//!
//! Rests on the mixed tank, tanks in series and plug flow (O. Levenspiel). Dead ends and the membrane give back what they
//! hold, so that every model is a minimum: the disinfectant's own test decides, now and after a pause.

use crate::engine::quantity::{
    Concentration, Flow, Time, Volume,
    kinds::{NUMBER, TIME, VOLUME},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Reported, Sentence, Side, Slot, Stage,
    Stop, Term, Working, source,
};
use crate::trade::product::poisson;
use crate::trade::terms::chemical;
use crate::{choice, input_row, sheet, step};

choice!(/// The test with which the residual was read.
    TestKind { Own "own-test" "The disinfectant's own residual test", Other "another-test" "Another test, or conductivity alone" });

input_row! {
    /// One reading of the rinse.
    RinseReading {
        time  "time":     Time                    = Term::number(&TIME, "Time since the rinse began", "t").help("A watch.").plausible(0.0, 120.0, "min").possible(0.0, 1e5, "min"),
        found "residual": Reported<Concentration> = chemical::RESIDUAL,
    }
}

/// After the rinse.
pub static RESIDUAL_AFTER_RINSE: Criterion = Criterion {
    id: "residual-after-rinse",
    sentence: "Residual after the rinse below the label's limit, by the disinfectant's own test",
    stage: Stage::Chemical,
    side: Side::Below,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

/// After a pause.
pub static RESIDUAL_AFTER_PAUSE: Criterion = Criterion {
    id: "residual-after-pause",
    sentence: "Residual after a pause below the label's limit, by the disinfectant's own test",
    ..RESIDUAL_AFTER_RINSE
};

static RESIDUAL_TEST_DECIDES: Caution = Caution {
    id: "residual-test-decides",
    text: "The rinse ends when the disinfectant's own test says so, now and again after a pause, read by two people and written down; never by the clock. A chlorine strip does not clear peracetic acid. The dialysis machine stays off until then.",
};

sheet! {
    /// How long to rinse at the least by three models and by readings, and what the residual tests say now and after a pause.
    RinseOut, "rinse-out", "Rinse after a disinfectant", Stage::Chemical,
    sources: &[&source::LEVENSPIEL, &source::MASS_BALANCE, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&RESIDUAL_TEST_DECIDES],
    criteria: &[&RESIDUAL_AFTER_RINSE, &RESIDUAL_AFTER_PAUSE],
    inputs: {
        held     "held-volume":        Volume                         = chemical::HELD_VOLUME,
        flow     "rinse-flow":         Flow                           = chemical::RINSE_FLOW,
        start    "wanted-concentration": Concentration                = chemical::WANTED,
        limit    "residual-limit":     Known<Concentration>           = chemical::RESIDUAL_LIMIT,
        tanks    "tanks":              Option<f64>                    = chemical::TANKS,
        readings "rinse-readings":     Option<Vec<RinseReading>>      = Term::other("Readings during the rinse").help("Two at least, with their times.").assumed("no fit"),
        kind     "residual-test":      Known<TestKind>                = Term::other("Test of the residual").help("Each disinfectant needs its own."),
        now      "residual-now":       Known<Reported<Concentration>> = chemical::RESIDUAL.named("Residual after the rinse").symbol("C_now"),
        later    "residual-later":     Known<Reported<Concentration>> = chemical::RESIDUAL.named("Residual after the pause").symbol("C_later"),
        pause    "pause":              Known<Time>                    = chemical::PAUSE,
    }
    outputs Outputs: {
        turnover  "turnover-time":     Time          = Term::number(&TIME, "Time for the held volume once, plug flow", "τ"),
        mixed     "volumes-mixed":     Known<f64>    = Term::number(&NUMBER, "Volumes to rinse, one mixed tank", "θ_1"),
        series    "volumes-series":    Known<f64>    = Term::number(&NUMBER, "Volumes to rinse, tanks in series", "θ_N"),
        time      "rinse-time":        Known<Time>   = Term::number(&TIME, "Least time, one mixed tank", "t_1"),
        in_series "rinse-time-series": Known<Time>   = Term::number(&TIME, "Least time, tanks in series", "t_N"),
        effective "effective-volume":  Known<Volume> = Term::number(&VOLUME, "Volume that the readings look like", "V_eff"),
        fitted    "rinse-time-fitted": Known<Time>   = Term::number(&TIME, "Time from the start until the limit, by the readings", "t_fit"),
    }
}

impl Evaluate for RinseOut {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &RinseOut { held, flow, start, .. } = self;
        step!(w, turnover "τ" = held / flow);
        let limit = self.limit.and_then(|limit| {
            (limit < start)
                .then_some(limit)
                .ok_or(Missing::none_exists("the solution itself is below the limit of the residual"))
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
        self.judge(w);
        Ok(Outputs { turnover, mixed, series, time, in_series, effective, fitted })
    }
}

impl RinseOut {
    /// Slope and start of ln C over time by least squares; readings "less than" something have no place on the line.
    fn fit(&self, w: &mut Working) -> Result<Known<(f64, f64)>, Stop> {
        const FEW: Missing =
            Missing::not_known("rinse-readings", "two readings with a number above 0, at different times");
        let Some(readings) = &self.readings else { return Ok(Err(FEW)) };
        if let Some(row) = readings.windows(2).position(|pair| pair[1].time <= pair[0].time) {
            return Err(Problem {
                field: "rinse-readings",
                cell: Some((row + 1, "time")),
                sentence: "each reading is later than the one before".into(),
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
            return Ok(Err(Missing::none_exists("the readings do not fall: nothing is rinsed out")));
        }
        w.procedure(("slope", "k"), -slope, || {
            Sentence::plain("slope of ln C over time by least squares through {rows} readings, in 1/s")
                .with("rows", Slot::Count(points.len() as i64))
        });
        Ok(Ok((-slope, y - slope * t)))
    }

    fn judge(&self, w: &mut Working) {
        const NOT_OWN: Missing = Missing::not_known(
            "residual-test",
            "another test does not show this residual: use the disinfectant's own",
        );
        const NO_PAUSE: Missing =
            Missing::not_known("pause", "nobody said how long the water stood before the second test");
        let own = self.kind.and_then(|kind| if kind == TestKind::Own { Ok(()) } else { Err(NOT_OWN) });
        let paused = self.pause.and_then(|pause| if pause.si() > 0.0 { Ok(()) } else { Err(NO_PAUSE) });
        let mut one = |criterion, found: Known<Reported<Concentration>>, field| match (found, self.limit) {
            (Ok(found), Ok(limit)) => w.judge_reported(criterion, found, limit, field),
            (found, limit) => w.judge_known(criterion, found.map(Reported::at_most), limit),
        };
        // too much is too much by any test; only a pass needs the right one
        let is_over = |found: &Reported<Concentration>| {
            self.limit.is_ok_and(|limit| matches!(found, Reported::Is(value) if *value >= limit))
        };
        let shown = |found: Known<Reported<Concentration>>, valid: Known<()>| {
            found.and_then(|found| if is_over(&found) { Ok(found) } else { valid.map(|()| found) })
        };
        one(&RESIDUAL_AFTER_RINSE, shown(self.now, own), "residual-now");
        one(&RESIDUAL_AFTER_PAUSE, shown(self.later, own.and(paused)), "residual-later");
    }
}
