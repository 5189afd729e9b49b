//! Every check as a bar against its limit, worst first, so that the worst is seen before anything is read.
//!
//! State is told by word, mark, and the filling of the bar: full, half or open, with a colour for each. Each bar has its numbers
//! in words and leads to the check; what has no number is named without a bar.

use super::bar::{Bar, LIMIT, bar, margin_at_the_end};
use crate::page::still::Still;
use crate::sheet::checks::{self, limit, margin, short, value, waits_for};
use crate::sheet::judge::Judged;
use crate::sheet::mark::mark;
use crate::sheet::shown::percent;
use crate::text::{WORDS, alone, capital, counted, fill, say};
use calc::engine::calendar::Month;
use calc::engine::quantity::UnitSet;
use calc::engine::sheet::{Check, Declaration, State};
use std::rc::Rc;
use yew::prelude::*;

/// Where there are more bars, those of what is met are folded.
const FEW: usize = 6;

/// What is drawn, and where each bar leads.
#[derive(Properties, Clone)]
pub struct BarsProps {
    /// The checks.
    pub judged: Rc<Judged>,
    /// Whose.
    pub sheet: Still<Declaration>,
    /// The units of the page.
    pub set: UnitSet,
    /// The id of the element to which the bar of a check leads.
    pub leads_to: fn(&Check) -> String,
}

impl PartialEq for BarsProps {
    fn eq(&self, other: &Self) -> bool {
        // where a bar leads does not change while a view stands
        Rc::ptr_eq(&self.judged, &other.judged) && self.sheet == other.sheet && self.set == other.set
    }
}

/// The figure; nothing where no check has a number.
#[component]
pub fn BarsView(props: &BarsProps) -> Html {
    let open = use_state_eq(|| false);
    let ontoggle = {
        let open = open.setter();
        Callback::from(move |event: Event| {
            open.set(event.target_unchecked_into::<web_sys::HtmlDetailsElement>().open());
        })
    };
    let BarsProps { judged, sheet, set, leads_to } = props;
    let of = Bars { judged, sheet: sheet.0, set: *set, leads_to: *leads_to };
    of.draw(*open, ontoggle)
}

struct Bars<'a> {
    judged: &'a Judged,
    sheet: &'static Declaration,
    set: UnitSet,
    leads_to: fn(&Check) -> String,
}

/// One bar, standing for one check or for all months of one criterion.
struct Drawn<'a> {
    check: &'a Check,
    months: usize,
}

