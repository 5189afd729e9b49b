//! A membrane that stays the same: the share of the salt that passes at each spot is given, and product, reject and rejection
//! follow at any recovery.
//!
//! By mass balance along the membrane, plug flow: what passes at a spot is the same share of what stands there, and what
//! does not pass makes the rest saltier. So the same membrane shows a lower rejection when recovery rises. Conductivity
//! stands for salt here. Not covered: a passage that changes with salt, flow, pressure or temperature along the membrane.

use super::recovery::known_mean_factor;
use super::rejection::BASELINE_COUNTS;
use crate::engine::quantity::{
    Conductivity, Ratio,
    kinds::{CONDUCTIVITY, NUMBER, RATIO},
    percent,
};
use crate::engine::sheet::{
    Draws, Evaluate, Figure, Known, Lined, Panel, Sentence, Shown, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::membrane;
use crate::{output_row, sheet, step};

output_row! {
    /// The same membrane at another recovery.
    AtRecovery {
        recovery  "recovery":  Ratio        = Term::number(&RATIO, "Recovery", "Y"),
        rejection "rejection": Ratio        = Term::number(&RATIO, "Rejection, feed basis", "R"),
        on_mean   "mean-rejection": Known<Ratio> = Term::number(&RATIO, "Rejection, average basis", "R_mean"),
        product   "product-conductivity": Conductivity = Term::number(&CONDUCTIVITY, "Product conductivity", "κ_p"),
        reject    "reject-conductivity":  Conductivity = Term::number(&CONDUCTIVITY, "Reject conductivity", "κ_c"),
    }
}

/// Every so many per cent of recovery.
const STEP: usize = 5;
/// The highest of them.
const LAST: usize = 95;

/// What one membrane shows at every recovery.
static OVER_RECOVERY: Figure = Figure {
    id: "over-recovery",
    name: "One membrane at every recovery",
    about: "The membrane does not change along these lines: only the recovery does.",
    opens_at: None,
    months: None,
    draws: Draws::Lines(Lined {
        table: "over-recovery",
        along: "recovery",
        parted: None,
        panels: &[
            Panel {
                name: "Rejection",
                quantity: "Rejection",
                lines: &[("feed basis", "rejection"), ("average basis", "mean-rejection")],
                limit: None,
                breaks: false,
            },
            Panel {
                name: "Product conductivity",
                quantity: "Product conductivity",
                lines: &[("Product conductivity", "product-conductivity")],
                limit: None,
                breaks: false,
            },
        ],
        shaded: None,
        here: Some(Shown::Entered("recovery")),
    }),
};

sheet! {
    /// What one membrane shows when only the recovery changes: product, reject and rejection from the share of salt that passes at each spot.
    SameMembrane, "same-membrane", "A membrane that stays the same", Stage::Membrane,
    also: &["local salt passage", "rejection against recovery", "teaching"],
    sources: &[&source::MASS_BALANCE, &source::SOLUTION_DIFFUSION],
    cautions: &[&BASELINE_COUNTS],
    criteria: &[],
    figures: &[&OVER_RECOVERY],
    inputs: {
        passage  "local-passage":     Ratio        = membrane::LOCAL_PASSAGE,
        feed     "feed-conductivity": Conductivity = membrane::FEED_CONDUCTIVITY,
        recovery "recovery":          Ratio        = membrane::RECOVERY,
    }
    outputs Outputs: {
        product   "product-conductivity": Conductivity = Term::number(&CONDUCTIVITY, "Product conductivity", "κ_p"),
        reject    "reject-conductivity":  Conductivity = Term::number(&CONDUCTIVITY, "Reject conductivity", "κ_c"),
        factor    "concentration-factor": f64          = Term::number(&NUMBER, "Concentration factor", "CF"),
        whole     "salt-passage":         Ratio        = Term::number(&RATIO, "Salt passage, feed basis", "SP"),
        rejection "rejection":            Ratio        = Term::number(&RATIO, "Rejection, feed basis", "R"),
        on_mean   "mean-rejection":       Known<Ratio> = Term::number(&RATIO, "Rejection, average basis", "R_mean"),
        summed    "product-by-steps":     Conductivity = Term::number(&CONDUCTIVITY, "Product conductivity, summed along the membrane", "κ_p,sum"),
        curve     "over-recovery":        Vec<AtRecovery> = Term::other("At other recoveries"),
    }
}

impl Evaluate for SameMembrane {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let (at, factor, whole) = self.at(w);
        let summed = self.summed();
        w.procedure(("summed", "κ_p,sum"), summed, || {
            Sentence::plain(
                "the same by {count} short stretches of the membrane one after the other, as a check",
            )
            .with("count", crate::engine::sheet::Slot::Count(STRETCHES.into()))
        });
        let curve = w.quietly(|w| self.curve(w));
        Ok(Outputs {
            product: at.product,
            reject: at.reject,
            factor,
            whole,
            rejection: at.rejection,
            on_mean: at.on_mean,
            summed,
            curve,
        })
    }
}

