//! Numbers with their units, and a sentence for each way in which a text can fail to be one.

use super::{Naming, any_of, quoted};
use crate::engine::quantity::text::{self, Typed, Unread};
use crate::engine::quantity::{Kind, Unit, kinds};
use crate::engine::sheet::{Field, Problem, Sentence, Slot, Warning};

/// A number as it was typed, with its unit: what the record keeps. `None` where nothing was typed.
///
/// # Errors
/// As [`super::read_text`]; also where the field holds no number.
pub fn typed_number(
    field: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
) -> Result<Option<Typed>, Problem> {
    read(field, text, unit).map_err(|sentence| Problem::new(field.id, sentence))
}

pub(super) fn read(
    field: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
) -> Result<Option<Typed>, Sentence> {
    let Some(kind) = field.term.kind else {
        return Err(Sentence::plain("{name} is no number").of(field));
    };
    match text::read(text, kind, unit) {
        Ok(typed) if typed.below && !field.term.below => {
            Err(Sentence::plain("“{typed}”: {name} is a number and cannot be “less than” one; enter the number itself")
                .with("typed", quoted(text))
                .of(field))
        }
        Err(Unread::NotANumber) if field.term.below && says_nothing_was_found(text) => {
            Err(Sentence::plain("“{typed}” does not say below what: write the laboratory's reporting limit with “<”, such as <{example}")
                .with("typed", quoted(text))
                .with("example", Slot::Text(format!("0.005 {}", field.term.units[0]).trim_end().to_owned())))
        }
        Ok(typed) => Ok(Some(typed)),
        Err(Unread::Empty) => Ok(None),
        Err(unread) => Err(refusal(&unread, field, kind, text)),
    }
}

/// The ways in which a report says that nothing was found, without saying how much could have been.
fn says_nothing_was_found(text: &str) -> bool {
    let word: String = text.chars().filter(|c| c.is_alphabetic()).flat_map(char::to_lowercase).collect();
    matches!(
        word.as_str(),
        "nd" | "bdl"
            | "brl"
            | "bql"
            | "lod"
            | "loq"
            | "nn"
            | "notdetected"
            | "notdetectable"
            | "nil"
            | "none"
    )
}

/// What is wrong with the text, and how to write it.
fn refusal(unread: &Unread, field: &'static Field, kind: &'static Kind, text: &str) -> Sentence {
    match unread {
        Unread::Empty => Sentence::plain("enter {name}").of(field),
        Unread::NotANumber => {
            Sentence::plain("“{typed}” does not begin with a number: write digits, then the unit")
                .with("typed", quoted(text))
        }
        Unread::Ambiguous => two_meanings(text),
        Unread::TwoMarks => Sentence::plain(
            "“{typed}” has more than one decimal mark: write thousands without a mark, such as 1234.5",
        )
        .with("typed", quoted(text)),
        Unread::Groups => Sentence::plain(
            "“{typed}” has a space where no group of three digits begins: write the number without spaces, such as 1234.5",
        )
        .with("typed", quoted(text)),
        Unread::TooLarge => {
            Sentence::plain("“{typed}” is too large to compute with: check the number and its exponent")
                .with("typed", quoted(text))
        }
        Unread::NoUnit => no_unit(field),
        Unread::UnknownUnit(unit) => wrong_unit(unit, field, kind, text),
    }
}

/// `1,234` is one and a quarter for one reader and a thousand for another.
fn two_meanings(text: &str) -> Sentence {
    let number: String = text.chars().take_while(|c| !c.is_alphabetic() && *c != '°').collect();
    let number = number.trim();
    Sentence::plain("“{typed}” could mean two numbers: write {part} or {whole}")
        .with("typed", quoted(number))
        .with("part", Slot::Text(number.replace(',', ".")))
        .with("whole", Slot::Text(number.replace(',', "")))
}

