//! Days and moments as people write them: `02:10`, `14 Mar 02:10`, `Mar 14, 2027 2:10 pm`. A month is always a word, so that
//! day and month cannot change places.

use super::{Moment, Month, NoMoment};
use crate::engine::language::Language;
use chrono::{Datelike, Days, NaiveDate, NaiveTime};

/// What a text says of a day and a clock.
#[derive(Debug, Default, PartialEq)]
struct Said {
    day: Option<u32>,
    month: Option<u32>,
    year: Option<i32>,
    clock: Option<NaiveTime>,
}

/// Reads a moment beside the present one: of what the text leaves out, day or year, the last such moment is meant, and the
/// clock is the present one's.
///
/// # Errors
/// Which of the ways it fails.
///
/// # Example
/// ```
/// use calc::engine::calendar::{Moment, read_moment};
/// let now = Moment::read("2027-03-14T07:30+01:00").unwrap();
/// let read = |text| read_moment(text, now).map(|moment| moment.to_string());
/// assert_eq!(read("02:10").as_deref(), Ok("2027-03-14T02:10+01:00"));
/// assert_eq!(read("22:10").as_deref(), Ok("2027-03-13T22:10+01:00"));
/// assert_eq!(read("14 Mar 02:10").as_deref(), Ok("2027-03-14T02:10+01:00"));
/// assert_eq!(read("2027-03-14T02:10-05:00").as_deref(), Ok("2027-03-14T02:10-05:00"));
/// ```
pub fn read_moment(text: &str, now: Moment) -> Result<Moment, NoMoment> {
    match Moment::read(text) {
        Err(NoMoment::Form | NoMoment::NoOffset) => {}
        read => return read,
    }
    let said = Said::of(text).ok_or(NoMoment::Form)?;
    let clock = said.clock.ok_or(NoMoment::Form)?;
    let today = now.date();
    let at = |date: Option<NaiveDate>| date.and_then(|date| now.on_its_clock(date.and_time(clock)));
    let is_past = |moment: &Moment| *moment <= now;
    let moment = match (said.year, said.month, said.day) {
        (Some(year), Some(month), Some(day)) => at(NaiveDate::from_ymd_opt(year, month, day)),
        (None, Some(month), Some(day)) => [today.year(), today.year() - 1]
            .into_iter()
            .filter_map(|year| at(NaiveDate::from_ymd_opt(year, month, day)))
            .find(is_past),
        (None, None, None) => {
            let days = [Some(today), today.checked_sub_days(Days::new(1))];
            days.into_iter().filter_map(at).find(is_past)
        }
        _ => return Err(NoMoment::Form),
    };
    moment.ok_or(NoMoment::Impossible)
}

/// Reads a day whose month is a word: `14 Mar 2027`. `None` where it is written in another way, `Some(None)` where the
/// calendar has no such day.
pub fn read_day(text: &str) -> Option<Option<NaiveDate>> {
    match Said::of(text)? {
        Said { day: Some(day), month: Some(month), year: Some(year), clock: None } => {
            Some(NaiveDate::from_ymd_opt(year, month, day))
        }
        _ => None,
    }
}

/// As people read it: `14 Mar 2027`.
pub fn day_in_words(date: NaiveDate, language: Language) -> String {
    let month = Month::ALL.get(date.month0() as usize).map_or("", |month| month.short());
    format!("{} {} {}", date.day(), language.of(month), date.year())
}

impl Said {
    /// `None` where a part of the text is none of these, or stands twice.
    fn of(text: &str) -> Option<Said> {
        let mut said = Said::default();
        let lower = text.to_lowercase();
        let mut parts =
            lower.split(|c: char| c.is_whitespace() || c == ',').filter(|part| !part.is_empty()).peekable();
        while let Some(part) = parts.next() {
            if part.contains(':') {
                let half = parts.next_if(|next| half_of_day(next).is_some());
                let part = format!("{part}{}", half.unwrap_or(""));
                put(&mut said.clock, clock(&part)?)?;
            } else if let Some(month) = month(part) {
                put(&mut said.month, month)?;
            } else {
                let digits = part.trim_end_matches(|c: char| c.is_ascii_alphabetic());
                let is_number = digits.bytes().all(|byte| byte.is_ascii_digit());
                match (digits.len(), &part[digits.len()..]) {
                    (1..=2, "" | "st" | "nd" | "rd" | "th") if is_number => {
                        put(&mut said.day, digits.parse().ok()?)?
                    }
                    (4, "") if is_number => put(&mut said.year, digits.parse().ok()?)?,
                    _ => return None,
                }
            }
        }
        Some(said)
    }
}

fn put<T>(place: &mut Option<T>, value: T) -> Option<()> {
    place.replace(value).is_none().then_some(())
}

