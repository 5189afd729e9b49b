//! Uncertainties worked out elsewhere: published examples, and rectangles by hand.

use super::{Budget, Instruments, first_order, numbers, settle};
use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{
    Case, Dial, Entry, Evaluate, Known, Missing, Shift, Stage, State, Stop, Term, Value, Working,
};
use crate::engine::solve::tests::{LITRE_PER_MINUTE, filled};
use crate::program::catalogue;
use crate::{choice, sheet};

/// A half-width whose rectangle has the standard uncertainty 1.
const ONE: f64 = 1.732_050_807_568_877_2;

const fn known_to(symbol: &'static str, standard_uncertainty: f64) -> Term {
    Term::number(&NUMBER, symbol, symbol).within(standard_uncertainty * ONE, "")
}

mod end_gauge {
    use super::*;

    sheet! {
        /// Calibration of an end gauge: JCGM 100, H.1. Lengths in nm.
        EndGauge, "end-gauge", "End gauge", Stage::Plan,
        sources: &[],
        cautions: &[],
        criteria: &[],
        inputs: {
            standard   "standard":   f64 = known_to("l_S", 25.0),
            difference "difference": f64 = known_to("d", 9.7),
            expansion  "expansion":  f64 = known_to("α_S", 1.2e-6),
            deviation  "deviation":  f64 = known_to("θ", 0.41),
            expansions "expansions": f64 = known_to("δα", 0.58e-6),
            apart      "apart":      f64 = known_to("δθ", 0.029),
        }
        outputs Outputs: {
            length "length": f64 = Term::number(&NUMBER, "Length", "l"),
        }
    }

    impl Evaluate for EndGauge {
        type Outputs = Outputs;
        fn evaluate(&self, _w: &mut Working) -> Result<Outputs, Stop> {
            let &EndGauge { standard, difference, expansion, deviation, expansions, apart } = self;
            let length = standard + difference - standard * (expansions * deviation + expansion * apart);
            Ok(Outputs { length })
        }
    }
}

mod two_meters {
    use super::*;

    sheet! {
        /// Rejection from the readings of two meters.
        TwoMeters, "two-meters", "Two meters", Stage::Plan,
        sources: &[],
        cautions: &[],
        criteria: &[],
        inputs: {
            feed    "feed":    f64 = known_to("C_f", 8.4),
            product "product": f64 = known_to("C_p", 0.25),
        }
        outputs Outputs: {
            rejection "rejection": f64 = Term::number(&NUMBER, "Rejection", "R"),
        }
    }

    impl Evaluate for TwoMeters {
        type Outputs = Outputs;
        fn evaluate(&self, _w: &mut Working) -> Result<Outputs, Stop> {
            Ok(Outputs { rejection: 1.0 - self.product / self.feed })
        }
    }
}

use edges::Function;

mod edges {
    use super::*;

    choice!(/// What is computed.
        Function { Square "square" "square", Size "size" "absolute value", Root "root" "square root" });

    sheet! {
        /// A number known to 0.1, from -1 to 1.
        Edge, "edge", "Edge", Stage::Plan,
        sources: &[],
        cautions: &[],
        criteria: &[],
        inputs: {
            x        "x":        f64      = known_to("x", 0.1).possible(-1.0, 1.0, ""),
            function "function": Function = Term::other("Function"),
        }
        outputs Outputs: {
            y "y": Known<f64> = Term::number(&NUMBER, "y", "y"),
        }
    }

    impl Evaluate for Edge {
        type Outputs = Outputs;
        fn evaluate(&self, _w: &mut Working) -> Result<Outputs, Stop> {
            let x = self.x;
            let y = match self.function {
                Function::Square => Ok(x * x),
                Function::Size => Ok(x.abs()),
                Function::Root if x < 0.0 => Err(Missing::none_exists("no root")),
                Function::Root => Ok(x.sqrt()),
            };
            Ok(Outputs { y })
        }
    }
}

fn of(entry: Entry, values: &[f64]) -> Budget {
    let values: Vec<_> = values.iter().map(|si| Some(Value::Number(*si))).collect();
    first_order(entry.fill(&values).unwrap().as_ref())
}

fn edge(function: Function, x: f64) -> f64 {
    let values = [Some(Value::Number(x)), Some(Value::Choice(function.id()))];
    let case = Entry::of::<edges::Edge>().fill(&values).unwrap();
    first_order(case.as_ref()).standard_uncertainty(0).unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, expected {expected} ± {tolerance}");
}

