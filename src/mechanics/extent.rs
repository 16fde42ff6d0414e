//! Lengths that follow from other lengths, and what a recent build date rules out.

use super::bench::{Bench, zero};
use crate::facts::{ItemId, Scope, Tri};
use crate::quantity::{Exact, Interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    loaded_length(b);
    body_length(b);
    width(b);
    part_of_whole(b, "width");
    part_of_whole(b, "height");
    antique(b);
}

/// No part of the rig is wider, or higher, than the widest, or highest, of all; where the towing vehicle
/// is not, the trailer is.
fn part_of_whole(b: &mut Bench<'_>, which: &str) {
    let name = |of: &str| format!("{of}.{which}");
    let (whole, vehicle, trailer) = (name("combination"), name("tow_vehicle"), name("trailer"));
    if !b.is_known(ItemId::RIG, &whole) {
        return;
    }
    let (most, own) = (b.number(&whole), b.number(&vehicle));
    let is_trailer = own.hi.zip(most.lo).is_some_and(|(own, most)| own < most);
    let range = Interval {
        lo: most.lo.filter(|_| is_trailer),
        hi: most.hi,
    };
    let unit = b.unit(&[whole.as_str()]);
    let working = match is_trailer {
        true => format!("the greatest {which}, as the towing vehicle has less"),
        false => format!("within the greatest {which}"),
    };
    b.put(&trailer, range, unit, working, &[whole.as_str()]);
}

/// A trailer with its load is no narrower than what lies on it.
fn width(b: &mut Bench<'_>) {
    let of = "load.width";
    let known: Vec<ItemId> = b.items(Scope::Load);
    let known: Vec<ItemId> = known.into_iter().filter(|i| b.is_known(*i, of)).collect();
    let widest = known.iter().max_by_key(|i| b.number_of(**i, of).lo);
    let Some((item, least)) = widest.and_then(|i| Some((*i, b.number_of(*i, of).lo?))) else {
        return;
    };
    let unit = b.known_of(item, of).and_then(|k| k.unit);
    let working = format!("{} is {} wide", b.name(item), b.show(item, of, unit));
    let at_least = Interval {
        lo: Some(least),
        hi: None,
    };
    b.put("trailer.width", at_least, unit, working, &[of]);
}

/// Trailer and load are as long as the trailer, and what reaches beyond its rear. A load that
/// reaches forward stays over the tongue, or that is stated as the loaded length itself.
fn loaded_length(b: &mut Bench<'_>) {
    let name = "trailer.loaded_length";
    if b.is_known(ItemId::RIG, name) || !b.is_known(ItemId::RIG, "trailer.length") {
        return;
    }
    let own = b.number("trailer.length");
    let unit = b.unit(&["trailer.length"]);
    if b.yes("trailer.loaded") == Tri::False {
        b.put(
            name,
            own,
            unit,
            "the trailer without load".to_owned(),
            &["trailer.length"],
        );
        return;
    }
    if !b.facts.is_complete(Scope::Load) {
        let at_least = Interval {
            lo: own.lo,
            hi: None,
        };
        b.put(
            name,
            at_least,
            unit,
            "the trailer and its load".to_owned(),
            &["trailer.length"],
        );
        return;
    }
    let mut beyond = zero();
    for item in b.items(Scope::Load) {
        let own = b.number_of(item, "load.overhang_rear").max(zero());
        beyond = beyond.max(own);
        // What reaches beyond the front may reach beyond the coupler too.
        let front = b.number_of(item, "load.overhang_front");
        if b.is_known(item, "load.overhang_front") && front.hi.is_none_or(|h| h > Exact::ZERO) {
            beyond = beyond.add(zero().hull(front.max(zero())));
        }
    }
    let working = "trailer and what the load reaches beyond its rear".to_owned();
    b.put(
        name,
        own.add(beyond),
        unit,
        working,
        &["trailer.length", "load.overhang_rear"],
    );
}

/// The body is no longer than the trailer.
fn body_length(b: &mut Bench<'_>) {
    let name = "trailer.body_length";
    if b.is_known(ItemId::RIG, name) || !b.is_known(ItemId::RIG, "trailer.length") {
        return;
    }
    let most = Interval::new(Some(Exact::ZERO), b.number("trailer.length").hi);
    if let Some(most) = most {
        let unit = b.unit(&["trailer.length"]);
        b.put(
            name,
            most,
            unit,
            "no longer than the trailer".to_owned(),
            &["trailer.length"],
        );
    }
}

/// No place registers a vehicle as an antique before it is twenty years old (common practice, no
/// source; most ask for twenty-five or more).
fn antique(b: &mut Bench<'_>) {
    if b.is_known(ItemId::RIG, "trailer.antique") || !b.is_known(ItemId::RIG, "trailer.built") {
        return;
    }
    let age = b.number("trip.on").sub(b.number("trailer.built"));
    let twenty_years = Exact::from_int(20 * 365);
    if age.hi.is_some_and(|days| days < twenty_years) {
        b.put_yes(
            "trailer.antique",
            Tri::False,
            "less than twenty years old".to_owned(),
            &["trailer.built"],
        );
    }
}
