//! What each worked-out fact is worked out from, for the questions that would settle it.

/// The facts that a fact is worked out from, by name; none for a fact that is only stated.
#[must_use]
pub fn inputs(fact: &str) -> &'static [&'static str] {
    INPUTS
        .iter()
        .find(|(name, _)| *name == fact)
        .map_or(&[], |(_, from)| from)
}

/// Each worked-out fact with its inputs, the most telling first.
pub const INPUTS: &[(&str, &[&str])] = &[
    (
        "combination.gvwr",
        &["trailer.gvwr", "tow_vehicle.gvwr", "second_trailer.gvwr"],
    ),
    (
        "combination.greatest_weight",
        &[
            "trailer.gvwr",
            "tow_vehicle.gvwr",
            "trailer.gross_weight",
            "tow_vehicle.gross_weight",
            "second_trailer.gvwr",
            "second_trailer.gross_weight",
        ],
    ),
    (
        "trailer.greatest_weight",
        &["trailer.gvwr", "trailer.gross_weight"],
    ),
    (
        "trailer.weight_to_vehicle_weight",
        &["trailer.gross_weight", "tow_vehicle.gross_weight"],
    ),
    (
        "trailer.gvwr_to_vehicle_gvwr",
        &["trailer.gvwr", "tow_vehicle.gvwr"],
    ),
    (
        "trailer.safety_chains.total_strength",
        &[
            "trailer.safety_chains.strength",
            "trailer.safety_chains.count",
        ],
    ),
    ("tow_vehicle.axle_ratings", &["vehicle_axle.rating"]),
    (
        "load.aggregate_limit",
        &[
            "tie_down.working_load_limit",
            "tie_down.path",
            "tie_down.count",
        ],
    ),
    (
        "load.unmarked_tie_downs",
        &["tie_down.marked", "tie_down.count"],
    ),
    ("tyre.age", &["tyre.date_code"]),
    (
        "trailer.gross_weight",
        &["trailer.empty_weight", "trailer.load_weight"],
    ),
    ("trailer.load_weight", &["load.weight"]),
    (
        "tow_vehicle.gross_weight",
        &[
            "tow_vehicle.curb_weight",
            "tow_vehicle.people_weight",
            "tow_vehicle.gear_weight",
        ],
    ),
    (
        "combination.gross_weight",
        &[
            "tow_vehicle.gross_weight",
            "trailer.gross_weight",
            "second_trailer.gross_weight",
        ],
    ),
    (
        "trailer.carrying_capacity",
        &["trailer.gvwr", "trailer.empty_weight"],
    ),
    ("trailer.loaded", &["load.weight"]),
    ("trailer.axle_ratings", &["axle.rating"]),
    ("trailer.axle_count", &["axle.braked"]),
    ("trailer.wheels", &["axle.wheels"]),
    (
        "trailer.braked_wheels",
        &["axle.braked", "axle.wheels", "trailer.brakes"],
    ),
    ("trailer.braked_axles", &["axle.braked", "trailer.brakes"]),
    (
        "trailer.all_wheels_braked",
        &["axle.braked", "trailer.brakes"],
    ),
    ("trailer.has_brakes", &["trailer.brakes", "axle.braked"]),
    ("trailer.built", &["trailer.model_year"]),
    ("trailer.first_registered", &["trailer.built"]),
    ("trailer.width", &["load.width", "combination.width"]),
    ("trailer.height", &["combination.height"]),
    ("tow_vehicle.axle_count", &["vehicle_axle.rating"]),
    ("tow_vehicle.built", &["tow_vehicle.model_year"]),
    ("hazardous_materials", &["load.kind"]),
    (
        "trailer.axle_weight",
        &["trailer.gross_weight", "trailer.tongue_weight"],
    ),
    ("load.tie_down_count", &["tie_down.count"]),
    (
        "trailer.tongue_weight_by_moments",
        &[
            "trailer.empty_tongue_weight",
            "trailer.coupler_to_axles",
            "load.weight",
            "load.position",
            "loading.positions_from",
            "trailer.coupler_to_deck",
        ],
    ),
    (
        "trailer.tongue_lift",
        &[
            "trailer.tongue_weight",
            "trailer.empty_tongue_weight",
            "trailer.coupler_to_axles",
            "load.weight",
            "load.position",
            "loading.positions_from",
            "trailer.coupler_to_deck",
        ],
    ),
    (
        "trailer.tongue_share",
        &["trailer.tongue_weight", "trailer.gross_weight"],
    ),
    (
        "trailer.load_centre",
        &[
            "load.position",
            "load.weight",
            "loading.positions_from",
            "trailer.coupler_to_deck",
        ],
    ),
    (
        "trailer.load_ahead_of_axles",
        &[
            "load.position",
            "load.weight",
            "trailer.coupler_to_axles",
            "loading.positions_from",
            "trailer.coupler_to_deck",
        ],
    ),
    (
        "trailer.load_spread",
        &[
            "load.position",
            "load.length",
            "load.weight",
            "trailer.coupler_to_axles",
            "loading.positions_from",
            "trailer.coupler_to_deck",
        ],
    ),
    (
        "trailer.nose_low",
        &[
            "trailer.coupler.height",
            "tow_vehicle.hitch.ball_height",
            "tow_vehicle.hitch.drop",
        ],
    ),
    (
        "tow_vehicle.hitched_weight",
        &[
            "tow_vehicle.gross_weight",
            "trailer.tongue_weight",
            "tow_vehicle.hitch.weight_distributing",
            "tow_vehicle.hitch.moved_to_trailer",
        ],
    ),
    (
        "tow_vehicle.front_axle_relief",
        &[
            "trailer.tongue_weight",
            "tow_vehicle.wheelbase",
            "tow_vehicle.hitch.overhang",
        ],
    ),
    (
        "tow_vehicle.rear_axle_gain",
        &[
            "trailer.tongue_weight",
            "tow_vehicle.wheelbase",
            "tow_vehicle.hitch.overhang",
        ],
    ),
    ("tow_vehicle.tail_low", SUSPENSION),
    ("tow_vehicle.pitch", SUSPENSION),
    ("tow_vehicle.hitch.drop", SUSPENSION),
    (
        "tow_vehicle.payload_weight",
        &[
            "tow_vehicle.people_weight",
            "tow_vehicle.gear_weight",
            "trailer.tongue_weight",
        ],
    ),
    (
        "trailer.gvwr_used",
        &["trailer.gross_weight", "trailer.gvwr"],
    ),
    (
        "trailer.registered_weight_used",
        &["trailer.gross_weight", "trailer.registered_weight"],
    ),
    (
        "trailer.axle_ratings_used",
        &["trailer.axle_weight", "trailer.axle_ratings"],
    ),
    (
        "tow_vehicle.gvwr_used",
        &["tow_vehicle.hitched_weight", "tow_vehicle.gvwr"],
    ),
    (
        "tow_vehicle.gcwr_used",
        &["combination.gross_weight", "tow_vehicle.gcwr"],
    ),
    (
        "tow_vehicle.towing_rating_used",
        &["trailer.gross_weight", "tow_vehicle.towing_rating"],
    ),
    (
        "tow_vehicle.payload_used",
        &["tow_vehicle.payload_weight", "tow_vehicle.payload"],
    ),
    (
        "tow_vehicle.registered_weight_used",
        &["tow_vehicle.gross_weight", "tow_vehicle.registered_weight"],
    ),
    (
        "combination.registered_weight_used",
        &["combination.gross_weight", "combination.registered_weight"],
    ),
    ("coupling.weakest_rating", COUPLING_RATINGS),
    ("coupling.weakest_part", COUPLING_RATINGS),
    (
        "coupling.weakest_tongue_rating",
        &[
            "tow_vehicle.hitch.tongue_rating",
            "tow_vehicle.hitch.mount_tongue_rating",
            "tow_vehicle.tongue_rating",
            "trailer.coupling",
        ],
    ),
    (
        "coupling.rating_used",
        &["trailer.gross_weight", "coupling.weakest_rating"],
    ),
    (
        "coupling.tongue_rating_used",
        &["trailer.tongue_weight", "coupling.weakest_tongue_rating"],
    ),
    ("coupling.class_needed", &["trailer.gross_weight"]),
    ("coupling.class_ball_diameter", &["trailer.gross_weight"]),
    (
        "tow_vehicle.hitch.class_rating",
        &["tow_vehicle.hitch.class"],
    ),
    (
        "tow_vehicle.hitch.class_tongue_rating",
        &[
            "tow_vehicle.hitch.class",
            "tow_vehicle.hitch.weight_distributing",
            "trailer.gross_weight",
        ],
    ),
    ("trailer.safety_chains.class_strength", &["trailer.gvwr"]),
    (
        "trailer.braked_wheel_share",
        &["trailer.braked_wheels", "trailer.wheels"],
    ),
    ("trailer.braked_weight", &["axle.braked", "axle.weight"]),
    (
        "trailer.braked_weight_share",
        &["axle.braked", "axle.weight", "trailer.gross_weight"],
    ),
    (
        "combination.braking_force",
        &["combination.stops_from_20_mph"],
    ),
    ("axle.rating_used", &["axle.weight", "axle.rating"]),
    (
        "vehicle_axle.rating_used",
        &["vehicle_axle.hitched_weight", "vehicle_axle.rating"],
    ),
    (
        "load.aggregate_limit_us_default",
        &[
            "tie_down.marked",
            "tie_down.working_load_limit",
            "tie_down.material",
            "tie_down.size",
            "tie_down.path",
        ],
    ),
    (
        "load.aggregate_limit_marked",
        &[
            "tie_down.marked",
            "tie_down.working_load_limit",
            "tie_down.path",
        ],
    ),
    (
        "load.tie_downs_needed_us",
        &["load.length", "load.weight", "load.blocked_forward"],
    ),
    ("load.sliding_held.forward", LASHING),
    ("load.sliding_held.rearward", LASHING),
    ("load.sliding_held.sideways", LASHING),
    ("load.top_over_needed.forward", LASHING),
    ("load.top_over_needed.rearward", LASHING),
    ("load.top_over_needed.sideways", LASHING),
    (
        "load.tipping_held.forward",
        &[
            "load.centre_height",
            "load.tipping_edge.front",
            "load.weight",
            "tie_down.lashing_capacity",
            "tie_down.angle",
            "tie_down.attach_height",
        ],
    ),
    (
        "load.tipping_held.rearward",
        &[
            "load.centre_height",
            "load.tipping_edge.rear",
            "load.weight",
            "tie_down.lashing_capacity",
            "tie_down.angle",
            "tie_down.attach_height",
        ],
    ),
    (
        "load.tipping_held.sideways",
        &[
            "load.centre_height",
            "load.tipping_edge.side",
            "load.weight",
            "load.width",
            "tie_down.pretension",
            "tie_down.lashing_capacity",
            "tie_down.angle",
            "tie_down.attach_height",
        ],
    ),
    (
        "tie_down.default_limit_us",
        &["tie_down.material", "tie_down.size"],
    ),
    (
        "tyre.capacity",
        &[
            "tyre.load_limit",
            "tyre.load_index",
            "tyre.pressure",
            "tyre.size",
            "axle.wheels",
        ],
    ),
    ("tyre.load", &["axle.weight", "axle.wheels"]),
    ("tyre.load_used", &["tyre.load", "tyre.capacity"]),
    ("tyre.rated_speed", &["tyre.speed_symbol", "tyre.type"]),
];

const SUSPENSION: &[&str] = &[
    "tow_vehicle.rear_suspension.load",
    "tow_vehicle.rear_suspension.sinks",
    "tow_vehicle.front_suspension.load",
    "tow_vehicle.front_suspension.sinks",
    "trailer.tongue_weight",
    "tow_vehicle.wheelbase",
    "tow_vehicle.hitch.overhang",
];

const COUPLING_RATINGS: &[&str] = &[
    "trailer.coupler.rating",
    "tow_vehicle.hitch.ball_rating",
    "tow_vehicle.hitch.mount_rating",
    "tow_vehicle.hitch.trailer_rating",
    "trailer.coupling",
];

const LASHING: &[&str] = &[
    "load.friction",
    "load.weight",
    "tie_down.angle",
    "tie_down.pretension",
    "tie_down.lashing_capacity",
    "tie_down.path",
    "tie_down.holds_against",
    "tie_down.angle_from_travel",
];