/// A number alone, where several units are in use. Also said of a bare number in JSON.
pub(crate) fn no_unit(field: &'static Field) -> Sentence {
    let [metric, us] = field.term.units;
    let template = if metric == us {
        "{name} needs its unit after the number, such as {metric}"
    } else {
        "{name} needs its unit after the number, such as {metric} or {us}"
    };
    let shown = |symbol| {
        Slot::Text(field.term.kind.and_then(|kind| kind.find(symbol)).map_or(symbol, Unit::shown).to_owned())
    };
    Sentence::plain(template).with("metric", shown(metric)).with("us", shown(us)).of(field)
}

fn wrong_unit(unit: &str, field: &'static Field, kind: &'static Kind, text: &str) -> Sentence {
    if kind.is_bare() {
        return Sentence::plain("{name} has no unit: enter the number alone, without “{unit}”")
            .with("unit", quoted(unit))
            .of(field);
    }
    let sentence = match kinds::all().find(|other| !other.is_bare() && other.written(unit).is_some()) {
        Some(other) => Sentence::plain("“{unit}” is a unit of {other}: {name} takes {units}")
            .with("other", Slot::Word(other.name)),
        // `1/2 in`, `10-12 L/min`, `7 ft 3 in`
        None if unit.bytes().any(|byte| byte.is_ascii_digit()) => {
            return Sentence::plain(
                "“{typed}” holds more than one number: write one decimal number with its unit (0.5, not 1/2), in {units}",
            )
            .with("typed", quoted(text))
            .with("units", units(kind));
        }
        None => Sentence::plain("“{unit}” is no unit that {name} can have: it takes {units}"),
    };
    sentence.with("unit", quoted(unit)).with("units", units(kind)).of(field)
}

/// The units of a kind in a row; that of a bare fraction has no symbol that could be written.
pub(crate) fn units(kind: &'static Kind) -> Slot {
    any_of(kind.units.iter().map(|unit| unit.shown()).filter(|symbol| !symbol.is_empty()))
}

