//! By how many powers of ten a filter or a disinfection lowers a count, and how many are needed.
//!
//! By definition of the logarithm. A count below what the method can show gives only "more than". It does not say what
//! a filter will do tomorrow: that is shown by its integrity test.

use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{Caution, Evaluate, Known, Missing, Problem, Stage, Stop, Term, Working, source};
use crate::{choice, sheet, step};

choice!(/// Whether something was found after it.
    Found { Counted "counted" "Counted", Below "below-limit" "None detected: below the detection limit" });

const COUNT: Term = Term::number(&NUMBER, "Count", "N").possible(1e-12, 1e15, "");

static NO_EXCUSE: Caution = Caution {
    id: "filter-excuses-nothing",
    text: "A retentive filter does not excuse water that fails before it. Reductions of two filters add only where nothing can harm both at once. Counts and endotoxin units are different things: compare like with like.",
};

sheet! {
    /// By how many powers of ten a count is lowered, and how many are needed for a required count.
    LogReduction, "log-reduction", "Log reduction", Stage::Bench,
    also: &["LRV"],
    sources: &[&source::LOGARITHM],
    cautions: &[&NO_EXCUSE],
    criteria: &[],
    inputs: {
        before "count-before": f64           = COUNT.named("Before").symbol("N_1").help("Colonies or endotoxin units in one volume; the same unit before and after."),
        after  "count-after":  Known<f64>    = COUNT.named("After, or the detection limit").symbol("N_2").help("Where nothing was found, the least that the method can show: never zero."),
        found  "count-found":  Option<Found> = Term::other("Result after").assumed("a count"),
        wanted "count-wanted": Known<f64>    = COUNT.named("Required after").symbol("N_w").help("The limit that the water must meet."),
    }
    outputs Outputs: {
        reduction "log-reduction": Known<f64> = Term::number(&NUMBER, "Log reduction", "LRV"),
        at_least  "least-log-reduction": Known<f64> = Term::number(&NUMBER, "Log reduction, more than", "LRV_min"),
        needed    "needed-log-reduction": Known<f64> = Term::number(&NUMBER, "Log reduction needed", "LRV_w"),
    }
}

impl Evaluate for LogReduction {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &LogReduction { before, after, found, wanted } = self;
        let is_below = found == Some(Found::Below);
        if is_below && after.is_ok_and(|after| after > before) {
            return Err(Problem::new(
                "count-after",
                "the detection limit is above the count before: dilute less, or filter more",
            )
            .into());
        }
        let shown = after.map(|after| {
            step!(w, reduction "LRV" = (before / after).log10());
            reduction
        });
        let needed = wanted.map(|wanted| {
            step!(w, needed "LRV_w" = (before / wanted).log10());
            needed
        });
        if shown.is_ok_and(|shown| shown < 0.0) {
            w.warn(
                "count-after",
                "more-after",
                "there is more after than before: growth, or the samples were swapped",
            );
        }
        if needed.is_ok_and(|needed| needed < 0.0) {
            w.warn(
                "count-wanted",
                "nothing-to-remove",
                "there is less before than is required after: nothing has to be removed",
            );
        }
        let not_counted =
            Err(Missing::none_exists("nothing was found: the reduction is more than can be shown"));
        Ok(Outputs {
            reduction: if is_below { shown.and(not_counted) } else { shown },
            at_least: shown,
            needed,
        })
    }
}
