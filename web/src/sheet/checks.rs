//! The checks of a sheet, worst first.

use super::judge::Judged;
use super::mark::mark;
use super::missing::what_is_needed;
use super::shown;
use super::verdict::enter;
use crate::figure::bars::BarsView;
use crate::page::still::Still;
use crate::text::{WORDS, alone, called, capital, fill, say, tell};
use calc::engine::quantity::UnitSet;
use calc::engine::reason;
use calc::engine::sheet::criterion::COVERAGE;
use calc::engine::sheet::{Absence, Check, Declaration, Side, Stage, State};
use calc::trade::plan::walk::is_in_detail;
use std::rc::Rc;
use yew::prelude::*;

/// All checks.
pub fn checks(judged: &Rc<Judged>, sheet: &'static Declaration, set: UnitSet) -> Html {
    if judged.assessment.checks.is_empty() {
        return Html::default();
    }
    html! {
        <section aria-labelledby="checks">
            <h3 id="checks">{ WORDS.checks }</h3>
            <BarsView judged={Rc::clone(judged)} sheet={Still(sheet)} {set} leads_to={element as fn(&Check) -> String} />
            { list(&judged.assessment.checks, judged, sheet, set) }
        </section>
    }
}

/// The id of the element of a check.
fn element(check: &Check) -> String {
    format!("check-{}", check.id())
}

/// The same without its heading; what nobody has asked about stands under it in one line.
pub fn list(checks: &[Check], judged: &Judged, sheet: &'static Declaration, set: UnitSet) -> Html {
    let (waiting, checked): (Vec<&Check>, Vec<&Check>) =
        checks.iter().partition(|check| waits_for(check, judged, sheet).is_some());
    html! {
        <>
            <ul class="checks">
                { for checked.iter().map(|check| html! {
                    <CheckLine key={check.id()} check={Judgement((*check).clone())} declaration={Still(sheet)} {set} />
                }) }
            </ul>
            { not_checked(&waiting, judged, sheet) }
        </>
    }
}

