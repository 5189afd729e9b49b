//! Where the uncertainty of a number comes from: what to measure better.

use super::ToolProps;
use super::choose::{fold, numbers};
use super::looked::{Looked, NumberOf, Seen, Sight, use_sight};
use crate::page::ids;
use crate::sheet::shown;
use crate::text::{WORDS, fill, say};
use calc::engine::curve::Number;
use calc::engine::quantity::show::significant;
use calc::engine::sheet::criterion::COVERAGE;
use calc::engine::sheet::{Case, Check, Declaration, Shape, Tolerance, Working};
use calc::engine::uncertainty::{Budget, first_order};
use gloo_timers::callback::Timeout;
use std::rc::Rc;
use yew::prelude::*;

/// How long after the last key press it is computed, in milliseconds.
const PAUSE: u32 = 120;

/// The shares.
#[component]
pub fn SharesView(props: &ToolProps) -> Html {
    let of = |id: &str| ids::within(props.only, id);
    let open = use_state_eq(|| false);
    let number = use_state_eq(String::new);
    let sight = use_sight(props, *open);
    let budget = use_state(|| None::<(Sight, Rc<Budget>)>);
    {
        let budget = budget.setter();
        use_effect_with(sight.clone(), move |sight| {
            let sight = sight.clone();
            let timer = Timeout::new(PAUSE, move || {
                if let Sight::Seen(Seen(looked)) = &sight {
                    let found = first_order(looked.case.as_ref());
                    budget.set(Some((sight, Rc::new(found))));
                }
            });
            move || drop(timer)
        });
    }
    let inner = match &sight {
        Sight::Folded => Html::default(),
        Sight::Nothing(why) => html! { <p>{ *why }</p> },
        Sight::Seen(Seen(looked)) => {
            let chosen = looked.number(&number);
            let known = budget.as_ref().filter(|(of, _)| *of == sight);
            html! {
                <>
                    { numbers(of(ids::SHARES_NUMBER), looked, chosen.map_or("", |one| &one.id), &number.setter()) }
                    <div id={of(ids::SHARES_FOUND)}>
                        if let (Some((_, budget)), Some(chosen)) = (known, chosen) {
                            { found(looked, chosen, budget) }
                        } else {
                            <p class="missing">{ WORDS.tools.computing }</p>
                        }
                    </div>
                </>
            }
        }
    };
    fold(of(ids::SHARES), WORDS.tools.shares, WORDS.tools.shares_hint, &open, inner)
}

/// The interval of the number and what each entry contributes, greatest first.
fn found(looked: &Looked, number: &NumberOf, budget: &Budget) -> Html {
    let declaration = looked.case.declaration();
    let place = place(looked.case.as_ref(), number.number, budget);
    let known =
        place.and_then(|place| Some((place, budget.standard_uncertainty(place).filter(|u| *u > 0.0)?)));
    let Some((place, uncertainty)) = known else { return html! { <p>{ WORDS.tools.no_interval }</p> } };
    let half = shown::half_width(COVERAGE * uncertainty, number.unit);
    let value = present(looked.case.as_ref(), number.number, budget, place);
    let interval = fill(
        WORDS.tools.interval,
        &[
            ("number", &number.name),
            ("value", &shown::number(value, number.unit)),
            ("half", &shown::with_unit(half, number.unit)),
        ],
    );
    let shares: Vec<(String, f64)> =
        budget.shares(place).into_iter().map(|(fields, share)| (names(fields, declaration), share)).collect();
    let silent = without_tolerance(looked);
    html! {
        <>
            <p>{ interval }</p>
            if let [(first, _), _, ..] = shares.as_slice() {
                <p><strong>{ fill(WORDS.tools.measure_better, &[("name", first)]) }</strong></p>
            }
            <ul class="shares">{ for shares.iter().map(|(name, share)| line(name, *share)) }</ul>
            if !silent.is_empty() {
                <p class="missing">{ fill(WORDS.tools.without_tolerance, &[("names", &silent.join(", "))]) }</p>
            }
        </>
    }
}

