//! Numbers as people write them: grouped digits, a decimal point, fractions.

use std::ops::Range;

use super::error::MeasureErrorKind as Kind;
use super::text::Text;
use super::{Exact, MeasureError};

/// Most digits before the decimal point.
const MAX_WHOLE: usize = 15;
/// Most digits after it.
const MAX_PART: usize = 12;
/// Greatest denominator of a fraction that is written or printed.
pub(super) const MAX_DENOMINATOR: i128 = 1_000;

/// A number without its sign.
pub(super) struct Number {
    pub value: Exact,
    /// Whether it was written with a fraction bar.
    pub fraction: bool,
    /// The position after its last character.
    pub end: usize,
}

/// What is wrong with a number, before the expectation is added.
pub(super) struct Fault {
    pub kind: Kind,
    pub range: Range<usize>,
    pub message: String,
    pub suggestion: Option<String>,
}

impl Fault {
    pub fn new(kind: Kind, range: Range<usize>, message: impl Into<String>) -> Fault {
        Fault {
            kind,
            range,
            message: message.into(),
            suggestion: None,
        }
    }

    pub fn suggest(mut self, suggestion: impl Into<Option<String>>) -> Fault {
        self.suggestion = suggestion.into();
        self
    }

    pub fn into_error(self, text: &Text<'_>, expected: String) -> MeasureError {
        MeasureError {
            kind: self.kind,
            at: text.bytes(&self.range),
            message: self.message,
            expected,
            suggestion: self.suggestion,
        }
    }
}

/// Reads the number at the start of `range`.
pub(super) fn number(text: &Text<'_>, range: &Range<usize>) -> Result<Number, Fault> {
    let reader = Reader { text, range };
    let (digits, after_whole) = reader.grouped()?;
    let (part, after_part) = reader.decimals(after_whole)?;
    reader.no_other_notation(after_part)?;
    if digits.is_empty() && part.is_empty() {
        return match reader.vulgar(range.start) {
            Some((value, end)) => Ok(Number {
                value,
                fraction: true,
                end,
            }),
            None => Err(reader.no_number()),
        };
    }
    let written = range.start..after_part;
    if digits.trim_start_matches('0').len() > MAX_WHOLE || part.len() > MAX_PART {
        let message = format!(
            "{} has too many digits; {MAX_WHOLE} before the decimal point and {MAX_PART} after it are read",
            text.quote(&written)
        );
        return Err(Fault::new(Kind::TooLong, written, message));
    }
    let decimal = if part.is_empty() {
        digits
    } else {
        format!("{digits}.{part}")
    };
    let whole = Exact::parse_decimal(&decimal)
        .ok_or_else(|| Fault::new(Kind::NotANumber, written.clone(), "there is no number here"))?;
    let fraction = if part.is_empty() {
        reader.fraction(whole, after_whole)?
    } else {
        None
    };
    match fraction {
        Some((value, end)) => Ok(Number {
            value,
            fraction: true,
            end,
        }),
        None => Ok(Number {
            value: whole,
            fraction: false,
            end: after_part,
        }),
    }
}

struct Reader<'a, 'b> {
    text: &'a Text<'b>,
    range: &'a Range<usize>,
}

impl Reader<'_, '_> {
    fn at(&self, at: usize) -> Option<char> {
        self.text.within(self.range, at)
    }

    fn digit_at(&self, at: usize) -> bool {
        self.at(at).is_some_and(|c| c.is_ascii_digit())
    }

    fn digits(&self, start: usize) -> Range<usize> {
        start..self.text.skip(self.range, start, |c| c.is_ascii_digit())
    }

