//! A day of sessions: which clock times they take, how many fit, how much water they use, and when the carbon is changed.
//!
//! By arithmetic on times and litres. Every session of the day has the same parts: set-up before the RO runs, set-up with
//! the RO running, treatment, rinse; turnaround lies between two of them. Water is counted only while the RO runs, at the
//! highest flow all the time, which covers a flush and surplus product. Machines side by side are taken to start
//! together. Not covered: a session that is broken off and made up for.

use super::change::{CarbonChange, until_change};
use super::course::{DAY, FirstCarbon, HoursOfSession};
use crate::engine::calendar::Moment;
use crate::engine::quantity::{
    Flow, Ratio, Time, Volume, days,
    kinds::{NUMBER, RATIO, TIME, VOLUME},
    minutes,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Figure, Judges, Known, Missing, Problem, Sentence, Side, Stage, Stop, Term,
    Working, source,
};
use crate::trade::carbon::CARBON_TEST_DECIDES;
use crate::trade::terms::{carbon, day, machine, softener};
use crate::{output_row, sheet, step};

/// The planned sessions against the hours that there are.
pub static DAY_LONG_ENOUGH: Criterion = Criterion {
    id: "day-long-enough",
    sentence: "Time for the day's sessions, within the hours available",
    stage: Stage::Day,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["sessions", "day-hours"],
    cases: &[],
    judges: Judges::Output("day-time"),
};

static NOTHING_IS_SHORTENED: Caution = Caution {
    id: "no-time-is-shortened",
    text: "Treatment time is prescribed. The times for rinse, tests and disinfection come from instructions. Never shorten any of them to fit in one more session.",
};

static DAY_BY_CLOCK: Figure = DAY;

output_row! {
    /// One session of the day on the clock; with several machines, all that run together.
    SessionOfDay {
        number  "session":      f64           = Term::number(&NUMBER, "Session", "n").whole(),
        set_up  "set-up-from":  Moment        = Term::other("Set-up from"),
        running "running-from": Moment        = Term::other("RO running from"),
        ready   "ready-at":     Known<Moment> = Term::other("Ready for the session"),
        ends    "session-ends": Known<Moment> = Term::other("Session ends"),
        done    "done-at":      Moment        = Term::other("RO off, rinse done"),
    }
}

