//! Reading what a person typed into a field, whatever its shape; the page, the JSON interface and the record share it.
//!
//! Nothing is guessed: what could be read in two ways is asked back, with the way to write it that leaves no doubt.
//! Whether a value is possible is asked later, when the sheet is computed.

mod number;

pub(crate) use number::{no_unit, units};
pub use number::{remark, typed_number};

use crate::engine::calendar::{Moment, NoMoment, read_day, read_moment};
use crate::engine::quantity::text::Typed;
use crate::engine::quantity::unit::{Unit, is_invisible};
use crate::engine::sheet::{Field, Named, Problem, Sentence, Shape, Slot, Value, Warning};
use chrono::NaiveDate;

/// The most characters that a name may have.
pub const LONGEST_TEXT: usize = 200;

/// What a person typed into a field; `None` where nothing but spaces was typed. `unit` is the one chosen beside the
/// field, taken where no other was typed.
///
/// # Errors
/// One sentence that says what is wrong and how to write it.
///
/// # Example
/// ```
/// use calc::{program::catalogue, engine::quantity::UnitSet, documents::reading::read_text, engine::sheet::Value};
/// let sheet = catalogue::find("carbon-contact-time").unwrap().declaration;
/// let volume = &sheet.inputs[0];
/// assert_eq!(read_text(volume, "28.3 L", None), Ok(Some(Value::Number(28.3 * 1e-3))));
/// assert_eq!(read_text(volume, " ", None), Ok(None));
/// let problem = read_text(volume, "1,234 L", None).unwrap_err();
/// assert_eq!(problem.sentence.show(UnitSet::Metric), "“1,234” could mean two numbers: write 1.234 or 1234");
/// ```
pub fn read_text(
    field: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
) -> Result<Option<Value>, Problem> {
    read(field, text, unit).map_err(|sentence| Problem::new(field.id, sentence))
}

/// How a moment was read of which day or year was left out, said back in full.
pub fn moment_in_full(field: &'static Field, text: &str, now: Moment) -> Option<Warning> {
    let is_whole = Moment::read(text).is_ok();
    let (Shape::Moment, false, Ok(moment)) = (field.shape, is_whole, read_moment(text, now)) else {
        return None;
    };
    let sentence = Sentence::plain("“{typed}” was read as {moment}")
        .with("typed", quoted(text))
        .with("moment", Slot::Moment(moment));
    Some(Warning { field: field.id, id: "moment-in-full", sentence, assumed: false })
}

/// The same without saying which field it is.
pub(crate) fn read(
    field: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
) -> Result<Option<Value>, Sentence> {
    read_at(field, text, unit, None)
}

/// The same beside the present moment.
pub(crate) fn read_at(
    field: &'static Field,
    text: &str,
    unit: Option<&'static Unit>,
    now: Option<Moment>,
) -> Result<Option<Value>, Sentence> {
    let text = text.trim_matches(|c: char| c.is_whitespace() || is_invisible(c));
    if text.is_empty() {
        return Ok(None);
    }
    match field.shape {
        Shape::Number(_) => {
            let value = |typed: Typed| match typed.below {
                true => Value::Below(typed.si()),
                false => Value::Number(typed.si()),
            };
            number::read(field, text, unit).map(|typed| typed.map(value))
        }
        Shape::Choice(named) => choice(field, named, text).map(Some),
        Shape::Date => date(text).map(Some),
        Shape::Moment => moment(text, now).map(Some),
        Shape::Text => name(field, text).map(Some),
        Shape::Table(_) => Err(Sentence::plain("{name} is a table: enter it row by row").of(field)),
    }
}

