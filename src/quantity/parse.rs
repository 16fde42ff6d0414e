//! Reading what people write: amounts with units, ranges, tolerances, one-sided limits.

use std::ops::Range;

use super::error::MeasureErrorKind as Kind;
use super::number::Fault;
use super::show::{is_written_exactly, written};
use super::term::{Term, Terms};
use super::text::Text;
use super::{Dimension, Exact, Interval, Measure, MeasureError, Shown, Unit};

/// The most characters that a written measure may have.
pub const MAX_TEXT: usize = 200;

/// Words that leave open how far off the value may be.
const HEDGES: [&str; 16] = [
    "about",
    "approximately",
    "approx.",
    "approx",
    "around",
    "roughly",
    "circa",
    "ca.",
    "ca",
    "c.",
    "nearly",
    "almost",
    "some",
    "~",
    "≈",
    "±",
];

/// Words for one-sided limits that are not read, and the words that are.
const OTHER_LIMITS: [(&str, &str); 22] = [
    ("no less than", "at least"),
    ("not less than", "at least"),
    ("no more than", "at most"),
    ("not more than", "at most"),
    ("more than", "at least"),
    ("greater than", "at least"),
    ("less than", "at most"),
    ("fewer than", "at most"),
    ("up to", "at most"),
    ("over", "at least"),
    ("above", "at least"),
    ("under", "at most"),
    ("below", "at most"),
    ("minimum", "at least"),
    ("maximum", "at most"),
    ("max", "at most"),
    (">=", "at least"),
    ("≥", "at least"),
    (">", "at least"),
    ("<=", "at most"),
    ("≤", "at most"),
    ("<", "at most"),
];

#[derive(Clone, Copy)]
enum Limit {
    AtLeast,
    AtMost,
}

#[derive(Clone, Copy, PartialEq)]
enum Joint {
    To,
    PlusMinus,
}

/// What joins two amounts, and where each stands.
type Joined = (Joint, Range<usize>, Range<usize>);

/// Reads a measure of `dimension`.
///
/// Read are an amount with its unit (`3,000 lb`, `1 500 kg`, `0.45 t`, `6 ft 8 in`, `6' 8"`,
/// `2-5/16 in`, `40%`), a range with both its ends (`3,800 lb to 4,200 lb`, `3,800 to 4,200 lb`),
/// an amount with a tolerance (`4,000 lb +/- 5%`, `4,000 lb ± 50 lb`) and a one-sided limit
/// (`at least 3 t`, `at most 200 lb`), whose other end stays open. Thousands are set off by
/// commas or single spaces, decimals follow a point. Counts are whole and have no unit. Only
/// lengths may be negative.
///
/// # Errors
/// Anything else, with the place, the reason and, where one is clear, a text that may be meant.
pub fn parse_measure(text: &str, dimension: Dimension) -> Result<Measure, MeasureError> {
    read(text, dimension).map_err(|mut error| {
        // A suggestion may hold a second slip; only one that reads is passed on.
        let mut next = error.suggestion.take();
        for _ in 0..4 {
            let Some(text) = next else { break };
            match read(&text, dimension) {
                Ok(_) => {
                    error.suggestion = Some(text);
                    break;
                }
                Err(again) => next = again.suggestion,
            }
        }
        error
    })
}

fn read(source: &str, dimension: Dimension) -> Result<Measure, MeasureError> {
    let expected = || dimension.expected();
    if source.chars().nth(MAX_TEXT).is_some() {
        return Err(MeasureError {
            kind: Kind::TooLong,
            at: 0..source.len(),
            message: format!("this is longer than {MAX_TEXT} characters"),
            expected: expected(),
            suggestion: None,
        });
    }
    let text = Text::new(source);
    let reader = Reader {
        text: &text,
        terms: Terms {
            text: &text,
            dimension,
        },
        dimension,
    };
    reader
        .measure()
        .map_err(|fault| fault.into_error(&text, expected()))
}

struct Reader<'a, 'b> {
    text: &'a Text<'b>,
    terms: Terms<'a, 'b>,
    dimension: Dimension,
}

impl Reader<'_, '_> {
    fn measure(&self) -> Result<Measure, Fault> {
        let all = self.text.all();
        self.no_other_words(&all)?;
        let (limit, rest) = self.limit(&all);
        let measure = match (self.joint(&rest)?, limit) {
            (None, None) => self.single(&rest, Interval::exactly)?,
            (None, Some(Limit::AtLeast)) => self.single(&rest, Interval::starting_at)?,
            (None, Some(Limit::AtMost)) => self.single(&rest, Interval::ending_at)?,
            (Some((Joint::To, left, right)), None) => self.range(&left, &right)?,
            (Some((Joint::PlusMinus, left, right)), None) => self.tolerance(&left, &right)?,
            (Some(_), Some(_)) => {
                let message = "a limit with `at least` or `at most` takes one amount, not a range";
                return Err(Fault::new(Kind::Ambiguous, rest, message));
            }
        };
        self.check_ends(&measure, &all)?;
        Ok(measure)
    }

