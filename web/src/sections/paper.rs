//! What a section has for paper: the sheet of a place with its answers, and a blank card to be filled at the tap.

use super::{LONGEST_TITLE, SectionProps};
use crate::browser::clock;
use crate::figure::bars;
use crate::page::still::Still;
use crate::sheet::checks::{limit, place, value};
use crate::sheet::judge::Judged;
use crate::sheet::shown;
use crate::state::Filling;
use crate::text::{WORDS, called, fill, say, shortened};
use calc::documents::record::Held;
use calc::engine::calendar::Month;
use calc::engine::sheet::{Check, Entry, Field, Shape, Source, Stage, State};
use calc::trade::plan::walk::{AT_THE_TAP, Asked};
use yew::prelude::*;

/// A button that prints.
pub fn button(id: &'static str, words: &'static str) -> Html {
    html! { <button type="button" {id} onclick={Callback::from(|_: MouseEvent| clock::print())}>{ words }</button> }
}

/// The sheet of the place: answers, numbers, limits with their sources, cautions, a place to sign.
pub fn place_sheet(props: &SectionProps, judged: &Judged, filling: &Filling, verdict: &str) -> Html {
    let record = &props.now.record;
    let ro = record.ro().word("ro-name").unwrap_or_default();
    let checks = &judged.assessment.checks;
    let judged_once: Vec<&Check> = checks.iter().filter(|check| month(check).is_none()).collect();
    let (unknown, judged_once): (Vec<&Check>, Vec<&Check>) =
        judged_once.into_iter().partition(|check| check.state == State::NotKnown);
    let (aside, judged_once): (Vec<&Check>, Vec<&Check>) =
        judged_once.into_iter().partition(|check| check.state == State::DoesNotApply);
    let mut sources: Vec<&'static Source> = Vec::new();
    for check in &judged_once {
        if !sources.contains(&check.criterion.source) {
            sources.push(check.criterion.source);
        }
    }
    let inputs = props.entry.0.declaration.inputs.iter();
    let entered: Vec<(&Field, String)> =
        inputs.filter_map(|field| Some((field, entered(field, filling)?))).collect();
    html! {
        <section class="print-only" id="place-sheet" aria-hidden="true">
            <p>{ WORDS.section.place_sheet }{ " · " }{ fill(WORDS.section.printed_on, &[("date", &clock::today())]) }
                if record.is_invented() { { " · " }<span class="tag">{ WORDS.invented }</span> }
            </p>
            <h2>{ shortened(props.now.name(), LONGEST_TITLE) }</h2>
            if !ro.is_empty() { <p>{ fill(WORDS.section.ro, &[("name", &shortened(ro, LONGEST_TITLE))]) }</p> }
            <p><strong>{ verdict }</strong></p>
            <table>
                <thead>
                    <tr>
                        { for [WORDS.section.check_head, WORDS.section.state_head, WORDS.figure.bar_head, WORDS.section.value_head, WORDS.section.limit_head, WORDS.section.source_head]
                            .map(|head| html! { <th scope="col">{ head }</th> }) }
                    </tr>
                </thead>
                <tbody>{ for judged_once.iter().map(|check| row(check, &sources, props)) }</tbody>
            </table>
            <p class="small">{ for sources.iter().enumerate().map(|(index, source)| html! { <>{ index + 1 }{ " " }{ called(source) }{ ". " }</> }) }</p>
            <p>{ by_month(checks) }</p>
            { set_aside(&aside) }
            { not_known(&unknown) }
            <h3>{ WORDS.section.entered }</h3>
            <dl class="entered">
                { for entered.iter().filter(|(field, _)| !is_table(field)).map(|(field, said)| html! {
                    <div><dt>{ say(field.term.name) }</dt><dd>{ said }</dd></div>
                }) }
            </dl>
            { for entered.iter().filter(|(field, _)| is_table(field)).map(|(field, said)| html! {
                <p class="small">{ say(field.term.name) }{ ": " }{ said }</p>
            }) }
            <h3>{ WORDS.cautions }</h3>
            { for judged.assessment.cautions.iter().map(|caution| html! { <p>{ say(caution.text) }</p> }) }
            <div class="to-sign"><p>{ WORDS.section.measured_by }</p><p>{ WORDS.section.decided_by }</p></div>
        </section>
    }
}

/// The month of a check that is judged month by month.
fn month(check: &Check) -> Option<Month> {
    Month::ALL.into_iter().find(|month| month.named() == check.case)
}

/// The months in one line, by their state: twelve rows would say no more.
pub fn by_month(checks: &[Check]) -> String {
    let of = |state: State| {
        let mut months: Vec<Month> =
            checks.iter().filter(|check| check.state == state).filter_map(month).collect();
        months.sort_by_key(|month| *month as usize);
        let months: Vec<&str> = months.into_iter().map(|month| say(month.short())).collect();
        (!months.is_empty()).then(|| format!("{}: {}", say(state.words()), months.join(", ")))
    };
    let states = [State::NotMet, State::NotKnown, State::Marginal, State::Met];
    let said: Vec<String> = states.into_iter().filter_map(of).collect();
    if said.is_empty() {
        return String::new();
    }
    fill(WORDS.section.months_by_state, &[("months", &said.join("; "))])
}

