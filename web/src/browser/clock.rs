//! The device's own calendar. `calc` has no clock: what needs the date is given it.

use crate::text::say;
use calc::engine::calendar::{Moment, Month};
use web_sys::js_sys::Date;

/// Today as it is printed: 4 Mar 2027, which nobody can read with day and month swapped.
pub fn today() -> String {
    in_words(&Date::new_0())
}

fn in_words(date: &Date) -> String {
    let month = usize::try_from(date.get_month()).ok().and_then(|index| Month::ALL.get(index));
    let month = say(month.map_or("", |month| month.short()));
    format!("{} {month} {}", date.get_date(), date.get_full_year())
}

/// Today as ISO 8601 writes it, for the name of a file.
pub fn iso_date() -> String {
    let now = Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// The present moment with this clock's offset from UTC, as it is typed: 2027-03-14 02:10-05:00.
pub fn iso_moment() -> String {
    let now = Date::new_0();
    // the browser counts the minutes from here to UTC
    let ahead = -now.get_timezone_offset() as i64;
    let (sign, minutes) = (if ahead < 0 { '-' } else { '+' }, ahead.abs());
    let clock = format!("{:02}:{:02}", now.get_hours(), now.get_minutes());
    format!("{} {clock}{sign}{:02}:{:02}", iso_date(), minutes / 60, minutes % 60)
}

/// The same as a moment.
pub fn now() -> Option<Moment> {
    Moment::read(&iso_moment()).ok()
}

/// Day and time of a moment in milliseconds since 1970, as this device's clock has them.
pub fn day_and_time(moment: i64) -> String {
    let date = Date::new(&(moment as f64).into());
    format!("{}, {}", in_words(&date), time_of_day(moment))
}

/// The time of a moment in milliseconds since 1970, as this device's clock has it.
pub fn time_of_day(moment: i64) -> String {
    let date = Date::new(&(moment as f64).into());
    format!("{:02}:{:02}", date.get_hours(), date.get_minutes())
}

/// Asks the browser to print what the view has for paper.
pub fn print() {
    if let Some(window) = web_sys::window() {
        // Refused only where the browser cannot print at all, and then it says so itself.
        let _ = window.print();
    }
}
