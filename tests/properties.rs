//! What must hold for all numbers: conservation, direction, order, and no number that is not finite.

use calc::engine::calendar::Month;
use calc::engine::quantity::{
    Conductivity, Flow, Pressure, TemperatureDifference, celsius, kinds, litres, litres_per_minute, percent,
    seconds,
};
use calc::engine::sheet::{Answer, Field, Known, Missing, Shape, Sheet, Side, Value, Working};
use calc::engine::uncertainty::first_order;
use calc::program::catalogue::SHEETS;
use calc::trade::carbon::ContactTime;
use calc::trade::disinfect::{HeatDoseOfRun, LogRow};
use calc::trade::membrane::{MonthTemperature, ProductFlowYear, Recovery, Rejection};
use calc::trade::sediment::SedimentFilter;
use calc::trade::tap::{
    ChlorineSpecies, Filling, Hemisphere, InletPressure, MainsTemperature, TapCurve, TimedJug,
};
use proptest::prelude::*;
use tests::draw::Draw;

const OPEN: Missing = Missing::not_known("", "");

fn run<S: Sheet>(sheet: &S) -> S::Outputs {
    sheet.run(&mut Working::silent()).unwrap_or_else(|stop| panic!("{}: {stop:?}", S::DECLARATION.id))
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn conversions_return(value in -1e6..1e6f64) {
        for kind in kinds::all() {
            for unit in kind.units {
                let back = unit.of_si(unit.to_si(value));
                prop_assert!((back - value).abs() <= 1e-12 * (value.abs() + unit.offset.abs() / unit.factor), "{}", unit.symbol);
            }
        }
    }

    #[test]
    fn water_and_salt_are_conserved(product in 0.01..50.0f64, reject in 0.01..50.0f64, passage in 0.0..100.0f64, salt in 1.0..5000.0f64) {
        let salt = calc::engine::quantity::Concentration::of(salt * 1e-3);
        let outputs = run(&Recovery {
            product: litres_per_minute(product),
            reject: litres_per_minute(reject),
            passage: Some(percent(passage)),
            salt: Ok(salt),
            highest: None,
        });
        prop_assert!(close(outputs.feed.si(), litres_per_minute(product + reject).si()));
        let out = product * outputs.in_product.unwrap().si() + reject * outputs.in_reject.unwrap().si();
        prop_assert!(close(out, (product + reject) * salt.si()));
        prop_assert!((0.0..=1.0).contains(&outputs.recovery.si()) && outputs.mean_factor >= 1.0);
        // the mean of the feed side lies between the feed and the reject
        prop_assert!(outputs.mean_factor <= 1.0 / (1.0 - outputs.recovery.si()) * (1.0 + 1e-9));
    }

    #[test]
    fn rejection_on_the_mean_is_never_below_that_on_the_feed(feed in 1.0..5000.0f64, share in 0.0..1.0f64, recovery in 0.1..99.0f64) {
        let outputs = run(&Rejection {
            feed: Conductivity::of(feed),
            product: Conductivity::of(feed * share),
            recovery: Ok(percent(recovery)),
            baseline: Err(OPEN),
        });
        prop_assert!(outputs.on_mean.unwrap().si() >= outputs.rejection.si() - 1e-12);
        prop_assert!(close(outputs.rejection.si() + outputs.passage.si(), 1.0));
    }

    #[test]
    fn contact_time_falls_as_flow_rises(volume in 0.1..500.0f64, second in 0.1..500.0f64, flow in 0.1..50.0f64, more in 1.001..10.0f64) {
        let at = |flow| run(&ContactTime {
            first: litres(volume), second: Some(litres(second)), flow: litres_per_minute(flow), rule: None,
        });
        let (slow, fast) = (at(flow), at(flow * more));
        prop_assert!(fast.total < slow.total && fast.in_first < slow.in_first);
        prop_assert!(slow.total > slow.in_first);
    }

    #[test]
    fn the_coldest_probe_has_the_least_dose(seed in any::<u64>(), probes in 1..5usize, readings in 2..20usize) {
        let mut draw = Draw::new(seed);
        let log: Vec<LogRow> = (0..readings)
            .flat_map(|at| (0..probes).map(move |probe| (at, probe)))
            .map(|(at, probe)| LogRow {
                probe: Some(probe.to_string()),
                time: seconds(30.0 * at as f64),
                temperature: Some(celsius(40.0 + 55.0 * draw.share())),
            })
            .collect();
        let sheet = HeatDoseOfRun { log: Some(log), set_temperature: None, set_time: None, longest_gap: None, needed: Err(OPEN),
            hold_temperature: Err(OPEN), needed_hold: Err(OPEN), cool_temperature: Err(OPEN), needed_cool: Err(OPEN),
            tolerance: None, read_from: Err(OPEN) };
        let outputs = run(&sheet);
        let least = outputs.dose.unwrap();
        prop_assert_eq!(outputs.probes.len(), probes);
        prop_assert!(outputs.probes.iter().all(|probe| probe.dose.unwrap() >= least));
        let named = outputs.probes.iter().find(|probe| Ok(&probe.probe) == outputs.coldest.as_ref());
        prop_assert_eq!(named.unwrap().dose, Ok(least));
        prop_assert!(outputs.if_high.unwrap() <= least);
        // one kelvin more everywhere is never less of a dose
        let mut warmer = sheet.clone();
        for row in warmer.log.iter_mut().flatten() {
            row.temperature = row.temperature.map(|temperature| temperature + TemperatureDifference::of(1.0));
        }
        prop_assert!(run(&warmer).dose.unwrap() >= least);
    }

    #[test]
    fn the_mean_flow_lies_between_the_fillings(volume in 0.1..50.0f64, times in proptest::collection::vec(1.0..600.0f64, 1..12)) {
        let runs = times.iter().map(|time| Filling { time: seconds(*time) }).collect();
        let outputs = run(&TimedJug { volume: litres(volume), runs });
        let flows = || outputs.each.iter().map(|filling| filling.flow.si());
        let (least, most) = (flows().fold(f64::INFINITY, f64::min), flows().fold(0.0, f64::max));
        prop_assert!(outputs.flow.si() >= least * (1.0 - 1e-12) && outputs.flow.si() <= most * (1.0 + 1e-12));
        if let Ok(spread) = outputs.spread {
            prop_assert!(spread.si() <= (most - least) * (1.0 + 1e-9) && outputs.interval.unwrap() >= outputs.uncertainty.unwrap());
        }
    }

    #[test]
    fn the_tap_gives_less_pressure_at_more_flow(shut in 1.0..10.0f64, share in 0.0..0.99f64, open in 1.0..40.0f64, flow in 0.1..40.0f64) {
        let curve = |flow: f64, least: f64| TapCurve { law: None,
            shut: Pressure::of(shut * 1e5),
            open_flow: litres_per_minute(open),
            open_pressure: Pressure::of(shut * share * 1e5),
            lowest: None,
            flow: Ok(litres_per_minute(flow)),
            least: Ok(Pressure::of(least * 1e5)),
        };
        let (slow, fast) = (run(&curve(flow, 0.0)), run(&curve(1.01 * flow, 0.0)));
        prop_assert!(fast.pressure.unwrap() < slow.pressure.unwrap());
        // at the highest flow exactly that pressure is left
        let most = slow.most.unwrap();
        let left = run(&TapCurve { law: None, flow: Ok(most), ..curve(flow, 0.0) }).pressure.unwrap();
        prop_assert!(left.si().abs() < 1e-6 * shut * 1e5, "{:?}", left);
    }

    #[test]
    fn more_flow_leaves_less_at_the_inlet(seed in any::<u64>(), flow in 0.5..8.0f64, more in 1.001..2.0f64) {
        let Some(entry) = calc::program::catalogue::find("inlet-pressure") else { return Ok(()) };
        let values = Draw::new(seed).plausible(entry.declaration);
        let Ok(sheet) = InletPressure::read(&values) else { return Ok(()) };
        let at = |flow: f64| {
            let sheet = InletPressure {
                open_pressure: sheet.shut.map(|shut| Pressure::of(0.8 * shut.si())),
                fittings: None,
                running: Ok(litres_per_minute(flow)),
                ..sheet.clone()
            };
            run(&sheet).running.unwrap()
        };
        prop_assert!(at(flow * more) < at(flow));
    }

    #[test]
    fn combined_chlorine_is_no_more_than_the_total(total in 0.0..10.0f64, share in 0.0..1.0f64) {
        let chlorine = calc::engine::quantity::milligrams_per_litre;
        let outputs = run(&ChlorineSpecies { total: chlorine(total), free: Some(chlorine(total * share)) });
        prop_assert!(outputs.combined.si() >= 0.0 && outputs.combined <= chlorine(total));
        match outputs.removal {
            // what is left after the removal is the bound
            Ok(removal) => prop_assert!(close((total * (1.0 - removal.si())).max(1e-6), 0.1)),
            Err(_) => prop_assert!(total < 0.1),
        }
    }

    #[test]
    fn each_choice_of_cartridges_keeps_the_guideline(flow in 0.1..60.0f64, guideline in 0.5..20.0f64, cold in 1.0..40.0f64) {
        let filter = |temperature: f64| SedimentFilter {
            flow: litres_per_minute(flow),
            cartridges: None,
            length: None,
            guideline: Ok(litres_per_minute(guideline)),
            temperature: Ok(celsius(temperature)),
            drop: Ok(calc::engine::quantity::bar_difference(0.1)),
            drop_flow: Ok(litres_per_minute(10.0)),
            drop_temperature: Some(celsius(20.0)),
            drop_length: None,
        };
        let outputs = run(&filter(cold));
        for choice in outputs.choices.unwrap() {
            prop_assert!(choice.each.si() <= litres_per_minute(guideline).si() * (1.0 + 1e-8));
            let lengths = choice.length.si() / 0.254;
            // and one cartridge fewer would not
            prop_assert!((choice.cartridges - 1.0) * lengths < flow / guideline + 1e-9);
        }
        prop_assert!(run(&filter(cold + 1.0)).drop.unwrap() < outputs.drop.unwrap());
    }

    #[test]
    fn no_month_lies_outside_of_the_year(mean in -5.0..35.0f64, range in 0.0..60.0f64, south in any::<bool>()) {
        let outputs = run(&MainsTemperature {
            months: None,
            mean_air: Ok(celsius(mean)),
            air_range: Ok(TemperatureDifference::of(range)),
            hemisphere: Ok(if south { Hemisphere::South } else { Hemisphere::North }),
        });
        prop_assert_eq!(outputs.year.len(), 12);
        let (coldest, warmest) = (outputs.coldest.unwrap(), outputs.warmest.unwrap());
        for row in &outputs.year {
            let temperature = row.temperature.unwrap();
            prop_assert!(coldest <= temperature && temperature <= warmest && temperature >= celsius(0.0));
        }
    }

    #[test]
    fn colder_water_never_makes_more(product in 0.1..5.0f64, reject in 0.1..5.0f64, read_at in 2.0..35.0f64, cold in 1.0..30.0f64, warmer in 0.1..10.0f64) {
        let year = |temperatures: &[f64], demand: Known<Flow>| ProductFlowYear {
            product: Some(litres_per_minute(product)),
            reject: Ok(litres_per_minute(reject)),
            flush_reject: Ok(litres_per_minute(2.0 * reject)),
            label: None,
            tap: None,
            anchor: Some(celsius(read_at)),
            coldest: Some(celsius(cold)),
            warmest: None,
            tempered: None,
            months: Some(
                Month::ALL.into_iter().zip(temperatures)
                    .map(|(month, temperature)| MonthTemperature { month, temperature: celsius(*temperature) })
                    .collect(),
            ),
            control: None,
            forms: None,
            fouling: None,
            pump: Err(OPEN),
            limit: Err(OPEN),
            demand,
        };
        let outputs = run(&year(&[cold, cold + warmer], Err(OPEN)));
        let [first, second] = outputs.months.as_slice() else { panic!("two months") };
        prop_assert!(first.capacity.unwrap() < second.capacity.unwrap());
        prop_assert!(first.feed.unwrap() < second.feed.unwrap());
        prop_assert_eq!(outputs.capacity, first.capacity);
        // capacity never promises more than the highest flow that the carbon is asked to bear
        prop_assert!(first.capacity.unwrap() <= first.feed.unwrap());
        // at the lowest workable temperature exactly the demand is made
        let demand = first.capacity.unwrap();
        if let Ok(lowest) = run(&year(&[cold], Ok(demand))).lowest {
            prop_assert!((lowest.si() - celsius(cold).si()).abs() < 1e-6, "{:?}", lowest);
        }
    }
}

