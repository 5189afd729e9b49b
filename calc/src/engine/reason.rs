//! Why a check has its state, and why an answer is missing: one sentence each, for the page, the answers and the print.

use crate::engine::quantity::{UnitSet, show};
use crate::engine::sheet::criterion::COVERAGE;
use crate::engine::sheet::{
    Absence, Check, Declaration, Missing, Sentence, Side, Slot, State, shown_in, with_unit,
};
use crate::program::catalogue;

/// Why a check has its state: the state, the number, what it needs, how far that is.
pub fn of_check(check: &Check, declaration: &'static Declaration) -> Sentence {
    if let Some(whatever) = whatever(check) {
        return Sentence::plain("{criterion}{case}: {state}, {whatever}")
            .asked(check)
            .with("whatever", Slot::Told(Box::new(whatever)));
    }
    match check.state {
        State::DoesNotApply => does_not_apply(check),
        State::NotKnown => not_known(check, declaration),
        State::NotMet if check.missing.is_some() => never(check),
        // there is no number to tell
        State::NotMet | State::Met | State::Marginal if check.criterion.side == Side::Answered => {
            Sentence::plain("{criterion}{case}: {state}").asked(check)
        }
        State::NotMet if check.below => {
            numbers(check, "{criterion}{case}: {state}. {value}, needs {side} {limit}")
        }
        State::Met if check.below => numbers(
            check,
            "{criterion}{case}: {state}. {value}, needs {side} {limit}. The reporting limit shows it",
        ),
        State::NotMet if check.is_at_limit() => numbers(
            check,
            "{criterion}{case}: {state}. {value}, needs {side} {limit}. At the limit, which does not pass",
        ),
        State::Met if check.is_at_limit() => {
            numbers(check, "{criterion}{case}: {state}. {value}, needs {side} {limit}. At the limit")
        }
        State::NotMet if check.criterion.side.is_least() => numbers(
            check,
            "{criterion}{case}: {state}. {value}, needs {side} {limit}. Short by {distance}{share}",
        ),
        State::NotMet => numbers(
            check,
            "{criterion}{case}: {state}. {value}, needs {side} {limit}. Over by {distance}{share}",
        ),
        State::Marginal => {
            let half_width = COVERAGE * check.uncertainty.unwrap_or(0.0);
            let unit = |set| shown_in(check.kind.of_difference(), set);
            let interval = |set| show::significant(half_width / unit(set).factor, 2);
            let template = match check.is_at_limit() {
                true => {
                    "{criterion}{case}: {state}. {value}, needs {side} {limit}. At the limit, known to ± {interval} (95 %)"
                }
                false => {
                    "{criterion}{case}: {state}. {value}, needs {side} {limit}. {distance} spare{share}, known to ± {interval} (95 %)"
                }
            };
            numbers(check, template).with("interval", in_both(interval))
        }
        State::Met => numbers(
            check,
            "{criterion}{case}: {state}. {value}, needs {side} {limit}. {distance} spare{share}",
        ),
    }
}

/// For which empty field every value gives the state of this check, and what was tried.
pub fn whatever(check: &Check) -> Option<Sentence> {
    let field = check.decided?;
    // as engine::decided tries them
    let (low, high) = if check.state == State::NotMet { field.term.plausible } else { field.term.possible };
    let sentence = match field.term.kind {
        Some(kind) => Sentence::plain("whatever “{name}” was ({low} to {high} tried)")
            .with("low", Slot::Given(low, kind))
            .with("high", Slot::Given(high, kind)),
        None => Sentence::plain("whatever “{name}” was"),
    };
    Some(sentence.with("name", Slot::Word(field.term.name)))
}

/// Why there is no answer.
pub fn of_missing(missing: &Missing, declaration: &'static Declaration) -> Sentence {
    match missing.absence {
        Absence::Empty => {
            let name = field_name(missing.field, declaration).unwrap_or(missing.why);
            Sentence::plain("{name} is not entered").with("name", Slot::Word(name))
        }
        Absence::NotKnown | Absence::NoneExists => Sentence::plain(missing.why),
    }
}

