//! The formulas on their own, over ranges. Masses stand for weights (kg), distances are in metres
//! from the coupler's centre rearward, forces in newtons, angles in degrees. Nothing fails: where
//! a divisor may be zero the result is open.

use super::inexact::{cos_deg, sin_deg, square};
use crate::quantity::{Exact, Interval, Unit};

/// A weight at a distance behind the coupler.
#[derive(Clone, Copy, Debug)]
pub struct Placed {
    /// The weight, kg.
    pub weight: Interval,
    /// The distance from the coupler's centre rearward to its centre of gravity, m.
    pub at: Interval,
}

/// A number written as `num / den`.
pub(super) fn ratio(num: i64, den: i64) -> Exact {
    Exact::new(i128::from(num), i128::from(den)).unwrap_or(Exact::ZERO)
}

/// Gravity as EN 12195-1 and the published lashing examples take it, 9.81 m/s².
pub(super) fn gravity() -> Interval {
    Interval::exactly(ratio(981, 100))
}

/// The results at both ends of `x`, and between. Right where the function is monotone in `x`;
/// it keeps a value that stands in the formula more than once from being counted as several.
pub(super) fn over_ends(x: Interval, f: impl Fn(Interval) -> Interval) -> Interval {
    match (x.lo, x.hi) {
        (Some(lo), Some(hi)) => f(Interval::exactly(lo)).hull(f(Interval::exactly(hi))),
        _ => f(x),
    }
}

/// Tongue weight by moments about the axle group: the empty trailer's tongue weight, and of each
/// item its weight times its distance ahead of the axles over the distance coupler to axles.
/// `T = T₀ + Σ w (1 − x / L)`. Below zero when the load lifts the hitch.
#[must_use]
pub fn tongue_by_moments(empty_tongue: Interval, to_axles: Interval, items: &[Placed]) -> Interval {
    over_ends(to_axles, |l| {
        let share = |i: &Placed| Interval::exactly(Exact::ONE).sub(i.at.div(l));
        items
            .iter()
            .fold(empty_tongue, |t, i| t.add(i.weight.mul(share(i))))
    })
}

/// What the axle group carries by moments about the coupler: `A = W₀ − T₀ + Σ w x / L`.
#[must_use]
pub fn axles_by_moments(
    empty_weight: Interval,
    empty_tongue: Interval,
    to_axles: Interval,
    items: &[Placed],
) -> Interval {
    over_ends(to_axles, |l| {
        items.iter().fold(empty_weight.sub(empty_tongue), |a, i| {
            a.add(i.weight.mul(i.at.div(l)))
        })
    })
}

/// Where the load of rigid axles on equal springs acts: `Σ x² / Σ x`. The trailer is a rigid
/// beam held at the coupler, which does not yield, and at each axle by a spring; unloaded, all
/// touch. Then each spring gives way in proportion to its distance from the coupler.
#[must_use]
pub fn rigid_axle_centre(positions: &[Interval]) -> Interval {
    let zero = Interval::exactly(Exact::ZERO);
    let squares = positions.iter().fold(zero, |s, x| s.add(square(*x)));
    let sum = positions.iter().fold(zero, |s, x| s.add(*x));
    squares.div(sum)
}

/// What a weight on the hitch does to the towing vehicle's axles.
#[derive(Clone, Copy, Debug)]
pub struct Lever {
    /// Taken off the front axle, kg; below zero when it is added.
    pub off_front: Interval,
    /// Added to the rear axle, kg.
    pub on_rear: Interval,
}

/// The lever rule: `T b / a` comes off the front axle and `T (1 + b / a)` goes on the rear axle,
/// with `a` the wheelbase and `b` the distance from rear axle back to the hitch.
#[must_use]
pub fn lever(tongue: Interval, overhang: Interval, wheelbase: Interval) -> Lever {
    let arm = overhang.div(wheelbase);
    Lever {
        off_front: tongue.mul(arm),
        on_rear: tongue.mul(Interval::exactly(Exact::ONE).add(arm)),
    }
}

/// What the spring bars put on the front axle for each unit that they move to the trailer's
/// axles: `(L + b) / a`, from the moment that the bars apply at the hitch.
#[must_use]
pub fn front_for_trailer(to_axles: Interval, overhang: Interval, wheelbase: Interval) -> Interval {
    to_axles.add(overhang).div(wheelbase)
}

/// The force along the deck that friction leaves over: `(c − μ c_z) m g`, with `c_z` = 1; zero
/// where friction alone holds.
#[must_use]
pub fn sliding_need(acceleration: Interval, friction: Interval, mass: Interval) -> Interval {
    let zero = Interval::exactly(Exact::ZERO);
    let share = acceleration.sub(friction).max(zero);
    share.mul(mass).mul(gravity())
}

/// What a top-over tie-down adds to friction: `k μ F_T sin α`, with `k` = 2 for both legs.
#[must_use]
pub fn top_over_force(
    k: Interval,
    friction: Interval,
    tension: Interval,
    angle: Interval,
) -> Interval {
    k.mul(friction).mul(tension).mul(sin_deg(angle))
}

