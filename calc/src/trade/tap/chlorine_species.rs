//! Combined chlorine at the tap from total and free, and the removal that the carbon owes.
//!
//! Rests on the definition of total chlorine as the sum of free and combined (Standard Methods 4500-Cl), and on 0.1 mg/L
//! of total chlorine as the bound after the carbon (ISO 23500-3, 42 CFR 494.40; 0.1 itself is action). The tap has no
//! bound here. What the carbon really removes only a test behind it shows.

use crate::engine::quantity::{Chlorine, Ratio, kinds::CHLORINE, kinds::RATIO, milligrams_per_litre};
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Problem, Sentence, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::chlorine::{FREE_CHLORINE, TOTAL_CHLORINE};
use crate::{sheet, step};

static FREE_TEST_IS_NOT_ENOUGH: Caution = Caution {
    id: "free-test-is-not-enough",
    text: "A free chlorine test alone does not show chloramine. Test total chlorine, at the tap and after the carbon.",
};

/// What colours the test although nobody chlorinates.
pub static COLOUR_IS_NOT_ALWAYS_CHLORINE: Caution = Caution {
    id: "colour-is-not-always-chlorine",
    text: "Manganese, peroxide and ozone show in a total chlorine test too. Much chlorine can bleach it to a false zero. If a supply without chlorine gives a reading, repeat the test with its interference blank. Until then the reading counts as chlorine.",
};

static MEMBRANE_IS_NO_BARRIER: Caution = Caution {
    id: "membrane-is-no-barrier",
    text: "The RO membrane does not hold back chloramine, and chlorine destroys the membrane. Chloramine in product water has harmed patients. Only the carbon removes it, and only a total chlorine test after the carbon shows that.",
};

/// The bound of total chlorine after the carbon; the value itself is already action.
const BOUND: Chlorine = milligrams_per_litre(0.1);
/// Twice the standard uncertainty of a difference of two readings, each within 0.03 mg/L: 2 · √2 · 0.03 / √3.
const PAIR_UNCERTAINTY: Chlorine = milligrams_per_litre(0.049);

sheet! {
    /// Combined chlorine (chloramine) from total and free chlorine, and how much the carbon must remove.
    ChlorineSpecies, "chlorine-species", "Free and combined chlorine", Stage::Tap,
    also: &["chloramine", "monochloramine"],
    sources: &[&source::STANDARD_METHODS_4500_CL, &source::ISO_23500_3, &source::CFR_494_40],
    cautions: &[&FREE_TEST_IS_NOT_ENOUGH, &COLOUR_IS_NOT_ALWAYS_CHLORINE, &MEMBRANE_IS_NO_BARRIER],
    criteria: &[],
    inputs: {
        total "total-chlorine": Chlorine         = TOTAL_CHLORINE,
        free  "free-chlorine":  Option<Chlorine> = FREE_CHLORINE,
    }
    outputs Outputs: {
        combined "combined-chlorine": Chlorine     = Term::number(&CHLORINE, "Combined chlorine (chloramine)", "CC"),
        removal  "needed-removal":    Known<Ratio> = Term::number(&RATIO, "Removal that leaves 0.1 mg/L (more is needed)", "R"),
    }
}

impl Evaluate for ChlorineSpecies {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let total = self.total;
        let combined = match self.free {
            Some(free) => combined(total, free, w)?,
            None => {
                w.assume(
                    "free-chlorine",
                    "free chlorine is not entered: all of the total counts as combined chlorine (chloramine), which is harder to remove",
                );
                total
            }
        };
        Ok(Outputs { combined, removal: removal(total, w) })
    }
}

/// Total less free.
///
/// # Errors
/// More free than total chlorine, by more than two readings can differ by chance.
fn combined(total: Chlorine, free: Chlorine, w: &mut Working) -> Result<Chlorine, Stop> {
    if free - total > PAIR_UNCERTAINTY {
        let sentence = Sentence::plain(
            "free chlorine ({free}) cannot be above total chlorine ({total}): repeat both tests on one fresh sample",
        );
        let sentence = sentence.quantity("free", free).quantity("total", total);
        return Err(Problem::new("free-chlorine", sentence).into());
    }
    if free > total {
        w.warn(
            "free-chlorine", "free-above-total",
            "free chlorine is a little above total chlorine, by less than the two tests can be off: no combined chlorine was found. The total counts",
        );
    }
    step!(w, combined "CC" = (total - free).max(milligrams_per_litre(0.0)));
    Ok(combined)
}

/// The share of the total that has to go for 0.1 mg/L to be left.
fn removal(total: Chlorine, w: &mut Working) -> Known<Ratio> {
    if total < BOUND {
        return Err(Missing::none_exists("total chlorine at the tap is already below 0.1 mg/L"));
    }
    step!(w, removal "R": Ratio = 1.0 - milligrams_per_litre(0.1) / total);
    Ok(removal)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::sheet::Sheet;

    fn run(total: f64, free: Option<f64>) -> Result<(Outputs, usize), Stop> {
        let mut w = Working::silent();
        let sheet =
            ChlorineSpecies { total: milligrams_per_litre(total), free: free.map(milligrams_per_litre) };
        sheet.run(&mut w).map(|outputs| (outputs, w.warnings().len()))
    }

    #[test]
    fn more_free_than_total_is_refused_unless_by_chance() {
        assert!(run(1.0, Some(1.06)).is_err());
        let (outputs, warnings) = run(1.0, Some(1.04)).unwrap();
        assert_eq!((outputs.combined.si(), warnings), (0.0, 1));
    }

    #[test]
    fn all_counts_as_chloramine_when_free_is_not_known() {
        let (outputs, warnings) = run(1.2, None).unwrap();
        assert_eq!((outputs.combined, warnings), (milligrams_per_litre(1.2), 1));
    }

    #[test]
    fn the_bound_itself_asks_for_something() {
        assert_eq!(run(0.1, None).unwrap().0.removal, Ok(Ratio::of(0.0)));
        assert!(run(0.099, None).unwrap().0.removal.is_err());
    }
}
