//! Reading what a person typed: a number, perhaps with its unit.
//!
//! Decimal comma and point are both read. The point is always a decimal mark; a comma with exactly three digits behind
//! it and one to three before it (`1,234`) could mean either and is asked back.

use super::unit::{Kind, Unit, is_invisible};

/// A number as it was typed, with the unit that was written or taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed {
    /// In the unit.
    pub value: f64,
    /// Whether only this is known of it, that it is less: `<0.005 mg/L`.
    pub below: bool,
    /// The unit.
    pub unit: &'static Unit,
}

impl Typed {
    /// In the SI unit of the kind.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.value)
    }
}

/// Why a text is no number with a unit.
#[derive(Debug, Clone, PartialEq)]
pub enum Unread {
    /// Nothing but spaces.
    Empty,
    /// No digit where a number should begin, or letters within it.
    NotANumber,
    /// `1,234`.
    Ambiguous,
    /// `1.2.3` or `1,234.5`.
    TwoMarks,
    /// `1.5 000`: a space where no group of three digits begins.
    Groups,
    /// Beyond what can be computed with.
    TooLarge,
    /// A number without a unit, where several units are in use.
    NoUnit,
    /// The unit belongs to another kind, or to none.
    UnknownUnit(String),
}

/// Reads a number with its unit; `fallback` is the unit chosen beside the field, taken where none was typed.
///
/// ```
/// use calc::engine::quantity::{kinds::FLOW, text::{read, Unread}};
/// let typed = read("1,5 gpm", &FLOW, None).unwrap();
/// assert_eq!((typed.value, typed.unit.symbol), (1.5, "gal/min"));
/// assert_eq!(read("1,234 L/min", &FLOW, None), Err(Unread::Ambiguous));
/// assert!(read("< 0.5 L/min", &FLOW, None).unwrap().below);
/// ```
pub fn read(text: &str, kind: &'static Kind, fallback: Option<&'static Unit>) -> Result<Typed, Unread> {
    let text = text.trim_matches(|c: char| c.is_whitespace() || is_invisible(c));
    if text.is_empty() {
        return Err(Unread::Empty);
    }
    let (below, text) = match text.strip_prefix('<') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text),
    };
    let end = number_end(text);
    let (number, unit) = text.split_at(end);
    let value = number_of(number)?;
    let unit = unit.trim();
    let unit = if unit.is_empty() {
        match fallback {
            Some(unit) => unit,
            None if kind.is_bare() => &kind.units[0],
            None => return Err(Unread::NoUnit),
        }
    } else {
        kind.written(unit).ok_or_else(|| Unread::UnknownUnit(unit.to_owned()))?
    };
    if unit.to_si(value).is_finite() { Ok(Typed { value, below, unit }) } else { Err(Unread::TooLarge) }
}

/// Where the number ends and the unit begins.
fn number_end(text: &str) -> usize {
    let mut end = 0;
    let mut seen_exponent = false;
    let mut seen_digit = false;
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let exponent = (c == 'e' || c == 'E')
            && seen_digit
            && !seen_exponent
            && chars.peek().is_some_and(|&(_, next)| next.is_ascii_digit() || is_sign(next));
        let belongs = c.is_ascii_digit()
            || matches!(c, '.' | ',')
            || (is_space(c) && groups(&text[at + c.len_utf8()..]))
            || exponent
            || (is_sign(c) && (!seen_digit || text[..at].ends_with(['e', 'E'])));
        if !belongs {
            break;
        }
        seen_exponent |= exponent;
        seen_digit |= c.is_ascii_digit();
        end = at + c.len_utf8();
    }
    end
}

fn is_sign(c: char) -> bool {
    matches!(c, '+' | '-' | '\u{2212}')
}

/// Whether exactly three digits follow, as behind the space of `1 234`.
fn groups(rest: &str) -> bool {
    rest.bytes().take_while(u8::is_ascii_digit).count() == 3
}

/// Whether spaces stand between groups of three digits alone, counted from the decimal mark to both sides: `1 234.567 891`.
/// `1.5 000` is no number: somebody meant 1.5, or 1500.
fn is_well_grouped(text: &str) -> bool {
    let text = text.trim_matches(|c: char| is_space(c) || is_sign(c));
    let mantissa = text.split(['e', 'E']).next().unwrap_or(text);
    let (whole, part) = mantissa.split_once(['.', ',']).unwrap_or((mantissa, ""));
    let lengths = |digits: &str| digits.split(is_space).map(str::len).collect::<Vec<_>>();
    let whole_is = match lengths(whole).as_slice() {
        [_] => true,
        [first, others @ ..] => (1..=3).contains(first) && others.iter().all(|length| *length == 3),
        [] => true,
    };
    let part_is = match lengths(part).as_slice() {
        [_] | [] => true,
        [others @ .., last] => (1..=3).contains(last) && others.iter().all(|length| *length == 3),
    };
    whole_is && part_is
}

/// The spaces with which people group digits.
fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}')
}