/// One of the named values, by its id or its name.
fn choice(field: &'static Field, named: &'static [Named], text: &str) -> Result<Value, Sentence> {
    let wanted = text.to_lowercase();
    // whole, or without the form behind a comma: “Aluminum” is “Aluminium (aluminum), as Al”
    let is_spelled = |one: &&Named| {
        one.spellings().iter().map(|spelling| spelling.to_lowercase()).any(|spelling| {
            spelling == wanted || spelling.split_once(',').is_some_and(|(bare, _)| bare == wanted)
        })
    };
    let alone = || {
        let mut spelled = named.iter().filter(is_spelled);
        spelled.next().filter(|_| spelled.next().is_none())
    };
    named
        .iter()
        .find(|one| one.id == wanted || one.name.to_lowercase() == wanted)
        .or_else(alone)
        .map(|one| Value::Choice(one.id))
        .ok_or_else(|| {
            Sentence::plain("“{typed}” is not one of the choices for “{name}”: choose one of {choices}")
                .with("typed", quoted(text))
                .with("choices", any_of(named.iter().map(|one| one.id)))
                .of(field)
        })
}

/// A date as ISO 8601 writes it, or with its month as a word: the ways in which day and month cannot change places.
fn date(text: &str) -> Result<Value, Sentence> {
    let refused = |template| Err(Sentence::plain(template).with("typed", quoted(text)));
    if let Some(day) = read_day(text) {
        return match day {
            Some(day) => Ok(Value::Date(day)),
            None => refused("the calendar has no {typed}: check the day and the month"),
        };
    }
    if text.contains(['/', '.']) {
        return refused(
            "“{typed}” can be read with day or month first: write year-month-day, such as 2026-11-12, or the month as a word",
        );
    }
    let digits = text.len() == 10
        && text.bytes().enumerate().all(|(at, byte)| match at {
            4 | 7 => byte == b'-',
            _ => byte.is_ascii_digit(),
        });
    if !digits {
        return refused("“{typed}” is no date as it is written here: year-month-day, such as 2026-11-12");
    }
    match text.parse::<NaiveDate>() {
        Ok(date) => Ok(Value::Date(date)),
        Err(_) => refused("the calendar has no {typed}: check month and day, which stand in this order"),
    }
}

/// A moment as people write it beside the present one; else as ISO 8601 does, with the offset from UTC: without both nobody
/// knows when it was.
fn moment(text: &str, now: Option<Moment>) -> Result<Value, Sentence> {
    let read = match now {
        Some(now) => read_moment(text, now),
        None => Moment::read(text),
    };
    read.map(Value::Moment).map_err(|why| {
        let template = match why {
            NoMoment::Form if now.is_some() => {
                "“{typed}” is no moment as it is read here: write the clock, such as 02:10, before it perhaps the day, such as 14 Mar"
            }
            NoMoment::Form => {
                "“{typed}” is no moment as it is written here: year-month-day, T, the clock, the offset from UTC, such as 2026-11-12T08:30+01:00"
            }
            NoMoment::NoOffset => {
                "“{typed}” does not say by which clock: add the offset from UTC, such as +01:00 for central Europe in winter, or Z for UTC"
            }
            NoMoment::Impossible => {
                "calendar and clock have no {typed}: check month, day, hour and offset, which stand in this order"
            }
        };
        Sentence::plain(template).with("typed", quoted(text))
    })
}

/// A name that a person gave.
fn name(field: &'static Field, text: &str) -> Result<Value, Sentence> {
    let length = text.chars().count();
    if length <= LONGEST_TEXT {
        return Ok(Value::Text(text.to_owned()));
    }
    Err(Sentence::plain("{name} has {length} characters, and {most} at most are kept: shorten it")
        .with("length", Slot::Count(length as i64))
        .with("most", Slot::Count(LONGEST_TEXT as i64))
        .of(field))
}

/// What was typed, short enough to be said in a sentence.
pub(crate) fn quoted(text: &str) -> Slot {
    const MOST: usize = 40;
    let mut chars = text.trim().chars().map(|c| if c.is_control() { ' ' } else { c });
    let mut short: String = chars.by_ref().take(MOST).collect();
    if chars.next().is_some() {
        short.push('…');
    }
    Slot::Text(short)
}

/// `a, b or c`
pub(crate) fn any_of<'a>(words: impl Iterator<Item = &'a str>) -> Slot {
    let words: Vec<&str> = words.collect();
    match words.split_last() {
        Some((last, others)) if !others.is_empty() => Slot::Told(Box::new(
            Sentence::plain("{others} or {last}")
                .with("others", Slot::Text(others.join(", ")))
                .with("last", Slot::Text((*last).to_owned())),
        )),
        only => Slot::Text(only.map_or_else(String::new, |(last, _)| (*last).to_owned())),
    }
}

