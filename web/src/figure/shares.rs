//! Results as shares of their limits, on one scale of powers of ten, worst first; two sets of limits side by side.
//!
//! A mark alone says little, so each line has the result, its limit and what that means in words. The mark of the first set
//! is a disc, that of the second a diamond; full is over the limit, open is within it, and an arrow to the left is a result
//! "less than" its reporting limit.

use super::read::Numbers;
use crate::chart::symbol;
use crate::sheet::mark::mark;
use crate::sheet::shown::{self, percent};
use crate::text::{WORDS, alone, capital, counted, fill, say};
use calc::engine::sheet::{Answer, Compare, Compared, Field, Missing, State};
use yew::prelude::*;

/// The ends of the scale, as powers of ten of the limit.
const ENDS: (f64, f64) = (-2.0, 1.0);
/// The mark of each set.
const SYMBOLS: [usize; 2] = [0, 3];
/// In pixels from the middle of a mark to its edge.
const SIZE: f64 = 5.5;

/// Where a share of the limit lies, in hundredths of the width; beyond the scale it lies at its end.
pub fn place(share: f64) -> f64 {
    let (low, high) = ENDS;
    let at = (share.log10() - low) / (high - low);
    100.0 * at.clamp(0.0, 1.0)
}

fn at(share: f64) -> String {
    format!("{:.2}%", place(share))
}

/// What one set says of a result.
struct Said<'a> {
    limit: Option<String>,
    share: Option<f64>,
    state: State,
    verdict: &'a str,
}

/// One line.
struct Line<'a> {
    name: String,
    result: String,
    is_below: bool,
    said: Vec<Said<'a>>,
}

/// The lines, worst first, what was not tested, and the sets that were chosen; or what is needed for them.
pub fn shares(id: &str, of: &'static Compared, numbers: &Numbers) -> (Html, Vec<Missing>) {
    let (columns, rows) = match numbers.rows(of.table) {
        Ok(found) => found,
        Err(why) => return (Html::default(), why.into_iter().collect()),
    };
    let sides: Vec<(&'static Compare, &'static str)> =
        of.sides.iter().filter_map(|side| Some((side, chosen(side, numbers)?))).collect();
    let mut lines: Vec<Line> = rows.iter().map(|row| line(of, &sides, columns, row, numbers)).collect();
    let rank = |line: &Line| {
        let first = line.said.first();
        let state = first.map_or(4, |said| order(said.state));
        (state, -first.and_then(|said| said.share).unwrap_or(0.0))
    };
    lines.sort_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    let drawn = html! {
        <>
            <p class="chart-summary" id={format!("{id}-summary")}>{ sentence(&sides, &lines, numbers) }</p>
            if sides.len() > 1 {
                <ul class="result-key">
                    { for sides.iter().enumerate().map(|(index, (_, name))| html! {
                        <li><svg aria-hidden="true">{ shape(index, "50%".to_owned(), false, true) }</svg>{ *name }</li>
                    }) }
                </ul>
            }
            { scale() }
            <ul class="results">
                { for lines.iter().map(|line| drawn_line(line, &sides)) }
                { for untested(&sides, numbers) }
            </ul>
        </>
    };
    (drawn, Vec::new())
}

/// Worst first.
fn order(state: State) -> u8 {
    match state {
        State::NotMet => 0,
        State::NotKnown => 1,
        State::Marginal => 2,
        State::Met => 3,
        State::DoesNotApply => 4,
    }
}

/// The name of the set, where one was chosen.
fn chosen(side: &Compare, numbers: &Numbers) -> Option<&'static str> {
    let index = numbers.sheet.output(side.set)?;
    match numbers.judged.assessment.answers.get(index)? {
        Answer::Choice(named) => Some(say(named.name)),
        _ => None,
    }
}

