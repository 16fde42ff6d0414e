//! The trip, the driver and the combination as a whole.

use super::choices;
use super::{COUNT, Entry, LENGTH, MASS, SHARE, SPEED, TIME, either, stated, worked_out};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const RIG: &[Entry] = &[
    stated("use", Kind::Choice(choices::USE), "use", "what the rig is used for on this trip"),
    stated("for_hire", Kind::YesNo, "carriage for hire", "goods or people are carried for pay"),
    stated("interstate", Kind::YesNo, "interstate trip", "the trip crosses a state line or an international border, or is one leg of such a trip"),
    stated("rented_trailer", Kind::YesNo, "rented trailer", "the trailer is rented"),
    stated("vehicle_in_tow_is_disabled", Kind::YesNo, "disabled vehicle in tow", "what is towed is a broken-down or wrecked vehicle on its way to repair or storage"),
    stated("driveaway", Kind::YesNo, "driveaway-towaway", "the vehicle in tow is itself the goods being delivered"),
    stated("hazardous_materials", Kind::YesNo, "placarded dangerous goods", "dangerous goods in an amount that needs placards are carried"),
    stated("oversize_permit", Kind::YesNo, "oversize permit", "a permit for the size or weight of the rig is held"),
    either("trip.on", Kind::Date, "day of the trip", "the day the check is made for"),
    stated("trip.speed", SPEED, "speed", "the highest speed that will be driven with the rig"),
    stated("trip.posted_speed", SPEED, "posted speed limit", "the speed limit posted on the road"),
    stated("trip.lighting_hours", Kind::YesNo, "hours when lamps are due", "driving when lamps must be lit: in darkness as the place defines it, or in bad visibility"),
    stated("trip.roads", Kind::Set(choices::ROADS), "roads used", "the kinds of road that the trip uses"),
    stated("trip.highest_grade", SHARE, "steepest grade", "the steepest grade on the route"),
    stated("trip.distance", LENGTH, "length of the trip", "the distance driven with the trailer"),
    stated("trip.distance_from_farm", LENGTH, "distance from the farm", "the greatest distance from the home farm on public roads"),
    stated("trip.gap_ahead", LENGTH, "gap to the vehicle ahead", "the least distance kept to the vehicle ahead outside towns"),
    stated("driver.licence", Kind::Set(choices::LICENCE), "driver's licence", "the classes and endorsements that the driver holds"),
    stated("driver.age", TIME, "driver's age", "the driver's age"),
    stated("combination.trailers", COUNT, "trailers towed", "how many trailers or other vehicles are towed"),
    either("combination.length", LENGTH, "length of the combination", "from the front of the towing vehicle to the rear of the last trailer, load included"),
    either("combination.gross_weight", MASS, "gross weight of the combination", "what towing vehicle, trailers, people and loads weigh together"),
    worked_out("combination.gvwr", MASS, "sum of the GVWRs", "the rating (GVWR) of the towing vehicle and of the trailer added up"),
    stated("combination.registered_weight", MASS, "registered weight of the combination", "the gross weight for which the combination, or the towing vehicle with its trailer, is registered"),
    worked_out("combination.greatest_weight", MASS, "greatest of the combination's weights and ratings", "the greatest of the combination's gross weight, the sum of the GVWRs and the GCWR"),
    stated("combination.width", LENGTH, "greatest width", "the widest part of the rig with its load, mirrors and safety devices left out"),
    stated("combination.height", LENGTH, "greatest height", "the highest part of the rig with its load"),
    stated("combination.stops_from_20_mph", LENGTH, "stopping distance from 20 mph", "the distance in which the combination stops from 20 mph with its service brakes, on a dry, hard, level road"),
    stated("combination.parking_brake_holds", Kind::YesNo, "parking brake holds the rig", "the parking brakes hold the loaded combination on any grade it is used on"),
    stated("combination.one_brake_control", Kind::YesNo, "one control for all brakes", "one control works the service brakes of towing vehicle and trailer"),
    stated("combination.warning_devices", COUNT, "warning devices carried", "warning triangles, flares or reflectors carried for a breakdown"),
    stated("combination.fire_extinguisher", Kind::YesNo, "fire extinguisher carried", "a charged fire extinguisher is carried"),
    stated("second_trailer.gross_weight", MASS, "gross weight of the second trailer", "what the second trailer weighs with its load"),
    stated("second_trailer.gvwr", MASS, "GVWR of the second trailer", "the rating on the plate of the second trailer"),
    stated("second_trailer.brakes", Kind::Choice(choices::BRAKES), "brakes of the second trailer", "the kind of service brakes of the second trailer"),
    stated("second_trailer.length", LENGTH, "length of the second trailer", "the length of the second trailer with its load"),
    stated("second_trailer.kind", Kind::Choice(choices::TRAILER_KINDS), "kind of the second trailer", "what the second trailer is built for"),
    stated("second_trailer.coupling", Kind::Choice(choices::COUPLINGS), "coupling of the second trailer", "how the second trailer is joined to the first"),
];
