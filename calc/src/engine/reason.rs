//! Why a check has its state, and why an answer is missing: one sentence each, for the page, the answers and the print.

use crate::engine::sheet::criterion::COVERAGE;
use crate::engine::sheet::{Absence, Check, Declaration, Missing, Sentence, Side, Slot, State};
use crate::program::catalogue;

/// Why a check has its state, with its numbers.
pub fn of_check(check: &Check, declaration: &'static Declaration) -> Sentence {
    match check.state {
        State::DoesNotApply => does_not_apply(check),
        State::NotKnown => not_known(check, declaration),
        State::NotMet if check.missing.is_some() => never(check),
        // there is no number to tell
        State::NotMet if check.criterion.side == Side::Answered => {
            Sentence::plain("{criterion}{case}: no").asked(check)
        }
        _ if check.criterion.side == Side::Answered => Sentence::plain("{criterion}{case}: yes").asked(check),
        State::NotMet if check.below => {
            numbers(check, "{criterion}{case}: {value}, asked {side} {limit}; on the wrong side")
        }
        State::NotMet if check.distance() == 0.0 => numbers(
            check,
            "{criterion}{case}: {value}, asked {side} {limit}; the limit itself is already the wrong side",
        ),
        State::NotMet => numbers(
            check,
            "{criterion}{case}: {value}, asked {side} {limit}; on the wrong side by {distance}",
        ),
        State::Marginal => {
            let half_width = COVERAGE * check.uncertainty.unwrap_or(0.0);
            numbers(
                check,
                "{criterion}{case}: {value}, asked {side} {limit}; met by {distance}, which is known to ± {interval} (95 %)",
            )
            .with("interval", Slot::Number(half_width, check.kind.of_difference()))
        }
        State::Met if check.below => {
            numbers(check, "{criterion}{case}: {value}, asked {side} {limit}; the reporting limit shows it")
        }
        State::Met if check.distance() == 0.0 => {
            numbers(check, "{criterion}{case}: {value}, asked {side} {limit}")
        }
        State::Met => numbers(check, "{criterion}{case}: {value}, asked {side} {limit}; met by {distance}"),
    }
}

/// Why there is no answer.
pub fn of_missing(missing: &Missing, declaration: &'static Declaration) -> Sentence {
    match field_name(missing.field, declaration) {
        // the engine says no more than the name where a field is simply empty
        Some(name) if missing.why == name => {
            Sentence::plain("{name} is not entered").with("name", Slot::Word(name))
        }
        _ => Sentence::plain("{why}").with("why", Slot::Word(missing.why)),
    }
}

fn numbers(check: &Check, template: &'static str) -> Sentence {
    Sentence::plain(template)
        .asked(check)
        .with("value", value(check))
        .with("side", Slot::Word(check.criterion.side.words()))
        .with("limit", Slot::Number(check.limit, check.kind))
        .with("distance", Slot::Number(check.distance().abs(), check.kind.of_difference()))
}

fn value(check: &Check) -> Slot {
    if check.below { Slot::Below(check.value, check.kind) } else { Slot::Number(check.value, check.kind) }
}

fn not_known(check: &Check, declaration: &'static Declaration) -> Sentence {
    let Some(missing) = &check.missing else {
        return Sentence::plain("{criterion}{case}: not known, since these numbers have no finite result")
            .asked(check);
    };
    let name = field_name(missing.field, declaration);
    let template = match (missing.absence, name) {
        (Absence::NotKnown, Some(name)) if name == missing.why => {
            "{criterion}{case}: not known; enter “{name}”"
        }
        (Absence::NotKnown, Some(_)) => "{criterion}{case}: not known; {why}; see “{name}”",
        (Absence::NotKnown, None) => "{criterion}{case}: not known; {why}",
        (Absence::NoneExists, _) => "{criterion}{case}: there is no such number; {why}",
    };
    Sentence::plain(template)
        .asked(check)
        .with("name", Slot::Word(name.unwrap_or("")))
        .with("why", Slot::Word(missing.why))
}

/// The number that is judged does not exist, and that is what is wrong.
fn never(check: &Check) -> Sentence {
    Sentence::plain("{criterion}{case}: {why}; asked {side} {limit}")
        .asked(check)
        .with("why", Slot::Word(check.missing.map_or("", |missing| missing.why)))
        .with("side", Slot::Word(check.criterion.side.words()))
        .with("limit", Slot::Number(check.limit, check.kind))
}

fn does_not_apply(check: &Check) -> Sentence {
    let sentence = match check.instead {
        Some(instead) => {
            Sentence::plain("{criterion}{case}: does not apply here. Relied on instead: {instead}")
                .with("instead", Slot::Word(instead.sentence))
        }
        None => Sentence::plain("{criterion}{case}: does not apply here"),
    };
    sentence.asked(check)
}

/// Fills in what was asked, and of several judgements which.
trait Asked {
    fn asked(self, check: &Check) -> Self;
}

impl Asked for Sentence {
    fn asked(self, check: &Check) -> Self {
        let words: Vec<&str> =
            [check.case, check.season].into_iter().filter(|word| !word.is_empty()).collect();
        let case = if words.is_empty() { String::new() } else { format!(" ({})", words.join(", ")) };
        self.with("criterion", Slot::Word(check.criterion.sentence))
            .with("case", Slot::Text(case.replace('-', " ")))
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
    use crate::engine::quantity::UnitSet;
    use crate::engine::sheet::Value;

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
            (28.3e-3, 6.0, None, "4.72 min, asked at least 10.0 min; on the wrong side by 5.28 min"),
            (30e-3, 2.0, None, "15.0 min, asked at least 10.0 min; met by 5.00 min"),
            (
                20.4e-3,
                2.0,
                None,
                "10.2 min, asked at least 10.0 min; met by 0.200 min, which is known to ± 0.687 min (95 %)",
            ),
            (
                28.3e-3,
                6.0,
                Some("test-before-session"),
                "does not apply here. Relied on instead: Total chlorine after the carbon, tested before every session, below 0.1 mg/L",
            ),
        ] {
            assert_eq!(reasons(volume, flow * litre_per_minute, rule), [format!("{asked}{expected}")]);
        }
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