    /// Refuses words before an amount that leave its meaning open.
    fn no_other_words(&self, all: &Range<usize>) -> Result<(), Fault> {
        let found = |phrase: &str| self.text.phrase(all, all.start, phrase);
        if let Some(end) = HEDGES.iter().find_map(|word| found(word)) {
            let word = self.text.trim(all.start..end);
            let rest = self.text.plain(&self.text.trim(end..all.end));
            let message = format!(
                "how far off {} may be is not said; write a range or a tolerance",
                self.text.quote(&word)
            );
            let suggestion = format!("{rest} +/- 5%");
            return Err(Fault::new(Kind::Ambiguous, word, message).suggest(suggestion));
        }
        let other = OTHER_LIMITS
            .iter()
            .find_map(|(phrase, read)| Some((found(phrase)?, *read)));
        if let Some((end, read)) = other {
            let word = self.text.trim(all.start..end);
            let message = format!(
                "{} is not read here; `at least` and `at most` are, and include their end",
                self.text.quote(&word)
            );
            let rest = self.text.plain(&self.text.trim(end..all.end));
            let suggestion = format!("{read} {rest}");
            return Err(Fault::new(Kind::Ambiguous, word, message).suggest(suggestion));
        }
        if let Some(end) = found("between") {
            let word = self.text.trim(all.start..end);
            let rest = self.text.plain(&self.text.trim(end..all.end));
            let message = "a range is written with `to` between its ends";
            let suggestion = rest.replacen(" and ", " to ", 1);
            return Err(Fault::new(Kind::Ambiguous, word, message).suggest(suggestion));
        }
        Ok(())
    }

    /// A leading `at least` or `at most`, and what follows.
    fn limit(&self, all: &Range<usize>) -> (Option<Limit>, Range<usize>) {
        for (phrase, limit) in [("at least", Limit::AtLeast), ("at most", Limit::AtMost)] {
            if let Some(end) = self.text.phrase(all, all.start, phrase) {
                return (Some(limit), self.text.trim(end..all.end));
            }
        }
        (None, all.clone())
    }

    /// What joins two amounts, and the texts on either side of it.
    fn joint(&self, all: &Range<usize>) -> Result<Option<Joined>, Fault> {
        const JOINTS: [(&str, Joint); 5] = [
            ("±", Joint::PlusMinus),
            ("+/-", Joint::PlusMinus),
            ("+-", Joint::PlusMinus),
            (" plus or minus ", Joint::PlusMinus),
            (" to ", Joint::To),
        ];
        let mut joints = Vec::new();
        let mut at = all.start;
        while at < all.end {
            let here = JOINTS.iter().find_map(|(mark, joint)| {
                let words = mark.trim();
                let spaced = words.len() < mark.len();
                let before = at.checked_sub(1).and_then(|at| self.text.within(all, at));
                let start = if spaced && before != Some(' ') {
                    return None;
                } else {
                    at
                };
                let end = self.text.phrase(all, start, words)?;
                Some((*joint, start..end))
            });
            at = match here {
                Some((joint, range)) => {
                    let end = range.end;
                    joints.push((joint, range));
                    end
                }
                None => at.saturating_add(1),
            };
        }
        match joints.as_slice() {
            [] => Ok(None),
            [(joint, range)] => {
                let left = self.text.trim(all.start..range.start);
                let right = self.text.trim(range.end..all.end);
                Ok(Some((*joint, left, right)))
            }
            [_, (_, second), ..] => {
                let message = "one range or tolerance is read, and here is a second";
                Err(Fault::new(Kind::Ambiguous, second.clone(), message))
            }
        }
    }

    fn single(
        &self,
        range: &Range<usize>,
        interval: fn(Exact) -> Interval,
    ) -> Result<Measure, Fault> {
        let term = self.terms.term(range)?;
        let unit = term
            .unit
            .map_or_else(|| Err(self.terms.missing_unit(&term)), Ok)?;
        let value = self.terms.base(&term, unit)?;
        Ok(Measure {
            interval: interval(value),
            unit,
            shown: term.shown,
        })
    }

