//! A path: the flow from spot to spot as a pipe of its width, with what is known at each.
//!
//! The list of spots is the figure itself: each number in it is text, so that it is read aloud and printed as it is seen.

use super::read::Numbers;
use super::tool::{tool, tool_words};
use crate::page::field_link::field_link;
use crate::page::ids;
use crate::sheet::checks::waits_for;
use crate::sheet::mark::mark;
use crate::sheet::verdict;
use crate::text::{WORDS, alone, capital, fill, say};
use calc::engine::sheet::{Check, Read, Shown, Spot, Tool};
use yew::prelude::*;

/// The narrowest and the widest pipe, in hundredths of its room.
const WIDTHS: (f64, f64) = (10.0, 92.0);

/// How wide the pipe is at each spot; none where the flow is not known.
pub fn widths(flows: &[Option<f64>]) -> Vec<Option<f64>> {
    let most = flows.iter().flatten().copied().fold(0.0, f64::max);
    let (low, high) = WIDTHS;
    let width = |flow: f64| if most > 0.0 { (high * flow / most).clamp(low, high) } else { low };
    flows.iter().map(|flow| flow.map(width)).collect()
}

/// The number of one of the cases.
fn of_case(shown: &[Shown], case: usize) -> Shown {
    shown.get(case).or(shown.first()).copied().unwrap_or(Shown::ByTest)
}

/// The flow at each spot in words, spots of the same flow together.
pub fn sentence(spots: &'static [Spot], numbers: &Numbers, case: usize) -> String {
    let mut said: Vec<(&'static Spot, &'static Spot, Option<String>)> = Vec::new();
    for spot in spots {
        let flow = numbers.words(of_case(spot.flow, case));
        match said.last_mut() {
            Some((_, last, same)) if *same == flow => *last = spot,
            _ => said.push((spot, spot, flow)),
        }
    }
    let one = |(first, last, flow): &(&'static Spot, &'static Spot, Option<String>)| {
        let flow = flow.as_deref().unwrap_or(WORDS.not_known);
        if first.stage == last.stage {
            format!("{} {flow}", say(first.name))
        } else {
            let places = [("first", say(first.name)), ("last", say(last.name)), ("flow", flow)];
            fill(WORDS.figure.from_to, &places)
        }
    };
    alone(&said.iter().map(one).collect::<Vec<_>>().join("; "))
}

/// What stands at each spot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum At {
    /// What is known there.
    #[default]
    Numbers,
    /// The same, each spot leading to its checks on the same view.
    NumbersAndChecks,
    /// What is read there, each leading to its field on the same view.
    Readings,
}

/// All spots.
pub fn path(spots: &'static [Spot], numbers: &Numbers, case: usize, at: At) -> Html {
    let flows: Vec<Option<f64>> =
        spots.iter().map(|spot| numbers.number(of_case(spot.flow, case)).ok().map(|(si, _)| si)).collect();
    let widths = widths(&flows);
    html! {
        <ol class="way">
            { for spots.iter().zip(widths).map(|(spot, width)| self::spot(spot, width, numbers, case, at)) }
        </ol>
    }
}

fn spot(spot: &'static Spot, width: Option<f64>, numbers: &Numbers, case: usize, at: At) -> Html {
    if at == At::Readings {
        return to_read(spot, width, numbers);
    }
    let of_spot = |check: &&Check| check.criterion.stage == spot.stage;
    let all = || numbers.judged.assessment.checks.iter().filter(of_spot);
    let waits = |check: &&Check| waits_for(check, numbers.judged, numbers.sheet).is_some();
    let (worst, is_part) = (all().find(|check| !waits(check)), all().any(|check| waits(&check)));
    let state = match worst {
        Some(worst) => capital(&verdict::state(worst.state, is_part)),
        None if is_part => WORDS.section.not_checked_yet.to_owned(),
        None => String::new(),
    };
    let name = html! {
        <>
            if let Some(worst) = worst { { mark(worst.state) } }
            <span class="spot-name">{ say(spot.name) }</span>
        </>
    };
    let flow = numbers.words(of_case(spot.flow, case));
    html! {
        <li class="spot" data-state={worst.map(|check| check.state.id())}>
            { pipe(width) }
            <div class="spot-body">
                if at == At::NumbersAndChecks {
                    <a class="spot-head" href={format!("#{}", ids::stage_line(spot.stage.id()))}>{ name }</a>
                } else {
                    <span class="spot-head">{ name }</span>
                }
                <dl>
                    if !state.is_empty() { <div><dt>{ WORDS.figure.state }</dt><dd>{ state }</dd></div> }
                    { line(WORDS.figure.flow, flow, Shown::Answered("")) }
                    { for spot.shows.iter().map(|(name, shown)| {
                        let shown = of_case(shown, case);
                        line(say(name), numbers.words(shown), shown)
                    }) }
                </dl>
                { port(spot) }
            </div>
        </li>
    }
}

