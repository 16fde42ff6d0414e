//! Lamps and reflectors of the trailer.

use super::choices;
use super::{COUNT, Entry, LENGTH, either, stated};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const LAMPS: &[Entry] = &[
    stated("trailer.lamps", Kind::Set(choices::LAMPS), "lamps", "the kinds of lamps fitted to the trailer and working; a list is taken as complete"),
    stated("trailer.reflectors", Kind::Set(choices::REFLECTORS), "reflectors", "the reflectors fitted to the trailer, by place; a list is taken as complete"),
    stated("trailer.conspicuity", Kind::YesNo, "reflective tape", "red and white retroreflective tape or an equal conspicuity system along the sides and across the rear"),
    stated("trailer.lamps_lit", Kind::YesNo, "lamps lit", "the lamps are lit when they are due"),
    either("trailer.lamp_count.tail", COUNT, "tail lamps", "how many tail lamps"),
    either("trailer.lamp_count.stop", COUNT, "stop lamps", "how many stop lamps"),
    either("trailer.lamp_count.turn", COUNT, "rear turn signals", "how many turn signals at the rear"),
    either("trailer.lamp_count.hazard", COUNT, "hazard flashers", "how many lamps flash as hazard warning at the rear"),
    either("trailer.lamp_count.plate", COUNT, "plate lamps", "how many lamps light the number plate"),
    either("trailer.lamp_count.clearance_front", COUNT, "front clearance lamps", "how many amber clearance lamps at the front"),
    either("trailer.lamp_count.clearance_rear", COUNT, "rear clearance lamps", "how many red clearance lamps at the rear"),
    stated("trailer.lamp_count.clearance_side", COUNT, "side clearance lamps", "how many clearance lamps at or near the middle of each side"),
    either("trailer.lamp_count.identification", COUNT, "identification lamps", "how many red identification lamps at the rear"),
    either("trailer.lamp_count.side_marker", COUNT, "side markers a side", "how many side marker lamps on each side"),
    stated("trailer.lamp_count.side_marker_front", COUNT, "front side markers a side", "how many amber side marker lamps near the front of each side"),
    stated("trailer.lamp_count.side_marker_middle", COUNT, "middle side markers a side", "how many amber side marker lamps near the middle of each side"),
    stated("trailer.lamp_count.side_marker_rear", COUNT, "rear side markers a side", "how many red side marker lamps near the rear of each side"),
    either("trailer.reflector_count.rear", COUNT, "rear reflectors", "how many red reflectors at the rear"),
    either("trailer.reflector_count.front", COUNT, "front reflectors", "how many reflectors at the front"),
    stated("trailer.reflector_count.side", COUNT, "reflectors a side", "how many reflectors on each side"),
    either("trailer.reflector_count.side_front", COUNT, "front side reflectors a side", "how many amber reflectors near the front of each side"),
    either("trailer.reflector_count.side_middle", COUNT, "middle side reflectors a side", "how many amber reflectors near the middle of each side"),
    either("trailer.reflector_count.side_rear", COUNT, "rear side reflectors a side", "how many red reflectors near the rear of each side"),
    stated("trailer.lamp_height.tail", LENGTH, "height of the tail lamps", "from the road to the centre of the lamps, trailer unloaded"),
    stated("trailer.lamp_height.stop", LENGTH, "height of the stop lamps", "from the road to the centre of the lamps"),
    stated("trailer.lamp_height.turn", LENGTH, "height of the turn signals", "from the road to the centre of the lamps"),
    stated("trailer.lamp_height.side_marker", LENGTH, "height of the side markers", "from the road to the centre of the lamps"),
    stated("trailer.reflector_height.rear", LENGTH, "height of the rear reflectors", "from the road to the centre of the reflectors"),
    stated("trailer.reflector_height.side", LENGTH, "height of the side reflectors", "from the road to the centre of the reflectors"),
];
