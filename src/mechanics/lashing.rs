//! The force balance of EN 12195-1 and the CTU Code for sliding and tipping.
//!
//! Accelerations, as shares of gravity: 0.8 forward, 0.5 rearward and sideways; 0.6 sideways for
//! tipping. Top-over tie-downs: `n k μ F_T sin α ≥ (c − μ) m g f_s` with `k` = 2 and `f_s` 1.25
//! forward, 1.1 otherwise (partly from memory). Direct ones: `Σ F_R (cos α cos β + f_μ μ sin α) ≥
//! (c − f_μ μ) m g` with `f_μ` = 0.75 (from memory). The two ways are not added to each other.

use super::bench::{Bench, joined, zero};
use super::formulas::{direct_force, gravity, ratio, sliding_need, top_over_force};
use super::inexact::{cos_deg, sin_deg};
use super::tie_downs::{LIMIT, times};
use crate::facts::{ItemId, Scope, Value, catalogue};
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// One way in which an item may move.
struct Way {
    word: &'static str,
    /// Hundredths of gravity, for sliding and for tipping.
    sliding: i64,
    tipping: i64,
    /// Hundredths: the safety factor of top-over tie-downs.
    safety: i64,
    /// The members of `tie_down.holds_against`; each must be held on its own.
    against: &'static [&'static str],
    edge: &'static str,
    along: bool,
    held: &'static str,
    needed: &'static str,
    tips: &'static str,
}

#[rustfmt::skip]
const WAYS: [Way; 3] = [
    Way { word: "forward", sliding: 80, tipping: 80, safety: 125, against: &["forward"], edge: "load.tipping_edge.front", along: true,
        held: "load.sliding_held.forward", needed: "load.top_over_needed.forward", tips: "load.tipping_held.forward" },
    Way { word: "rearward", sliding: 50, tipping: 50, safety: 110, against: &["rearward"], edge: "load.tipping_edge.rear", along: true,
        held: "load.sliding_held.rearward", needed: "load.top_over_needed.rearward", tips: "load.tipping_held.rearward" },
    Way { word: "sideways", sliding: 50, tipping: 60, safety: 110, against: &["left", "right"], edge: "load.tipping_edge.side", along: false,
        held: "load.sliding_held.sideways", needed: "load.top_over_needed.sideways", tips: "load.tipping_held.sideways" },
];

fn hundredths(n: i64) -> Interval {
    Interval::exactly(ratio(n, 100))
}

/// A load item with its tie-downs by path.
struct Tied {
    load: ItemId,
    mass: Interval,
    over: Vec<ItemId>,
    direct: Vec<ItemId>,
    /// Tie-downs by a path that the balance does not cover, or by none stated.
    other: bool,
    unit: Unit,
}

pub(super) fn work_out(b: &mut Bench<'_>) {
    for load in b.items(Scope::Load) {
        edges(b, load);
        if !b.facts.is_listed(Scope::TieDown, load) {
            continue;
        }
        let Some(mass) = b.known_number(load, "load.weight") else {
            continue;
        };
        let all: Vec<ItemId> = b.facts.children(Scope::TieDown, load.index).collect();
        let by = |path: &str| {
            all.iter()
                .copied()
                .filter(|t| b.choice_of(*t, "tie_down.path") == Some(path))
                .collect::<Vec<_>>()
        };
        let (over, direct) = (by("over"), by("direct"));
        let other = over.len() + direct.len() < all.len();
        let unit = ["tie_down.pretension", "tie_down.lashing_capacity"]
            .iter()
            .find_map(|n| all.iter().find_map(|t| b.unit_of(*t, n)));
        let pounds = b.unit_of(load, "load.weight") == Some(Unit::Pound);
        let unit = unit.unwrap_or(if pounds {
            Unit::PoundForce
        } else {
            Unit::Dekanewton
        });
        let tied = Tied {
            load,
            mass,
            over,
            direct,
            other,
            unit,
        };
        for way in &WAYS {
            sliding(b, &tied, way);
            tipping(b, &tied, way);
        }
    }
}

/// The distances to the tipping edges of an item whose centre of gravity lies in its middle.
fn edges(b: &mut Bench<'_>, load: ItemId) {
    if b.yes_of(load, "load.centre_in_middle") != crate::facts::Tri::True {
        return;
    }
    for (edge, size) in [
        ("load.tipping_edge.front", "load.length"),
        ("load.tipping_edge.rear", "load.length"),
        ("load.tipping_edge.side", "load.width"),
    ] {
        if let Some(whole) = b.known_number(load, size) {
            let unit = b.unit_of(load, size).unwrap_or(Unit::Foot);
            let working = format!("half of {}", b.show(load, size, Some(unit)));
            if !b.is_known(load, edge) {
                b.put_number(load, edge, whole.scale(ratio(1, 2)), unit, working, &[size]);
            }
        }
    }
}

