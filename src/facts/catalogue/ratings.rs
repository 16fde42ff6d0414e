//! Ratings against what they carry, the coupling's parts and classes, braked shares.

use super::choices;
use super::{Entry, LENGTH, MASS, SHARE, stated, worked_out};
use crate::facts::kind::Kind;

#[rustfmt::skip]
pub(super) const RATINGS: &[Entry] = &[
    stated("tow_vehicle.tongue_rating", MASS, "tongue rating of the towing vehicle", "the greatest tongue weight that the towing vehicle's maker allows"),
    worked_out("tow_vehicle.payload_weight", MASS, "weight against the payload", "people, gear and tongue weight together"),
    worked_out("trailer.gvwr_used", SHARE, "trailer GVWR used", "gross weight of the trailer as a share of its GVWR"),
    worked_out("trailer.registered_weight_used", SHARE, "registered weight of the trailer used", "gross weight of the trailer as a share of its registered weight"),
    worked_out("trailer.axle_ratings_used", SHARE, "trailer axle ratings used", "what the trailer's axles carry together as a share of the sum of their ratings"),
    worked_out("tow_vehicle.gvwr_used", SHARE, "towing vehicle GVWR used", "what the towing vehicle's axles carry, trailer hitched, as a share of its GVWR"),
    worked_out("tow_vehicle.gcwr_used", SHARE, "GCWR used", "gross weight of the combination as a share of the GCWR"),
    worked_out("tow_vehicle.towing_rating_used", SHARE, "towing rating used", "gross weight of the trailer as a share of the towing rating"),
    worked_out("tow_vehicle.payload_used", SHARE, "payload used", "people, gear and tongue weight as a share of the payload"),
    worked_out("tow_vehicle.registered_weight_used", SHARE, "registered weight of the towing vehicle used", "gross weight of the towing vehicle as a share of its registered weight"),
    worked_out("combination.registered_weight_used", SHARE, "registered weight of the combination used", "gross weight of the combination as a share of its registered weight"),
    worked_out("coupling.weakest_rating", MASS, "lowest rating of the coupling's parts", "the least of the trailer weights for which coupler, ball, ball mount and hitch are rated, as far as the coupling has them"),
    worked_out("coupling.weakest_part", Kind::Choice(choices::COUPLING_PARTS), "weakest part of the coupling", "the part with the lowest rating"),
    worked_out("coupling.weakest_tongue_rating", MASS, "lowest tongue rating", "the least of the tongue weights that hitch, ball mount and the towing vehicle's maker allow, as far as the coupling has them"),
    worked_out("coupling.rating_used", SHARE, "coupling rating used", "gross weight of the trailer as a share of the lowest rating of the coupling's parts"),
    worked_out("coupling.tongue_rating_used", SHARE, "tongue rating used", "tongue weight as a share of the lowest tongue rating"),
    worked_out("coupling.class_needed", Kind::Choice(choices::HITCH_CLASSES), "hitch class needed", "the lowest SAE J684 class that covers the trailer's gross weight; class 5 above 10,000 lb, where that standard ends"),
    worked_out("coupling.class_ball_diameter", LENGTH, "least ball diameter of the class", "the least ball diameter that SAE J684 gives for the class needed; none is given for class 4"),
    worked_out("tow_vehicle.hitch.class_rating", MASS, "heaviest trailer of the hitch's class", "the heaviest trailer of the hitch's SAE J684 class"),
    worked_out("tow_vehicle.hitch.class_tongue_rating", MASS, "greatest tongue weight of the hitch's class", "the greatest tongue weight that is recommended for the hitch's class"),
    worked_out("trailer.safety_chains.class_strength", MASS, "chain strength of the class", "the least breaking strength that SAE J684 asks of each safety chain for a trailer of this GVWR"),
    worked_out("trailer.braked_wheel_share", SHARE, "share of wheels with brakes", "wheels with brakes as a share of all wheels of the trailer"),
    worked_out("trailer.braked_weight", MASS, "weight on braked axles", "what the trailer's axles with brakes carry together"),
    worked_out("trailer.braked_weight_share", SHARE, "share of weight on braked axles", "what the trailer's axles with brakes carry as a share of its gross weight"),
    worked_out("combination.braking_force", SHARE, "braking force", "the mean deceleration of the stop from 20 mph as a share of gravity, which is the braking force as a share of the gross weight"),
];
