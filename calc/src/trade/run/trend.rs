//! Whether a reading drifts, when it will reach its trigger, and whether single readings stand out.
//!
//! Rests on least squares with Fieller's interval, on Mann and Kendall and Sen as a second witness, and on the control
//! charts of the NIST/SEMATECH e-Handbook. Takes every reading as independent of the one before; readings that are
//! more alike make each interval too narrow. Flows, passages and pressure drops only when normalized.

use super::series::Series;
use super::trend_fit::{self, ChartRow, Fitted, Reading, Rule, Verdict};
use crate::engine::quantity::Time;
use crate::engine::quantity::kinds::{NUMBER, TIME};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Slot, Stage, Stop, Term,
    Working, source,
};
use crate::engine::statistics::chart::{Level, Sums};
use crate::engine::statistics::line::Line;
use crate::engine::statistics::rank::{Kendall, kendall, theil_sen};
use crate::{choice, sheet};
use chrono::NaiveDate;

choice!(/// What the readings are.
Basis {
    Normalized "normalized" "Normalized to one temperature, pressure and water",
    Unaffected "unaffected" "Not affected by temperature or pressure",
    Raw "raw" "As read",
});

choice!(/// From which side the trigger is reached.
    TriggerSide { Falls "falls" "When the reading falls to it", Rises "rises" "When the reading rises to it" });

static ABOVE_TRIGGER: Criterion = Criterion {
    id: "trigger-above",
    sentence: "Latest reading, above the trigger",
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
    sentence: "Latest reading, below the trigger",
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
    text: "A line drawn beyond its readings shows when to look, not when something will fail. Start a new series after a new filter or membrane, after a cleaning, and with another meter. Today's reading decides.",
};

const VALUE: Term = Term::number(&NUMBER, "Reading", "y").possible(0.0, 1e9, "");
const TRIGGER_DATE: Term = Term::other("Trigger reached on");

sheet! {
    /// Whether readings drift, by a line and by ranks; when the line reaches a trigger; and which readings stand out.
    Trend, "trend", "Trend and control chart", Stage::Run,
    also: &["CUSUM", "SPC", "control chart"],
    sources: &[&source::NIST_HANDBOOK, &source::FIELLER_1954, &source::MANN_1945, &source::SEN_1968, &source::COMMON_PRACTICE],
    cautions: &[&NO_PROMISE],
    criteria: &[&ABOVE_TRIGGER, &BELOW_TRIGGER],
    inputs: {
        series   "series":   Option<Series> = Term::other("Number from the record")
            .help("Choose it to fill the readings from the record: those of this place. Or leave it empty and enter them.")
            .assumed("the readings are entered by hand"),
        readings "readings": Vec<Reading> = Term::other("Readings")
            .help("One row per reading, all in one unit, since the last change of filter, membrane or meter."),
        unit     "unit-of-readings": Option<String> = Term::other("Unit of the readings")
            .help("The trigger and the results are in this unit too.").assumed("the one in which you read them"),
        basis    "basis":    Basis        = Term::other("Kind of readings")
            .help("Flow changes by 3 % per °C, so winter looks like a fouled membrane. Normalize first."),
        trigger  "trigger":  Known<f64>   = VALUE.named("Trigger").symbol("y_0")
            .help("The value at which you act, in the unit of the readings; from the instructions or the facility's rule."),
        side     "trigger-side": Option<TriggerSide> = Term::other("When the trigger counts")
            .assumed("from the side on which the readings begin"),
        steady   "steady-readings": Option<f64> = Term::number(&NUMBER, "Baseline readings: how many of the first", "n_0")
            .help("Taken while all was well; they give the chart its center and spread.")
            .assumed("all of them").whole().possible(2.0, 100_000.0, ""),
        centre   "chart-centre": Option<f64> = VALUE.named("Chart center (centre)").symbol("T")
            .assumed("the mean of those readings"),
        spread   "chart-spread": Option<f64> = VALUE.named("Standard deviation of one reading").symbol("s_0")
            .assumed("from their moving range"),
        weight   "chart-weight": Option<f64> = Term::number(&NUMBER, "EWMA weight of the newest reading", "λ")
            .assumed("0.3").plausible(0.1, 0.5, "").possible(0.01, 1.0, ""),
        // both as usual in the handbooks; of the two usual limits, 4 and 5, the one that tells sooner
        allowance "cusum-allowance": Option<f64> = Term::number(&NUMBER, "CUSUM allowance, in standard deviations", "k")
            .help("Half of the drift that is to be found.")
            .assumed("0.5").plausible(0.25, 1.0, "").possible(0.0, 10.0, ""),
        decision "cusum-decision": Option<f64> = Term::number(&NUMBER, "CUSUM limit, in standard deviations", "h")
            .help("4 tells sooner, 5 gives fewer false alarms.")
            .assumed("4").plausible(3.0, 8.0, "").possible(0.5, 100.0, ""),
    }
    outputs Outputs: {
        verdict   "verdict":   Verdict    = Term::other("Trend"),
        slope     "slope":     Known<f64> = Term::number(&NUMBER, "Change per day", "b"),
        slope_low "slope-low": Known<f64> = Term::number(&NUMBER, "Change per day, low end of 95 % interval", "b_low"),
        slope_high "slope-high": Known<f64> = Term::number(&NUMBER, "Change per day, high end of 95 % interval", "b_high"),
        chance    "slope-chance": Known<f64> = Term::number(&NUMBER, "p-value of the line (chance without a trend)", "p"),
        scatter   "scatter":   Known<f64> = Term::number(&NUMBER, "Scatter about the line (standard deviation)", "s"),
        sen       "sen-slope": Known<f64> = Term::number(&NUMBER, "Change per day, median of all pairs (Sen)", "b_Sen"),
        kendall   "kendall-s": Known<f64> = Term::number(&NUMBER, "Rising minus falling pairs (Kendall)", "S"),
        rank_chance "kendall-chance": Known<f64> = Term::number(&NUMBER, "p-value of the order (chance without a trend)", "p_S"),
        meets     "trigger-date": Known<NaiveDate> = TRIGGER_DATE,
        earliest  "trigger-earliest": Known<NaiveDate> = TRIGGER_DATE.named("Trigger reached, earliest (95 % interval of the line)"),
        latest    "trigger-latest": Known<NaiveDate> = TRIGGER_DATE.named("Trigger reached, latest (95 % interval of the line)"),
        left      "time-left": Known<Time> = Term::number(&TIME, "Time from the latest reading to the earliest date", "t_left").units("d", "d"),
        middle    "centre":    Known<f64> = Term::number(&NUMBER, "Chart center (centre)", "T"),
        lower     "lower-limit": Known<f64> = Term::number(&NUMBER, "Lower control limit, single readings", "LCL"),
        upper     "upper-limit": Known<f64> = Term::number(&NUMBER, "Upper control limit, single readings", "UCL"),
        weighted_lower "weighted-lower-limit": Known<f64> = Term::number(&NUMBER, "Lower control limit, weighted mean (EWMA)", "LCL_z"),
        weighted_upper "weighted-upper-limit": Known<f64> = Term::number(&NUMBER, "Upper control limit, weighted mean (EWMA)", "UCL_z"),
        sum_limit "sum-limit":    Known<f64> = Term::number(&NUMBER, "Limit of the cumulative sum (CUSUM)", "H"),
        signal    "sum-signal":   Known<NaiveDate> = Term::other("First day with the cumulative sum outside its limit"),
        chart     "chart":     Vec<ChartRow> = Term::other("Chart"),
    }
}

