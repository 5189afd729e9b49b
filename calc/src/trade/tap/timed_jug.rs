//! Flow by a timed jug (bucket) test, and how well its repeats agree.
//!
//! The flow is the mean of the fillings. The spread is the standard deviation of one filling, and the uncertainty that of
//! the mean, after JCGM 100:2008, 4.2. Both tell of the repeats alone: a jug whose mark is wrong, or a watch that is
//! always stopped late, shows in no repeat and is counted by the tolerances of volume and time.

use crate::engine::quantity::{Flow, Ratio, Time, Volume, kinds::FLOW, kinds::RATIO, seconds};
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Sentence, Slot, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::tap::{JUG_TIME, JUG_VOLUME};
use crate::{input_row, output_row, sheet, step};

input_row! {
    /// One filling of the jug.
    Filling {
        time "jug-time": Time = JUG_TIME,
    }
}

output_row! {
    /// What one filling tells.
    FillingFlow {
        time "jug-time":   Time = JUG_TIME,
        flow "timed-flow": Flow = Term::number(&FLOW, "Flow of this fill", "Q_i"),
    }
}

static NOTHING_ELSE_OPEN: Caution = Caution {
    id: "measure-as-it-runs",
    text: "Measure as the RO will run: the whole stream into the jug, no other tap in the room open. Repeat at the time of day when the building uses most water. Water after a heat disinfection scalds.",
};

/// Fillings that differ by more than this share of their mean are looked at again (common practice, no source).
const USUAL_RANGE: f64 = 0.05;
/// Below this time a watch stopped by hand counts for much (common practice, no source).
const SHORT: Time = seconds(10.0);

sheet! {
    /// Flow from the time in which a jug is filled, with the spread of repeated fillings.
    TimedJug, "timed-jug", "Timed jug test (bucket test)", Stage::Tap,
    also: &["bucket test", "flow rate"],
    sources: &[&source::JCGM_100, &source::COMMON_PRACTICE],
    cautions: &[&NOTHING_ELSE_OPEN],
    criteria: &[],
    inputs: {
        volume "jug-volume": Volume       = JUG_VOLUME,
        runs   "runs":       Vec<Filling> = Term::other("Fill times, one after the other")
            .help("Three fills show how well they agree. One alone gives a flow and no spread."),
    }
    outputs Outputs: {
        flow        "timed-flow":          Flow             = Term::number(&FLOW, "Flow", "Q"),
        each        "fillings":            Vec<FillingFlow> = Term::other("Each fill"),
        spread      "flow-spread":         Known<Flow>      = Term::number(&FLOW, "Standard deviation of one fill", "s"),
        relative    "relative-spread":     Known<Ratio>     = Term::number(&RATIO, "Standard deviation, share of the flow", "s_r"),
        uncertainty "flow-uncertainty":    Known<Flow>      = Term::number(&FLOW, "Standard uncertainty of the mean, from the repeats", "u"),
        interval    "flow-half-interval":  Known<Flow>      = Term::number(&FLOW, "Half-width of its 95 % interval", "U_95"),
    }
}

impl Evaluate for TimedJug {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let volume = self.volume;
        let each: Vec<FillingFlow> =
            self.runs.iter().map(|run| FillingFlow { time: run.time, flow: volume / run.time }).collect();
        if let Some(short) = self.runs.iter().map(|run| run.time).find(|time| *time < SHORT) {
            w.warn(
                "runs", "short-filling",
                Sentence::plain("the jug was full in {time}: starting and stopping the watch adds a large error. Use a larger jug")
                    .quantity("time", short),
            );
        }
        let [first, _, ..] = self.runs.as_slice() else {
            let time = self.runs.first().map(|run| run.time).ok_or(Missing::empty("runs", "Fillings"))?;
            w.bind("time", "t", time);
            step!(w, flow "Q" = volume / time);
            let once = Missing::not_known("runs", "one fill alone has no spread: fill the jug again");
            let (spread, relative) = (Err(once), Err(once));
            return Ok(Outputs { flow, each, spread, relative, uncertainty: Err(once), interval: Err(once) });
        };
        let flow = mean(&each, w);
        let (fastest, slowest) = self
            .runs
            .iter()
            .fold((first.time, first.time), |(low, high), run| (low.min(run.time), high.max(run.time)));
        let range = (volume / fastest - volume / slowest) / flow;
        if range > USUAL_RANGE {
            w.warn(
                "runs", "fillings-differ",
                Sentence::plain("fastest and slowest fill differ by {range} of the flow, usually by 5 % at most (common practice, no source). Fill again with nothing else running. Remove a fill only if you know what went wrong")
                    .quantity("range", Ratio::of(range)),
            );
        }
        let (spread, relative, uncertainty, interval) = agreement(&each, flow, w);
        Ok(Outputs {
            flow,
            each,
            spread: Ok(spread),
            relative: Ok(relative),
            uncertainty: Ok(uncertainty),
            interval: Ok(interval),
        })
    }
}

