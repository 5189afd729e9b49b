//! A moment as a clock on the wall shows it, with that clock's offset from UTC, so that elapsed time is right over midnight
//! and over a change of the clock.

use crate::engine::language::Language;
use crate::engine::quantity::Time;
use chrono::{DateTime, FixedOffset, NaiveDate, NaiveDateTime, TimeDelta, TimeZone, Timelike};

/// A date and a time with the offset from UTC (ISO 8601, RFC 3339).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment(DateTime<FixedOffset>);

/// Why a text is no moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoMoment {
    /// Not written as it is read here.
    Form,
    /// Written well, without the offset from UTC.
    NoOffset,
    /// Written well, and the calendar or the clock has no such thing.
    Impossible,
}

impl Moment {
    /// Reads `2026-11-12T08:30+01:00`; seconds may follow the minutes, a space stand for the T, and Z for +00:00.
    ///
    /// # Errors
    /// Which of the ways it fails.
    ///
    /// # Example
    /// ```
    /// use calc::engine::calendar::{Moment, NoMoment};
    /// let moment = Moment::read("2026-11-12 08:30+01:00").unwrap();
    /// assert_eq!(moment.to_string(), "2026-11-12T08:30+01:00");
    /// assert_eq!(Moment::read("2026-11-12T08:30"), Err(NoMoment::NoOffset));
    /// ```
    pub fn read(text: &str) -> Result<Moment, NoMoment> {
        let text = text.trim();
        let digits = |at: std::ops::Range<usize>| {
            text.get(at).is_some_and(|part| part.bytes().all(|byte| byte.is_ascii_digit()))
        };
        let sign = |at: usize, signs: &[u8]| text.as_bytes().get(at).is_some_and(|byte| signs.contains(byte));
        let is_day = digits(0..4) && sign(4, b"-") && digits(5..7) && sign(7, b"-") && digits(8..10);
        let is_clock = sign(10, b"Tt ") && digits(11..13) && sign(13, b":") && digits(14..16);
        if !is_day || !is_clock {
            return Err(NoMoment::Form);
        }
        let has_seconds = sign(16, b":") && digits(17..19);
        let (clock, offset) = text.split_at(if has_seconds { 19 } else { 16 });
        let offset = offset.trim_start();
        if offset.is_empty() {
            return Err(NoMoment::NoOffset);
        }
        let is_offset = offset.eq_ignore_ascii_case("z")
            || (offset.len() == 6 && offset.starts_with(['+', '-']) && offset.as_bytes()[3] == b':');
        if !is_offset {
            return Err(NoMoment::Form);
        }
        let seconds = if has_seconds { "" } else { ":00" };
        let whole = format!("{}{seconds}{offset}", clock.replacen(' ', "T", 1));
        DateTime::parse_from_rfc3339(&whole).map(Moment).map_err(|_| NoMoment::Impossible)
    }

    /// The time that has really gone by since an earlier moment, whatever the clocks did; negative the other way round.
    pub fn since(self, earlier: Moment) -> Time {
        let gone = self.0.signed_duration_since(earlier.0);
        Time::of(gone.num_milliseconds() as f64 / 1000.0)
    }

    /// So much later, by the same clock; none beyond the calendar.
    pub fn after(self, time: Time) -> Option<Moment> {
        let delta = TimeDelta::try_milliseconds((time.si() * 1000.0).round() as i64)?;
        self.0.checked_add_signed(delta).map(Moment)
    }

    /// The day on its own clock.
    pub fn date(self) -> NaiveDate {
        self.0.date_naive()
    }

    /// Milliseconds since the beginning of 1970 in UTC.
    pub fn milliseconds(self) -> i64 {
        self.0.timestamp_millis()
    }

    /// A date and a time on its own clock; none that this clock never shows.
    pub(super) fn on_its_clock(self, local: NaiveDateTime) -> Option<Moment> {
        self.0.offset().from_local_datetime(&local).single().map(Moment)
    }

    /// As people read it, by its own clock: `14 Mar 2027, 02:10`.
    pub fn in_words(self, language: Language) -> String {
        format!("{}, {}", super::day_in_words(self.date(), language), self.0.format("%H:%M"))
    }

    /// What its own clock shows: 07:20.
    pub fn clock_time(self) -> String {
        self.0.format("%H:%M").to_string()
    }

    /// How long it is until its own clock shows a full hour; none where it does.
    pub fn until_full_hour(self) -> Time {
        let past = self.0.minute() * 60 + self.0.second();
        Time::of(f64::from((3600 - past) % 3600))
    }

    /// The same moment as the clock of another one shows it.
    pub fn by_clock_of(self, other: Moment) -> Moment {
        Moment(self.0.with_timezone(other.0.offset()))
    }
}

impl std::fmt::Display for Moment {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let is_whole = self.0.timestamp() % 60 == 0;
        let form = if is_whole { "%Y-%m-%dT%H:%M%:z" } else { "%Y-%m-%dT%H:%M:%S%:z" };
        write!(f, "{}", self.0.format(form))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::{hours, minutes};

    fn read(text: &str) -> Moment {
        Moment::read(text).unwrap()
    }

    #[test]
    fn elapsed_time_does_not_follow_the_clock() {
        // the clocks of Paris went from 03:00+02:00 back to 02:00+01:00 on 25 October 2026
        let (evening, morning) = (read("2026-10-25T00:30+02:00"), read("2026-10-25T03:30+01:00"));
        assert_eq!(morning.since(evening), hours(4.0));
        let due = evening.after(hours(4.0)).unwrap();
        assert_eq!(due.to_string(), "2026-10-25T04:30+02:00");
        assert_eq!(due.by_clock_of(morning).to_string(), "2026-10-25T03:30+01:00");
        assert_eq!(due, morning);
    }

    #[test]
    fn each_way_to_fail_is_told() {
        assert_eq!(read("2026-11-12T08:30Z").to_string(), "2026-11-12T08:30+00:00");
        assert_eq!(read("2026-11-12T08:30:15-05:00").to_string(), "2026-11-12T08:30:15-05:00");
        for (text, why) in [
            ("2026-11-12", NoMoment::Form),
            ("08:30", NoMoment::Form),
            ("12.11.2026 08:30", NoMoment::Form),
            ("2026-11-12T08:30+0100", NoMoment::Form),
            ("2026-11-12T08:30 Paris", NoMoment::Form),
            ("2026-11-12T08:30é", NoMoment::Form),
            ("2026-11-12T08:30", NoMoment::NoOffset),
            ("2026-11-12T08:30:00", NoMoment::NoOffset),
            ("2026-02-30T08:30+01:00", NoMoment::Impossible),
            ("2026-11-12T25:30+01:00", NoMoment::Impossible),
            ("2026-11-12T08:30+99:00", NoMoment::Impossible),
        ] {
            assert_eq!(Moment::read(text), Err(why), "{text}");
        }
    }

    #[test]
    fn a_moment_is_said_by_its_own_clock() {
        let morning = read("2027-03-04T02:10-05:00");
        assert_eq!(morning.in_words(Language::English), "4 Mar 2027, 02:10");
        assert_eq!((morning.clock_time().as_str(), morning.until_full_hour()), ("02:10", minutes(50.0)));
        assert_eq!(read("2027-03-04T02:00+00:00").until_full_hour(), minutes(0.0));
    }

    #[test]
    fn the_calendar_ends_somewhere() {
        assert_eq!(read("9999-12-31T23:00+00:00").after(Time::of(1e300)), None);
    }
}
