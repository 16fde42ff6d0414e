//! Figures with thousands commas inside `{}` and `[]`.
//!
//! In YAML a comma ends an item of a flow collection, so `{rating: 3,500 lb, braked: true}` is read by
//! any parser as `rating: 3`, a key `500 lb` without a value, and `braked: true`. People write weights
//! that way, and a weight of `3` would be a dangerous reading, so the pieces are put together again.
//!
//! A piece continues the one before it when all of this holds:
//! 1. Both are plain scalars of the same flow collection. In a mapping the earlier one is a value, and the
//!    later one is a key with neither a value nor a colon.
//! 2. In the text exactly one comma stands between them: no space, no line break, no quote, no anchor.
//! 3. The later one begins with three digits that no further digit follows.
//! 4. The earlier one ends in a figure as people group it: one to three digits, not beginning with 0,
//!    then groups of three after commas; and no letter, digit, point, slash or colon stands before it.
//!
//! The rule is applied as often as it fits: `12,345,678 lb`, `3,000 lb to 4,000 lb`. Two figures with a
//! space after the comma, `[1, 200]`, stay two. `[1,200]` becomes one; a list of bare numbers has to be
//! written with spaces.

use super::text::Span;
use super::tree::{Node, Scalar, Value};

/// Whether the plain scalar `later`, written at `span`, continues the node before it in the same flow
/// collection.
pub fn continues(text: &str, earlier: &Node, later: &str, span: Span) -> bool {
    let Value::Scalar(Scalar {
        text: figure,
        plain: true,
    }) = &earlier.value
    else {
        return false;
    };
    text.get(earlier.span.end..span.start) == Some(",")
        && starts_with_group(later)
        && ends_in_figure(figure)
}

/// Puts the continuation on to the node before it.
pub fn join(earlier: &mut Node, later: &str, span: Span) {
    if let Value::Scalar(scalar) = &mut earlier.value {
        scalar.text.push(',');
        scalar.text.push_str(later);
        earlier.span = earlier.span.to(span);
    }
}

/// The node that a continuation would join: the last value written in a node, looking into a mapping of
/// one pair that has no braces, as in `[weight: 3,000 lb]`.
pub fn last_written<'a>(text: &str, node: &'a mut Node) -> Option<&'a mut Node> {
    let braced = text.as_bytes().get(node.span.start) == Some(&b'{');
    if matches!(node.value, Value::Map(_)) && !braced {
        let Value::Map(map) = &mut node.value else {
            return None;
        };
        return map.entries.last_mut().map(|entry| &mut entry.value);
    }
    Some(node)
}

/// Whether a colon follows a key, after blanks, line breaks and comments.
pub fn colon_follows(text: &str, key: Span) -> bool {
    let mut rest = text.get(key.end..).unwrap_or_default();
    loop {
        rest = rest.trim_start();
        match rest.strip_prefix('#') {
            Some(comment) => {
                rest = comment
                    .find('\n')
                    .and_then(|at| comment.get(at..))
                    .unwrap_or_default()
            }
            None => return rest.starts_with(':'),
        }
    }
}

/// Rule 3.
fn starts_with_group(text: &str) -> bool {
    text.bytes().take_while(u8::is_ascii_digit).count() == 3
}

/// Rule 4.
fn ends_in_figure(text: &str) -> bool {
    let before = text.trim_end_matches(|c: char| c.is_ascii_digit() || c == ',');
    let figure = text.get(before.len()..).unwrap_or_default();
    let mut groups = figure.split(',');
    let first = groups.next().unwrap_or_default();
    (1..=3).contains(&first.len())
        && !first.starts_with('0')
        && groups.all(|group| group.len() == 3)
        && !before.ends_with(|c: char| c.is_alphanumeric() || matches!(c, '.' | '/' | ':'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("3", true)]
    #[case("12", true)]
    #[case("345", true)]
    #[case("12,345", true)]
    #[case("3,000 lb to 4", true)]
    #[case("-3", true)]
    #[case("about 3", true)]
    #[case("4000", false)]
    #[case("3,00", false)]
    #[case("1234,567", false)]
    #[case("0", false)]
    #[case("012", false)]
    #[case("1.5", false)]
    #[case("2-5/16", false)]
    #[case("10:30", false)]
    #[case("A3", false)]
    #[case("lb", false)]
    #[case(",3", false)]
    #[case("", false)]
    fn figures(#[case] text: &str, #[case] expected: bool) {
        assert_eq!(ends_in_figure(text), expected);
    }

    #[rstest]
    #[case("500 lb", true)]
    #[case("000", true)]
    #[case("500lb", true)]
    #[case("500.5 lb", true)]
    #[case("5000 lb", false)]
    #[case("50 lb", false)]
    #[case(" 500", false)]
    #[case("lb", false)]
    #[case("", false)]
    fn groups(#[case] text: &str, #[case] expected: bool) {
        assert_eq!(starts_with_group(text), expected);
    }

    #[rstest]
    #[case("k: v", true)]
    #[case("k # note: x\n  : v", true)]
    #[case("k, a: b", false)]
    #[case("k}", false)]
    #[case("k", false)]
    fn colons(#[case] text: &str, #[case] expected: bool) {
        assert_eq!(colon_follows(text, Span::new(0, 1)), expected);
    }
}