/// The mean flow of at least one filling.
fn mean(each: &[FillingFlow], w: &mut Working) -> Flow {
    let count = each.len() as f64;
    let sum = each.iter().fold(Flow::of(0.0), |sum, filling| sum + filling.flow);
    w.bind("count", "n", count);
    w.procedure(("sum", "ΣQ_i"), sum, || {
        Sentence::plain("volume of the jug over its time, added up over {count} fillings")
            .with("count", Slot::Count(each.len() as i64))
    });
    step!(w, flow "Q" = sum / count);
    flow
}

/// How well at least two fillings agree: standard deviation, the same as a share, standard uncertainty of the mean,
/// half-width of its 95 % interval.
///
/// # Formula
/// s² = Σ (Qᵢ − Q)² / (n − 1), u = s / √n, U₉₅ = t₉₅(n − 1) · u
///
/// # Source
/// `jcgm-100`: JCGM 100:2008, 4.2.2, 4.2.3 and G.3.
fn agreement(each: &[FillingFlow], flow: Flow, w: &mut Working) -> (Flow, Ratio, Flow, Flow) {
    let count = each.len() as f64;
    let squares: f64 = each.iter().map(|filling| (filling.flow - flow).si().powi(2)).sum();
    let spread = Flow::of((squares / (count - 1.0)).sqrt());
    w.procedure(("spread", "s"), spread, || {
        Sentence::plain("square root of the sum of (Q_i − Q)² over n − 1, over {count} fillings")
            .with("count", Slot::Count(each.len() as i64))
    });
    step!(w, relative "s_r": Ratio = spread / flow);
    step!(w, uncertainty "u" = spread / count.sqrt());
    let student = student_95(each.len() - 1);
    w.procedure(("student", "t_95"), student, || {
        Sentence::plain("Student's factor of 95 % for {freedom} degrees of freedom, JCGM 100, table G.2")
            .with("freedom", Slot::Count(each.len() as i64 - 1))
    });
    step!(w, interval "U_95" = student * uncertainty);
    (spread, relative, uncertainty, interval)
}

/// Student's factor for a 95 % interval, as JCGM 100:2008 prints it in table G.2.
///
/// Between two printed lines the one with fewer degrees of freedom is taken, whose factor is greater.
fn student_95(degrees_of_freedom: usize) -> f64 {
    #[rustfmt::skip]
    const PRINTED: [(usize, f64); 27] = [
        (1, 12.71), (2, 4.30), (3, 3.18), (4, 2.78), (5, 2.57), (6, 2.45), (7, 2.36), (8, 2.31), (9, 2.26),
        (10, 2.23), (11, 2.20), (12, 2.18), (13, 2.16), (14, 2.14), (15, 2.13), (16, 2.12), (17, 2.11),
        (18, 2.10), (19, 2.09), (20, 2.09), (25, 2.06), (30, 2.04), (35, 2.03), (40, 2.02), (45, 2.01),
        (50, 2.01), (100, 1.984),
    ];
    let not_above = PRINTED.iter().rev().find(|(freedom, _)| *freedom <= degrees_of_freedom);
    not_above.map_or(PRINTED[0].1, |(_, factor)| *factor)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::litres;
    use crate::engine::sheet::Sheet;

    fn jug(times: &[f64]) -> (Outputs, Vec<&'static str>) {
        let runs = times.iter().map(|time| Filling { time: seconds(*time) }).collect();
        let mut w = Working::silent();
        let outputs = TimedJug { volume: litres(2.0), runs }.run(&mut w).unwrap();
        (outputs, w.warnings().iter().map(|warning| warning.field).collect())
    }

    #[test]
    fn equal_fillings_have_no_spread() {
        let (outputs, warnings) = jug(&[60.0, 60.0, 60.0]);
        assert!((outputs.flow.si() * 60e3 - 2.0).abs() < 1e-12);
        assert!(outputs.spread.unwrap().si() < 1e-18);
        assert_eq!(warnings, [""; 0]);
    }

    #[test]
    fn repeats_that_differ_are_looked_at_again() {
        assert_eq!(jug(&[40.0, 41.9]).1, [""; 0]);
        assert_eq!(jug(&[40.0, 42.2]).1, ["runs"]);
    }

    #[test]
    fn a_short_filling_is_named() {
        assert_eq!(jug(&[9.9]).1, ["runs"]);
    }

    #[test]
    fn the_factor_falls_with_the_number_of_fillings() {
        assert!((1..200).all(|n| student_95(n) >= student_95(n + 1)));
    }
}
