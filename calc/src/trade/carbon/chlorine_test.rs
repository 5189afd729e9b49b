//! Total chlorine after the carbon: what a test shows, what to do, and when the next one is due.
//!
//! Rests on 42 CFR 494.40(b)(2) and AAMI guidance as recalled and quoted (a first port at the limit needs a second below
//! it, hourly tests, a new first carbon), on 25 TAC 117.32 for the four hours and the test before every session. The limit
//! is passed strictly: 0.1 mg/L is action. Nothing here says that water may be used; the medical director does.

use super::chlorine_decision::{Decision, LONGEST_INTERVAL, RUN_IN, Reason, Test};
use super::life::LIMIT;
use crate::engine::calendar::Moment;
use crate::engine::quantity::{Chlorine, Time, kinds::TIME, milligrams_per_litre};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Known, Missing, Problem, Reported, Sentence, Side, Stage, Stop, Term,
    Working, source,
};
use crate::trade::plan::Disinfectant;
use crate::trade::tap::COLOUR_IS_NOT_ALWAYS_CHLORINE;
use crate::trade::terms::{chlorine, moment, place};
use crate::{choice, output_row, sheet, step};

choice!(/// How many carbons are in series, with a port to test after each.
    Carbons { One "one" "One", Two "two" "Two, in series" });

choice!(/// What to do, in this order.
Action {
    WaterOff "water-off" "Take the dialysis machine off this water, and the patient off dialysis fluid (bypass)",
    TellDirector "tell-director" "Tell the medical director at once",
    NoStoredWater "no-stored-water" "Use no stored water that was not tested itself",
    Correct "correct" "Correct the cause and confirm it by a new test, or end the treatment",
    TestSecondNow "test-second-now" "Test after the second carbon now",
    TestNow "test-now" "Run the RO for 15 minutes at its usual flow and test again; in a session, take the patient off dialysis fluid if it cannot be tested at once",
    BetterMethod "better-method" "Test by a method that can tell 0.05 from 0.1 mg/L and is surer than 0.03 mg/L",
    Blank "interference-blank" "Repeat the test with its interference blank, and write down both",
    SecondHourly "second-hourly" "Test after the second carbon every hour at least",
    ReplaceFirst "replace-first" "Replace the first carbon: within 24 hours, on a cart before the next session",
    NextTest "next-test" "Test again at the time below, and before the next session",
});

output_row! {
    /// One thing to do.
    ToDo { action "action": Action = Term::other("What to do"), }
}

/// Judged on the port after the last carbon.
pub static AFTER_LAST_CARBON: Criterion = Criterion {
    id: "chlorine-after-last-carbon",
    sentence: "Total chlorine after the last carbon",
    stage: Stage::Carbon,
    side: Side::Below,
    forecast: false,
    source: &source::CFR_494_40,
    levers: &[],
    cases: &[],
};

/// Judged on the port after the first of two.
pub static AFTER_FIRST_CARBON: Criterion = Criterion {
    id: "chlorine-after-first-carbon",
    sentence: "Total chlorine after the first of two carbons",
    ..AFTER_LAST_CARBON
};

static RUN_BEFORE: Criterion = Criterion {
    id: "run-in-time",
    sentence: "Running at the usual flow before the sample",
    side: Side::AtLeast,
    source: &source::AAMI_RD52,
    ..AFTER_LAST_CARBON
};

static TEST_AGE: Criterion = Criterion {
    id: "test-age",
    sentence: "Time since the test",
    side: Side::AtMost,
    source: &source::TAC_117_32,
    ..AFTER_LAST_CARBON
};

static LIMIT_IS_ACTION: Caution = Caution {
    id: "limit-is-action",
    text: "A reading of exactly 0.1 mg/L is action, not a pass: printed tables differ, and the stricter reading is taken. Chloramine in the water destroys blood cells within one session. The facility's policy and the medical director go before this sheet.",
};

static ONE_CARBON: Caution = Caution {
    id: "one-carbon",
    text: "With a single carbon there is no second barrier: it is allowed only where local rules say so for portable systems, with a test before every session.",
};

