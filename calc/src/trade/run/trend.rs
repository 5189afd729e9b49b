//! Whether a reading drifts, when the drift meets its trigger, and whether single readings stand out.
//!
//! Rests on least squares with Fieller's interval, on Mann and Kendall and Sen as a second witness, and on the control
//! charts of the NIST/SEMATECH e-Handbook. Takes every reading as independent of the one before; readings that are
//! more alike make each interval too narrow. Flows, passages and pressure drops only when normalized.

use super::trend_fit::{self, ChartRow, Fitted, Reading, Verdict};
use crate::engine::quantity::Time;
use crate::engine::quantity::kinds::{NUMBER, TIME};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Slot, Stage, Stop, Term,
    Working, source,
};
use crate::engine::statistics::chart::Level;
use crate::engine::statistics::line::Line;
use crate::engine::statistics::rank::{Kendall, kendall, theil_sen};
use crate::{choice, sheet};
use chrono::NaiveDate;

choice!(/// What the readings are.
Basis {
    Normalized "normalized" "Normalized to one temperature, pressure and water",
    Unaffected "unaffected" "Of a kind that no temperature or pressure changes",
    Raw "raw" "As read",
});

choice!(/// On which side the trigger is met.
    TriggerSide { Falls "falls" "When the reading falls to it", Rises "rises" "When the reading rises to it" });

