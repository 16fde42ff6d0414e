//! What a weight-distributing hitch moves, as stated.

use super::bench::{Bench, zero};
use super::formulas::front_for_trailer;
use super::geometry::Geometry;
use crate::facts::{ItemId, Tri};
use crate::quantity::{Interval, format_interval};

/// Load moved by the spring bars, in kg. Open above while it is not known.
#[derive(Clone, Copy, Debug)]
pub(super) struct Transfer {
    /// To the towing vehicle's front axle.
    pub to_front: Interval,
    /// To the trailer's axles.
    pub to_trailer: Interval,
}

const FRONT: &str = "tow_vehicle.hitch.moved_to_front";
const TRAILER: &str = "tow_vehicle.hitch.moved_to_trailer";
const FITTED: &str = "tow_vehicle.hitch.weight_distributing";

/// Whether spring bars are fitted; couplings over the rear axle, and those that rest no weight on
/// the vehicle, have none.
fn fitted(b: &Bench<'_>) -> Tri {
    match b.choice_of(ItemId::RIG, "trailer.coupling") {
        Some("gooseneck" | "fifth-wheel" | "saddle-mount" | "tow-bar" | "rope-chain-cable") => {
            Tri::False
        }
        _ => b.yes(FITTED),
    }
}

impl Transfer {
    /// What is moved to the trailer's axles, as far as it is stated.
    pub fn to_trailer_stated(b: &Bench<'_>) -> Interval {
        match fitted(b) {
            Tri::False => zero(),
            _ => b.number(TRAILER),
        }
    }

    /// Reads what is stated and works out one of the two from the other by the bars' moment.
    pub fn read(b: &mut Bench<'_>, g: &Geometry) -> Transfer {
        if fitted(b) == Tri::False {
            for name in [FRONT, TRAILER] {
                let (unit, no) = (b.mass_unit(), "no weight-distributing hitch");
                b.put(name, zero(), Some(unit), no.to_owned(), &[FITTED]);
            }
        }
        let wheelbase = b.known_number(ItemId::RIG, "tow_vehicle.wheelbase");
        let overhang = b.known_number(ItemId::RIG, "tow_vehicle.hitch.overhang");
        if let (Some(a), Some(o), true) = (wheelbase, overhang, g.has_axles()) {
            let factor = front_for_trailer(g.to_axles, o, a);
            from_other(b, FRONT, TRAILER, factor, "×");
            from_other(b, TRAILER, FRONT, factor, "÷");
        }
        Transfer {
            to_front: b.number(FRONT),
            to_trailer: b.number(TRAILER),
        }
    }
}

/// One of the two from the other, where only the other is stated.
fn from_other(b: &mut Bench<'_>, wanted: &str, other: &str, factor: Interval, sign: &str) {
    if b.is_known(ItemId::RIG, wanted) || !b.is_stated(ItemId::RIG, other) {
        return;
    }
    let (value, unit) = (b.number(other), b.mass_unit());
    let result = if sign == "×" {
        value.mul(factor)
    } else {
        value.div(factor)
    };
    let working = format!(
        "{} {sign} {} (coupler to axles and overhang together, over the wheelbase)",
        b.show(ItemId::RIG, other, Some(unit)),
        format_interval(factor, crate::quantity::Unit::One),
    );
    b.put(wanted, result.max(zero()), Some(unit), working, &[other]);
}