/// What does not apply here, and what is relied on instead, each once.
fn set_aside(checks: &[&Check]) -> Html {
    let mut said: Vec<String> = Vec::new();
    for check in checks {
        let words = fill(
            WORDS.section.set_aside,
            &[
                ("check", say(check.criterion.sentence)),
                ("instead", check.instead.map_or("", |instead| say(instead.sentence))),
            ],
        );
        if !said.contains(&words) {
            said.push(words);
        }
    }
    if said.is_empty() {
        Html::default()
    } else {
        html! { <p>{ said.join(" ") }</p> }
    }
}

/// What is not known: stage by stage, what its checks need.
fn not_known(checks: &[&Check]) -> Html {
    let mut stages: Vec<(Stage, Vec<&str>)> = Vec::new();
    for check in checks {
        let (stage, needs) = (check.criterion.stage, check.missing.map_or("", |missing| say(missing.why)));
        match stages.iter_mut().find(|(of, _)| *of == stage) {
            Some((_, all)) if all.contains(&needs) => {}
            Some((_, all)) => all.push(needs),
            None => stages.push((stage, vec![needs])),
        }
    }
    if stages.is_empty() {
        return Html::default();
    }
    let stage = |(stage, needs): &(Stage, Vec<&str>)| format!("{}: {}", say(stage.name()), needs.join(", "));
    let said = stages.iter().map(stage).collect::<Vec<_>>().join("; ");
    html! { <p>{ fill(WORDS.section.all_not_known, &[("stages", &said)]) }</p> }
}

/// A check; who asks it stands under the table, by number.
fn row(check: &Check, sources: &[&'static Source], props: &SectionProps) -> Html {
    let source = sources.iter().position(|source| *source == check.criterion.source).map(|index| index + 1);
    html! {
        <tr>
            <th scope="row">{ place(check) }{ ": " }{ say(check.criterion.sentence) }</th>
            <td><span class="state">{ say(check.state.words()) }</span></td>
            <td class="bar-cell">{ bars::drawing(check) }</td>
            <td>{ value(check, props.set) }</td>
            <td>{ limit(check, props.set) }</td>
            <td>{ source }</td>
        </tr>
    }
}

/// What was typed into a field; of a table, row by row.
fn entered(field: &'static Field, filling: &Filling) -> Option<String> {
    let said = match (filling.entries.get(field.id)?.as_ref(), field.shape) {
        (Held::One(typed), _) if typed.is_empty() => return None,
        (Held::One(typed), Shape::Choice(named)) => named
            .iter()
            .find(|one| one.id == typed.text)
            .map_or(typed.text.clone(), |one| say(one.name).to_owned()),
        (Held::One(typed), _) => match typed.unit.filter(|_| typed.own_unit(field).is_none()) {
            Some(unit) => shown::with_unit(typed.shown().trim().to_owned(), unit),
            None => shortened(typed.shown(), LONGEST_TITLE),
        },
        (Held::Rows(rows), Shape::Table(columns)) if rows.counted() > 0 => {
            let row = |row: usize| {
                let cell = |(index, column): (usize, &'static Field)| {
                    let text = rows.text(row, index).trim();
                    let named = match column.shape {
                        Shape::Choice(named) => named.iter().find(|one| one.id == text),
                        _ => None,
                    };
                    match (named, rows.unit(index)) {
                        (Some(one), _) => say(one.name).to_owned(),
                        (None, Some(unit)) if !text.is_empty() => shown::with_unit(text.to_owned(), unit),
                        (None, _) => text.to_owned(),
                    }
                };
                let cells = columns.iter().enumerate().map(cell).filter(|cell| !cell.is_empty());
                cells.collect::<Vec<_>>().join(" ")
            };
            (0..rows.counted()).map(row).collect::<Vec<_>>().join("; ")
        }
        (Held::Rows(_), _) => return None,
    };
    Some(said)
}

/// Its rows take whole lines.
fn is_table(field: &Field) -> bool {
    matches!(field.shape, Shape::Table(_))
}

/// Whose fields a card has.
#[derive(Properties, PartialEq, Clone)]
pub struct CardProps {
    /// The plan.
    pub entry: Still<Entry>,
}

/// The card: every field of the walk with how to measure it and room to write. Nothing that is typed changes it.
#[component]
pub fn Card(props: &CardProps) -> Html {
    let inputs = props.entry.declaration.inputs;
    let blank = |asked: &'static Asked| {
        let field = inputs.iter().find(|field| field.id == asked.id)?;
        let choices = match field.shape {
            Shape::Choice(named) => named.iter().map(|one| say(one.name)).collect::<Vec<_>>().join(" / "),
            _ => String::new(),
        };
        Some(html! {
            <div class="blank">
                <span>
                    <strong>{ say(field.term.name) }</strong>
                    <span class="blank-how">{ say(field.term.help) }{ " " }{ choices }</span>
                </span>
                <span class="blank-line">{ "__________________" }</span>
            </div>
        })
    };
    html! {
        <section class="print-only" id="card" aria-hidden="true">
            <h2>{ WORDS.section.card }</h2>
            <p>{ WORDS.section.about_card }</p>
            <div class="blank-groups">
                { for AT_THE_TAP.iter().enumerate().map(|(index, group)| html! {
                    <>
                        <h3>{ index + 1 }{ " " }{ say(group.name) }</h3>
                        { for group.fields.iter().filter_map(blank) }
                    </>
                }) }
            </div>
            <div class="to-sign"><p>{ WORDS.section.measured_by }</p></div>
        </section>
    }
}