static ABOVE_TRIGGER: Criterion = Criterion {
    id: "trigger-above",
    sentence: "The last reading, above the trigger to which it may fall",
    stage: Stage::Run,
    side: Side::Above,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

static BELOW_TRIGGER: Criterion = Criterion {
    id: "trigger-below",
    sentence: "The last reading, below the trigger to which it may rise",
    stage: Stage::Run,
    side: Side::Below,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

static NO_PROMISE: Caution = Caution {
    id: "a-trend-is-no-promise",
    text: "A line continued beyond its readings tells when to look, not when it will fail. A new filter or membrane, a cleaning or another meter begins a new series. The reading of the day decides.",
};

const VALUE: Term = Term::number(&NUMBER, "Reading", "y").possible(0.0, 1e9, "");
const TRIGGER_DATE: Term = Term::other("The line meets the trigger on");

sheet! {
    /// Whether readings drift, by a line and by ranks; when the line meets a trigger; and which readings stand out.
    Trend, "trend", "Trend and control chart", Stage::Run,
    sources: &[&source::NIST_HANDBOOK, &source::FIELLER_1954, &source::MANN_1945, &source::SEN_1968, &source::COMMON_PRACTICE],
    cautions: &[&NO_PROMISE],
    criteria: &[&ABOVE_TRIGGER, &BELOW_TRIGGER],
    inputs: {
        readings "readings": Vec<Reading> = Term::other("Readings")
            .help("One row a reading, all in one unit, of one series: since the last change of filter, membrane or meter."),
        basis    "basis":    Basis        = Term::other("What the readings are")
            .help("Flow changes by 3 % a kelvin: a winter looks like a fouled membrane. Normalize first."),
        trigger  "trigger":  Known<f64>   = VALUE.named("Trigger").symbol("y_0")
            .help("At which something is done, in the unit of the readings; from the instructions or the facility's rule."),
        side     "trigger-side": Option<TriggerSide> = Term::other("When the trigger is met")
            .assumed("from the side on which the readings begin"),
        steady   "steady-readings": Option<f64> = Term::number(&NUMBER, "Readings taken while all was well", "n_0")
            .help("So many from the first on give the chart its centre and spread.")
            .assumed("all of them").whole().possible(2.0, 100_000.0, ""),
        centre   "chart-centre": Option<f64> = VALUE.named("Centre of the chart").symbol("T")
            .assumed("the mean of those readings"),
        spread   "chart-spread": Option<f64> = VALUE.named("Standard deviation of one reading").symbol("s_0")
            .assumed("from their moving range"),
        weight   "chart-weight": Option<f64> = Term::number(&NUMBER, "Weight of the newest reading", "λ")
            .assumed("0.3").plausible(0.1, 0.5, "").possible(0.01, 1.0, ""),
    }
    outputs Outputs: {
        verdict   "verdict":   Verdict    = Term::other("Trend"),
        slope     "slope":     Known<f64> = Term::number(&NUMBER, "Change a day", "b"),
        slope_low "slope-low": Known<f64> = Term::number(&NUMBER, "Change a day, least at 95 %", "b_low"),
        slope_high "slope-high": Known<f64> = Term::number(&NUMBER, "Change a day, most at 95 %", "b_high"),
        chance    "slope-chance": Known<f64> = Term::number(&NUMBER, "Chance of such a line if there were no trend", "p"),
        scatter   "scatter":   Known<f64> = Term::number(&NUMBER, "Standard deviation about the line", "s"),
        sen       "sen-slope": Known<f64> = Term::number(&NUMBER, "Change a day, median of all pairs", "b_Sen"),
        kendall   "kendall-s": Known<f64> = Term::number(&NUMBER, "Rising less falling pairs", "S"),
        rank_chance "kendall-chance": Known<f64> = Term::number(&NUMBER, "Chance of such an order if there were no trend", "p_S"),
        meets     "trigger-date": Known<NaiveDate> = TRIGGER_DATE,
        earliest  "trigger-earliest": Known<NaiveDate> = TRIGGER_DATE.named("at the earliest, 95 % interval of the line (Fieller)"),
        latest    "trigger-latest": Known<NaiveDate> = TRIGGER_DATE.named("at the latest, 95 % interval of the line (Fieller)"),
        left      "time-left": Known<Time> = Term::number(&TIME, "From the last reading to the earliest of it", "t_left").units("d", "d"),
        middle    "centre":    Known<f64> = Term::number(&NUMBER, "Centre of the chart", "T"),
        lower     "lower-limit": Known<f64> = Term::number(&NUMBER, "Lower limit of single readings", "LCL"),
        upper     "upper-limit": Known<f64> = Term::number(&NUMBER, "Upper limit of single readings", "UCL"),
        weighted_lower "weighted-lower-limit": Known<f64> = Term::number(&NUMBER, "Lower limit of the weighted mean", "LCL_z"),
        weighted_upper "weighted-upper-limit": Known<f64> = Term::number(&NUMBER, "Upper limit of the weighted mean", "UCL_z"),
        chart     "chart":     Vec<ChartRow> = Term::other("The chart"),
    }
}

/// Readings from which a line is drawn at all (common practice, no source).
const LEAST: usize = 5;
/// Readings from which the line is a good one (common practice, no source).
const GOOD: usize = 8;
/// Steady readings that a chart wants (common practice, no source).
const FOR_CHART: usize = 10;

impl Evaluate for Trend {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        if self.basis == Basis::Raw {
            let sentence = "a flow, a passage or a pressure drop as read follows temperature and pressure; normalize it to one state, then enter those numbers";
            return Err(Problem::new("basis", sentence).into());
        }
        let dated = trend_fit::in_order(&self.readings);
        let (Some(&(first, first_value)), Some(&(last_day, last))) = (dated.first(), dated.last()) else {
            return Err(Missing::not_known("readings", "Readings").into());
        };
        let points = trend_fit::by_day(&dated);
        let few = Missing::not_known("readings", "at least five readings, on more than one day");
        let line = if points.len() < LEAST { None } else { Line::through(&points) }.ok_or(few);
        let verdict = line.map_or(Verdict::TooFew, |line| trend_fit::verdict(&line, &points));

        let falls = match self.side {
            Some(side) => side == TriggerSide::Falls,
            None => {
                self.trigger.is_ok_and(|trigger| line.map_or(first_value, |line| line.at(0.0)) >= trigger)
            }
        };
        let fitted = self.trigger.and_then(|trigger| {
            line.and_then(|line| trend_fit::meeting(&line, verdict, trigger, falls, first))
        });
        let criterion = if falls || self.trigger.is_err() { &ABOVE_TRIGGER } else { &BELOW_TRIGGER };
        w.judge_known(criterion, Ok(last), self.trigger);

        let values: Vec<f64> = dated.iter().map(|(_, value)| *value).collect();
        let ranks = kendall(&values).ok_or(few);
        let sen = theil_sen(&points).ok_or(few);
        self.warn(w, verdict, ranks, fitted, &points);
        if let Ok(line) = line {
            w.procedure(("slope", "b"), line.slope, || {
                Sentence::plain("a straight line by least squares through {count} readings")
                    .with("count", Slot::Count(line.count as i64))
            });
        }

        let level = self.level(&values);
        let weight = self.weight.unwrap_or(0.3);
        let limits = level.map(|level| level.limits());
        let weighted = level.map(|level| level.weighted_limits(weight));
        let half = line.and_then(|line| line.slope_half_width().ok_or(few));
        let seconds = |days: f64| Time::of(days * 86_400.0);
        Ok(Outputs {
            verdict,
            slope: line.map(|line| line.slope),
            slope_low: line.and_then(|line| Ok(line.slope - half?)),
            slope_high: line.and_then(|line| Ok(line.slope + half?)),
            chance: line.and_then(|line| line.probability().ok_or(few)),
            scatter: line.map(|line| line.residual),
            sen,
            kendall: ranks.map(|ranks| ranks.s),
            rank_chance: ranks.map(|ranks| ranks.probability),
            meets: fitted.map(|fitted| fitted.dates[0]),
            earliest: fitted.map(|fitted| fitted.dates[1]),
            latest: fitted.map(|fitted| fitted.dates[2]),
            left: fitted.map(|fitted| seconds(fitted.days[1] - (last_day - first).num_days() as f64)),
            middle: level.map(|level| level.centre),
            lower: limits.map(|(low, _)| low),
            upper: limits.map(|(_, high)| high),
            weighted_lower: weighted.map(|(low, _)| low),
            weighted_upper: weighted.map(|(_, high)| high),
            chart: trend_fit::chart(&dated, level, weight),
        })
    }
}

impl Trend {
    /// The level about which the readings are taken to scatter.
    fn level(&self, values: &[f64]) -> Known<Level> {
        let steady = self.steady.map_or(values.len(), |count| (count as usize).min(values.len()));
        let own = Level::of(&values[..steady]);
        let few = Missing::not_known("readings", "at least two readings");
        let centre = self.centre.or(own.map(|own| own.centre)).ok_or(few)?;
        let spread = self.spread.or(own.map(|own| own.spread)).ok_or(few)?;
        Ok(Level { centre, spread })
    }

    fn warn(
        &self,
        w: &mut Working,
        verdict: Verdict,
        ranks: Known<Kendall>,
        fitted: Known<Fitted>,
        points: &[(f64, f64)],
    ) {
        let is_line = verdict != Verdict::TooFew;
        let counted = |template| Sentence::plain(template).with("count", Slot::Count(points.len() as i64));
        if is_line && points.len() < GOOD {
            w.warn("readings", "few-for-a-line", counted("a line through {count} readings is easily turned by one of them; eight or more are better (common practice, no source)"));
        }
        let own_limits = self.centre.is_none() || self.spread.is_none();
        if own_limits && self.steady.map_or(points.len(), |steady| steady as usize) < FOR_CHART {
            w.warn("readings", "few-for-a-chart", counted("limits of a chart from fewer than ten steady readings are a beginning only ({count} readings; common practice, no source)"));
        }
        let by_rank = ranks.is_ok_and(|ranks| ranks.probability < 0.05);
        let by_line = matches!(verdict, Verdict::Falling | Verdict::Rising);
        if is_line && by_rank != by_line {
            w.warn(
                "readings", "line-and-ranks-differ",
                if by_line {
                    "the line has a trend, the order of the readings alone does not prove it: look for single readings that turn the line"
                } else {
                    "the order of the readings has a trend, the line has none at 95 %: look for a step or a bend"
                },
            );
        }
        let span = points.last().map_or(0.0, |(x, _)| *x);
        if fitted.is_ok_and(|fitted| fitted.days[0] > 2.0 * span) {
            w.warn(
                "readings",
                "trigger-far-ahead",
                "the trigger lies further ahead than the readings reach back: the line may not last so long",
            );
        }
    }
}
