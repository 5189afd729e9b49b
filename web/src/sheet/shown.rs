//! Numbers and units as they stand in the answers.

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

/// A difference of two values: of temperatures, one without the offset of the scale.
pub fn difference(si: f64, kind: &'static Kind, set: UnitSet) -> String {
    quantity(si, kind.of_difference().unit_in(set))
}

/// Half of an interval, in the unit of the value itself.
pub fn half_width(si: f64, unit: &'static Unit) -> String {
    significant(si / unit.factor, DIGITS_OF_INTERVAL)
}

/// A share as a signed percentage.
pub fn percent(share: f64) -> String {
    let percent = significant(100.0 * share, 2);
    let sign = if share > 0.0 { "+" } else { "" };
    format!("{sign}{percent}\u{a0}%")
}

/// The text with its unit behind it.
pub fn with_unit(number: String, unit: &'static Unit) -> String {
    if unit.symbol.is_empty() { number } else { format!("{number}\u{a0}{}", unit.symbol) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calc::engine::quantity::kinds::{FLOW, TEMPERATURE};

    #[test]
    fn a_difference_of_temperatures_has_no_offset() {
        // 5 K are 9 °F by definition.
        assert_eq!(difference(5.0, &TEMPERATURE, UnitSet::Us), "9.00\u{a0}°F");
        assert_eq!(half_width(0.5, TEMPERATURE.unit("°F")), "0.90");
        assert_eq!(quantity(278.15, TEMPERATURE.unit("°C")), "5.00\u{a0}°C");
    }

    #[test]
    fn a_share_has_its_sign() {
        assert_eq!(percent(-0.5016), "−50\u{a0}%");
        assert_eq!(percent(0.034), "+3.4\u{a0}%");
        assert_eq!(percent(0.0), "0\u{a0}%");
        assert_eq!(quantity(1e-3 / 60.0, FLOW.unit("L/min")), "1.00\u{a0}L/min");
    }
}