sheet! {
    /// What a test of total chlorine after the carbon shows, what to do, and the clock time of the next test.
    ChlorineTest, "chlorine-test", "Chlorine test after the carbon", Stage::Carbon,
    sources: &[&source::CFR_494_40, &source::AMATO_2001, &source::TAC_117_32, &source::AAMI_RD52, &source::ISO_23500_3, &source::STANDARD_METHODS_4500_CL],
    cautions: &[&LIMIT_IS_ACTION],
    criteria: &[&AFTER_LAST_CARBON, &AFTER_FIRST_CARBON, &RUN_BEFORE, &TEST_AGE],
    inputs: {
        carbons      "carbons-in-series":      Carbons                    = Term::other("Carbons in series").help("Count only what has a port of its own to test after it."),
        first        "chlorine-after-first":   Option<Reported<Chlorine>> = chlorine::AFTER_FIRST,
        second       "chlorine-after-second":  Option<Reported<Chlorine>> = chlorine::AFTER_SECOND,
        step_shown   "smallest-step":          Known<Chlorine>            = chlorine::SMALLEST_STEP,
        uncertainty  "test-uncertainty":       Option<Chlorine>           = chlorine::TEST_UNCERTAINTY,
        run_in       "run-in-time":            Known<Time>                = chlorine::RUN_IN_TIME,
        tested       "tested-at":              Known<Moment>              = Term::other("When the sample was read").help("With the offset from UTC, such as 2026-11-12T08:30+01:00."),
        now          "now":                    Known<Moment>              = moment::NOW,
        last_session "last-session-end":       Option<Moment>             = Term::other("When the last session before this one ended").help("A test before that moment is none of this session.").assumed("no session since the test"),
        interval     "test-interval":          Option<Time>               = chlorine::TEST_INTERVAL,
        clock_change "clock-change":           Option<Moment>             = moment::CLOCK_CHANGE,
        disinfectant "disinfectant":           Option<Disinfectant>       = place::DISINFECTANT.assumed("chlorine or chloramine: every reading is taken as chlorine"),
        blank        "interference-blank":     Option<Chlorine>           = chlorine::INTERFERENCE_BLANK.assumed("no blank: every colour is taken as chlorine"),
    }
    outputs Outputs: {
        decision "decision":          Decision      = Term::other("What the test says"),
        reason   "decision-reason":   Reason        = Term::other("Why"),
        to_do    "to-do":             Vec<ToDo>     = Term::other("What to do"),
        age      "test-age":          Known<Time>   = Term::number(&TIME, "Time since the test", "t_age").units("h", "h"),
        next     "next-test":         Known<Moment> = Term::other("Next test, at the latest"),
        left     "time-to-next-test": Known<Time>   = Term::number(&TIME, "Time until the next test", "t_left").units("min", "min"),
    }
}

impl Evaluate for ChlorineTest {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let two = self.carbons == Carbons::Two;
        if self.second.is_some() && !two {
            return Err(Problem::new(
                "chlorine-after-second",
                "there is one carbon only: say that there are two, or take this reading out",
            )
            .into());
        }
        if !two {
            w.caution(&ONE_CARBON);
        }
        let age = self.age(w)?;
        let interval = self.interval.unwrap_or(LONGEST_INTERVAL);
        let test = self.test(age, interval, w);
        let (decision, reason) = test.decide();
        self.judge(&test, decision, w);
        w.judge_known(&RUN_BEFORE, self.run_in, Ok(RUN_IN));
        w.judge_known(&TEST_AGE, age, Ok(interval));
        let interval = match decision {
            Decision::UnderPolicy => test.interval_of_second(),
            _ => interval,
        };
        let next = self.next(decision, interval);
        let left = next.and_then(|_| {
            let age = age?;
            w.bind("interval_now", "t_4", interval);
            let interval_now = interval;
            step!(w, left "t_left" = interval_now - age);
            (left.si() >= 0.0).then_some(left).ok_or(Missing::none_exists("it is due now"))
        });
        Ok(Outputs { decision, reason, to_do: to_do(decision, reason), age, next, left })
    }
}

impl ChlorineTest {
    /// The time that has gone by since the test, over midnight and over a change of the clock.
    fn age(&self, w: &mut Working) -> Result<Known<Time>, Stop> {
        let (Ok(now), Ok(tested)) = (self.now, self.tested) else {
            return Ok(Err(self.now.err().or(self.tested.err()).unwrap_or(Missing::not_known("now", ""))));
        };
        let age = now.since(tested);
        if age.si() < 0.0 {
            return Err(Problem::new(
                "tested-at",
                "the test lies after the present moment: look at date, clock and offset of both",
            )
            .into());
        }
        w.procedure(("age", "t_age"), age, || {
            Sentence::plain("from one moment to the other, both brought to UTC")
        });
        Ok(Ok(age))
    }

