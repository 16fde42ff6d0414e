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
    ("combination.gvwr", &["trailer.gvwr", "tow_vehicle.gvwr"]),
    (
        "combination.greatest_weight",
        &[
            "trailer.gvwr",
            "tow_vehicle.gvwr",
            "tow_vehicle.gcwr",
            "combination.gross_weight",
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
        &["tow_vehicle.gross_weight", "trailer.gross_weight"],
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
    ("tow_vehicle.axle_count", &["vehicle_axle.rating"]),
    ("tow_vehicle.built", &["tow_vehicle.model_year"]),
    ("hazardous_materials", &["load.kind"]),
    (
        "trailer.axle_weight",
        &["trailer.gross_weight", "trailer.tongue_weight"],
    ),
    ("load.tie_down_count", &["tie_down.count"]),
];
