//! One amount with its unit, and what can be wrong with it.

use std::ops::Range;

use super::error::MeasureErrorKind as Kind;
use super::number::{Fault, number};
use super::text::Text;
use super::unit::Spelling;
use super::{Dimension, Exact, Shown, Unit};

/// An amount as written.
pub(super) struct Term {
    /// The amount in its unit, or by itself where that is missing.
    pub amount: Exact,
    pub unit: Option<Unit>,
    pub shown: Shown,
    pub range: Range<usize>,
}

/// Reads the amounts of one text.
pub(super) struct Terms<'a, 'b> {
    pub text: &'a Text<'b>,
    pub dimension: Dimension,
}

/// Units taken for one another in everyday speech: the dimension wanted, the one written, and
/// the unit that is meant.
const MEANT: [(Dimension, Unit, &str); 8] = [
    (Dimension::Pressure, Unit::Pound, "psi"),
    (Dimension::Force, Unit::Pound, "lbf"),
    (Dimension::Mass, Unit::PoundForce, "lb"),
    (Dimension::Speed, Unit::Mile, "mph"),
    (Dimension::Speed, Unit::Kilometer, "km/h"),
    (Dimension::Time, Unit::Meter, "min"),
    (Dimension::Length, Unit::Minute, "m"),
    (Dimension::Mass, Unit::Psi, "lb"),
];

impl Terms<'_, '_> {
    /// The amount that `range` holds.
    pub fn term(&self, range: &Range<usize>) -> Result<Term, Fault> {
        self.read(range, false)
    }

    /// The tolerance that `range` holds: an amount, or a percentage whatever the dimension.
    pub fn tolerance(&self, range: &Range<usize>) -> Result<Term, Fault> {
        let term = self.read(range, true)?;
        if term.amount.is_negative() {
            return Err(Fault::new(
                Kind::Negative,
                range.clone(),
                "a tolerance is not negative",
            ));
        }
        Ok(term)
    }

    /// The amount in base units.
    pub fn base(&self, term: &Term, unit: Unit) -> Result<Exact, Fault> {
        unit.to_base(term.amount)
            .ok_or_else(|| self.too_big(&term.range))
    }

    pub fn too_big(&self, range: &Range<usize>) -> Fault {
        let message = format!(
            "{} is too large or too fine a number",
            self.text.quote(range)
        );
        Fault::new(Kind::TooLong, range.clone(), message)
    }

    /// The fault of an amount without its unit.
    pub fn missing_unit(&self, term: &Term) -> Fault {
        let quoted = self.text.quote(&term.range);
        let message = format!("{quoted} has no unit");
        let fault = Fault::new(Kind::MissingUnit, term.range.clone(), message);
        if self.dimension != Dimension::Share {
            return fault;
        }
        // 0.4 is taken for a fraction of one, 40 for percent; 1 may be either.
        let hundred = Exact::from_int(100);
        let percent = match term.amount.cmp(&Exact::ONE) {
            std::cmp::Ordering::Less => term.amount.checked_mul(hundred),
            std::cmp::Ordering::Equal => None,
            std::cmp::Ordering::Greater => Some(term.amount),
        };
        fault.suggest(percent.map(|percent| {
            self.text
                .replaced(&term.range, &format!("{}%", percent.to_decimal(12)))
        }))
    }

    /// The fault of a second amount without its unit beside a first that may have one.
    pub fn missing_second_unit(&self, term: &Term, first: &Term) -> Fault {
        let fault = self.missing_unit(term);
        match first.unit {
            Some(unit) => {
                let amount = format!("{} {}", self.text.plain(&term.range), unit.symbol());
                fault.suggest(self.text.replaced(&term.range, &amount))
            }
            None => fault,
        }
    }