/// Names the field in the place `{name}`.
pub(crate) trait Naming {
    /// The same sentence with the field's name.
    fn of(self, field: &'static Field) -> Self;
}

impl Naming for Sentence {
    fn of(self, field: &'static Field) -> Self {
        self.with("name", Slot::Word(field.term.name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::UnitSet;
    use crate::engine::sheet::Term;

    static NAMED: &[Named] =
        &[Named { id: "none", name: "No chlorine" }, Named { id: "chloramine", name: "Chloramine" }];

    static DISINFECTANT: Field = Field {
        id: "disinfectant",
        name: "disinfectant",
        term: &Term::other("Disinfectant"),
        shape: Shape::Choice(NAMED),
        needed: false,
    };
    static DATE: Field = Field { id: "date", shape: Shape::Date, ..DISINFECTANT };
    static PLACE: Field = Field {
        id: "place-name",
        term: &Term::other("Name of the place"),
        shape: Shape::Text,
        ..DISINFECTANT
    };

    fn said(field: &'static Field, text: &str) -> String {
        match read_text(field, text, None) {
            Ok(value) => format!("{value:?}"),
            Err(problem) => {
                assert_eq!(problem.sentence.open_places(), Vec::<&str>::new());
                problem.sentence.show(UnitSet::Metric)
            }
        }
    }

    #[test]
    fn a_choice_is_its_id_or_its_name() {
        assert_eq!(read_text(&DISINFECTANT, "chloramine", None), Ok(Some(Value::Choice("chloramine"))));
        assert_eq!(read_text(&DISINFECTANT, "no Chlorine", None), Ok(Some(Value::Choice("none"))));
        static ANALYTE: Field = Field {
            id: "analyte",
            name: "analyte",
            term: &Term::other("Substance (analyte)"),
            shape: Shape::Choice(&[
                Named { id: "aluminium", name: "Aluminium (aluminum), as Al" },
                Named { id: "nitrate-n", name: "Nitrate, as N" },
                Named { id: "nitrate-no3", name: "Nitrate, as NO3" },
            ]),
            needed: true,
        };
        for text in
            ["Aluminum", "aluminium", "Aluminium, as Al", "Aluminum, as Al", "ALUMINIUM (ALUMINUM), AS AL"]
        {
            assert_eq!(read_text(&ANALYTE, text, None), Ok(Some(Value::Choice("aluminium"))), "{text}");
        }
        // two forms of one name are never told apart by guess
        assert!(read_text(&ANALYTE, "Nitrate", None).is_err());
        assert_eq!(
            said(&DISINFECTANT, "bleach"),
            "“bleach” is not one of the choices for “Disinfectant”: choose one of none or chloramine"
        );
    }

    #[test]
    fn a_date_is_read_in_one_order_only() {
        let day = NaiveDate::from_ymd_opt(2026, 11, 12).map(Value::Date);
        assert_eq!(read_text(&DATE, "2026-11-12", None), Ok(day));
        assert_eq!(read_text(&DATE, "12 Nov 2026", None), read_text(&DATE, "2026-11-12", None));
        assert!(said(&DATE, "31 Nov 2026").starts_with("the calendar has no 31 Nov 2026"));
        assert!(said(&DATE, "03/04/2027").contains("day or month first"));
        assert!(said(&DATE, "12.11.2026").contains("day or month first"));
        assert!(said(&DATE, "2026-02-30").starts_with("the calendar has no 2026-02-30"));
        for text in ["2026-1-2", "20261112", "+2026-11-12", "today", "2026-11-12T08:00"] {
            assert!(said(&DATE, text).contains("year-month-day"), "{text}");
        }
    }

    #[test]
    fn a_name_has_a_bound() {
        assert_eq!(read_text(&PLACE, " Ward 6 ", None), Ok(Some(Value::Text("Ward 6".into()))));
        assert_eq!(
            said(&PLACE, &"ä".repeat(201)),
            "Name of the place has 201 characters, and 200 at most are kept: shorten it"
        );
    }
}