sheet! {
    /// When each session of a day can start, how many fit, how much water they use, and after how many sessions the carbon is changed.
    DayPlan, "day-plan", "Day plan", Stage::Day,
    also: &["schedule of the day", "sessions per day"],
    sources: &[&source::MASS_BALANCE, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&NOTHING_IS_SHORTENED, &CARBON_TEST_DECIDES],
    criteria: &[&DAY_LONG_ENOUGH],
    figures: &[&DAY_BY_CLOCK],
    inputs: {
        session    "session-time":        Known<Time>    = machine::SESSION_TIME,
        set_up     "set-up-time":         Known<Time>    = day::SET_UP_TIME,
        started    "set-up-running-time": Option<Time>   = day::SET_UP_RUNNING_TIME,
        rinse      "rinse-time":          Option<Time>   = day::RINSE_TIME,
        around     "time-around-session": Known<Time>    = day::TIME_AROUND_SESSION,
        turnaround "turnaround-time":     Known<Time>    = day::TURNAROUND_TIME,
        from       "day-from":            Option<Moment> = day::DAY_FROM,
        until      "day-until":           Option<Moment> = day::DAY_UNTIL,
        hours      "day-hours":           Known<Time>    = day::DAY_HOURS,
        machines   "machines":            Known<f64>     = machine::MACHINES,
        sessions   "sessions":            Option<f64>    = machine::SESSIONS.assumed("as many as fit"),
        flow       "flow":                Known<Flow>    = carbon::HIGHEST_FLOW.named("Highest feed flow, running"),
        product    "product-volume":      Known<Volume>  = machine::PRODUCT_VOLUME,
        spent      "carbon-sessions":     Known<f64>     = day::CARBON_SESSIONS,
        rated      "rated-volume":        Known<Volume>  = carbon::RATED_VOLUME,
        rated_flow "rated-flow":          Option<Flow>   = carbon::RATED_FLOW,
        softened   "volume-between-regenerations": Known<Volume> = softener::VOLUME_BETWEEN_REGENERATIONS,
    }
    outputs Outputs: {
        running  "session-running-time": Known<Time>   = Term::number(&TIME, "RO running time per session", "t_s").units("h", "h"),
        ready    "ready-at":             Known<Moment> = Term::other("Ready for the first session"),
        fit      "sessions-that-fit":    Known<f64>    = Term::number(&NUMBER, "Sessions that fit the day, all machines", "n_fit").whole(),
        daily    "daily-running-time":   Known<Time>   = Term::number(&TIME, "RO running time per day", "t_d").units("h", "h"),
        taken    "day-time":             Known<Time>   = Term::number(&TIME, "Time for the day's sessions", "t_all").units("h", "h"),
        spare    "spare-time":           Known<Time>   = Term::number(&TIME, "Hours left over", "Δt").units("h", "h"),
        made     "day-volume":           Known<Volume> = Term::number(&VOLUME, "Product water per day", "V_d"),
        feed     "day-feed-volume":      Known<Volume> = Term::number(&VOLUME, "Feed water per day, at most", "V_f"),
        drained  "day-reject-volume":    Known<Volume> = Term::number(&VOLUME, "Reject and surplus per day, at most", "V_c"),
        overall  "overall-recovery":     Known<Ratio>  = Term::number(&RATIO, "Recovery over the day, at least", "Y_d"),
        litres   "session-litres":       Known<Volume> = Term::number(&VOLUME, "Water through the carbon per session", "V_s"),
        whole    "carbon-whole-sessions": Known<f64>   = Term::number(&NUMBER, "Carbon change at the latest, after whole sessions", "n_c").whole(),
        carbon   "carbon-days":          Known<Time>   = Term::number(&TIME, "Carbon change at the latest, after days", "t_carbon").units("d", "d"),
        softener "softener-days":        Known<Time>   = Term::number(&TIME, "Days until the softener is used up", "t_soft").units("d", "d"),
        clock    "clock":                Known<Vec<SessionOfDay>> = Term::other("The day on the clock"),
        counted  "hours-counted":        Known<Time>   = Term::number(&TIME, "Hours available", "t_day").units("h", "h"),
        course   "day-course":           Known<Vec<HoursOfSession>> = Term::other("The day in hours, from the first set-up on"),
    }
}

/// So that 12 h are three times 4 h in spite of a rounding in the last digit.
const LAST_DIGITS: f64 = 1e-9;
/// More rows than a day can have are not drawn.
const MOST_ROWS: f64 = 24.0;
const NO_TIME: Missing = Missing::none_exists("a session takes no time here, so any number would fit");
const NEVER_RUNS: Missing = Missing::none_exists("the RO does not run on this day");
const BEYOND: Missing = Missing::none_exists("it lies beyond the calendar");

/// Runs of the RO one after the other, and how long a day with them is.
#[derive(Clone, Copy)]
struct Course {
    /// Set-up and running of one session.
    one: Known<Time>,
    turnaround: Known<Time>,
}

