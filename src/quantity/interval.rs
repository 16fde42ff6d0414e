//! Values known to lie between two ends, and what can be said of them.

use std::ops::{Add, Div, Mul, Neg, Sub};

use super::Exact;

/// Every value from `lo` to `hi`, the ends included. `None` is an open end: nothing is known on
/// that side.
///
/// Arithmetic is outward: the result holds every value that the operation can give for values
/// taken from the operands. It is exact unless a number leaves the range of [`Exact`]; an end
/// that does not fit at all becomes open. Operands are taken as independent of each other, so
/// `a - a` is as wide as two unrelated values would make it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Interval {
    /// The least value, or `None` when it may be as low as can be.
    pub lo: Option<Exact>,
    /// The greatest value, or `None` when it may be as high as can be.
    pub hi: Option<Exact>,
}

/// What a comparison gives over all the values that two intervals hold.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Compared {
    /// It holds for every pair of values.
    Always,
    /// It holds for no pair of values.
    Never,
    /// It holds for some pairs of values and fails for others.
    Sometimes,
}

impl Interval {
    /// The one value `value`.
    pub const fn exactly(value: Exact) -> Interval {
        Interval {
            lo: Some(value),
            hi: Some(value),
        }
    }

    /// The values from `lo` to `hi`; `None` when `lo` is above `hi`.
    pub fn new(lo: Option<Exact>, hi: Option<Exact>) -> Option<Interval> {
        match (lo, hi) {
            (Some(lo), Some(hi)) if lo > hi => None,
            _ => Some(Interval { lo, hi }),
        }
    }

    /// `value` and everything above it.
    pub const fn starting_at(value: Exact) -> Interval {
        Interval {
            lo: Some(value),
            hi: None,
        }
    }

    /// `value` and everything below it.
    pub const fn ending_at(value: Exact) -> Interval {
        Interval {
            lo: None,
            hi: Some(value),
        }
    }

    /// Every number.
    pub const fn everything() -> Interval {
        Interval { lo: None, hi: None }
    }

    /// Zero and everything above it.
    pub const fn non_negative() -> Interval {
        Interval::starting_at(Exact::ZERO)
    }

    /// The value, where there is only one.
    pub fn is_exact(&self) -> Option<Exact> {
        self.lo.filter(|_| self.lo == self.hi)
    }

    /// Whether `value` is one of the values.
    pub fn contains(&self, value: Exact) -> bool {
        self.lo.is_none_or(|lo| lo <= value) && self.hi.is_none_or(|hi| value <= hi)
    }

    /// Whether every value of `other` is one of the values.
    pub fn contains_interval(&self, other: Interval) -> bool {
        let below = self
            .lo
            .is_none_or(|lo| other.lo.is_some_and(|its| lo <= its));
        let above = self
            .hi
            .is_none_or(|hi| other.hi.is_some_and(|its| its <= hi));
        below && above
    }

    /// The values that both have; `None` when there are none.
    pub fn intersect(self, other: Interval) -> Option<Interval> {
        let lo = either(self.lo, other.lo, Exact::max);
        let hi = either(self.hi, other.hi, Exact::min);
        Interval::new(lo, hi)
    }

    /// The values of both and those between them.
    pub fn hull(self, other: Interval) -> Interval {
        Interval {
            lo: both(self.lo, other.lo, Exact::min),
            hi: both(self.hi, other.hi, Exact::max),
        }
    }

    /// Every sum of a value of each.
    #[allow(clippy::should_implement_trait)] // also implemented; this spares callers the import
    pub fn add(self, other: Interval) -> Interval {
        if let (Some(a), Some(b)) = (self.is_exact(), other.is_exact())
            && let Some(sum) = a.checked_add(b)
        {
            return Interval::exactly(sum);
        }
        Interval {
            lo: self.lo.zip(other.lo).and_then(|(a, b)| a.add_down(b)),
            hi: self.hi.zip(other.hi).and_then(|(a, b)| a.add_up(b)),
        }
    }