/// What a direct tie-down holds along the deck: `F_R (cos α cos β + f_μ μ sin α)`, with β the
/// angle seen from above between it and the direction held.
#[must_use]
pub fn direct_force(
    capacity: Interval,
    angle: Interval,
    sideways: Interval,
    friction: Interval,
) -> Interval {
    let along = cos_deg(angle).mul(cos_deg(sideways));
    capacity.mul(along.add(friction.mul(sin_deg(angle))))
}

/// The part of a tension that points down, and the part along the deck.
#[must_use]
pub fn tension_parts(tension: Interval, angle: Interval) -> (Interval, Interval) {
    (tension.mul(sin_deg(angle)), tension.mul(cos_deg(angle)))
}

/// The mean deceleration, m/s², of a stop from 20 mph in a distance: `v² / (2 d)`.
#[must_use]
pub fn stop_deceleration(distance: Interval) -> Interval {
    let speed = Unit::MilePerHour
        .to_base(Exact::from_int(20))
        .unwrap_or(Exact::ZERO);
    let speed = Interval::exactly(speed);
    let twice = distance.scale(Exact::from_int(2));
    speed.mul(speed).div(twice)
}

/// A mean of values by weight, beside a fixed part: the range of
/// `(n + Σ w v) / (d + Σ w)` for weights and values anywhere in their ranges, weights not below
/// zero. Each weight stands above and below the line, so dividing ranges would be far too wide;
/// the extremes lie where the weights of the greatest values are at one end and all others at the
/// other.
#[must_use]
pub fn weighted_mean(fixed: (Interval, Interval), terms: &[(Interval, Interval)]) -> Interval {
    let rough = rough_mean(fixed, terms);
    let ends = |pick: fn(&Interval) -> Option<Exact>| -> Option<Vec<Term>> {
        terms
            .iter()
            .map(|(w, v)| {
                Some(Term {
                    least: w.lo?.max(Exact::ZERO),
                    most: w.hi?.max(Exact::ZERO),
                    value: pick(v)?,
                })
            })
            .collect()
    };
    let dens: Vec<Exact> = [fixed.1.lo, fixed.1.hi].into_iter().flatten().collect();
    if dens.len() < 2 {
        return rough;
    }
    let low = ends(|v| v.lo).zip(fixed.0.lo).and_then(|(terms, num)| {
        let found = dens.iter().map(|d| extreme(num, *d, &terms, false));
        found.min().flatten()
    });
    let high = ends(|v| v.hi).zip(fixed.0.hi).and_then(|(terms, num)| {
        let found = dens.iter().map(|d| extreme(num, *d, &terms, true));
        found.collect::<Option<Vec<_>>>()?.into_iter().max()
    });
    let fine = Interval {
        lo: low.or(rough.lo),
        hi: high.or(rough.hi),
    };
    fine.intersect(rough).unwrap_or(rough)
}

struct Term {
    least: Exact,
    most: Exact,
    value: Exact,
}

/// The greatest or least mean when each weight is at one of its ends.
fn extreme(num: Exact, den: Exact, terms: &[Term], greatest: bool) -> Option<Exact> {
    let mut order: Vec<&Term> = terms.iter().collect();
    order.sort_by_key(|t| t.value);
    if greatest {
        order.reverse();
    }
    let at = Interval::exactly;
    let start = |pick: fn(&Term) -> Interval, from: Exact| {
        order.iter().fold(at(from), |s, t| s.add(pick(t)))
    };
    let mut above = start(|t| Interval::exactly(t.least).scale(t.value), num);
    let mut below = start(|t| Interval::exactly(t.least), den);
    let mut means = Vec::with_capacity(order.len() + 1);
    let mut keep = |above: Interval, below: Interval| {
        if below.is_exact() != Some(Exact::ZERO) {
            let mean = above.div(below);
            means.push(if greatest { mean.hi } else { mean.lo });
        }
    };
    keep(above, below);
    for t in order {
        let more = at(t.most).sub(at(t.least));
        above = above.add(more.scale(t.value));
        below = below.add(more);
        keep(above, below);
    }
    let means = means.into_iter().collect::<Option<Vec<_>>>()?;
    let means = means.into_iter();
    if greatest { means.max() } else { means.min() }
}

/// A mean lies between the least and the greatest of what it is made of.
fn rough_mean(fixed: (Interval, Interval), terms: &[(Interval, Interval)]) -> Interval {
    let none = Interval::exactly(Exact::ZERO);
    let mut parts: Vec<Interval> = terms.iter().map(|(_, v)| *v).collect();
    if fixed != (none, none) {
        parts.push(fixed.0.div(fixed.1));
    }
    let mut parts = parts.into_iter();
    let first = parts.next().unwrap_or(Interval::everything());
    parts.fold(first, Interval::hull)
}
