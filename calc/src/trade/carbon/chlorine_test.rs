//! Total chlorine after the carbon: what a test shows, what to do, and when the next one is due.
//!
//! Rests on 42 CFR 494.40(b)(2) and AAMI guidance as recalled and quoted (a first port at the limit needs a second below
//! it, hourly tests, a new first carbon), on 25 TAC 117.32 for the four hours and the test before every session. The limit
//! is passed strictly: 0.1 mg/L is action. Nothing here says that water may be used; the medical director does.

use super::chlorine_decision::{Decision, LONGEST_INTERVAL, Port, RUN_IN, Reason, Test};
use super::contact_time::ONE_CARBON;
use super::life::LIMIT;
use crate::engine::calendar::Moment;
use crate::engine::quantity::{Chlorine, Time, kinds::TIME, milligrams_per_litre};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Reported, Sentence, Side, Stage, Stop,
    Term, Working, source,
};
use crate::trade::plan::Disinfectant;
use crate::trade::tap::COLOUR_IS_NOT_ALWAYS_CHLORINE;
use crate::trade::terms::{chlorine, moment, place};
use crate::{choice, output_row, sheet, step};
use chrono::NaiveDate;

choice!(/// How many carbons are in series, with a port to test after each.
    Carbons { One "one" "One", Two "two" "Two, in series" });