/// What to know of a number that was read without doubt, and may still be meant otherwise: the point is always a
/// decimal mark here, and some write it between thousands.
pub fn remark(field: &'static Field, text: &str, unit: Option<&'static Unit>) -> Option<Warning> {
    let typed = read(field, text, unit).ok()??;
    let kind = field.term.kind?;
    let number: String = text
        .trim_matches(|c: char| c == '<' || c.is_whitespace())
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    let (whole, part) = number.split_once('.')?;
    if part.len() != 3 || !(1..=3).contains(&whole.len()) || whole.starts_with('0') {
        return None;
    }
    let (low, high) = field.term.plausible;
    let usual = |value: f64| (low..=high).contains(&typed.unit.to_si(value));
    (!usual(typed.value) && usual(typed.value * 1000.0)).then(|| Warning {
        field: field.id,
        id: "decimal-point",
        sentence: Sentence::plain(
            "“{typed}” was read as {value}, with the point as the decimal mark: if a thousand times as much is meant, write {whole}",
        )
        .with("typed", quoted(text))
        .with("value", Slot::Given(typed.si(), kind))
        .with("whole", Slot::Text(format!("{whole}{part}"))),
        assumed: false,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::UnitSet;
    use crate::engine::quantity::kinds::{CONCENTRATION, CONDUCTIVITY, FLOW, NUMBER, RATIO};
    use crate::engine::sheet::{Shape, Term};

    const fn field(kind: &'static Kind, term: &'static Term) -> Field {
        Field { id: "x", name: "x", term, shape: Shape::Number(kind), needed: true }
    }

    static OPEN_FLOW: Field = field(&FLOW, &Term::number(&FLOW, "Flow", "Q"));
    static SHARE: Field = field(&RATIO, &Term::number(&RATIO, "Recovery", "Y"));
    static PH: Field = field(&NUMBER, &Term::number(&NUMBER, "pH", "pH"));
    static FEED: Field = field(
        &CONDUCTIVITY,
        &Term::number(&CONDUCTIVITY, "Conductivity", "κ").plausible(10.0, 3000.0, "µS/cm"),
    );

    fn said(field: &'static Field, text: &str) -> String {
        match typed_number(field, text, None) {
            Ok(typed) => format!("{:?}", typed.map(|typed| (typed.value, typed.unit.symbol))),
            Err(problem) => {
                assert_eq!(problem.sentence.open_places(), Vec::<&str>::new());
                problem.sentence.show(UnitSet::Metric)
            }
        }
    }

    #[test]
    fn each_refusal_says_how_to_write_it() {
        for (field, text, expected) in [
            (&OPEN_FLOW, "abc", "“abc” does not begin with a number: write digits, then the unit"),
            (&OPEN_FLOW, "1,234 L/min", "“1,234” could mean two numbers: write 1.234 or 1234"),
            (
                &OPEN_FLOW,
                "1.2.3 L/min",
                "“1.2.3 L/min” has more than one decimal mark: write thousands without a mark, such as 1234.5",
            ),
            (&OPEN_FLOW, "2", "Flow needs its unit after the number, such as L/min or gpm"),
            (&SHARE, "50", "Recovery needs its unit after the number, such as %"),
            (
                &OPEN_FLOW,
                "2 psi",
                "“psi” is a unit of gauge pressure: Flow takes L/min, mL/min, L/h, m³/h, m³/s, gpm or gal/d",
            ),
            (
                &OPEN_FLOW,
                "2 jugs",
                "“jugs” is no unit that Flow can have: it takes L/min, mL/min, L/h, m³/h, m³/s, gpm or gal/d",
            ),
            (&SHARE, "50 L", "“L” is a unit of volume: Recovery takes %"),
            (&PH, "7.4 pH", "pH has no unit: enter the number alone, without “pH”"),
            (
                &OPEN_FLOW,
                "1e400 L/min",
                "“1e400 L/min” is too large to compute with: check the number and its exponent",
            ),
        ] {
            assert_eq!(said(field, text), expected);
        }
        for text in ["1/2 gpm", "10-12 L/min", "1 L/min 2"] {
            assert!(said(&OPEN_FLOW, text).contains("more than one number"), "{text}");
        }
    }

    static LEAD: Field = field(&CONCENTRATION, &Term::number(&CONCENTRATION, "Result", "C").or_below());

    #[test]
    fn less_than_is_read_where_a_field_may_be_so() {
        let read = |text| typed_number(&LEAD, text, None).ok().flatten();
        let below = read("< 5 µg/L");
        assert!(below.is_some_and(|typed| typed.below && (typed.si() - 5e-6).abs() < 1e-18));
        assert!(read("5 µg/L").is_some_and(|typed| !typed.below));
        for text in ["ND", "n.d.", "not detected", "BDL"] {
            let expected = "does not say below what: write the laboratory's reporting limit with “<”, such as <0.005 mg/L";
            assert!(said(&LEAD, text).ends_with(expected), "{}", said(&LEAD, text));
        }
        assert_eq!(said(&LEAD, "<0.005"), "Result needs its unit after the number, such as mg/L");
        assert_eq!(
            said(&OPEN_FLOW, "<2 L/min"),
            "“<2 L/min”: Flow is a number and cannot be “less than” one; enter the number itself"
        );
    }

    #[test]
    fn a_long_text_is_cut_in_the_sentence() {
        assert!(said(&OPEN_FLOW, &"x".repeat(1000)).len() < 120);
    }

    #[test]
    fn a_point_between_thousands_is_remarked() {
        let remarked = |text| remark(&FEED, text, None).map(|warning| warning.sentence.show(UnitSet::Metric));
        assert!(remarked("1.200 µS/cm").is_some_and(|text| text.ends_with("is meant, write 1200")));
        assert_eq!(remarked("100.200 µS/cm"), None);
        assert_eq!(remarked("1.2 µS/cm"), None);
        assert_eq!(remarked("1200 µS/cm"), None);
    }
}
