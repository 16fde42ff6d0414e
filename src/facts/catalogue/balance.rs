//! Where weights lie and what they press on: tongue, axle group, the towing vehicle's axles, level.

use super::{ANGLE, Entry, LENGTH, MASS, SHARE, either, signed, stated, worked_out};

#[rustfmt::skip]
pub(super) const BALANCE: &[Entry] = &[
    stated("trailer.empty_tongue_weight", MASS, "tongue weight when empty", "the downward force on the hitch of the trailer without load, as a weight"),
    worked_out("trailer.tongue_weight_by_moments", MASS, "tongue weight by moments", "the tongue weight that the empty tongue weight and each item's weight and position give; shown beside a weighed one"),
    worked_out("trailer.tongue_lift", MASS, "lift at the hitch", "the upward force on the hitch where load behind the axles outweighs the tongue; 0 lb while the tongue presses down"),
    worked_out("trailer.tongue_share", SHARE, "tongue share", "tongue weight as a share of the trailer's gross weight"),
    either("trailer.coupler_to_axles", LENGTH, "coupler to axle group", "from the coupler's centre (ball, eye or kingpin) rearward to the point where the axle group's load acts: the axle, or the middle of an equalised group"),
    signed(stated("trailer.coupler_to_deck", LENGTH, "coupler to deck", "from the coupler's centre rearward to the front edge of the deck; negative where the deck reaches ahead of the coupler")),
    worked_out("trailer.load_centre", LENGTH, "centre of the load", "from the coupler's centre rearward to the common centre of gravity of the load"),
    signed(worked_out("trailer.load_ahead_of_axles", LENGTH, "load ahead of the axles", "how far the load's common centre of gravity lies ahead of the axle group's centre; negative behind it")),
    worked_out("trailer.load_spread", LENGTH, "spread of the load", "the load's radius of gyration about the axle group: how far, as a root mean square, its weight lies from the axles along the trailer; the greater, the more yaw inertia"),
    stated("trailer.coupler.height", LENGTH, "coupler height when level", "from the road to the coupler with the loaded trailer standing level"),
    signed(worked_out("trailer.nose_low", LENGTH, "nose low", "how far the coupler stands below the height at which the trailer is level, once coupled; negative when it stands above")),
    stated("tow_vehicle.wheelbase", LENGTH, "wheelbase", "from the front axle to the rear axle, or to the middle of the rear axle group"),
    signed(stated("tow_vehicle.hitch.overhang", LENGTH, "hitch overhang", "from the rear axle back to the centre of the ball, pin or fifth wheel; negative where that lies ahead of the rear axle")),
    stated("tow_vehicle.hitch.ball_height", LENGTH, "ball height", "from the road to the ball with the towing vehicle loaded and the trailer not yet on it"),
    either("tow_vehicle.hitch.moved_to_front", MASS, "load moved to the front axle", "what a weight-distributing hitch, as set, puts back on the towing vehicle's front axle, by weighing with and without the spring bars"),
    either("tow_vehicle.hitch.moved_to_trailer", MASS, "load moved to the trailer's axles", "what a weight-distributing hitch, as set, moves to the trailer's axles, by weighing with and without the spring bars"),
    worked_out("tow_vehicle.hitched_weight", MASS, "towing vehicle with the trailer hitched", "what the towing vehicle's axles carry with the trailer hitched: its gross weight and the tongue weight, less what a weight-distributing hitch moves to the trailer"),
    worked_out("tow_vehicle.front_axle_relief", MASS, "taken off the front axle", "what the tongue weight takes off the front axle by leverage, before a weight-distributing hitch puts some back; 0 lb for a hitch above or ahead of the rear axle"),
    worked_out("tow_vehicle.rear_axle_gain", MASS, "added to the rear axle", "what the tongue weight adds to the rear axle, leverage included, before a weight-distributing hitch moves some away"),
    stated("tow_vehicle.front_suspension.load", MASS, "test load on the front suspension", "a weight put on the front axle to see how far the front sinks"),
    stated("tow_vehicle.front_suspension.sinks", LENGTH, "sinking of the front under the test load", "how far the front sinks, at the axle, under that weight"),
    stated("tow_vehicle.rear_suspension.load", MASS, "test load on the rear suspension", "a weight put on the rear axle to see how far the rear sinks"),
    stated("tow_vehicle.rear_suspension.sinks", LENGTH, "sinking of the rear under the test load", "how far the rear sinks, at the axle, under that weight"),
    signed(worked_out("tow_vehicle.tail_low", LENGTH, "tail low", "how much lower the rear axle's end of the towing vehicle stands against the front axle's end once the trailer is on, springs taken as even")),
    worked_out("tow_vehicle.pitch", ANGLE, "pitch", "the angle by which the towing vehicle leans once the trailer is on, without a sign"),
    signed(worked_out("tow_vehicle.hitch.drop", LENGTH, "drop of the hitch", "how far the ball, pin or fifth wheel sinks when the trailer is put on it; negative when it rises")),
];
