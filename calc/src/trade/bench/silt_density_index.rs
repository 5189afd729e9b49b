//! Silt density index of feed water, from the times of two samples through a fine filter.
//!
//! Rests on ASTM D4189: disc of 47 mm and 0.45 µm, 207 kPa, twice 500 mL. The text was not opened; the formula is as
//! other documents quote it. It does not say what fouls. A water that plugs more than three quarters of the disc has no index.

use crate::engine::quantity::kinds::{NUMBER, RATIO, TIME};
use crate::engine::quantity::{Ratio, Time, minutes, percent};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Side, Stage, Stop, Term, Working, source,
};
use crate::{sheet, step};

static FOR_MEMBRANES: Criterion = Criterion {
    id: "silt-density-index",
    sentence: "Silt density index (SDI) of the RO's feed",
    stage: Stage::Bench,
    side: Side::AtMost,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::Output("index"),
};

static SAME_WATER: Caution = Caution {
    id: "same-pressure-and-temperature",
    text: "Keep 207 kPa (30 psi), and the same temperature within 1 °C (2 °F) for both samples. Flush the line first, and never touch the disc with fingers. The index can be far higher after a storm or a water main repair.",
};

const SAMPLE_TIME: Term = Term::number(&TIME, "Sample time", "t")
    .units("s", "s")
    .possible(0.1, 36_000.0, "s")
    .plausible(10.0, 600.0, "s")
    .within(0.5, "s")
    .read_with("watch");

sheet! {
    /// Silt density index from the times in which the first and the last 500 mL pass a fine filter.
    SiltDensityIndex, "silt-density-index", "Silt density index", Stage::Bench,
    also: &["SDI", "fouling index"],
    sources: &[&source::ASTM_D4189],
    cautions: &[&SAME_WATER],
    criteria: &[&FOR_MEMBRANES],
    inputs: {
        first   "first-sample-time": Time        = SAMPLE_TIME.named("Time for the first 500 mL").symbol("t_i").help("With a watch, at the very start."),
        last    "last-sample-time":  Time        = SAMPLE_TIME.named("Time for the last 500 mL").symbol("t_f").help("The same volume, started when the elapsed time is over."),
        elapsed "elapsed-time":      Time        = Term::number(&TIME, "Elapsed time", "T").units("min", "min")
            .help("From the start of the first sample to the start of the last: 15 min, or 10 or 5 min.").plausible(5.0, 15.0, "min").possible(1.0, 120.0, "min"),
        highest "highest-index":     Known<f64>  = Term::number(&NUMBER, "Highest SDI allowed", "SDI_max").help("From the RO's instructions.").plausible(1.0, 5.0, "").possible(0.1, 20.0, ""),
    }
    outputs Outputs: {
        plugging "plugging": Ratio      = Term::number(&RATIO, "Plugging factor", "P"),
        index    "index":    Known<f64> = Term::number(&NUMBER, "Silt density index (SDI)", "SDI"),
    }
}

/// Plugging may not exceed it; beyond, the test is made shorter or the water is too dirty (ASTM D4189, as quoted).
const PLUGGED: Ratio = percent(75.0);

impl Evaluate for SiltDensityIndex {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &SiltDensityIndex { first, last, elapsed, highest } = self;
        if last < first {
            return Err(Problem::new(
                "last-sample-time",
                "the last sample was faster than the first; check both times, the pressure and the disc",
            )
            .into());
        }
        step!(w, plugging "P": Ratio = 1.0 - first / last);
        let is_plugged = plugging.si() > PLUGGED.si() + 1e-12;
        let index = if is_plugged {
            w.warn("elapsed-time", "plugged", "more than 75 % plugged: repeat with 10 or 5 minutes. If that was 5 minutes, the water is too dirty for this test");
            Err(Missing::none_exists("the disc is plugged; repeat with a shorter elapsed time"))
        } else {
            step!(w, index "SDI": f64 = 100.0 * plugging.si() / (elapsed / minutes(1.0)));
            Ok(index)
        };
        if plugging.si() <= 0.0 {
            w.warn("first-sample-time", "no-plugging", "both samples took the same time: even clean water plugs a little; check the disc and its seal");
        }
        let is_usual = (elapsed - minutes(15.0)).si().abs() <= 1.0;
        if !is_usual {
            w.warn(
                "elapsed-time",
                "other-time",
                "compare this index only with one of the same elapsed time; limits are usually for 15 minutes",
            );
        }
        // an index of a shorter or longer test is no proof against a limit for 15 minutes
        let judged = index.and_then(|index| match highest {
            Ok(highest) if !is_usual && index <= highest => Err(Missing::not_known(
                "elapsed-time",
                "limits are for 15 minutes, and this index is of another time",
            )),
            _ => Ok(index),
        });
        w.judge_known(&FOR_MEMBRANES, judged, highest);
        Ok(Outputs { plugging, index })
    }
}