/// Noon, and the hours from it on.
fn half_of_day(text: &str) -> Option<bool> {
    match text.trim_end_matches('.').replace('.', "").as_str() {
        "am" => Some(false),
        "pm" => Some(true),
        _ => None,
    }
}

/// `2:10`, `02:10`, `02:10:30`, `2:10pm`.
fn clock(text: &str) -> Option<NaiveTime> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != ':').unwrap_or(text.len());
    let (digits, half) = text.split_at(end);
    let parts: Vec<&str> = digits.split(':').collect();
    let is_well = parts.first().is_some_and(|hour| (1..=2).contains(&hour.len()))
        && parts[1..].iter().all(|part| part.len() == 2)
        && (2..=3).contains(&parts.len());
    if !is_well {
        return None;
    }
    let number = |index: usize| parts.get(index).map_or(Some(0), |part| part.parse::<u32>().ok());
    let hour = match (
        number(0)?,
        half.is_empty().then_some(false).or_else(|| half_of_day(half))?,
        half.is_empty(),
    ) {
        (hour, _, true) => hour,
        (12, false, _) => 0,
        (12, true, _) => 12,
        (hour @ 1..=11, is_later, _) => hour + if is_later { 12 } else { 0 },
        _ => return None,
    };
    NaiveTime::from_hms_opt(hour, number(1)?, number(2)?)
}

/// A month by its name, or by its first letters, at least three.
fn month(text: &str) -> Option<u32> {
    let letters = text.trim_end_matches('.');
    let is_meant = |name: &str| {
        letters.len() >= 3
            && name.to_lowercase().starts_with(letters)
            && (letters.len() <= 4 || name.len() == letters.len())
    };
    let place = Month::ALL.iter().position(|month| is_meant(month.name()))?;
    Some(place as u32 + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<String, NoMoment> {
        let now = Moment::read("2027-03-14T07:30-05:00").unwrap();
        read_moment(text, now).map(|moment| moment.to_string())
    }

    #[test]
    fn the_last_such_moment_is_meant() {
        for (text, expected) in [
            ("02:10", "2027-03-14T02:10-05:00"),
            ("2:10", "2027-03-14T02:10-05:00"),
            ("7:30", "2027-03-14T07:30-05:00"),
            ("07:31", "2027-03-13T07:31-05:00"),
            ("2:10 pm", "2027-03-13T14:10-05:00"),
            ("12:05 a.m.", "2027-03-14T00:05-05:00"),
            ("12:05pm", "2027-03-13T12:05-05:00"),
            ("14 Mar 02:10", "2027-03-14T02:10-05:00"),
            ("Mar 14 02:10", "2027-03-14T02:10-05:00"),
            ("14 march, 02:10", "2027-03-14T02:10-05:00"),
            ("15 Mar 02:10", "2026-03-15T02:10-05:00"),
            ("March 1st 2026 2:10:05 am", "2026-03-01T02:10:05-05:00"),
            ("14 Mar 2028, 02:10", "2028-03-14T02:10-05:00"),
            ("2 Sept. 02:10", "2026-09-02T02:10-05:00"),
            ("2027-03-14T02:10+01:00", "2027-03-14T02:10+01:00"),
        ] {
            assert_eq!(read(text).as_deref(), Ok(expected), "{text}");
        }
    }

    #[test]
    fn what_could_be_read_in_two_ways_is_not_read() {
        for text in [
            "",
            "2",
            "14/03 02:10",
            "14.3. 02:10",
            "14 3 02:10",
            "14 Mar",
            "Mar 02:10",
            "14 Ma 02:10",
            "14 Mar 27 02:10",
            "2:1",
            "02:10 02:11",
            "13:00 pm",
            "0:30 am",
            "noon",
            "14 Marsh 02:10",
        ] {
            assert_eq!(read(text), Err(NoMoment::Form), "{text}");
        }
        for text in ["30 Feb 02:10", "29 Feb 02:10", "31 Apr 2027 02:10"] {
            assert_eq!(read(text), Err(NoMoment::Impossible), "{text}");
        }
        for text in ["25:10", "02:60"] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_day_is_read_and_said() {
        let day = NaiveDate::from_ymd_opt(2027, 3, 4);
        for text in ["4 Mar 2027", "Mar 4, 2027", "March 4th 2027", "04 mar. 2027"] {
            assert_eq!(read_day(text), Some(day), "{text}");
        }
        assert_eq!(read_day("30 Feb 2027"), Some(None));
        for text in ["03/04/2027", "4 Mar", "4 Mar 2027 02:10", "2027"] {
            assert_eq!(read_day(text), None, "{text}");
        }
        assert_eq!(day.map(|day| day_in_words(day, Language::English)).as_deref(), Some("4 Mar 2027"));
    }
}
