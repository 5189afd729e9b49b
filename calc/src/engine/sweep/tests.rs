//! Sweeps over real sheets, point by point against algebra.

use super::Sweep;
use crate::engine::curve::Number;
use crate::engine::sheet::{Case, Dial};
use crate::engine::solve::tests::{LITRE_PER_MINUTE, filled};

/// 20 L of carbon at 2 L/min: 10 minutes, the limit itself.
fn carbon() -> Box<dyn Case> {
    filled("carbon-contact-time", &[("bed-volume", 0.02), ("flow", 2.0 * LITRE_PER_MINUTE)])
}

fn over_flow(number: Number, points: usize) -> Sweep {
    let case = carbon();
    let dial = Dial::of(case.as_ref(), "flow").unwrap();
    Sweep::new(case.as_ref(), number, dial, (LITRE_PER_MINUTE, 16.0 * LITRE_PER_MINUTE), points)
}

#[test]
fn points_lie_on_the_curve_and_on_both_ends() {
    let mut sweep = over_flow(Number::Output(1), 5);
    assert!(sweep.step(100));
    // by logarithm: 1, 2, 4, 8, 16 L/min, and 20 L over each
    let minutes: Vec<f64> = sweep.ys.iter().map(|y| y / 60.0).collect();
    for (found, expected) in minutes.iter().zip([20.0, 10.0, 5.0, 2.5, 1.25]) {
        assert!((found - expected).abs() < 1e-12 * expected, "{minutes:?}");
    }
    assert_eq!((sweep.xs[0], sweep.xs[4]), (LITRE_PER_MINUTE, 16.0 * LITRE_PER_MINUTE));
    assert_eq!(sweep.limit(), Some(600.0));
}

#[test]
fn the_band_is_twice_the_standard_uncertainty() {
    let mut sweep = over_flow(Number::Output(0), 9);
    assert!(!sweep.step_band(3), "there is no curve yet");
    sweep.step(9);
    assert!(sweep.step_band(9));
    // 5 % and 3 % as half-widths of rectangles: √(5² + 3²) / √3 % = 3.366 %, twice of it 6.73 %
    for (y, half_width) in sweep.ys.iter().zip(&sweep.half_widths) {
        assert!((half_width / y - 0.0673).abs() < 1e-4, "{}", half_width / y);
    }
}

#[test]
fn slices_give_what_the_whole_gives() {
    let mut whole = over_flow(Number::Output(1), 50);
    whole.step(50);
    whole.step_band(50);
    let mut slices = over_flow(Number::Output(1), 50);
    let mut rounds = 0;
    while !slices.step(7) {
        rounds += 1;
    }
    while !slices.step_band(11) {
        rounds += 1;
    }
    assert_eq!(rounds, 7 + 4);
    assert_eq!((whole.ys, whole.half_widths), (slices.ys, slices.half_widths));
}

#[test]
fn a_check_is_swept_by_its_distance_or_by_its_number() {
    let mut distance = over_flow(Number::Distance("contact-time", ""), 5);
    let mut judged = over_flow(Number::Judged("contact-time", ""), 5);
    distance.step(5);
    judged.step(5);
    assert_eq!((distance.limit(), judged.limit()), (Some(0.0), Some(600.0)));
    assert_eq!(judged.criterion().map(|criterion| criterion.id), Some("contact-time"));
    for (distance, number) in distance.ys.iter().zip(&judged.ys) {
        assert!((distance + 600.0 - number).abs() < 1e-9);
    }
}

#[test]
fn what_is_missing_is_a_gap() {
    // open above shut cannot be: beyond 4 bar there is nothing
    let flows = [("open-flow", 10.0 * LITRE_PER_MINUTE), ("running-flow", 5.0 * LITRE_PER_MINUTE)];
    let pressures = [("shut-pressure", 4e5), ("open-pressure", 2e5)];
    let case = filled("tap-curve", &[flows, pressures].concat());
    let dial = Dial::of(case.as_ref(), "open-pressure").unwrap();
    let pressure = Number::of_output(case.as_ref(), "pressure-at-flow").unwrap();
    let mut sweep = Sweep::new(case.as_ref(), pressure, dial, (2e5, 6e5), 5);
    assert!(sweep.step(5) && sweep.step_band(5));
    // a quarter of the loss at half the flow: 4 − (4 − p)/4 bar
    assert_eq!(sweep.ys[..3], [3.5e5, 3.75e5, 4e5]);
    let there = |values: &[f64]| values.iter().map(|y| y.is_finite()).collect::<Vec<_>>();
    assert_eq!(there(&sweep.ys), [true, true, true, false, false]);
    assert_eq!(there(&sweep.half_widths), [true, true, true, false, false]);
    assert_eq!(sweep.limit(), None);
}

#[test]
fn an_input_that_was_left_out_can_be_swept() {
    let case = carbon();
    let dial = Dial::of(case.as_ref(), "second-bed-volume").unwrap();
    let mut sweep = Sweep::new(case.as_ref(), Number::Output(1), dial, (0.02, 0.06), 3);
    assert!(sweep.step(3) && sweep.step_band(3));
    // (20 + 20, 40, 60 L) at 2 L/min
    for (y, minutes) in sweep.ys.iter().zip([20.0, 30.0, 40.0]) {
        assert!((y / 60.0 - minutes).abs() < 1e-12 * minutes);
    }
    // each bed known to 5 %: half of 40 L each, so √(2.5² + 2.5² + 3²) / √3 % = 2.677 %
    assert!((sweep.half_widths[0] / sweep.ys[0] - 2.0 * 0.02677).abs() < 1e-4);
}

#[test]
fn no_points_and_one_point() {
    let mut none = over_flow(Number::Output(0), 0);
    assert!(none.step(1) && none.step_band(1) && none.limit().is_none());
    let mut one = over_flow(Number::Output(0), 1);
    assert!(one.step(1) && one.ys.len() == 1);
}