impl Bars<'_> {
    fn draw(&self, with_table: bool, ontoggle: Callback<Event>) -> Html {
        let asked = self.judged.assessment.checks.iter();
        let asked: Vec<&Check> =
            asked.filter(|check| waits_for(check, self.judged, self.sheet).is_none()).collect();
        if asked.iter().all(|check| bar(check) == Bar::Nothing) {
            return Html::default();
        }
        let drawn = by_criterion(&asked);
        let of = |state: State| drawn.iter().filter(|one| one.check.state == state).collect::<Vec<_>>();
        let few = drawn.iter().filter(|one| bar(one.check) != Bar::Nothing).count() <= FEW;
        html! {
            <figure class="bars" id="bars">
                <figcaption>{ WORDS.figure.bars }</figcaption>
                <p class="chart-summary" id="bars-summary">{ summary(&asked) }</p>
                { scale() }
                { self.group(State::NotMet, &of(State::NotMet), false) }
                { self.named(State::NotKnown, &of(State::NotKnown)) }
                { self.group(State::Marginal, &of(State::Marginal), false) }
                { self.group(State::Met, &of(State::Met), !few) }
                { self.named(State::DoesNotApply, &of(State::DoesNotApply)) }
                <details class="chart-table" id="bars-table" {ontoggle}>
                    <summary>{ WORDS.chart.table }</summary>
                    if with_table { { self.table(&asked) } }
                </details>
            </figure>
        }
    }

    fn group(&self, state: State, drawn: &[&Drawn], is_folded: bool) -> Html {
        if drawn.is_empty() {
            return Html::default();
        }
        let head = html! { <>{ mark(state) }<span>{ head(state, drawn) }</span></> };
        let is_side = |one: &&Drawn| matches!(bar(one.check), Bar::Side { .. });
        let rows = html! {
            <>
                <ul>{ for drawn.iter().map(|one| self.row(one)) }</ul>
                if drawn.iter().any(is_side) { <p class="bar-named">{ WORDS.figure.side_only }</p> }
            </>
        };
        if is_folded {
            html! { <details class="bar-group" data-state={state.id()}><summary>{ head }</summary>{ rows }</details> }
        } else {
            html! { <div class="bar-group" data-state={state.id()}><p class="bar-head">{ head }</p>{ rows }</div> }
        }
    }

    fn row(&self, one: &Drawn) -> Html {
        let check = one.check;
        html! {
            <li>
                <a class="bar-text" href={format!("#{}", (self.leads_to)(check))}>
                    <span class="bar-name">{ self.name(one) }</span>
                    <span class="unseen">{ ", " }{ say(check.state.words()) }{ ". " }</span>
                    <span class="bar-numbers">
                        <span>{ short(check, self.set) }</span>
                        if bar(check) != Bar::Nothing { { " " }<strong>{ spare(check, self.set) }</strong> }
                    </span>
                </a>
                { drawing(check) }
            </li>
        }
    }

    /// What is asked, and which of several it is.
    fn name(&self, one: &Drawn) -> String {
        let place = checks::when(one.check);
        let name = say(one.check.criterion.sentence);
        let name = if place.is_empty() { name.to_owned() } else { format!("{name} · {place}") };
        let months = one.months.to_string();
        match (one.months, is_month(one.check)) {
            (0, _) | (1, true) => name,
            (_, true) => format!("{name} ({})", fill(WORDS.figure.worst_month, &[("count", &months)])),
            (count, false) => format!("{name} ({})", counted(WORDS.figure.and_months, count)),
        }
    }

    /// Checks without a number, in one line.
    fn named(&self, state: State, drawn: &[&Drawn]) -> Html {
        if drawn.is_empty() {
            return Html::default();
        }
        let mut names: Vec<&str> = Vec::new();
        for one in drawn {
            if !names.contains(&say(one.check.criterion.sentence)) {
                names.push(say(one.check.criterion.sentence));
            }
        }
        html! {
            <div class="bar-group" data-state={state.id()}>
                <p class="bar-head">{ mark(state) }<span>{ head(state, drawn) }</span></p>
                <p class="bar-named">{ alone(&names.join("; ")) }</p>
            </div>
        }
    }

    fn table(&self, asked: &[&Check]) -> Html {
        let words = &WORDS.section;
        let heads = [
            words.check_head,
            words.state_head,
            words.value_head,
            words.limit_head,
            WORDS.figure.margin_head,
        ];
        html! {
            <section class="table-region" tabindex="0" aria-label={fill(WORDS.table_of, &[("name", WORDS.figure.bars)])}>
                <table>
                    <thead><tr>{ for heads.map(|head| html! { <th scope="col">{ head }</th> }) }</tr></thead>
                    <tbody>
                        { for asked.iter().map(|check| html! {
                            <tr>
                                <th scope="row">{ self.name(&Drawn { check, months: 0 }) }</th>
                                <td>{ say(check.state.words()) }</td>
                                <td>{ value(check, self.set) }</td>
                                <td>{ limit(check, self.set) }</td>
                                <td>{ if bar(check) == Bar::Nothing { String::new() } else { margin(check, self.set) } }</td>
                            </tr>
                        }) }
                    </tbody>
                </table>
            </section>
        }
    }
}

fn is_month(check: &Check) -> bool {
    Month::NAMED.contains(&check.case)
}

/// One bar each, but for the months of a criterion in one state: where another check stands for them they are counted with it,
/// otherwise the worst of them stands for all.
fn by_criterion<'a>(checks: &[&'a Check]) -> Vec<Drawn<'a>> {
    let mut drawn: Vec<Drawn> = Vec::new();
    let months = checks.iter().filter(|check| is_month(check));
    for check in checks.iter().filter(|check| !is_month(check)).chain(months) {
        let month = usize::from(is_month(check));
        let same = |one: &&mut Drawn| {
            let of = one.check;
            month > 0 && of.criterion.id == check.criterion.id && of.state == check.state
        };
        match drawn.iter_mut().find(same) {
            Some(one) => one.months += month,
            None => drawn.push(Drawn { check, months: month }),
        }
    }
    drawn.sort_by(|a, b| a.check.worse(b.check));
    drawn
}

