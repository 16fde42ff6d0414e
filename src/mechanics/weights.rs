//! Weights of trailer, towing vehicle and combination, and the ratios that statutes use.

use super::bench::{Bench, joined, zero};
use crate::facts::{ItemId, Scope, Tri};
use crate::quantity::{Exact, Interval, Unit, format_interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    load(b);
    let unit = b.unit(&[
        "trailer.gross_weight",
        "trailer.empty_weight",
        "trailer.gvwr",
        "tow_vehicle.gvwr",
    ]);
    sum(
        b,
        "trailer.gross_weight",
        &[
            ("empty", "trailer.empty_weight"),
            ("load", "trailer.load_weight"),
        ],
        unit,
    );
    weighed_vehicle(b);
    let vehicle = [
        ("curb", "tow_vehicle.curb_weight"),
        ("people", "tow_vehicle.people_weight"),
        ("gear", "tow_vehicle.gear_weight"),
    ];
    let weighed = b.is_known(ItemId::RIG, "tow_vehicle.gross_weight")
        && !b.is_stated(ItemId::RIG, "tow_vehicle.gross_weight");
    if b.is_known(ItemId::RIG, "tow_vehicle.curb_weight") && !weighed {
        sum(b, "tow_vehicle.gross_weight", &vehicle, unit);
    }
    let mut weights = vec![
        ("towing vehicle", "tow_vehicle.gross_weight"),
        ("trailer", "trailer.gross_weight"),
    ];
    let mut ratings = vec![
        ("towing vehicle", "tow_vehicle.gvwr"),
        ("trailer", "trailer.gvwr"),
    ];
    if has_second(b) {
        weights.push(("second trailer", "second_trailer.gross_weight"));
        ratings.push(("second trailer", "second_trailer.gvwr"));
    }
    sum_of_all(b, "combination.gross_weight", &weights, unit);
    sum_of_all(b, "combination.gvwr", &ratings, unit);
    greatest(
        b,
        "trailer.greatest_weight",
        &[
            ("gross weight", "trailer.gross_weight"),
            ("GVWR", "trailer.gvwr"),
        ],
        unit,
    );
    combination_greatest(b, unit);
    capacity(b, unit);
    axle_ratings(b, Scope::Axle, "axle.rating", "trailer.axle_ratings");
    axle_ratings(
        b,
        Scope::VehicleAxle,
        "vehicle_axle.rating",
        "tow_vehicle.axle_ratings",
    );
    share(
        b,
        "trailer.weight_to_vehicle_weight",
        "trailer.gross_weight",
        "tow_vehicle.gross_weight",
    );
    share(
        b,
        "trailer.gvwr_to_vehicle_gvwr",
        "trailer.gvwr",
        "tow_vehicle.gvwr",
    );
    chains(b);
}

/// Whether there surely is a second trailer.
fn has_second(b: &Bench<'_>) -> bool {
    let two = Exact::from_int(2);
    b.number("combination.trailers")
        .lo
        .is_some_and(|n| n >= two)
}

/// Whether there may be a third trailer behind the second, of which nothing can be said.
fn may_have_third(b: &Bench<'_>) -> bool {
    let two = Exact::from_int(2);
    has_second(b) && b.number("combination.trailers").hi.is_none_or(|n| n > two)
}

/// The towing vehicle's axles, weighed without the trailer, together carry its gross weight. A
/// scale stands before the sum of curb weight, people and gear.
fn weighed_vehicle(b: &mut Bench<'_>) {
    let axles = b.items(Scope::VehicleAxle);
    let name = "vehicle_axle.weight";
    if axles.is_empty()
        || !b.facts.is_complete(Scope::VehicleAxle)
        || !axles.iter().all(|a| b.is_stated(*a, name))
    {
        return;
    }
    let total = axles
        .iter()
        .fold(zero(), |t, a| t.add(b.number_of(*a, name)));
    let words: Vec<String> = axles
        .iter()
        .map(|a| format!("{} {}", b.name(*a), b.show(*a, name, None)))
        .collect();
    let unit = b.unit_in(name);
    b.put(
        "tow_vehicle.gross_weight",
        total,
        unit,
        joined(&words, " + "),
        &[name],
    );
}

