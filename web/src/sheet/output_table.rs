//! A table among the values.

use super::outputs::value;
use super::shown;
use crate::text::{WORDS, fill, say};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Declaration, Field, Shape};
use yew::prelude::*;

/// The rows under the names and units of their columns, in a region of its own that scrolls.
pub fn table(
    field: &'static Field,
    rows: &[Vec<Answer>],
    declaration: &'static Declaration,
    set: UnitSet,
) -> Html {
    let Shape::Table(columns) = field.shape else { return Html::default() };
    if rows.is_empty() {
        return html! { <span class="missing">{ WORDS.no_rows }</span> };
    }
    html! {
        <section class="table-region" tabindex="0" aria-label={fill(WORDS.table_of, &[("name", say(field.term.name))])}>
            <table>
                <thead>
                    <tr>
                        { for columns.iter().map(|column| html! {
                            <th scope="col">
                                { say(column.term.name) }
                                if let Some(unit) = shown::unit_of_column(column, set) {
                                    <span class="column-unit">{ " " }{ unit.shown() }</span>
                                }
                            </th>
                        }) }
                    </tr>
                </thead>
                <tbody>{ for rows.iter().map(|row| row_of(columns, row, declaration, set)) }</tbody>
            </table>
        </section>
    }
}

/// The first cell names the row, unless it is a number like the others.
fn row_of(
    columns: &'static [Field],
    row: &[Answer],
    declaration: &'static Declaration,
    set: UnitSet,
) -> Html {
    let cell = |(index, (column, answer)): (usize, (&'static Field, &Answer))| {
        let inner = match answer {
            Answer::Number(si, kind) => html! { { shown::number(*si, shown::unit_of(column, kind, set)) } },
            Answer::Below(si, kind) => {
                html! { { format!("<{}", shown::number(*si, shown::unit_of(column, kind, set))) } }
            }
            other => value(column, other, None, declaration, set),
        };
        match (index, column.shape) {
            (0, Shape::Number(_)) => html! { <td class="cell-number">{ inner }</td> },
            (0, _) => html! { <th scope="row">{ inner }</th> },
            (_, Shape::Number(_)) => html! { <td class="cell-number">{ inner }</td> },
            _ => html! { <td>{ inner }</td> },
        }
    };
    html! { <tr>{ for columns.iter().zip(row).enumerate().map(cell) }</tr> }
}
