//! The order in which a test of total chlorine after the carbon is judged. The first that fits holds: a bad reading stops
//! whatever its validity, and only a pass has to be shown.
//!
//! A reading is compared with the limit as it was read, by the rule, without a guard band. What is no reading but a
//! difference of two, a reading less its blank, carries the errors of both and must stay below the limit with them.

use super::life::is_at_limit;
use crate::choice;
use crate::engine::quantity::{Chlorine, Time, hours, milligrams_per_litre, minutes};
use crate::engine::sheet::Reported;

choice!(/// What follows from the test.
Decision {
    Stop "stop" "Hold: stop using this water, or do not start",
    TestSecond "test-second" "Test after the second carbon (polisher) now. Hold until the result is known",
    NotShown "not-shown" "Test not valid: do not start. Retest now",
    UnderPolicy "under-policy" "Only under the facility's policy: the first carbon (worker) is used up. Test after the second (polisher) every hour",
    Rising "rising" "Below the limit, but rising: retest within the hour, and plan to replace the carbon",
    BelowLimit "below-limit" "Below the limit. Next test at its time",
});

choice!(/// Why.
Reason {
    LastAtLimit "last-at-limit" "0.1 mg/L or more after the last carbon",
    OnlyOneCarbon "only-one-carbon" "0.1 mg/L or more after the only carbon",
    MayBeManganese "may-be-manganese" "0.1 mg/L or more in a supply without chlorine. It is chlorine all the same, or manganese that shows in the test",
    NotAccepted "not-accepted" "A supply without chlorine behind one carbon, and no written acceptance is entered",
    SecondNotTested "second-not-tested" "0.1 mg/L or more after the first carbon, and no test after the second",
    NoReading "no-reading" "No reading after the first carbon",
    NotOfThisSession "not-of-this-session" "The reading is older than the end of the last session",
    Late "late" "The reading is too old",
    AgeNotKnown "age-not-known" "The time of the test or the time now is not entered",
    ShortRun "short-run" "The RO had run for less than 15 minutes before the sample",
    RunNotKnown "run-not-known" "The RO running time before the sample is not entered",
    MethodNotKnown "method-not-known" "The test resolution is not entered",
    CoarseMethod "coarse-method" "The test cannot tell 0.05 from 0.1 mg/L",
    BlankAboveReading "blank-above-reading" "The blank is above the reading by more than both tests can be off: one of them is wrong",
    TooNear "too-near" "The reading less its blank is below 0.1 mg/L, but not by more than both tests can be off",
    FirstAtLimit "first-at-limit" "0.1 mg/L or more after the first carbon, below it after the second",
    FromHalf "from-half-limit" "Below 0.1 mg/L, but 0.05 mg/L or more",
    Shown "shown" "Below 0.05 mg/L, and the test can show it",
});

impl Reason {
    /// In words.
    pub const fn words(self) -> &'static str {
        Self::NAMED[self as usize].name
    }
}

/// A method that is coarser, or less sure, cannot tell 0.05 from 0.1 mg/L. From here on a reading is rising.
const HALF: Chlorine = milligrams_per_litre(0.05);
/// The RO has run so long before a pass is drawn.
pub(super) const RUN_IN: Time = minutes(15.0);
/// Exactly four hours are still in time.
pub(super) const LONGEST_INTERVAL: Time = hours(4.0);
/// While a reading is rising, or the first carbon fails and the second holds.
pub(super) const HOURLY: Time = hours(1.0);

/// One port's reading, as it is judged.
#[derive(Debug, Clone, Copy)]
pub(super) struct Port {
    /// Less its blank, where there is one; never less than nothing.
    pub value: Reported<Chlorine>,
    /// By how much reading and blank may be off together, where a blank was taken off.
    pub errors: Option<Chlorine>,
    /// Whether the blank is above the reading by more than that.
    pub impossible: bool,
}

/// One test, as far as it is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Test {
    pub two: bool,
    pub first: Option<Port>,
    pub second: Option<Port>,
    pub never_chlorinated: bool,
    /// Whether somebody accepted in writing that such a supply is used behind one carbon.
    pub accepted: bool,
    pub run_in: Option<Time>,
    pub age: Option<Time>,
    pub interval: Time,
    pub of_this_session: bool,
    pub step: Option<Chlorine>,
    pub accuracy: Chlorine,
}

impl Test {
    /// A reading less its blank.
    pub fn port(&self, reading: Reported<Chlorine>, blank: Option<Chlorine>) -> Port {
        match (reading, blank) {
            (Reported::Is(read), Some(taken)) => {
                // in full, since both may be off to the same side
                let errors = self.error(read) + self.error(taken);
                let left = (read - taken).max(Chlorine::of(0.0));
                Port {
                    value: Reported::Is(left),
                    errors: Some(errors),
                    impossible: is_more(taken - read, errors),
                }
            }
            _ => Port { value: reading, errors: None, impossible: false },
        }
    }

