//! Values as sets of possibilities, and three-valued truth.

use super::kind::Kind;
use crate::quantity::{Dimension, Interval};

/// True, false, or not settled by what is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tri {
    /// No value that is possible makes it true.
    False,
    /// Some possible values make it true, others false.
    Unknown,
    /// Every possible value makes it true.
    True,
}

impl Tri {
    /// Both are true (Kleene's strong conjunction).
    #[must_use]
    pub fn and(self, other: Tri) -> Tri {
        self.min(other)
    }

    /// One at least is true (Kleene's strong disjunction).
    #[must_use]
    pub fn or(self, other: Tri) -> Tri {
        self.max(other)
    }

    /// The opposite.
    #[must_use]
    pub fn negate(self) -> Tri {
        match self {
            Tri::False => Tri::True,
            Tri::Unknown => Tri::Unknown,
            Tri::True => Tri::False,
        }
    }
}

impl From<bool> for Tri {
    fn from(b: bool) -> Tri {
        if b { Tri::True } else { Tri::False }
    }
}

/// The values that a fact can still have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Value {
    /// A number in the base unit of its dimension, a year, or a day counted from 1970-01-01.
    Number(Interval),
    /// Of a yes/no (bit 0 no, bit 1 yes) or a choice (one bit a member): those still possible.
    OneOf(u128),
    /// Of a set: the members it surely has, and those it may have.
    Set {
        /// Surely in the set.
        has: u128,
        /// Possibly in the set; contains `has`.
        may: u128,
    },
}

impl Value {
    /// The bit of "no".
    pub const NO: u128 = 1;
    /// The bit of "yes".
    pub const YES: u128 = 2;

    /// Nothing is known: every value of the kind is open.
    #[must_use]
    pub fn missing(kind: &Kind) -> Value {
        match kind {
            Kind::Measure(Dimension::Length | Dimension::Angle) | Kind::Date => {
                Value::Number(Interval::everything())
            }
            Kind::Measure(_) | Kind::Year => Value::Number(Interval::non_negative()),
            Kind::YesNo => Value::OneOf(Self::NO | Self::YES),
            Kind::Choice(c) => Value::OneOf(mask(c.len())),
            Kind::Set(c) => Value::Set {
                has: 0,
                may: mask(c.len()),
            },
            Kind::Text => Value::OneOf(0),
        }
    }

    /// A settled yes or no.
    #[must_use]
    pub fn yes_no(b: bool) -> Value {
        Value::OneOf(if b { Self::YES } else { Self::NO })
    }

    /// A yes/no that may be unsettled.
    #[must_use]
    pub fn from_tri(t: Tri) -> Value {
        match t {
            Tri::True => Self::yes_no(true),
            Tri::False => Self::yes_no(false),
            Tri::Unknown => Value::OneOf(Self::NO | Self::YES),
        }
    }

    /// A yes/no read as truth.
    #[must_use]
    pub fn truth(&self) -> Tri {
        match self {
            Value::OneOf(Self::YES) => Tri::True,
            Value::OneOf(Self::NO) => Tri::False,
            _ => Tri::Unknown,
        }
    }

    /// The number's range; everything when it is not a number.
    #[must_use]
    pub fn interval(&self) -> Interval {
        match self {
            Value::Number(i) => *i,
            _ => Interval::everything(),
        }
    }

    /// Whether just one value is possible.
    #[must_use]
    pub fn is_settled(&self) -> bool {
        match self {
            Value::Number(i) => i.is_exact().is_some(),
            Value::OneOf(m) => m.count_ones() == 1,
            Value::Set { has, may } => has == may,
        }
    }

    /// What both allow; `None` when they contradict each other.
    #[must_use]
    pub fn meet(&self, other: &Value) -> Option<Value> {
        match (self, other) {
            (Value::Number(a), Value::Number(b)) => a.intersect(*b).map(Value::Number),
            (Value::OneOf(a), Value::OneOf(b)) if a & b != 0 => Some(Value::OneOf(a & b)),
            (Value::Set { has: h1, may: m1 }, Value::Set { has: h2, may: m2 }) => {
                let (has, may) = (h1 | h2, m1 & m2);
                (has & !may == 0).then_some(Value::Set { has, may })
            }
            _ => None,
        }
    }
}

/// The `n` lowest bits set.
fn mask(n: usize) -> u128 {
    if n >= 128 { u128::MAX } else { (1 << n) - 1 }
}
