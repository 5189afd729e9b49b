//! A table that is filled row by row, the unit of a column chosen once over it.

use super::FieldProps;
use super::cell::TableRow;
use super::frame::frame;
use super::rows_text::RowsText;
use super::unit::{unit_select, units_of};
use crate::math;
use crate::page::ids;
use crate::state::Change;
use crate::text::{WORDS, fill, say};
use calc::documents::record::{Held, Rows, offered};
use calc::engine::sheet::{Field, Shape};
use wasm_bindgen::JsCast;
use yew::prelude::*;

/// The columns of a table; two are the same when they are one.
#[derive(Clone, Copy)]
pub struct Columns(pub &'static [Field]);

impl PartialEq for Columns {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

/// A table with its field.
#[derive(Properties, PartialEq, Clone)]
pub struct TableProps {
    /// Its columns.
    pub columns: Columns,
    /// The field.
    pub field: FieldProps,
}

/// A table.
#[component]
pub fn TableField(props: &TableProps) -> Html {
    let whole = use_node_ref();
    let TableProps { columns, field: props } = props;
    let (field, sender) = (props.field.0, props.sender());
    let none = Rows::default();
    let rows = match props.entry.as_deref() {
        Some(Held::Rows(rows)) => rows,
        _ => &none,
    };
    // Where nothing was typed, one empty row is there to begin with.
    let row = |row: usize| {
        let start = ids::cell(field.id, row, "");
        let wrong = props.notes.errors.iter().filter(|said| said.at.starts_with(&start));
        let wrong = wrong.map(|said| said.at.clone()).collect::<Vec<_>>();
        let cells = rows.rows.get(row).cloned().unwrap_or_default();
        html! { <TableRow columns={*columns} {row} {cells} {wrong} sender={sender.clone()} /> }
    };
    let says_error = !props.notes.errors.is_empty();
    let control = html! {
        <>
        <div ref={whole.clone()} onfocusin={crossing(&whole, sender.entering(field.id, says_error))}
            onfocusout={crossing(&whole, sender.leaving(field.id))}>
            <section class="table-region" tabindex="0" aria-label={fill(WORDS.table_of, &[("name", say(field.term.name))])}>
                <table class="entry-table">
                    <thead>
                        <tr>
                            { for columns.0.iter().enumerate().map(|(index, column)| head(props, rows, index, column)) }
                            <th scope="col"><span class="unseen">{ WORDS.remove_row }</span></th>
                        </tr>
                    </thead>
                    <tbody>{ for (0..rows.rows.len().max(1)).map(row) }</tbody>
                </table>
            </section>
            <button type="button" id={format!("{}-add", field.id)} onclick={sender.on(|_: MouseEvent| Change::AddRow)}>
                { WORDS.add_row }
            </button>
            if let (0, Some(named)) = (rows.counted(), named_rows(columns)) {
                { " " }
                <button type="button" id={format!("{}-each", field.id)} onclick={sender.on(|_: MouseEvent| Change::EachRow)}>
                    { fill(WORDS.section.each_row, &[("count", &named.to_string())]) }
                </button>
            }
        </div>
        <RowsText columns={*columns} field={props.clone()} />
        </>
    };
    frame(props, true, control)
}

/// How many rows there would be with one for each value of the first column; `None` where that is no choice.
fn named_rows(columns: &Columns) -> Option<usize> {
    match columns.0.first()?.shape {
        Shape::Choice(named) => Some(named.len()),
        _ => None,
    }
}

/// Hears of the focus only where it crosses the edge of the table.
fn crossing(whole: &NodeRef, change: Callback<FocusEvent>) -> Callback<FocusEvent> {
    let whole = whole.clone();
    Callback::from(move |event: FocusEvent| {
        let other = event.related_target().and_then(|target| target.dyn_into::<web_sys::Node>().ok());
        let inside = whole.cast::<web_sys::Node>().is_some_and(|whole| whole.contains(other.as_ref()));
        if other.is_none() || !inside {
            change.emit(event);
        }
    })
}

fn head(props: &FieldProps, rows: &Rows, index: usize, column: &'static Field) -> Html {
    let unit = rows.unit(index).or_else(|| offered(column, props.set));
    let on_unit = props.sender().on(move |unit| Change::ColumnUnit(index, unit));
    let id = ids::unit(&format!("{}-{}", props.field.id, column.id));
    html! {
        <th scope="col">
            <span class="column-name">
                { say(column.term.name) }{ " " }
                if !column.term.symbol.is_empty() {
                    <span class="field-symbol" aria-hidden="true">{ math::inline(&math::symbol(column.term.symbol)) }</span>
                }
            </span>
            { unit_select(id, say(column.term.name), units_of(column, props.set), unit, on_unit) }
        </th>
    }
}