fn line<'a>(
    of: &'static Compared,
    sides: &[(&'static Compare, &'static str)],
    columns: &'static [Field],
    row: &'a [Answer],
    numbers: &Numbers,
) -> Line<'a> {
    let cell = |id: &str| {
        let place = columns.iter().position(|column| column.id == id)?;
        Some((&columns[place], row.get(place)?))
    };
    let words = |id: &str| match cell(id) {
        Some((field, Answer::Number(si, kind))) => Some(shown::answer(field, *si, kind, numbers.set)),
        Some((field, Answer::Below(si, kind))) => {
            Some(format!("<{}", shown::answer(field, *si, kind, numbers.set)))
        }
        Some((_, Answer::Choice(named))) => Some(say(named.name).to_owned()),
        _ => None,
    };
    let said = |(side, _): &(&'static Compare, &'static str)| {
        let share = match cell(side.share) {
            Some((_, Answer::Number(si, _))) => Some(*si),
            _ => None,
        };
        let verdict = match cell(side.verdict) {
            Some((_, Answer::Choice(named))) => Some(*named),
            _ => None,
        };
        let state = verdict.and_then(|named| of.states.iter().find(|(id, _)| *id == named.id));
        Said {
            limit: words(side.limit),
            share,
            state: state.map_or(State::NotKnown, |(_, state)| *state),
            verdict: verdict.map_or("", |named| say(named.name)),
        }
    };
    Line {
        name: words(of.name).unwrap_or_default(),
        result: words(of.value).unwrap_or_default(),
        is_below: matches!(cell(of.value), Some((_, Answer::Below(..)))),
        said: sides.iter().map(said).collect(),
    }
}

/// How many are in which state by each set, and how many were not tested.
fn sentence(sides: &[(&'static Compare, &'static str)], lines: &[Line], numbers: &Numbers) -> String {
    let of_side = |(index, (side, name)): (usize, &(&'static Compare, &'static str))| {
        let count = |state: State| lines.iter().filter(|line| line.said[index].state == state).count();
        let counts =
            [State::NotMet, State::NotKnown, State::Met].map(|state| (count(state), say(state.words())));
        let untested = numbers.rows(side.untested).map_or(0, |(_, rows)| rows.len());
        let counts = counts.into_iter().chain([(untested, WORDS.figure.not_tested)]);
        let counts: Vec<String> = counts
            .filter(|(count, _)| *count > 0)
            .map(|(count, words)| fill(WORDS.counted, &[("count", &count.to_string()), ("state", words)]))
            .collect();
        let counts = if counts.is_empty() { WORDS.figure.no_limits.to_owned() } else { counts.join(", ") };
        alone(&format!("{name}: {counts}"))
    };
    sides.iter().enumerate().map(of_side).collect::<Vec<_>>().join(" ")
}

fn drawn_line(line: &Line, sides: &[(&'static Compare, &'static str)]) -> Html {
    let first = line.said.first();
    let state = first.map_or(State::NotKnown, |said| said.state);
    html! {
        <li data-state={state.id()}>
            <div class="result-text">
                <span class="result-name">{ mark(state) }{ &line.name }{ " " }<strong>{ &line.result }</strong></span>
                { for line.said.iter().enumerate().map(|(index, said)| html! {
                    <span class="result-said">
                        if sides.len() > 1 { <svg class="result-sign" aria-hidden="true">{ shape(index, "50%".to_owned(), false, said.state == State::NotMet) }</svg> }
                        { says(said, line.is_below) }
                    </span>
                }) }
            </div>
            <svg class="result-drawing" aria-hidden="true" focusable="false">
                { rulings() }
                { for line.said.iter().enumerate().filter_map(|(index, said)| {
                    Some(shape(index, at(said.share?), line.is_below, said.state == State::NotMet))
                }) }
            </svg>
        </li>
    }
}

