//! Hard functions on sheets made for this, and questions to real sheets whose answers are known by algebra.

use super::{Solution, solve};
use crate::engine::curve::{Number, usual_range};
use crate::engine::quantity::UnitSet;
use crate::engine::sheet::{
    Case, Dial, Evaluate, Known, Missing, Problem, Stage, Stop, Term, Value, Working,
};
use crate::program::catalogue;
use crate::{choice, sheet};

use functions::{Function, Function::*, Trial};

mod functions {
    use super::*;
    use crate::engine::quantity::kinds::NUMBER;

    choice!(/// What is computed.
    Function {
        Cubic "cubic" "three roots",
        Tangent "tangent" "touches",
        TwoClose "two-close" "two roots nearer than the grid",
        Steps "steps" "jumps",
        Gap "gap" "missing in the middle",
        GapBesideRoot "gap-beside-root" "missing right above a root",
        Pole "pole" "one over x",
        Stopped "stopped" "refused below one",
        Plateau "plateau" "held between two bounds",
        Steep "steep" "a very steep exponential",
        Vanishing "vanishing" "flat exponential that never reaches zero",
        Kink "kink" "two slopes",
        Flat "flat" "flat at its root",
        Wave "wave" "a sine",
        Tan "tan" "many poles",
        Wild "wild" "oscillates ever faster",
        Noise "noise" "no two neighbours alike, often missing",
    });

    sheet! {
        /// A number as a function of another.
        Trial, "trial", "Trial", Stage::Plan,
        sources: &[],
        cautions: &[],
        criteria: &[],
        inputs: {
            x        "x":        f64      = Term::number(&NUMBER, "x", "x"),
            function "function": Function = Term::other("Function"),
        }
        outputs Outputs: {
            y "y": Known<f64> = Term::number(&NUMBER, "y", "y"),
        }
    }

    impl Evaluate for Trial {
        type Outputs = Outputs;
        fn evaluate(&self, _w: &mut Working) -> Result<Outputs, Stop> {
            let x = self.x;
            let missing = Err(Missing::none_exists("missing"));
            let y = match self.function {
                Function::Cubic => (x - 1.0) * (x - 2.0) * (x - 2.05),
                Function::Tangent => (x - 1.3).powi(2),
                Function::TwoClose => (x - 1.3).powi(2) - 1e-8,
                Function::Steps => x.floor(),
                Function::Gap if (-0.5..1.5).contains(&x) => return Ok(Outputs { y: missing }),
                Function::Gap => x,
                Function::GapBesideRoot if x > 1.003 => return Ok(Outputs { y: missing }),
                Function::GapBesideRoot => x - 1.0,
                Function::Pole => 1.0 / x,
                Function::Stopped if x < 1.0 => return Err(Problem::new("x", "below one").into()),
                Function::Stopped => x * x - 4.0,
                Function::Plateau => x.clamp(-1.0, 2.0),
                Function::Steep => (1000.0 * x).exp(),
                Function::Vanishing => (-1000.0 * x).exp(),
                Function::Kink => {
                    if x < 1.0 {
                        1e-3 * (x - 1.0)
                    } else {
                        1e3 * (x - 1.0)
                    }
                }
                Function::Flat => 1.0 + (x - 1.0).powi(3),
                Function::Wave => x.sin(),
                Function::Tan => x.tan(),
                Function::Wild => (1.0 / x).sin(),
                Function::Noise => match x.to_bits().wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 60 {
                    0..4 => return Ok(Outputs { y: missing }),
                    high => high as f64 - 9.0,
                },
            };
            Ok(Outputs { y: Ok(y) })
        }
    }
}

/// A search that takes more evaluations than this is no longer a search.
const MOST: usize = 1500;

fn trial(function: Function, target: f64, range: (f64, f64)) -> Solution {
    let solution = unbounded_trial(function, target, range);
    assert!(solution.evaluations < MOST, "{function:?}: {} evaluations", solution.evaluations);
    solution
}

fn unbounded_trial(function: Function, target: f64, range: (f64, f64)) -> Solution {
    let entry = crate::engine::sheet::Entry::of::<Trial>();
    let case = entry.fill(&[Some(Value::Number(0.7)), Some(Value::Choice(function.id()))]).unwrap();
    let dial = Dial::of(case.as_ref(), "x").unwrap();
    solve(case.as_ref(), Number::Output(0), target, dial, range)
}