    fn range(&self, left: &Range<usize>, right: &Range<usize>) -> Result<Measure, Fault> {
        let lo = self.terms.term(left)?;
        let hi = self.terms.term(right).map_err(|fault| {
            let open = fault.kind == Kind::Infinite;
            let limit = open.then(|| format!("at least {}", self.text.plain(left)));
            let suggestion = limit.or_else(|| fault.suggestion.clone());
            fault.suggest(suggestion)
        })?;
        // A unit given once, at the end, is that of both.
        let hi_unit = hi
            .unit
            .map_or_else(|| Err(self.terms.missing_second_unit(&hi, &lo)), Ok)?;
        let feet = matches!(hi.shown, Shown::FeetInches | Shown::FeetInchesFraction);
        let lo_unit = match lo.unit {
            Some(unit) => unit,
            None if feet => return Err(self.terms.missing_unit(&lo)),
            None => hi_unit,
        };
        let (low, high) = (
            self.terms.base(&lo, lo_unit)?,
            self.terms.base(&hi, hi_unit)?,
        );
        let candidates = [(lo_unit, lo.shown), (hi_unit, hi.shown)];
        let (unit, shown) = candidates
            .into_iter()
            .find(|(unit, shown)| {
                [low, high]
                    .into_iter()
                    .all(|value| is_written_exactly(value, *unit, *shown))
            })
            .unwrap_or((lo_unit, lo.shown));
        match Interval::new(Some(low), Some(high)) {
            Some(interval) => Ok(Measure {
                interval,
                unit,
                shown,
            }),
            None => {
                let written = left.start..right.end;
                let message = format!(
                    "the first end of the range {} is above the second",
                    self.text.quote(&written)
                );
                let swapped = format!(
                    "{} to {}",
                    written_term(high, &hi, hi_unit),
                    written_term(low, &lo, lo_unit)
                );
                Err(Fault::new(Kind::RangeReversed, written, message).suggest(swapped))
            }
        }
    }

    fn tolerance(&self, left: &Range<usize>, right: &Range<usize>) -> Result<Measure, Fault> {
        let centre = self.terms.term(left)?;
        let off = self.terms.tolerance(right)?;
        let unit = match (centre.unit, off.unit) {
            (Some(unit), _) => unit,
            (None, Some(unit)) if unit.dimension() == self.dimension => unit,
            (None, _) => return Err(self.terms.missing_unit(&centre)),
        };
        let value = self.terms.base(&centre, unit)?;
        let relative = off.unit == Some(Unit::Percent);
        let too_long = || self.terms.too_big(&(left.start..right.end));
        let by = match off.unit {
            None => return Err(self.terms.missing_second_unit(&off, &centre)),
            Some(off_unit) if !relative => self.terms.base(&off, off_unit)?,
            Some(percent) => {
                let share = self.terms.base(&off, percent)?;
                value.abs().checked_mul(share).ok_or_else(too_long)?
            }
        };
        let lo = value.checked_sub(by).ok_or_else(too_long)?;
        let hi = value.checked_add(by).ok_or_else(too_long)?;
        if relative && self.dimension == Dimension::Share {
            let message = "the tolerance of a share may be meant in percentage points or as a part of it; write a range";
            let points = self.terms.base(&off, Unit::Percent)?;
            let suggestion = value
                .checked_sub(points)
                .zip(value.checked_add(points))
                .map(|(lo, hi)| {
                    let show = |value| written(value, Unit::Percent, Shown::Decimal);
                    format!("{} to {}", show(lo), show(hi))
                });
            return Err(Fault::new(Kind::Ambiguous, right.clone(), message).suggest(suggestion));
        }
        let interval = Interval {
            lo: Some(lo),
            hi: Some(hi),
        };
        Ok(Measure {
            interval,
            unit,
            shown: centre.shown,
        })
    }

    /// Checks what holds of every end: counts are whole, only lengths are negative.
    fn check_ends(&self, measure: &Measure, all: &Range<usize>) -> Result<(), Fault> {
        let ends = [measure.interval.lo, measure.interval.hi];
        let mut ends = ends.into_iter().flatten();
        if self.dimension == Dimension::Count && ends.clone().any(|end| !end.is_integer()) {
            let message = format!("{} is not a whole number", self.text.quote(all));
            return Err(Fault::new(Kind::NotWhole, all.clone(), message));
        }
        if self.dimension != Dimension::Length && ends.any(Exact::is_negative) {
            let message = format!("{} reaches below zero", self.text.quote(all));
            return Err(Fault::new(Kind::Negative, all.clone(), message));
        }
        Ok(())
    }
}

/// An end of a range as it was written.
fn written_term(value: Exact, term: &Term, unit: Unit) -> String {
    written(value, unit, term.shown)
}
