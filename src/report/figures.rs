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
