//! Numbers and units as they stand in the answers.

use crate::text::say;
use calc::documents::record::When;
use calc::engine::calendar::Month;
use calc::engine::quantity::show::significant;
use calc::engine::quantity::{Kind, Unit, UnitSet};
use calc::engine::sheet::{Field, Shape};

/// Digits of an answer.
const DIGITS: usize = 3;
/// Digits of an interval.
const DIGITS_OF_INTERVAL: usize = 2;

/// The unit in which a field answers.
pub fn unit_of(field: &'static Field, kind: &'static Kind, set: UnitSet) -> &'static Unit {
    field.term.unit(set == UnitSet::Us).unwrap_or_else(|| kind.unit_in(set))
}

/// The unit over a column of numbers, where it has one.
pub fn unit_of_column(column: &'static Field, set: UnitSet) -> Option<&'static Unit> {
    match column.shape {
        Shape::Number(kind) if !kind.is_bare() => Some(unit_of(column, kind, set)),
        _ => None,
    }
}

/// The number alone.
pub fn number(si: f64, unit: &'static Unit) -> String {
    significant(unit.of_si(si), DIGITS)
}

/// Number and unit; a no-break space keeps them on one line.
pub fn quantity(si: f64, unit: &'static Unit) -> String {
    with_unit(number(si, unit), unit)
}

/// An answer in its unit; what counts whole ones has no decimals.
pub fn answer(field: &'static Field, si: f64, kind: &'static Kind, set: UnitSet) -> String {
    if field.term.whole { format!("{si:.0}") } else { quantity(si, unit_of(field, kind, set)) }
}

/// A moment as people write it, from ISO 8601: 14 Mar 2027, 02:10. The offset from UTC is that of the reader's own clock,
/// where it was typed.
pub fn moment(iso: &str) -> String {
    match iso.split_once('T') {
        Some((day, clock)) if clock.len() >= 5 => format!("{}, {}", date(day), &clock[..5]),
        _ => iso.to_owned(),
    }
}

/// The same of what happened at a moment, or on a day of which nobody knows the hour.
pub fn moment_or_day(when: When) -> String {
    match when {
        When::At(at) => moment(&at.to_string()),
        When::On(day) => date(&day.to_string()),
    }
}

/// A date as people write it, from ISO 8601: 14 Mar 2027, which nobody can read with day and month swapped.
pub fn date(iso: &str) -> String {
    let parts: Vec<&str> = iso.splitn(3, '-').collect();
    let [year, month, day] = parts[..] else { return iso.to_owned() };
    let month = month.parse::<usize>().ok().and_then(|month| Month::ALL.get(month.checked_sub(1)?));
    match (month, day.parse::<u32>()) {
        (Some(month), Ok(day)) => format!("{day} {} {year}", say(month.short())),
        _ => iso.to_owned(),
    }
}

/// A limit: as short as the rule states it, where that is no other number; else as an answer.
pub fn stated(si: f64, unit: &'static Unit) -> String {
    with_unit(shortest(unit.of_si(si), DIGITS), unit)
}

/// So many digits, without the zeros at the end where the number is exactly that.
fn shortest(value: f64, digits: usize) -> String {
    let rounded = significant(value, digits);
    let as_rounded: f64 = format!("{value:.*e}", digits - 1).parse().unwrap_or(f64::NAN);
    let is_exact = (value - as_rounded).abs() <= 1e-9 * value.abs();
    if is_exact && rounded.contains('.') && !rounded.contains('×') {
        rounded.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        rounded
    }
}

/// A difference of two values: of temperatures, one without the offset of the scale.
pub fn difference(si: f64, kind: &'static Kind, set: UnitSet) -> String {
    let unit = kind.of_difference().unit_in(set);
    with_unit(shortest(unit.of_si(si), DIGITS_OF_INTERVAL), unit)
}

/// Half of an interval, in the unit of the value itself.
pub fn half_width(si: f64, unit: &'static Unit) -> String {
    significant(si / unit.factor, DIGITS_OF_INTERVAL)
}

/// A share as a percentage.
pub fn percent(share: f64) -> String {
    format!("{}\u{a0}%", significant(100.0 * share, DIGITS_OF_INTERVAL))
}

/// A time of hours and minutes, to the nearest minute.
pub fn duration(seconds: f64) -> String {
    let minutes = (seconds / 60.0).round().max(0.0);
    format!("{}:{:02}\u{a0}h", (minutes / 60.0).floor(), minutes % 60.0)
}

/// The text with its unit behind it.
pub fn with_unit(number: String, unit: &'static Unit) -> String {
    if unit.symbol.is_empty() { number } else { format!("{number}\u{a0}{}", unit.shown()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calc::engine::quantity::kinds::{FLOW, TEMPERATURE};

    #[test]
    fn a_difference_of_temperatures_has_no_offset() {
        // 5 K are 9 °F by definition.
        assert_eq!(difference(5.0, &TEMPERATURE, UnitSet::Us), "9\u{a0}°F");
        assert_eq!(half_width(0.5, TEMPERATURE.unit("°F")), "0.90");
        assert_eq!(quantity(278.15, TEMPERATURE.unit("°C")), "5.00\u{a0}°C");
    }

    #[test]
    fn a_moment_is_written_as_people_write_it() {
        assert_eq!(moment("2027-03-14T02:10-05:00"), "14 Mar 2027, 02:10");
        assert_eq!(date("2027-11-02"), "2 Nov 2027");
        for other in ["", "soon", "2027-13-01", "2027-03"] {
            assert_eq!((date(other).as_str(), moment(other).as_str()), (other, other));
        }
    }

    #[test]
    fn a_limit_is_as_short_as_its_rule() {
        let minutes = calc::engine::quantity::kinds::TIME.unit("min");
        assert_eq!(stated(600.0, minutes), "10\u{a0}min");
        assert_eq!(stated(600.0 / 7.0, minutes), "1.43\u{a0}min");
        assert_eq!(stated(0.65e-3 / 60.0, FLOW.unit("L/min")), "0.65\u{a0}L/min");
        assert_eq!(stated(0.0, minutes), "0\u{a0}min");
    }

    #[test]
    fn a_time_of_a_day_has_hours_and_minutes() {
        assert_eq!(duration(4.5 * 3600.0), "4:30\u{a0}h");
        assert_eq!(duration(5.0 * 60.0), "0:05\u{a0}h");
        assert_eq!(duration(3599.9), "1:00\u{a0}h");
    }

    #[test]
    fn a_share_is_in_per_cent() {
        assert_eq!(percent(0.5016), "50\u{a0}%");
        assert_eq!(percent(0.034), "3.4\u{a0}%");
        assert_eq!(percent(0.0), "0\u{a0}%");
        assert_eq!(quantity(1e-3 / 60.0, FLOW.unit("L/min")), "1.00\u{a0}L/min");
    }
}
