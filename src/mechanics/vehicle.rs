//! The towing vehicle's axles with the trailer on: the lever rule, the spring bars, the springs.

use super::balance::Tongue;
use super::bench::{Bench, zero};
use super::formulas::lever;
use super::inexact::atan_deg;
use super::transfer::Transfer;
use crate::facts::{ItemId, Scope, Value};
use crate::quantity::{Exact, Interval, Unit, format_interval};

const WHEELBASE: &str = "tow_vehicle.wheelbase";
const OVERHANG: &str = "tow_vehicle.hitch.overhang";
const FRONT: &str = "tow_vehicle.front_suspension";
const REAR: &str = "tow_vehicle.rear_suspension";

/// The changes that the trailer makes to the two axles, in kg, upward ones below zero.
struct Changes {
    front: Interval,
    rear: Interval,
}

pub(super) fn work_out(b: &mut Bench<'_>, tongue: Tongue, transfer: &Transfer) {
    let Some(tongue) = tongue else { return };
    hitched_weight(b, tongue, transfer);
    let geometry = b
        .known_number(ItemId::RIG, WHEELBASE)
        .zip(b.known_number(ItemId::RIG, OVERHANG));
    let Some((wheelbase, overhang)) =
        geometry.filter(|(a, _)| a.lo.is_some_and(|lo| lo > Exact::ZERO))
    else {
        return;
    };
    let l = lever(tongue, overhang, wheelbase);
    let unit = b.mass_unit();
    let (show_a, show_b) = (
        b.show(ItemId::RIG, WHEELBASE, None),
        b.show(ItemId::RIG, OVERHANG, None),
    );
    let pulls = format_interval(tongue, unit);
    let off = format!("tongue {pulls} × overhang {show_b} ÷ wheelbase {show_a}");
    let on =
        format!("tongue {pulls} × (wheelbase {show_a} + overhang {show_b}) ÷ wheelbase {show_a}");
    let from = ["trailer.tongue_weight", WHEELBASE, OVERHANG];
    b.put(
        "tow_vehicle.front_axle_relief",
        l.off_front.max(zero()),
        Some(unit),
        off,
        &from,
    );
    b.put(
        "tow_vehicle.rear_axle_gain",
        l.on_rear.max(zero()),
        Some(unit),
        on,
        &from,
    );
    let changes = Changes {
        front: l.off_front.neg().add(transfer.to_front),
        rear: l.on_rear.sub(transfer.to_front).sub(transfer.to_trailer),
    };
    axles(b, &changes);
    level(b, &changes, wheelbase, overhang);
}

fn hitched_weight(b: &mut Bench<'_>, tongue: Interval, transfer: &Transfer) {
    let gross = "tow_vehicle.gross_weight";
    let Some(own) = b.known_number(ItemId::RIG, gross) else {
        return;
    };
    let unit = b.mass_unit();
    let moved = if transfer.to_trailer == zero() {
        String::new()
    } else {
        format!(
            " − moved to the trailer {}",
            format_interval(transfer.to_trailer, unit)
        )
    };
    let working = format!(
        "gross {} + tongue {}{moved}",
        b.show(ItemId::RIG, gross, Some(unit)),
        format_interval(tongue, unit)
    );
    let total = own.add(tongue).sub(transfer.to_trailer).max(zero());
    b.put(
        "tow_vehicle.hitched_weight",
        total,
        Some(unit),
        working,
        &[gross, "trailer.tongue_weight"],
    );
}

/// What front and rear axle carry without the trailer: as weighed, or what the other leaves of
/// the gross weight.
fn unhitched(b: &Bench<'_>, own: ItemId, other: ItemId) -> Option<Interval> {
    let name = "vehicle_axle.weight";
    b.known_number(own, name).or_else(|| {
        let gross = b.known_number(ItemId::RIG, "tow_vehicle.gross_weight")?;
        Some(gross.sub(b.known_number(other, name)?).max(zero()))
    })
}

fn axles(b: &mut Bench<'_>, c: &Changes) {
    let list = b.items(Scope::VehicleAxle);
    let [front, rear] = list[..] else { return };
    if !b.facts.is_complete(Scope::VehicleAxle) {
        return;
    }
    let unit = b.mass_unit();
    for (axle, other, change, word) in [
        (front, rear, c.front, "front"),
        (rear, front, c.rear, "rear"),
    ] {
        let name = "vehicle_axle.hitched_weight";
        let Some(own) = unhitched(b, axle, other) else {
            continue;
        };
        if b.is_stated(axle, name) {
            continue;
        }
        let lighter = change.hi.is_some_and(|hi| hi <= Exact::ZERO);
        let (sign, size) = if lighter {
            ("−", change.neg())
        } else {
            ("+", change)
        };
        let working = format!(
            "{word} axle {} {sign} {}",
            format_interval(own, unit),
            format_interval(size, unit)
        );
        let value = Value::Number(own.add(change).max(zero()));
        b.put_of(
            axle,
            name,
            value,
            Some(unit),
            working,
            &["vehicle_axle.weight", "trailer.tongue_weight"],
        );
    }
}

/// How far an axle sinks under a load, from a test load and the sinking under it.
fn sinking(b: &Bench<'_>, suspension: &str, load: Interval) -> Option<Interval> {
    let test = b.known_number(ItemId::RIG, &format!("{suspension}.load"))?;
    let sinks = b.known_number(ItemId::RIG, &format!("{suspension}.sinks"))?;
    Some(load.mul(sinks.div(test)))
}

fn level(b: &mut Bench<'_>, c: &Changes, wheelbase: Interval, overhang: Interval) {
    let both = sinking(b, FRONT, c.front).zip(sinking(b, REAR, c.rear));
    let Some((front, rear)) = both else { return };
    let unit = b
        .unit(&["tow_vehicle.rear_suspension.sinks"])
        .unwrap_or(Unit::Inch);
    let show = |x: Interval| format_interval(x, unit);
    let low = rear.sub(front);
    let from = [
        "tow_vehicle.rear_suspension.sinks",
        "tow_vehicle.front_suspension.sinks",
    ];
    let working = format!("rear sinks {} − front sinks {}", show(rear), show(front));
    b.put("tow_vehicle.tail_low", low, Some(unit), working, &from);
    let slope = low.div(wheelbase);
    let working = format!(
        "tail low {} over the wheelbase {}",
        show(low),
        b.show(ItemId::RIG, WHEELBASE, None)
    );
    b.put(
        "tow_vehicle.pitch",
        atan_deg(slope),
        Some(Unit::Degree),
        working,
        &from,
    );
    // The hitch lies beyond the rear axle on the same straight line.
    let drop = rear.add(slope.mul(overhang));
    let working = format!(
        "rear sinks {} + tail low {} × overhang {} ÷ wheelbase {}",
        show(rear),
        show(low),
        b.show(ItemId::RIG, OVERHANG, None),
        b.show(ItemId::RIG, WHEELBASE, None)
    );
    b.put("tow_vehicle.hitch.drop", drop, Some(unit), working, &from);
    let heights = b
        .known_number(ItemId::RIG, "trailer.coupler.height")
        .zip(b.known_number(ItemId::RIG, "tow_vehicle.hitch.ball_height"));
    if let Some((coupler, ball)) = heights {
        let working = format!(
            "coupler when level {} − (ball {} − drop {})",
            show(coupler),
            show(ball),
            show(drop)
        );
        b.put(
            "trailer.nose_low",
            coupler.sub(ball.sub(drop)),
            Some(unit),
            working,
            &["trailer.coupler.height", "tow_vehicle.hitch.ball_height"],
        );
    }
}
