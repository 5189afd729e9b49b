//! How many sessions fit a day, how much water they take, and for how many such days carbon and softener last.
//!
//! By arithmetic on times and litres. Machines side by side are taken to start together, and the highest flow through the
//! carts to hold all the time, which counts the litres of a flush and of surplus product too. Not covered: a session
//! that is broken off and made up for.

use crate::engine::quantity::{
    Flow, Ratio, Time, Volume, days,
    kinds::{NUMBER, RATIO, TIME, VOLUME},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Stage, Stop, Term,
    Working, source,
};
use crate::trade::carbon::CARBON_TEST_DECIDES;
use crate::trade::terms::{carbon, day, machine, softener};
use crate::{sheet, step};

/// The planned sessions against the hours that there are.
pub static DAY_LONG_ENOUGH: Criterion = Criterion {
    id: "day-long-enough",
    sentence: "Running for the sessions of a day, within the hours that there are for them",
    stage: Stage::Day,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["sessions", "day-hours"],
    cases: &[],
    judges: Judges::Output("daily-running-time"),
};

static NOTHING_IS_SHORTENED: Caution = Caution {
    id: "no-time-is-shortened",
    text: "Treatment is prescribed, and the times of rinse, test and disinfection stand in instructions. None of them is ever shortened to fit one more session into a day.",
};

sheet! {
    /// How many sessions fit a day, how many litres they take, and for how many such days carbon and softener last.
    DayPlan, "day-plan", "A day of sessions", Stage::Day,
    sources: &[&source::MASS_BALANCE, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&NOTHING_IS_SHORTENED, &CARBON_TEST_DECIDES],
    criteria: &[&DAY_LONG_ENOUGH],
    inputs: {
        session    "session-time":        Known<Time>   = machine::SESSION_TIME,
        around     "time-around-session": Known<Time>   = day::TIME_AROUND_SESSION,
        hours      "day-hours":           Known<Time>   = day::DAY_HOURS,
        machines   "machines":            Known<f64>    = machine::MACHINES,
        sessions   "sessions":            Option<f64>   = machine::SESSIONS.assumed("as many as fit"),
        flow       "flow":                Known<Flow>   = carbon::HIGHEST_FLOW.named("Highest feed flow, running"),
        product    "product-volume":      Known<Volume> = machine::PRODUCT_VOLUME,
        rated      "rated-volume":        Known<Volume> = carbon::RATED_VOLUME,
        rated_flow "rated-flow":          Option<Flow>  = carbon::RATED_FLOW,
        softened   "volume-between-regenerations": Known<Volume> = softener::VOLUME_BETWEEN_REGENERATIONS,
    }
    outputs Outputs: {
        running  "session-running-time": Known<Time>   = Term::number(&TIME, "Running of the RO for one session", "t_s").units("h", "h"),
        fit      "sessions-that-fit":    Known<f64>    = Term::number(&NUMBER, "Sessions that fit the day, all machines", "n_fit").whole(),
        daily    "daily-running-time":   Known<Time>   = Term::number(&TIME, "Running of the RO in a day", "t_d").units("h", "h"),
        spare    "spare-time":           Known<Time>   = Term::number(&TIME, "Hours of the day that are left", "Δt").units("h", "h"),
        made     "day-volume":           Known<Volume> = Term::number(&VOLUME, "Product water of a day", "V_d"),
        feed     "day-feed-volume":      Known<Volume> = Term::number(&VOLUME, "Water through the carts in a day, at most", "V_f"),
        drained  "day-reject-volume":    Known<Volume> = Term::number(&VOLUME, "Of it to the drain without passing a machine, at most", "V_c"),
        overall  "overall-recovery":     Known<Ratio>  = Term::number(&RATIO, "Recovery of the day, all water counted, at least", "Y_d"),
        litres   "session-litres":       Known<Volume> = Term::number(&VOLUME, "Water through the carbon while a session runs", "V_s"),
        carbon   "carbon-days":          Known<Time>   = Term::number(&TIME, "Days until the litres of the carbon's label have passed", "t_carbon").units("d", "d"),
        softener "softener-days":        Known<Time>   = Term::number(&TIME, "Days that the softener lasts", "t_soft").units("d", "d"),
    }
}