impl Evaluate for DayPlan {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let hours = self.hours(w)?;
        let around = self.around(w);
        let running = self.session.and_then(|session| {
            let around = around?;
            w.bind("around", "t_a", around);
            step!(w, running "t_s" = session + around);
            Ok(running)
        });
        let course = self.course(running, w);
        let fit = self.fit(running, hours, w);
        let sessions = self.sessions.map_or(fit, Ok);
        let runs = sessions.and_then(|sessions| self.runs(sessions, w));
        let daily = running.and_then(|running| {
            w.bind("runs", "n_d", runs?);
            w.bind("running", "t_s", running);
            let runs = runs?;
            step!(w, daily "t_d" = runs * running);
            Ok(daily)
        });
        let taken = runs.and_then(|runs| Self::taken(runs, course, w));
        self.judge(runs, running, taken, hours, w);
        let spare = taken.and_then(|taken| {
            let hours = hours?;
            w.bind("taken", "t_all", taken);
            w.bind("hours", "t_day", hours);
            step!(w, spare "Δt" = hours - taken);
            Ok(spare)
        });
        let made = sessions.and_then(|sessions| {
            let product = self.product?;
            w.bind("sessions", "n_s", sessions);
            step!(w, made "V_d" = sessions * product);
            Ok(made)
        });
        let litres = running.and_then(|running| {
            let flow = self.flow?;
            step!(w, litres "V_s" = flow * running);
            Ok(litres)
        });
        let feed = daily.and_then(|daily| {
            let flow = self.flow?;
            step!(w, feed "V_f" = flow * daily);
            Ok(feed)
        });
        let drained = self.drained(feed, made, w)?;
        let overall = made.and_then(|made| {
            let feed = feed?;
            (feed.si() > 0.0).then_some(()).ok_or(NEVER_RUNS)?;
            step!(w, overall "Y_d": Ratio = made / feed);
            Ok(overall)
        });
        let change = until_change(self.spent(litres, w), runs, w);
        let softener = self.softener_days(feed, w);
        let course = self.sessions_of_day(runs, running, course, change);
        let clock = self.clock(&course);
        let ready = clock.as_ref().map_err(|missing| *missing).and_then(|rows| match rows.first() {
            Some(first) => first.ready,
            None => Err(NEVER_RUNS),
        });
        Ok(Outputs {
            running,
            ready,
            fit,
            daily,
            taken,
            spare,
            made,
            feed,
            drained,
            overall,
            litres,
            whole: change.map(|change| change.whole),
            carbon: change.and_then(|change| change.days),
            softener,
            clock,
            counted: hours,
            course,
        })
    }
}

impl DayPlan {
    /// By the clock where both of its ends are known, else as entered.
    fn hours(&self, w: &mut Working) -> Result<Known<Time>, Stop> {
        let (Some(from), Some(until)) = (self.from, self.until) else { return Ok(self.hours) };
        let hours = until.since(from);
        if hours.si() <= 0.0 {
            let sentence = "the day ends before it begins: check both times and their dates";
            return Err(Problem::new("day-until", sentence).into());
        }
        w.procedure(("hours", "t_day"), hours, || {
            Sentence::plain("time from the earliest start to the latest end")
        });
        if self.hours.is_ok_and(|entered| (entered.si() - hours.si()).abs() > minutes(1.0).si()) {
            w.warn(
                "day-hours",
                "hours-differ",
                Sentence::plain("from start to end it is {hours}: this is counted, not the hours entered")
                    .quantity("hours", hours),
            );
        }
        Ok(Ok(hours))
    }

    /// Running of the RO beside the treatment: its two parts, else both together as entered. Where they differ, the
    /// longer counts.
    fn around(&self, w: &mut Working) -> Known<Time> {
        let (started, rinse) = match (self.started, self.rinse) {
            (Some(started), Some(rinse)) => (started, rinse),
            (None, Some(_)) if self.around.is_err() => {
                return Err(Missing::empty("set-up-running-time", day::SET_UP_RUNNING_TIME.name));
            }
            (Some(_), None) if self.around.is_err() => {
                return Err(Missing::empty("rinse-time", day::RINSE_TIME.name));
            }
            _ => return self.around,
        };
        step!(w, parts "t_a" = started + rinse);
        match self.around {
            Ok(entered) if (entered.si() - parts.si()).abs() > minutes(1.0).si() => {
                let longer = entered.max(parts);
                w.warn(
                    "time-around-session",
                    "parts-differ",
                    Sentence::plain("entered as {entered}, and set-up and rinse together take {parts}: {longer} is counted")
                        .quantity("entered", entered)
                        .quantity("parts", parts)
                        .quantity("longer", longer),
                );
                Ok(longer)
            }
            _ => Ok(parts),
        }
    }