#[track_caller]
fn near(found: &[f64], expected: &[f64], tolerance: f64) {
    let is_near = |(a, b): (&f64, &f64)| (a - b).abs() <= tolerance * b.abs().max(1e-3);
    assert!(
        found.len() == expected.len() && found.iter().zip(expected).all(is_near),
        "found {found:?}, expected {expected:?}"
    );
}

#[test]
fn every_root_is_found() {
    let solution = trial(Cubic, 0.0, (-10.0, 10.0));
    near(&solution.roots, &[1.0, 2.0, 2.05], 1e-12);
    assert!(solution.jumps.is_empty() && solution.plateaus.is_empty());
    let solution = trial(Wave, 0.5, (0.0, 20.0));
    // π/6 and 5π/6, and again after each turn
    let turn = std::f64::consts::TAU;
    let first = [turn / 12.0, 5.0 * turn / 12.0];
    let expected: Vec<f64> = (0..4).flat_map(|n| first.map(|x| x + turn * f64::from(n))).collect();
    near(&solution.roots, &expected[..7], 1e-12);
}

#[test]
fn a_root_at_the_end_of_the_range_counts() {
    near(&trial(Cubic, 0.0, (1.0, 1.9)).roots, &[1.0], 1e-12);
    near(&trial(Cubic, 0.0, (0.0, 1.0)).roots, &[1.0], 1e-12);
    near(&trial(Cubic, 0.0, (1.0, 2.05)).roots, &[1.0, 2.0, 2.05], 1e-12);
}

#[test]
fn a_touch_is_a_root_and_two_close_ones_are_two() {
    // the place of a minimum is known to the root of the precision of its height
    near(&trial(Tangent, 0.0, (0.0, 3.0)).roots, &[1.3], 1e-7);
    near(&trial(Tangent, 0.0, (-50.0, 40.0)).roots, &[1.3], 1e-7);
    near(&trial(Tangent, -1e-6, (0.0, 3.0)).roots, &[], 0.0);
    near(&trial(TwoClose, 0.0, (0.0, 3.0)).roots, &[1.2999, 1.3001], 1e-12);
}

#[test]
fn a_jump_is_no_root() {
    let solution = trial(Steps, 1.5, (0.0, 4.0));
    near(&solution.roots, &[], 0.0);
    near(&solution.jumps, &[2.0], 1e-12);
    let solution = trial(Steps, 1.5, (0.1, 3.7));
    near(&solution.jumps, &[2.0], 1e-12);
    assert!(!solution.exists());
}

#[test]
fn a_pole_is_no_root_wherever_the_grid_falls() {
    for range in [(-1.0, 1.0), (-1.0, 2.0), (-0.37, 11.0)] {
        let solution = trial(Pole, 0.0, range);
        near(&solution.roots, &[], 0.0);
        assert!(solution.jumps.len() == 1 && solution.jumps[0].abs() < 1e-12, "{:?}", solution.jumps);
        near(&trial(Pole, 4.0, range).roots, &[0.25], 1e-12);
    }
}

#[test]
fn what_is_missing_splits_the_range() {
    // the sign changes over the gap, but nothing there gives the target
    let solution = trial(Gap, 0.5, (-3.0, 3.0));
    assert!(!solution.exists() && solution.jumps.is_empty(), "{solution:?}");
    near(&trial(Gap, -1.0, (-3.0, 3.0)).roots, &[-1.0], 1e-12);
    near(&trial(Stopped, 0.0, (-3.0, 3.0)).roots, &[2.0], 1e-12);
    near(&trial(Stopped, -3.0, (-3.0, 3.0)).roots, &[1.0], 1e-12);
    // the root lies in the cell in which the number ends
    near(&trial(GapBesideRoot, 0.0, (0.0, 3.0)).roots, &[1.0], 1e-12);
}

#[test]
fn a_stretch_of_equal_numbers_is_told_as_one() {
    let solution = trial(Plateau, 2.0, (0.0, 10.0));
    near(&solution.roots, &[], 0.0);
    near(&[solution.plateaus[0].0, solution.plateaus[0].1], &[2.0, 10.0], 1e-12);
    near(&trial(Plateau, 0.5, (-5.0, 5.0)).roots, &[0.5], 1e-12);
    // a plateau that lies between two points of the grid
    let solution = trial(Steps, 1.0, (-190.0, 200.0));
    assert_eq!(solution.plateaus.len(), 1);
    near(&[solution.plateaus[0].0, solution.plateaus[0].1], &[1.0, 2.0], 1e-12);
}