/// The numbers of a check: the unit once, behind the value.
fn numbers(check: &Check, template: &'static str) -> Sentence {
    let share = check.margin().map(|share| match 100.0 * share.abs() {
        percent if percent >= 1.0 => format!(" ({percent:.0} %)"),
        percent => format!(" ({} %)", show::significant(percent, 1)),
    });
    Sentence::plain(template)
        .asked(check)
        .with("value", in_both(|set| Shown::of(check, set).value))
        .with("side", Slot::Word(check.criterion.side.needs()))
        .with("limit", in_both(|set| Shown::of(check, set).limit))
        .with("distance", in_both(|set| Shown::of(check, set).distance))
        .with("share", Slot::Text(share.unwrap_or_default()))
}

/// A text in the units of either practice.
fn in_both(text: impl Fn(UnitSet) -> String) -> Slot {
    Slot::Either([text(UnitSet::Metric), text(UnitSet::Us)])
}

/// The numbers of a check as a person compares them.
struct Shown {
    value: String,
    limit: String,
    distance: String,
}

impl Shown {
    fn of(check: &Check, set: UnitSet) -> Self {
        let unit = shown_in(check.kind, set);
        let (value, limit) = (unit.of_si(check.value), unit.of_si(check.limit));
        let limit_shown = show::given(limit);
        if check.below {
            let value = format!("<{}", with_unit(show::given(value), unit));
            return Self { value, limit: limit_shown, distance: String::new() };
        }
        // three digits, or so many that the number does not look like the limit when it is not
        let digits = |count: usize| match check.uncertainty {
            Some(uncertainty) if count == 3 => show::supported(value, COVERAGE * uncertainty / unit.factor),
            _ => show::significant(value, count),
        };
        let number = |text: &str| text.replace('−', "-").parse::<f64>();
        let looks_like_limit = |text: &String| {
            let limits = [show::significant(limit, 3), limit_shown.clone()];
            limits
                .iter()
                .any(|limit| limit == text || number(limit).is_ok_and(|limit| number(text) == Ok(limit)))
        };
        let shown = match check.is_at_limit() {
            true => limit_shown.clone(),
            false => (3..=7).map(digits).find(|text| !looks_like_limit(text)).unwrap_or_else(|| digits(7)),
        };
        // a difference is told with the decimals of the number, or with as many as show it
        let of_difference = shown_in(check.kind.of_difference(), set);
        let distance = (check.distance() / of_difference.factor).abs();
        let decimals = shown.split_once('.').map_or(0, |(_, part)| part.len());
        let by_decimals = format!("{distance:.decimals$}");
        let is_told = by_decimals.bytes().any(|digit| (b'1'..=b'9').contains(&digit));
        let distance = match is_told && !shown.contains('×') {
            true => by_decimals,
            false => show::significant(distance, 2),
        };
        Self { value: with_unit(shown, unit), limit: limit_shown, distance }
    }
}

fn not_known(check: &Check, declaration: &'static Declaration) -> Sentence {
    let Some(missing) = &check.missing else {
        return Sentence::plain("{criterion}{case}: {state}, since these numbers have no finite result")
            .asked(check);
    };
    let name = field_name(missing.field, declaration);
    let template = match (missing.absence, name) {
        (Absence::Empty, _) => "{criterion}{case}: {state}; enter “{name}”",
        (Absence::NotKnown, Some(_)) => "{criterion}{case}: {state}; {why}; see “{name}”",
        (Absence::NotKnown, None) => "{criterion}{case}: {state}; {why}",
        (Absence::NoneExists, _) => "{criterion}{case}: there is no such number; {why}",
    };
    Sentence::plain(template)
        .asked(check)
        .with("name", Slot::Word(name.unwrap_or(missing.why)))
        .with("why", Slot::Word(missing.why))
}

/// The number that is judged does not exist, and that is what is wrong.
fn never(check: &Check) -> Sentence {
    Sentence::plain("{criterion}{case}: {state}; {why}; needs {side} {limit}")
        .asked(check)
        .with("why", Slot::Word(check.missing.map_or("", |missing| missing.why)))
        .with("side", Slot::Word(check.criterion.side.needs()))
        .with("limit", Slot::Given(check.limit, check.kind))
}