    fn course(&self, running: Known<Time>, w: &mut Working) -> Course {
        let one = running.and_then(|running| {
            let set_up = self.set_up?;
            step!(w, one "t_1" = set_up + running);
            Ok(one)
        });
        Course { one, turnaround: self.turnaround }
    }

    /// Whole runs in the hours of the day, on every machine at once. Set-up and turnaround can only lower what the running
    /// leaves room for: where none fits, or no second one, they need not be known.
    fn fit(&self, running: Known<Time>, hours: Known<Time>, w: &mut Working) -> Known<f64> {
        let (running, hours) = (running?, hours?);
        let one = running + self.set_up.unwrap_or(Time::of(0.0));
        (one.si() > 0.0).then_some(()).ok_or(NO_TIME)?;
        let at_most = (hours / one + LAST_DIGITS).floor();
        let possible = match (self.set_up, self.turnaround) {
            (Ok(_), Ok(turnaround)) => ((hours + turnaround) / (one + turnaround) + LAST_DIGITS).floor(),
            _ if at_most < 1.0 => 0.0,
            (Ok(_), Err(_)) if at_most < 2.0 => at_most,
            (Err(missing), _) | (_, Err(missing)) => return Err(missing),
        };
        w.procedure(("possible", "n_r"), possible, || {
            Sentence::plain("whole sessions of {one}, with the turnaround between them, in {hours}")
                .quantity("one", one)
                .quantity("hours", hours)
        });
        if possible < 1.0 {
            w.warn("day-hours", "no-session-fits", "not one session fits the hours of the day");
        }
        let machines = self.machines?;
        step!(w, fit "n_fit" = possible * machines);
        Ok(fit)
    }

    /// Runs one after the other, each with as many sessions as there are machines.
    fn runs(&self, sessions: f64, w: &mut Working) -> Known<f64> {
        let machines = self.machines?;
        let runs = (sessions / machines - LAST_DIGITS).ceil().max(0.0);
        w.procedure(("runs", "n_d"), runs, || {
            Sentence::plain("sessions of the day over machines at once; the last run counts whole")
        });
        Ok(runs)
    }

    /// From the first set-up to the last rinse.
    fn taken(runs: f64, course: Course, w: &mut Working) -> Known<Time> {
        let gaps = (runs - 1.0).max(0.0);
        let turnaround = if gaps > 0.0 { course.turnaround? } else { Time::of(0.0) };
        let one = course.one?;
        w.bind("runs", "n_d", runs);
        w.bind("one", "t_1", one);
        w.bind("gaps", "n_g", gaps);
        w.bind("turnaround", "t_t", turnaround);
        step!(w, taken "t_all" = runs * one + gaps * turnaround);
        Ok(taken)
    }

    /// What is not known of the day can only make it longer: the running alone can show that it is too short.
    fn judge(
        &self,
        runs: Known<f64>,
        running: Known<Time>,
        taken: Known<Time>,
        hours: Known<Time>,
        w: &mut Working,
    ) {
        if self.sessions.is_none() {
            w.judge_known::<Time>(
                &DAY_LONG_ENOUGH,
                Err(Missing::empty("sessions", machine::SESSIONS.name)),
                hours,
            );
            return;
        }
        let least = runs.and_then(|runs| {
            let (running, none) = (running?, Time::of(0.0));
            let gaps = (runs - 1.0).max(0.0);
            Ok(runs * (running + self.set_up.unwrap_or(none)) + gaps * self.turnaround.unwrap_or(none))
        });
        let is_too_long = least.is_ok_and(|least| hours.is_ok_and(|hours| least > hours));
        w.judge_known(&DAY_LONG_ENOUGH, if is_too_long { least } else { taken }, hours);
    }

    /// What comes in and is not drawn by a machine; a machine cannot draw more than comes in.
    fn drained(
        &self,
        feed: Known<Volume>,
        made: Known<Volume>,
        w: &mut Working,
    ) -> Result<Known<Volume>, Stop> {
        let (feed, made) = match (feed, made) {
            (Ok(feed), Ok(made)) => (feed, made),
            (Err(missing), _) | (_, Err(missing)) => return Ok(Err(missing)),
        };
        if made > feed {
            let sentence = Sentence::plain(
                "the machines would draw {made} in a day, but only {feed} come in at this flow: check both and their units",
            );
            let sentence = sentence.quantity("made", made).quantity("feed", feed);
            return Err(Problem::new("product-volume", sentence).into());
        }
        step!(w, drained "V_c" = feed - made);
        Ok(Ok(drained))
    }

