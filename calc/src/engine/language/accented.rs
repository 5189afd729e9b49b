//! A language that nobody speaks and everybody can read: every letter has an accent, and every text is a third longer.
//! Where it is shown, a text without accents is one that no language would reach.

use crate::engine::sheet::next_place;
use std::cell::RefCell;
use std::collections::HashMap;

/// What fills the third: it ends a text visibly, so that a text that is cut off shows.
const TAIL: &str = " ẋẋẋẋẋ";

/// The text with accents, a third longer. Places stay, and the words in them get their accents.
///
/// ```
/// use calc::engine::language::accented;
/// assert_eq!(accented("Row {row}"), "Ŕöŵ {row}");
/// assert_eq!(accented("{rows?row|rows}"), "{rows?ŕöŵ|ŕöŵš}");
/// assert_eq!(accented("12 %"), "12 %");
/// ```
pub fn accented(english: &str) -> String {
    let mut shown = String::with_capacity(2 * english.len());
    let (mut rest, mut letters) = (english, 0);
    while let Some((before, place, after)) = next_place(rest) {
        letters += accent(before, &mut shown);
        shown.push('{');
        match place.split_once('?') {
            Some((name, words)) => {
                shown.push_str(name);
                shown.push('?');
                accent(words, &mut shown);
            }
            None => shown.push_str(place),
        }
        shown.push('}');
        rest = after;
    }
    letters += accent(rest, &mut shown);
    // without letters there is nothing to translate
    let end = shown.trim_end_matches([' ', '.', ':', ';', ',', '?', '!']).len();
    let tail = shown.split_off(end);
    let mut longer = letters.div_ceil(3);
    let mut of_tail = TAIL.chars().cycle();
    while longer > 1 {
        shown.extend(of_tail.next());
        longer -= 1;
    }
    shown.truncate(shown.trim_end().len());
    shown + &tail
}

/// Adds the text with accents; how many letters it has.
fn accent(text: &str, shown: &mut String) -> usize {
    let mut letters = 0;
    for c in text.chars() {
        letters += usize::from(c.is_ascii_alphabetic());
        shown.push(match ACCENTS.iter().find(|(plain, _)| *plain == c.to_ascii_lowercase()) {
            Some((_, accent)) if c.is_ascii_uppercase() => accent.to_uppercase().next().unwrap_or(*accent),
            Some((_, accent)) => *accent,
            None => c,
        });
    }
    letters
}

const ACCENTS: [(char, char); 26] = [
    ('a', 'á'),
    ('b', 'ḃ'),
    ('c', 'ç'),
    ('d', 'ď'),
    ('e', 'é'),
    ('f', 'ḟ'),
    ('g', 'ğ'),
    ('h', 'ĥ'),
    ('i', 'í'),
    ('j', 'ĵ'),
    ('k', 'ķ'),
    ('l', 'ļ'),
    ('m', 'ṁ'),
    ('n', 'ñ'),
    ('o', 'ö'),
    ('p', 'ṗ'),
    ('q', 'ɋ'),
    ('r', 'ŕ'),
    ('s', 'š'),
    ('t', 'ť'),
    ('u', 'ü'),
    ('v', 'ṽ'),
    ('w', 'ŵ'),
    ('x', 'ẋ'),
    ('y', 'ý'),
    ('z', 'ž'),
];

thread_local! {
    static KEPT: RefCell<HashMap<&'static str, &'static str>> = RefCell::default();
}

/// The same, made once for each text and kept as long as the program runs.
pub(super) fn kept(english: &'static str) -> &'static str {
    KEPT.with_borrow_mut(|kept| *kept.entry(english).or_insert_with(|| accented(english).leak()))
}
