//! Exact rational numbers of a fixed size.

use std::cmp::Ordering;
use std::fmt;
use std::ops::Neg;

use num_bigint::BigInt;
use num_integer::Integer as _;
use num_rational::{BigRational, Ratio};
use num_traits::{Signed, ToPrimitive, Zero};

use super::fraction::{self, Parts};
use super::show::Rounding;

/// The finest step kept when a number has to be rounded outward: one part in 10^12.
const GRID: i128 = 1_000_000_000_000;

/// An exact rational number: the quotient of two 128-bit integers in lowest terms.
///
/// Equality and order are those of the numbers, and comparing never overflows. Operations that
/// could leave the range say so with `None`; nothing here panics.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Exact(Ratio<i128>);

impl Exact {
    /// Zero.
    pub const ZERO: Exact = Exact(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Exact = Exact(Ratio::new_raw(1, 1));

    /// The whole number `value`.
    pub const fn from_int(value: i64) -> Exact {
        Exact(Ratio::new_raw(value as i128, 1))
    }

    /// The quotient `num / den`; `None` when `den` is zero or the reduced quotient does not fit.
    pub fn new(num: i128, den: i128) -> Option<Exact> {
        if den == 0 {
            None
        } else if num == i128::MIN || den == i128::MIN {
            Exact::from_big(&BigRational::new(num.into(), den.into()))
        } else {
            Some(Exact(Ratio::new(num, den)))
        }
    }

    /// A positive constant in lowest terms.
    pub(super) const fn constant(num: u64, den: u64) -> Exact {
        let (mut a, mut b) = (num, den);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let (num, den) = if a > 1 {
            (num / a, den / a)
        } else {
            (num, den)
        };
        Exact(Ratio::new_raw(num as i128, den as i128))
    }

    /// The numerator in lowest terms; it carries the sign.
    pub const fn numerator(self) -> i128 {
        *self.0.numer()
    }

    /// The denominator in lowest terms; always positive.
    pub const fn denominator(self) -> i128 {
        *self.0.denom()
    }

    /// The sum, or `None` when it does not fit.
    pub fn checked_add(self, other: Exact) -> Option<Exact> {
        self.quick_add(other)
            .or_else(|| Exact::from_big(&(self.big() + other.big())))
    }

    /// The difference `self - other`, or `None` when it does not fit.
    pub fn checked_sub(self, other: Exact) -> Option<Exact> {
        self.checked_add(other.neg())
    }

    /// The product, or `None` when it does not fit.
    pub fn checked_mul(self, other: Exact) -> Option<Exact> {
        fraction::mul(self.parts(), other.parts()).map(Exact::of_parts)
    }

    /// The quotient `self / other`, or `None` when `other` is zero or the quotient does not fit.
    pub fn checked_div(self, other: Exact) -> Option<Exact> {
        if other == Exact::ZERO {
            return None;
        }
        self.checked_mul(other.reciprocal())
    }

    /// The sum, exact where it fits and else rounded down to a multiple of 10^-12 (of 1 when that
    /// does not fit either). `None` when the sum is beyond ±1.7 × 10^38.
    pub fn add_down(self, other: Exact) -> Option<Exact> {
        let exact = self.checked_add(other);
        exact.or_else(|| on_grid(&(self.big() + other.big()), Rounding::Down))
    }

    /// Like [`Exact::add_down`], rounded up.
    pub fn add_up(self, other: Exact) -> Option<Exact> {
        let exact = self.checked_add(other);
        exact.or_else(|| on_grid(&(self.big() + other.big()), Rounding::Up))
    }

    /// The product, exact where it fits and else rounded down as [`Exact::add_down`] does.
    pub fn mul_down(self, other: Exact) -> Option<Exact> {
        let exact = self.checked_mul(other);
        exact.or_else(|| on_grid(&wide_product(self, other), Rounding::Down))
    }

    /// Like [`Exact::mul_down`], rounded up.
    pub fn mul_up(self, other: Exact) -> Option<Exact> {
        let exact = self.checked_mul(other);
        exact.or_else(|| on_grid(&wide_product(self, other), Rounding::Up))
    }

    /// The quotient, exact where it fits and else rounded down as [`Exact::add_down`] does.
    /// `None` also when `other` is zero.
    pub fn div_down(self, other: Exact) -> Option<Exact> {
        self.div_on_grid(other, Rounding::Down)
    }

    /// Like [`Exact::div_down`], rounded up.
    pub fn div_up(self, other: Exact) -> Option<Exact> {
        self.div_on_grid(other, Rounding::Up)
    }

    fn div_on_grid(self, other: Exact, rounding: Rounding) -> Option<Exact> {
        if other == Exact::ZERO {
            return None;
        }
        let exact = self.checked_div(other);
        exact.or_else(|| on_grid(&wide_product(self, other.reciprocal()), rounding))
    }

    /// The number with its sign turned.
    #[allow(clippy::should_implement_trait)] // also implemented; this spares callers the import
    pub fn neg(self) -> Exact {
        // The numerator is never i128::MIN, so this cannot overflow.
        Exact(Ratio::new_raw(-self.numerator(), self.denominator()))
    }

    /// The number without its sign.
    pub fn abs(self) -> Exact {
        if self.is_negative() { self.neg() } else { self }
    }

    /// Whether the number is below zero.
    pub const fn is_negative(self) -> bool {
        self.numerator() < 0
    }

    /// The greatest whole number that is not above this one.
    pub fn floor(self) -> Exact {
        // The denominator is positive, so Euclidean division rounds down.
        let whole = self.numerator().div_euclid(self.denominator());
        Exact(Ratio::new_raw(whole, 1))
    }

    /// The least whole number that is not below this one.
    pub fn ceil(self) -> Exact {
        self.neg().floor().neg()
    }

    /// Whether the number is whole.
    pub const fn is_integer(self) -> bool {
        self.denominator() == 1
    }

    /// The nearest binary floating-point number.
    pub fn to_f64(self) -> f64 {
        // Every fraction of two 128-bit integers is within the range of f64.
        self.0.to_f64().unwrap_or(0.0)
    }

    /// The greatest multiple of 10^-12 (of 1 for huge numbers) that is not above `value`.
    /// `None` when `value` is not finite or does not fit.
    pub fn from_f64_down(value: f64) -> Option<Exact> {
        on_grid(&BigRational::from_float(value)?, Rounding::Down)
    }

    /// The least multiple of 10^-12 (of 1 for huge numbers) that is not below `value`.
    /// `None` when `value` is not finite or does not fit.
    pub fn from_f64_up(value: f64) -> Option<Exact> {
        on_grid(&BigRational::from_float(value)?, Rounding::Up)
    }

    /// Reads a plain decimal such as `1360.77711`, `-0.5` or `.5`: ASCII digits with at most one
    /// point and a leading minus. No grouping, exponent or unit. `None` for anything else, and
    /// when the number does not fit.
    pub fn parse_decimal(text: &str) -> Option<Exact> {
        let (negative, digits) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text),
        };
        let (whole, part) = match digits.split_once('.') {
            Some((_, "")) => return None,
            Some(halves) => halves,
            None if digits.is_empty() => return None,
            None => (digits, ""),
        };
        let mut num: i128 = 0;
        for digit in whole.chars().chain(part.chars()) {
            let digit = digit.to_digit(10)?;
            num = num.checked_mul(10)?.checked_add(digit.into())?;
        }
        let places = u32::try_from(part.len()).ok()?;
        let value = Exact::new(num, 10_i128.checked_pow(places)?)?;
        Some(if negative { value.neg() } else { value })
    }

    /// A plain decimal with at most `max_digits` digits after the point: exact when the number
    /// terminates within them, else rounded half to even. No grouping, no trailing zeros.
    pub fn to_decimal(self, max_digits: u32) -> String {
        decimal(&self.big(), max_digits, Rounding::HalfEven).0
    }

    /// The same number without a limit of size.
    pub(super) fn big(self) -> BigRational {
        BigRational::new_raw(self.numerator().into(), self.denominator().into())
    }

    /// One over a number that is not zero.
    fn reciprocal(self) -> Exact {
        let (num, den) = self.parts();
        Exact::of_parts((num.signum() * den, num.abs()))
    }

    fn parts(self) -> Parts {
        (self.numerator(), self.denominator())
    }

    fn of_parts((num, den): Parts) -> Exact {
        Exact(Ratio::new_raw(num, den))
    }

    fn quick_add(self, other: Exact) -> Option<Exact> {
        fraction::add(self.parts(), other.parts()).map(Exact::of_parts)
    }

    fn from_ratio(ratio: Ratio<i128>) -> Option<Exact> {
        (*ratio.numer() != i128::MIN).then_some(Exact(ratio))
    }

    fn from_big(value: &BigRational) -> Option<Exact> {
        let (num, den) = (value.numer().to_i128()?, value.denom().to_i128()?);
        Exact::from_ratio(Ratio::new_raw(num, den))
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Exact) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Exact) -> Ordering {
        let quick = fraction::compare(self.parts(), other.parts());
        quick.unwrap_or_else(|| self.0.cmp(&other.0))
    }
}