/// Readings from which a line is drawn at all (common practice, no source).
const LEAST: usize = 5;
/// Readings from which the line is a good one (common practice, no source).
const GOOD: usize = 8;
/// Steady readings that a chart needs (common practice, no source).
const FOR_CHART: usize = 10;

impl Evaluate for Trend {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        if self.basis == Basis::Raw {
            let sentence = "flow, salt passage and pressure drop as read follow temperature and pressure; normalize them first, then enter the normalized numbers";
            return Err(Problem::new("basis", sentence).into());
        }
        let dated = trend_fit::in_order(&self.readings);
        let (Some(&(first, first_value)), Some(&(last_day, _))) = (dated.first(), dated.last()) else {
            return Err(Missing::empty("readings", "Readings").into());
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
        // of several readings on the last day nothing says which came last: the one nearest to the trigger counts
        let on_last_day = dated.iter().filter(|(day, _)| *day == last_day).map(|(_, value)| *value);
        let nearest = if falls { f64::min } else { f64::max };
        let last = on_last_day.reduce(nearest).unwrap_or(first_value);
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
        let rule = level.map(|level| Rule {
            weight,
            allowance: self.allowance.unwrap_or(0.5) * level.spread,
            decision: self.decision.unwrap_or(4.0) * level.spread,
        });
        let limits = level.map(|level| level.limits());
        let weighted = level.map(|level| level.weighted_limits(weight));
        let chart = trend_fit::chart(&dated, level.and_then(|level| Ok((level, rule?))));
        let signal = rule.and_then(|rule| {
            let level = level?;
            let is_out = |row: &&ChartRow| match (row.sum_high, row.sum_low) {
                (Ok(high), Ok(low)) => rule.is_out(Sums { high, low }, &level),
                _ => false,
            };
            let first = chart.iter().find(is_out).map(|row| row.date);
            first.ok_or(Missing::none_exists("the cumulative sum stayed within its limit"))
        });
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
            sum_limit: rule.map(|rule| rule.decision),
            signal,
            chart,
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
            w.warn("readings", "few-for-a-line", counted("a single reading can easily turn a line through only {count}; eight or more are better (common practice, no source)"));
        }
        let own_limits = self.centre.is_none() || self.spread.is_none();
        if own_limits && self.steady.map_or(points.len(), |steady| steady as usize) < FOR_CHART {
            w.warn("readings", "few-for-a-chart", counted("chart limits from fewer than ten steady readings are only a start ({count} readings; common practice, no source)"));
        }
        let by_rank = ranks.is_ok_and(|ranks| ranks.probability < 0.05);
        let by_line = matches!(verdict, Verdict::Falling | Verdict::Rising);
        if is_line && by_rank != by_line {
            w.warn(
                "readings", "line-and-ranks-differ",
                if by_line {
                    "the line shows a trend, the order of the readings alone does not: check for single readings that turn the line"
                } else {
                    "the order of the readings shows a trend, the line shows none at 95 %: check for a step or a bend"
                },
            );
        }
        let span = points.last().map_or(0.0, |(x, _)| *x);
        if fitted.is_ok_and(|fitted| fitted.days[0] > 2.0 * span) {
            w.warn(
                "readings",
                "trigger-far-ahead",
                "the trigger date is further ahead than the readings go back, so it is rough",
            );
        }
    }
}
