//! What the residual tests say: by the agent's own test, against a limit that is no softer than the rule allows, and in the
//! retest only after the water has stood for as long as the instructions ask.

use super::agent::Agent;
use super::rinse::{ACID_RINSED_OUT, RESIDUAL_AFTER_PAUSE, RESIDUAL_AFTER_RINSE, RinseOut};
use crate::engine::quantity::{Concentration, Time};
use crate::engine::sheet::{Known, Missing, Problem, Reported, Sentence, Stop, Working};
use crate::trade::run::Answered;

/// Refuses a limit above the one that no label may exceed.
pub fn refuse_softer_limit(agent: Known<Agent>, limit: Known<Concentration>) -> Result<(), Stop> {
    let (Ok(agent), Ok(limit)) = (agent, limit) else { return Ok(()) };
    let Some(softest) = agent.softest_limit().filter(|softest| limit > *softest) else { return Ok(()) };
    let sentence =
        Sentence::plain("{limit} is a softer limit than the rule for this agent allows: enter {softest} or less, as the label says")
            .quantity("limit", limit)
            .quantity("softest", softest);
    Err(Problem::new("residual-limit", sentence).into())
}

/// Judges both tests.
pub fn judge(rinse: &RinseOut, w: &mut Working) {
    let stood = stood(rinse.pause, rinse.needed_pause);
    if rinse.agent == Ok(Agent::CitricAcid) {
        w.does_not_apply::<Concentration>(&RESIDUAL_AFTER_RINSE, &ACID_RINSED_OUT, None);
        w.does_not_apply::<Concentration>(&RESIDUAL_AFTER_PAUSE, &ACID_RINSED_OUT, None);
        let back = rinse.baseline.map(|answer| answer == Answered::Yes);
        let is_met = back.and_then(|back| if back { stood.map(|()| true) } else { Ok(false) });
        w.judge_answer(&ACID_RINSED_OUT, is_met);
        return;
    }
    // what is too much by the softest limit that there may be is too much, whatever the label says
    let softest = rinse.agent.ok().and_then(Agent::softest_limit);
    let valid = is_own_test(rinse);
    let mut one = |criterion, found: Known<Reported<Concentration>>, valid: Known<()>, field| {
        let is_over = |limit: Concentration| {
            found.is_ok_and(|found| matches!(found, Reported::Is(value) if value >= limit))
        };
        let limit = match (rinse.limit, softest) {
            (Err(_), Some(softest)) if is_over(softest) => Ok(softest),
            (limit, _) => limit,
        };
        // too much is too much by any test; only a pass needs the right one
        let shown = match (found, limit) {
            (Ok(found), Ok(limit)) if is_over(limit) => Ok(found),
            (found, _) => found.and_then(|found| valid.map(|()| found)).and_then(|found| read(found, field)),
        };
        match (shown, limit) {
            (Ok(found), Ok(limit)) => w.judge_reported(criterion, found, limit, field),
            (found, limit) => w.judge_known(criterion, found.map(Reported::at_most), limit),
        }
    };
    one(&RESIDUAL_AFTER_RINSE, rinse.now, valid, "residual-now");
    one(&RESIDUAL_AFTER_PAUSE, rinse.later, valid.and(stood), "residual-later");
}

/// A test never reads nothing at all: it reads less than its smallest step.
fn read(found: Reported<Concentration>, field: &'static str) -> Known<Reported<Concentration>> {
    match found {
        Reported::Is(value) if value.si() == 0.0 => Err(Missing::not_known(
            field,
            "no test shows exactly 0: enter “<” and the smallest amount that it can show",
        )),
        found => Ok(found),
    }
}

fn is_own_test(rinse: &RinseOut) -> Known<()> {
    let (agent, test) = (rinse.agent?, rinse.kind?);
    if agent.is_shown_by(test) {
        Ok(())
    } else {
        Err(Missing::not_known("residual-test", agent.needs_test()))
    }
}

/// Whether the water stood for as long as the instructions ask.
fn stood(pause: Known<Time>, needed: Known<Time>) -> Known<()> {
    let (pause, needed) = (pause?, needed?);
    if pause >= needed {
        Ok(())
    } else {
        Err(Missing::not_known(
            "pause",
            "the water has not stood for as long as the instructions ask: wait, then retest",
        ))
    }
}
