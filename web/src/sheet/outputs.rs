//! The values that a sheet answers with.

use super::judge::Judged;
use super::missing::missing;
use super::output_table::table;
use super::shown;
use crate::math;
use crate::page::still::Still;
use crate::text::{WORDS, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Declaration, Field};
use std::rc::Rc;
use yew::prelude::*;

/// All values; `half_widths` are those of the 95 % intervals of the numbers, once they are computed.
pub fn outputs(
    declaration: &'static Declaration,
    judged: &Rc<Judged>,
    half_widths: Option<&[Option<f64>]>,
    set: UnitSet,
) -> Html {
    let half_width = |index: usize| half_widths.and_then(|all| all.get(index).copied().flatten());
    // what a figure says in words, or in the table under it, is not said twice
    let told: Vec<&str> = declaration.figures.iter().flat_map(|figure| figure.tells()).collect();
    let is_there =
        |index: usize| !matches!(judged.assessment.answers.get(index), Some(Answer::Missing(_)) | None);
    let is_told = |index: usize| is_there(index) && told.contains(&declaration.outputs[index].id);
    let has_intervals = half_widths.is_some_and(|all| all.iter().any(Option::is_some));
    html! {
        <section aria-labelledby="values">
            <h3 id="values">{ WORDS.values }</h3>
            <dl class="outputs">
                { for (0..declaration.outputs.len()).filter(|index| !is_told(*index)).map(|index| html! {
                    <OutputLine declaration={Still(declaration)} answer={Answered { judged: Rc::clone(judged), index }}
                        half_width={half_width(index)} {set} />
                }) }
            </dl>
            if has_intervals { <p class="interval">{ WORDS.intervals }</p> }
        </section>
    }
}

/// One answer among all; the same while it is the same, whatever became of the others.
#[derive(Clone)]
struct Answered {
    judged: Rc<Judged>,
    index: usize,
}

impl Answered {
    fn get(&self) -> Option<&Answer> {
        self.judged.assessment.answers.get(self.index)
    }
}

impl PartialEq for Answered {
    fn eq(&self, other: &Self) -> bool {
        self.get() == other.get()
    }
}

#[derive(Properties, PartialEq, Clone)]
struct OutputProps {
    declaration: Still<Declaration>,
    answer: Answered,
    half_width: Option<f64>,
    set: UnitSet,
}

/// One value with its name.
#[component]
fn OutputLine(props: &OutputProps) -> Html {
    let declaration = props.declaration.0;
    let (Some(field), Some(answer)) = (declaration.outputs.get(props.answer.index), props.answer.get())
    else {
        return Html::default();
    };
    html! {
        <div class="output">
            <dt>
                { say(field.term.name) }{ " " }
                if !field.term.symbol.is_empty() {
                    <span class="field-symbol" aria-hidden="true">{ math::inline(&math::symbol(field.term.symbol)) }</span>
                }
            </dt>
            <dd id={format!("out-{}", field.id)}>{ value(field, answer, props.half_width, declaration, props.set) }</dd>
        </div>
    }
}

/// Whether an answer is shown as a table.
pub fn is_table(answer: &Answer) -> bool {
    matches!(answer, Answer::Table(_))
}

/// A value with its unit, or why there is none.
pub(super) fn value(
    field: &'static Field,
    answer: &Answer,
    half_width: Option<f64>,
    declaration: &'static Declaration,
    set: UnitSet,
) -> Html {
    match answer {
        Answer::Number(si, kind) => {
            let unit = shown::unit_of(field, kind, set);
            html! {
                <>
                    <span class="value">{ shown::answer(field, *si, kind, set) }</span>
                    if let Some(half) = half_width {
                        <span class="interval">{ format!(" ±\u{a0}{}", shown::with_unit(shown::half_width(half, unit), unit)) }</span>
                    }
                </>
            }
        }
        Answer::Below(si, kind) => {
            let bound = shown::quantity(*si, shown::unit_of(field, kind, set));
            html! { <span class="value">{ format!("<{bound}") }</span> }
        }
        Answer::Table(rows) => table(field, rows, declaration, set),
        Answer::Choice(one) => html! { <span class="value-words">{ say(one.name) }</span> },
        Answer::Moment(moment) => {
            html! { <span class="value-words">{ shown::moment(&moment.to_string()) }</span> }
        }
        Answer::Date(date) => html! { <span class="value-words">{ shown::date(&date.to_string()) }</span> },
        Answer::Word(text) => html! { <span class="value-words">{ say(text) }</span> },
        Answer::Text(text) => html! { <span class="value-words">{ text }</span> },
        Answer::Missing(why) => missing(why, declaration),
    }
}
