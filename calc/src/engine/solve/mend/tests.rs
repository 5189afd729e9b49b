//! Mends by algebra, on a sheet made for this and on real ones.

use super::{Mended, Mends, mend};
use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{
    Case, Check, Criterion, Dial, Entry, Evaluate, Judges, Known, Missing, Side, Stage, State, Stop, Term,
    Value, Working, source,
};
use crate::engine::solve::tests::{LITRE_PER_MINUTE, filled};
use crate::sheet;

static AT_LEAST: Criterion = Criterion {
    id: "at-least",
    sentence: "Enough",
    stage: Stage::Plan,
    side: Side::AtLeast,
    forecast: true,
    source: &source::COMMON_PRACTICE,
    levers: &["x", "y", "not-of-this-sheet", "note"],
    cases: &[],
    judges: Judges::NoOutput,
};
static AT_MOST: Criterion = Criterion { id: "at-most", side: Side::AtMost, levers: &[], ..AT_LEAST };
static ABOVE: Criterion = Criterion { id: "above", side: Side::Above, levers: &["x"], ..AT_LEAST };
static NEEDS_SMALL: Criterion = Criterion { id: "needs-small", levers: &[], ..AT_LEAST };
static NEEDS_LARGE: Criterion = Criterion { id: "needs-large", levers: &[], ..AT_LEAST };

const NUMBER_TO_100: Term = Term::number(&NUMBER, "x", "x").plausible(-100.0, 100.0, "");

sheet! {
    /// Two inputs and what is judged of them.
    Balance, "balance", "Balance", Stage::Plan,
    sources: &[],
    cautions: &[],
    criteria: &[&AT_LEAST, &AT_MOST, &ABOVE, &NEEDS_SMALL, &NEEDS_LARGE],
    inputs: {
        x    "x":    f64            = NUMBER_TO_100,
        y    "y":    Option<f64>    = NUMBER_TO_100.plausible(0.0, 4.0, ""),
        note "note": Option<String> = Term::other("Note"),
    }
    outputs Outputs: {
        size "size": f64 = Term::number(&NUMBER, "Size", "s"),
    }
}

impl Evaluate for Balance {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let (x, y) = (self.x, self.y.unwrap_or(0.0));
        w.judge(&AT_LEAST, x.abs() + y, 50.0);
        w.judge(&AT_MOST, x, 40.0);
        w.judge(&ABOVE, x.floor(), 60.0);
        let root: Known<f64> =
            if x.abs() <= 45.0 { Ok(1.0) } else { Err(Missing::none_exists("no such number")) };
        w.judge_known(&NEEDS_SMALL, root, Ok(0.0));
        // not known up to 45, and not met from there on
        let large: Known<f64> =
            if x.abs() > 45.0 { Ok(-1.0) } else { Err(Missing::not_known("y", "too small to tell")) };
        w.judge_known(&NEEDS_LARGE, large, Ok(0.0));
        Ok(Outputs { size: x.abs() })
    }
}

fn balance(x: f64, y: Option<f64>) -> Box<dyn Case> {
    Entry::of::<Balance>().fill(&[Some(Value::Number(x)), y.map(Value::Number), None]).unwrap()
}

fn check(case: &dyn Case, id: &str) -> Check {
    let mut w = Working::judging();
    case.judge(&mut w).unwrap();
    w.checks().iter().find(|check| check.id() == id).unwrap().clone()
}

fn tried(case: &dyn Case, check_id: &str, lever: &str) -> Known<super::Mend> {
    mend(case, &check(case, check_id), lever)
}

fn ids(mend: &super::Mend) -> Vec<String> {
    mend.worsens.iter().map(Check::id).collect()
}

#[test]
fn the_nearest_value_counts_and_names_what_it_worsens() {
    // |x| reaches 50 at both sides: from 30 it is 20 up, from −10 it is 40 down
    let up = tried(balance(30.0, None).as_ref(), "at-least", "x").unwrap();
    assert_eq!((up.field, up.value, up.now), ("x", 50.0, Some(30.0)));
    // beyond 40, and where one number is no longer there; above 60 it comes nearer. That one number becomes known, and is
    // too small, worsens nothing: nobody knew before
    assert_eq!(ids(&up), ["at-most", "needs-small"]);
    let down = tried(balance(-10.0, None).as_ref(), "at-least", "x").unwrap();
    assert_eq!(down.value, -50.0);
    // further below 60 than it is
    assert_eq!(ids(&down), ["above", "needs-small"]);
}

#[test]
fn a_strict_limit_is_passed_and_a_jump_is_no_obstacle() {
    // the floor is above 60 from 61 on
    let mended = tried(balance(30.0, None).as_ref(), "above", "x").unwrap();
    assert_eq!(mended.value, 61.0);
    assert_eq!(ids(&mended), ["at-most", "needs-small"]);
}

