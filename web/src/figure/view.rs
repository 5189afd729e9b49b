//! The figures that a sheet declares, each with the choice of the time of the year and what it lacks.

use super::clock::clock;
use super::lines::{lines, parts};
use super::path::{At, path, sentence};
use super::read::{Numbers, times};
use super::shares::shares;
use super::stairs::{Stairs, stairs};
use super::tool;
use crate::chart::ChartView;
use crate::page::still::Still;
use crate::sheet::judge::Judged;
use crate::sheet::missing::what_is_needed;
use crate::sheet::shown;
use crate::state::{Filling, find};
use crate::text::{WORDS, say};
use calc::engine::calendar::Month;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Declaration, Draws, Field, Figure, Missing, Shape};
use std::rc::Rc;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// Which figure, of which numbers.
#[derive(Properties, Clone)]
pub struct FigureProps {
    /// The figure.
    pub figure: Still<Figure>,
    /// The numbers.
    pub judged: Rc<Judged>,
    /// Whose.
    pub sheet: Still<Declaration>,
    /// The units of the page.
    pub set: UnitSet,
    /// What was typed.
    pub filling: Filling,
    /// What stands at the spots of a path.
    #[prop_or_default]
    pub at: At,
}

impl PartialEq for FigureProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.judged, &other.judged) && self.figure == other.figure && self.set == other.set
    }
}

/// One figure.
#[component]
pub fn FigureView(props: &FigureProps) -> Html {
    let FigureProps { figure, judged, sheet, set, filling, at } = props.clone();
    let chosen = use_state_eq(|| None::<String>);
    let (times, first) = times(figure.0, &judged, sheet.0);
    let chosen_time = chosen.as_deref().filter(|id| times.iter().any(|time| time.id == *id));
    let month = use_state_eq(|| 0_usize);
    let entered = figure.months.map(|months| months.entered(sheet.0, &judged.values)).unwrap_or_default();
    let of_month = month.checked_sub(1).and_then(|index| entered.get(index).copied());
    let assessed = use_memo((Still(figure.0), Rc::clone(&judged.values), of_month), |_| {
        let (months, (_, number)) = (figure.months?, of_month?);
        let values = months.with(sheet.0, &judged.values, number);
        Some(find(sheet.id)?.figures(&values, false))
    });
    let of_month = of_month.filter(|_| assessed.is_some());
    let time = match (of_month, figure.months) {
        (Some(_), Some(months)) => months.time,
        _ => chosen_time.unwrap_or(first),
    };
    let numbers = Numbers {
        judged: &judged,
        sheet: sheet.0,
        set,
        time,
        filling: &filling,
        of_month: (*assessed).as_ref(),
    };
    let case = use_state_eq(|| None::<String>);
    let part = use_state_eq(|| None::<String>);
    let (inner, missing) = match &figure.0.draws {
        &Draws::Stairs { quantity, along, steps, flights, least } => {
            let of = Stairs { quantity, along, steps, flights, least };
            let (chart, missing) = stairs(figure.0, &of, &numbers);
            let drawn = chart.map(|chart| html! { <ChartView id={figure.id} chart={Rc::new(chart)} /> });
            (drawn.unwrap_or_default(), missing)
        }
        &Draws::Path { cases, spots } => {
            let index = cases.iter().position(|(id, _)| case.as_deref() == Some(*id)).unwrap_or_default();
            let choices: Vec<(&str, &str)> = cases.iter().map(|(id, name)| (*id, say(name))).collect();
            if at == At::Readings {
                return html! {
                    <div class="figure" id={format!("figure-{}", figure.id)}>
                        { tool::key() }
                        { path(spots, &numbers, index, at) }
                    </div>
                };
            }
            let drawn = html! {
                <>
                    { choose(format!("{}-case", figure.id), WORDS.figure.case, &choices, cases[index].0, set_of(&case)) }
                    <p class="chart-summary" id={format!("{}-summary", figure.id)}>{ sentence(spots, &numbers, index) }</p>
                    { path(spots, &numbers, index, at) }
                </>
            };
            (drawn, Vec::new())
        }
        Draws::Lines(lined) => {
            let (parts, first) =
                lined.parted.as_ref().map_or_else(Default::default, |of| parts(of, &numbers));
            let here =
                part.as_deref().filter(|here| parts.iter().any(|(id, _)| id == here)).unwrap_or(&first);
            let (charts, missing) = lines(lined, &numbers, here.parse().ok());
            let choices: Vec<(&str, &str)> =
                parts.iter().map(|(id, name)| (id.as_str(), name.as_str())).collect();
            let label = lined.parted.as_ref().map_or("", |of| say(of.label));
            let drawn = html! {
                <>
                    { choose(format!("{}-part", figure.id), label, &choices, here, set_of(&part)) }
                    { for charts.into_iter().enumerate().map(|(index, chart)| html! {
                        <ChartView id={format!("{}-{}", figure.id, index + 1)} chart={Rc::new(chart)} />
                    }) }
                </>
            };
            (drawn, missing)
        }
        Draws::Shares(compared) => shares(figure.id, compared, &numbers),
        Draws::Clock(clocked) => clock(figure.id, clocked, &numbers),
    };
    let mut choices: Vec<(&str, &str)> = times.iter().map(|time| (time.id, say(time.name))).collect();
    let shown_time = if of_month.is_some() { BY_MONTH } else { time };
    if of_month.is_some() {
        choices.push((BY_MONTH, WORDS.figure.by_month));
    }
    let on_time = {
        let (chosen, month) = (chosen.setter(), month.setter());
        Callback::from(move |id: Option<String>| {
            month.set(0);
            chosen.set(id);
        })
    };
    let of_months = Slider {
        id: format!("{}-month", figure.id),
        entered: &entered,
        place: if of_month.is_some() { *month } else { 0 },
        set,
        field: figure.months.and_then(|months| sheet.inputs.get(sheet.input(months.field)?)),
    };
    html! {
        <div class="figure" id={format!("figure-{}", figure.id)}>
            <p class="figure-about">{ say(figure.about) }</p>
            { choose(format!("{}-time", figure.id), WORDS.figure.time, &choices, shown_time, on_time) }
            { of_months.draw(month.setter()) }
            { inner }
            { lacks(&missing, sheet.0) }
        </div>
    }
}

