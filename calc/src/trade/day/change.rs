//! After how many whole sessions, and days of such sessions, the first carbon is changed.

use crate::engine::quantity::{Time, days};
use crate::engine::sheet::{Known, Missing, Sentence, Working};
use crate::step;

/// When the first carbon is changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarbonChange {
    /// A session that has begun is not broken off for it.
    pub whole: f64,
    /// Days of so many sessions.
    pub days: Known<Time>,
}

/// From the sessions until the carbon is spent, as the sheet of the carbon's life finds them, and the RO's runs of a day.
pub fn until_change(spent: Known<f64>, runs: Known<f64>, w: &mut Working) -> Known<CarbonChange> {
    let spent = spent?;
    let whole = spent.floor();
    w.procedure(("whole", "n_c"), whole, || Sentence::plain("whole sessions before the carbon is used up"));
    let days = runs.and_then(|runs| {
        (runs > 0.0).then_some(()).ok_or(Missing::none_exists("the RO does not run on this day"))?;
        w.bind("runs", "n_d", runs);
        step!(w, carbon "t_carbon" = whole / runs * days(1.0));
        Ok(carbon)
    });
    Ok(CarbonChange { whole, days })
}