fn load(b: &mut Bench<'_>) {
    if b.yes("trailer.loaded") == Tri::False {
        b.put(
            "trailer.load_weight",
            zero(),
            Some(Unit::Pound),
            "not loaded".to_owned(),
            &["trailer.loaded"],
        );
    }
    if !b.facts.is_complete(Scope::Load) {
        return;
    }
    let mut total = zero();
    let mut words = Vec::new();
    let mut unit = None;
    for item in b.items(Scope::Load) {
        total = total.add(b.number_of(item, "load.weight"));
        let known = b.known_of(item, "load.weight").and_then(|k| k.unit);
        unit = unit.or(known);
        words.push(format!(
            "{} {}",
            b.name(item),
            b.show(item, "load.weight", known)
        ));
    }
    let working = if words.is_empty() {
        "no load".to_owned()
    } else {
        joined(&words, " + ")
    };
    b.put_yes(
        "trailer.loaded",
        Tri::from(!words.is_empty()),
        working.clone(),
        &["load.weight"],
    );
    b.put(
        "trailer.load_weight",
        total,
        unit.or(Some(Unit::Pound)),
        working,
        &["load.weight"],
    );
}

/// Sets a total. A part of which nothing is known leaves the total open at the top.
fn sum(b: &mut Bench<'_>, name: &str, parts: &[(&str, &str)], unit: Option<Unit>) {
    let from: Vec<&str> = parts.iter().map(|p| p.1).collect();
    if !from.iter().any(|n| b.is_known(ItemId::RIG, n)) {
        return;
    }
    let total = parts.iter().fold(zero(), |t, p| t.add(b.number(p.1)));
    let working = words(b, parts, " + ", unit);
    b.put(name, total, unit, working, &from);
}

/// Sets a total over the whole combination, open at the top where a third trailer may follow.
fn sum_of_all(b: &mut Bench<'_>, name: &str, parts: &[(&str, &str)], unit: Option<Unit>) {
    if !may_have_third(b) {
        return sum(b, name, parts, unit);
    }
    let from: Vec<&str> = parts.iter().map(|p| p.1).collect();
    let total = parts.iter().fold(zero(), |t, p| t.add(b.number(p.1)));
    let working = format!("{}, and what else is towed", words(b, parts, " + ", unit));
    let at_least = Interval {
        lo: total.lo,
        hi: None,
    };
    b.put(name, at_least, unit, working, &from);
}

fn greatest(b: &mut Bench<'_>, name: &str, parts: &[(&str, &str)], unit: Option<Unit>) {
    let from: Vec<&str> = parts.iter().map(|p| p.1).collect();
    if !from.iter().any(|n| b.is_known(ItemId::RIG, n)) {
        return;
    }
    let most = parts.iter().fold(zero(), |t, p| t.max(b.number(p.1)));
    let working = format!("the greatest of {}", words(b, parts, ", ", unit));
    b.put(name, most, unit, working, &from);
}

/// The greater of rating and actual weight of each vehicle, added up (49 CFR 390.5 counts whatever
/// combination of the two gives the most). A maker's GCWR counts there only where the certification
/// label shows it, so it is left to its own rule.
fn combination_greatest(b: &mut Bench<'_>, unit: Option<Unit>) {
    let mut vehicles = vec![
        (
            "towing vehicle",
            "tow_vehicle.gvwr",
            "tow_vehicle.gross_weight",
        ),
        ("trailer", "trailer.gvwr", "trailer.gross_weight"),
    ];
    if has_second(b) {
        vehicles.push((
            "second trailer",
            "second_trailer.gvwr",
            "second_trailer.gross_weight",
        ));
    }
    let from = [
        "trailer.gvwr",
        "tow_vehicle.gvwr",
        "trailer.gross_weight",
        "tow_vehicle.gross_weight",
        "combination.gross_weight",
    ];
    if !from.iter().any(|n| b.is_known(ItemId::RIG, n)) {
        return;
    }
    let mut total = zero();
    let mut told = Vec::new();
    for (label, rating, weight) in vehicles {
        let most = b.number(rating).max(b.number(weight));
        total = total.add(most);
        let shown = unit.map_or_else(|| "not known".to_owned(), |u| format_interval(most, u));
        told.push(format!("{label} {shown}"));
    }
    if may_have_third(b) {
        total.hi = None;
    }
    // What the whole rig weighs bounds the sum from below.
    total = total.max(b.number("combination.gross_weight"));
    let working = format!(
        "the greater of rating and weight of each: {}",
        told.join(" + ")
    );
    b.put("combination.greatest_weight", total, unit, working, &from);
}