/// Reads a number without a unit.
pub fn number_of(text: &str) -> Result<f64, Unread> {
    let plain: String =
        text.chars().filter(|c| !is_space(*c)).map(|c| if c == '\u{2212}' { '-' } else { c }).collect();
    let (mantissa, exponent) = match plain.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, Some(exponent)),
        None => (plain.as_str(), None),
    };
    if !is_well_grouped(text) {
        return Err(Unread::Groups);
    }
    let digits = mantissa.trim_start_matches(['+', '-']);
    let marks = digits.matches(['.', ',']).count();
    if !digits.bytes().any(|b| b.is_ascii_digit())
        || digits.bytes().any(|b| !b.is_ascii_digit() && !matches!(b, b'.' | b','))
    {
        return Err(Unread::NotANumber);
    }
    if marks > 1 {
        return Err(Unread::TwoMarks);
    }
    if let Some((whole, part)) = digits.split_once(',')
        && exponent.is_none()
        && part.len() == 3
        && (1..=3).contains(&whole.len())
        && !whole.starts_with('0')
    {
        return Err(Unread::Ambiguous);
    }
    let mut rust = mantissa.replace(',', ".");
    if let Some(exponent) = exponent {
        rust.push('e');
        rust.push_str(exponent);
    }
    let value: f64 = rust.parse().map_err(|_| Unread::NotANumber)?;
    if value.is_finite() { Ok(value) } else { Err(Unread::TooLarge) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::kinds::{CHLORINE, FLOW, HARDNESS, LENGTH, NUMBER, PRESSURE, TEMPERATURE};

    fn value(text: &str) -> Result<f64, Unread> {
        number_of(text)
    }

    #[test]
    fn both_marks_are_read() {
        for (text, expected) in [
            ("1,5", 1.5),
            ("1.5", 1.5),
            ("0,123", 0.123),
            ("12,34", 12.34),
            ("1.234", 1.234),
            ("1 234,5", 1234.5),
            ("\u{2212}3", -3.0),
            ("1.2e-3", 1.2e-3),
            (".5", 0.5),
            ("1234,567", 1234.567),
            ("12 345 678.123 456", 12_345_678.123_456),
        ] {
            assert_eq!(value(text), Ok(expected), "{text}");
        }
    }

    #[test]
    fn what_is_no_number_says_why() {
        for (text, expected) in [
            ("1,234", Unread::Ambiguous),
            ("1.2.3", Unread::TwoMarks),
            ("1,234.5", Unread::TwoMarks),
            ("abc", Unread::NotANumber),
            ("inf", Unread::NotANumber),
            ("nan", Unread::NotANumber),
            ("1e999", Unread::TooLarge),
            ("1.5 000", Unread::Groups),
            ("1234 567", Unread::Groups),
            ("0,12 345", Unread::Groups),
            ("-", Unread::NotANumber),
            ("1e", Unread::NotANumber),
        ] {
            assert_eq!(value(text), Err(expected), "{text}");
        }
    }

    #[test]
    fn units_are_read_in_their_usual_spellings() {
        for (text, symbol) in [
            ("2 gpm", "gal/min"),
            ("2 US gal/min", "gal/min"),
            ("2 l/min", "L/min"),
            ("2L/min", "L/min"),
            ("2 GPM", "gal/min"),
            ("<2 gpm", "gal/min"),
        ] {
            assert_eq!(read(text, &FLOW, None).map(|typed| typed.unit.symbol), Ok(symbol), "{text}");
        }
        assert_eq!(read("2 psi", &FLOW, None), Err(Unread::UnknownUnit("psi".into())));
        assert_eq!(read("2", &FLOW, None), Err(Unread::NoUnit));
        assert_eq!(read("<", &FLOW, None), Err(Unread::NotANumber));
        assert_eq!(read("<<2 gpm", &FLOW, None), Err(Unread::NotANumber));
        assert_eq!(read("1 250 L/min", &FLOW, None).map(|typed| typed.value), Ok(1250.0));
        assert_eq!(read("12 5 L/min", &FLOW, None), Err(Unread::UnknownUnit("5 L/min".into())));
        assert_eq!(read("7.4", &NUMBER, None).map(|typed| typed.value), Ok(7.4));
    }

    #[test]
    fn signs_that_look_alike_and_marks_that_nobody_sees_are_read() {
        for (text, kind, si) in [
            ("100 mg/L CaCO3", &HARDNESS, 0.1),
            ("100 mg/L CaCO₃", &HARDNESS, 0.1),
            ("1.2 mg/L Cl2", &CHLORINE, 1.2e-3),
            ("45 lb/in2", &PRESSURE, 45.0 * 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254)),
            ("25 ℃", &TEMPERATURE, 298.15),
            ("77 ℉", &TEMPERATURE, 298.15),
            ("10″", &LENGTH, 0.254),
            ("10”", &LENGTH, 0.254),
            ("1′", &LENGTH, 0.3048),
            ("\u{feff}2 L/min", &FLOW, 2e-3 / 60.0),
            ("\u{200e}2\u{a0}L/min\u{200b}", &FLOW, 2e-3 / 60.0),
        ] {
            let read = read(text, kind, None).map(|typed| typed.si());
            assert!(read.as_ref().is_ok_and(|read| (read - si).abs() <= 1e-12 * si), "{text}: {read:?}");
        }
        assert_eq!(read("1.5 000 L/min", &FLOW, None), Err(Unread::Groups));
    }

    #[test]
    fn a_tolerance_of_temperature_has_no_offset() {
        let fahrenheit = read("41 °F", &TEMPERATURE, None).map(|typed| typed.si());
        assert!(fahrenheit.is_ok_and(|si| (si - 278.15).abs() < 1e-12));
        let step = read("0.9 °F", TEMPERATURE.of_difference(), None).map(|typed| typed.si());
        assert!(step.is_ok_and(|si| (si - 0.5).abs() < 1e-12));
    }
}
