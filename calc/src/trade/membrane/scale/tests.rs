use super::*;
use crate::engine::curve::Number;
use crate::engine::quantity::{Quantity, celsius};
use crate::engine::sheet::{Case, Dial, Reported, Sheet};
use crate::engine::solve::solve;

/// A moderately hard water at 12 °C.
fn water() -> ScaleTendency {
    let row =
        |analyte, value: f64| FeedResult { analyte, result: Reported::Is(Concentration::of(value * 1e-3)) };
    ScaleTendency {
        report: vec![
            row(Analyte::Calcium, 45.0),
            row(Analyte::Magnesium, 9.0),
            row(Analyte::Sodium, 20.0),
            row(Analyte::Potassium, 2.0),
            row(Analyte::Chloride, 30.0),
            row(Analyte::Sulfate, 40.0),
            row(Analyte::Alkalinity, 115.0),
            row(Analyte::Silica, 40.0),
        ],
        ph: Ok(Ph::of(7.7)),
        temperature: celsius(12.0),
        ph_temperature: None,
        recovery: Ok(percent(50.0)),
        passage: None,
        softened: None,
    }
}

fn run(sheet: &ScaleTendency) -> Outputs {
    sheet.run(&mut Working::silent()).unwrap()
}

#[test]
fn the_highest_recovery_is_what_solving_backwards_finds() {
    let sheet = water();
    let limits = run(&sheet).limits;
    let case: Box<dyn Case> = Box::new(sheet);
    let dial = Dial::of(case.as_ref(), "recovery").unwrap();
    for (scale, output, target) in
        [(Scale::Calcite, "reject-calcite-index", 0.0), (Scale::Silica, "reject-silica", f64::NAN)]
    {
        let highest = limits.iter().find(|row| row.scale == scale).unwrap().highest.unwrap().si();
        let number = Number::of_output(case.as_ref(), output).unwrap();
        if target.is_finite() {
            let found = solve(case.as_ref(), number, target, dial, (0.001, 0.9));
            assert!(
                (found.roots[0] - highest).abs() < 1e-7,
                "{}: {:?} for {highest}",
                scale.id(),
                found.roots
            );
        } else {
            // at that recovery silica and what dissolves of it are the same
            let at = run(&ScaleTendency { recovery: Ok(Ratio::of(highest)), ..water() });
            let share = at.silica.unwrap() / at.solubility.unwrap();
            assert!((share - 1.0).abs() < 1e-8, "{share}");
        }
    }
}

#[test]
fn warmer_and_further_is_nearer_to_calcite_and_colder_to_silica() {
    let at = |t: f64, recovery: f64| {
        run(&ScaleTendency { temperature: celsius(t), recovery: Ok(percent(recovery)), ..water() })
    };
    let (cold, warm, further) = (at(5.0, 50.0), at(30.0, 50.0), at(30.0, 70.0));
    assert!(cold.reject_calcite.unwrap() < warm.reject_calcite.unwrap());
    assert!(warm.reject_calcite.unwrap() < further.reject_calcite.unwrap());
    assert!(cold.solubility.unwrap() < warm.solubility.unwrap());
}

#[test]
fn an_equal_temperature_of_the_ph_changes_nothing() {
    let with = ScaleTendency { ph_temperature: Some(celsius(12.0)), ..water() };
    assert_eq!(run(&with), run(&water()));
    // and a very near one hardly anything
    let near = ScaleTendency { ph_temperature: Some(celsius(12.000_1)), ..water() };
    let difference = run(&near).feed_calcite.unwrap() - run(&water()).feed_calcite.unwrap();
    assert!(difference.si().abs() < 1e-5);
}

#[test]
fn a_softener_that_does_nothing_changes_nothing() {
    let report = Report::read(&water().report, &mut Working::silent()).unwrap();
    let same = Hardness::of(concentrate::hardness(&report));
    let with = run(&ScaleTendency { softened: Some(same), ..water() });
    let difference = with.reject_calcite.unwrap() - run(&water()).reject_calcite.unwrap();
    assert!(difference.si().abs() < 1e-9);
    let none = run(&ScaleTendency { softened: Some(Hardness::from_si(0.0)), ..water() });
    assert!(none.reject_calcite.is_err_and(|missing| missing.is_none()));
}
