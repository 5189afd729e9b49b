//! Return to service: what is outstanding before an idle or moved RO is used again, in the order in which it is done, with its reasons.
//!
//! The limits of days are those of the instructions or of the facility's rules; none is taken here. The order is common
//! practice, no source: first what may be in the water, then the parts, then tests, and the machine last. A list that
//! is empty proves nothing: what was not asked may be outstanding.

use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{Caution, Evaluate, Known, Problem, Stage, Stop, Term, Working, source};
use crate::{choice, output_row, sheet};
use chrono::NaiveDate;

choice!(/// What holds, and whether anybody knows.
    Answered { Yes "yes" "Yes", No "no" "No" });

choice!(/// What is to be done.
Doing {
    Preservative "rinse-out-preservative" "Rinse out the preservative, and test for its residual",
    Thaw "look-for-frost-damage" "Check for frost damage before pressurizing it",
    Place "assess-place" "Check the new room: pressure, disinfectant, temperature, drain, outlet (socket)",
    Carbon "change-carbon" "Replace the carbon and the sediment filter that were left wet",
    Disinfect "disinfect" "Disinfect as the instructions say",
    Residual "residual-test" "Rinse, and test for the residual of the disinfectant",
    Chlorine "chlorine-test" "Run it for 15 minutes, then test total chlorine after the first carbon",
    Hardness "hardness-test" "Test hardness after the softener",
    Conductivity "compare-rejection" "Compare conductivity and rejection with this RO's own baseline",
    Electrical "electrical-safety" "Check electrical safety and hoses after the move",
    Cultures "culture-and-endotoxin" "Sample colony count and endotoxin, and hold for the results as the facility's rules say",
    Machine "reconnect-machine" "Reconnect the dialysis machine last",
});

choice!(/// Why it is outstanding.
Because {
    Stored "stored-with-preservative" "It was stored with a preservative",
    StoredUnknown "storage-not-known" "It is not known whether it was stored with a preservative",
    Frost "may-have-frozen" "It may have been below freezing",
    FrostUnknown "frost-not-known" "It is not known whether it froze",
    Moved "moved" "It was moved",
    MovedUnknown "move-not-known" "It is not known whether it was moved",
    Opened "opened" "Its water side was opened",
    OpenedUnknown "opening-not-known" "It is not known whether its water side was opened",
    TooLong "idle-too-long" "It was idle for longer than the limit",
    IdleUnknown "idle-not-known" "It is not known how long it was idle",
    NoLimit "no-limit" "No limit is entered to compare the days with",
    NeverDisinfected "disinfection-not-known" "It is not known when it was last disinfected",
    DisinfectionOld "disinfection-old" "The last disinfection is older than the limit",
    Always "before-every-use" "Before every use",
    AfterDisinfection "after-disinfection" "A disinfection comes before it",
});

output_row! {
    /// One thing that is outstanding.
    Outstanding {
        doing   "doing":   Doing   = Term::other("What to do"),
        because "because": Because = Term::other("Why"),
    }
}

static RESULTS_DECIDE: Caution = Caution {
    id: "list-is-not-release",
    text: "A completed list does not release the RO. Its instructions, the facility's rules and the medical director do, after the test results. No patient is connected before that.",
};

const LIMIT: Term = Term::number(&NUMBER, "Days", "d_max").whole().possible(0.0, 10_000.0, "");
const YES_OR_NO: Term = Term::other("").help("If empty: not known, and what follows from it is outstanding.");