fn head(state: State, drawn: &[&Drawn]) -> String {
    let count: usize = drawn.iter().map(|one| one.months + usize::from(!is_month(one.check))).sum();
    format!("{} ({count})", capital(say(state.words())))
}

/// How far apart value and limit are: as a share of the limit, or where that is no share, as the distance.
fn spare(check: &Check, set: UnitSet) -> String {
    let Some(share) = check.margin().filter(|share| *share != 0.0) else { return margin(check, set) };
    let [short, over] = WORDS.figure.short_by;
    let template = match (check.state, check.criterion.side.is_least()) {
        (State::NotMet, true) => short,
        (State::NotMet, false) => over,
        _ => WORDS.figure.to_spare,
    };
    fill(template, &[("share", &percent(share.abs()))])
}

/// How many are in each state.
fn summary(checks: &[&Check]) -> String {
    let states = [State::NotMet, State::NotKnown, State::Marginal, State::Met, State::DoesNotApply];
    let counts =
        states.map(|state| (checks.iter().filter(|check| check.state == state).count(), say(state.words())));
    let counts = counts.iter().filter(|(count, _)| *count > 0);
    let counts: Vec<String> = counts
        .map(|(count, words)| fill(WORDS.counted, &[("count", &count.to_string()), ("state", words)]))
        .collect();
    format!("{} {}", alone(&counts.join(", ")), WORDS.figure.reading)
}

/// A share of the width as an attribute.
fn per_cent(share: f64) -> String {
    format!("{:.2}%", 100.0 * share)
}

/// What the two ends and the line mean.
fn scale() -> Html {
    let past = fill(WORDS.figure.past, &[("share", &percent(-margin_at_the_end()))]);
    html! {
        <svg class="bar-scale" aria-hidden="true">
            <text x="0" y="75%">{ WORDS.figure.spare }</text>
            <text x={per_cent(LIMIT)} y="75%" text-anchor="middle" class="bar-limit-word">{ WORDS.figure.limit }</text>
            <text x="100%" y="75%" text-anchor="end">{ past }</text>
        </svg>
    }
}

/// The bar of a check on the scale; the numbers stand beside it in words.
pub fn drawing(check: &Check) -> Html {
    let inner = match bar(check) {
        Bar::Nothing => return Html::default(),
        Bar::Side { is_wrong } => {
            let x = if is_wrong { LIMIT } else { LIMIT - SIDE };
            html! { <rect class="bar-side" x={per_cent(x)} y="20%" width={per_cent(SIDE)} height="60%" /> }
        }
        Bar::To { end, breaks_off, interval } => {
            let end = per_cent(end);
            html! {
                <>
                    <rect class="bar-fill" x="0" y="15%" width={end.clone()} height="70%" />
                    // half full, as the mark of what is marginal is
                    if check.state == State::Marginal {
                        <rect class="bar-half" x="0" y="50%" width={end} height="35%" />
                    }
                    if breaks_off {
                        <svg class="bar-break" x="95%"><path d="M-8 22L0 -4M-1 22L7 -4" /></svg>
                    }
                    if let Some((low, high)) = interval {
                        <line class="bar-interval" x1={per_cent(low)} x2={per_cent(high)} y1="50%" y2="50%" />
                    }
                </>
            }
        }
    };
    html! {
        <svg class="bar-drawing" data-state={check.state.id()} aria-hidden="true" focusable="false">
            <rect class="bar-track" x="0" y="15%" width={per_cent(LIMIT)} height="70%" />
            { inner }
            <line class="bar-halo" x1={per_cent(LIMIT)} x2={per_cent(LIMIT)} y1="0" y2="100%" />
            <line class="bar-limit" x1={per_cent(LIMIT)} x2={per_cent(LIMIT)} y1="0" y2="100%" />
        </svg>
    }
}

/// The breadth of a side of which no more is known.
const SIDE: f64 = 0.06;