    /// For how many sessions the first carbon is used: by the carbon's own sheet, which corrects the label for this
    /// water, and never for more litres than the label names.
    fn spent(&self, litres: Known<Volume>, w: &mut Working) -> Known<f64> {
        if let (Ok(flow), Some(rated_flow)) = (self.flow, self.rated_flow)
            && flow > rated_flow
        {
            w.warn(
                "rated-flow",
                "above-rated-flow",
                Sentence::plain(
                    "{flow} is above the rated flow of {rated}: the rated capacity does not hold at this flow",
                )
                .quantity("flow", flow)
                .quantity("rated", rated_flow),
            );
        }
        let spent = self.spent?;
        let by_label = match (self.rated, litres) {
            (Ok(rated), Ok(litres)) if litres.si() > 0.0 => rated / litres,
            _ => return Ok(spent),
        };
        w.procedure(("spent", "n_max"), spent.min(by_label), || {
            Sentence::plain(
                "sessions until the carbon is used up, with no more water than its rated capacity",
            )
        });
        Ok(spent.min(by_label))
    }

    fn softener_days(&self, feed: Known<Volume>, w: &mut Working) -> Known<Time> {
        let (softened, feed) = (self.softened?, feed?);
        (feed.si() > 0.0).then_some(()).ok_or(NEVER_RUNS)?;
        w.bind("feed", "V_f", feed);
        step!(w, softener "t_soft" = softened / feed * days(1.0));
        if softener < days(1.0) {
            w.warn(
                "volume-between-regenerations",
                "softener-used-up",
                "used up before the day ends: hard water reaches the membrane unless the softener is regenerated in between",
            );
        }
        Ok(softener)
    }

    /// The sessions one after the other, in hours from the first set-up on.
    fn sessions_of_day(
        &self,
        runs: Known<f64>,
        running: Known<Time>,
        course: Course,
        change: Known<CarbonChange>,
    ) -> Known<Vec<HoursOfSession>> {
        let (runs, running, one, set_up) = (runs?, running?, course.one?, self.set_up?);
        let turnaround = if runs > 1.0 { course.turnaround? } else { Time::of(0.0) };
        let missing = |field, name| Missing::empty(field, name);
        let started = self.started.ok_or(missing("set-up-running-time", day::SET_UP_RUNNING_TIME.name));
        let mut rows = Vec::new();
        let mut begins = Time::of(0.0);
        while (rows.len() as f64) < runs.min(MOST_ROWS) {
            let on = begins + set_up;
            let ready = started.map(|started| on + started);
            let number = rows.len() as f64 + 1.0;
            rows.push(HoursOfSession {
                number,
                set_up: begins,
                running: on,
                ready,
                ends: ready.and_then(|ready| Ok(ready + self.session?)),
                done: on + running,
                carbon: change.map(|change| FirstCarbon::before(number, change.whole)),
            });
            begins = begins + one + turnaround;
        }
        Ok(rows)
    }

    /// The same from the earliest start on.
    fn clock(&self, course: &Known<Vec<HoursOfSession>>) -> Known<Vec<SessionOfDay>> {
        let from = self.from.ok_or(Missing::empty("day-from", day::DAY_FROM.name))?;
        let course = course.as_ref().map_err(|missing| *missing)?;
        let at = |time: Time| from.after(time).ok_or(BEYOND);
        let rows = course.iter().map(|row| {
            Ok(SessionOfDay {
                number: row.number,
                set_up: at(row.set_up)?,
                running: at(row.running)?,
                ready: row.ready.and_then(at),
                ends: row.ends.and_then(at),
                done: at(row.done)?,
            })
        });
        rows.collect()
    }
}