    /// By how much one reading may be off. The accuracy is that near the limit: of a strong color no test is surer than a
    /// tenth of it (common practice, no source).
    fn error(&self, reading: Chlorine) -> Chlorine {
        self.accuracy.max(reading * 0.1)
    }

    /// Whether a reading is at the limit. On a coarse strip any color at all is.
    pub fn is_bad(&self, port: Port) -> bool {
        match port.value {
            Reported::Is(value) => {
                let is_coarse = self.step.is_some_and(|step| is_more(step, HALF));
                is_at_limit(value) || (is_coarse && value.si() > 0.0)
            }
            Reported::Below(_) => false,
        }
    }

    /// Whether a reading is half of the limit or more.
    fn is_rising(&self, port: Port) -> bool {
        matches!(port.value, Reported::Is(value) if is_at_half(value))
    }

    fn is_any_rising(&self) -> bool {
        [self.first, self.second].into_iter().flatten().any(|port| !self.is_bad(port) && self.is_rising(port))
    }

    /// Why a reading that is not bad shows nothing; none where it shows a pass.
    pub fn fault(&self, port: Port) -> Option<Reason> {
        let Some(age) = self.age else { return Some(Reason::AgeNotKnown) };
        if !self.of_this_session {
            return Some(Reason::NotOfThisSession);
        }
        if age > self.interval_in_force() {
            return Some(Reason::Late);
        }
        match self.run_in {
            None => return Some(Reason::RunNotKnown),
            Some(run_in) if run_in < RUN_IN => return Some(Reason::ShortRun),
            Some(_) => {}
        }
        let Some(step) = self.step else { return Some(Reason::MethodNotKnown) };
        if is_more(step, HALF) || is_more(self.accuracy, HALF) {
            return Some(Reason::CoarseMethod);
        }
        match port.value {
            Reported::Below(bound) if is_more(bound, HALF) => Some(Reason::CoarseMethod),
            Reported::Is(_) if port.impossible => Some(Reason::BlankAboveReading),
            Reported::Is(value) if port.errors.is_some_and(|errors| is_at_limit(value + errors)) => {
                Some(Reason::TooNear)
            }
            Reported::Is(_) | Reported::Below(_) => None,
        }
    }

    /// How old a reading may be: an hour while one is rising, or while the first carbon fails and the second is
    /// relied on.
    pub fn interval_in_force(&self) -> Time {
        let second_is_relied_on = self.second.is_some() && self.first.is_some_and(|first| self.is_bad(first));
        if second_is_relied_on || self.is_any_rising() { self.interval.min(HOURLY) } else { self.interval }
    }

    /// Where nothing is said to be chlorinated, one carbon has no second behind it and the test no dose to be compared
    /// with: that is somebody's written decision.
    pub fn lacks_acceptance(&self) -> bool {
        self.never_chlorinated && !self.two && !self.accepted
    }

    /// The decision with its reason.
    pub fn decide(&self) -> (Decision, Reason) {
        let bad = |port: Option<Port>| port.is_some_and(|port| self.is_bad(port));
        let stop = |port: Option<Port>, reason| {
            let may_be_manganese = self.never_chlorinated && port.is_some_and(|port| port.errors.is_none());
            (Decision::Stop, if may_be_manganese { Reason::MayBeManganese } else { reason })
        };
        if self.two && bad(self.second) {
            return stop(self.second, Reason::LastAtLimit);
        }
        if !self.two && bad(self.first) {
            return stop(self.first, Reason::OnlyOneCarbon);
        }
        if self.lacks_acceptance() {
            return (Decision::Stop, Reason::NotAccepted);
        }
        if bad(self.first) && self.second.is_none() {
            return (Decision::TestSecond, Reason::SecondNotTested);
        }
        let Some(first) = self.first else { return (Decision::NotShown, Reason::NoReading) };
        let relied_on = self.second.filter(|_| bad(self.first)).unwrap_or(first);
        match self.fault(relied_on) {
            Some(fault) => (Decision::NotShown, fault),
            None if bad(self.first) => (Decision::UnderPolicy, Reason::FirstAtLimit),
            None if self.is_any_rising() => (Decision::Rising, Reason::FromHalf),
            None => (Decision::BelowLimit, Reason::Shown),
        }
    }
}

/// Whether it is half of the limit or more, as [`is_at_limit`].
fn is_at_half(value: Chlorine) -> bool {
    is_at_limit(value * 2.0)
}

/// Whether it is really more: a difference may be so by its last bits alone.
fn is_more(value: Chlorine, bound: Chlorine) -> bool {
    value > bound * (1.0 + 1e-9)
}
