//! Numbers that JSON allows and no computing holds, such as `1e400`.

/// The line with each such number as a text, which the field that holds it then refuses by name; `None` where there is none.
pub(super) fn as_text(line: &[u8]) -> Option<Vec<u8>> {
    let mut out = Vec::with_capacity(line.len() + 2);
    let (mut rest, mut found) = (line, false);
    while let Some(&byte) = rest.first() {
        let length = match byte {
            b'"' => text_length(rest),
            b'-' | b'0'..=b'9' => number_length(rest),
            _ => 1,
        };
        let (token, after) = rest.split_at(length);
        let number = std::str::from_utf8(token).ok().and_then(|token| token.parse::<f64>().ok());
        if number.is_some_and(f64::is_infinite) {
            out.push(b'"');
            out.extend_from_slice(token);
            out.push(b'"');
            found = true;
        } else {
            out.extend_from_slice(token);
        }
        rest = after;
    }
    found.then_some(out)
}

/// How many bytes the text has that begins here, with its quotation marks.
fn text_length(line: &[u8]) -> usize {
    let mut escaped = true;
    let end = line.iter().position(|&byte| {
        let is_end = byte == b'"' && !escaped;
        escaped = byte == b'\\' && !escaped;
        is_end
    });
    end.map_or(line.len(), |end| end + 1)
}

fn number_length(line: &[u8]) -> usize {
    let is_of_number = |byte: &u8| byte.is_ascii_digit() || matches!(byte, b'-' | b'+' | b'.' | b'e' | b'E');
    line.iter().position(|byte| !is_of_number(byte)).unwrap_or(line.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_numbers_beyond_range_become_texts() {
        let text =
            |line: &str| as_text(line.as_bytes()).map(|line| String::from_utf8_lossy(&line).into_owned());
        assert_eq!(
            text(r#"{"a": [1e400, -2E+999, 3], "b1e400": "\"1e400\\"}"#).as_deref(),
            Some(r#"{"a": ["1e400", "-2E+999", 3], "b1e400": "\"1e400\\"}"#)
        );
        assert_eq!(text(r#"{"a": 1e-400, "b": "1e400"}"#), None);
        assert_eq!(text("\"1e400"), None);
    }
}
