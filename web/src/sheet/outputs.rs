//! The values that a sheet answers with.

use super::missing::missing;
use super::shown;
use crate::math;
use crate::text::{WORDS, fill};
use calc::quantity::UnitSet;
use calc::sheet::{Answer, Declaration, Field, Shape};
use yew::prelude::*;

/// All values; `half_widths` are those of the 95 % intervals of the numbers, once they are computed.
pub fn outputs(
    declaration: &'static Declaration,
    answers: &[Answer],
    half_widths: Option<&[Option<f64>]>,
    set: UnitSet,
) -> Html {
    let half_width = |index: usize| half_widths.and_then(|all| all.get(index).copied().flatten());
    let has_intervals = half_widths.is_some_and(|all| all.iter().any(Option::is_some));
    let line = |(index, (field, answer)): (usize, (&'static Field, &Answer))| {
        html! {
            <div class="output">
                <dt>
                    { field.term.name }{ " " }
                    if !field.term.symbol.is_empty() {
                        <span class="field-symbol" aria-hidden="true">{ math::inline(&math::symbol(field.term.symbol)) }</span>
                    }
                </dt>
                <dd id={format!("out-{}", field.id)}>
                    { value(field, answer, half_width(index), declaration, set) }
                </dd>
            </div>
        }
    };
    html! {
        <section aria-labelledby="values">
            <h3 id="values">{ WORDS.values }</h3>
            <dl class="outputs">{ for declaration.outputs.iter().zip(answers).enumerate().map(line) }</dl>
            if has_intervals { <p class="interval">{ WORDS.intervals }</p> }
        </section>
    }
}

fn value(
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
                    <span class="value">{ shown::quantity(*si, unit) }</span>
                    if let Some(half) = half_width {
                        <span class="interval">{ format!(" ±\u{a0}{}", shown::with_unit(shown::half_width(half, unit), unit)) }</span>
                    }
                </>
            }
        }
        Answer::Table(rows) => table(field, rows, declaration, set),
        Answer::Choice(one) => html! { <span class="value-words">{ one.name }</span> },
        Answer::Date(date) => html! { <span class="value-words">{ date.to_string() }</span> },
        Answer::Text(text) => html! { <span class="value-words">{ text }</span> },
        Answer::Missing(why) => missing(why, declaration),
    }
}

fn table(
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
        <div class="table-region" role="region" tabindex="0" aria-label={fill(WORDS.table_of, &[("name", field.term.name)])}>
            <table>
                <thead>
                    <tr>
                        { for columns.iter().map(|column| html! {
                            <th scope="col">
                                { column.term.name }
                                if let Some(unit) = shown::unit_of_column(column, set) {
                                    <span class="column-unit">{ " " }{ unit.symbol }</span>
                                }
                            </th>
                        }) }
                    </tr>
                </thead>
                <tbody>{ for rows.iter().map(|row| row_of(columns, row, declaration, set)) }</tbody>
            </table>
        </div>
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
