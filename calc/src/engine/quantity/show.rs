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

/// A number that somebody gave, as it was given where few digits say it; else with three significant digits, since then
/// it was given in another unit.
///
/// ```
/// use calc::engine::quantity::show::given;
/// assert_eq!((given(0.65), given(0.65 * 60.0 / 60.0000001)), ("0.65".into(), "0.650".into()));
/// assert_eq!((given(4.5e-3 * 1e3), given(1200.0), given(1.892706)), ("4.5".into(), "1200".into(), "1.89".into()));
/// ```
pub fn given(value: f64) -> String {
    // as many as are typed into a field; what conversion and back leaves lies beyond the twelfth digit
    let short: f64 = format!("{value:.4e}").parse().unwrap_or(value);
    if value == 0.0 || (short - value).abs() > 1e-12 * value.abs() {
        return significant(value, 3);
    }
    let (mantissa, power) = match significant(short, 5).split_once(" × ") {
        Some((mantissa, power)) => (mantissa.to_owned(), format!(" × {power}")),
        None => (significant(short, 5), String::new()),
    };
    let plain = match mantissa.contains('.') {
        true => mantissa.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => mantissa,
    };
    plain + &power
}

/// The value with three significant digits, or fewer where half the width of its interval leaves no more.
///
/// ```
/// use calc::engine::quantity::show::supported;
/// assert_eq!((supported(10.2, 0.687), supported(10.2, 5.0), supported(10.2, 30.0)), ("10.2".into(), "10.2".into(), "10".into()));
/// assert_eq!(supported(0.614, 0.2), "0.61");
/// ```
pub fn supported(value: f64, half_width: f64) -> String {
    let exponent = |number: f64| number.abs().log10().floor();
    // two digits of the interval tell how well the value is known
    let room = exponent(value) - exponent(half_width) + 2.0;
    let digits = if half_width > 0.0 && room.is_finite() { room.clamp(1.0, 3.0) } else { 3.0 };
    significant(value, digits as usize)
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
