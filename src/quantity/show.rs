//! What somebody wrote, and how amounts are printed.

use num_rational::BigRational;
use num_traits::{One, Signed, Zero};

use super::exact::decimal;
use super::number::MAX_DENOMINATOR;
use super::{Exact, Interval, Unit};

/// Decimals within which a worked-out amount is printed exactly.
const SHORT: u32 = 3;
/// Decimals within which a written amount is printed exactly; the most that are read.
const WRITTEN: u32 = 12;

/// Which way a number that does not end is rounded.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Rounding {
    /// To the nearer neighbour; halfway, to the even one.
    HalfEven,
    /// Towards the lesser neighbour.
    Down,
    /// Towards the greater neighbour.
    Up,
}

/// How an amount was written.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Shown {
    /// As a decimal: `80.5 in`.
    Decimal,
    /// With a common fraction: `2-5/16 in`.
    Fraction,
    /// In feet and inches: `6 ft 8.5 in`. The unit is the foot.
    FeetInches,
    /// In feet, inches and a common fraction of an inch: `6 ft 8-1/2 in`. The unit is the foot.
    FeetInchesFraction,
}

/// A quantity as somebody wrote it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Measure {
    /// The values it may have, in the base unit of its dimension.
    pub interval: Interval,
    /// The unit it was written in.
    pub unit: Unit,
    /// How it was written.
    pub shown: Shown,
}

impl Measure {
    /// The one value `value`, in base units, to be shown in `unit` as a decimal.
    pub const fn exactly(value: Exact, unit: Unit) -> Measure {
        Measure {
            interval: Interval::exactly(value),
            unit,
            shown: Shown::Decimal,
        }
    }

    /// The quantity in the unit and the way it was written, every digit kept.
    pub fn show(&self) -> String {
        ends(self.interval, self.unit, |value| {
            written(value, self.unit, self.shown)
        })
    }

    /// The quantity in `unit`: as written where that is its unit, else as [`format_interval`].
    pub fn show_in(&self, unit: Unit) -> String {
        if unit == self.unit {
            self.show()
        } else {
            format_interval(self.interval, unit)
        }
    }
}

/// `value` (in base units) in `unit`, with commas between thousands: exact where it terminates
/// within three decimals, else rounded half to even.
///
/// The decimals kept when rounding go by the unit: none for Pa; one for lb, oz, kg, g, cm, mm,
/// mph, km/h, ft/s, psi, kPa, s, min, days, months, deg, lbf, N, daN and %; two for ft, in, yd,
/// km, mi, m/s, bar, h, years, kN and counts; three for t, short tons and m. An amount below one
/// keeps two significant digits if that is more.
///
/// ```
/// use pintle::quantity::{Exact, Unit, format_exact};
/// let mass = Exact::parse_decimal("1360.77711").unwrap();
/// assert_eq!(format_exact(mass, Unit::Pound), "3,000 lb");
/// assert_eq!(format_exact(mass, Unit::Kilogram), "1,360.8 kg");
/// ```
pub fn format_exact(value: Exact, unit: Unit) -> String {
    format_rounded(value, unit, Rounding::HalfEven)
}

/// Like [`format_exact`], but rounded the way asked for where it has to be rounded: down for a
/// greatest allowed value, up for a least one.
pub fn format_rounded(value: Exact, unit: Unit, rounding: Rounding) -> String {
    let (text, _) = number(&amount(value, unit), unit, SHORT, rounding);
    with_unit(&text, unit)
}

/// Whether [`format_exact`] has to round `value` (in base units) in `unit`.
pub fn is_rounded(value: Exact, unit: Unit) -> bool {
    !number(&amount(value, unit), unit, SHORT, Rounding::HalfEven).1
}

/// The values of `interval` (in base units) in `unit`, its ends as [`format_exact`] prints them:
/// `3,100 lb to 3,400 lb`, `at least 3 t`, `at most 200 lb`, `any mass`. Ends that print alike
/// are printed once.
pub fn format_interval(interval: Interval, unit: Unit) -> String {
    ends(interval, unit, |value| format_exact(value, unit))
}

/// `value` (in base units) in the unit of the one who wrote it, and in the unit of the statute
/// where that is another: `1,400 kg (3,086.5 lb)`.
pub fn show_both(value: Exact, unit_used: Unit, unit_of_statute: Unit) -> String {
    let used = format_exact(value, unit_used);
    if unit_used == unit_of_statute {
        return used;
    }
    format!("{used} ({})", format_exact(value, unit_of_statute))
}

/// `value` in base units as it was written in `unit`.
pub(super) fn written(value: Exact, unit: Unit, shown: Shown) -> String {
    let amount = amount(value, unit);
    match shown {
        Shown::FeetInches if unit == Unit::Foot => feet_inches(value, false),
        Shown::FeetInchesFraction if unit == Unit::Foot => feet_inches(value, true),
        Shown::Fraction => with_unit(&fraction(&amount, unit), unit),
        _ => with_unit(&number(&amount, unit, WRITTEN, Rounding::HalfEven).0, unit),
    }
}