impl Neg for Exact {
    type Output = Exact;

    fn neg(self) -> Exact {
        Exact::neg(self)
    }
}

impl fmt::Display for Exact {
    /// An exact decimal where the number has one within twelve digits, else a fraction.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (text, exact) = decimal(&self.big(), 12, Rounding::HalfEven);
        if exact {
            f.write_str(&text)
        } else {
            write!(f, "{}/{}", self.numerator(), self.denominator())
        }
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Exact({self})")
    }
}

/// The multiple of 10^-12 beside `value` on the side asked for, or the whole number beside it
/// where such a fine one does not fit.
fn on_grid(value: &BigRational, rounding: Rounding) -> Option<Exact> {
    [GRID, 1].into_iter().find_map(|scale| {
        // The parts need not be in lowest terms for this, so no common divisor is looked for.
        let scaled =
            BigRational::new_raw(value.numer() * BigInt::from(scale), value.denom().clone());
        Exact::new(rounded(&scaled, rounding).to_i128()?, scale)
    })
}

/// The product in wide integers, not in lowest terms.
fn wide_product(a: Exact, b: Exact) -> BigRational {
    let num = BigInt::from(a.numerator()) * BigInt::from(b.numerator());
    let den = BigInt::from(a.denominator()) * BigInt::from(b.denominator());
    BigRational::new_raw(num, den)
}