fn does_not_apply(check: &Check) -> Sentence {
    let sentence = match check.instead {
        Some(instead) => Sentence::plain("{criterion}{case}: {state}. Relied on instead: {instead}")
            .with("instead", Slot::Word(instead.sentence)),
        None => Sentence::plain("{criterion}{case}: {state}"),
    };
    sentence.asked(check)
}

/// Fills in what was asked, and of several judgements which.
trait Asked {
    fn asked(self, check: &Check) -> Self;
}

impl Asked for Sentence {
    fn asked(self, check: &Check) -> Self {
        self.with("criterion", Slot::Word(check.criterion.sentence))
            .with("state", Slot::Word(check.state.words()))
            .with(
                "case",
                occasion(check).map_or(Slot::Text(String::new()), |case| Slot::Told(Box::new(case))),
            )
    }
}

/// In brackets, of which case and which time of the year a judgement is.
fn occasion(check: &Check) -> Option<Sentence> {
    let (case, season) = (Slot::Word(check.case.name), Slot::Word(check.season.name));
    match (check.case.is_none(), check.season.is_none()) {
        (true, true) => None,
        (false, true) => Some(Sentence::plain(" ({case})").with("case", case)),
        (true, false) => Some(Sentence::plain(" ({season})").with("season", season)),
        (false, false) => {
            Some(Sentence::plain(" ({case}, {season})").with("case", case).with("season", season))
        }
    }
}

