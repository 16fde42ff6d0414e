//! Tongue weight, tongue share, axle loads and the spread of the load, by moments.

use super::bench::{Bench, joined, zero};
use super::formulas::{axles_by_moments, over_ends, tongue_by_moments, weighted_mean};
use super::geometry::{Geometry, Piece, axle_shares};
use super::transfer::Transfer;
use crate::facts::{ItemId, Scope, Value};
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// What the trailer rests on the hitch, below zero where it lifts it; `None` when not known.
pub(super) type Tongue = Option<Interval>;

pub(super) fn work_out(b: &mut Bench<'_>, g: &Geometry) -> Tongue {
    let moments = by_moments(b, g);
    weighed_axles(b);
    let stated = b.is_stated(ItemId::RIG, "trailer.tongue_weight");
    // Until here the axles' weight is known only from a scale.
    let on_scale = ["trailer.axle_weight", "trailer.gross_weight"];
    let weighed = !stated && on_scale.iter().all(|n| b.is_known(ItemId::RIG, n));
    let tongue = if stated {
        b.known_number(ItemId::RIG, "trailer.tongue_weight")
    } else if weighed {
        from_axle_weight(b)
    } else {
        moments.as_ref().map(|m| m.tongue)
    };
    if let (Some(m), false, false) = (&moments, stated, weighed) {
        put_tongue(b, m);
        put_axle_weight(b, g, m);
    } else if stated {
        axle_weight_left(b);
    }
    lift(b, tongue);
    share(b, g, moments.as_ref().filter(|_| !stated && !weighed));
    tongue
}

/// What the moments give.
struct Moments {
    tongue: Interval,
    empty_tongue: Interval,
    working: String,
}

fn by_moments(b: &mut Bench<'_>, g: &Geometry) -> Option<Moments> {
    let empty_tongue = b.known_number(ItemId::RIG, "trailer.empty_tongue_weight")?;
    let load = g.load.as_ref()?;
    if !load.is_empty() && !g.has_axles() {
        return None;
    }
    let tongue = over_ends(g.deck, |deck| {
        tongue_by_moments(empty_tongue, g.to_axles, &g.placed(deck))
    });
    let working = tongue_working(b, g, load, tongue);
    let unit = b.mass_unit();
    b.put(
        "trailer.tongue_weight_by_moments",
        tongue.max(zero()),
        Some(unit),
        working.clone(),
        &["trailer.empty_tongue_weight"],
    );
    Some(Moments {
        tongue,
        empty_tongue,
        working,
    })
}

/// "empty 165 lb + kiln 3,250 lb × (12 ft − 10 ft) ÷ 12 ft = 541.7 lb": each step of the moments.
fn tongue_working(b: &Bench<'_>, g: &Geometry, load: &[Piece], tongue: Interval) -> String {
    let unit = b.mass_unit();
    let mut words = vec![format!(
        "empty {}",
        b.show(ItemId::RIG, "trailer.empty_tongue_weight", Some(unit))
    )];
    for p in load {
        let at = g.place(p, g.deck);
        let part = over_ends(g.to_axles, |l| {
            p.weight.mul(Interval::exactly(Exact::ONE).sub(at.div(l)))
        });
        let axles = g.show(g.to_axles);
        words.push(format!(
            "{} {} × ({axles} − {}) ÷ {axles} ({})",
            b.name(p.item),
            b.show(p.item, "load.weight", Some(unit)),
            g.show(at),
            format_interval(part, unit),
        ));
    }
    let sum = format!(
        "{} = {}",
        joined(&words, " + "),
        format_interval(tongue, unit)
    );
    if tongue.hi.is_some_and(Exact::is_negative) {
        format!("{sum}: the load lifts the hitch")
    } else {
        sum
    }
}

fn put_tongue(b: &mut Bench<'_>, m: &Moments) {
    let unit = b.mass_unit();
    let from = [
        "trailer.empty_tongue_weight",
        "load.position",
        "load.weight",
    ];
    b.put(
        "trailer.tongue_weight",
        m.tongue.max(zero()),
        Some(unit),
        m.working.clone(),
        &from,
    );
}

fn put_axle_weight(b: &mut Bench<'_>, g: &Geometry, m: &Moments) {
    let Some(empty) = b.known_number(ItemId::RIG, "trailer.empty_weight") else {
        return axle_weight_left(b);
    };
    let on_axles = over_ends(g.deck, |deck| {
        axles_by_moments(empty, m.empty_tongue, g.to_axles, &g.placed(deck))
    });
    let unit = b.mass_unit();
    let working = format!(
        "gross {} − tongue {}",
        b.show(ItemId::RIG, "trailer.gross_weight", Some(unit)),
        format_interval(m.tongue, unit),
    );
    let from = [
        "trailer.empty_weight",
        "trailer.empty_tongue_weight",
        "load.position",
    ];
    b.put(
        "trailer.axle_weight",
        on_axles.max(zero()),
        Some(unit),
        working,
        &from,
    );
}

/// What the axles carry is what does not rest on the hitch.
fn axle_weight_left(b: &mut Bench<'_>) {
    let (gross, tongue) = ("trailer.gross_weight", "trailer.tongue_weight");
    if b.is_known(ItemId::RIG, gross) && b.is_known(ItemId::RIG, tongue) {
        let unit = Some(b.mass_unit());
        let on_axles = b.number(gross).sub(b.number(tongue)).max(zero());
        let working = format!(
            "gross {} − tongue {}",
            b.show(ItemId::RIG, gross, unit),
            b.show(ItemId::RIG, tongue, unit)
        );
        b.put(
            "trailer.axle_weight",
            on_axles,
            unit,
            working,
            &[gross, tongue],
        );
    }
}

