//! Which ids somebody may have meant who wrote another one.

/// The ids nearest to what was written, at most three, nearest first.
pub(super) fn to<'a>(written: &str, ids: impl Iterator<Item = &'a str>) -> Vec<&'a str> {
    // an id is short; of a long text the beginning tells enough
    let written: Vec<char> = written.to_lowercase().chars().take(60).collect();
    let mut ranked: Vec<(usize, &str)> = ids.map(|id| (distance(&written, id), id)).collect();
    ranked.sort_by_key(|(distance, _)| *distance);
    ranked.truncate(3);
    ranked.into_iter().map(|(_, id)| id).collect()
}

/// How many letters must be put in, taken out or changed (Levenshtein); an id that holds the whole text is near, too.
fn distance(written: &[char], id: &str) -> usize {
    let text: String = written.iter().collect();
    if !text.is_empty() && id.contains(&text) {
        return 1;
    }
    let letters: Vec<char> = id.chars().collect();
    let mut row: Vec<usize> = (0..=letters.len()).collect();
    for (i, a) in written.iter().enumerate() {
        let mut corner = row[0];
        row[0] = i + 1;
        for (j, b) in letters.iter().enumerate() {
            let change = corner + usize::from(a != b);
            corner = row[j + 1];
            row[j + 1] = change.min(corner + 1).min(row[j] + 1);
        }
    }
    row[letters.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_are_counted() {
        let distance = |a: &str, b: &str| super::distance(&a.chars().collect::<Vec<_>>(), b);
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("", "abc"), 3);
        assert_eq!(distance("abc", "abc"), 1);
        assert_eq!(distance("flaw", "lawn"), 2);
    }

    #[test]
    fn the_nearest_come_first() {
        let ids = ["recovery", "bed-volume", "flow", "product-flow", "second-bed-volume"];
        assert_eq!(to("bed_volume", ids.into_iter())[0], "bed-volume");
        assert_eq!(to("flow", ids.into_iter())[..2], ["flow", "product-flow"]);
        assert_eq!(to(&"x".repeat(100_000), ids.into_iter()).len(), 3);
    }
}
