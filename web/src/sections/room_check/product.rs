//! What is expected behind the membrane, contaminant by contaminant.

use super::answered;
use super::row::Row;
use crate::page::fold::Fold;
use crate::sheet::judge::Judged;
use crate::sheet::missing::missing;
use crate::text::{WORDS, capital, fill};
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Answer, Declaration, Field, Shape};
use calc::trade::membrane::Expectation;
use yew::prelude::*;

/// What asks for something first, the rest in a sentence.
const ORDER: [Expectation; 4] =
    [Expectation::Above, Expectation::NotByRo, Expectation::NotTold, Expectation::Below];

/// Each contaminant that is above its limit in the feed, or why nothing is known of them.
pub fn product(judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Html {
    let (inner, result) = match answered(judged, sheet, "contaminants") {
        Some((field, Answer::Table(rows))) => (lines(field, rows, set), counts(field, rows, set)),
        Some((_, Answer::Missing(why))) => {
            (html! { <p>{ missing(why, sheet) }</p> }, WORDS.not_known.to_owned())
        }
        _ => (Html::default(), String::new()),
    };
    html! {
        <Fold id="behind-the-membrane" title={WORDS.section.behind_membrane} result={capital(&result)}>
            <p>{ WORDS.section.about_behind_membrane }</p>
            { inner }
        </Fold>
    }
}

/// How many contaminants there are of each expectation that asks for something, named where it asks most.
fn counts(field: &'static Field, rows: &[Vec<Answer>], set: UnitSet) -> String {
    let Shape::Table(columns) = field.shape else { return String::new() };
    let names = |expectation: Expectation| {
        let rows = rows.iter().map(|cells| Row { columns, cells, set });
        let of = rows.filter(|row| row.is("expectation", expectation.id()));
        of.map(|row| row.words("analyte")).collect::<Vec<_>>().join(", ")
    };
    let above =
        [Expectation::Above, Expectation::NotByRo].map(names).into_iter().filter(|names| !names.is_empty());
    let above = above.collect::<Vec<_>>().join(", ");
    if above.is_empty() {
        WORDS.section.none_above.to_owned()
    } else {
        fill(WORDS.section.expected_above, &[("analytes", &above)])
    }
}

fn lines(field: &'static Field, rows: &[Vec<Answer>], set: UnitSet) -> Html {
    let Shape::Table(columns) = field.shape else { return Html::default() };
    let rows: Vec<Row> = rows.iter().map(|cells| Row { columns, cells, set }).collect();
    let asking = ORDER
        .iter()
        .flat_map(|expectation| rows.iter().filter(|row| row.is("expectation", expectation.id())));
    let rest: Vec<&str> = rows
        .iter()
        .filter(|row| !ORDER.iter().any(|one| row.is("expectation", one.id())))
        .map(|row| row.words("analyte"))
        .collect();
    html! {
        <>
            <dl class="told">
                { for asking.map(|row| html! {
                    <div><dt>{ row.words("analyte") }</dt><dd>{ row.words("expectation") }{ ". " }{ numbers(row) }</dd></div>
                }) }
            </dl>
            if !rest.is_empty() {
                <p>{ fill(WORDS.section.no_more_asked, &[("analytes", &rest.join("; "))]) }</p>
            }
        </>
    }
}

fn numbers(row: &Row) -> String {
    let numbers = ["feed", "limit", "needed", "expected"].map(|column| (column, row.number(column)));
    fill(WORDS.section.of_contaminant, &numbers.each_ref().map(|(column, number)| (*column, number.as_str())))
}
