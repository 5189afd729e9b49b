use super::*;
use crate::engine::quantity::{celsius, litres_per_minute};
use crate::engine::sheet::{Case, Sheet};
use crate::engine::uncertainty::first_order;

const OPEN: Missing = Missing::not_known("", "");

/// The same state twice, but for a product flow of 1.3 instead of 1.5 L/min.
fn equal() -> NormalizedPerformance {
    NormalizedPerformance {
        product: litres_per_minute(1.3),
        reject: Ok(litres_per_minute(1.1)),
        temperature: celsius(25.0),
        feed: Ok(Conductivity::of(0.06)),
        permeate: Ok(Conductivity::of(0.001)),
        pressure: Ok(Pressure::of(9e5)),
        back_pressure: None,
        drop: None,
        reject_pressure: None,
        product_0: litres_per_minute(1.5),
        reject_0: Ok(litres_per_minute(1.5 / 1.3 * 1.1)),
        temperature_0: celsius(25.0),
        feed_0: Ok(Conductivity::of(0.06)),
        permeate_0: Ok(Conductivity::of(0.001)),
        pressure_0: Ok(Pressure::of(9e5)),
        back_pressure_0: None,
        drop_0: None,
        reject_pressure_0: None,
        same: None,
        form: None,
        per_conductivity: None,
    }
}

/// In equal states the flow of today is the normalized one, whatever the form.
#[test]
fn equal_states_are_the_identity() {
    for form in Form::ALL.into_iter().map(Some).chain([None]) {
        let sheet = NormalizedPerformance { form, ..equal() };
        let outputs = sheet.run(&mut Working::silent()).unwrap();
        assert!((outputs.flow / litres_per_minute(1.3) - 1.0).abs() < 1e-12);
        assert!((outputs.passage_ratio.unwrap() - 1.0).abs() < 1e-12);
        let without = NormalizedPerformance { pressure: Err(OPEN), ..sheet };
        assert!(
            (without.run(&mut Working::silent()).unwrap().flow / litres_per_minute(1.3) - 1.0).abs() < 1e-12
        );
    }
}

/// Two jug readings of 3 % each, months apart: √2 · 3 %/√3 = 2.449 % of their ratio; by one jug nothing but the conductivity,
/// pressure and temperature are left.
#[test]
fn readings_months_apart_have_errors_of_their_own() {
    let share = |same| {
        let case: Box<dyn Case> =
            Box::new(NormalizedPerformance { pressure: Err(OPEN), pressure_0: Err(OPEN), same, ..equal() });
        let budget = first_order(case.as_ref());
        let of_jug = budget.parts.iter().filter(|part| part.fields.contains(&"product-flow"));
        let start = budget.parts.iter().filter(|part| part.fields.contains(&"baseline-product-flow"));
        let changes: Vec<f64> = of_jug.chain(start).map(|part| part.changes[1]).collect();
        changes.iter().map(|change| change * change).sum::<f64>().sqrt() / budget.numbers[1]
    };
    for apart in [None, Some(SameInstruments::Others)] {
        assert!((share(apart) - 0.03 * (2.0f64 / 3.0).sqrt()).abs() < 1e-5, "{}", share(apart));
    }
    assert!(share(Some(SameInstruments::Same)) < 1e-9);
}

/// Both gauges of the difference: √(0.2² + 0.2²)/√3 bar.
#[test]
fn a_drop_of_two_gauges_has_both_errors() {
    let case: Box<dyn Case> =
        Box::new(NormalizedPerformance { reject_pressure: Some(Pressure::of(8.5e5)), ..equal() });
    let drop =
        NormalizedPerformance::DECLARATION.outputs.iter().position(|field| field.id == "drop-today").unwrap();
    let budget = first_order(case.as_ref());
    assert!((budget.numbers[drop] - 0.5e5).abs() < 1e-6);
    let expected = 0.2e5 * (2.0f64 / 3.0).sqrt();
    assert!((budget.standard_uncertainty(drop).unwrap() - expected).abs() < 1e-3);
}
