//! Fills the shell: its comments are the places.

/// The shell without its comments; a comment that names a part (`<!-- pack:style -->`) is replaced by it, and
/// `<!-- unbuilt --> ... <!-- /unbuilt -->` leaves the page. Each part must have exactly one place.
///
/// What is put in is not searched again, so a part may hold anything.
pub fn fill(shell: &str, parts: &[(&str, &str)]) -> Result<String, String> {
    let mut page = String::new();
    let mut placed = vec![0; parts.len()];
    let mut rest = shell;
    let mut unbuilt = false;
    while let Some((before, after)) = rest.split_once("<!--") {
        let Some((comment, after)) = after.split_once("-->") else {
            return Err("the shell has a comment without an end".to_owned());
        };
        if !unbuilt {
            page.push_str(before);
        }
        match comment.trim() {
            "unbuilt" => unbuilt = true,
            "/unbuilt" => unbuilt = false,
            named => {
                if let Some(name) = named.strip_prefix("pack:") {
                    let Some(index) = parts.iter().position(|(part, _)| *part == name) else {
                        return Err(format!("the shell asks for `{name}`, which the packer does not have"));
                    };
                    placed[index] += 1;
                    page.push_str(parts[index].1);
                }
            }
        }
        rest = after;
    }
    page.push_str(rest);
    for ((name, _), count) in parts.iter().zip(placed) {
        if count != 1 {
            return Err(format!("the shell has {count} places for `{name}`, not one"));
        }
    }
    Ok(page)
}

/// Refuses a text that would end its own element, or, in a script, begin a comment in which no end tag counts.
pub fn refuse_end_tag(element: &str, text: &str, what: &str) -> Result<(), String> {
    let lower = text.to_ascii_lowercase();
    for refused in [format!("</{element}"), "<!--".to_owned()] {
        if lower.contains(&refused) {
            return Err(format!("{what} holds `{refused}` and cannot stand inside the page"));
        }
    }
    Ok(())
}

/// Refuses a part that names a place outside: the page's policy would block it, and nobody would see why.
pub fn refuse_address(text: &str, what: &str) -> Result<(), String> {
    match ["://", "url(//", "src=\"//"].into_iter().find(|sign| text.contains(sign)) {
        Some(sign) => Err(format!("{what} holds `{sign}`, an address outside of the file")),
        None => Ok(()),
    }
}

/// A text as it stands inside an element.
pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_filled_and_other_comments_go() {
        let page = fill("<a><!-- why --><!-- pack:style --></a>", &[("style", "S")]);
        assert_eq!(page, Ok("<a>S</a>".to_owned()));
    }

    #[test]
    fn what_is_put_in_is_not_searched() {
        let page = fill("<!-- pack:a -->|<!-- pack:b -->", &[("a", "<!-- pack:b -->"), ("b", "B")]);
        assert_eq!(page, Ok("<!-- pack:b -->|B".to_owned()));
    }

    #[test]
    fn the_words_of_the_unbuilt_shell_leave_the_page() {
        let page = fill("1<!-- unbuilt -->build me<!-- note -->!<!-- /unbuilt -->2", &[]);
        assert_eq!(page, Ok("12".to_owned()));
    }

    #[test]
    fn a_place_without_a_part_and_a_part_without_a_place_are_refused() {
        assert!(fill("<!-- pack:a -->", &[]).is_err());
        assert!(fill("", &[("a", "A")]).is_err());
        assert!(fill("<!-- pack:a --><!-- pack:a -->", &[("a", "A")]).is_err());
        assert!(fill("<!-- pack:a", &[("a", "A")]).is_err());
    }

    #[test]
    fn a_text_that_would_end_its_element_is_refused() {
        assert!(refuse_end_tag("script", "let a = '</ScRiPt >';", "it").is_err());
        assert!(refuse_end_tag("script", "if (a <!--b) {}", "it").is_err());
        assert!(refuse_end_tag("style", "a::before { content: '</style' }", "it").is_err());
        assert_eq!(refuse_end_tag("script", "a < b; '<script>'; '<\\/script>'", "it"), Ok(()));
    }
}
