//! A row of a table that is filled, cell by cell.

use super::choice::options;
use super::table::Columns;
use super::{Sender, chosen_of, text_of};
use crate::page::ids;
use crate::state::Change;
use crate::text::{WORDS, fill, say};
use calc::documents::record::Row;
use calc::engine::sheet::{Field, Shape};
use std::rc::Rc;
use yew::prelude::*;

/// A row. A long log has many of them, and a key press changes one.
#[derive(Properties, PartialEq, Clone)]
pub struct RowProps {
    /// The columns of the table.
    pub columns: Columns,
    /// Counted from 0.
    pub row: usize,
    /// What was typed; may be shorter than the table is wide.
    pub cells: Rc<Row>,
    /// The ids of those cells of this row whose errors are said.
    pub wrong: Vec<String>,
    /// Hears of changes.
    pub(super) sender: Sender,
}

/// One row.
#[component]
pub fn TableRow(props: &RowProps) -> Html {
    let number = (props.row + 1).to_string();
    let row = props.row;
    html! {
        <tr>
            { for props.columns.0.iter().enumerate().map(|(index, column)| html! { <td>{ cell(props, index, column) }</td> }) }
            <td>
                <button type="button" class="plain" id={format!("{}-remove-{row}", props.sender.field.id)}
                    aria-label={fill(WORDS.remove_row_number, &[("row", &number)])}
                    onclick={props.sender.on(move |_: MouseEvent| Change::RemoveRow(row))}>{ "×" }</button>
            </td>
        </tr>
    }
}

/// A text field or a list.
fn cell(props: &RowProps, index: usize, column: &'static Field) -> Html {
    let (row, sender, table) = (props.row, &props.sender, props.sender.field.id);
    let id = ids::cell(table, row, column.id);
    let text = props.cells.cells.get(index).map_or(String::new(), |cell| cell.shown().to_owned());
    let label = fill(WORDS.cell_of, &[("column", say(column.term.name)), ("row", &(row + 1).to_string())]);
    let is_wrong = props.wrong.contains(&id);
    let (invalid, error) = (is_wrong.then_some("true"), is_wrong.then(|| ids::error(table)));
    let (onfocus, onblur) = (sender.entering(&id, is_wrong), sender.leaving(&id));
    if let Shape::Choice(named) = column.shape {
        return html! {
            <select {id} aria-label={label} aria-invalid={invalid} aria-describedby={error} ~value={text.clone()}
                onchange={sender.on(move |event| Change::Cell(row, index, chosen_of(event)))} {onfocus} {onblur}>
                { options(named, &text) }
            </select>
        };
    }
    let inputmode = matches!(column.shape, Shape::Number(_)).then_some("decimal");
    html! {
        <input type="text" {id} {inputmode} autocomplete="off" spellcheck="false" value={text} aria-label={label}
            aria-invalid={invalid} aria-describedby={error}
            oninput={sender.on(move |event| Change::Cell(row, index, text_of(event)))} {onfocus} {onblur} />
    }
}