/// The whole number beside `value`, which need not be in lowest terms.
fn rounded(value: &BigRational, rounding: Rounding) -> BigInt {
    let (num, den) = (value.numer(), value.denom());
    match rounding {
        Rounding::Down => num.div_floor(den),
        Rounding::Up => -((-num).div_floor(den)),
        Rounding::HalfEven => halfway(num, den),
    }
}

/// The nearer whole number, of two as near the even one. The denominator is positive.
fn halfway(num: &BigInt, den: &BigInt) -> BigInt {
    let (below, rest) = num.div_mod_floor(den);
    let twice: BigInt = rest * 2;
    match twice.cmp(den) {
        Ordering::Less => below,
        Ordering::Equal if below.is_even() => below,
        _ => below + 1,
    }
}

/// A plain decimal of `value` with at most `digits` after the point, and whether it is exact.
pub(super) fn decimal(value: &BigRational, digits: u32, rounding: Rounding) -> (String, bool) {
    if let Some(found) = small_decimal(value, digits, rounding) {
        return found;
    }
    // Not in lowest terms; nothing here needs that.
    let num = value.numer() * BigInt::from(10).pow(digits);
    let exact = num.is_multiple_of(value.denom());
    let steps = match rounding {
        _ if exact => num / value.denom(),
        Rounding::HalfEven => halfway(&num, value.denom()),
        _ => rounded(&BigRational::new_raw(num, value.denom().clone()), rounding),
    };
    let sign = if steps.is_negative() { "-" } else { "" };
    let magnitude = steps.abs();
    if magnitude.is_zero() {
        return ("0".to_owned(), exact);
    }
    (with_point(sign, &magnitude.to_string(), digits), exact)
}

/// [`decimal`] where the numbers are small.
fn small_decimal(value: &BigRational, digits: u32, rounding: Rounding) -> Option<(String, bool)> {
    let num = value
        .numer()
        .to_i128()?
        .checked_mul(10_i128.checked_pow(digits)?)?;
    let den = value.denom().to_i128()?;
    let (below, rest) = (num.div_euclid(den), num.rem_euclid(den));
    let up = match rounding {
        _ if rest == 0 => false,
        Rounding::Down => false,
        Rounding::Up => true,
        Rounding::HalfEven => match rest.cmp(&den.checked_sub(rest)?) {
            Ordering::Less => false,
            Ordering::Equal => below % 2 != 0,
            Ordering::Greater => true,
        },
    };
    let steps = if up { below.checked_add(1)? } else { below };
    if steps == 0 {
        return Some(("0".to_owned(), rest == 0));
    }
    let sign = if steps < 0 { "-" } else { "" };
    let text = with_point(sign, &steps.unsigned_abs().to_string(), digits);
    Some((text, rest == 0))
}

/// Digits with the point before the last so many of them, zeros at the end left out.
fn with_point(sign: &str, magnitude: &str, digits: u32) -> String {
    let width = usize::try_from(digits).unwrap_or(0).saturating_add(1);
    let mut text = format!("{magnitude:0>width$}");
    if digits > 0 {
        text.insert(text.len().saturating_sub(width - 1), '.');
        let kept = text.trim_end_matches('0').trim_end_matches('.').len();
        text.truncate(kept);
    }
    format!("{sign}{text}")
}
