//! The order in which a test of total chlorine after the carbon is judged. The first that fits holds: a bad reading stops
//! whatever its validity, and only a pass has to be shown.

use super::life::LIMIT;
use crate::choice;
use crate::engine::quantity::{Chlorine, Time, hours, milligrams_per_litre, minutes};
use crate::engine::sheet::Reported;

choice!(/// What follows from the test.
Decision {
    Stop "stop" "Hold: stop, or do not start",
    TestSecond "test-second" "Test after the second carbon now; hold until it is known",
    NotShown "not-shown" "Nothing is shown: do not start; during a session, test now",
    UnderPolicy "under-policy" "Only under the facility's policy, with the second carbon tested often",
    BelowLimit "below-limit" "Below the limit: the next test at its time",
});

choice!(/// Why.
Reason {
    LastAtLimit "last-at-limit" "After the last carbon it is 0.1 mg/L or more",
    OnlyOneCarbon "only-one-carbon" "After the only carbon it is 0.1 mg/L or more",
    MayBeManganese "may-be-manganese" "0.1 mg/L or more in water that was never chlorinated: chlorine all the same, or manganese that colours the test",
    SecondNotTested "second-not-tested" "After the first carbon it is 0.1 mg/L or more, and nobody tested after the second",
    NoReading "no-reading" "There is no reading after the first carbon",
    NotOfThisSession "not-of-this-session" "The reading is older than the end of the last session",
    Late "late" "The reading is too old",
    AgeNotKnown "age-not-known" "Nobody said when it was read, or what time it is",
    ShortRun "short-run" "The RO had not run for 15 minutes before the sample",
    RunNotKnown "run-not-known" "Nobody said how long the RO had run before the sample",
    MethodNotKnown "method-not-known" "Nobody said how small a step the test can show",
    CoarseMethod "coarse-method" "The test cannot tell 0.05 from 0.1 mg/L",
    TooNear "too-near" "The reading is so near to 0.1 mg/L that the test may be wrong about the side",
    FirstAtLimit "first-at-limit" "After the first carbon it is 0.1 mg/L or more, after the second below",
    Shown "shown" "Below 0.1 mg/L, and the reading can show it",
});

impl Reason {
    /// In words.
    pub const fn words(self) -> &'static str {
        Self::NAMED[self as usize].name
    }
}

/// A method with a coarser step cannot tell 0.05 from 0.1 mg/L.
const FINE: Chlorine = milligrams_per_litre(0.05);
/// The RO has run so long before a pass is drawn.
pub(super) const RUN_IN: Time = minutes(15.0);
/// Exactly four hours are still in time.
pub(super) const LONGEST_INTERVAL: Time = hours(4.0);
/// While the first carbon fails and the second holds.
pub(super) const HOURLY: Time = hours(1.0);

/// One test, as far as it is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Test {
    pub two: bool,
    pub first: Option<Reported<Chlorine>>,
    pub second: Option<Reported<Chlorine>>,
    pub never_chlorinated: bool,
    pub blank: bool,
    pub run_in: Option<Time>,
    pub age: Option<Time>,
    pub interval: Time,
    pub of_this_session: bool,
    pub step: Option<Chlorine>,
    pub uncertainty: Chlorine,
}

impl Test {
    /// Whether a reading is at the limit. On a coarse strip any colour at all is.
    pub fn is_bad(&self, reading: Reported<Chlorine>) -> bool {
        match reading {
            Reported::Is(value) => {
                let is_coarse = self.step.is_some_and(|step| step > FINE);
                is_at_limit(value) || (is_coarse && value.si() > 0.0)
            }
            Reported::Below(_) => false,
        }
    }

    /// Why a reading that is not bad shows nothing; none where it shows a pass.
    pub fn fault(&self, reading: Reported<Chlorine>, interval: Time) -> Option<Reason> {
        let Some(age) = self.age else { return Some(Reason::AgeNotKnown) };
        if !self.of_this_session {
            return Some(Reason::NotOfThisSession);
        }
        if age > interval {
            return Some(Reason::Late);
        }
        match self.run_in {
            None => return Some(Reason::RunNotKnown),
            Some(run_in) if run_in < RUN_IN => return Some(Reason::ShortRun),
            Some(_) => {}
        }
        let Some(step) = self.step else { return Some(Reason::MethodNotKnown) };
        match reading {
            _ if step > FINE => Some(Reason::CoarseMethod),
            Reported::Below(bound) if bound > FINE => Some(Reason::CoarseMethod),
            Reported::Is(value) if is_at_limit(value + self.uncertainty) => Some(Reason::TooNear),
            Reported::Is(_) | Reported::Below(_) => None,
        }
    }

    /// How old a reading of the second port may be: while the first one fails, an hour.
    pub fn interval_of_second(&self) -> Time {
        match self.first {
            Some(first) if self.is_bad(first) => self.interval.min(HOURLY),
            _ => self.interval,
        }
    }

    /// The decision with its reason.
    pub fn decide(&self) -> (Decision, Reason) {
        let bad = |reading: Option<Reported<Chlorine>>| reading.is_some_and(|reading| self.is_bad(reading));
        let stop = |reason| {
            let may_be_manganese = self.never_chlorinated && !self.blank;
            (Decision::Stop, if may_be_manganese { Reason::MayBeManganese } else { reason })
        };
        if self.two && bad(self.second) {
            return stop(Reason::LastAtLimit);
        }
        if !self.two && bad(self.first) {
            return stop(Reason::OnlyOneCarbon);
        }
        if bad(self.first) && self.second.is_none() {
            return (Decision::TestSecond, Reason::SecondNotTested);
        }
        let Some(first) = self.first else { return (Decision::NotShown, Reason::NoReading) };
        let fault = match self.second {
            Some(second) if bad(self.first) => self.fault(second, self.interval_of_second()),
            _ => self.fault(first, self.interval),
        };
        match fault {
            Some(fault) => (Decision::NotShown, fault),
            None if bad(self.first) => (Decision::UnderPolicy, Reason::FirstAtLimit),
            None => (Decision::BelowLimit, Reason::Shown),
        }
    }
}

/// Whether it is 0.1 mg/L or more. A sum or a difference may miss the limit by the last bit of a binary fraction.
fn is_at_limit(value: Chlorine) -> bool {
    value >= LIMIT * (1.0 - 1e-9)
}
