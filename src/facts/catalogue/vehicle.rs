//! The towing vehicle.

use super::choices;
use super::{COUNT, Entry, LENGTH, MASS, SHARE, either, stated, worked_out};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const VEHICLE: &[Entry] = &[
    stated("tow_vehicle.kind", Kind::Choice(choices::VEHICLE_KINDS), "kind of towing vehicle", "what the towing vehicle is"),
    stated("tow_vehicle.curb_weight", MASS, "curb weight of the towing vehicle", "the towing vehicle with full tanks and no people or load"),
    stated("tow_vehicle.people_weight", MASS, "weight of the people", "driver and passengers together"),
    stated("tow_vehicle.gear_weight", MASS, "gear in the towing vehicle", "luggage, tools, hitch parts and fittings in the towing vehicle"),
    either("tow_vehicle.gross_weight", MASS, "gross weight of the towing vehicle", "what the towing vehicle weighs as driven, without the load that the tongue puts on it"),
    stated("tow_vehicle.gvwr", MASS, "GVWR of the towing vehicle", "gross vehicle weight rating on the plate"),
    stated("tow_vehicle.gcwr", MASS, "GCWR", "gross combination weight rating: the most that the towing vehicle's maker allows for vehicle and trailer together"),
    stated("tow_vehicle.towing_rating", MASS, "towing rating", "the heaviest trailer that the towing vehicle's maker allows"),
    stated("tow_vehicle.registered_weight", MASS, "registered weight of the towing vehicle", "the gross weight for which the towing vehicle is registered"),
    stated("tow_vehicle.registration_exempt", Kind::YesNo, "towing vehicle free of registration", "the law asks for no registration of the towing vehicle, as for some farm and off-road vehicles"),
    stated("tow_vehicle.farm_plates", Kind::YesNo, "farm plates", "the towing vehicle is registered as a farm vehicle"),
    stated("tow_vehicle.payload", MASS, "payload", "the most that people, gear and tongue may weigh together, from the placard"),
    stated("tow_vehicle.model_year", Kind::Year, "model year of the towing vehicle", "the maker's model year"),
    either("tow_vehicle.built", Kind::Date, "build date of the towing vehicle", "the day, month or year in which it was made"),
    either("tow_vehicle.axle_count", COUNT, "axles of the towing vehicle", "how many axles it has"),
    stated("tow_vehicle.length", LENGTH, "length of the towing vehicle", "overall length"),
    stated("tow_vehicle.width", LENGTH, "width of the towing vehicle", "overall width without mirrors"),
    stated("tow_vehicle.height", LENGTH, "height of the towing vehicle", "overall height"),
    stated("tow_vehicle.mirrors", Kind::Set(choices::MIRRORS), "mirrors", "the mirrors fitted"),
    stated("tow_vehicle.rear_view", LENGTH, "view to the rear", "how far back along the road the driver sees in the mirrors with the trailer on"),
    stated("tow_vehicle.rear_view_blocked", Kind::YesNo, "rear view blocked", "trailer or load take away the driver's view to the rear through the inside mirror"),
    stated("tow_vehicle.signals_hidden", Kind::YesNo, "turn signals hidden", "the trailer or its load hides the towing vehicle's turn signals, or the driver's hand signals, from behind"),
    stated("tow_vehicle.stop_lamp_hidden", Kind::YesNo, "stop lamps hidden", "the trailer or its load hides the towing vehicle's stop lamps from behind"),
    stated("tow_vehicle.inspected", Kind::YesNo, "towing vehicle inspected", "it holds a valid inspection where one is needed"),
    either("tow_vehicle.seats", COUNT, "people it is built for", "how many people it is built to carry, the driver included"),
    stated("tow_vehicle.dual_rear_wheels", Kind::YesNo, "dual rear wheels", "it has four tyres on its rear axle"),
    stated("tow_vehicle.stops_on_its_own", Kind::YesNo, "own brakes survive a breakaway", "the towing vehicle's own brakes still work after the trailer has broken away"),
    stated("tow_vehicle.brake_control", Kind::YesNo, "trailer brake control", "a working control for the trailer's brakes is in reach of the driver"),
    stated("tow_vehicle.plug", Kind::Choice(choices::PLUGS), "plug", "the electrical connector between vehicle and trailer"),
    stated("tow_vehicle.hitch.class", Kind::Choice(choices::HITCH_CLASSES), "hitch class", "the class marked on the hitch"),
    stated("tow_vehicle.hitch.trailer_rating", MASS, "hitch rating", "the heaviest trailer marked on the hitch or receiver"),
    stated("tow_vehicle.hitch.tongue_rating", MASS, "hitch tongue rating", "the greatest tongue weight marked on the hitch or receiver"),
    stated("tow_vehicle.hitch.mount_rating", MASS, "ball mount rating", "the heaviest trailer marked on the ball mount"),
    stated("tow_vehicle.hitch.mount_tongue_rating", MASS, "ball mount tongue rating", "the greatest tongue weight marked on the ball mount"),
    stated("tow_vehicle.hitch.ball_diameter", LENGTH, "ball diameter", "the diameter marked on the ball"),
    stated("tow_vehicle.hitch.ball_rating", MASS, "ball rating", "the heaviest trailer marked on the ball"),
    stated("tow_vehicle.hitch.weight_distributing", Kind::YesNo, "weight-distributing hitch", "spring bars that move load to the front axle and the trailer's axles are fitted and set"),
    stated("tow_vehicle.hitch.sway_control", Kind::YesNo, "sway control", "a sway control device is fitted"),
    stated("tow_vehicle.hitch.frame_mounted", Kind::YesNo, "hitch fixed to the frame", "the hitch is fixed to the frame or structure, not to a bumper not made for it"),
    worked_out("tow_vehicle.axle_ratings", MASS, "sum of the axle ratings", "the ratings of the towing vehicle's axles added up"),
];

#[rustfmt::skip]
pub(super) const VEHICLE_AXLE: &[Entry] = &[
    stated("vehicle_axle.rating", MASS, "axle rating", "gross axle weight rating (GAWR) on the plate"),
    stated("vehicle_axle.weight", MASS, "axle weight unhitched", "what the axle carries with people and gear, without the trailer, as weighed"),
    either("vehicle_axle.hitched_weight", MASS, "axle weight hitched", "what the axle carries as driven, with the trailer hitched"),
    worked_out("vehicle_axle.rating_used", SHARE, "axle rating used", "what the axle carries, trailer hitched, as a share of its rating"),
];
