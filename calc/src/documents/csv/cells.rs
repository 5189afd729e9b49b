//! The text of one cell, as a person would have typed it into the table.

use super::write::plain_text;
use crate::engine::sheet::{Field, Named, Sentence, Shape, Slot};
use chrono::{Datelike, NaiveDate};

/// From how many letters on a beginning tells a name.
const SURE: usize = 6;

/// Letters and digits alone, in small letters: what is left where spelling differs.
pub(super) fn plain(text: &str) -> String {
    text.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Counts clock times from the first one of the text.
#[derive(Debug, Default)]
pub(super) struct Clock {
    /// Seconds since some midnight.
    first: Option<f64>,
    last: Option<f64>,
}

const DAY: f64 = 86_400.0;

impl Clock {
    /// Seconds since the first; a clock without a date that goes back by more than half a day has passed midnight.
    fn seconds(&mut self, text: &str) -> Option<String> {
        let now = match text.split_once(['T', ' ']) {
            Some((day, clock)) => DAY * f64::from(day_number(day)?) + of_day(clock)?,
            None => {
                let last = self.last.unwrap_or(0.0);
                let now = (last / DAY).floor() * DAY + of_day(text)?;
                if last - now > DAY / 2.0 { now + DAY } else { now }
            }
        };
        self.last = Some(now);
        let elapsed = now - *self.first.get_or_insert(now);
        Some(format!("{} s", (1000.0 * elapsed).round() / 1000.0))
    }
}

/// `14:05` or `14:05:30.5`, in seconds.
fn of_day(clock: &str) -> Option<f64> {
    let parts: Vec<&str> = clock.split(':').collect();
    let is_number = |part: &&str| !part.is_empty() && part.chars().all(|c| c.is_ascii_digit() || c == '.');
    if !(2..=3).contains(&parts.len()) || !parts.iter().all(is_number) {
        return None;
    }
    let number = |index: usize| parts.get(index).map_or(Some(0.0), |part| part.parse::<f64>().ok());
    let (hours, minutes, seconds) = (number(0)?, number(1)?, number(2)?);
    (hours < 24.0 && minutes < 60.0 && seconds < 61.0).then_some(3600.0 * hours + 60.0 * minutes + seconds)
}

/// Days of `2026-11-25` since some day.
fn day_number(day: &str) -> Option<i32> {
    let mut parts = day.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let date = NaiveDate::from_ymd_opt(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)?;
    parts.next().is_none().then(|| date.num_days_from_ce())
}

/// The text for a cell of that column.
pub(super) fn text_of(column: &'static Field, text: &str, clock: &mut Clock) -> Result<String, Sentence> {
    match column.shape {
        Shape::Choice(_) if !text.is_empty() => choice(column, text).map(|named| named.id.to_owned()),
        Shape::Number(_) if column.term.elapsed => match text.matches(':').count() {
            1 if !text.contains('-') => Err(Sentence::plain(
                "“{text}” could be hours and minutes or minutes and seconds: write all three, such as 14:05:00",
            )
            .with("text", short(text))),
            _ => Ok(clock.seconds(text).unwrap_or_else(|| text.to_owned())),
        },
        // what was made harmless to a spreadsheet
        Shape::Text => Ok(plain_text(text).to_owned()),
        _ => Ok(text.to_owned()),
    }
}

/// The text with the unit that stands in a cell of its own; one that names a unit itself keeps it.
pub(super) fn with_unit(column: &'static Field, text: &str, unit: &str) -> Result<String, Sentence> {
    if text.is_empty() || unit.is_empty() {
        return Ok(text.to_owned());
    }
    let is_unit = |unit: &str| column.term.kind.is_some_and(|kind| kind.written(unit).is_some());
    if !is_unit(unit) {
        return Err(Sentence::plain("“{unit}” is no unit that is known for it").with("unit", short(unit)));
    }
    let behind_digits = text.trim_start_matches(|letter: char| !letter.is_ascii_digit());
    let behind_digits =
        behind_digits.rsplit(|letter: char| letter.is_ascii_digit()).next().unwrap_or_default();
    let names_its_own = !behind_digits.trim().is_empty() && is_unit(behind_digits.trim());
    Ok(if names_its_own { text.to_owned() } else { format!("{text} {unit}") })
}

/// The value that is called so: by its id or its name, or by the beginning of one name only.
pub(super) fn choice(column: &'static Field, text: &str) -> Result<&'static Named, Sentence> {
    let Shape::Choice(named) = column.shape else { return Err(unknown(column, text)) };
    let wanted = plain(text);
    let is_exact = |one: &&Named| plain(one.id) == wanted || plain(one.name) == wanted;
    if let Some(one) = named.iter().find(is_exact) {
        return Ok(one);
    }
    let spelled = |one: &Named, is: &dyn Fn(&str) -> bool| one.spellings().iter().any(|name| is(name));
    // symbols and the beginnings of words would make phosphate of a pH, and copper of cobalt
    let is_bare = |one: &&Named| {
        spelled(one, &|name| {
            plain(name) == wanted || plain(name.split(',').next().unwrap_or_default()) == wanted
        })
    };
    let begins = |one: &&Named| wanted.chars().count() >= SURE && plain(one.name).starts_with(&wanted);
    let mut matching: Vec<&Named> = named.iter().filter(is_bare).collect();
    if matching.is_empty() {
        matching = named.iter().filter(begins).collect();
    }
    match matching.as_slice() {
        [one] => Ok(one),
        [] => Err(unknown(column, text)),
        [first, second, ..] => Err(Sentence::plain("“{text}” could be “{first}” or “{second}”: write which")
            .with("text", short(text))
            .with("first", Slot::Word(first.name))
            .with("second", Slot::Word(second.name))),
    }
}

fn unknown(column: &'static Field, text: &str) -> Sentence {
    Sentence::plain("“{text}” is no value of {column} that is known here")
        .with("text", short(text))
        .with("column", Slot::Word(column.term.name))
}

fn short(text: &str) -> Slot {
    Slot::Text(text.chars().take(40).collect())
}