/// One share, as a number and as a length.
fn line(name: &str, share: f64) -> Html {
    let percent = 100.0 * share;
    let said = if percent < 0.1 {
        "< 0.1".to_owned()
    } else {
        significant(percent, if percent < 1.0 { 1 } else { 2 })
    };
    html! {
        <li>
            <span>{ name }</span>{ " " }<strong>{ said }{ "\u{a0}%" }</strong>
            <svg viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true" focusable="false">
                <rect class="share-whole" width="100" height="4" />
                <rect class="share" width={format!("{percent:.2}")} height="4" />
            </svg>
        </li>
    }
}

/// Where a number stands among those of the budget: the outputs' first, then the distances of the checks.
fn place(case: &dyn Case, number: Number, budget: &Budget) -> Option<usize> {
    let (criterion, of) = match number {
        Number::Output(place) => return Some(place),
        Number::Distance(criterion, case) | Number::Judged(criterion, case) => (criterion, case),
    };
    let checks = checks(case);
    let among = checks.iter().position(|check| check.criterion.id == criterion && check.case.id == of)?;
    Some(budget.numbers.len().checked_sub(checks.len())? + among)
}

/// The number itself: what a check judges is not its distance.
fn present(case: &dyn Case, number: Number, budget: &Budget, place: usize) -> f64 {
    let judged = number.check(&checks(case)).map(|check| check.value);
    judged.or_else(|| budget.numbers.get(place).copied()).unwrap_or(f64::NAN)
}

fn checks(case: &dyn Case) -> Vec<Check> {
    let mut w = Working::judging();
    if case.judge(&mut w).is_ok() { w.checks().to_vec() } else { Vec::new() }
}

fn names(fields: &[&'static str], declaration: &'static Declaration) -> String {
    let name = |id: &&'static str| {
        declaration.input(id).map_or(*id, |index| say(declaration.inputs[index].term.name))
    };
    let names: Vec<&str> = fields.iter().map(name).collect();
    match names.as_slice() {
        [one] => (*one).to_owned(),
        several => fill(WORDS.tools.one_instrument, &[("names", &several.join(", "))]),
    }
}

/// The entries that are filled and of which nobody said how well they are known.
fn without_tolerance(looked: &Looked) -> Vec<&'static str> {
    let case = looked.case.as_ref();
    let fields = case.declaration().inputs.iter().enumerate();
    let silent = fields.filter(|(index, field)| {
        matches!(field.shape, Shape::Number(_))
            && case.number(*index).is_some()
            && field.term.tolerance == Tolerance::None
    });
    silent.map(|(_, field)| say(field.term.name)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::looked::tests::carbon;
    use super::*;

    #[test]
    fn the_shares_of_a_contact_time() {
        // 5 % of the volume and 3 % of the flow: 25 and 9 parts of 34
        let looked = carbon();
        let budget = first_order(looked.case.as_ref());
        for id in ["contact-time", "check-contact-time"] {
            let number = looked.number(id).unwrap();
            let place = place(looked.case.as_ref(), number.number, &budget).unwrap();
            let shares = budget.shares(place);
            assert_eq!(shares[0].0, ["bed-volume"], "{id}");
            assert!((shares[0].1 - 25.0 / 34.0).abs() < 1e-3, "{id}: {shares:?}");
            let value = present(looked.case.as_ref(), number.number, &budget, place);
            assert!((value - 300.0).abs() < 1e-9, "{id}: {value}");
        }
    }

    #[test]
    fn fields_of_one_instrument_are_named_together() {
        let declaration = crate::state::find("recovery").unwrap().declaration;
        let said = names(&["product-flow", "reject-flow"], declaration);
        assert!(said.ends_with("(same instrument)"), "{said}");
        assert_eq!(names(&["product-flow"], declaration), declaration.inputs[0].term.name);
    }
}