#[test]
fn the_end_gauge_of_the_guide() {
    // JCGM 100:2008, H.1: l = 50.000838 mm, u_c = 32 nm. By hand: 25 nm of the standard, 9.7 nm of the comparison,
    // 50 mm · 0.1 · 0.58e-6 = 2.90 nm and 50 mm · 11.5e-6 · 0.029 = 16.68 nm of the two differences
    let budget = of(Entry::of::<end_gauge::EndGauge>(), &[50_000_623.0, 215.0, 11.5e-6, -0.1, 0.0, 0.0]);
    assert_eq!(budget.numbers, [50_000_838.0]);
    near(budget.standard_uncertainty(0).unwrap(), 32.0, 0.5);
    let parts: Vec<f64> = budget.parts.iter().map(|part| part.changes[0].abs()).collect();
    for (found, (expected, tolerance)) in
        parts.iter().zip([(25.0, 0.005), (9.7, 0.005), (0.0, 0.0), (0.0, 0.0), (2.9, 0.005), (16.68, 0.005)])
    {
        near(*found, expected, tolerance);
    }
    assert_eq!(budget.shares(0)[0].0, ["standard"]);
}

#[test]
fn rejection_by_two_meters() {
    // 9 / 420 = 2.14286 %, known to √((0.25 / 9)² + (8.4 / 420)²) = 3.4228 % of itself: 0.073346 points
    let budget = of(Entry::of::<two_meters::TwoMeters>(), &[420.0, 9.0]);
    near(budget.numbers[0], 0.97857, 5e-6);
    near(budget.standard_uncertainty(0).unwrap(), 0.00073346, 0.5e-6);
}

#[test]
fn one_instrument_makes_one_error() {
    // product and reject by one jug: 3 % as the half-width of a rectangle, 1.732 %, whole in their sum, gone in their ratio
    let flows = [("product-flow", LITRE_PER_MINUTE), ("reject-flow", 2.0 * LITRE_PER_MINUTE)];
    let recovery = filled("recovery", &flows);
    let budget = first_order(recovery.as_ref());
    assert_eq!(budget.parts[0].fields, ["product-flow", "reject-flow"]);
    near(budget.standard_uncertainty(0).unwrap() / budget.numbers[0], 0.017321, 1e-6);
    assert_eq!(budget.standard_uncertainty(1), None, "what rounding leaves is no uncertainty");
    // the same meter in feed and product leaves the rejection as it is
    let meter = filled("rejection", &[("feed-conductivity", 0.042), ("product-conductivity", 0.0009)]);
    assert_eq!(first_order(meter.as_ref()).standard_uncertainty(0), None);
}

#[test]
fn at_the_edge_one_side_tells() {
    // 0.95 + 0.1 is not possible: 0.95² − 0.85² = 0.18
    near(edge(Function::Square, 0.95), 0.18, 1e-12);
    // below zero there is no root: √0.1049 − √0.0049 = 0.253883
    near(edge(Function::Root, 0.0049), 0.253883, 1e-6);
    // inside, both sides: 0.6² − 0.4², halved
    near(edge(Function::Square, 0.5), 0.1, 0.0006);
}

#[test]
fn a_kink_and_an_extremum_are_not_taken_for_certainty() {
    // both sides rise by 0.1, though their mean change is nothing
    near(edge(Function::Size, 0.0), 0.1, 1e-12);
    // from 0.06 up to 0.16 and down to |−0.04|: 0.1 on one side, 0.02 on the other
    near(edge(Function::Size, 0.06), ((0.1f64.powi(2) + 0.02f64.powi(2)) / 2.0).sqrt(), 1e-12);
    // x² of a rectangle of the half-width a about zero has the variance 4 a⁴ / 45: 0.894 u²; u² is on the cautious side
    let exact = (4.0 * (0.1 * ONE).powi(4) / 45.0).sqrt();
    let found = edge(Function::Square, 0.0);
    assert!((exact..1.2 * exact).contains(&found), "{found}, exact {exact}");
}

/// Ten minutes at 80 °C, a reading each ten seconds.
fn log() -> Box<dyn Case> {
    let entry = catalogue::find("heat-dose").unwrap();
    let row = |i: u32| vec![None, Some(Value::Number(f64::from(10 * i))), Some(Value::Number(353.15))];
    let log = entry.declaration.input("log").unwrap();
    let mut values = vec![None; entry.declaration.inputs.len()];
    values[log] = Some(Value::Table((0..=60).map(row).collect()));
    entry.fill(&values).unwrap()
}

