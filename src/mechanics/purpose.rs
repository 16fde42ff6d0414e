//! What use, kinds and load already say of the trip, so that nobody is asked what follows.
//!
//! Each of these follows from what the catalogue says that the facts mean; nothing is presumed.

use super::bench::{Bench, fact};
use crate::facts::{ItemId, Scope, Tri, Value};
use crate::quantity::{Exact, Interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    for_hire(b);
    driveaway(b);
    disabled(b);
    hazardous(b);
    seats(b);
    form(b);
}

/// Private use is without pay, and so is a farmer's own farming.
fn for_hire(b: &mut Bench<'_>) {
    if let Some(of @ ("private" | "farm")) = b.choice_of(ItemId::RIG, "use") {
        unless_stated(
            b,
            "for_hire",
            Tri::False,
            format!("{of} use is without pay"),
        );
    }
}

/// A driveaway-towaway operation delivers an empty vehicle, and is a carrier's business.
fn driveaway(b: &mut Bench<'_>) {
    if let Some(of @ ("private" | "farm")) = b.choice_of(ItemId::RIG, "use") {
        unless_stated(
            b,
            "driveaway",
            Tri::False,
            format!("{of} use, not a delivery of vehicles"),
        );
    } else if b.yes("trailer.loaded") == Tri::True {
        unless_stated(
            b,
            "driveaway",
            Tri::False,
            "the trailer carries a load".to_owned(),
        );
    }
}

/// Only what is itself a motor vehicle, or a dolly under one, is a disabled vehicle in tow.
fn disabled(b: &mut Bench<'_>) {
    match b.choice_of(ItemId::RIG, "trailer.kind") {
        None | Some("towed-vehicle" | "tow-dolly" | "other") => {}
        Some(kind) => unless_stated(
            b,
            "vehicle_in_tow_is_disabled",
            Tri::False,
            format!("what is towed is a {kind} trailer"),
        ),
    }
}

/// A load of which every item is known to be something else is not placarded.
fn hazardous(b: &mut Bench<'_>) {
    if !b.facts.is_complete(Scope::Load) {
        return;
    }
    let items = b.items(Scope::Load);
    if items
        .iter()
        .any(|i| b.choice_of(*i, "load.kind") == Some("hazardous"))
    {
        unless_stated(
            b,
            "hazardous_materials",
            Tri::True,
            "the load is placarded".to_owned(),
        );
    } else if items.iter().all(|i| b.choice_of(*i, "load.kind").is_some()) {
        let tow = b.choice_of(ItemId::RIG, "tow_vehicle.kind");
        // What the towing vehicle itself carries is not listed; a truck may carry anything.
        if matches!(
            tow,
            Some("car" | "suv" | "pickup" | "motorhome" | "motorcycle" | "farm-tractor")
        ) {
            unless_stated(
                b,
                "hazardous_materials",
                Tri::False,
                "nothing of the load is placarded".to_owned(),
            );
        }
    }
}

/// Cars, pickups and the like are built for nine people at most, the driver among them (a
/// passenger car is made for ten or fewer by 49 CFR 571.3; nine is common practice, no source).
fn seats(b: &mut Bench<'_>) {
    let Some(kind @ ("car" | "suv" | "pickup" | "truck-tractor" | "farm-tractor" | "motorcycle")) =
        b.choice_of(ItemId::RIG, "tow_vehicle.kind")
    else {
        return;
    };
    let most = if kind == "truck-tractor" || kind == "farm-tractor" || kind == "motorcycle" {
        5
    } else {
        9
    };
    let range = Interval::new(Some(Exact::ONE), Some(Exact::from_int(most)));
    if let (Some(range), false) = (range, b.is_known(ItemId::RIG, "tow_vehicle.seats")) {
        b.put(
            "tow_vehicle.seats",
            range,
            None,
            format!("a {kind} is built for {most} people at most"),
            &["tow_vehicle.kind"],
        );
    }
}

/// A fifth wheel or a gooseneck rests part of the trailer on the towing vehicle.
fn form(b: &mut Bench<'_>) {
    let id = fact("trailer.form");
    if b.is_known(ItemId::RIG, "trailer.form") {
        return;
    }
    let choices = crate::facts::catalogue().def(id).kind.choices();
    let coupling = b.choice_of(ItemId::RIG, "trailer.coupling");
    let kind = b.choice_of(ItemId::RIG, "trailer.kind");
    if kind.is_none() && b.is_known(ItemId::RIG, "trailer.kind") {
        // One of several kinds, which may differ in form.
        return;
    }
    let (form, working) = match (coupling, kind) {
        (_, Some("pole")) => ("pole-trailer", "a pole trailer".to_owned()),
        (_, Some("converter-dolly")) => return,
        (Some(c @ ("fifth-wheel" | "gooseneck")), _) => (
            "semitrailer",
            format!("part of its weight rests on the {c} coupling"),
        ),
        (_, Some("semitrailer")) => ("semitrailer", "a freight semitrailer".to_owned()),
        _ => return,
    };
    if let Some(bit) = choices.iter().position(|c| c.name == form) {
        b.put_of(
            ItemId::RIG,
            "trailer.form",
            Value::OneOf(1 << bit),
            None,
            working,
            &["trailer.coupling", "trailer.kind"],
        );
    }
}

/// Sets a yes/no that nobody stated. A stated one stands, even against the usual meaning.
fn unless_stated(b: &mut Bench<'_>, name: &str, value: Tri, working: String) {
    if !b.is_known(ItemId::RIG, name) {
        b.put_yes(name, value, working, &[]);
    }
}