/// The field for which a check waits, since nobody has filled it. What was entered and cannot be read is not waited for: it
/// is to be fixed. Of the plan, what one walk to the tap gives is asked of everybody: without it a check is not known.
pub fn waits_for(check: &Check, judged: &Judged, sheet: &'static Declaration) -> Option<&'static str> {
    let field = check.missing.filter(|_| check.state == State::NotKnown)?.field;
    let is_empty = judged.values.get(sheet.input(field)?)?.is_none();
    let is_asked = sheet.stage == Stage::Plan && !is_in_detail(field);
    (is_empty && !is_asked).then_some(field)
}

/// The fields that a sheet cannot do without and those for which checks wait, as far as they are empty; in their order.
pub fn missing_fields(judged: &Judged, sheet: &'static Declaration) -> Vec<&'static str> {
    let waited: Vec<&str> =
        judged.assessment.checks.iter().filter_map(|check| waits_for(check, judged, sheet)).collect();
    let inputs = sheet.inputs.iter().zip(judged.values.iter());
    let empty =
        inputs.filter(|(field, value)| value.is_none() && (field.needed || waited.contains(&field.id)));
    empty.map(|(field, _)| field.id).collect()
}

fn not_checked(waiting: &[&Check], judged: &Judged, sheet: &'static Declaration) -> Html {
    if waiting.is_empty() {
        return Html::default();
    }
    let mut asked: Vec<&str> = Vec::new();
    for check in waiting {
        if !asked.contains(&say(check.criterion.sentence)) {
            asked.push(say(check.criterion.sentence));
        }
    }
    let fields: Vec<&str> = waiting.iter().filter_map(|check| waits_for(check, judged, sheet)).collect();
    html! {
        <p class="not-checked">
            <strong>{ WORDS.section.not_checked_yet }{ ":" }</strong>{ " " }{ alone(&asked.join("; ")) }{ " " }
            { enter(&fields, sheet) }
        </p>
    }
}

/// A check as a property: the same while nothing on the screen would change.
#[derive(Clone)]
struct Judgement(Check);

impl PartialEq for Judgement {
    fn eq(&self, other: &Self) -> bool {
        let (a, b) = (&self.0, &other.0);
        let same = |a: f64, b: f64| a == b || (a.is_nan() && b.is_nan());
        a.is_same(b)
            && a.season == b.season
            && a.state == b.state
            && same(a.value, b.value)
            && same(a.limit, b.limit)
            && a.missing == b.missing
            && a.instead.map(|criterion| criterion.id) == b.instead.map(|criterion| criterion.id)
            && a.uncertainty == b.uncertainty
    }
}

#[derive(Properties, PartialEq, Clone)]
struct CheckProps {
    check: Judgement,
    declaration: Still<Declaration>,
    set: UnitSet,
}

/// One check: the state in words and as a shape, what was asked, the numbers, who asks it.
#[component]
fn CheckLine(props: &CheckProps) -> Html {
    let check = &props.check.0;
    let criterion = check.criterion;
    let source = criterion.source;
    html! {
        <li class="check" id={element(check)} data-state={check.state.id()}>
            { mark(check.state) }
            <div class="check-body">
                <p class="check-head">
                    <strong class="state">{ capital(say(check.state.words())) }</strong>
                    <span class="check-case">{ place(check) }</span>
                </p>
                <p class="check-asks">{ say(criterion.sentence) }</p>
                { numbers(check, props.declaration.0, props.set) }
                <p class="source">{ WORDS.source }{ " " }{ short_name(called(source)) }</p>
            </div>
        </li>
    }
}

/// The beginning of a title: the rule's number or the name by which the trade knows it. The whole title, with how well it is
/// known, stands in the list of sources.
pub fn short_name(title: &'static str) -> &'static str {
    let end = [", ", ": ", "; "].iter().filter_map(|mark| title.find(mark)).min();
    end.map_or(title, |end| &title[..end])
}

/// The stage, and of several judgements which, and at which time of the year.
pub fn place(check: &Check) -> String {
    let words = [say(check.criterion.stage.name()).to_owned(), when(check)];
    words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Of several judgements which, and at which time of the year.
pub fn when(check: &Check) -> String {
    let words = [say(check.case.name), say(check.season.name)];
    words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
}

/// What a check asks, and which of several judgements it is.
pub fn in_words(check: &Check) -> String {
    format!("{} ({})", say(check.criterion.sentence), place(check))
}

/// Value and limit on one line, or why there are none.
pub fn short(check: &Check, set: UnitSet) -> String {
    if let Some(whatever) = reason::whatever(check) {
        return tell(&whatever, set);
    }
    match check.state {
        // answered by yes or no
        State::NotMet | State::Met if is_answered(check) => String::new(),
        State::NotMet if never(check).is_some() => never(check).unwrap_or_default().to_owned(),
        State::NotMet | State::Marginal | State::Met => {
            fill(WORDS.section.line_numbers, &[("value", &value(check, set)), ("limit", &limit(check, set))])
        }
        State::NotKnown => match &check.missing {
            Some(missing) if missing.absence == Absence::Empty => {
                fill(WORDS.section.line_needs, &[("why", say(missing.why))])
            }
            Some(missing) => say(missing.why).to_owned(),
            None => String::new(),
        },
        State::DoesNotApply => {
            check.instead.map_or_else(String::new, |instead| say(instead.sentence).to_owned())
        }
    }
}

/// The numbers of a check, or what would have to be known.
pub fn numbers(check: &Check, declaration: &'static Declaration, set: UnitSet) -> Html {
    if let Some(whatever) = reason::whatever(check) {
        return html! { <p>{ tell(&whatever, set) }</p> };
    }
    match check.state {
        State::DoesNotApply => match check.instead {
            Some(instead) => {
                html! { <p>{ fill(WORDS.instead, &[("criterion", say(instead.sentence))]) }</p> }
            }
            None => Html::default(),
        },
        State::NotKnown => match &check.missing {
            Some(why) => html! { <p>{ what_is_needed(why, declaration) }</p> },
            None => Html::default(),
        },
        State::NotMet | State::Met if is_answered(check) => Html::default(),
        State::NotMet if never(check).is_some() => html! {
            <p>{ never(check) }{ " " }<span class="asked">{ fill(WORDS.asked, &[("limit", &limit(check, set))]) }</span></p>
        },
        State::NotMet | State::Marginal | State::Met => judged(check, set),
    }
}

/// Whether yes or no is all that there is to say.
pub fn is_answered(check: &Check) -> bool {
    check.criterion.side == Side::Answered
}

/// Why the number that is judged does not exist, where that is what is wrong.
fn never(check: &Check) -> Option<&'static str> {
    check.missing.filter(|_| check.state == State::NotMet).map(|missing| say(missing.why))
}

/// The number that was judged, as it was reported; empty where it is not known.
pub fn value(check: &Check, set: UnitSet) -> String {
    if !check.value.is_finite() {
        return String::new();
    }
    let unit = check.kind.unit_in(set);
    // a reading stands as it was typed: 0.12, not 0.120
    let number = if check.criterion.forecast {
        shown::quantity(check.value, unit)
    } else {
        shown::stated(check.value, unit)
    };
    if check.below { format!("<{number}") } else { number }
}

/// What is asked, side and number; empty where the number is not known.
pub fn limit(check: &Check, set: UnitSet) -> String {
    if !check.limit.is_finite() {
        return String::new();
    }
    format!("{} {}", say(check.criterion.side.words()), shown::stated(check.limit, check.kind.unit_in(set)))
}

fn judged(check: &Check, set: UnitSet) -> Html {
    let asked = fill(WORDS.asked, &[("limit", &limit(check, set))]);
    html! {
        <>
            <p class="check-numbers">
                <span class="value">{ value(check, set) }</span>
                { " " }<span class="asked">{ asked }</span>
            </p>
            <p class="margin">{ margin(check, set) }</p>
        </>
    }
}

/// How far from the limit, as a share too where the scale has a true zero; of a forecast, how well that is known.
pub fn margin(check: &Check, set: UnitSet) -> String {
    let distance = check.distance();
    let by = shown::difference(distance.abs(), check.kind, set);
    let [short, over] = WORDS.short_by;
    let mut said = match (check.state, check.criterion.side) {
        (_, _) if distance == 0.0 && check.state == State::NotMet => WORDS.at_limit[1].to_owned(),
        (_, _) if distance == 0.0 => WORDS.at_limit[0].to_owned(),
        (State::NotMet, Side::AtLeast | Side::Above) => fill(short, &[("distance", &by)]),
        (State::NotMet, _) => fill(over, &[("distance", &by)]),
        _ => fill(WORDS.to_spare, &[("distance", &by)]),
    };
    if let Some(share) = check.margin().filter(|_| distance != 0.0) {
        said += &format!(" ({})", shown::percent(share.abs()));
    }
    if let Some(uncertainty) = check.uncertainty.filter(|_| check.state == State::Marginal) {
        let unit = check.kind.of_difference().unit_in(set);
        let half = shown::with_unit(shown::half_width(COVERAGE * uncertainty, unit), unit);
        said += &format!(", {}", fill(WORDS.interval, &[("interval", &half)]));
    }
    said
}
