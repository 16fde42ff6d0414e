//! The figures in a sentence: "3,000 lb", "13 ft 6 in", "40%", so that they can stand out and be told
//! in other units.

use super::units::{Units, turned};
use crate::quantity::{Dimension, Measure, parse_measure};

/// A part of a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece<'t> {
    /// Words.
    Words(&'t str),
    /// A figure as it is written, and in the units asked for where these are others.
    Figure(&'t str, Option<String>),
}

/// The most words that a figure has, as in "13 ft 6 1/2 in".
const LONGEST: usize = 5;

/// What figures measure; a count has no unit and does not stand out.
const MEASURED: [Dimension; 8] = [
    Dimension::Mass,
    Dimension::Length,
    Dimension::Speed,
    Dimension::Share,
    Dimension::Pressure,
    Dimension::Force,
    Dimension::Time,
    Dimension::Angle,
];

/// Words that may follow "in" where it stands for inches; before any other word it is taken for the
/// preposition.
const AFTER_INCHES: [&str; 30] = [
    "or", "and", "to", "by", "of", "wide", "high", "long", "deep", "square", "from", "above",
    "below", "beyond", "on", "past", "apart", "thick", "each", "in", "at", "ball", "with", "when",
    "if", "behind", "across", "for", "more", "under",
];

/// Splits a sentence into words and figures. Joined together again, the pieces are the sentence.
#[must_use]
pub fn pieces(text: &str, units: Option<Units>) -> Vec<Piece<'_>> {
    let mut out = Vec::new();
    let mut start = 0;
    let mut at = 0;
    while let Some(rest) = text.get(at..) {
        let Some(found) = rest.find(|c: char| c.is_ascii_digit()) else {
            break;
        };
        let from = at + found;
        let fresh = text.get(..from).is_none_or(|before| {
            !before
                .chars()
                .next_back()
                .is_some_and(|c| c.is_alphanumeric() || matches!(c, '-' | '.' | ',' | '§' | '/'))
        });
        if let Some((end, measure)) = fresh.then(|| figure(text, from)).flatten() {
            if let Some(words) = text.get(start..from).filter(|w| !w.is_empty()) {
                out.push(Piece::Words(words));
            }
            let shown = text.get(from..end).unwrap_or_default();
            let other = measure
                .interval
                .is_exact()
                .and_then(|x| turned(x, measure.unit, units));
            out.push(Piece::Figure(shown, other));
            (start, at) = (end, end);
        } else {
            let digits = text.get(from..).unwrap_or_default();
            at = from
                + digits
                    .find(|c: char| !c.is_ascii_digit())
                    .unwrap_or(digits.len());
        }
    }
    if let Some(words) = text.get(start..).filter(|w| !w.is_empty()) {
        out.push(Piece::Words(words));
    }
    for n in 0..out.len() {
        // "1,360 kg (3,000 lb)" tells both already.
        if let [
            Piece::Figure(_, one),
            Piece::Words(" ("),
            Piece::Figure(_, other),
        ] = out.get_mut(n..n + 3).unwrap_or_default()
        {
            (*one, *other) = (None, None);
        }
    }
    out
}

/// The longest figure that begins at a place: where it ends, and what it is.
fn figure(text: &str, from: usize) -> Option<(usize, Measure)> {
    let rest = text.get(from..)?;
    let mut ends: Vec<usize> = Vec::new();
    let mut words = 0;
    for (i, c) in rest.char_indices() {
        if c.is_whitespace() {
            ends.push(i);
            words += 1;
            if words == LONGEST {
                break;
            }
        }
    }
    if words < LONGEST {
        ends.push(rest.len());
    }
    ends.into_iter().rev().find_map(|end| {
        let words = rest.get(..end)?;
        let words = words.trim_end_matches([',', '.', ';', ':', ')', '!', '?']);
        let measure = MEASURED
            .into_iter()
            .find_map(|d| parse_measure(words, d).ok())?;
        measure.interval.is_exact()?;
        let after = rest.get(words.len()..).unwrap_or_default();
        is_whole(words, after).then_some((from + words.len(), measure))
    })
}

/// Whether what follows shows that the figure ends there.
fn is_whole(words: &str, after: &str) -> bool {
    if after.starts_with(|c: char| c.is_alphanumeric() || c == '-') {
        return false;
    }
    let next = after
        .strip_prefix(' ')
        .and_then(|n| n.split_whitespace().next());
    match next {
        Some(next) if words.ends_with(" in") => {
            let next = next.trim_end_matches(|c: char| !c.is_alphanumeric());
            AFTER_INCHES.contains(&next)
        }
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::{Piece, Units, pieces};
    use rstest::rstest;

    fn figures(text: &str, units: Option<Units>) -> Vec<String> {
        let figure = |piece| match piece {
            Piece::Words(_) => None,
            Piece::Figure(figure, None) => Some(figure.to_owned()),
            Piece::Figure(figure, Some(other)) => Some(format!("{figure} = {other}")),
        };
        pieces(text, units).into_iter().filter_map(figure).collect()
    }

    #[rstest]
    #[case("weighs 3,000 lb or more but less than 6,500 lb.", &["3,000 lb", "6,500 lb"])]
    #[case("at most 14 ft 6 in high, 102 in wide", &["14 ft 6 in", "102 in"])]
    #[case("a ball of 2-5/16 in, and 40% of it", &["2-5/16 in", "40%"])]
    #[case("stops from 20 mph within 40 ft (12 m)", &["20 mph", "40 ft", "12 m"])]
    #[case("brakes hold for at least 15 minutes", &["15 minutes"])]
    // Section numbers, years, counts and the preposition are no figures.
    #[case("§ 60-6,246(2) and 49 CFR 393.43", &[])]
    #[case("made after 1 January 1966, class 5", &[])]
    #[case("2 in the front and 4 in all", &[])]
    #[case("in 2 in two places", &[])]
    fn figures_stand_out(#[case] text: &str, #[case] expected: &[&str]) {
        assert_eq!(figures(text, None), expected);
    }

    #[rstest]
    #[case("3,000 lb", Units::Metric, &["3,000 lb = about 1,360.8 kg"])]
    #[case("3,000 lb", Units::Us, &["3,000 lb"])]
    #[case("1,360 kg (3,000 lb) or more", Units::Us, &["1,360 kg", "3,000 lb"])]
    #[case("15 minutes", Units::Metric, &["15 minutes"])]
    #[case("4 in past", Units::Metric, &["4 in = 10.16 cm"])]
    fn figures_are_told_in_other_units(
        #[case] text: &str,
        #[case] units: Units,
        #[case] expected: &[&str],
    ) {
        assert_eq!(figures(text, Some(units)), expected);
    }

    #[rstest]
    #[case("é 3,000 lb → 6 ft 8 in; ½ in")]
    #[case("")]
    #[case("9")]
    #[case("1 1 1 1 1 1 lb lb lb")]
    fn pieces_are_the_sentence(#[case] text: &str) {
        let joined: String = pieces(text, Some(Units::Metric))
            .into_iter()
            .map(|p| match p {
                Piece::Words(t) | Piece::Figure(t, _) => t,
            })
            .collect();
        assert_eq!(joined, text);
    }
}