/// So that 12 h are three times 4 h in spite of a rounding in the last digit.
const LAST_DIGITS: f64 = 1e-9;
const NO_TIME: Missing = Missing::none_exists("a session takes no time here, and any number would fit");
const NEVER_RUNS: Missing = Missing::none_exists("the RO does not run on such a day");

impl Evaluate for DayPlan {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let hours = self.hours;
        let running = self.session.and_then(|session| {
            let around = self.around?;
            step!(w, running "t_s" = session + around);
            Ok(running)
        });
        let fit = running.and_then(|running| self.fit(running, w));
        let sessions = self.sessions.map_or(fit, Ok);
        let daily = running.and_then(|running| self.daily(sessions?, running, w));
        let planned = match self.sessions {
            Some(_) => daily,
            None => Err(Missing::not_known("sessions", "how many are planned")),
        };
        w.judge_known(&DAY_LONG_ENOUGH, planned, hours);
        let spare = daily.and_then(|daily| {
            let hours = hours?;
            step!(w, spare "Δt" = hours - daily);
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
        let carbon = self.carbon_days(feed, w);
        let softener = self.softener_days(feed, w);
        Ok(Outputs { running, fit, daily, spare, made, feed, drained, overall, litres, carbon, softener })
    }
}

impl DayPlan {
    /// Whole runs in the hours of the day, on every machine at once.
    fn fit(&self, running: Time, w: &mut Working) -> Known<f64> {
        let hours = self.hours?;
        (running.si() > 0.0).then_some(()).ok_or(NO_TIME)?;
        let possible = (hours / running + LAST_DIGITS).floor();
        w.procedure(("possible", "n_r"), possible, || {
            Sentence::plain("whole runs of {running} that {hours} have room for")
                .quantity("running", running)
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
    fn daily(&self, sessions: f64, running: Time, w: &mut Working) -> Known<Time> {
        let machines = self.machines?;
        let runs = (sessions / machines - LAST_DIGITS).ceil().max(0.0);
        w.bind("running", "t_s", running);
        w.procedure(("runs", "n_d"), runs, || {
            Sentence::plain("sessions of the day over machines at once, the last run counted whole")
        });
        step!(w, daily "t_d" = runs * running);
        Ok(daily)
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
                "the machines would draw {made} in a day, and only {feed} come in at this flow, which cannot be: look at both and at their units",
            );
            let sentence = sentence.quantity("made", made).quantity("feed", feed);
            return Err(Problem::new("product-volume", sentence).into());
        }
        step!(w, drained "V_c" = feed - made);
        Ok(Ok(drained))
    }

    fn carbon_days(&self, feed: Known<Volume>, w: &mut Working) -> Known<Time> {
        let (rated, feed) = (self.rated?, feed?);
        if let (Ok(flow), Some(rated_flow)) = (self.flow, self.rated_flow)
            && flow > rated_flow
        {
            w.warn(
                "rated-flow",
                "above-rated-flow",
                Sentence::plain(
                    "at {flow} the litres of the label, which are for {rated} at most, promise nothing",
                )
                .quantity("flow", flow)
                .quantity("rated", rated_flow),
            );
        }
        (feed.si() > 0.0).then_some(()).ok_or(NEVER_RUNS)?;
        w.bind("feed", "V_f", feed);
        step!(w, carbon "t_carbon" = rated / feed * days(1.0));
        Ok(carbon)
    }

    fn softener_days(&self, feed: Known<Volume>, w: &mut Working) -> Known<Time> {
        let (softened, feed) = (self.softened?, feed?);
        (feed.si() > 0.0).then_some(()).ok_or(NEVER_RUNS)?;
        w.bind("feed", "V_f", feed);
        step!(w, softener "t_soft" = softened / feed * days(1.0));
        if softener < days(1.0) {
            w.warn(
                "volume-between-regenerations", "softener-used-up",
                "used up before the day ends: hard water reaches the membrane unless it is regenerated in between",
            );
        }
        Ok(softener)
    }
}