    fn read(&self, range: &Range<usize>, tolerance: bool) -> Result<Term, Fault> {
        let negative = self.text.within(range, range.start) == Some('-');
        let start = range.start.saturating_add(usize::from(negative));
        let unsigned = self.text.trim(start..range.end);
        let first = number(self.text, &unsigned)?;
        if negative && self.dimension != Dimension::Length {
            let message = format!(
                "{} is negative; {} is never below zero",
                self.text.quote(range),
                self.dimension.with_article()
            );
            return Err(Fault::new(Kind::Negative, range.clone(), message));
        }
        let (name, rest) = self.unit_name(range, first.end);
        let sign = |value: Exact| if negative { value.neg() } else { value };
        let shown = if first.fraction {
            Shown::Fraction
        } else {
            Shown::Decimal
        };
        let mut term = Term {
            amount: sign(first.value),
            unit: None,
            shown,
            range: range.clone(),
        };
        if name.is_empty() && rest.is_empty() {
            term.unit = (self.dimension == Dimension::Count).then_some(Unit::One);
            return Ok(term);
        }
        let unit = self.unit(range, &name, tolerance)?;
        term.unit = Some(unit);
        if rest.is_empty() {
            return Ok(term);
        }
        let inches = self.inches(unit, range, &rest)?;
        let twelfth = Exact::constant(1, 12);
        term.amount = (inches.amount.checked_mul(twelfth))
            .and_then(|feet| first.value.checked_add(feet))
            .map(sign)
            .ok_or_else(|| self.too_big(range))?;
        term.shown = match inches.shown {
            Shown::Fraction => Shown::FeetInchesFraction,
            _ => Shown::FeetInches,
        };
        Ok(term)
    }

    /// The text between an amount that ends at `start` and the next, and the text from there.
    fn unit_name(&self, range: &Range<usize>, start: usize) -> (Range<usize>, Range<usize>) {
        let is_digit = |at: usize| {
            self.text
                .within(range, at)
                .is_some_and(|c| c.is_ascii_digit())
        };
        let begins = |at: &usize| {
            is_digit(*at)
                || (self.text.within(range, *at) == Some('.') && is_digit(at.saturating_add(1)))
        };
        let next = (start..range.end).find(begins).unwrap_or(range.end);
        (self.text.trim(start..next), next..range.end)
    }

    /// The inches after feet, as in `6 ft 8 in` and `6'-8"`.
    fn inches(
        &self,
        first: Unit,
        range: &Range<usize>,
        rest: &Range<usize>,
    ) -> Result<Term, Fault> {
        let fault = |term: &Term, suggestion: Option<String>| {
            let message = format!("{} after the unit cannot be read", self.text.quote(rest));
            let kind = if term.unit.is_none() {
                Kind::MissingUnit
            } else {
                Kind::NotANumber
            };
            Fault::new(kind, rest.clone(), message).suggest(suggestion)
        };
        let inches = self.read(rest, false)?;
        match (first, inches.unit) {
            (Unit::Foot, Some(Unit::Inch)) => Ok(inches),
            (Unit::Foot, None) => {
                let full = format!("{} in", self.text.plain(rest));
                Err(fault(&inches, Some(self.text.replaced(rest, &full))))
            }
            _ => Err(Fault {
                range: range.start..rest.end,
                ..fault(&inches, None)
            }),
        }
    }

    /// The unit named in `name`, which must be of the dimension wanted.
    fn unit(
        &self,
        term: &Range<usize>,
        name: &Range<usize>,
        tolerance: bool,
    ) -> Result<Unit, Fault> {
        let written = self.text.plain(name);
        let dash = written.trim_start().starts_with(['-', '\u{2013}'])
            || written.ends_with('\u{2013}')
            || written.ends_with(" -");
        if dash && name.end < term.end {
            return Err(self.dash(term, name));
        }
        // In 6'-8" the hyphen belongs to neither amount.
        let joined = name.end < term.end && self.text.get(name.end) != Some(' ');
        let bare = written
            .strip_suffix('-')
            .filter(|_| joined)
            .unwrap_or(&written);
        match Unit::spelled(bare) {
            Spelling::Known(Unit::Percent) if tolerance => Ok(Unit::Percent),
            Spelling::Known(unit) if unit.dimension() == self.dimension => Ok(unit),
            Spelling::Known(unit) => Err(self.wrong_kind(name, unit)),
            Spelling::Ambiguous(units) => Err(self.ambiguous(name, units)),
            Spelling::Unknown => Err(self.unknown(term, name, bare)),
        }
    }

