//! Ratings: what is used of each, and the weakest part of the coupling.

use super::bench::{Bench, joined, zero};
use crate::facts::{ItemId, Scope, Value, catalogue};
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// The share used, what it is used by, and the rating.
const USED: &[(&str, &str, &str)] = &[
    ("trailer.gvwr_used", "trailer.gross_weight", "trailer.gvwr"),
    (
        "trailer.registered_weight_used",
        "trailer.gross_weight",
        "trailer.registered_weight",
    ),
    (
        "trailer.axle_ratings_used",
        "trailer.axle_weight",
        "trailer.axle_ratings",
    ),
    (
        "tow_vehicle.gvwr_used",
        "tow_vehicle.hitched_weight",
        "tow_vehicle.gvwr",
    ),
    (
        "tow_vehicle.gcwr_used",
        "combination.gross_weight",
        "tow_vehicle.gcwr",
    ),
    (
        "tow_vehicle.towing_rating_used",
        "trailer.gross_weight",
        "tow_vehicle.towing_rating",
    ),
    (
        "tow_vehicle.payload_used",
        "tow_vehicle.payload_weight",
        "tow_vehicle.payload",
    ),
    (
        "tow_vehicle.registered_weight_used",
        "tow_vehicle.gross_weight",
        "tow_vehicle.registered_weight",
    ),
    (
        "combination.registered_weight_used",
        "combination.gross_weight",
        "combination.registered_weight",
    ),
    (
        "coupling.rating_used",
        "trailer.gross_weight",
        "coupling.weakest_rating",
    ),
    (
        "coupling.tongue_rating_used",
        "trailer.tongue_weight",
        "coupling.weakest_tongue_rating",
    ),
];

/// A part of the coupling: its name among the choices, what it is called, its rating, and the
/// couplings that surely have it.
struct Part {
    choice: &'static str,
    label: &'static str,
    rating: &'static str,
    needed: &'static [&'static str],
}

const PARTS: &[Part] = &[
    Part {
        choice: "coupler",
        label: "coupler",
        rating: "trailer.coupler.rating",
        needed: &["ball", "bumper", "gooseneck"],
    },
    Part {
        choice: "ball",
        label: "ball",
        rating: "tow_vehicle.hitch.ball_rating",
        needed: &["ball", "bumper", "gooseneck"],
    },
    Part {
        choice: "ball-mount",
        label: "ball mount",
        rating: "tow_vehicle.hitch.mount_rating",
        needed: &["ball"],
    },
    Part {
        choice: "hitch",
        label: "hitch",
        rating: "tow_vehicle.hitch.trailer_rating",
        needed: &["ball", "bumper", "pintle", "gooseneck", "fifth-wheel"],
    },
];

const TONGUE_PARTS: &[Part] = &[
    Part {
        choice: "hitch",
        label: "hitch",
        rating: "tow_vehicle.hitch.tongue_rating",
        needed: &["ball", "bumper", "pintle"],
    },
    Part {
        choice: "ball-mount",
        label: "ball mount",
        rating: "tow_vehicle.hitch.mount_tongue_rating",
        needed: &["ball"],
    },
    Part {
        choice: "hitch",
        label: "towing vehicle",
        rating: "tow_vehicle.tongue_rating",
        needed: &[],
    },
];

pub(super) fn work_out(b: &mut Bench<'_>) {
    payload(b);
    weakest(
        b,
        PARTS,
        "coupling.weakest_rating",
        Some("coupling.weakest_part"),
    );
    weakest(b, TONGUE_PARTS, "coupling.weakest_tongue_rating", None);
    for (used, by, rating) in USED {
        used_of(b, ItemId::RIG, used, by, rating);
    }
    for axle in b.items(Scope::Axle) {
        used_of(b, axle, "axle.rating_used", "axle.weight", "axle.rating");
    }
    for axle in b.items(Scope::VehicleAxle) {
        used_of(
            b,
            axle,
            "vehicle_axle.rating_used",
            "vehicle_axle.hitched_weight",
            "vehicle_axle.rating",
        );
    }
}