/// A value of its shape, and of any size.
fn wild(field: &'static Field, draw: &mut Draw) -> Value {
    const WILD: [f64; 12] = [
        0.0,
        -0.0,
        1.0,
        -1.0,
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::MAX,
        f64::MIN,
        f64::MIN_POSITIVE,
        1e300,
        1e-300,
    ];
    match field.shape {
        Shape::Number(_) if draw.below(2) == 0 => Value::Number(WILD[draw.below(WILD.len())]),
        Shape::Number(_) if draw.below(4) == 0 => Value::Below(WILD[draw.below(WILD.len())]),
        Shape::Number(_) => Value::Number((draw.share() - 0.5) * 10f64.powf(600.0 * draw.share() - 300.0)),
        Shape::Choice(named) if draw.below(3) > 0 => Value::Choice(named[draw.below(named.len())].id),
        Shape::Choice(_) => Value::Choice("none-of-them"),
        Shape::Date => Value::Date(Default::default()),
        Shape::Moment => Value::Text("now".into()),
        Shape::Text => Value::Text("\u{0}…".repeat(draw.below(9))),
        Shape::Table(columns) => {
            let row = |draw: &mut Draw| {
                // sometimes a cell too few
                let cells = columns.len() - usize::from(draw.below(9) == 0);
                columns[..cells]
                    .iter()
                    .map(|column| (draw.below(4) > 0).then(|| wild(column, draw)))
                    .collect()
            };
            Value::Table((0..draw.below(5)).map(|_| row(draw)).collect())
        }
    }
}