#[test]
fn what_no_value_mends_and_what_is_no_lever() {
    let case = balance(30.0, None);
    // y reaches to 4: 34 are not 50
    let none = tried(case.as_ref(), "at-least", "y").unwrap_err();
    assert!(none.is_none());
    assert!(!tried(case.as_ref(), "at-least", "note").unwrap_err().is_none());
    assert!(!tried(case.as_ref(), "at-least", "of-another-sheet").unwrap_err().is_none());
}

#[test]
fn a_lever_that_was_left_out_begins_at_its_lowest() {
    let mended = tried(balance(47.5, None).as_ref(), "at-least", "y").unwrap();
    assert!((mended.value - 2.5).abs() < 1e-14 && mended.now.is_none(), "{mended:?}");
    assert!(mended.worsens.is_empty());
    // what is met already needs no change
    let met = balance(55.0, Some(1.0));
    assert_eq!(tried(met.as_ref(), "at-least", "y").unwrap().value, 1.0);
}

#[test]
fn all_levers_come_one_after_the_other() {
    let tried: Vec<Mended> = Mends::of(balance(30.0, None).as_ref()).collect();
    let of: Vec<_> = tried.iter().map(|mended| (mended.check.as_str(), mended.lever)).collect();
    assert_eq!(of, [("at-least", "x"), ("at-least", "y"), ("above", "x")]);
    assert_eq!(tried[0].mend.as_ref().map(|mend| mend.value), Ok(50.0));
    assert!(tried[1].mend.is_err());
    // nothing is wanting where all is met, and nothing can be computed of what stops
    let two = [("bed-volume", 0.1), ("second-bed-volume", 0.1), ("flow", 2.0 * LITRE_PER_MINUTE)];
    let fine = filled("carbon-contact-time", &two);
    assert_eq!(Mends::of(fine.as_ref()).count(), 0);
}

#[test]
fn carbon_for_ten_minutes() {
    // 10 L at 2 L/min are 5 minutes: 20 L, or 10 L more in a second vessel; the flow is no lever of this sheet
    let case = filled("carbon-contact-time", &[("bed-volume", 0.01), ("flow", 2.0 * LITRE_PER_MINUTE)]);
    // nothing that is typed turns one carbon into two
    assert!(Mends::of(case.as_ref()).all(|mended| mended.check != "two-carbons"));
    let of_ten_minutes = Mends::of(case.as_ref()).filter(|mended| mended.check == "contact-time");
    let mends: Vec<_> = of_ten_minutes.map(|mended| mended.mend.unwrap()).collect();
    let of: Vec<_> = mends.iter().map(|mend| mend.field).collect();
    assert_eq!(of, ["bed-volume", "second-bed-volume"]);
    for (mend, (litres, now)) in mends.iter().zip([(20.0, Some(0.01)), (10.0, None)]) {
        assert!((mend.value - litres * 1e-3).abs() < 1e-14 && mend.now == now, "{mend:?}");
        // met, not only nearly
        let mut mended = case.copy();
        Dial::of(case.as_ref(), mend.field).unwrap().set(mended.as_mut(), mend.value);
        assert_eq!(check(mended.as_ref(), "contact-time").state, State::Met);
    }
}

#[test]
fn what_is_close_is_mended_outside_its_interval() {
    // 10.2 min known to 3.366 %: met for certain from 10 / (1 − 2 · 0.03366) = 10.722 min on, 21.44 L at 2 L/min
    let case = filled("carbon-contact-time", &[("bed-volume", 0.0204), ("flow", 2.0 * LITRE_PER_MINUTE)]);
    let mended = Mends::of(case.as_ref()).next().unwrap().mend.unwrap();
    assert_eq!(mended.field, "bed-volume");
    assert!((mended.value - 0.021444).abs() < 5e-6, "{}", mended.value);
}

#[test]
fn whole_things_are_mended_by_whole_numbers() {
    // 4.5 L/min at 2 L/min for each asks 2.25 cartridges, 4 L/min exactly 2
    for (flow, cartridges) in [(4.5, 3.0), (4.0, 2.0)] {
        let flow = flow * LITRE_PER_MINUTE;
        let given = [("flow", flow), ("guideline-flow", 2.0 * LITRE_PER_MINUTE), ("cartridges", 1.0)];
        let case = filled("sediment-filter", &given);
        let mended = Mends::of(case.as_ref()).next().unwrap().mend.unwrap();
        assert_eq!((mended.field, mended.value), ("cartridges", cartridges));
    }
}