fn words(b: &Bench<'_>, parts: &[(&str, &str)], between: &str, unit: Option<Unit>) -> String {
    let word = |(label, name): &(&str, &str)| {
        // The load is told item by item.
        let detail = match b.known_of(ItemId::RIG, name).map(|k| &k.whence) {
            Some(crate::facts::Whence::WorkedOut(w))
                if *name == "trailer.load_weight" && *w != "no load" =>
            {
                Some(w.clone())
            }
            _ => None,
        };
        detail.unwrap_or_else(|| format!("{label} {}", b.show(ItemId::RIG, name, unit)))
    };
    parts.iter().map(word).collect::<Vec<_>>().join(between)
}

fn capacity(b: &mut Bench<'_>, unit: Option<Unit>) {
    let (rating, empty) = ("trailer.gvwr", "trailer.empty_weight");
    // What a maker states need not be the difference, so a stated capacity stands as it is.
    if b.is_known(ItemId::RIG, "trailer.carrying_capacity")
        || !b.is_known(ItemId::RIG, rating)
        || !b.is_known(ItemId::RIG, empty)
    {
        return;
    }
    let left = b.number(rating).sub(b.number(empty)).max(zero());
    let working = format!(
        "GVWR {} − empty {}",
        b.show(ItemId::RIG, rating, unit),
        b.show(ItemId::RIG, empty, unit)
    );
    b.put(
        "trailer.carrying_capacity",
        left,
        unit,
        working,
        &[rating, empty],
    );
}

fn axle_ratings(b: &mut Bench<'_>, scope: Scope, rating: &str, total: &str) {
    let axles = b.items(scope);
    if !b.facts.is_complete(scope) || !axles.iter().any(|a| b.is_known(*a, rating)) {
        return;
    }
    let sum = axles
        .iter()
        .fold(zero(), |t, a| t.add(b.number_of(*a, rating)));
    let unit = axles
        .iter()
        .find_map(|a| b.known_of(*a, rating).and_then(|k| k.unit));
    let words: Vec<String> = axles.iter().map(|a| b.show(*a, rating, unit)).collect();
    b.put(total, sum, unit, words.join(" + "), &[rating]);
}

fn share(b: &mut Bench<'_>, name: &str, part: &str, whole: &str) {
    if !b.is_known(ItemId::RIG, part) || !b.is_known(ItemId::RIG, whole) {
        return;
    }
    let value: Interval = b.number(part).div(b.number(whole));
    let working = format!(
        "{} ÷ {}",
        b.show(ItemId::RIG, part, None),
        b.show(ItemId::RIG, whole, None)
    );
    b.put(name, value, Some(Unit::Percent), working, &[part, whole]);
}

fn chains(b: &mut Bench<'_>) {
    let (each, count) = (
        "trailer.safety_chains.strength",
        "trailer.safety_chains.count",
    );
    if !b.is_known(ItemId::RIG, each) || !b.is_known(ItemId::RIG, count) {
        return;
    }
    let unit = b.unit(&[each]);
    let total = b.number(each).mul(b.number(count));
    let working = format!(
        "{} × {}",
        format_interval(b.number(count), Unit::One),
        b.show(ItemId::RIG, each, unit)
    );
    b.put(
        "trailer.safety_chains.total_strength",
        total,
        unit,
        working,
        &[each, count],
    );
}