fn is_finite(answer: &Answer) -> bool {
    match answer {
        Answer::Number(si, _) | Answer::Below(si, _) => si.is_finite(),
        Answer::Table(rows) => rows.iter().flatten().all(is_finite),
        _ => true,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_value_breaks_a_sheet(seed in any::<u64>()) {
        breaks_no_sheet(seed)?;
    }
}

/// Seeds that once found a fault.
#[test]
fn no_value_of_a_found_seed_breaks_a_sheet() {
    // a stage of the plan that was stopped after it had judged gave two checks with one id
    const FOUND: [u64; 1] = [4_320_455_347_492_896_160];
    for seed in FOUND {
        breaks_no_sheet(seed).unwrap_or_else(|fault| panic!("{seed}: {fault}"));
    }
}

/// No answer that is not finite, no two checks with one id, no check judged without its numbers.
fn breaks_no_sheet(seed: u64) -> Result<(), TestCaseError> {
    let mut draw = Draw::new(seed);
    for entry in SHEETS {
        let fields = entry.declaration.inputs;
        let possible = draw.possible(entry.declaration);
        // among possible values, so that the sheet gets far, some that are not
        let values: Vec<Option<Value>> = fields
            .iter()
            .zip(possible)
            .map(|(field, value)| match draw.below(4) {
                0 => Some(wild(field, &mut draw)),
                1 if draw.below(4) == 0 => Some(wild(&fields[draw.below(fields.len())], &mut draw)),
                _ => value,
            })
            .collect();
        let assessment = entry.assess(&values, true);
        prop_assert!(assessment.answers.iter().all(is_finite), "{}: {values:?}", entry.declaration.id);
        let mut ids: Vec<String> = assessment.checks.iter().map(calc::engine::sheet::Check::id).collect();
        ids.sort();
        let twice = ids.windows(2).find(|pair| pair[0] == pair[1]);
        prop_assert!(twice.is_none(), "{}: two checks {twice:?} {values:?}", entry.declaration.id);
        for check in &assessment.checks {
            let has_numbers = check.criterion.side != Side::Answered;
            // what is never reached has no number, and says so
            let never = check.missing.is_some_and(|missing| missing.is_none()) && check.limit.is_finite();
            let known = (check.value.is_finite() && check.limit.is_finite()) || never || !has_numbers;
            let judged = !matches!(check.state.id(), "not-known" | "does-not-apply");
            prop_assert!(
                known || !judged || check.decided.is_some(),
                "{}: {} {values:?}",
                entry.declaration.id,
                check.id()
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_uncertainty_is_finite(seed in any::<u64>()) {
        for entry in SHEETS {
            let values = Draw::new(seed).plausible(entry.declaration);
            let Ok(case) = entry.fill(&values) else { continue };
            let budget = first_order(case.as_ref());
            for number in 0..budget.numbers.len() {
                let uncertainty = budget.standard_uncertainty(number);
                prop_assert!(uncertainty.is_none_or(|u| u >= 0.0 && u.is_finite()), "{} {number}", entry.declaration.id);
                let shares: f64 = budget.shares(number).iter().map(|(_, share)| share).sum();
                prop_assert!(shares == 0.0 || close(shares, 1.0), "{} {number}: {shares}", entry.declaration.id);
            }
        }
    }
}