/// So many stretches of the membrane are summed.
const STRETCHES: u16 = 400;

impl SameMembrane {
    /// By the closed form, with the concentration factor and the salt passage.
    ///
    /// # Formula
    /// CF = (1 − Y)^(p − 1); SP = (1 − (1 − Y)^p) / Y; κ_p = κ_f · SP; κ_c = κ_f · CF
    fn at(&self, w: &mut Working) -> (AtRecovery, f64, Ratio) {
        let &SameMembrane { passage, feed, recovery } = self;
        step!(w, factor "CF" = (1.0 - recovery.si()).powf(passage.si() - 1.0));
        step!(w, reject "κ_c" = feed * factor);
        step!(w, whole "SP": Ratio = (1.0 - (1.0 - recovery.si()).powf(passage.si())) / recovery.si());
        step!(w, product "κ_p" = feed * whole);
        step!(w, rejection "R" = 1.0 - whole);
        let on_mean = known_mean_factor(Ok(recovery), w).map(|mean_factor| {
            step!(w, on_mean "R_mean" = 1.0 - whole / mean_factor);
            on_mean
        });
        (AtRecovery { recovery, rejection, on_mean, product, reject }, factor, whole)
    }

    /// The product of each stretch, added up: what stands before it, times the share that passes, while the rest becomes
    /// saltier as water leaves it. Each stretch by the classical Runge-Kutta step of fourth order.
    fn summed(&self) -> Conductivity {
        let (passage, recovery) = (self.passage.si(), self.recovery.si());
        let stretch = recovery / f64::from(STRETCHES);
        let slope = |salt: f64, taken: f64| salt * (1.0 - passage) / (1.0 - taken);
        let (mut salt, mut product) = (1.0, 0.0);
        for index in 0..STRETCHES {
            let taken = stretch * f64::from(index);
            let (half, middle) = (stretch / 2.0, taken + stretch / 2.0);
            let first = slope(salt, taken);
            let second = slope(salt + half * first, middle);
            let third = slope(salt + half * second, middle);
            let last = slope(salt + stretch * third, taken + stretch);
            let stands = salt + stretch * (first + second + third) / 6.0;
            product += passage * stands * stretch;
            salt += stretch * (first + 2.0 * second + 2.0 * third + last) / 6.0;
        }
        self.feed * (product / recovery)
    }

    /// At every fifth per cent, and where it runs.
    fn curve(&self, w: &mut Working) -> Vec<AtRecovery> {
        let mut recoveries: Vec<Ratio> =
            (STEP..=LAST).step_by(STEP).map(|share| percent(share as f64)).collect();
        let place = recoveries.partition_point(|share| *share < self.recovery);
        if recoveries.get(place) != Some(&self.recovery) {
            recoveries.insert(place, self.recovery);
        }
        let at = |recovery: Ratio| SameMembrane { recovery, ..self.clone() }.at(w).0;
        recoveries.into_iter().map(at).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::{Quantity, kinds};
    use crate::engine::sheet::Sheet;

    fn of(passage: f64, recovery: f64) -> SameMembrane {
        let feed = Conductivity::from_si(500.0 * kinds::CONDUCTIVITY.unit("µS/cm").factor);
        SameMembrane { passage: percent(passage), feed, recovery: percent(recovery) }
    }

    #[test]
    fn the_closed_form_is_the_sum_along_the_membrane() {
        for passage in [0.1, 1.0, 2.0, 5.0, 20.0, 60.0, 100.0] {
            for recovery in [1.0, 15.0, 50.0, 75.0, 90.0] {
                let sheet = of(passage, recovery);
                let (closed, _, _) = sheet.at(&mut Working::silent());
                let ratio = sheet.summed() / closed.product;
                assert!((ratio - 1.0).abs() < 1e-6, "{passage} % at {recovery} %: {ratio}");
            }
        }
    }

    #[test]
    fn all_salt_is_somewhere() {
        for (passage, recovery) in [(2.0, 50.0), (30.0, 75.0), (0.5, 10.0)] {
            let sheet = of(passage, recovery);
            let (at, _, _) = sheet.at(&mut Working::silent());
            let share = sheet.recovery.si();
            let all = at.product.si() * share + at.reject.si() * (1.0 - share);
            assert!((all / sheet.feed.si() - 1.0).abs() < 1e-12, "{passage} {recovery}");
        }
    }

    #[test]
    fn rejection_falls_as_recovery_rises_though_the_membrane_stays_the_same() {
        let outputs = of(2.0, 50.0).run(&mut Working::silent()).unwrap();
        assert!(outputs.curve.is_sorted_by(|a, b| a.rejection > b.rejection));
        assert!(outputs.curve.is_sorted_by(|a, b| a.recovery < b.recovery));
    }
}
