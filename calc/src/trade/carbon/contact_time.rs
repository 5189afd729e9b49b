//! Empty bed contact time: **the sheet to copy**. Declaration and arithmetic fit on one screen.
//!
//! Rests on 25 TAC 117.32(b) for the ten minutes and the portable exemption. Does not say how much chlorine is
//! removed: with a slow carbon ten minutes still pass a good part of the chloramine, and only a test shows it.

use crate::engine::quantity::{Flow, Time, Volume, kinds::TIME, minutes};
use crate::engine::sheet::{Caution, Criterion, Evaluate, Side, Stage, Stop, Term, Working, source};
use crate::{choice, sheet, step, trade::terms};

choice!(/// Which of the two this place relies on.
    Rule { Time "contact-time" "Contact time of 10 minutes", Test "test-before-session" "Test before every session" });

/// The rule of ten minutes.
pub static TEN_MINUTES: Criterion = Criterion {
    id: "contact-time",
    sentence: "Contact time in all carbon, at the highest flow through it",
    stage: Stage::Carbon,
    side: Side::AtLeast,
    forecast: true,
    source: &source::TAC_117_32,
    levers: &["bed-volume", "second-bed-volume", "reject-flow"],
    cases: &[],
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
};

pub(super) static TEST_DECIDES: Caution = Caution {
    id: "test-decides",
    text: "Contact time alone does not prove that chlorine is removed. A test of total chlorine after the carbon decides, by the RO's instructions and the facility's rules.",
};

pub(super) const TIME_IN_CARBON: Term = Term::number(&TIME, "Contact time in the first vessel", "t");

sheet! {
    /// How long the water is in each carbon vessel, and in both in series, at the highest flow through them.
    ContactTime, "carbon-contact-time", "Contact time in the carbon", Stage::Carbon,
    sources: &[&source::TAC_117_32],
    cautions: &[&TEST_DECIDES],
    criteria: &[&TEN_MINUTES],
    inputs: {
        first  "bed-volume":        Volume         = terms::carbon::BED_VOLUME,
        second "second-bed-volume": Option<Volume> = terms::carbon::SECOND_BED_VOLUME,
        flow   "flow":              Flow           = terms::carbon::HIGHEST_FLOW,
        rule   "rule":              Option<Rule>   = terms::carbon::RULE,
    }
    outputs Outputs: {
        in_first "contact-time":       Time = TIME_IN_CARBON,
        total    "total-contact-time": Time = TIME_IN_CARBON.named("Contact time in all carbon"),
    }
}

impl Evaluate for ContactTime {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &ContactTime { first, second, flow, rule } = self;
        step!(w, in_first "t_1" = first / flow);
        let total = match second {
            Some(second) => {
                step!(w, total "t" = (first + second) / flow);
                total
            }
            None => in_first,
        };
        let asked = minutes(10.0);
        match rule {
            Some(Rule::Test) => {
                w.does_not_apply(&TEN_MINUTES, &TEST_BEFORE_EVERY_SESSION, Some((total, asked)))
            }
            Some(Rule::Time) | None => w.judge(&TEN_MINUTES, total, asked),
        }
        Ok(Outputs { in_first, total })
    }
}