choice!(/// What to do, in this order.
Action {
    WaterOff "water-off" "Stop using this water. Put the dialysis machine in bypass and tell the nurse in charge",
    TellDirector "tell-director" "Tell the medical director at once",
    NoStoredWater "no-stored-water" "Do not use stored water that was not tested itself",
    Correct "correct" "Correct the cause and confirm it by a new test",
    TestSecondNow "test-second-now" "Test after the second carbon (polisher) now",
    TestNow "test-now" "Run the RO for 15 minutes at its usual flow and retest. During a session: retest now; if that is not possible, put the dialysis machine in bypass and tell the nurse in charge",
    BetterMethod "better-method" "Use a test that can tell 0.05 from 0.1 mg/L: resolution and accuracy 0.05 mg/L or better",
    Blank "interference-blank" "Repeat the test with its interference blank. Record both readings",
    Accept "written-acceptance" "Hold until the medical director accepts in writing that this supply is used behind one carbon, or fit a second carbon",
    SecondHourly "second-hourly" "Test after the second carbon (polisher) at least every hour",
    RetestHourly "retest-hourly" "Retest within the hour, and every hour while it is 0.05 mg/L or more",
    ReplaceFirst "replace-first" "Replace the first carbon (worker) within 24 hours, on a cart before the next session: take it out, move the second carbon (polisher) to first place, put the new one in second place",
    TestBoth "test-both" "After the change, test after both carbons before the water is used",
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
    judges: Judges::NoOutput,
};

/// Judged on the port after the first of two.
pub static AFTER_FIRST_CARBON: Criterion = Criterion {
    id: "chlorine-after-first-carbon",
    sentence: "Total chlorine after the first carbon (worker)",
    ..AFTER_LAST_CARBON
};

static RUN_BEFORE: Criterion = Criterion {
    id: "run-in-time",
    sentence: "RO running time before the sample",
    side: Side::AtLeast,
    source: &source::AAMI_RD52,
    ..AFTER_LAST_CARBON
};

static TEST_AGE: Criterion = Criterion {
    id: "test-age",
    sentence: "Time since the test",
    side: Side::AtMost,
    source: &source::TAC_117_32,
    judges: Judges::Output("test-age"),
    ..AFTER_LAST_CARBON
};

static LIMIT_IS_ACTION: Caution = Caution {
    id: "limit-is-action",
    text: "A reading of exactly 0.1 mg/L needs action: it is not a pass. Printed tables differ, and the stricter one counts here. Chloramine in the water destroys blood cells within one session. The facility's policy and the medical director take precedence over this sheet.",
};

static SECOND_BECOMES_FIRST: Caution = Caution {
    id: "second-becomes-first",
    text: "The second carbon (polisher) that moves to first place is partly used: it lasts for less than a new one. Where the instructions of the RO or its carbons say otherwise, follow them (common practice, no source).",
};

static RISING: Caution = Caution {
    id: "chlorine-rising",
    text: "A reading from 0.05 mg/L up to the limit is met by the rule, and the test may be off by the rest. The carbon is being used up: retest every hour, and have the replacement ready.",
};

static NO_CHLORINE_TODAY: Caution = Caution {
    id: "no-chlorine-today",
    text: "A supply without chlorine can be chlorinated any day: a well after a shock chlorination, a public supply when the utility decides so. Behind one carbon nothing else would hold it back.",
};

sheet! {
    /// What a total chlorine test after the carbon shows, what to do, and when the next test is due.
    ChlorineTest, "chlorine-test", "Total chlorine test after the carbon", Stage::Carbon,
    also: &["chloramine", "DPD", "strips", "breakthrough"],
    sources: &[&source::CFR_494_40, &source::AMATO_2001, &source::TAC_117_32, &source::AAMI_RD52, &source::ISO_23500_3, &source::STANDARD_METHODS_4500_CL],
    cautions: &[&LIMIT_IS_ACTION],
    criteria: &[&AFTER_LAST_CARBON, &AFTER_FIRST_CARBON, &RUN_BEFORE, &TEST_AGE],
    inputs: {
        carbons      "carbons-in-series":      Carbons                    = Term::other("Carbons in series").help("Count a carbon only if it has its own sample port after it."),
        first        "chlorine-after-first":   Option<Reported<Chlorine>> = chlorine::AFTER_FIRST,
        second       "chlorine-after-second":  Option<Reported<Chlorine>> = chlorine::AFTER_SECOND,
        step_shown   "smallest-step":          Known<Chlorine>            = chlorine::SMALLEST_STEP,
        accuracy     "test-uncertainty":       Option<Chlorine>           = chlorine::TEST_UNCERTAINTY,
        run_in       "run-in-time":            Known<Time>                = chlorine::RUN_IN_TIME,
        tested       "tested-at":              Known<Moment>              = Term::other("Time of the test").help("When the sample was read, with the offset from UTC: 2026-11-12T08:30+01:00."),
        now          "now":                    Known<Moment>              = moment::NOW,
        last_session "last-session-end":       Option<Moment>             = Term::other("End of the last session").help("A test before that time does not count for the next session.").assumed("no session since the test"),
        interval     "test-interval":          Option<Time>               = chlorine::TEST_INTERVAL,
        clock_change "clock-change":           Option<Moment>             = moment::CLOCK_CHANGE,
        disinfectant "disinfectant":           Option<Disinfectant>       = place::DISINFECTANT.assumed("chlorine or chloramine: every reading counts as chlorine"),
        blank        "interference-blank":     Option<Chlorine>           = chlorine::INTERFERENCE_BLANK.assumed("no blank: every reading counts as chlorine"),
        acceptance   "acceptance-date":        Option<NaiveDate>          = chlorine::ACCEPTANCE_DATE,
    }
    outputs Outputs: {
        decision "decision":          Decision      = Term::other("Result of the test"),
        reason   "decision-reason":   Reason        = Term::other("Why"),
        to_do    "to-do":             Vec<ToDo>     = Term::other("What to do"),
        age      "test-age":          Known<Time>   = Term::number(&TIME, "Age of the test", "t_age").units("h", "h"),
        next     "next-test":         Known<Moment> = Term::other("Next test due"),
        left     "time-to-next-test": Known<Time>   = Term::number(&TIME, "Time left until the next test", "t_left").units("min", "min"),
    }
}

impl Evaluate for ChlorineTest {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let two = self.carbons == Carbons::Two;
        if self.second.is_some() && !two {
            return Err(Problem::new(
                "chlorine-after-second",
                "there is only one carbon: choose two carbons, or clear this reading",
            )
            .into());
        }
        if !two {
            w.caution(&ONE_CARBON);
        }
        self.check_acceptance()?;
        let age = self.age(w)?;
        let test = self.test(age, w);
        let (decision, reason) = test.decide();
        match decision {
            Decision::UnderPolicy => w.caution(&SECOND_BECOMES_FIRST),
            Decision::Rising => w.caution(&RISING),
            _ => {}
        }
        self.judge(&test, decision, w);
        let interval = test.interval_in_force();
        w.judge_known(&RUN_BEFORE, self.run_in, Ok(RUN_IN));
        w.judge_known(&TEST_AGE, age, Ok(interval));
        let next = self.next(decision, interval);
        let left = next.and_then(|_| {
            let age = age?;
            w.bind("interval", "t_4", interval);
            step!(w, left "t_left" = interval - age);
            Ok(left)
        });
        Ok(Outputs { decision, reason, to_do: to_do(decision, reason), age, next, left })
    }
}

impl ChlorineTest {
    /// Nobody can have accepted the supply on a day that is still to come.
    fn check_acceptance(&self) -> Result<(), Stop> {
        let is_to_come = |accepted: NaiveDate| self.now.is_ok_and(|now| accepted > now.date());
        if self.acceptance.is_some_and(is_to_come) {
            let sentence = "the date of the written acceptance is later than today: check both dates";
            return Err(Problem::new("acceptance-date", sentence).into());
        }
        Ok(())
    }

    /// The time that has gone by since the test, over midnight and over a change of the clock.
    fn age(&self, w: &mut Working) -> Result<Known<Time>, Stop> {
        let (Ok(now), Ok(tested)) = (self.now, self.tested) else {
            return Ok(Err(self.now.err().or(self.tested.err()).unwrap_or(Missing::not_known("now", ""))));
        };
        let age = now.since(tested);
        if age.si() < 0.0 {
            return Err(Problem::new(
                "tested-at",
                "the time of the test is later than the time now: check the date, the clock and the offset of both",
            )
            .into());
        }
        w.procedure(("age", "t_age"), age, || {
            Sentence::plain("from the time of the test to the time now, both in UTC")
        });
        Ok(Ok(age))
    }