    /// Every difference of a value of this one less a value of the other.
    #[allow(clippy::should_implement_trait)]
    pub fn sub(self, other: Interval) -> Interval {
        self.add(other.neg())
    }

    /// Every value with its sign turned.
    #[allow(clippy::should_implement_trait)]
    pub fn neg(self) -> Interval {
        Interval {
            lo: self.hi.map(Exact::neg),
            hi: self.lo.map(Exact::neg),
        }
    }

    /// Every value times `factor`.
    pub fn scale(self, factor: Exact) -> Interval {
        self.mul(Interval::exactly(factor))
    }

    /// Every product of a value of each, whatever their signs.
    #[allow(clippy::should_implement_trait)]
    pub fn mul(self, other: Interval) -> Interval {
        if let (Some(a), Some(b)) = (self.is_exact(), other.is_exact())
            && let Some(product) = a.checked_mul(b)
        {
            return Interval::exactly(product);
        }
        // Where nothing is below zero, the ends of the product are those of the factors.
        if let (Some(a), Some(b), Some(c), Some(d)) = (self.lo, other.lo, self.hi, other.hi)
            && !a.is_negative()
            && !b.is_negative()
        {
            return Interval {
                lo: a.mul_down(b),
                hi: c.mul_up(d),
            };
        }
        let ends = |it: Interval| [End::Low.of(it), End::High.of(it)];
        let mut lo = Bound::Above;
        let mut hi = Bound::Below;
        for a in ends(self) {
            for b in ends(other) {
                lo = lo.min(a.times(b, Exact::mul_down).unwrap_or(Bound::Below));
                hi = hi.max(a.times(b, Exact::mul_up).unwrap_or(Bound::Above));
            }
        }
        Interval {
            lo: lo.finite(),
            hi: hi.finite(),
        }
    }

    /// Every quotient of a value of this one by a value of the other that is not zero. Where the
    /// divisor reaches zero the result has an open end; where it has values on both sides of
    /// zero, or is zero, the result is everything.
    #[allow(clippy::should_implement_trait)]
    pub fn div(self, other: Interval) -> Interval {
        match other.reciprocal() {
            Some(reciprocal) => self.mul(reciprocal),
            None => Interval::everything(),
        }
    }

    /// The lesser of a value of each, for every pair.
    pub fn min(self, other: Interval) -> Interval {
        Interval {
            lo: both(self.lo, other.lo, Exact::min),
            hi: either(self.hi, other.hi, Exact::min),
        }
    }

    /// The greater of a value of each, for every pair.
    pub fn max(self, other: Interval) -> Interval {
        Interval {
            lo: either(self.lo, other.lo, Exact::max),
            hi: both(self.hi, other.hi, Exact::max),
        }
    }

    /// Every value rounded up to a whole number.
    pub fn ceil(self) -> Interval {
        Interval {
            lo: self.lo.map(Exact::ceil),
            hi: self.hi.map(Exact::ceil),
        }
    }

    /// Every value rounded down to a whole number.
    pub fn floor(self) -> Interval {
        Interval {
            lo: self.lo.map(Exact::floor),
            hi: self.hi.map(Exact::floor),
        }
    }

    /// Whether this value is at least the other.
    pub fn at_least(&self, other: Interval) -> Compared {
        let always = self.lo.zip(other.hi).is_some_and(|(mine, its)| mine >= its);
        let never = self.hi.zip(other.lo).is_some_and(|(mine, its)| mine < its);
        Compared::from_two(always, never)
    }

    /// Whether this value is more than the other.
    pub fn more_than(&self, other: Interval) -> Compared {
        other.at_least(*self).not()
    }

    /// Whether this value is at most the other.
    pub fn at_most(&self, other: Interval) -> Compared {
        other.at_least(*self)
    }

    /// Whether this value is less than the other.
    pub fn less_than(&self, other: Interval) -> Compared {
        self.at_least(other).not()
    }

