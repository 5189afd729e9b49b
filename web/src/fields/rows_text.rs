//! Rows of a table from a spreadsheet or a file, seen before they are taken over; and back.

use super::table::Columns;
use super::{FieldProps, text_of_area};
use crate::browser::export;
use crate::browser::file_text::{self, FileText};
use crate::state::Change;
use crate::text::{WORDS, alone, counted, fill, say, tell};
use calc::documents::csv::{self, Read, Remark};
use calc::documents::record::{Held, Rows, offered};
use calc::engine::quantity::{Unit, UnitSet};
use calc::engine::sheet::{Field, Shape};
use std::rc::Rc;
use yew::platform::spawn_local;
use yew::prelude::*;

/// How many rows are shown before they are taken over.
const FIRST: usize = 5;

/// A table whose rows may come from a text.
#[derive(Properties, PartialEq, Clone)]
pub struct RowsTextProps {
    /// Its columns.
    pub columns: Columns,
    /// Its field.
    pub field: FieldProps,
}

/// The fold: nothing is read while it is closed or empty.
#[component]
pub fn RowsText(props: &RowsTextProps) -> Html {
    let RowsTextProps { columns: Columns(columns), field } = props;
    let id = field.field.id;
    let text = use_state_eq(String::new);
    let read = use_memo((*text).clone(), |text| (!text.trim().is_empty()).then(|| csv::read(columns, text)));
    let too_long = use_state_eq(|| false);
    let doubtful = use_state_eq(|| None::<String>);
    let onchange = {
        let (text, too_long, doubtful) = (text.setter(), too_long.setter(), doubtful.setter());
        Callback::from(move |event: Event| {
            let input = event.target_unchecked_into::<web_sys::HtmlInputElement>();
            let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
            too_long.set(file.size() > csv::LONGEST as f64);
            if file.size() > csv::LONGEST as f64 {
                return;
            }
            let (text, doubtful) = (text.clone(), doubtful.clone());
            spawn_local(async move {
                doubtful.set(None);
                match file_text::read(&file).await {
                    Some(FileText::Sure(read)) => text.set(read),
                    Some(FileText::Doubtful(read)) => doubtful.set(Some(read)),
                    None => text.set(String::new()),
                }
                // so that the same file can be chosen once more, after it was mended
                input.set_value("");
            });
        })
    };
    let answer = {
        let (text, doubtful) = (text.setter(), doubtful.clone());
        Callback::from(move |yes: bool| {
            if let (true, Some(read)) = (yes, doubtful.as_ref()) {
                text.set(read.clone());
            }
            doubtful.set(None);
        })
    };
    let oninput = {
        let text = text.setter();
        Callback::from(move |event: InputEvent| text.set(text_of_area(event)))
    };
    let names: Vec<&str> = columns.iter().map(|column| say(column.term.name)).collect();
    let part = |part: &str| format!("{id}-{part}");
    html! {
        <details class="rows-text" id={part("rows")}>
            <summary>{ WORDS.rows.from_text }</summary>
            <p class="field-hint" id={part("rows-hint")}>{ fill(WORDS.rows.hint, &[("columns", &names.join("; "))]) }</p>
            <label for={part("text")}>{ WORDS.rows.text }</label>
            <textarea id={part("text")} rows="6" spellcheck="false" aria-describedby={part("rows-hint")}
                value={(*text).clone()} {oninput} />
            <label for={part("file")}>{ WORDS.rows.file }</label>
            <input type="file" id={part("file")} accept=".csv,.tsv,.txt,text/csv,text/plain" {onchange} />
            if let Some(read) = doubtful.as_ref() { { file_text::question(id, read, answer) } }
            <div id={part("found")} role="status">
                if *too_long {
                    <p class="field-error"><strong class="tag">{ WORDS.refused }</strong>{ " " }{ WORDS.rows.too_long }</p>
                }
                { match read.as_ref() {
                    None => Html::default(),
                    Some(Err(why)) => html! {
                        <p class="field-error"><strong class="tag">{ WORDS.refused }</strong>{ " " }{ alone(&tell(why, field.set)) }</p>
                    },
                    Some(Ok(read)) => found(read, columns, field),
                } }
            </div>
            { save(columns, field) }
        </details>
    }
}

