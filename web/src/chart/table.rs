//! The same numbers as a table.

use super::data::{Chart, Course};
use crate::text::{WORDS, fill};
use std::rc::Rc;
use yew::prelude::*;

/// Whose numbers.
#[derive(Properties, PartialEq, Clone)]
pub struct TableProps {
    /// Of the `details`.
    pub id: AttrValue,
    /// The chart.
    pub chart: Rc<Chart>,
}

/// The table, made only while it can be seen.
#[component]
pub fn NumbersTable(props: &TableProps) -> Html {
    let open = use_state_eq(|| false);
    let ontoggle = {
        let open = open.setter();
        Callback::from(move |event: Event| {
            open.set(event.target_unchecked_into::<web_sys::HtmlDetailsElement>().open());
        })
    };
    html! {
        <details class="chart-table" id={&props.id} {ontoggle}>
            <summary>{ WORDS.chart.table }</summary>
            if *open { { table(&props.chart) } }
        </details>
    }
}

fn table(chart: &Chart) -> Html {
    let head = |name: &str, unit: &str| {
        html! {
            <th scope="col">{ name }if !unit.is_empty() { <span class="column-unit">{ " " }{ unit }</span> }</th>
        }
    };
    let of_series = chart.series.iter().map(|series| {
        let name = if series.name.is_empty() { &chart.y.name } else { &series.name };
        html! {
            <>
                { head(name, &chart.y.unit) }
                if !series.half_widths.is_empty() { { head(WORDS.chart.half_width, &chart.y.unit) } }
            </>
        }
    });
    let courses = || chart.limits.iter().filter(|limit| matches!(limit.at, Course::Over(_)));
    let row = |place: usize| {
        let x = chart.xs.at(place).map_or_else(String::new, |x| chart.x.number(x));
        let y = |value: Option<f64>| value.map_or_else(String::new, |value| chart.y.number(value));
        html! {
            <tr>
                <th scope="row" class="cell-number">{ x }</th>
                { for chart.series.iter().map(|series| html! {
                    <>
                        <td class="cell-number">{ y(series.ys.at(place)) }</td>
                        if !series.half_widths.is_empty() { <td class="cell-number">{ series.half_width(place) }</td> }
                    </>
                }) }
                { for courses().map(|limit| html! { <td class="cell-number">{ y(limit.at.at(place)) }</td> }) }
            </tr>
        }
    };
    html! {
        <section class="table-region" tabindex="0" aria-label={fill(WORDS.table_of, &[("name", &chart.title)])}>
            <table>
                <thead>
                    <tr>
                        { head(&chart.x.name, &chart.x.unit) }
                        { for of_series }
                        { for courses().map(|limit| head(&limit.words, &chart.y.unit)) }
                    </tr>
                </thead>
                <tbody>{ for (0..chart.xs.len()).map(row) }</tbody>
            </table>
        </section>
    }
}