/// The tension in a top-over tie-down: as stated, no more than half its lashing capacity.
fn tension(b: &Bench<'_>, t: ItemId) -> Interval {
    let stated = b.number_of(t, "tie_down.pretension");
    match b.known_number(t, "tie_down.lashing_capacity") {
        Some(capacity) => stated.min(capacity.scale(ratio(1, 2))),
        None => stated,
    }
}

/// The force that a direct tie-down may take: its lashing capacity, or the weight of its limit.
fn capacity(b: &Bench<'_>, t: ItemId) -> Interval {
    let by_limit = || b.number_of(t, LIMIT).mul(gravity());
    b.known_number(t, "tie_down.lashing_capacity")
        .unwrap_or_else(by_limit)
}

/// Whether a direct tie-down holds against a way: 1, 0, or both where it is not stated.
fn holds(b: &Bench<'_>, t: ItemId, against: &str) -> Interval {
    let id = super::bench::fact("tie_down.holds_against");
    let bit = catalogue()
        .def(id)
        .kind
        .choices()
        .iter()
        .position(|c| c.name == against)
        .map_or(0, |i| 1_u128 << i);
    let (zero, one) = (zero(), Interval::exactly(Exact::ONE));
    match b.facts.value(t, id) {
        Value::Set { has, .. } if has & bit != 0 => one,
        Value::Set { may, .. } if may & bit == 0 => zero,
        _ => zero.hull(one),
    }
}

/// The angle between a direct tie-down and the way that it holds, seen from above.
fn aside(b: &Bench<'_>, t: ItemId, way: &Way) -> Interval {
    let from_travel = b.number_of(t, "tie_down.angle_from_travel");
    if way.along {
        from_travel
    } else {
        Interval::exactly(Exact::from_int(90)).sub(from_travel)
    }
}

/// What is held of a need, as a share; a need of nothing is held whole and more.
fn share_of(held: Interval, need: Interval) -> Interval {
    if need.hi.is_some_and(|hi| hi <= Exact::ZERO) {
        return Interval::starting_at(Exact::ONE);
    }
    let share = held.div(need).max(zero());
    if need.lo.is_none_or(|lo| lo <= Exact::ZERO) {
        // The need may be nothing, and then it is held.
        return Interval {
            lo: share.lo.map(|lo| lo.min(Exact::ONE)),
            hi: None,
        };
    }
    share
}

/// The better of two ways to hold; where both are at work, or others besides, it may be more.
fn better(over: Option<Interval>, direct: Option<Interval>, other: bool) -> Option<Interval> {
    let both = over.is_some() && direct.is_some();
    let best = match (over, direct) {
        (Some(a), Some(b)) => a.max(b),
        (a, b) => a.or(b)?,
    };
    Some(if both || other {
        Interval {
            lo: best.lo,
            hi: None,
        }
    } else {
        best
    })
}