/// The unit in which a column is taken, and whether the text names it.
fn unit(read: &Read, index: usize, column: &'static Field, set: UnitSet) -> Option<(&'static Unit, bool)> {
    let named = read.units.get(index).copied().flatten();
    named.map(|unit| (unit, true)).or_else(|| offered(column, set).map(|unit| (unit, false)))
}

/// What was found, and the button that takes it over.
fn found(read: &Read, columns: &'static [Field], field: &FieldProps) -> Html {
    let has = |index: usize| read.found.get(index).copied().unwrap_or_default();
    let told = columns.iter().enumerate().filter(|(index, _)| has(*index)).map(|(index, column)| {
        let name = say(column.term.name);
        match unit(read, index, column, field.set) {
            Some((unit, is_named)) => {
                let words = if is_named { WORDS.rows.in_unit } else { WORDS.rows.in_no_unit };
                fill(words, &[("column", name), ("unit", unit.shown())])
            }
            None => name.to_owned(),
        }
    });
    let told = told.collect::<Vec<_>>().join("; ");
    let lacking: Vec<&str> = columns
        .iter()
        .enumerate()
        .filter(|(index, _)| !has(*index))
        .map(|(_, column)| say(column.term.name))
        .collect();
    let standing = standing(field).map_or(0, Rows::counted);
    let words = match standing {
        0 => counted(WORDS.rows.take, read.rows.len()),
        count => counted(WORDS.rows.take_instead, count),
    };
    let taken = Rc::new(read.clone());
    let onclick = field.sender().on(move |_: MouseEvent| Change::Rows(Rc::clone(&taken)));
    html! {
        <>
            <p>{ fill(&counted(WORDS.rows.found, read.rows.len()), &[("columns", &told)]) }</p>
            if !lacking.is_empty() { <p>{ fill(WORDS.rows.lacking, &[("columns", &lacking.join("; "))]) }</p> }
            if !read.ignored.is_empty() {
                <p>{ fill(WORDS.rows.ignored, &[("columns", &read.ignored.join("; "))]) }</p>
            }
            <p>{ WORDS.rows.first }</p>
            <ol>{ for read.rows.iter().take(FIRST).map(|row| html! { <li>{ in_a_line(row, columns) }</li> }) }</ol>
            if read.left_out > 0 { <p>{ fill(WORDS.rows.left_out, &[("count", &read.left_out.to_string())]) }</p> }
            if !read.remarks.is_empty() {
                <p>{ WORDS.rows.look_at }</p>
                <ul>{ for read.remarks.iter().map(|remark| html! { <li>{ in_words(remark, field.set) }</li> }) }</ul>
            }
            <button type="button" id={format!("{}-take", field.field.id)} {onclick}>{ words }</button>
        </>
    }
}

/// The cells of a row as they will stand in the table.
fn in_a_line(row: &[String], columns: &'static [Field]) -> String {
    let cell = |(text, column): (&String, &Field)| match column.shape {
        Shape::Choice(named) => {
            named.iter().find(|one| one.id == text).map_or(text.clone(), |one| say(one.name).to_owned())
        }
        _ => text.clone(),
    };
    row.iter().zip(columns).map(cell).collect::<Vec<_>>().join(" · ")
}

fn in_words(remark: &Remark, set: UnitSet) -> String {
    let line = remark.line.to_string();
    let place = match remark.column {
        "" => fill(WORDS.rows.in_line, &[("line", &line)]),
        column => fill(WORDS.rows.in_cell, &[("line", &line), ("column", column)]),
    };
    place + &tell(&remark.sentence, set)
}

fn standing(field: &FieldProps) -> Option<&Rows> {
    match field.entry.as_deref() {
        Some(Held::Rows(rows)) => Some(rows),
        _ => None,
    }
}

/// The button that saves the rows that stand in the table.
fn save(columns: &'static [Field], field: &FieldProps) -> Html {
    let Some(rows) = standing(field).filter(|rows| rows.counted() > 0) else { return Html::default() };
    let (rows, id) = (rows.clone(), field.field.id);
    let onclick = Callback::from(move |_: MouseEvent| {
        let row = |row: usize| (0..columns.len()).map(|column| rows.text(row, column).to_owned()).collect();
        let cells: Vec<Vec<String>> = (0..rows.counted()).map(row).collect();
        export::offer_rows(&csv::write(columns, &rows.units, &cells), id);
    });
    html! { <p><button type="button" class="plain" id={format!("{id}-save")} {onclick}>{ WORDS.rows.save }</button></p> }
}