/// The name of a field: of this sheet, or, where a plan hands on what a sheet of a stage lacks, of that one.
fn field_name(id: &str, declaration: &'static Declaration) -> Option<&'static str> {
    if id.is_empty() {
        return None;
    }
    std::iter::once(declaration)
        .chain(catalogue::SHEETS.iter().map(|entry| entry.declaration))
        .flat_map(|declaration| declaration.inputs)
        .find(|field| field.id == id)
        .map(|field| field.term.name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::litres_per_minute;
    use crate::engine::sheet::{Criterion, Judges, Stage, Value, Working, source};

    /// Volume and flow in SI.
    fn reasons(volume: f64, flow: f64, rule: Option<&'static str>) -> Vec<String> {
        let Some(sheet) = catalogue::find("carbon-contact-time") else { return Vec::new() };
        let values = [Some(Value::Number(volume)), None, Some(Value::Number(flow)), rule.map(Value::Choice)];
        let assessment = sheet.assess(&values, false);
        let said = |check: &Check| {
            let sentence = of_check(check, sheet.declaration);
            assert_eq!(sentence.open_places(), Vec::<&str>::new());
            sentence.show(UnitSet::Metric)
        };
        assessment.checks.iter().filter(|check| check.id() == "contact-time").map(said).collect()
    }

    #[test]
    fn each_state_has_its_sentence() {
        let asked = "EBCT of all carbon together, at the highest flow through it: ";
        // 28.3 L at 6 L/min are 4.717 min; 30 L at 2 L/min are 15 min; 20.4 L at 2 L/min are 10.2 min, known to 2 · 3.37 %
        let litre_per_minute = 1e-3 / 60.0;
        for (volume, flow, rule, expected) in [
            (28.3e-3, 6.0, None, "not met. 4.72 min, needs at least 10. Short by 5.28 (53 %)"),
            (30e-3, 2.0, None, "met. 15.0 min, needs at least 10. 5.0 spare (50 %)"),
            (
                20.4e-3,
                2.0,
                None,
                "marginal. 10.2 min, needs at least 10. 0.2 spare (2 %), known to ± 0.69 (95 %)",
            ),
            (20e-3, 2.0, None, "marginal. 10 min, needs at least 10. At the limit, known to ± 0.67 (95 %)"),
            (
                28.3e-3,
                6.0,
                Some("test-before-session"),
                "does not apply. Relied on instead: Total chlorine after the carbon, tested before every session, below 0.1 mg/L",
            ),
        ] {
            assert_eq!(reasons(volume, flow * litre_per_minute, rule), [format!("{asked}{expected}")]);
        }
    }

    fn said(side: Side, value: f64, limit: f64, set: UnitSet) -> String {
        static CRITERIA: [Criterion; 4] = {
            const fn of(side: Side) -> Criterion {
                Criterion {
                    id: "flow",
                    sentence: "Flow",
                    stage: Stage::Tap,
                    side,
                    forecast: true,
                    source: &source::COMMON_PRACTICE,
                    levers: &[],
                    cases: &[],
                    judges: Judges::NoOutput,
                }
            }
            [of(Side::AtLeast), of(Side::AtMost), of(Side::Above), of(Side::Below)]
        };
        let criterion = CRITERIA.iter().find(|criterion| criterion.side == side).unwrap();
        let mut w = Working::silent();
        w.judge(criterion, litres_per_minute(value), litres_per_minute(limit));
        let Some(entry) = catalogue::find("timed-jug") else { return String::new() };
        of_check(&w.checks()[0], entry.declaration).show(set)
    }

    #[test]
    fn each_side_has_its_words() {
        use Side::{Above, AtLeast, AtMost, Below};
        for (side, value, limit, expected) in [
            (AtLeast, 0.614, 0.65, "not met. 0.614 L/min, needs at least 0.65. Short by 0.036 (6 %)"),
            (AtLeast, 0.7, 0.65, "met. 0.700 L/min, needs at least 0.65. 0.050 spare (8 %)"),
            (AtMost, 3.5, 2.0, "not met. 3.50 L/min, needs at most 2. Over by 1.50 (75 %)"),
            (AtMost, 2.0, 2.0, "met. 2 L/min, needs at most 2. At the limit"),
            (Below, 0.1, 0.1, "not met. 0.1 L/min, needs less than 0.1. At the limit, which does not pass"),
            (Above, 0.1, 0.1, "not met. 0.1 L/min, needs more than 0.1. At the limit, which does not pass"),
            (Above, 2.0, 0.0, "met. 2.00 L/min, needs more than 0. 2.00 spare"),
            // so near to the limit that three digits would look like it
            (
                AtLeast,
                0.64996,
                0.65,
                "not met. 0.64996 L/min, needs at least 0.65. Short by 0.00004 (0.006 %)",
            ),
            (AtMost, 0.65 * (1.0 + 1e-15), 0.65, "met. 0.65 L/min, needs at most 0.65. At the limit"),
            // what a difference of equal numbers leaves is no limit of its own, and no share of it
            (AtMost, 0.1, 1.46e-16, "not met. 0.100 L/min, needs at most 0. Over by 0.100"),
        ] {
            assert_eq!(said(side, value, limit, UnitSet::Metric), format!("Flow: {expected}"));
        }
        // 0.5 and 1 US gallon
        assert_eq!(
            said(AtLeast, 0.5 * 3.785_411_784, 3.785_411_784, UnitSet::Us),
            "Flow: not met. 0.500 gpm, needs at least 1. Short by 0.500 (50 %)"
        );
    }

    #[test]
    fn what_is_decided_says_whatever() {
        let Some(sheet) = catalogue::find("carbon-contact-time") else { return };
        let field = &sheet.declaration.inputs[0];
        let Some(check) =
            sheet.assess(&[], false).checks.into_iter().find(|check| check.id() == "contact-time")
        else {
            panic!("no check");
        };
        let check = Check { state: State::NotMet, decided: Some(field), ..check };
        assert_eq!(
            of_check(&check, sheet.declaration).show(UnitSet::Metric),
            format!(
                "EBCT of all carbon together, at the highest flow through it: not met, whatever “{}” was ({} to {} tried)",
                field.term.name, "0.2 L", "200 L"
            )
        );
    }

    #[test]
    fn what_is_not_known_names_its_field() {
        let Some(sheet) = catalogue::find("carbon-contact-time") else { return };
        let assessment = sheet.assess(&[], false);
        let said: Vec<String> = assessment
            .checks
            .iter()
            .filter(|check| check.id() == "contact-time")
            .map(|check| of_check(check, sheet.declaration).show(UnitSet::Metric))
            .collect();
        assert_eq!(
            said,
            [
                "EBCT of all carbon together, at the highest flow through it: not known; enter “Bed volume of the first carbon (worker)”"
            ]
        );
    }
}
