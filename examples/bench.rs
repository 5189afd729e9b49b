//! Figures of the native program beside their bounds; `cargo xtask bench` prints them with those of the page.

use calc::documents::record::{Held, Part, Record, Typed};
use calc::engine::calendar::Moment;
use calc::engine::curve::{Number, usual_range};
use calc::engine::monte_carlo::MonteCarlo;
use calc::engine::sheet::{Case, Dial, Entry, Working};
use calc::engine::sweep::Sweep;
use calc::{engine::solve, engine::uncertainty, program::catalogue};
use std::hint::black_box;
use std::time::Instant;

#[path = "ten_years/life.rs"]
mod life;

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

/// What a record of ten years costs beside one without an event, in microseconds.
struct OfRecord {
    key_press: f64,
    undo: f64,
    open: f64,
    file: f64,
    now: f64,
}

impl OfRecord {
    /// A key press changes one field and fills the plan anew; an undo shows the record before it again.
    fn of(record: &Record, plan: &'static Entry, at: Moment) -> Result<Self, Box<dyn std::error::Error>> {
        let index = plan.declaration.input("dialysate-flow").ok_or("no such field")?;
        let field = &plan.declaration.inputs[index];
        let text = record.text();
        let fill = |record: &Record| {
            black_box(record.fill(plan.declaration, 0, None).read(plan.declaration).values.len())
        };
        Ok(Self {
            key_press: best(10, 200, || {
                let mut changed = record.clone();
                let held = Held::One(Typed::new(field, "480", field.term.unit(false)));
                black_box(changed.set(Part::Place(0), field, held).is_ok());
                fill(&changed);
            }),
            undo: best(10, 200, || {
                fill(&record.clone());
            }),
            open: best(5, 1, || {
                black_box(Record::open(&text).is_ok());
            }),
            file: best(5, 1, || {
                black_box(record.text().len());
            }),
            now: best(5, 2, || {
                black_box(record.now(at, None).due.len());
            }),
        })
    }
}

fn records(plan: &'static Entry) -> Result<(), Box<dyn std::error::Error>> {
    let (ten_years, meant) = life::ten_years()?;
    let at = Moment::read(&meant.at).map_err(|_| "no moment")?;
    let empty = OfRecord::of(&life::without_events()?, plan, at)?;
    let full = OfRecord::of(&ten_years, plan, at)?;
    println!(
        "a record of {} events beside one without, {:.1} MB as a file",
        ten_years.count(),
        ten_years.text().len() as f64 / 1e6
    );
    let line = |what: &str, empty: f64, full: f64, bound: &str| {
        println!("  {what:<48}  {empty:9.1} µs {full:9.1} µs   {bound}");
    };
    line(
        "key press: one field changed, the plan filled",
        empty.key_press,
        full.key_press,
        "(bound: no more, plus 10 %)",
    );
    line("undo: the record before, the plan filled", empty.undo, full.undo, "(bound: no more, plus 10 %)");
    line("opened from its file", empty.open, full.open, "");
    line("written as a file", empty.file, full.file, "");
    line("what is true on the last evening", empty.now, full.now, "");
    Ok(())
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
    records(plan)
}
