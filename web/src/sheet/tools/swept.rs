//! The sweep in slices: the curve first, then its band.

use super::looked::Seen;
use crate::browser::slices::in_slices;
use calc::engine::quantity::Unit;
use calc::engine::sheet::Criterion;
use calc::engine::sweep::Sweep;
use std::rc::Rc;
use yew::prelude::*;

/// Points of a curve.
const POINTS: usize = 200;
/// Points of the curve in one round, so that the clock is not asked more often than it has to be.
const ROUND: usize = 4;
/// How long after the last key press it begins, in milliseconds: after the paint. A digit more begins it anew, and no
/// slice is so long that a key would wait.
const PAUSE: u32 = 20;

/// What was swept.
#[derive(Clone)]
pub struct Swept {
    /// Of which sheet, as it was filled.
    pub seen: Seen,
    /// The ids of the number and of the entry.
    pub of: (String, String),
    /// In SI.
    pub xs: Vec<f64>,
    /// In SI.
    pub ys: Vec<f64>,
    /// In SI.
    pub limits: Vec<f64>,
    /// In SI; empty until they are known.
    pub half_widths: Vec<f64>,
    /// The same over the whole curve.
    pub limit: Option<f64>,
    /// What the number is judged against.
    pub criterion: Option<&'static Criterion>,
    /// What the number is now.
    pub present: Option<f64>,
}

/// Sweeps one number of a sheet over one entry; `None` until the curve that belongs to this filling is there.
#[hook]
pub fn use_sweep(seen: Option<&Seen>, number: &str, dial: &str) -> Option<Rc<Swept>> {
    let swept = use_state(|| None::<Rc<Swept>>);
    let of = (number.to_owned(), dial.to_owned());
    {
        let swept = swept.setter();
        use_effect_with((seen.cloned(), of.clone()), move |(seen, of)| {
            let work = seen.as_ref().and_then(|seen| work(seen, of, swept));
            move || drop(work)
        });
    }
    let found = (*swept).clone()?;
    (Some(&found.seen) == seen && found.of == of).then_some(found)
}

fn work(
    seen: &Seen,
    of: &(String, String),
    tell: UseStateSetter<Option<Rc<Swept>>>,
) -> Option<crate::browser::slices::Slices> {
    let looked = &seen.0;
    let (number, dial) = (looked.number(&of.0)?, looked.dial(&of.1)?);
    let mut sweep = sweep_over(looked.case.as_ref(), number.number, dial);
    let mut swept = Swept {
        seen: seen.clone(),
        of: of.clone(),
        xs: sweep.xs.clone(),
        ys: Vec::new(),
        limits: Vec::new(),
        half_widths: Vec::new(),
        limit: None,
        criterion: sweep.criterion(),
        present: looked.present(number, dial),
    };
    Some(in_slices(PAUSE, move || {
        if swept.ys.is_empty() {
            if sweep.step(ROUND) {
                (swept.ys, swept.limits) = (sweep.ys.clone(), sweep.limits.clone());
                swept.limit = sweep.limit();
                tell.set(Some(Rc::new(swept.clone())));
            }
            return false;
        }
        let is_done = sweep.step_band(1);
        if is_done && sweep.half_widths.iter().any(|half| half.is_finite()) {
            swept.half_widths = sweep.half_widths.clone();
            tell.set(Some(Rc::new(swept.clone())));
        }
        is_done
    }))
}

/// Of things of which there are no parts, only whole numbers are looked at.
fn sweep_over(
    case: &dyn calc::engine::sheet::Case,
    number: calc::engine::curve::Number,
    dial: &super::looked::DialOf,
) -> Sweep {
    let (low, high) = dial.range;
    let mut sweep = Sweep::new(case, number, dial.dial, dial.range, POINTS);
    if dial.dial.of.term.whole && high - low < POINTS as f64 {
        let count = (high.floor() - low.ceil()).max(0.0) as usize;
        sweep.xs = (0..=count).map(|i| low.ceil() + i as f64).collect();
    }
    sweep
}

/// Numbers in SI as they are shown.
pub fn in_unit(numbers: &[f64], unit: &Unit) -> Vec<f64> {
    numbers.iter().map(|si| unit.of_si(*si)).collect()
}