fn sliding(b: &mut Bench<'_>, tied: &Tied, way: &Way) {
    let Some(friction) = b.known_number(tied.load, "load.friction") else {
        return;
    };
    let c = hundredths(way.sliding);
    let show = |x: Interval| format_interval(x, tied.unit);
    let head = format!(
        "{}: ({} − friction {}) of the weight",
        way.word,
        format_interval(c, Unit::Percent),
        format_interval(friction, Unit::Percent)
    );
    let mut words = Vec::new();
    let need = sliding_need(c, friction, tied.mass).mul(hundredths(way.safety));
    let forces: Vec<(Interval, Interval)> = tied
        .over
        .iter()
        .map(|t| {
            (
                times(b, *t),
                top_over_force(
                    Interval::exactly(Exact::from_int(2)),
                    friction,
                    tension(b, *t),
                    b.number_of(*t, "tie_down.angle"),
                ),
            )
        })
        .collect();
    let over = (!forces.is_empty()).then(|| {
        let held = forces.iter().fold(zero(), |s, (n, f)| s.add(n.mul(*f)));
        let each: Vec<String> = forces
            .iter()
            .map(|(n, f)| format!("{}{}", super::tie_downs::times_word(*n), show(*f)))
            .collect();
        words.push(format!(
            "top-over need {} (times {}), held {} = {}",
            show(need),
            format_interval(hundredths(way.safety), Unit::One),
            joined(&each, " + "),
            show(held)
        ));
        share_of(held, need)
    });
    let direct = (!tied.direct.is_empty()).then(|| {
        let factor = ratio(75, 100);
        let eased = friction.scale(factor);
        let need = sliding_need(c, eased, tied.mass);
        let of = |against: &&str| {
            tied.direct.iter().fold(zero(), |s, t| {
                let force = direct_force(
                    capacity(b, *t),
                    b.number_of(*t, "tie_down.angle"),
                    aside(b, *t, way),
                    eased,
                );
                s.add(times(b, *t).mul(force).mul(holds(b, *t, against)))
            })
        };
        let held = way
            .against
            .iter()
            .map(of)
            .reduce(Interval::min)
            .unwrap_or(zero());
        words.push(format!(
            "direct need {} (friction times 0.75), held {}",
            show(need),
            show(held)
        ));
        share_of(held, need)
    });
    let from = ["load.friction", "tie_down.pretension"];
    let blank = tied.over.is_empty() && tied.direct.is_empty();
    let held = if blank && !tied.other {
        Some(share_of(zero(), need))
    } else {
        better(over, direct, tied.other)
    };
    if let Some(held) = held {
        let working = if words.is_empty() {
            head.clone()
        } else {
            format!("{head}; {}", words.join("; "))
        };
        b.put_number(tied.load, way.held, held, Unit::Percent, working, &from);
    }
    // The weakest of them stands for all.
    if let Some(weakest) = forces.iter().map(|f| f.1).reduce(Interval::min) {
        let needed = if need.hi == Some(Exact::ZERO) {
            zero()
        } else {
            let least = need.div(weakest).max(zero()).ceil();
            // One by a path that is not stated may be a weaker one.
            let hi = least.hi.filter(|_| !tied.other);
            Interval { lo: least.lo, hi }
        };
        let working = format!("{head}; {} ÷ {} each", show(need), show(weakest));
        b.put_of(
            tied.load,
            way.needed,
            Value::Number(needed),
            None,
            working,
            &from,
        );
    }
}

fn tipping(b: &mut Bench<'_>, tied: &Tied, way: &Way) {
    let height = b.known_number(tied.load, "load.centre_height");
    let Some((height, edge)) = height.zip(b.known_number(tied.load, way.edge)) else {
        return;
    };
    let c = hundredths(way.tipping);
    let weight = tied.mass.mul(gravity());
    let need = c.mul(height).sub(edge).max(zero()).mul(weight);
    let mut words = format!(
        "{}: {} × height {} against edge {}",
        way.word,
        format_interval(c, Unit::Percent),
        b.show(tied.load, "load.centre_height", None),
        b.show(
            tied.load,
            way.edge,
            b.unit_of(tied.load, "load.centre_height")
        ),
    );
    if need.hi == Some(Exact::ZERO) {
        words.push_str("; it stands by itself");
        b.put_number(
            tied.load,
            way.tips,
            Interval::starting_at(Exact::ONE),
            Unit::Percent,
            words,
            &["load.centre_height"],
        );
        return;
    }
    // Pressing down on the far edge, over the width; only sideways, as top-over tie-downs run across.
    let across = b
        .known_number(tied.load, "load.width")
        .filter(|_| !way.along);
    let over = across.filter(|_| !tied.over.is_empty()).map(|width| {
        let moment = tied.over.iter().fold(zero(), |s, t| {
            let down = tension(b, *t).mul(sin_deg(b.number_of(*t, "tie_down.angle")));
            s.add(times(b, *t).mul(down).mul(width))
        });
        share_of(moment, need.mul(hundredths(way.safety)))
    });
    let direct = (!tied.direct.is_empty()).then(|| {
        let of = |against: &&str| {
            tied.direct.iter().fold(zero(), |s, t| {
                let flat =
                    cos_deg(b.number_of(*t, "tie_down.angle")).mul(cos_deg(aside(b, *t, way)));
                let arm = b
                    .known_number(*t, "tie_down.attach_height")
                    .unwrap_or(Interval::non_negative());
                s.add(
                    times(b, *t)
                        .mul(capacity(b, *t))
                        .mul(flat)
                        .mul(arm)
                        .mul(holds(b, *t, against)),
                )
            })
        };
        let moment = way
            .against
            .iter()
            .map(of)
            .reduce(Interval::min)
            .unwrap_or(zero());
        share_of(moment, need)
    });
    let not_counted = tied.other || (way.along && !tied.over.is_empty());
    let blank = tied.over.is_empty() && tied.direct.is_empty() && !tied.other;
    let held = if blank {
        Some(share_of(zero(), need))
    } else {
        better(over, direct, not_counted)
    };
    if let Some(held) = held {
        words.push_str("; held by the moments of the tie-downs");
        b.put_number(
            tied.load,
            way.tips,
            held,
            Unit::Percent,
            words,
            &["load.centre_height"],
        );
    }
}