sheet! {
    /// What is outstanding before an idle or moved RO is used again, in order and with reasons.
    IdleReturn, "idle-return", "Return to service", Stage::Run,
    also: &["storage", "stagnation", "out of use"],
    sources: &[&source::DEVICE_INSTRUCTIONS, &source::COMMON_PRACTICE],
    cautions: &[&RESULTS_DECIDE],
    criteria: &[],
    inputs: {
        today   "present-date":  NaiveDate           = Term::other("Today"),
        used    "last-used":     Known<NaiveDate>    = Term::other("Last used").help("The day on which it last made water."),
        disinfected "last-disinfected": Known<NaiveDate> = Term::other("Last disinfected").help("The day of the last complete disinfection."),
        idle_limit "idle-limit": Known<f64>          = LIMIT.named("Longest idle time without a disinfection, days").symbol("d_idle").help("From your instructions."),
        limit   "disinfection-limit": Known<f64>     = LIMIT.named("Longest time between disinfections, days").symbol("d_dis").help("From your instructions."),
        stored  "stored-with-preservative": Option<Answered> = YES_OR_NO.named("Stored with a preservative"),
        frozen  "may-have-frozen": Option<Answered>  = YES_OR_NO.named("May have been below freezing"),
        moved   "was-moved":     Option<Answered>    = YES_OR_NO.named("Moved, or in another room"),
        opened  "was-opened":    Option<Answered>    = YES_OR_NO.named("Water side opened since the last disinfection"),
    }
    outputs Outputs: {
        idle    "idle-days":     Known<f64>       = Term::number(&NUMBER, "Days idle", "d"),
        since   "disinfection-days": Known<f64>   = Term::number(&NUMBER, "Days since the last disinfection", "d_d"),
        count   "outstanding-count": f64          = Term::number(&NUMBER, "Outstanding tasks", "n"),
        list    "outstanding":   Vec<Outstanding> = Term::other("Outstanding tasks, in this order"),
    }
}

impl Evaluate for IdleReturn {
    type Outputs = Outputs;
    fn evaluate(&self, _w: &mut Working) -> Result<Outputs, Stop> {
        let dates = [("last-used", self.used), ("last-disinfected", self.disinfected)];
        let later = dates.iter().filter(|(_, date)| date.is_ok_and(|date| date > self.today));
        let problems: Vec<Problem> = later
            .map(|(field, _)| Problem::new(field, "this day is after today; check both dates"))
            .collect();
        if !problems.is_empty() {
            return Err(Stop::Problems(problems));
        }
        let days = |since: Known<NaiveDate>| since.map(|since| (self.today - since).num_days() as f64);
        let (idle, since) = (days(self.used), days(self.disinfected));
        let list = self.outstanding(idle, since);
        Ok(Outputs { idle, since, count: list.len() as f64, list })
    }
}

impl IdleReturn {
    fn outstanding(&self, idle: Known<f64>, since: Known<f64>) -> Vec<Outstanding> {
        let mut list = Vec::new();
        let mut add = |doing, because: Option<Because>| {
            if let Some(because) = because {
                list.push(Outstanding { doing, because });
            }
        };
        let either = |answer: Option<Answered>, yes, unknown| match answer {
            Some(Answered::Yes) => Some(yes),
            Some(Answered::No) => None,
            None => Some(unknown),
        };
        let stored = either(self.stored, Because::Stored, Because::StoredUnknown);
        let moved = either(self.moved, Because::Moved, Because::MovedUnknown);
        let opened = either(self.opened, Because::Opened, Because::OpenedUnknown);
        let over = |days: Known<f64>, limit: Known<f64>, over, unknown| match (days, limit) {
            (Ok(days), Ok(limit)) if days > limit => Some(over),
            (Ok(_), Ok(_)) => None,
            (Err(_), _) => Some(unknown),
            (Ok(_), Err(_)) => Some(Because::NoLimit),
        };
        let too_long = over(idle, self.idle_limit, Because::TooLong, Because::IdleUnknown);
        let old = over(since, self.limit, Because::DisinfectionOld, Because::NeverDisinfected);
        let disinfect = opened.or(too_long).or(old).or(stored);
        add(Doing::Thaw, either(self.frozen, Because::Frost, Because::FrostUnknown));
        add(Doing::Electrical, moved);
        add(Doing::Place, moved);
        add(Doing::Preservative, stored);
        add(Doing::Carbon, too_long);
        add(Doing::Disinfect, disinfect);
        add(Doing::Residual, disinfect.map(|_| Because::AfterDisinfection));
        add(Doing::Chlorine, Some(Because::Always));
        add(Doing::Hardness, Some(Because::Always));
        add(Doing::Conductivity, Some(Because::Always));
        add(Doing::Cultures, opened.or(moved).or(too_long).or(old));
        add(Doing::Machine, Some(Because::Always));
        list
    }
}