/// The verdict, the limit, and the result over it.
fn says(said: &Said, is_below: bool) -> String {
    let limit = said.limit.as_ref().map(|limit| fill(WORDS.figure.limit_of, &[("limit", limit)]));
    let share = said.share.map(|share| {
        let share = percent(share);
        let share = if is_below { format!("<{share}") } else { share };
        fill(WORDS.figure.share_of_limit, &[("share", &share)])
    });
    let parts = [Some(capital(said.verdict)), limit, share];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// Powers of ten, and the limit.
fn rulings() -> Html {
    html! {
        <>
            <rect class="result-over" x={at(1.0)} y="0" width={format!("{:.2}%", 100.0 - place(1.0))} height="100%" />
            { for [0.01, 0.1, 10.0].map(|share| html! {
                <line class="chart-grid" x1={at(share)} x2={at(share)} y1="0" y2="100%" />
            }) }
            <line class="result-wire" x1="0" x2="100%" y1="50%" y2="50%" />
            <line class="bar-limit" x1={at(1.0)} x2={at(1.0)} y1="0" y2="100%" />
        </>
    }
}

fn scale() -> Html {
    let label = |share: f64, anchor: &'static str| {
        html! { <text x={at(share)} y="75%" text-anchor={anchor}>{ format!("{:.0}\u{a0}%", 100.0 * share) }</text> }
    };
    html! {
        <svg class="bar-scale result-scale" aria-hidden="true" focusable="false">
            { label(0.01, "start") }
            { label(0.1, "middle") }
            <text x={at(1.0)} y="75%" text-anchor="middle" class="bar-limit-word">{ WORDS.figure.limit }</text>
            { label(10.0, "end") }
        </svg>
    }
}

/// The mark of a set; what is less than a reporting limit has an arrow to the left.
fn shape(index: usize, x: String, is_below: bool, is_full: bool) -> Html {
    let class = if is_full { "result-mark result-full" } else { "result-mark" };
    let kind = SYMBOLS[index % SYMBOLS.len()];
    html! {
        <svg class="result-at" {x} y="50%">
            if is_below { <path class="result-less" d="M0 0H-20M-14 -5L-20 0L-14 5" /> }
            <path {class} d={symbol(kind, 0.0, 0.0, SIZE)} />
        </svg>
    }
}

/// What a set limits and nobody tested, each once, with the limits of the sets that name it.
fn untested(sides: &[(&'static Compare, &'static str)], numbers: &Numbers) -> Vec<Html> {
    let mut names: Vec<(String, Vec<(usize, String)>)> = Vec::new();
    for (index, (side, _)) in sides.iter().enumerate() {
        let Ok((columns, rows)) = numbers.rows(side.untested) else { continue };
        for row in rows {
            let [Answer::Choice(name), Answer::Number(si, kind)] = row.as_slice() else { continue };
            let limit = shown::answer(&columns[1], *si, kind, numbers.set);
            match names.iter_mut().find(|(known, _)| *known == say(name.name)) {
                Some((_, limits)) => limits.push((index, limit)),
                None => names.push((say(name.name).to_owned(), vec![(index, limit)])),
            }
        }
    }
    if names.is_empty() {
        return Vec::new();
    }
    let head = counted(WORDS.figure.untested, names.len());
    let lines = names.iter().map(|(name, limits)| {
        let limits = limits.iter().map(|(index, limit)| html! {
            <span class="result-limit">
                if sides.len() > 1 { <svg class="result-sign" aria-hidden="true">{ shape(*index, "50%".to_owned(), false, false) }</svg> }
                { fill(WORDS.figure.limit_of, &[("limit", limit)]) }
            </span>
        });
        html! { <li><span>{ name }</span>{ for limits }</li> }
    });
    vec![html! {
        <li class={if sides.len() > 1 { "untested untested-by-two" } else { "untested" }} data-state={State::NotKnown.id()}>
            <p class="result-name">{ mark(State::NotKnown) }<strong>{ head }</strong></p>
            <ul>{ for lines }</ul>
        </li>
    }]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_power_of_ten_is_as_wide() {
        for (share, at) in [(0.01, 0.0), (0.1, 100.0 / 3.0), (1.0, 200.0 / 3.0), (10.0, 100.0)] {
            assert!((place(share) - at).abs() < 1e-9, "{share}");
        }
        assert_eq!((place(0.0), place(1e-9), place(1e9)), (0.0, 0.0, 100.0), "beyond its ends");
    }
}