#[test]
fn steep_flat_and_kinked_functions() {
    // ln(1e300) / 1000, beside overflow
    near(&trial(Steep, 1e300, (-1.0, 1.0)).roots, &[0.690_775_527_898_213_7], 1e-12);
    near(&trial(Steep, 1.0, (-1.0, 1.0)).roots, &[0.0], 1e-12);
    near(&trial(Kink, 0.0, (-100.0, 100.0)).roots, &[1.0], 1e-9);
    near(&trial(Kink, -1e-3, (-100.0, 100.0)).roots, &[0.0], 1e-9);
    // eight units in the last place of 1 are the cube of 1e-5
    near(&trial(Flat, 1.0, (-4.0, 5.0)).roots, &[1.0], 2e-5);
    // comes as near as one likes, and where it underflows is zero
    assert!(!trial(Vanishing, 0.0, (0.0, 0.7)).exists());
    assert_eq!(trial(Vanishing, 0.0, (0.0, 10.0)).plateaus.len(), 1);
}

#[test]
fn poles_and_roots_alternate() {
    let solution = trial(Tan, 1.0, (0.0, 10.0));
    let quarter = std::f64::consts::FRAC_PI_4;
    near(&solution.roots, &[quarter, 5.0 * quarter, 9.0 * quarter], 1e-12);
    near(&solution.jumps, &[2.0 * quarter, 6.0 * quarter, 10.0 * quarter], 1e-12);
}

#[test]
fn a_wild_function_costs_a_bounded_number_of_evaluations() {
    for function in [Wild, Noise] {
        for range in [(-1.0, 1.0), (0.0, 1e-3), (1e-6, 1e6)] {
            let solution = unbounded_trial(function, 0.3, range);
            assert!(solution.evaluations < 25_000, "{function:?}: {}", solution.evaluations);
            let wild = |x: &f64| function != Wild || ((1.0 / x).sin() - 0.3).abs() < 1e-6;
            assert!(solution.roots.iter().all(wild), "{:?}", solution.roots);
        }
    }
}

#[test]
fn a_range_that_is_none_gives_nothing() {
    for range in [(3.0, 0.0), (f64::NAN, 1.0), (0.0, f64::INFINITY)] {
        assert!(!trial(Cubic, 0.0, range).exists());
    }
    assert!(!trial(Cubic, f64::NAN, (0.0, 3.0)).exists());
    near(&trial(Cubic, 0.0, (2.0, 2.0)).roots, &[2.0], 0.0);
}

/// A sheet of the catalogue with numbers in SI by id.
pub(crate) fn filled(sheet: &str, values: &[(&str, f64)]) -> Box<dyn Case> {
    let entry = catalogue::find(sheet).unwrap();
    let value = |id: &str| values.iter().find(|(name, _)| *name == id).map(|(_, si)| Value::Number(*si));
    let values: Vec<_> = entry.declaration.inputs.iter().map(|field| value(field.id)).collect();
    entry.fill(&values).unwrap()
}

const LITRE: f64 = 1e-3;
pub(crate) const LITRE_PER_MINUTE: f64 = 1e-3 / 60.0;
const BAR: f64 = 1e5;

fn asked(case: &dyn Case, output: &str, target: f64, input: &str) -> Solution {
    let dial = Dial::of(case, input).unwrap();
    let number = Number::of_output(case, output).unwrap();
    solve(case, number, target, dial, usual_range(case, &dial).unwrap())
}