    /// Whether this value equals the other.
    pub fn equals(&self, other: Interval) -> Compared {
        let same = self
            .is_exact()
            .is_some_and(|value| other.is_exact() == Some(value));
        Compared::from_two(same, self.intersect(other).is_none())
    }

    /// One over every value but zero; `None` when that reaches both ways without end.
    fn reciprocal(self) -> Option<Interval> {
        let over = |value: Exact| Exact::ONE.checked_div(value);
        match (self.lo, self.hi) {
            (Some(lo), hi) if lo >= Exact::ZERO && hi != Some(Exact::ZERO) => Some(Interval {
                lo: hi.map_or(Some(Exact::ZERO), over),
                hi: over(lo),
            }),
            (lo, Some(hi)) if hi <= Exact::ZERO && lo != Some(Exact::ZERO) => Some(Interval {
                lo: over(hi),
                hi: lo.map_or(Some(Exact::ZERO), over),
            }),
            _ => None,
        }
    }
}

impl Compared {
    /// The outcome of the opposite comparison.
    #[allow(clippy::should_implement_trait)]
    pub const fn not(self) -> Compared {
        match self {
            Compared::Always => Compared::Never,
            Compared::Never => Compared::Always,
            Compared::Sometimes => Compared::Sometimes,
        }
    }

    fn from_two(always: bool, never: bool) -> Compared {
        match (always, never) {
            (true, false) => Compared::Always,
            (false, true) => Compared::Never,
            _ => Compared::Sometimes,
        }
    }
}

/// Of two ends that may be open: `pick` of both, the closed one where only one is.
fn either(a: Option<Exact>, b: Option<Exact>, pick: fn(Exact, Exact) -> Exact) -> Option<Exact> {
    match (a, b) {
        (Some(a), Some(b)) => Some(pick(a, b)),
        (a, b) => a.or(b),
    }
}

/// Of two ends that may be open: `pick` of both, open where either is.
fn both(a: Option<Exact>, b: Option<Exact>, pick: fn(Exact, Exact) -> Exact) -> Option<Exact> {
    a.zip(b).map(|(a, b)| pick(a, b))
}

/// One end of an interval on the number line with its two infinities, in their order.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Bound {
    Below,
    At(Exact),
    Above,
}

#[derive(Clone, Copy)]
enum End {
    Low,
    High,
}

impl End {
    fn of(self, it: Interval) -> Bound {
        match self {
            End::Low => it.lo.map_or(Bound::Below, Bound::At),
            End::High => it.hi.map_or(Bound::Above, Bound::At),
        }
    }
}

impl Bound {
    fn finite(self) -> Option<Exact> {
        match self {
            Bound::At(value) => Some(value),
            Bound::Below | Bound::Above => None,
        }
    }

    fn sign(self) -> i32 {
        match self {
            Bound::Below => -1,
            Bound::At(value) => value.numerator().signum() as i32,
            Bound::Above => 1,
        }
    }

    /// The product; zero times an open end is zero, as the end itself is never reached. `None`
    /// when the product does not fit.
    fn times(self, other: Bound, mul: fn(Exact, Exact) -> Option<Exact>) -> Option<Bound> {
        match (self, other, self.sign() * other.sign()) {
            (Bound::At(a), Bound::At(b), _) => mul(a, b).map(Bound::At),
            (_, _, 0) => Some(Bound::At(Exact::ZERO)),
            (_, _, 1) => Some(Bound::Above),
            _ => Some(Bound::Below),
        }
    }
}

macro_rules! operator {
    ($trait:ident, $method:ident) => {
        impl $trait for Interval {
            type Output = Interval;

            fn $method(self, other: Interval) -> Interval {
                Interval::$method(self, other)
            }
        }
    };
}

operator!(Add, add);
operator!(Sub, sub);
operator!(Mul, mul);
operator!(Div, div);

impl Neg for Interval {
    type Output = Interval;

    fn neg(self) -> Interval {
        Interval::neg(self)
    }
}