    /// The digits before the decimal point without what groups them, and the position after.
    fn grouped(&self) -> Result<(String, usize), Fault> {
        let first = self.digits(self.range.start);
        let mut digits = self.text.plain(&first);
        let mut end = first.end;
        let mut separator = None;
        while let Some(mark @ (',' | ' ')) = self.at(end).filter(|_| !digits.is_empty()) {
            let group = self.digits(end.saturating_add(1));
            if mark == ' ' && (group.is_empty() || self.starts_fraction(&group)) {
                break;
            }
            let fits = group.len() == 3
                && (1..=3).contains(&first.len())
                && separator.is_none_or(|before| before == mark);
            if !fits {
                return Err(self.bad_grouping(&first, mark, &group, separator.is_none()));
            }
            separator = Some(mark);
            digits.push_str(&self.text.plain(&group));
            end = group.end;
        }
        Ok((digits, end))
    }

    fn bad_grouping(
        &self,
        first: &Range<usize>,
        mark: char,
        group: &Range<usize>,
        lone: bool,
    ) -> Fault {
        let written = first.start..group.end;
        let quoted = self.text.quote(&written);
        let more = matches!(self.at(group.end), Some(',' | '.'));
        if mark == ' ' {
            let message = format!("the space in {quoted} does not mark off groups of three digits");
            return Fault::new(Kind::BadGrouping, written, message);
        }
        let message = format!(
            "the comma in {quoted} does not mark off groups of three digits; decimals follow a point"
        );
        let point = self.text.replaced(&(first.end..group.start), ".");
        let decimal = lone && !more && matches!(group.len(), 1 | 2);
        Fault::new(Kind::BadGrouping, written, message).suggest(decimal.then_some(point))
    }

    /// The digits after a decimal point at `start`, and the position after them.
    fn decimals(&self, start: usize) -> Result<(String, usize), Fault> {
        let nothing_before = start == self.range.start;
        if self.at(start) != Some('.')
            || (nothing_before && !self.digit_at(start.saturating_add(1)))
        {
            return Ok((String::new(), start));
        }
        let part = self.digits(start.saturating_add(1));
        let written = self.range.start..part.end;
        if part.is_empty() {
            let message = format!(
                "no digits follow the decimal point in {}",
                self.text.quote(&written)
            );
            let without = self.text.replaced(&(start..part.end), "");
            return Err(Fault::new(Kind::NotANumber, written, message).suggest(without));
        }
        if matches!(self.at(part.end), Some('.' | ',')) && self.digit_at(part.end.saturating_add(1))
        {
            let written = self.range.start..self.digits(part.end.saturating_add(1)).end;
            let message = format!(
                "{} has a comma or a second point after its decimals; commas mark off thousands and a point the decimals",
                self.text.quote(&written)
            );
            return Err(Fault::new(Kind::BadGrouping, written, message));
        }
        Ok((self.text.plain(&part), part.end))
    }

    /// Refuses powers of ten, other bases and underscores.
    fn no_other_notation(&self, end: usize) -> Result<(), Fault> {
        let next = end.saturating_add(1);
        let signed = self.text.skip(self.range, next, |c| matches!(c, '+' | '-'));
        let what = match self.at(end) {
            Some('e' | 'E') if self.digit_at(signed) => "a power of ten",
            Some('x' | 'X') if self.at(next).is_some_and(|c| c.is_ascii_hexdigit()) => {
                "a number to another base"
            }
            Some('b' | 'B' | 'o' | 'O') if self.digit_at(next) => "a number to another base",
            Some('_') => "a number with underscores",
            _ => return Ok(()),
        };
        let is_rest = |c: char| c.is_ascii_alphanumeric() || c == '_';
        let written = self.range.start..self.text.skip(self.range, signed, is_rest);
        let message = format!(
            "{} is {what}; write plain digits",
            self.text.quote(&written)
        );
        let without: String = self
            .text
            .plain(&written)
            .chars()
            .filter(|c| *c != '_')
            .collect();
        let suggestion =
            (self.at(end) == Some('_')).then(|| self.text.replaced(&written, &without));
        Err(Fault::new(Kind::NotANumber, written, message).suggest(suggestion))
    }

