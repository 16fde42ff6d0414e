//! The nearest right name for a misspelt one.

use super::clean::quote;

/// Longer words are no misspelling of a name.
const LONGEST: usize = 80;

/// The candidate that the word was most likely meant to be, if any is near enough.
///
/// Case, and the difference of hyphen, underscore and space, do not count. Then come the same words in
/// another order, then the fewest slips (a letter wrong, missing, extra, or two swapped; at most one in
/// three letters), then the only candidate that begins or ends with the word.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = fold(word);
    let length = word.chars().count();
    if length == 0 || length > LONGEST {
        return None;
    }
    let sorted = sorted_parts(&word);
    let mut best: Option<(usize, &'a str)> = None;
    let mut parts_of: Vec<&'a str> = Vec::new();
    for candidate in candidates {
        let folded = fold(candidate);
        if folded == word {
            return Some(candidate);
        }
        let slips = if sorted_parts(&folded) == sorted {
            1
        } else {
            strsim::osa_distance(&word, &folded)
        };
        let allowed = length.max(folded.chars().count()) / 3;
        if slips <= allowed && best.is_none_or(|(fewest, _)| slips < fewest) {
            best = Some((slips, candidate));
        }
        if length >= 4 && (folded.starts_with(&word) || folded.ends_with(&word)) {
            parts_of.push(candidate);
        }
    }
    match (best, parts_of.as_slice()) {
        (Some((_, candidate)), _) => Some(candidate),
        (None, [only]) => Some(only),
        _ => None,
    }
}

/// The question ``did you mean `x`?`` for [`nearest`].
pub fn phrase<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<String> {
    nearest(word, candidates).map(|name| format!("did you mean {}?", quote(name)))
}

fn fold(word: &str) -> String {
    word.trim()
        .chars()
        .flat_map(char::to_lowercase)
        .map(|c| if matches!(c, '_' | ' ') { '-' } else { c })
        .collect()
}

fn sorted_parts(folded: &str) -> Vec<&str> {
    let mut parts: Vec<&str> = folded.split(['-', '.']).collect();
    parts.sort_unstable();
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    const NAMES: [&str; 8] = [
        "gross_weight",
        "empty_weight",
        "gvwr",
        "model_year",
        "flatbed",
        "fifth-wheel",
        "US-NE",
        "boat",
    ];

    #[rstest]
    #[case("gross_wieght", Some("gross_weight"))]
    #[case("Gross Weight", Some("gross_weight"))]
    #[case("weight_gross", Some("gross_weight"))]
    #[case("gwvr", Some("gvwr"))]
    #[case("us-ne", Some("US-NE"))]
    #[case("fifth_wheel", Some("fifth-wheel"))]
    #[case("fifth", Some("fifth-wheel"))]
    #[case("flat-bed", Some("flatbed"))]
    #[case("bote", None)]
    #[case("boot", Some("boat"))]
    #[case("weight", None)]
    #[case("zebra", None)]
    #[case("", None)]
    fn nearest_name(#[case] word: &str, #[case] expected: Option<&str>) {
        assert_eq!(nearest(word, NAMES), expected);
    }

    #[test]
    fn a_huge_word_has_no_neighbour() {
        assert_eq!(nearest(&"gvwr".repeat(100_000), NAMES), None);
    }

    #[test]
    fn phrases() {
        assert_eq!(
            phrase("gwvr", NAMES).as_deref(),
            Some("did you mean `gvwr`?")
        );
    }
}