/// What rests on the hitch is what the weighed axles do not carry.
fn from_axle_weight(b: &mut Bench<'_>) -> Tongue {
    let (gross, axles) = ("trailer.gross_weight", "trailer.axle_weight");
    let tongue = b.known_number(ItemId::RIG, gross)?.sub(b.number(axles));
    let unit = Some(b.mass_unit());
    let working = format!(
        "gross {} − on the axles {}",
        b.show(ItemId::RIG, gross, unit),
        b.show(ItemId::RIG, axles, unit)
    );
    b.put(
        "trailer.tongue_weight",
        tongue.max(zero()),
        unit,
        working,
        &[gross, axles],
    );
    Some(tongue)
}

/// Axles weighed one by one together carry what the group carries.
fn weighed_axles(b: &mut Bench<'_>) {
    let axles = b.items(Scope::Axle);
    if axles.is_empty()
        || !b.facts.is_complete(Scope::Axle)
        || !axles.iter().all(|a| b.is_stated(*a, "axle.weight"))
    {
        return;
    }
    let moved = Transfer::to_trailer_stated(b);
    let sum = axles
        .iter()
        .fold(zero(), |s, a| s.add(b.number_of(*a, "axle.weight")));
    let words: Vec<String> = axles
        .iter()
        .map(|a| b.show(*a, "axle.weight", None))
        .collect();
    let unit = b.mass_unit();
    let less = if moved == zero() {
        String::new()
    } else {
        format!(" − moved by the hitch {}", format_interval(moved, unit))
    };
    let working = format!("{}{less}", joined(&words, " + "));
    b.put(
        "trailer.axle_weight",
        sum.sub(moved).max(zero()),
        Some(unit),
        working,
        &["axle.weight"],
    );
}

fn lift(b: &mut Bench<'_>, tongue: Tongue) {
    let Some(tongue) = tongue.filter(|t| t.lo.is_some()) else {
        return;
    };
    // A stated tongue weight of zero may hide a lift.
    if b.is_stated(ItemId::RIG, "trailer.tongue_weight") && tongue.lo <= Some(Exact::ZERO) {
        return;
    }
    let unit = b.mass_unit();
    let up = tongue.neg().max(zero());
    let working = if up == zero() {
        "the tongue presses down".to_owned()
    } else {
        format!("the hitch carries {}", format_interval(tongue, unit))
    };
    b.put(
        "trailer.tongue_lift",
        up,
        Some(unit),
        working,
        &["trailer.tongue_weight"],
    );
}

fn share(b: &mut Bench<'_>, g: &Geometry, m: Option<&Moments>) {
    let (tongue, gross) = ("trailer.tongue_weight", "trailer.gross_weight");
    if !b.is_known(ItemId::RIG, tongue) || !b.is_known(ItemId::RIG, gross) {
        return;
    }
    let mut value = b.number(tongue).div(b.number(gross)).max(zero());
    if let (Some(m), Some(empty)) = (m, b.known_number(ItemId::RIG, "trailer.empty_weight")) {
        let ahead = |deck: Interval| {
            over_ends(g.to_axles, |l| {
                let terms: Vec<(Interval, Interval)> = g
                    .placed(deck)
                    .iter()
                    .map(|p| (p.weight, Interval::exactly(Exact::ONE).sub(p.at.div(l))))
                    .collect();
                weighted_mean((m.empty_tongue, empty), &terms)
            })
        };
        let fine = over_ends(g.deck, ahead).max(zero());
        value = value.intersect(fine).unwrap_or(value);
    }
    let unit = Some(b.mass_unit());
    let working = format!(
        "tongue {} ÷ gross {}",
        b.show(ItemId::RIG, tongue, unit),
        b.show(ItemId::RIG, gross, unit)
    );
    b.put(
        "trailer.tongue_share",
        value,
        Some(Unit::Percent),
        working,
        &[tongue, gross],
    );
}

/// What each axle carries, with what a weight-distributing hitch moves to it.
pub(super) fn each_axle(b: &mut Bench<'_>, transfer: &Transfer) {
    let axles = b.items(Scope::Axle);
    if axles.is_empty() || !b.facts.is_complete(Scope::Axle) {
        return;
    }
    let Some(group) = b.known_number(ItemId::RIG, "trailer.axle_weight") else {
        return;
    };
    let Some(shares) = axle_shares(b, &axles) else {
        return;
    };
    let unit = b.mass_unit();
    let total = group.add(transfer.to_trailer);
    let moved = if transfer.to_trailer == zero() {
        String::new()
    } else {
        format!(
            " + moved by the hitch {}",
            format_interval(transfer.to_trailer, unit)
        )
    };
    for (axle, (share, why)) in axles.iter().zip(shares) {
        if b.is_stated(*axle, "axle.weight") {
            continue;
        }
        let why = if why.is_empty() {
            String::new()
        } else {
            format!(" ({why})")
        };
        let part = if axles.len() == 1 {
            String::new()
        } else {
            format!(" × {}", format_interval(share, Unit::Percent))
        };
        let sum = format!(
            "{}{moved}",
            b.show(ItemId::RIG, "trailer.axle_weight", Some(unit))
        );
        let sum = if moved.is_empty() || part.is_empty() {
            sum
        } else {
            format!("({sum})")
        };
        let working = format!("{sum}{part}{why}");
        let value = Value::Number(total.mul(share).max(zero()));
        b.put_of(
            *axle,
            "axle.weight",
            value,
            Some(unit),
            working,
            &["trailer.axle_weight"],
        );
    }
}
