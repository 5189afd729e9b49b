//! The arithmetic, opened when somebody asks for it: each formula with symbols, with numbers, and its result.

use crate::math::{self, Math};
use crate::page::ids;
use crate::page::still::Still;
use crate::state::find;
use crate::text::{WORDS, alone, fill, say, tell};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::formula::Node;
use calc::engine::sheet::{Bound, Entry, How, Stage, Step, Value};
use std::rc::Rc;
use yew::prelude::*;

/// What the arithmetic is of.
#[derive(Properties, PartialEq, Clone)]
pub struct WorkingProps {
    /// The sheet.
    pub entry: Still<Entry>,
    /// What was read.
    pub values: Rc<Vec<Option<Value>>>,
    /// The units of the page.
    pub set: UnitSet,
    /// Of a plan, the stage to which it is kept.
    #[prop_or_default]
    pub only: Option<Stage>,
}

/// The steps are computed only while they can be seen.
#[component]
pub fn WorkingView(props: &WorkingProps) -> Html {
    let open = use_state_eq(|| false);
    let ontoggle = {
        let open = open.clone();
        Callback::from(move |event: Event| {
            open.set(event.target_unchecked_into::<web_sys::HtmlDetailsElement>().open());
        })
    };
    let mut steps = if *open { props.entry.0.assess(&props.values, true).steps } else { Vec::new() };
    if let Some(stage) = props.only {
        steps.retain(|step| find(step.sheet).is_some_and(|entry| entry.declaration.stage == stage));
    }
    html! {
        <details class="working" id={ids::within(props.only, ids::WORKING)} {ontoggle}>
            <summary>{ WORDS.working }</summary>
            if *open && steps.is_empty() {
                <p>{ WORDS.no_working }</p>
            }
            <ol class="steps">{ for steps.iter().enumerate().map(|(index, step)| {
                let before = index.checked_sub(1).and_then(|before| steps.get(before));
                let begins = before.is_none_or(|before| before.sheet != step.sheet) && step.sheet != props.entry.declaration.id;
                step_view(ids::within(props.only, &format!("step-{index}")), (index, step), begins, props.set)
            }) }</ol>
        </details>
    }
}

/// One step; `begins` says that it is the first of another sheet, which a plan calls.
fn step_view(id: String, (index, step): (usize, &Step), begins: bool, wished: UnitSet) -> Html {
    let set = step.coherent(wished);
    let result = Math::Row(vec![Math::Sign("="), with_unit(&step.result, set)]);
    let lines = match &step.how {
        How::Formula { text, bound } => formula(step, text, bound, set, result),
        How::Conversion { from } => html! {
            <>
                <p>{ equation(&step.result, math::symbol(from.symbol)) }</p>
                <p class="indent">{ math::inline(&Math::Row(vec![Math::Sign("="), with_unit(from, set)])) }</p>
                <p class="indent">{ math::inline(&result) }</p>
            </>
        },
        How::Procedure { what } => html! {
            <>
                <p class="said">{ alone(&tell(what, wished)) }</p>
                <p>{ equation(&step.result, with_unit(&step.result, set)) }</p>
            </>
        },
    };
    let case = [say(step.case.name), say(step.season.name)].into_iter().filter(|word| !word.is_empty());
    let case = case.collect::<Vec<_>>().join(", ");
    let label = fill(WORDS.step, &[("number", &(index + 1).to_string())]);
    html! {
        <li class="step" {id}>
            if let Some(entry) = find(step.sheet).filter(|_| begins) { <h4>{ say(entry.declaration.name) }</h4> }
            if !case.is_empty() { <p class="step-case">{ case }</p> }
            <div class="formula" role="group" tabindex="0" aria-label={label}>{ lines }</div>
        </li>
    }
}

fn formula(step: &Step, text: &'static str, bound: &[Bound], set: UnitSet, result: Math) -> Html {
    let Some(node) = step.node() else {
        return html! { <><p><code>{ text }</code></p><p>{ math::inline(&result) }</p></> };
    };
    let numbers = Math::Row(vec![Math::Sign("="), math::formula(&node, &|leaf| in_numbers(step, leaf, set))]);
    html! {
        <>
            <p>{ equation(&step.result, math::formula(&node, &|leaf| in_symbols(step, leaf))) }</p>
            <p class="indent">{ math::inline(&numbers) }</p>
            <p class="indent">{ math::inline(&result) }</p>
            if !bound.is_empty() {
                <p class="with">
                    { WORDS.with }
                    { for bound.iter().map(|bound| html! {
                        <span class="with-one">{ equation(bound, with_unit(bound, set)) }</span>
                    }) }
                </p>
            }
        </>
    }
}

fn equation(left: &Bound, right: Math) -> Html {
    math::inline(&Math::Row(vec![math::symbol(left.symbol), Math::Sign("="), right]))
}

fn with_unit(bound: &Bound, set: UnitSet) -> Math {
    let unit = bound.kind.unit_in(set);
    let number = math::number(unit.of_si(bound.value));
    if unit.symbol.is_empty() {
        return number;
    }
    Math::Row(vec![number, Math::Text(format!("\u{a0}{}", unit.shown()))])
}

fn in_symbols(step: &Step, leaf: &Node) -> Math {
    match leaf {
        Node::Name(name) => math::symbol(step.bound(name).map_or(name, |bound| bound.symbol)),
        Node::Constant(value, _, unit) => {
            Math::Row(vec![math::number(*value), Math::Text(format!("\u{a0}{}", unit.shown()))])
        }
        other => number_of(other),
    }
}

fn in_numbers(step: &Step, leaf: &Node, set: UnitSet) -> Math {
    let value =
        leaf.value(set, &|name| step.bound(name).map(|bound| bound.kind.unit_in(set).of_si(bound.value)));
    value.map_or_else(|| in_symbols(step, leaf), math::number)
}

fn number_of(node: &Node) -> Math {
    match node {
        Node::Number(value) => math::number(*value),
        other => Math::Text(other.text(UnitSet::Si, &|name| name.to_owned())),
    }
}
