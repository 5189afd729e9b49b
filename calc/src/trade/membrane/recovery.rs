//! Recovery, concentration and the whole mass balance of one RO.
//!
//! By conservation of water and salt; the concentration factor as in ASTM D3739, clause 7.1.

use crate::engine::quantity::{
    Concentration, Flow, Ratio,
    kinds::{CONCENTRATION, FLOW, NUMBER, RATIO},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::membrane;
use crate::{sheet, step};

/// The limit that the RO's instructions set, if they set one.
pub static RECOVERY_BOUND: Criterion = Criterion {
    id: "recovery",
    sentence: "Recovery, within the RO's instructions",
    stage: Stage::Membrane,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["reject-flow"],
    cases: &[],
    judges: Judges::Each(&[("", "recovery"), ("", "recovery-warmest")]),
};

pub(super) static SCALE: Caution = Caution {
    id: "reject-carries-the-salt",
    text: "Higher recovery saves water and leaves more salt at the membrane. Change the reject setting only as the RO's instructions allow.",
};

sheet! {
    /// The share of the feed made into product water (recovery), and where the salt goes.
    Recovery, "recovery", "Recovery and mass balance", Stage::Membrane,
    also: &["concentrate", "permeate", "mass balance"],
    sources: &[&source::MASS_BALANCE, &source::ASTM_D3739],
    cautions: &[&SCALE],
    criteria: &[&RECOVERY_BOUND],
    inputs: {
        product "product-flow":       Flow                  = membrane::PRODUCT_FLOW,
        reject  "reject-flow":        Flow                  = membrane::REJECT_FLOW,
        passage "salt-passage":       Option<Ratio>         = membrane::SALT_PASSAGE,
        salt    "feed-concentration": Known<Concentration>  = membrane::FEED_CONCENTRATION,
        highest "highest-recovery":   Option<Ratio>         = membrane::HIGHEST_RECOVERY,
    }
    outputs Outputs: {
        feed             "feed-flow":             Flow                 = Term::number(&FLOW, "Feed flow", "Q_f"),
        recovery         "recovery":              Ratio                = Term::number(&RATIO, "Recovery", "Y"),
        factor           "concentration-factor":  f64                  = Term::number(&NUMBER, "Concentration factor", "CF"),
        mean_factor      "mean-factor":           f64                  = Term::number(&NUMBER, "Average concentration factor", "LMCF"),
        in_product       "product-concentration": Known<Concentration> = Term::number(&CONCENTRATION, "TDS of the product", "C_p"),
        in_reject        "reject-concentration":  Known<Concentration> = Term::number(&CONCENTRATION, "TDS of the reject", "C_c"),
    }
}

impl Evaluate for Recovery {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &Recovery { product, reject, passage, salt, highest } = self;
        step!(w, feed "Q_f" = product + reject);
        step!(w, recovery "Y": Ratio = product / feed);
        let passage = passage.unwrap_or(Ratio::of(0.0));
        w.bind("passage", "SP", passage);
        step!(w, factor "CF" = (1.0 - recovery * passage) / (1.0 - recovery));
        let mean_factor = mean_factor(recovery, w);
        let (in_product, in_reject) = match salt {
            Ok(salt) => {
                step!(w, in_product "C_p" = salt * passage);
                step!(w, in_reject "C_c" = salt * factor);
                (Ok(in_product), Ok(in_reject))
            }
            Err(missing) => (Err(missing), Err(missing)),
        };
        if let Some(highest) = highest {
            w.judge(&RECOVERY_BOUND, recovery, highest);
        }
        Ok(Outputs { feed, recovery, factor, mean_factor, in_product, in_reject })
    }
}

/// The logarithmic mean of the concentration factor along the membrane.
///
/// # Formula
/// LMCF = ln(1 / (1 − Y)) / Y
///
/// | Symbol | Meaning | Unit | Range |
/// | Y | recovery | 1 | 0 < Y < 1 |
///
/// # Accuracy
/// Exact for a membrane that holds all salt back. Below Y = 0.0001 the series 1 + Y/2 + Y²/3 stands in for 0/0.
///
/// # Errors
/// None; a recovery of 1 or more has no finite mean and is refused with the flows.
///
/// # Source
/// By integration of the mass balance along the membrane. Check values: tests/published/membrane.csv.
///
/// # Example
/// ```
/// use calc::{trade::membrane::mean_concentration_factor, engine::quantity::percent, engine::sheet::Working};
/// assert!((mean_concentration_factor(percent(50.0), &mut Working::silent()) - 1.3863).abs() < 0.00005);
/// ```
pub fn mean_factor(recovery: Ratio, w: &mut Working) -> f64 {
    w.bind("recovery", "Y", recovery);
    if recovery.si() < 1e-4 {
        step!(w, mean_factor "LMCF": f64 = 1.0 + recovery.si() / 2.0 + recovery.si().powi(2) / 3.0);
        return mean_factor;
    }
    step!(w, mean_factor "LMCF": f64 = (1.0 / (1.0 - recovery.si())).ln() / recovery.si());
    mean_factor
}

/// The mean factor where there may be no recovery.
pub(super) fn known_mean_factor(recovery: Known<Ratio>, w: &mut Working) -> Known<f64> {
    let factor = mean_factor(recovery?, w);
    if factor.is_finite() {
        Ok(factor)
    } else {
        Err(Missing::none_exists("at a recovery of 100 % nothing carries the salt away"))
    }
}