    fn wrong_kind(&self, name: &Range<usize>, unit: Unit) -> Fault {
        let message = format!(
            "{} is a unit of {}, and this is {}",
            self.text.quote(name),
            unit.dimension().name(),
            self.dimension.with_article()
        );
        let meant = MEANT
            .iter()
            .find(|(wanted, written, _)| (*wanted, *written) == (self.dimension, unit));
        let suggestion = meant.map(|(_, _, meant)| self.with_unit(name, meant));
        Fault::new(Kind::WrongUnitKind, name.clone(), message).suggest(suggestion)
    }

    fn ambiguous(&self, name: &Range<usize>, units: &[Unit]) -> Fault {
        if let Some(unit) = units.iter().find(|unit| unit.dimension() != self.dimension) {
            return self.wrong_kind(name, *unit);
        }
        let choices: Vec<String> = units
            .iter()
            .map(|unit| format!("`{}`", unit.symbol()))
            .collect();
        let message = format!(
            "{} may stand for more than one unit; write {}",
            self.text.quote(name),
            choices.join(" or ")
        );
        Fault::new(Kind::Ambiguous, name.clone(), message)
    }

    fn unknown(&self, term: &Range<usize>, name: &Range<usize>, bare: &str) -> Fault {
        let message = format!("{} is not a unit that is known here", self.text.quote(name));
        let fault = Fault::new(Kind::UnknownUnit, name.clone(), message);
        if self.dimension == Dimension::Count {
            return fault.suggest(self.text.replaced(name, ""));
        }
        let limits = [
            (" or more", "at least"),
            (" or over", "at least"),
            (" or less", "at most"),
        ];
        for (ending, limit) in limits {
            let whole = *term == self.text.all();
            if let Some(rest) = self.text.plain(term).strip_suffix(ending).filter(|_| whole) {
                return fault.suggest(format!("{limit} {rest}"));
            }
        }
        fault.suggest(self.nearest(bare).map(|near| self.with_unit(name, near)))
    }

    /// The spelling in the wanted dimension that is nearest to `name`, if any is near.
    fn nearest(&self, name: &str) -> Option<&'static str> {
        let name = name.to_lowercase();
        let reach = if name.chars().count() > 5 { 2 } else { 1 };
        Unit::ALL
            .into_iter()
            .filter(|unit| unit.dimension() == self.dimension)
            .flat_map(|unit| unit.names().iter().copied())
            .map(|known| {
                (
                    strsim::damerau_levenshtein(&name, &known.to_lowercase()),
                    known,
                )
            })
            .filter(|(distance, known)| *distance <= reach && *distance < known.chars().count())
            .min_by_key(|(distance, _)| *distance)
            .map(|(_, known)| known)
    }

    /// The whole text with another unit in the place of `name`.
    fn with_unit(&self, name: &Range<usize>, unit: &str) -> String {
        let before = name.start.checked_sub(1).and_then(|at| self.text.get(at));
        let space = if before == Some(' ') || unit == "%" {
            ""
        } else {
            " "
        };
        self.text.replaced(name, &format!("{space}{unit}"))
    }

    /// The fault of a range written with a dash.
    fn dash(&self, term: &Range<usize>, name: &Range<usize>) -> Fault {
        let message = format!(
            "the dash in {} may be a minus sign or stand for a range; a range is written with `to`",
            self.text.quote(term)
        );
        let unit = self.text.plain(name).replace(['-', '\u{2013}'], "");
        let suggestion = self.text.replaced(name, &format!(" {} to ", unit.trim()));
        let suggestion = suggestion.split_whitespace().collect::<Vec<_>>().join(" ");
        Fault::new(Kind::Ambiguous, term.clone(), message).suggest(suggestion)
    }
}