fn payload(b: &mut Bench<'_>) {
    let parts = [
        ("people", "tow_vehicle.people_weight"),
        ("gear", "tow_vehicle.gear_weight"),
        ("tongue", "trailer.tongue_weight"),
    ];
    if !parts.iter().any(|p| b.is_known(ItemId::RIG, p.1)) {
        return;
    }
    let unit = b.mass_unit();
    let total = parts.iter().fold(zero(), |t, p| t.add(b.number(p.1)));
    let words: Vec<String> = parts
        .iter()
        .map(|p| format!("{} {}", p.0, b.show(ItemId::RIG, p.1, Some(unit))))
        .collect();
    b.put(
        "tow_vehicle.payload_weight",
        total,
        Some(unit),
        words.join(" + "),
        &parts.map(|p| p.1),
    );
}

/// The least rating of the parts that are stated or that such a coupling surely has, and its part.
fn weakest(b: &mut Bench<'_>, parts: &[Part], name: &str, which: Option<&str>) {
    let coupling = b.choice_of(ItemId::RIG, "trailer.coupling");
    // Without a stated coupling any of the parts may be there, and may be the weakest.
    let there = |b: &Bench<'_>, p: &Part| {
        b.is_known(ItemId::RIG, p.rating) || coupling.is_none_or(|c| p.needed.contains(&c))
    };
    let present: Vec<&Part> = parts.iter().filter(|p| there(b, p)).collect();
    if !present.iter().any(|p| b.is_known(ItemId::RIG, p.rating)) {
        return;
    }
    let unit = b.unit(&parts.iter().map(|p| p.rating).collect::<Vec<_>>());
    let rating = |b: &Bench<'_>, p: &Part| b.number(p.rating);
    let least = present
        .iter()
        .map(|p| rating(b, p))
        .reduce(Interval::min)
        .unwrap_or(Interval::non_negative());
    let words: Vec<String> = present
        .iter()
        .map(|p| format!("{} {}", p.label, b.show(ItemId::RIG, p.rating, unit)))
        .collect();
    let can_be: Vec<&&Part> = present
        .iter()
        .filter(|p| rating(b, p).lo <= least.hi || least.hi.is_none())
        .collect();
    let known_least = present
        .iter()
        .filter(|p| b.is_known(ItemId::RIG, p.rating))
        .min_by_key(|p| rating(b, p).hi.or(rating(b, p).lo));
    let named = known_least.map_or("", |p| p.label);
    let from: Vec<&str> = present.iter().map(|p| p.rating).collect();
    let working = format!("the least of {}: the {named}", joined(&words, ", "));
    b.put(name, least, unit, working.clone(), &from);
    let Some(which) = which else { return };
    let choices = catalogue().def(super::bench::fact(which)).kind.choices();
    let bit = |p: &Part| {
        choices
            .iter()
            .position(|c| c.name == p.choice)
            .map_or(0, |i| 1_u128 << i)
    };
    let mask = can_be.iter().fold(0, |m, p| m | bit(p));
    if mask != 0 {
        b.put_of(ItemId::RIG, which, Value::OneOf(mask), None, working, &from);
    }
}

/// A load as a share of its rating, with what is left or over.
pub(super) fn used_of(b: &mut Bench<'_>, item: ItemId, used: &str, by: &str, rating: &str) {
    let Some((load, limit)) = b.known_number(item, by).zip(b.known_number(item, rating)) else {
        return;
    };
    let unit = b
        .unit_of(item, rating)
        .or(b.unit_of(item, by))
        .unwrap_or(Unit::Pound);
    let left = limit.sub(load);
    let rest = if left.hi.is_some_and(Exact::is_negative) {
        format!("over by {}", format_interval(left.neg(), unit))
    } else if left.lo.is_some_and(|lo| !lo.is_negative()) {
        format!("{} to spare", format_interval(left, unit))
    } else {
        "within or over".to_owned()
    };
    let working = format!(
        "{} of {}, {rest}",
        b.show(item, by, Some(unit)),
        format_interval(limit, unit)
    );
    let value = load.div(limit).max(zero());
    b.put_number(item, used, value, Unit::Percent, working, &[by, rating]);
}