    /// Readings less what the blank shows where nothing was ever chlorinated; there alone a color may be something else.
    fn test(&self, age: Known<Time>, w: &mut Working) -> Test {
        let never_chlorinated = self.disinfectant == Some(Disinfectant::None);
        if never_chlorinated {
            w.caution(&COLOUR_IS_NOT_ALWAYS_CHLORINE);
            if self.carbons == Carbons::One {
                w.caution(&NO_CHLORINE_TODAY);
            }
        }
        let blank = self.blank.filter(|_| never_chlorinated);
        if let Some(blank) = blank {
            let sentence =
                Sentence::plain("the blank of {blank} is subtracted from each reading: record both readings");
            w.warn("interference-blank", "blank-taken-off", sentence.quantity("blank", blank));
        } else if self.blank.is_some() {
            w.warn("interference-blank", "blank-not-taken-off", "the blank is not subtracted: where the supply is chlorinated, every reading counts as chlorine");
        }
        let half_step = self.step_shown.map_or(0.0, |step| step.si() / 2.0);
        let usual = milligrams_per_litre(0.03).max(Chlorine::of(half_step));
        let test = Test {
            two: self.carbons == Carbons::Two,
            first: None,
            second: None,
            never_chlorinated,
            accepted: self.acceptance.is_some(),
            run_in: self.run_in.ok(),
            age: age.ok(),
            interval: self.interval.unwrap_or(LONGEST_INTERVAL),
            of_this_session: self.tested.is_err()
                || self.last_session.is_none_or(|end| self.tested.is_ok_and(|tested| tested >= end)),
            step: self.step_shown.ok(),
            accuracy: self.accuracy.unwrap_or(usual),
        };
        let port = |reading: Reported<Chlorine>| test.port(reading, blank);
        Test { first: self.first.map(port), second: self.second.map(port), ..test }
    }

    /// A reading at the limit is judged by its number, a pass by whether it is shown.
    fn judge(&self, test: &Test, decision: Decision, w: &mut Working) {
        let mut judge = |criterion, port: Option<Port>, field| match port {
            None => {
                w.judge_known(criterion, Err(Missing::not_known(field, "no test there")), Ok(LIMIT));
            }
            // a color on a coarse strip stands for the limit at least
            Some(port) if test.is_bad(port) => w.judge(criterion, port.value.at_most().max(LIMIT), LIMIT),
            Some(_) if test.lacks_acceptance() => {
                let hold = Missing::not_known("acceptance-date", Reason::NotAccepted.words());
                w.judge_known(criterion, Err(hold), Ok(LIMIT));
            }
            Some(port) => match test.fault(port) {
                Some(fault) => {
                    w.judge_known(criterion, Err(Missing::not_known(field, fault.words())), Ok(LIMIT));
                }
                None => w.judge_reported(criterion, port.value, LIMIT, field),
            },
        };
        if !test.two {
            judge(&AFTER_LAST_CARBON, test.first, "chlorine-after-first");
            return;
        }
        judge(&AFTER_FIRST_CARBON, test.first, "chlorine-after-first");
        let first_is_enough = matches!(decision, Decision::BelowLimit | Decision::Rising);
        if first_is_enough && test.second.is_none() {
            w.does_not_apply(&AFTER_LAST_CARBON, &AFTER_FIRST_CARBON, None::<(Chlorine, Chlorine)>);
        } else {
            judge(&AFTER_LAST_CARBON, test.second, "chlorine-after-second");
        }
    }

    /// The clock time of the next test, by the clock that is in force then as far as it is known.
    fn next(&self, decision: Decision, interval: Time) -> Known<Moment> {
        match decision {
            Decision::Stop | Decision::TestSecond | Decision::NotShown => Err(Missing::none_exists(
                "no pass is shown: the next test is now, or before the RO is used again",
            )),
            Decision::UnderPolicy | Decision::Rising | Decision::BelowLimit => {
                let (tested, now) = (self.tested?, self.now?);
                let next = tested
                    .after(interval)
                    .ok_or(Missing::none_exists("that is beyond the calendar"))?
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
        (Decision::Stop, Reason::NotAccepted) => &[WaterOff, TellDirector, Accept],
        (Decision::Stop, Reason::MayBeManganese) => &[WaterOff, TellDirector, NoStoredWater, Blank, Correct],
        (Decision::Stop, _) => &[WaterOff, TellDirector, NoStoredWater, Correct],
        (Decision::TestSecond, _) => &[WaterOff, TestSecondNow],
        (Decision::NotShown, Reason::CoarseMethod | Reason::TooNear | Reason::MethodNotKnown) => {
            &[TestNow, BetterMethod]
        }
        (Decision::NotShown, _) => &[TestNow],
        (Decision::UnderPolicy, _) => &[TellDirector, SecondHourly, ReplaceFirst, TestBoth, NextTest],
        (Decision::Rising, _) => &[RetestHourly, NextTest],
        (Decision::BelowLimit, _) => &[NextTest],
    };
    actions.iter().map(|&action| ToDo { action }).collect()
}
