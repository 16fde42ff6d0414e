//! Counts of lamps and reflectors from the lists of their kinds: a kind that is not in a list has
//! none, a kind that is in it has at least one.

use super::bench::{Bench, fact, zero};
use crate::facts::{ItemId, Value, catalogue};
use crate::quantity::{Exact, Interval};

const LAMPS: &[(&str, &str)] = &[
    ("tail", "trailer.lamp_count.tail"),
    ("stop", "trailer.lamp_count.stop"),
    ("turn", "trailer.lamp_count.turn"),
    ("hazard", "trailer.lamp_count.hazard"),
    ("plate", "trailer.lamp_count.plate"),
    ("identification", "trailer.lamp_count.identification"),
    ("side-marker", "trailer.lamp_count.side_marker"),
];

/// Kinds that stand for several places: the list says only whether there are none.
const LAMPS_BY_PLACE: &[(&str, &str)] = &[
    ("side-marker", "trailer.lamp_count.side_marker_front"),
    ("side-marker", "trailer.lamp_count.side_marker_middle"),
    ("side-marker", "trailer.lamp_count.side_marker_rear"),
    ("clearance", "trailer.lamp_count.clearance_front"),
    ("clearance", "trailer.lamp_count.clearance_rear"),
    ("clearance", "trailer.lamp_count.clearance_side"),
];

const REFLECTORS: &[(&str, &str)] = &[
    ("rear", "trailer.reflector_count.rear"),
    ("front", "trailer.reflector_count.front"),
    ("side-front", "trailer.reflector_count.side_front"),
    ("side-middle", "trailer.reflector_count.side_middle"),
    ("side-rear", "trailer.reflector_count.side_rear"),
];

pub(super) fn work_out(b: &mut Bench<'_>) {
    for (list, pairs, at_least_one) in [
        ("trailer.lamps", LAMPS, true),
        ("trailer.lamps", LAMPS_BY_PLACE, false),
        ("trailer.reflectors", REFLECTORS, true),
    ] {
        for (kind, count) in pairs {
            count_from_list(b, list, kind, count, at_least_one);
        }
    }
}

fn count_from_list(b: &mut Bench<'_>, list: &str, kind: &str, count: &str, at_least_one: bool) {
    let id = fact(list);
    let Value::Set { has, may } = b.facts.value(ItemId::RIG, id) else {
        return;
    };
    let choices = catalogue().def(id).kind.choices();
    let Some(bit) = choices.iter().position(|c| c.name == kind) else {
        return;
    };
    let bit = 1 << bit;
    if may & bit == 0 {
        b.put(
            count,
            zero(),
            None,
            format!("`{kind}` is not in the list {list}"),
            &[list],
        );
    } else if has & bit != 0 && at_least_one {
        let one = Interval::starting_at(Exact::ONE);
        b.put(
            count,
            one,
            None,
            format!("`{kind}` is in the list {list}"),
            &[list],
        );
    }
}