    /// Readings less what the blank shows where nothing was ever chlorinated; there alone a colour may be something else.
    fn test(&self, age: Known<Time>, interval: Time, w: &mut Working) -> Test {
        let never_chlorinated = self.disinfectant == Some(Disinfectant::None);
        if never_chlorinated {
            w.caution(&COLOUR_IS_NOT_ALWAYS_CHLORINE);
        }
        let blank = self.blank.filter(|_| never_chlorinated);
        if let Some(blank) = blank {
            w.warn(
                "interference-blank",
                Sentence::plain(
                    "interference shown by the blank: {blank} were taken off the readings; write down both",
                )
                .quantity("blank", blank),
            );
        } else if self.blank.is_some() {
            w.warn("interference-blank", "the blank was not taken off: where the supply is chlorinated, every colour counts as chlorine");
        }
        let corrected = |reading: Reported<Chlorine>| match (blank, reading) {
            (Some(blank), Reported::Is(value)) => Reported::Is((value - blank).max(Chlorine::of(0.0))),
            _ => reading,
        };
        let half_step = self.step_shown.map_or(0.0, |step| step.si() / 2.0);
        let usual = milligrams_per_litre(0.03).max(Chlorine::of(half_step));
        Test {
            two: self.carbons == Carbons::Two,
            first: self.first.map(corrected),
            second: self.second.map(corrected),
            never_chlorinated,
            blank: blank.is_some(),
            run_in: self.run_in.ok(),
            age: age.ok(),
            interval,
            of_this_session: self.tested.is_err()
                || self.last_session.is_none_or(|end| self.tested.is_ok_and(|tested| tested >= end)),
            step: self.step_shown.ok(),
            uncertainty: self.uncertainty.unwrap_or(usual),
        }
    }

    /// A reading at the limit is judged by its number, a pass by whether it is shown.
    fn judge(&self, test: &Test, decision: Decision, w: &mut Working) {
        let mut port = |criterion, reading: Option<Reported<Chlorine>>, interval, field| match reading {
            None => {
                w.judge_known(criterion, Err(Missing::not_known(field, "nobody tested there")), Ok(LIMIT))
            }
            // a colour on a coarse strip stands for the limit at least
            Some(reading) if test.is_bad(reading) => w.judge(criterion, reading.at_most().max(LIMIT), LIMIT),
            Some(reading) => match test.fault(reading, interval) {
                Some(fault) => {
                    w.judge_known(criterion, Err(Missing::not_known(field, fault.words())), Ok(LIMIT))
                }
                None => w.judge_reported(criterion, reading, LIMIT, field),
            },
        };
        if test.two {
            port(&AFTER_FIRST_CARBON, test.first, test.interval, "chlorine-after-first");
            if decision == Decision::BelowLimit && test.second.is_none() {
                w.does_not_apply(&AFTER_LAST_CARBON, &AFTER_FIRST_CARBON, None::<(Chlorine, Chlorine)>);
                return;
            }
            port(&AFTER_LAST_CARBON, test.second, test.interval_of_second(), "chlorine-after-second");
        } else {
            port(&AFTER_LAST_CARBON, test.first, test.interval, "chlorine-after-first");
        }
    }

    /// The clock time of the next test, by the clock that is in force then as far as it is known.
    fn next(&self, decision: Decision, interval: Time) -> Known<Moment> {
        match decision {
            Decision::Stop | Decision::TestSecond | Decision::NotShown => Err(Missing::none_exists(
                "no pass is shown: the next test is now, or before anything starts again",
            )),
            Decision::UnderPolicy | Decision::BelowLimit => {
                let (tested, now) = (self.tested?, self.now?);
                let next = tested
                    .after(interval)
                    .ok_or(Missing::none_exists("it lies beyond the calendar"))?
                    .by_clock_of(now);
                Ok(match self.clock_change {
                    Some(change) if next >= change && change > now => next.by_clock_of(change),
                    _ => next,
                })
            }
        }
    }
}

fn to_do(decision: Decision, reason: Reason) -> Vec<ToDo> {
    use Action::*;
    let actions: &[Action] = match (decision, reason) {
        (Decision::Stop, Reason::MayBeManganese) => &[WaterOff, TellDirector, NoStoredWater, Blank, Correct],
        (Decision::Stop, _) => &[WaterOff, TellDirector, NoStoredWater, Correct],
        (Decision::TestSecond, _) => &[WaterOff, TestSecondNow],
        (Decision::NotShown, Reason::CoarseMethod | Reason::TooNear | Reason::MethodNotKnown) => {
            &[TestNow, BetterMethod]
        }
        (Decision::NotShown, _) => &[TestNow],
        (Decision::UnderPolicy, _) => &[TellDirector, SecondHourly, ReplaceFirst, NextTest],
        (Decision::BelowLimit, _) => &[NextTest],
    };
    actions.iter().map(|&action| ToDo { action }).collect()
}
