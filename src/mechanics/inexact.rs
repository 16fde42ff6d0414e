//! Roots and angles: the only places where the mechanics leave exact fractions. Each result is
//! rounded outward, by far more than floating point can be off.

use crate::quantity::{Exact, Interval};

/// Far above the error of one floating-point operation on numbers near one, and below anything
/// that is shown.
const SLACK: f64 = 1e-14;

/// Every square root of the values, those below zero left out.
pub(super) fn sqrt(x: Interval) -> Interval {
    let down = |v: Exact| {
        let root = v.max(Exact::ZERO).to_f64().sqrt();
        Exact::from_f64_down(root * (1.0 - SLACK))
    };
    let up = |v: Exact| Exact::from_f64_up(v.max(Exact::ZERO).to_f64().sqrt() * (1.0 + SLACK));
    Interval {
        lo: Some(x.lo.and_then(down).unwrap_or(Exact::ZERO)),
        hi: x.hi.and_then(up),
    }
}

/// Every square of the values.
pub(super) fn square(x: Interval) -> Interval {
    let product = x.mul(x);
    if x.contains(Exact::ZERO) {
        Interval {
            lo: Some(Exact::ZERO),
            hi: product.hi,
        }
    } else {
        product
    }
}

/// The sine of an angle in degrees; from 0 to 1 for any angle beyond a right angle.
pub(super) fn sin_deg(angle: Interval) -> Interval {
    match right_angle(angle) {
        Some((lo, hi)) => unit(sine(lo).lo, sine(hi).hi),
        None => unit(None, None),
    }
}

/// The cosine of an angle in degrees; from 0 to 1 for any angle beyond a right angle, as angles
/// between a tie-down and something else are taken as the acute ones.
pub(super) fn cos_deg(angle: Interval) -> Interval {
    let rest = |x: Exact| Exact::from_int(90).checked_sub(x).unwrap_or(Exact::ZERO);
    match right_angle(angle) {
        Some((lo, hi)) => unit(sine(rest(hi)).lo, sine(rest(lo)).hi),
        None => unit(None, None),
    }
}

/// The angle in degrees, from 0 to 90, whose tangent is the value without its sign.
pub(super) fn atan_deg(tangent: Interval) -> Interval {
    let angle = |v: Exact| v.abs().to_f64().atan().to_degrees();
    let ends = [tangent.lo, tangent.hi];
    let high = ends
        .map(|e| e.map_or(90.0, angle))
        .into_iter()
        .fold(0.0, f64::max);
    let low = if tangent.contains(Exact::ZERO) {
        0.0
    } else {
        ends.into_iter().flatten().map(angle).fold(90.0, f64::min)
    };
    let margin = 100.0 * SLACK;
    Interval {
        lo: Exact::from_f64_down((low - margin).max(0.0)),
        hi: Exact::from_f64_up((high + margin).min(90.0)),
    }
}

fn right_angle(angle: Interval) -> Option<(Exact, Exact)> {
    let (lo, hi) = (angle.lo?, angle.hi?);
    (!lo.is_negative() && hi <= Exact::from_int(90)).then_some((lo, hi))
}

/// The sine of one angle from 0 to 90 degrees: exact where it is a plain number.
fn sine(degrees: Exact) -> Interval {
    let plain = [(0, 0, 1), (30, 1, 2), (90, 1, 1)];
    for (angle, num, den) in plain {
        if degrees == Exact::from_int(angle) {
            return Exact::new(num, den).map_or(unit(None, None), Interval::exactly);
        }
    }
    let value = degrees.to_f64().to_radians().sin();
    unit(
        Exact::from_f64_down(value - SLACK),
        Exact::from_f64_up(value + SLACK),
    )
}

/// The ends kept within 0 and 1, which stand where an end is open.
fn unit(lo: Option<Exact>, hi: Option<Exact>) -> Interval {
    Interval {
        lo: Some(lo.unwrap_or(Exact::ZERO).max(Exact::ZERO)),
        hi: Some(hi.unwrap_or(Exact::ONE).min(Exact::ONE)),
    }
}