    /// Whether the digits in `group` begin a fraction such as `5/16`.
    fn starts_fraction(&self, group: &Range<usize>) -> bool {
        !group.is_empty() && self.at(group.end) == Some('/')
    }

    /// The fraction that `whole` is or that stands after it, added to it, and the position after.
    fn fraction(&self, whole: Exact, end: usize) -> Result<Option<(Exact, usize)>, Fault> {
        let joint = usize::from(matches!(self.at(end), Some('-' | ' ')));
        let start = end.saturating_add(joint);
        let group = self.digits(start);
        let (top, numerator, bar, whole) = if self.at(end) == Some('/') {
            (self.range.start..end, whole, end, Exact::ZERO)
        } else if self.starts_fraction(&group) {
            (group.clone(), self.small(&group)?, group.end, whole)
        } else {
            let vulgar = self.vulgar(start);
            return Ok(vulgar.and_then(|(value, end)| Some((whole.checked_add(value)?, end))));
        };
        let below = self.digits(bar.saturating_add(1));
        let written = self.range.start..below.end;
        if below.is_empty() {
            let message = format!("{} is not a fraction", self.text.quote(&written));
            return Err(Fault::new(Kind::NotANumber, written, message));
        }
        let denominator = self.small(&below)?;
        let mixed = top.start != self.range.start;
        let value = numerator
            .checked_div(denominator)
            .filter(|part| !mixed || *part < Exact::ONE)
            .filter(|_| denominator.numerator() <= MAX_DENOMINATOR)
            .and_then(|part| whole.checked_add(part));
        match value {
            Some(value) => Ok(Some((value, below.end))),
            None => {
                let message = format!(
                    "{} is not a fraction of the form 5/16 or 2-5/16 with a denominator from 1 to {MAX_DENOMINATOR}",
                    self.text.quote(&written)
                );
                Err(Fault::new(Kind::NotANumber, written, message))
            }
        }
    }

    /// The whole number that the digits in `range` make.
    fn small(&self, range: &Range<usize>) -> Result<Exact, Fault> {
        let message = "a part of this fraction has too many digits";
        Some(self.text.plain(range))
            .filter(|digits| digits.len() <= MAX_WHOLE)
            .and_then(|digits| Exact::parse_decimal(&digits))
            .ok_or_else(|| Fault::new(Kind::TooLong, range.clone(), message))
    }

    /// A fraction written as one character.
    fn vulgar(&self, at: usize) -> Option<(Exact, usize)> {
        let (num, den) = match self.at(at)? {
            '½' => (1, 2),
            '⅓' => (1, 3),
            '⅔' => (2, 3),
            '¼' => (1, 4),
            '¾' => (3, 4),
            '⅛' => (1, 8),
            '⅜' => (3, 8),
            '⅝' => (5, 8),
            '⅞' => (7, 8),
            _ => return None,
        };
        Some((Exact::constant(num, den), at.saturating_add(1)))
    }

    /// The fault of a text that does not begin with a number.
    fn no_number(&self) -> Fault {
        let all = self.range.clone();
        let start = self
            .text
            .skip(&all, all.start, |c| matches!(c, '.' | '-' | '+'));
        let infinite = ["inf", "infinity", "infinite", "∞"];
        let quoted = self.text.quote(&all);
        if infinite
            .iter()
            .any(|word| self.text.phrase(&all, start, word).is_some())
        {
            return Fault::new(
                Kind::Infinite,
                all,
                format!("{quoted} is not a finite number"),
            );
        }
        let without_plus = (self.at(all.start) == Some('+')).then(|| {
            self.text
                .replaced(&(all.start..all.start.saturating_add(1)), "")
        });
        let message = if all.is_empty() {
            "there is no number here".to_owned()
        } else {
            format!("{quoted} does not begin with a number")
        };
        Fault::new(Kind::NotANumber, all, message).suggest(without_plus)
    }
}
