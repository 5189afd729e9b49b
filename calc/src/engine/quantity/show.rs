//! Numbers as a person reads them. Rounding happens here and nowhere else.

/// The value with so many significant digits: fixed notation from 0.001 to a million, else powers of ten.
/// Trailing zeros stay, since they say how well the number is known.
///
/// ```
/// assert_eq!(calc::engine::quantity::show::significant(4.984046, 3), "4.98");
/// assert_eq!(calc::engine::quantity::show::significant(0.65, 3), "0.650");
/// assert_eq!(calc::engine::quantity::show::significant(8943.1, 3), "8943");
/// ```
pub fn significant(value: f64, digits: usize) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    if !value.is_finite() {
        return "not a finite number".to_owned();
    }
    let digits = digits.max(1);
    let exponent = value.abs().log10().floor();
    // 9.996 with three digits is 10.0: round first, then ask how large it is
    let rounded = format!("{:.*e}", digits - 1, value);
    let exponent = rounded.split_once('e').and_then(|(_, e)| e.parse::<f64>().ok()).unwrap_or(exponent);
    if (-3.0..6.0).contains(&exponent) {
        let decimals = (digits as f64 - 1.0 - exponent).max(0.0) as usize;
        minus(&format!("{value:.decimals$}"))
    } else {
        let (mantissa, power) = rounded.split_once('e').unwrap_or((&rounded, "0"));
        format!("{} × 10{}", minus(mantissa), superscript(power))
    }
}

/// The shortest text that reads back as the same number.
pub fn exact(value: f64) -> String {
    if (1e-5..1e15).contains(&value.abs()) || value == 0.0 {
        format!("{value}")
    } else {
        format!("{value:e}")
    }
}

fn minus(text: &str) -> String {
    text.replace('-', "\u{2212}")
}

fn superscript(power: &str) -> String {
    power
        .chars()
        .map(|c| match c {
            '-' => '⁻',
            '0' => '⁰',
            '1' => '¹',
            '2' => '²',
            '3' => '³',
            '4'..='9' => char::from_u32('⁴' as u32 + (c as u32 - '4' as u32)).unwrap_or(c),
            other => other,
        })
        .collect()
}