#[test]
fn the_readings_of_a_probe_share_its_error() {
    // 0.5 K as the half-width of a rectangle is 0.288675 K: 10^0.0288675 − 1 = 6.873 % up, 6.431 % down, however many
    // readings; √((6.873² + 6.431²) / 2) % of 600 s = 39.94 s
    let budget = first_order(log().as_ref());
    near(budget.numbers[0], 600.0, 1e-9);
    near(budget.standard_uncertainty(0).unwrap(), 39.94, 0.01);
}

#[test]
fn what_was_turned_is_put_back_exactly() {
    let hoses = Value::Table(vec![vec![Some(Value::Number(0.0127)), Some(Value::Number(6.1)), None]; 3]);
    let entry = catalogue::find("inlet-pressure").unwrap();
    let number = |id: &str| match id {
        "hoses" => Some(hoses.clone()),
        "shut-pressure" => Some(Value::Number(4.2e5)),
        "open-pressure" => Some(Value::Number(3.1e5)),
        "open-flow" => Some(Value::Number(12.3 * LITRE_PER_MINUTE)),
        "running-flow" => Some(Value::Number(2.06 * LITRE_PER_MINUTE)),
        "tap-temperature" => Some(Value::Number(281.1)),
        _ => None,
    };
    let values: Vec<_> = entry.declaration.inputs.iter().map(|field| number(field.id)).collect();
    for case in [entry.fill(&values).unwrap(), log()] {
        let mut w = Working::judging();
        let (mut before, mut after) = (Vec::new(), Vec::new());
        numbers(case.as_ref(), &mut w, &mut before);
        let mut turned = case.copy();
        for _ in 0..100 {
            let mut instruments = Instruments::of(case.as_ref());
            instruments.turn_each(case.as_ref(), turned.as_mut(), &before, &mut numbers, &mut |_, _| {});
        }
        numbers(turned.as_ref(), &mut w, &mut after);
        let bits = |numbers: &[f64]| numbers.iter().map(|number| number.to_bits()).collect::<Vec<_>>();
        assert_eq!(bits(&before), bits(&after));
    }
}

#[test]
fn an_input_is_put_to_a_number_and_emptied_again() {
    let case = filled("carbon-contact-time", &[("bed-volume", 0.02), ("flow", 2.0 * LITRE_PER_MINUTE)]);
    let second = Dial::of(case.as_ref(), "second-bed-volume").unwrap();
    let mut turned = case.copy();
    second.set(turned.as_mut(), 0.1);
    assert_eq!(turned.number(second.field), Some(0.1));
    turned.restore(second.field, case.as_ref());
    assert_eq!(turned.number(second.field), None);
    // a shift of what is not there is nothing
    second.turn(turned.as_mut(), Shift::By(1.0));
    assert_eq!(turned.number(second.field), None);
    // another sheet has nothing to give
    second.set(turned.as_mut(), 0.1);
    turned.restore(second.field, log().as_ref());
    assert_eq!(turned.number(second.field), Some(0.1));
}

#[test]
fn settling_takes_the_uncertainty_of_the_distance() {
    // 20.4 L at 2 L/min: 10.2 min, known to 3.37 %: 0.2 min above the limit, twice 0.343 min of uncertainty
    for (litres, expected) in
        [(20.4, State::Marginal), (21.3, State::Marginal), (21.6, State::Met), (19.9, State::NotMet)]
    {
        let case =
            filled("carbon-contact-time", &[("bed-volume", litres * 1e-3), ("flow", 2.0 * LITRE_PER_MINUTE)]);
        let mut w = Working::judging();
        case.judge(&mut w).unwrap();
        settle(case.as_ref(), w.checks_mut());
        let check = w.checks().iter().find(|check| check.id() == "contact-time").unwrap();
        assert_eq!(check.state, expected, "{litres} L");
        let budget = first_order(case.as_ref());
        // its distance is that of the first check, behind three outputs
        assert!(check.uncertainty.is_some() && budget.standard_uncertainty(3) == check.uncertainty);
    }
}

/// The table of the methods has a row more for a temperature that is not a whole degree: at 8 °C the reading turned by its
/// tolerance has other cells than the reading itself.
#[test]
fn a_number_stands_where_it_stood_beside_a_table_that_grows() {
    let case = filled("temperature-correction", &[("temperature", 281.15)]);
    let budget = first_order(case.as_ref());
    // the lowest of five methods, of which none falls by more than 4 % or less than 2 % for a kelvin
    let u = budget.standard_uncertainty(0).unwrap() / budget.numbers[0];
    let kelvin = Dial::of(case.as_ref(), "temperature").unwrap().standard_uncertainty().unwrap();
    let Shift::By(kelvin) = kelvin else { panic!("{kelvin:?}") };
    assert!((0.02..0.04).contains(&(u / kelvin)), "{u} for {kelvin} K");
}