/// Whether [`written`] gives `value`, in base units, without rounding in `unit`.
pub(super) fn is_written_exactly(value: Exact, unit: Unit, shown: Shown) -> bool {
    let whole = match shown {
        Shown::FeetInches | Shown::FeetInchesFraction => Unit::Inch,
        Shown::Decimal | Shown::Fraction => unit,
    };
    let amount = amount(value, whole);
    let small = *amount.denom() <= MAX_DENOMINATOR.into();
    let as_fraction = matches!(shown, Shown::Fraction | Shown::FeetInchesFraction);
    (as_fraction && small) || decimal(&amount, WRITTEN, Rounding::HalfEven).1
}

fn amount(value: Exact, unit: Unit) -> BigRational {
    match unit.from_base(value) {
        Some(amount) => amount.big(),
        None => value.big() / unit.factor().big(),
    }
}

fn ends(interval: Interval, unit: Unit, show: impl Fn(Exact) -> String) -> String {
    match (interval.lo.map(&show), interval.hi.map(&show)) {
        (Some(lo), Some(hi)) if lo == hi => lo,
        (Some(lo), Some(hi)) => format!("{lo} to {hi}"),
        (Some(lo), None) => format!("at least {lo}"),
        (None, Some(hi)) => format!("at most {hi}"),
        (None, None) => format!("any {}", unit.dimension().name()),
    }
}

fn with_unit(number: &str, unit: Unit) -> String {
    match unit {
        Unit::One => number.to_owned(),
        Unit::Percent => format!("{number}%"),
        _ => format!("{number} {}", unit.label(number == "1")),
    }
}

/// A number with commas, and whether it is exact.
fn number(
    amount: &BigRational,
    unit: Unit,
    exact_digits: u32,
    rounding: Rounding,
) -> (String, bool) {
    let (text, exact) = decimal(amount, exact_digits, rounding);
    if exact {
        return (with_commas(&text), true);
    }
    let digits = unit.decimals().max(two_significant(amount));
    let (text, exact) = decimal(amount, digits, rounding);
    (with_commas(&text), exact)
}

/// Decimals that show two significant digits of an amount below one.
fn two_significant(amount: &BigRational) -> u32 {
    let mut magnitude = amount.abs();
    let mut digits = 0;
    while magnitude < BigRational::one() && digits < WRITTEN {
        magnitude *= num_bigint::BigInt::from(10);
        digits += 1;
    }
    if digits == 0 {
        0
    } else {
        (digits + 1).min(WRITTEN)
    }
}

fn with_commas(decimal: &str) -> String {
    let (sign, digits) = match decimal.strip_prefix('-') {
        Some(digits) => ("-", digits),
        None => ("", decimal),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let mut text = sign.to_owned();
    for (nth, digit) in whole.chars().enumerate() {
        if nth > 0 && (whole.len() - nth) % 3 == 0 {
            text.push(',');
        }
        text.push(digit);
    }
    if !part.is_empty() {
        text.push('.');
        text.push_str(part);
    }
    text
}

/// `2-5/16`, `5/16` or `2`; a decimal where the denominator is beyond what is written so.
fn fraction(amount: &BigRational, unit: Unit) -> String {
    if *amount.denom() > MAX_DENOMINATOR.into() || amount.is_integer() {
        return number(amount, unit, WRITTEN, Rounding::HalfEven).0;
    }
    let magnitude = amount.abs();
    let rest = magnitude.fract();
    let sign = if amount.is_negative() { "-" } else { "" };
    if magnitude < BigRational::one() {
        return format!("{sign}{rest}");
    }
    let whole = with_commas(&magnitude.to_integer().to_string());
    format!("{sign}{whole}-{rest}")
}

/// `6 ft 8 in`, without the feet or the inches where there are none.
fn feet_inches(value: Exact, as_fraction: bool) -> String {
    let inches = amount(value, Unit::Inch);
    // Round first, so that the inches never read 12.
    let inches = match decimal(&inches, WRITTEN, Rounding::HalfEven) {
        (_, true) => inches,
        _ if as_fraction && *inches.denom() <= MAX_DENOMINATOR.into() => inches,
        _ => {
            let hundredths = num_bigint::BigInt::from(100);
            (inches * &hundredths).round() / hundredths
        }
    };
    let twelve = BigRational::from_integer(12.into());
    let magnitude = inches.abs();
    let feet = (&magnitude / &twelve).trunc();
    let rest = magnitude - &feet * twelve;
    let sign = if inches.is_negative() { "-" } else { "" };
    let rest_text = if as_fraction {
        fraction(&rest, Unit::Inch)
    } else {
        number(&rest, Unit::Inch, WRITTEN, Rounding::HalfEven).0
    };
    let feet_text = with_commas(&feet.to_string());
    match (feet.is_zero(), rest.is_zero()) {
        (_, true) => format!("{sign}{feet_text} ft"),
        (true, false) => format!("{sign}{rest_text} in"),
        (false, false) => format!("{sign}{feet_text} ft {rest_text} in"),
    }
}
