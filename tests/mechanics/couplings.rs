//! Rigs by how they are coupled and tied: lifting loads, goosenecks, spring bars, the weakest part,
//! tyres by wheels, marked and unmarked tie-downs.

use crate::rigs::{AXLES, KILN, TONGUE, kiln_with};
use crate::support::{close, item, sound};
use pintle::facts::Scope;
use pintle::quantity::{Exact, Unit};
use rstest::rstest;

const LB: Unit = Unit::Pound;

/// A load behind the axles lifts the hitch: the tongue weight is nothing, the lift is told, the
/// axles carry more than the trailer weighs, and the lever works the other way.
#[test]
fn a_load_that_lifts_the_hitch() {
    let rig = kiln_with("position: 7 ft", "position: 10 ft");
    assert_eq!(rig.say("trailer.tongue_weight"), "0 lb");
    close(
        rig.value("trailer.tongue_lift", LB),
        3200.0 / 6.0 - 315.0,
        1e-6,
    );
    close(
        rig.value("trailer.axle_weight", LB),
        5150.0 + 3200.0 / 6.0 - 315.0,
        1e-6,
    );
    assert!(
        rig.working("trailer.tongue_weight")
            .contains("lifts the hitch")
    );
    close(
        rig.value_of(
            item(Scope::VehicleAxle, 0),
            "vehicle_axle.hitched_weight",
            LB,
        ),
        3150.0 + (3200.0 / 6.0 - 315.0) * 50.0 / 145.0,
        1e-6,
    );
    assert_eq!(rig.say("trailer.tongue_share"), "0%");
}

/// A gooseneck ahead of the rear axle loads both axles, and no spring bars can be in play.
#[test]
fn gooseneck() {
    let text = KILN
        .replace("coupling: ball", "coupling: gooseneck")
        .replace("overhang: 50 in", "overhang: -4 in")
        .replace("    weight_distributing: no\n", "");
    let rig = sound(&text);
    assert_eq!(rig.say("tow_vehicle.front_axle_relief"), "0 lb");
    close(
        rig.value("tow_vehicle.rear_axle_gain", LB),
        TONGUE * 141.0 / 145.0,
        1e-5,
    );
    close(
        rig.value_of(
            item(Scope::VehicleAxle, 0),
            "vehicle_axle.hitched_weight",
            LB,
        ),
        3150.0 + TONGUE * 4.0 / 145.0,
        1e-5,
    );
    assert_eq!(rig.say("tow_vehicle.hitch.moved_to_trailer"), "0 lb");
    close(
        rig.value_of(item(Scope::Axle, 0), "axle.weight", LB),
        AXLES / 2.0,
        1e-5,
    );
}

/// Spring bars as stated: all that leaves the rear axle arrives at the front and the trailer.
#[test]
fn spring_bars() {
    let text = KILN.replace(
        "weight_distributing: no",
        "weight_distributing: yes\n    moved_to_trailer: 60 lb",
    );
    let rig = sound(&text);
    let to_front = 60.0 * (144.0 + 50.0) / 145.0;
    close(
        rig.value("tow_vehicle.hitch.moved_to_front", LB),
        to_front,
        1e-6,
    );
    let (front, rear) = (item(Scope::VehicleAxle, 0), item(Scope::VehicleAxle, 1));
    let (f, r) = (
        rig.value_of(front, "vehicle_axle.hitched_weight", LB),
        rig.value_of(rear, "vehicle_axle.hitched_weight", LB),
    );
    close(f, 3150.0 - TONGUE * 50.0 / 145.0 + to_front, 1e-5);
    close(f + r, rig.value("tow_vehicle.hitched_weight", LB), 1e-6);
    close(
        rig.value_of(item(Scope::Axle, 0), "axle.weight", LB),
        (AXLES + 60.0) / 2.0,
        1e-5,
    );
    // The law's figure, before the bars.
    close(rig.value("trailer.axle_weight", LB), AXLES, 1e-5);
}

/// Bars that nobody has spoken of may move anything to the trailer.
#[test]
fn spring_bars_not_spoken_of() {
    let rig = kiln_with("    weight_distributing: no\n", "");
    let axle = rig.range_of(item(Scope::Axle, 0), "axle.weight");
    assert!(axle.lo.is_some() && axle.hi.is_none());
    let rear = rig.range_of(item(Scope::VehicleAxle, 1), "vehicle_axle.hitched_weight");
    assert!(rear.hi.is_some() && rear.lo == Some(Exact::ZERO));
}