/// What is read at the spot, by tool: what was entered, or that it is still to be read.
fn to_read(spot: &'static Spot, width: Option<f64>, numbers: &Numbers) -> Html {
    let field = |read: &Read| numbers.sheet.inputs.iter().find(|field| field.id == read.field);
    html! {
        <li class="spot">
            { pipe(width) }
            <div class="spot-body">
                <span class="spot-head"><span class="spot-name">{ say(spot.name) }</span></span>
                <ul class="to-read">
                    { for spot.reads.iter().filter_map(|read| Some((read, field(read)?))).map(|(read, field)| html! {
                        <li>
                            { tool(read.tool) }<span class="unseen">{ tool_words(read.tool) }{ ": " }</span>
                            { field_link(numbers.sheet.id, field.id, say(field.term.name)) }
                            <span class="read-so-far">
                                { numbers.words(Shown::Entered(read.field)).unwrap_or_else(|| WORDS.figure.to_be_read.to_owned()) }
                            </span>
                        </li>
                    }) }
                    { for by_test(spot).map(|name| html! {
                        <li>
                            { tool(Tool::Sample) }<span class="unseen">{ tool_words(Tool::Sample) }{ ": " }</span>
                            <span>{ say(name) }</span>
                            <span class="read-so-far">{ WORDS.section.by_test }</span>
                        </li>
                    }) }
                </ul>
            </div>
        </li>
    }
}

/// What only a test at the spot can tell.
fn by_test(spot: &'static Spot) -> impl Iterator<Item = &'static str> {
    spot.shows.iter().filter(|(_, shown)| shown.contains(&Shown::ByTest)).map(|(name, _)| *name)
}

/// The sample port of a spot.
fn port(spot: &'static Spot) -> Html {
    let is_sampled =
        spot.reads.iter().any(|read| read.tool == Tool::Sample) || by_test(spot).next().is_some();
    if is_sampled {
        html! { <p class="port">{ tool(Tool::Sample) }{ WORDS.figure.port }</p> }
    } else {
        Html::default()
    }
}

fn line(name: &'static str, said: Option<String>, shown: Shown) -> Html {
    let value = match (said, shown) {
        (Some(said), _) => html! { <strong>{ said }</strong> },
        (None, Shown::ByTest) => html! { <span class="missing">{ WORDS.section.by_test }</span> },
        (None, _) => html! { <span class="missing">{ WORDS.not_known }</span> },
    };
    html! { <div><dt>{ name }</dt><dd>{ value }</dd></div> }
}

/// A stretch of the pipe, once for a path that runs down and once for one that runs along: the style sheet shows one of them.
fn pipe(width: Option<f64>) -> Html {
    let (class, width) = width.map_or(("pipe pipe-unknown", WIDTHS.0), |width| ("pipe", width));
    let (from, width) = (format!("{:.1}%", 50.0 - width / 2.0), format!("{width:.1}%"));
    html! {
        <svg {class} aria-hidden="true" focusable="false">
            <rect class="pipe-down" x={from.clone()} y="-10" width={width.clone()} height="200%" />
            <rect class="pipe-along" x="-10" y={from} width="200%" height={width} />
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_widest_pipe_has_the_most_flow_and_none_is_too_thin_to_see() {
        let of = |flows: &[Option<f64>]| widths(flows);
        assert_eq!(of(&[Some(2.0), Some(1.0), None, Some(1e-9)]), [Some(92.0), Some(46.0), None, Some(10.0)]);
        assert_eq!(of(&[Some(0.0), None]), [Some(10.0), None]);
        assert_eq!(of(&[None, None]), [None, None]);
        assert_eq!(of(&[Some(1.0), Some(50.0)]), [Some(10.0), Some(92.0)]);
    }
}
