//! Figures of the native program beside their bounds; `cargo xtask bench` prints them with those of the page.

use calc::monte_carlo::MonteCarlo;
use calc::record::Record;
use calc::sheet::{Case, Working};
use calc::{catalogue, solve, uncertainty};
use std::hint::black_box;
use std::time::Instant;

const ROOM: &str = include_str!("ostrin-vale.json");

/// The least time of one call in microseconds, of several rounds: what the machine's other work adds is no property of ours.
fn best(rounds: u32, calls: u32, mut call: impl FnMut()) -> f64 {
    let round = |call: &mut dyn FnMut()| {
        let start = Instant::now();
        for _ in 0..calls {
            call();
        }
        start.elapsed().as_secs_f64() * 1e6 / f64::from(calls)
    };
    (0..rounds).map(|_| round(&mut call)).fold(f64::INFINITY, f64::min)
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let record = Record::open(ROOM).map_err(|refused| format!("{refused:?}"))?;
    let (values, problems) = record.inputs_of_plan(0);
    assert!(problems.is_empty(), "the example has problems: {problems:?}");
    let plan = catalogue::find("plan").ok_or("no plan")?;
    let case: Box<dyn Case> = plan.fill(&values).map_err(|missing| format!("{missing:?}"))?;

    let mut w = Working::silent();
    let mut numbers = Vec::new();
    let values_and_checks = best(20, 2000, || {
        w.clear();
        numbers.clear();
        let done = case.numbers(&mut w, &mut numbers);
        black_box(done.is_ok());
    });
    let settled = best(20, 100, || {
        w.clear();
        numbers.clear();
        let done = case.numbers(&mut w, &mut numbers);
        black_box(done.is_ok());
        uncertainty::settle(case.as_ref(), w.checks_mut());
    });
    let all = best(10, 50, || {
        black_box(plan.assess(black_box(&values), false).checks.len());
    });
    let mends = best(3, 1, || {
        black_box(solve::Mends::of(case.as_ref()).count());
    });
    let draws = best(3, 1, || {
        let mut trials = MonteCarlo::new(case.as_ref(), 10_000, 1);
        black_box(trials.step(10_000));
    });
    println!(
        "whole plan, twelve months, values and judgements    {values_and_checks:9.1} µs   (bound 10 µs)"
    );
    println!("the same with every 95 % interval (`close`)         {settled:9.1} µs");
    println!("everything that a key press asks of it              {all:9.1} µs");
    println!("mends of everything that is not met, in all         {mends:9.0} µs");
    println!(
        "10,000 Monte Carlo trials of the whole plan         {:9.0} ms   (bound 300 ms, in the page)",
        draws / 1000.0
    );
    Ok(())
}