/// The weakest part is named; a part that such a coupling surely has and that is not rated in the
/// file may be weaker still.
#[rstest]
#[case(
    "{coupling: ball, coupler: {rating: 7000 lb}}",
    "{ball_rating: 6000 lb, mount_rating: 8000 lb, trailer_rating: 9000 lb}",
    "6,000 lb",
    "ball"
)]
#[case(
    "{coupling: ball, coupler: {rating: 7000 lb}}",
    "{ball_rating: 9000 lb, mount_rating: 5000 lb, trailer_rating: 9000 lb}",
    "5,000 lb",
    "ball-mount"
)]
#[case(
    "{coupling: ball, coupler: {rating: 7000 lb}}",
    "{ball_rating: 6000 lb, mount_rating: 8000 lb}",
    "0 lb to 6,000 lb",
    "ball or hitch"
)]
#[case(
    "{coupling: gooseneck, coupler: {rating: 20000 lb}}",
    "{ball_rating: 30000 lb, trailer_rating: 16000 lb}",
    "16,000 lb",
    "hitch"
)]
#[case(
    "{coupling: fifth-wheel}",
    "{trailer_rating: 16000 lb}",
    "16,000 lb",
    "hitch"
)]
#[case(
    "{coupling: pintle}",
    "{trailer_rating: 16000 lb, mount_rating: 12000 lb}",
    "12,000 lb",
    "ball-mount"
)]
#[case(
    "{coupler: {rating: 7000 lb}}",
    "{ball_rating: 6000 lb}",
    "0 lb to 6,000 lb",
    "ball or ball-mount or hitch"
)]
fn the_weakest_part(
    #[case] trailer: &str,
    #[case] hitch: &str,
    #[case] rating: &str,
    #[case] part: &str,
) {
    let rig = sound(&format!(
        "trailer: {trailer}\ntow_vehicle: {{hitch: {hitch}}}"
    ));
    assert_eq!(rig.say("coupling.weakest_rating"), rating);
    assert_eq!(rig.say("coupling.weakest_part"), part);
}

/// Wheels: stated, or told by the tyres and the wheels in all; duals halve a tyre's load.
#[rstest]
#[case("axles: [{weight: 4000 lb, wheels: 4}], tyres: [{}]", "1,000 lb")]
#[case("axles: [{weight: 4000 lb, wheels: 2}], tyres: [{}]", "2,000 lb")]
#[case("axles: [{weight: 4000 lb}], tyres: [{}]", "1,000 lb to 2,000 lb")]
#[case("axles: [{weight: 4000 lb}], tyres: [{count: 3}]", "2,000 lb")]
#[case(
    "axles: [{weight: 4000 lb}], tyres: [{count: 4}]",
    "1,000 lb to 2,000 lb"
)]
#[case("wheels: 4, axles: [{weight: 4000 lb}], tyres: [{}]", "1,000 lb")]
#[case("wheels: 2, axles: [{weight: 4000 lb}], tyres: [{}]", "2,000 lb")]
#[case(
    "axles: [{weight: 4000 lb, wheels: 2}, {weight: 3000 lb, wheels: 2}], tyres: [{}]",
    "1,500 lb to 2,000 lb"
)]
#[case(
    "axles: [{weight: 4000 lb, wheels: 2}, {weight: 3000 lb, wheels: 2}], tyres: [{axle: 2}]",
    "1,500 lb"
)]
fn load_of_a_tyre(#[case] trailer: &str, #[case] load: &str) {
    let rig = sound(&format!("trailer: {{{trailer}}}"));
    assert_eq!(rig.say_of(item(Scope::Tyre, 0), "tyre.load"), load);
}

/// Marked and unmarked tie-downs: the table in the US, nothing in Canada.
#[test]
fn marked_and_unmarked() {
    let rig = sound(
        "load: [{weight: 1 t, tie_downs: [{count: 2, working_load_limit: 1000 lb, path: over}, {marked: no, material: webbing, size: 2 in, path: direct}, {path: over}]}]",
    );
    let load = item(Scope::Load, 0);
    assert_eq!(
        rig.say_of(load, "load.aggregate_limit_us_default"),
        "at least 3,000 lb"
    );
    assert_eq!(
        rig.say_of(load, "load.aggregate_limit_marked"),
        "at least 2,000 lb"
    );
    let two = sound(
        "load: [{weight: 1 t, tie_downs: [{count: 2, working_load_limit: 1000 lb, path: over}, {marked: no, working_load_limit: 5000 lb, material: chain-70, size: 3/8 in, path: direct}]}]",
    );
    assert_eq!(
        two.say_of(load, "load.aggregate_limit_us_default"),
        "5,300 lb"
    );
    assert_eq!(two.say_of(load, "load.aggregate_limit_marked"), "2,000 lb");
    assert_eq!(
        two.working_of(load, "load.aggregate_limit_us_default"),
        "2 × 1,000 lb + half of 6,600 lb by the table = 5,300 lb"
    );
}
