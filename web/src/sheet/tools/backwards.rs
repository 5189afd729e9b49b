//! Solving backwards: which values of one entry make a number of the sheet come out as wished.

use super::ToolProps;
use super::choose::{dials, fold, numbers};
use super::looked::{DialOf, Looked, NumberOf, Seen, Sight, use_sight};
use super::solved::{Solved, answer};
use crate::fields::unit::{unit_select, units_of};
use crate::page::ids;
use crate::text::{WORDS, alone, tell};
use calc::documents::reading::read_text;
use calc::engine::curve::Number;
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Field, Value};
use calc::engine::solve::solve;
use gloo_timers::callback::Timeout;
use std::rc::Rc;
use yew::prelude::*;

/// How long after the last key press it is computed, in milliseconds.
const PAUSE: u32 = 200;

/// What is wished for, and which entry is free.
#[derive(Clone, PartialEq)]
struct Wish {
    sight: Sight,
    number: String,
    dial: String,
    /// In SI; `None` while it is not typed.
    target: Option<f64>,
}

/// Solving backwards.
#[component]
pub fn BackwardsView(props: &ToolProps) -> Html {
    let of = |id: &str| ids::within(props.only, id);
    let open = use_state_eq(|| false);
    let (number, dial) = (use_state_eq(String::new), use_state_eq(String::new));
    let (typed, unit) = (use_state_eq(String::new), use_state(|| None::<&'static Unit>));
    let sight = use_sight(props, *open);
    let looked = match &sight {
        Sight::Seen(Seen(looked)) => Some(Rc::clone(looked)),
        _ => None,
    };
    let chosen = looked.as_ref().and_then(|looked| looked.number(&number));
    let output = chosen.and_then(|chosen| chosen.output);
    let shown_unit = output.zip(chosen).map(|(output, chosen)| in_unit(output, *unit, chosen.unit));
    let (target, wrong) = match output {
        Some(output) => read(output, &typed, shown_unit, props.set),
        // That a check is just met: no distance to its limit is left.
        None => (Some(0.0), None),
    };
    let wish = Wish { sight: sight.clone(), number: (*number).clone(), dial: (*dial).clone(), target };
    let solved = use_solved(&wish);
    let inner = match (&sight, looked.as_ref()) {
        (Sight::Folded, _) => Html::default(),
        (Sight::Nothing(why), _) => html! { <p>{ *why }</p> },
        (_, None) => Html::default(),
        (_, Some(looked)) => {
            let freed = looked.dial(&dial);
            html! {
                <>
                    { numbers(of(ids::BACKWARDS_NUMBER), looked, chosen.map_or("", |one| &one.id), &number.setter()) }
                    if let Some(output) = output {
                        { wish_field(output, &typed, shown_unit, &unit, wrong.is_some(), props) }
                    } else {
                        <p>{ WORDS.tools.wished_of_check }</p>
                    }
                    { dials((of(ids::BACKWARDS_FREED), WORDS.tools.freed), looked, freed.map_or("", |one| &one.id), &dial.setter()) }
                    <div class="found" id={of(ids::BACKWARDS_FOUND)} role="status">
                        { found(&wish, wrong, solved, freed, looked, props.set) }
                    </div>
                </>
            }
        }
    };
    fold(of(ids::BACKWARDS), WORDS.tools.backwards, WORDS.tools.backwards_hint, &open, inner)
}

/// The unit that was chosen for another output holds only where this one has it too.
fn in_unit(output: &'static Field, chosen: Option<&'static Unit>, usual: &'static Unit) -> &'static Unit {
    let kind = output.term.kind;
    chosen.zip(kind).and_then(|(chosen, kind)| kind.find(chosen.symbol)).unwrap_or(usual)
}

/// The wished value in SI, or what is wrong with the text.
fn read(
    output: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
    set: UnitSet,
) -> (Option<f64>, Option<String>) {
    match read_text(output, text, unit) {
        Ok(Some(Value::Number(si))) => (Some(si), None),
        Ok(_) => (None, None),
        Err(problem) => (None, Some(alone(&tell(&problem.sentence, set)))),
    }
}

/// Solves after the typing pauses; `None` until what belongs to this wish is there.
#[hook]
fn use_solved(wish: &Wish) -> Option<Rc<Solved>> {
    let solved = use_state(|| None::<(Wish, Rc<Solved>)>);
    {
        let solved = solved.setter();
        use_effect_with(wish.clone(), move |wish| {
            let wish = wish.clone();
            let timer = Timeout::new(PAUSE, move || {
                if let Some(found) = solve_for(&wish) {
                    solved.set(Some((wish, Rc::new(found))));
                }
            });
            move || drop(timer)
        });
    }
    let (of, found) = solved.as_ref()?;
    (of == wish).then(|| Rc::clone(found))
}

fn solve_for(wish: &Wish) -> Option<Solved> {
    let Sight::Seen(Seen(looked)) = &wish.sight else { return None };
    let (number, dial) = (looked.number(&wish.number)?, looked.dial(&wish.dial)?);
    let case = looked.case.as_ref();
    let solution = solve(case, distance(number), wish.target?, dial.dial, dial.range);
    let none = solution.none(case, &dial.dial);
    Some(Solved { solution, none })
}

/// Of a check its distance to the limit, whatever the limit is.
fn distance(number: &NumberOf) -> Number {
    match number.number {
        Number::Judged(criterion, case) => Number::Distance(criterion, case),
        other => other,
    }
}

fn wish_field(
    output: &'static Field,
    typed: &UseStateHandle<String>,
    shown: Option<&'static Unit>,
    unit: &UseStateHandle<Option<&'static Unit>>,
    is_wrong: bool,
    props: &ToolProps,
) -> Html {
    let id = ids::within(props.only, ids::BACKWARDS_WISH);
    let oninput = {
        let typed = typed.setter();
        Callback::from(move |event: InputEvent| {
            typed.set(event.target_unchecked_into::<web_sys::HtmlInputElement>().value());
        })
    };
    let on_unit = {
        let unit = unit.setter();
        Callback::from(move |chosen| unit.set(Some(chosen)))
    };
    html! {
        <div class="choose">
            <label for={id.clone()}>{ WORDS.tools.wished }</label>
            <div class="field-line">
                <input type="text" class="number" id={id.clone()} inputmode="decimal" autocomplete="off"
                    value={(**typed).clone()} aria-invalid={is_wrong.then_some("true")}
                    aria-describedby={ids::within(props.only, ids::BACKWARDS_FOUND)} {oninput} />
                { unit_select(ids::unit(&id), WORDS.tools.wished, units_of(output, props.set), shown, on_unit) }
            </div>
        </div>
    }
}

fn found(
    wish: &Wish,
    wrong: Option<String>,
    solved: Option<Rc<Solved>>,
    freed: Option<&DialOf>,
    looked: &Looked,
    set: UnitSet,
) -> Html {
    let is_check = looked.number(&wish.number).is_some_and(|number| number.output.is_none());
    match (wrong, wish.target, solved, freed) {
        (Some(wrong), ..) => html! { <p><strong class="tag">{ WORDS.error }</strong>{ " " }{ wrong }</p> },
        (None, None, ..) => html! { <p class="missing">{ WORDS.tools.type_wish }</p> },
        (None, Some(_), Some(solved), Some(freed)) => answer(&solved, freed, looked, is_check, set),
        _ => html! { <p class="missing">{ WORDS.tools.computing }</p> },
    }
}