/// The choice of the month on the slider, among the times of the year.
const BY_MONTH: &str = "by-month";

fn set_of(state: &UseStateHandle<Option<String>>) -> Callback<Option<String>> {
    let setter = state.setter();
    Callback::from(move |id| setter.set(id))
}

/// A slider over the months that were entered.
struct Slider<'a> {
    id: String,
    entered: &'a [(&'static str, Option<f64>)],
    place: usize,
    set: UnitSet,
    field: Option<&'static Field>,
}

impl Slider<'_> {
    /// Its first place is that no month is chosen; nothing where there is none.
    fn draw(&self, setter: UseStateSetter<usize>) -> Html {
        let Some(last) = Some(self.entered.len()).filter(|count| *count > 1) else { return Html::default() };
        let oninput = Callback::from(move |event: InputEvent| {
            let place = event.target_unchecked_into::<HtmlInputElement>().value_as_number();
            setter.set(if place.is_finite() { place.max(0.0) as usize } else { 0 });
        });
        let id = self.id.clone();
        let said = self.says();
        html! {
            <div class="choose months">
                <label for={id.clone()}>{ WORDS.figure.month }</label>
                <span class="month-row">
                    <input type="range" {id} min="0" max={last.to_string()} step="1" ~value={self.place.to_string()}
                        aria-valuetext={said.clone()} {oninput} />
                    <output for={self.id.clone()}>{ said }</output>
                </span>
            </div>
        }
    }

    /// The month with its number.
    fn says(&self) -> String {
        let Some((id, number)) = self.place.checked_sub(1).and_then(|index| self.entered.get(index)) else {
            return WORDS.figure.no_month.to_owned();
        };
        let name = Month::NAMED.iter().find(|month| month.id == *id).map_or("", |month| say(month.name));
        let number = number.zip(self.field).and_then(|(si, field)| match field.shape {
            Shape::Number(kind) => Some(shown::answer(field, si, kind, self.set)),
            _ => None,
        });
        format!("{name}, {}", number.unwrap_or_else(|| WORDS.not_known.to_owned()))
    }
}

/// A list of choices; nothing where there is no choice.
fn choose(
    id: String,
    label: &'static str,
    choices: &[(&str, &str)],
    chosen: &str,
    chosen_is: Callback<Option<String>>,
) -> Html {
    if choices.len() < 2 {
        return Html::default();
    }
    let onchange = Callback::from(move |event: Event| {
        chosen_is.emit(Some(event.target_unchecked_into::<HtmlSelectElement>().value()));
    });
    html! {
        <div class="choose">
            <label for={id.clone()}>{ label }</label>
            <select {id} ~value={chosen.to_owned()} {onchange}>
                { for choices.iter().map(|(id, name)| html! {
                    <option value={(*id).to_owned()} selected={*id == chosen}>{ *name }</option>
                }) }
            </select>
        </div>
    }
}

/// What a figure lacks, each reason once, with the way to the field that would give it.
fn lacks(missing: &[Missing], sheet: &'static Declaration) -> Html {
    if missing.is_empty() {
        return Html::default();
    }
    html! {
        <div class="not-checked">
            <strong>{ WORDS.figure.not_drawn }</strong>
            <ul>{ for missing.iter().map(|why| html! { <li>{ what_is_needed(why, sheet) }</li> }) }</ul>
        </div>
    }
}
