//! Published examples of JCGM 101, 9.2, and what a state that goes on in slices must hold.

use super::*;
use crate::documents::record::Record;
use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{Evaluate, Sheet, Stage, Stop, Term, Value};
use crate::engine::uncertainty::first_order;
use crate::program::catalogue;
use crate::sheet;

/// A half-width whose rectangle has the standard uncertainty 1.
const ONE: f64 = 1.732_050_807_568_877_2;

const fn known_to(symbol: &'static str, standard_uncertainty: f64) -> Term {
    Term::number(&NUMBER, symbol, symbol).within(standard_uncertainty * ONE, "")
}

sheet! {
    /// The sum of four quantities.
    Sum, "sum", "Sum", Stage::Plan,
    sources: &[],
    cautions: &[],
    criteria: &[],
    inputs: {
        a "a": f64 = known_to("a", 1.0),
        b "b": f64 = known_to("b", 1.0),
        c "c": f64 = known_to("c", 1.0),
        d "d": f64 = known_to("d", 1.0),
        e "e": Option<f64> = known_to("e", 10.0),
    }
    outputs Outputs: {
        sum "sum": f64 = Term::number(&NUMBER, "Sum", "Y"),
    }
}

impl Evaluate for Sum {
    type Outputs = Outputs;
    fn evaluate(&self, _w: &mut Working) -> Result<Outputs, Stop> {
        let &Sum { a, b, c, d, e } = self;
        Ok(Outputs { sum: a + b + c + e.unwrap_or(d) })
    }
}

fn trials(case: &dyn Case, count: usize, seed: u64) -> MonteCarlo {
    let mut trials = MonteCarlo::new(case, count, seed);
    while !trials.step(1000) {}
    trials
}

fn sum(e: Option<f64>) -> Box<dyn Case> {
    let value = Some(Value::Number(0.0));
    let values = [value.clone(), value.clone(), value.clone(), value, e.map(Value::Number)];
    Box::new(Sum::read(&values).unwrap())
}

#[test]
fn four_rectangles() {
    // JCGM 101, 9.2.3: u 2.0, interval ± 3.88
    let case = sum(None);
    let spread = trials(case.as_ref(), 200_000, 7).spreads()[0].unwrap();
    assert!(spread.mean.abs() < 0.02 && (spread.standard_deviation - 2.0).abs() < 0.02, "{spread:?}");
    assert!((spread.interval.0 + 3.88).abs() < 0.03 && (spread.interval.1 - 3.88).abs() < 0.03, "{spread:?}");
    assert!(!spread.disagrees(&first_order(case.as_ref()), 0));
}

#[test]
fn one_rectangle_that_rules() {
    // JCGM 101, 9.2.4: u 10.1, interval ± 17.0, where first order says ± 19.9
    let case = sum(Some(0.0));
    let spread = trials(case.as_ref(), 200_000, 7).spreads()[0].unwrap();
    assert!((spread.standard_deviation - 10.15).abs() < 0.1, "{spread:?}");
    assert!((spread.interval.0 + 17.0).abs() < 0.1 && (spread.interval.1 - 17.0).abs() < 0.1, "{spread:?}");
    assert!(spread.disagrees(&first_order(case.as_ref()), 0));
}

#[test]
fn slices_change_nothing_and_a_seed_is_a_seed() {
    let case = sum(None);
    let (mut whole, mut sliced) =
        (MonteCarlo::new(case.as_ref(), 500, 3), MonteCarlo::new(case.as_ref(), 500, 3));
    assert!(whole.step(10_000) && whole.progress() == (500, 500));
    while !sliced.step(7) {}
    assert_eq!(whole.spreads(), sliced.spreads());
    assert_ne!(whole.spreads(), trials(case.as_ref(), 500, 4).spreads());
}

#[test]
fn the_sequence_is_the_one_that_it_was() {
    let mut generator = Rand64::new(1);
    let drawn: [u64; 3] = std::array::from_fn(|_| generator.rand_u64());
    assert_eq!(drawn, [4491435843050078335, 6423928555577756314, 4758538779453212100]);
}

#[test]
fn the_whole_plan_keeps_its_room() {
    let record = Record::open(include_str!("../../../../examples/ostrin-vale.json")).unwrap();
    let case = catalogue::find("plan").unwrap().fill(&record.inputs_of_plan(0).0).unwrap();
    let mut trials = MonteCarlo::new(case.as_ref(), 300, 5);
    let room = trials.drawn.capacity();
    while !trials.step(50) {}
    assert_eq!(trials.drawn.capacity(), room);
    let budget = first_order(case.as_ref());
    let spreads = trials.spreads();
    assert_eq!(spreads.len(), budget.numbers.len());
    // where nothing bends, a Monte Carlo of 300 trials comes within a few per cent of first order
    let demand = spreads.iter().enumerate().filter_map(|(place, spread)| {
        let first = budget.standard_uncertainty(place)?;
        (first > 0.0).then_some(spread.as_ref()?.standard_deviation / first)
    });
    let mut ratios: Vec<f64> = demand.collect();
    ratios.sort_by(f64::total_cmp);
    let median = ratios[ratios.len() / 2];
    assert!((median - 1.0).abs() < 0.1, "{median}");
}
