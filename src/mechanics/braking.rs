//! Braked shares of wheels and weight, and the stop from 20 mph.

use super::bench::{Bench, joined, zero};
use super::formulas::{ratio, stop_deceleration};
use crate::facts::{ItemId, Scope, Tri};
use crate::quantity::{Exact, Interval, Unit, format_interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    wheels(b);
    weight(b);
    stop(b);
}

fn wheels(b: &mut Bench<'_>) {
    let (braked, all) = ("trailer.braked_wheels", "trailer.wheels");
    let Some((some, total)) = b
        .known_number(ItemId::RIG, braked)
        .zip(b.known_number(ItemId::RIG, all))
    else {
        return;
    };
    let one = Interval::exactly(Exact::ONE);
    // Brakes on every wheel are the whole, whatever the number of wheels.
    let value = match b.yes("trailer.all_wheels_braked") {
        Tri::True => one,
        _ => some.div(total).max(zero()).min(one),
    };
    let working = format!(
        "{} of {} wheels",
        format_interval(some, Unit::One),
        format_interval(total, Unit::One)
    );
    b.put(
        "trailer.braked_wheel_share",
        value,
        Some(Unit::Percent),
        working,
        &[braked, all],
    );
}

fn weight(b: &mut Bench<'_>) {
    let axles = b.items(Scope::Axle);
    if axles.is_empty() || !b.facts.is_complete(Scope::Axle) {
        return;
    }
    let mut total = zero();
    let mut words = Vec::new();
    for axle in &axles {
        let own = b.number_of(*axle, "axle.weight");
        match b.yes_of(*axle, "axle.braked") {
            Tri::True => total = total.add(own),
            Tri::False => continue,
            Tri::Unknown => total = total.add(zero().hull(own)),
        }
        words.push(format!(
            "{} {}",
            b.name(*axle),
            b.show(*axle, "axle.weight", None)
        ));
    }
    let unit = b.mass_unit();
    let working = if words.is_empty() {
        "no axle has brakes".to_owned()
    } else {
        joined(&words, " + ")
    };
    b.put(
        "trailer.braked_weight",
        total,
        Some(unit),
        working,
        &["axle.braked", "axle.weight"],
    );
    let (part, gross) = ("trailer.braked_weight", "trailer.gross_weight");
    if let Some((part_of, whole)) = b
        .known_number(ItemId::RIG, part)
        .zip(b.known_number(ItemId::RIG, gross))
    {
        let working = format!(
            "{} ÷ gross {}",
            b.show(ItemId::RIG, part, Some(unit)),
            b.show(ItemId::RIG, gross, Some(unit))
        );
        let value = part_of.div(whole).max(zero());
        let value = value.intersect(off_tongue(b, &axles)).unwrap_or(value);
        b.put(
            "trailer.braked_weight_share",
            value,
            Some(Unit::Percent),
            working,
            &[part, gross],
        );
    }
}

/// Where all axles have brakes and nothing is moved to them, their share is what the tongue's
/// leaves. It is narrower than the quotient, as the load then stands in it once.
fn off_tongue(b: &Bench<'_>, axles: &[ItemId]) -> Interval {
    let plain = b.number("tow_vehicle.hitch.moved_to_trailer") == zero()
        && b.number("trailer.tongue_lift") == zero();
    let weighed = axles.iter().any(|a| b.is_stated(*a, "axle.weight"));
    match b.known_number(ItemId::RIG, "trailer.tongue_share") {
        Some(share)
            if plain
                && !weighed
                && axles
                    .iter()
                    .all(|a| b.yes_of(*a, "axle.braked") == Tri::True) =>
        {
            Interval::exactly(Exact::ONE).sub(share)
        }
        _ => Interval::non_negative(),
    }
}

/// The mean deceleration of the stated stop from 20 mph as a share of gravity.
fn stop(b: &mut Bench<'_>) {
    let name = "combination.stops_from_20_mph";
    let Some(distance) = b.known_number(ItemId::RIG, name) else {
        return;
    };
    let slowing = stop_deceleration(distance);
    // Standard gravity, 9.80665 m/s².
    let share = slowing.div(Interval::exactly(ratio(980_665, 100_000)));
    let feet = Unit::Foot.factor();
    let each_second = |x: Interval| format_interval(x.div(Interval::exactly(feet)), Unit::One);
    let working = format!(
        "(20 mph)² ÷ (2 × {}) = {} ft/s each second, over gravity",
        b.show(ItemId::RIG, name, None),
        each_second(slowing)
    );
    b.put(
        "combination.braking_force",
        share.max(zero()),
        Some(Unit::Percent),
        working,
        &[name],
    );
}
