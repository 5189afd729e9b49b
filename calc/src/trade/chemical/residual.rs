//! What the residual tests say: by the disinfectant's own test, against a limit that is no softer than the rule allows, and in the
//! retest only after the water has stood for as long as the instructions ask.

use super::agent::{Agent, TestKind};
use super::rinse::{ACID_RINSED_OUT, RESIDUAL_AFTER_PAUSE, RESIDUAL_AFTER_RINSE, RinseOut};
use crate::engine::quantity::{Concentration, Time};
use crate::engine::sheet::{
    Input, Known, Missing, Problem, Reported, Sentence, Sheet, State, Stop, Value, Working,
};
use crate::trade::run::Answered;

/// Both tests of one rinse.
#[derive(Debug, Clone, Copy)]
pub struct ResidualTests {
    /// Of what.
    pub agent: Known<Agent>,
    /// With which test.
    pub test: Known<TestKind>,
    /// Below which it is rinsed out.
    pub limit: Known<Concentration>,
    /// After the rinse.
    pub now: Known<Reported<Concentration>>,
    /// In the retest.
    pub later: Known<Reported<Concentration>>,
    /// How long the water stood before it.
    pub pause: Known<Time>,
    /// How long the instructions ask.
    pub needed_pause: Known<Time>,
    /// Of citric acid, whether pH and conductivity are back.
    pub baseline: Known<Answered>,
}

impl ResidualTests {
    /// From values under the ids of the sheet's fields.
    pub fn of(value: impl Fn(&str) -> Option<Value>) -> Self {
        fn read<T: Input>(id: &'static str, value: &dyn Fn(&str) -> Option<Value>) -> Known<T> {
            const LOST: Missing = Missing::not_known("", "there is no such field");
            let field = RinseOut::DECLARATION.inputs.iter().find(|field| field.id == id).ok_or(LOST)?;
            T::read(value(id).as_ref(), field)
        }
        Self {
            agent: read("agent", &value),
            test: read("residual-test", &value),
            limit: read("residual-limit", &value),
            now: read("residual-now", &value),
            later: read("residual-later", &value),
            pause: read("pause", &value),
            needed_pause: read("needed-pause", &value),
            baseline: read("back-at-baseline", &value),
        }
    }

    /// Whether nothing is left, after the rinse and in the retest.
    pub fn show_none(&self) -> bool {
        let mut w = Working::judging();
        self.judge(&mut w);
        let is_right = |state: State| matches!(state, State::Met | State::DoesNotApply);
        self.refuse_softer_limit().is_ok() && w.checks().iter().all(|check| is_right(check.state))
    }

    /// Refuses a limit above the one that no label may exceed.
    pub fn refuse_softer_limit(&self) -> Result<(), Stop> {
        let (Ok(agent), Ok(limit)) = (self.agent, self.limit) else { return Ok(()) };
        let Some(softest) = agent.softest_limit().filter(|softest| limit > *softest) else { return Ok(()) };
        let sentence = Sentence::plain(
            "{limit} is a softer limit than the rule for this disinfectant allows: enter {softest} or less, as the label says",
        );
        let sentence = sentence.quantity("limit", limit).quantity("softest", softest);
        Err(Problem::new("residual-limit", sentence).into())
    }

    /// Judges both tests.
    pub fn judge(&self, w: &mut Working) {
        let stood = self.stood();
        if self.agent == Ok(Agent::CitricAcid) {
            w.does_not_apply::<Concentration>(&RESIDUAL_AFTER_RINSE, &ACID_RINSED_OUT, None);
            w.does_not_apply::<Concentration>(&RESIDUAL_AFTER_PAUSE, &ACID_RINSED_OUT, None);
            let back = self.baseline.map(|answer| answer == Answered::Yes);
            let is_met = back.and_then(|back| if back { stood.map(|()| true) } else { Ok(false) });
            w.judge_answer(&ACID_RINSED_OUT, is_met);
            return;
        }
        // what is too much by the softest limit that there may be is too much, whatever the label says
        let softest = self.agent.ok().and_then(Agent::softest_limit);
        let valid = self.is_own_test();
        let mut one = |criterion, found: Known<Reported<Concentration>>, valid: Known<()>, field| {
            let is_over = |limit: Concentration| {
                found.is_ok_and(|found| matches!(found, Reported::Is(value) if onto(value, limit) >= limit))
            };
            let limit = match (self.limit, softest) {
                (Err(_), Some(softest)) if is_over(softest) => Ok(softest),
                (limit, _) => limit,
            };
            // too much is too much by any test; only a pass needs the right one
            let shown = match (found, limit) {
                (Ok(found), Ok(limit)) if is_over(limit) => Ok(found),
                (found, _) => {
                    found.and_then(|found| valid.map(|()| found)).and_then(|found| read_as(found, field))
                }
            };
            match (shown, limit) {
                (Ok(found), Ok(limit)) => {
                    w.judge_reported(criterion, found.map(|found| onto(found, limit)), limit, field)
                }
                (found, limit) => w.judge_known(criterion, found.map(Reported::at_most), limit),
            }
        };
        one(&RESIDUAL_AFTER_RINSE, self.now, valid, "residual-now");
        one(&RESIDUAL_AFTER_PAUSE, self.later, valid.and(stood), "residual-later");
    }

    fn is_own_test(&self) -> Known<()> {
        let (agent, test) = (self.agent?, self.test?);
        if agent.is_shown_by(test) {
            Ok(())
        } else {
            Err(Missing::not_known("residual-test", agent.needs_test()))
        }
    }

    /// Whether the water stood for as long as the instructions ask.
    fn stood(&self) -> Known<()> {
        let (pause, needed) = (self.pause?, self.needed_pause?);
        if pause >= needed {
            Ok(())
        } else {
            Err(Missing::not_known(
                "pause",
                "the water has not stood for as long as the instructions require: wait, then retest",
            ))
        }
    }
}

/// A value that differs from the limit by the last bits of a conversion is the limit itself.
fn onto(value: Concentration, limit: Concentration) -> Concentration {
    if (value.si() - limit.si()).abs() <= 1e-12 * limit.si() { limit } else { value }
}

/// A test never reads nothing at all: it reads less than its smallest step.
fn read_as(found: Reported<Concentration>, field: &'static str) -> Known<Reported<Concentration>> {
    match found {
        Reported::Is(value) if value.si() == 0.0 => Err(Missing::not_known(
            field,
            "no test shows exactly 0: enter “<” and the smallest amount that it can show",
        )),
        found => Ok(found),
    }
}