#[test]
fn questions_to_real_sheets() {
    // 80 °C for ten minutes are 600 s: 10^0 · 600
    let heat = filled("heat-dose", &[("set-temperature", 273.15 + 71.0), ("set-time", 600.0)]);
    let solution = asked(heat.as_ref(), "dose", 600.0, "set-temperature");
    near(&solution.roots, &[353.15], 1e-12);
    // below 65 °C nothing counts, at 65 °C 10^-1.5 · 600 = 18.97 s: 10 s are jumped over, and zero is a plateau
    let solution = asked(heat.as_ref(), "dose", 10.0, "set-temperature");
    near(&solution.roots, &[], 0.0);
    near(&solution.jumps, &[338.15], 1e-12);
    let solution = asked(heat.as_ref(), "dose", 0.0, "set-temperature");
    near(&solution.roots, &[], 0.0);
    near(&[solution.plateaus[0].0, solution.plateaus[0].1], &[273.15, 338.15], 1e-12);

    // p = p0 − (p0 − p1) (Q/Q1)²: with 4 bar shut, 2 bar at 10 L/min, 3.5 bar are left at 10/√4 = 5 L/min
    let tap =
        [("shut-pressure", 4.0 * BAR), ("open-flow", 10.0 * LITRE_PER_MINUTE), ("open-pressure", 2.0 * BAR)];
    let tap = filled("tap-curve", &tap);
    let solution = asked(tap.as_ref(), "pressure-at-flow", 3.5 * BAR, "running-flow");
    near(&solution.roots, &[5.0 * LITRE_PER_MINUTE], 1e-12);
}

#[test]
fn kinks_and_jumps_of_water() {
    // every form of the correction is 1 at 25 °C, and there another one becomes the lowest
    let correction = filled("temperature-correction", &[("temperature", 283.15)]);
    near(&asked(correction.as_ref(), "lowest-ratio", 1.0, "temperature").roots, &[298.15], 1e-12);

    // In a bore of 10 mm at 20 °C (1.0034 mm²/s) the flow turns at Re 2040: π/4 · 0.01 · 2040 · 1.0034e-6 m³/s. There
    // 10 m of hose take 64/2040 · 1000 · 20.9 Pa = 656 Pa, and right above it the half more.
    let entry = catalogue::find("inlet-pressure").unwrap();
    let value = |id: &str| match id {
        "hoses" => Some(Value::Table(vec![vec![Some(Value::Number(0.01)), Some(Value::Number(10.0)), None]])),
        "shut-pressure" | "open-pressure" => Some(Value::Number(3.0 * BAR)),
        "open-flow" => Some(Value::Number(10.0 * LITRE_PER_MINUTE)),
        "running-flow" => Some(Value::Number(2.0 * LITRE_PER_MINUTE)),
        "tap-temperature" => Some(Value::Number(293.15)),
        "filter-drop" | "line-drop" => Some(Value::Number(0.0)),
        _ => None,
    };
    let values: Vec<_> = entry.declaration.inputs.iter().map(|field| value(field.id)).collect();
    let case = entry.fill(&values).unwrap();
    let solution = asked(case.as_ref(), "inlet-pressure-running", 3.0 * BAR - 800.0, "running-flow");
    near(&solution.roots, &[], 0.0);
    near(&solution.jumps, &[1.6077e-5], 1e-4);
    let solution = asked(case.as_ref(), "inlet-pressure-running", 3.0 * BAR - 328.0, "running-flow");
    near(&solution.roots, &[1.6077e-5 / 2.0], 1e-3);
}

#[test]
fn a_distance_is_solved_for_zero() {
    let case = filled("carbon-contact-time", &[("bed-volume", 0.01), ("flow", 2.0 * LITRE_PER_MINUTE)]);
    // behind the three outputs stand the distances of the three checks; that of the time in all is the first
    let number = Number::nth(case.as_ref(), 3).unwrap();
    assert_eq!(number, Number::Distance("contact-time", ""));
    let dial = Dial::of(case.as_ref(), "second-bed-volume").unwrap();
    assert_eq!(dial.value, None);
    let range = usual_range(case.as_ref(), &dial).unwrap();
    let solution = solve(case.as_ref(), number, 0.0, dial, range);
    near(&solution.roots, &[10.0 * LITRE], 1e-12);
    assert_eq!(Number::nth(case.as_ref(), 6), None);
}

#[test]
fn that_there_is_none_is_said() {
    let case = filled("carbon-contact-time", &[("bed-volume", 0.01), ("flow", 2.0 * LITRE_PER_MINUTE)]);
    let dial = Dial::of(case.as_ref(), "bed-volume").unwrap();
    let solution = solve(case.as_ref(), Number::Output(0), -1.0, dial, (0.001, 0.2));
    let said = solution.none(case.as_ref(), &dial).unwrap();
    assert_eq!(said.open_places(), Vec::<&str>::new());
    // what is not possible (below 0.01 L) would not be looked at
    assert_eq!(
        said.show(UnitSet::Metric),
        "no Bed volume of the first carbon (worker) from 1.00 L to 200 L gives this number"
    );
}
