//! Figures of the native program beside their bounds; `cargo xtask bench` prints them with those of the page.

use calc::documents::record::Record;
use calc::engine::curve::{Number, usual_range};
use calc::engine::monte_carlo::MonteCarlo;
use calc::engine::sheet::{Case, Dial, Working};
use calc::engine::sweep::Sweep;
use calc::{engine::solve, engine::uncertainty, program::catalogue};
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

/// A curve of 200 points, without its band.
fn sweep_of_the_capacity(case: &dyn Case) -> f64 {
    let dial = Dial::of(case, "dialysate-flow");
    let number = Number::of_output(case, "capacity-coldest");
    best(5, 1, || {
        if let (Some(dial), Some(number)) = (dial, number) {
            let range = usual_range(case, &dial).unwrap_or((0.0, 1.0));
            let mut sweep = Sweep::new(case, number, dial, range, 200);
            black_box(sweep.step(200));
        }
    })
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
    let mut without = values.clone();
    if let Some(report) = plan.declaration.input("feed-report") {
        without[report] = None;
    }
    let without: Box<dyn Case> = plan.fill(&without).map_err(|missing| format!("{missing:?}"))?;
    let without_report = best(20, 2000, || {
        w.clear();
        numbers.clear();
        let done = without.numbers(&mut w, &mut numbers);
        black_box(done.is_ok());
    });
    let settled = best(20, 100, || {
        w.clear();
        numbers.clear();
        let done = case.numbers(&mut w, &mut numbers);
        black_box(done.is_ok());
        uncertainty::settle(case.as_ref(), w.checks_mut());
    });
    let figures = best(10, 500, || {
        black_box(plan.figures(black_box(&values), false).checks.len());
    });
    let all = best(10, 50, || {
        black_box(plan.assess(black_box(&values), false).checks.len());
    });
    let mends = best(3, 1, || {
        black_box(solve::Mends::of(case.as_ref()).count());
    });
    let curve = sweep_of_the_capacity(case.as_ref());
    let draws = best(3, 1, || {
        let mut trials = MonteCarlo::new(case.as_ref(), 10_000, 1);
        black_box(trials.step(10_000));
    });
    println!(
        "whole plan, twelve months, values and judgements    {values_and_checks:9.1} µs   (bound 10 µs)"
    );
    println!("the same without a laboratory report                {without_report:9.1} µs");
    println!("the same with every 95 % interval (`marginal`)      {settled:9.1} µs");
    println!("what a key press asks of it, without intervals      {figures:9.1} µs");
    println!("everything that is said of it                       {all:9.1} µs");
    println!("sweep of 200 points over the whole plan              {curve:9.0} µs");
    println!("mends of everything that is not met, in all         {mends:9.0} µs");
    println!(
        "10,000 Monte Carlo trials of the whole plan         {:9.0} ms   (bound 300 ms, in the page)",
        draws / 1000.0
    );
    Ok(())
}
