//! Empty bed contact time (EBCT): **the sheet to copy**. Declaration and arithmetic fit on one screen.
//!
//! Rests on 25 TAC 117.32(b): two carbons in series, ten minutes in both together, five of them in the final one, at the
//! highest flow; a portable RO may rely on a test before every session instead. Does not say how much chlorine is
//! removed: with a slow carbon ten minutes still pass a good part of the chloramine, and only a test shows it.

use crate::engine::quantity::{Flow, Time, Volume, kinds::TIME, minutes};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Named, Side, Stage, Stop, Term, Working, source,
};
use crate::{choice, sheet, step, trade::terms};

choice!(/// Which of the two this place relies on.
    Rule { Time "contact-time" "EBCT: 10 min in two carbons, 5 min in the final one", Test "test-before-session" "Test before every session" });

/// The rule of ten minutes.
pub static TEN_MINUTES: Criterion = Criterion {
    id: "contact-time",
    sentence: "EBCT of all carbon together, at the highest flow through it",
    stage: Stage::Carbon,
    side: Side::AtLeast,
    forecast: true,
    source: &source::TAC_117_32,
    levers: &["bed-volume", "second-bed-volume", "reject-flow"],
    cases: &[],
    judges: Judges::Output("total-contact-time"),
};

/// Its second half; a single carbon is the final one too.
pub static FIVE_IN_FINAL: Criterion = Criterion {
    id: "final-contact-time",
    sentence: "EBCT of the final carbon, at the highest flow through it",
    judges: Judges::Output("final-contact-time"),
    ..TEN_MINUTES
};

/// What the rule takes for granted. A number, so that it says by how much it is short; no lever turns one bed into two.
pub static TWO_CARBONS: Criterion = Criterion {
    id: "two-carbons",
    sentence: "Carbons in series",
    forecast: false,
    levers: &[],
    judges: Judges::NoOutput,
    ..TEN_MINUTES
};

/// What is relied on where no time or forecast is.
pub static TEST_BEFORE_EVERY_SESSION: Criterion = Criterion {
    id: "test-before-session",
    sentence: "Total chlorine after the carbon, tested before every session, below 0.1 mg/L",
    stage: Stage::Carbon,
    side: Side::Below,
    forecast: false,
    source: &source::TAC_117_32,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

pub(super) static TEST_DECIDES: Caution = Caution {
    id: "test-decides",
    text: "Contact time alone does not prove that chlorine is removed. A total chlorine test after the carbon decides, together with the RO's instructions and the facility's policy.",
};

pub(super) static ONE_CARBON: Caution = Caution {
    id: "one-carbon",
    text: "A single carbon has no second barrier behind it. It is allowed only where local rules say so for a portable RO, with a total chlorine test before every session.",
};

pub(super) const TIME_IN_CARBON: Term = Term::number(&TIME, "EBCT of the first carbon (worker)", "t_1");

sheet! {
    /// Empty bed contact time (EBCT) of each carbon and of both in series, at the highest flow through them.
    ContactTime, "carbon-contact-time", "Empty bed contact time (EBCT)", Stage::Carbon,
    also: &["EBCT", "GAC", "carbon tanks"],
    sources: &[&source::TAC_117_32],
    cautions: &[&TEST_DECIDES],
    criteria: &[&TEN_MINUTES, &FIVE_IN_FINAL, &TWO_CARBONS],
    inputs: {
        first  "bed-volume":        Volume         = terms::carbon::BED_VOLUME,
        second "second-bed-volume": Option<Volume> = terms::carbon::SECOND_BED_VOLUME,
        flow   "flow":              Flow           = terms::carbon::HIGHEST_FLOW,
        rule   "rule":              Option<Rule>   = terms::carbon::RULE,
    }
    outputs Outputs: {
        in_first "contact-time":       Time = TIME_IN_CARBON,
        total    "total-contact-time": Time = TIME_IN_CARBON.named("EBCT of all carbon together").symbol("t"),
        in_final "final-contact-time": Time = TIME_IN_CARBON.named("EBCT of the final carbon").symbol("t_2"),
    }
}

impl Evaluate for ContactTime {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &ContactTime { first, second, flow, rule } = self;
        step!(w, in_first "t_1" = first / flow);
        let (in_final, total) = match second {
            Some(second) => {
                step!(w, in_final "t_2" = second / flow);
                step!(w, total "t" = (first + second) / flow);
                (in_final, total)
            }
            None => (in_first, in_first),
        };
        for (criterion, time, limit) in
            [(&TEN_MINUTES, total, minutes(10.0)), (&FIVE_IN_FINAL, in_final, minutes(5.0))]
        {
            match rule {
                Some(Rule::Test) => {
                    w.does_not_apply(criterion, &TEST_BEFORE_EVERY_SESSION, Some((time, limit)));
                }
                Some(Rule::Time) | None => w.judge(criterion, time, limit),
            }
        }
        judge_carbons(second, rule, w);
        Ok(Outputs { in_first, total, in_final })
    }
}

/// Whether there are two carbons: that depends on no flow, so it is one check also where several flows are judged.
pub fn judge_carbons(second: Option<Volume>, rule: Option<Rule>, w: &mut Working) {
    if second.is_none() {
        w.caution(&ONE_CARBON);
    }
    let (there, asked) = (if second.is_some() { 2.0 } else { 1.0 }, 2.0);
    w.in_case(Named::NONE, |w| match rule {
        Some(Rule::Test) => {
            w.does_not_apply(&TWO_CARBONS, &TEST_BEFORE_EVERY_SESSION, Some((there, asked)));
        }
        Some(Rule::Time) | None => w.judge(&TWO_CARBONS, there, asked),
    });
}
