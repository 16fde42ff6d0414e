//! Whole rigs: geometry, missing facts, weighed against worked out, ratings, couplings, level.

use crate::support::{Rig, close, item, rig, sound};
use pintle::facts::{Scope, catalogue};
use pintle::quantity::{Exact, Unit};
use rstest::rstest;
use std::path::Path;

const LB: Unit = Unit::Pound;

/// By hand: what rests on the hitch and on the axles of the potters' rig.
pub const TONGUE: f64 = 165.0 + 3200.0 / 12.0 + 150.0;
pub const AXLES: f64 = 5150.0 - TONGUE;

/// The potters' rig: kiln and shelves on a tandem flatbed behind a pickup.
pub const KILN: &str = "\
use: business
tow_vehicle:
  kind: pickup
  curb_weight: 5,200 lb
  people_weight: 340 lb
  gear_weight: 160 lb
  gvwr: 7,100 lb
  gcwr: 14,000 lb
  payload: 1,700 lb
  wheelbase: 145 in
  axles: [{rating: 3,750 lb, weight: 3,150 lb}, {rating: 4,100 lb, weight: 2,550 lb}]
  front_suspension: {load: 400 lb, sinks: 0.5 in}
  rear_suspension: {load: 400 lb, sinks: 1 in}
  hitch:
    ball_rating: 7,500 lb
    mount_rating: 8,000 lb
    trailer_rating: 10,000 lb
    tongue_rating: 1,000 lb
    mount_tongue_rating: 800 lb
    overhang: 50 in
    ball_height: 21 in
    weight_distributing: no
trailer:
  coupling: ball
  empty_weight: 1,650 lb
  empty_tongue_weight: 165 lb
  gvwr: 7,000 lb
  coupler: {rating: 7,000 lb, height: 20 in}
  coupler_to_axles: 12 ft
  coupler_to_deck: 4 ft
  equalised_axles: yes
  axles: [{rating: 3,500 lb, braked: yes}, {rating: 3,500 lb, braked: yes}]
  tyres: [{count: 4, load_limit: 1,820 lb}]
loading: {positions_from: deck-front}
load:
  - {name: kiln, weight: 3,200 lb, position: 7 ft, length: 6 ft}
  - {name: shelves, weight: 300 lb, position: 2 ft, length: 3 ft}
";

pub fn kiln_with(old: &str, new: &str) -> Rig {
    assert!(KILN.contains(old), "{old}");
    sound(&KILN.replace(old, new))
}

/// By hand: 165 + 3,200 × 1/12 + 300 × 6/12 = 581.7 lb, the rest of 5,150 lb on the axles.
#[rstest]
#[case("trailer.tongue_weight", LB, 165.0 + 3200.0 / 12.0 + 150.0)]
#[case("trailer.axle_weight", LB, 5150.0 - TONGUE)]
#[case("trailer.tongue_share", Unit::Percent, TONGUE / 51.5)]
#[case("trailer.tongue_lift", LB, 0.0)]
#[case("trailer.load_centre", Unit::Foot, (3200.0 * 11.0 + 300.0 * 6.0) / 3500.0)]
#[case("trailer.load_ahead_of_axles", Unit::Foot, 12.0 - 37000.0 / 3500.0)]
#[case("tow_vehicle.hitched_weight", LB, 5700.0 + TONGUE)]
#[case("tow_vehicle.payload_weight", LB, 500.0 + TONGUE)]
#[case("tow_vehicle.payload_used", Unit::Percent, (500.0 + TONGUE) / 17.0)]
#[case("tow_vehicle.front_axle_relief", LB, TONGUE * 50.0 / 145.0)]
#[case("tow_vehicle.rear_axle_gain", LB, TONGUE * 195.0 / 145.0)]
#[case("tow_vehicle.gcwr_used", Unit::Percent, (5700.0 + 5150.0) / 140.0)]
#[case("tow_vehicle.gvwr_used", Unit::Percent, (5700.0 + TONGUE) / 71.0)]
#[case("trailer.gvwr_used", Unit::Percent, 5150.0 / 70.0)]
#[case("trailer.axle_ratings_used", Unit::Percent, AXLES / 70.0)]
#[case("coupling.weakest_rating", LB, 7000.0)]
#[case("coupling.weakest_tongue_rating", LB, 800.0)]
#[case("coupling.tongue_rating_used", Unit::Percent, TONGUE / 8.0)]
#[case("trailer.braked_wheel_share", Unit::Percent, 100.0)]
#[case("trailer.braked_weight", LB, AXLES)]
#[case("trailer.braked_weight_share", Unit::Percent, AXLES / 51.5)]
fn the_kiln_rig(#[case] name: &str, #[case] unit: Unit, #[case] wanted: f64) {
    close(sound(KILN).value(name, unit), wanted, 1e-5);
}

#[rstest]
#[case(Scope::Axle, 0, "axle.weight", LB, AXLES / 2.0)]
#[case(Scope::Axle, 1, "axle.rating_used", Unit::Percent, AXLES / 70.0)]
#[case(Scope::VehicleAxle, 0, "vehicle_axle.hitched_weight", LB, 3150.0 - TONGUE * 50.0 / 145.0)]
#[case(Scope::VehicleAxle, 1, "vehicle_axle.hitched_weight", LB, 2550.0 + TONGUE * 195.0 / 145.0)]
#[case(Scope::VehicleAxle, 1, "vehicle_axle.rating_used", Unit::Percent, (2550.0 + TONGUE * 195.0 / 145.0) / 41.0)]
#[case(Scope::Tyre, 0, "tyre.load", LB, AXLES / 4.0)]
#[case(Scope::Tyre, 0, "tyre.load_used", Unit::Percent, AXLES / 4.0 / 18.2)]
fn the_kiln_rigs_axles(
    #[case] scope: Scope,
    #[case] index: usize,
    #[case] name: &str,
    #[case] unit: Unit,
    #[case] wanted: f64,
) {
    close(
        sound(KILN).value_of(item(scope, index), name, unit),
        wanted,
        1e-5,
    );
}

/// Even springs: front −200.6 lb × 0.5 / 400, rear +782.2 lb × 1 / 400; the ball lies 50 / 145 of
/// the wheelbase beyond the rear axle on the same line.
#[test]
fn level() {
    let rig = sound(KILN);
    let (front, rear) = (
        -TONGUE * 50.0 / 145.0 / 800.0,
        TONGUE * 195.0 / 145.0 / 400.0,
    );
    close(
        rig.value("tow_vehicle.tail_low", Unit::Inch),
        rear - front,
        1e-5,
    );
    let drop = rear + (rear - front) * 50.0 / 145.0;
    close(rig.value("tow_vehicle.hitch.drop", Unit::Inch), drop, 1e-5);
    close(
        rig.value("trailer.nose_low", Unit::Inch),
        20.0 - (21.0 - drop),
        1e-5,
    );
    let pitch = ((rear - front) / 145.0_f64).atan().to_degrees();
    close(rig.value("tow_vehicle.pitch", Unit::Degree), pitch, 1e-6);
}

/// Radius of gyration by hand, about axles 12 ft behind the ball.
#[test]
fn spread() {
    let squares = 3200.0 * (1.0 + 36.0 / 12.0) + 300.0 * (36.0 + 9.0 / 12.0);
    let wanted = (squares / 3500.0_f64).sqrt();
    close(
        sound(KILN).value("trailer.load_spread", Unit::Foot),
        wanted,
        1e-9,
    );
    // Without the lengths only a lower bound is left.
    let short = kiln_with(", length: 6 ft", "");
    let range = short.range("trailer.load_spread");
    assert!(range.hi.is_none() && range.lo.is_some_and(|lo| lo > Exact::ZERO));
}

/// The same place, measured from either datum; an unstated one leaves both open.
#[test]
fn datums() {
    let from_coupler = KILN
        .replace("deck-front", "coupler")
        .replace("position: 7 ft", "position: 11 ft")
        .replace("position: 2 ft", "position: 6 ft");
    let deck = sound(KILN);
    assert_eq!(
        sound(&from_coupler).range("trailer.tongue_weight"),
        deck.range("trailer.tongue_weight")
    );
    let unstated = sound(&KILN.replace("loading: {positions_from: deck-front}\n", ""));
    let range = unstated.range("trailer.tongue_weight");
    assert!(range.contains_interval(deck.range("trailer.tongue_weight")));
    assert!(range.is_exact().is_none());
}

/// What is missing stays missing, and takes no more with it than needs it.
#[rstest]
#[case("  coupler_to_axles: 12 ft\n", &["trailer.tongue_weight", "trailer.tongue_share", "trailer.load_spread", "tow_vehicle.hitched_weight"], &["trailer.load_centre", "trailer.gvwr_used"])]
#[case("  coupler_to_deck: 4 ft\n", &["trailer.tongue_weight", "trailer.load_centre"], &["trailer.gross_weight"])]
#[case("  empty_tongue_weight: 165 lb\n", &["trailer.tongue_weight", "tow_vehicle.rear_axle_gain"], &["trailer.load_spread"])]
#[case(", position: 7 ft", &["trailer.tongue_weight"], &["trailer.gross_weight"])]
#[case("  wheelbase: 145 in\n", &["tow_vehicle.rear_axle_gain", "tow_vehicle.tail_low"], &["tow_vehicle.hitched_weight", "trailer.tongue_weight"])]
#[case("    overhang: 50 in\n", &["tow_vehicle.rear_axle_gain", "tow_vehicle.front_axle_relief"], &["trailer.tongue_weight"])]
#[case("  front_suspension: {load: 400 lb, sinks: 0.5 in}\n", &["tow_vehicle.tail_low", "tow_vehicle.hitch.drop"], &["tow_vehicle.rear_axle_gain"])]
#[case("  payload: 1,700 lb\n", &["tow_vehicle.payload_used"], &["tow_vehicle.payload_weight"])]
fn missing_geometry(#[case] line: &str, #[case] gone: &[&str], #[case] kept: &[&str]) {
    let rig = kiln_with(line, "");
    for name in gone {
        assert!(!rig.is_known(name), "{name}: {}", rig.say(name));
    }
    for name in kept {
        assert!(rig.is_known(name), "{name}");
    }
}

/// Two axles that are neither equalised nor placed: nothing is known of each.
#[test]
fn axles_not_said_to_be_equalised() {
    let rig = kiln_with("  equalised_axles: yes\n", "");
    assert!(rig.is_known("trailer.axle_weight"));
    assert!(!rig.is_known_of(item(Scope::Axle, 0), "axle.weight"));
}

/// Placed axles: an equalised pair acts in its middle, rigid ones on equal springs carry in
/// proportion to their distance, and not knowing which gives a range that holds both.
#[test]
fn placed_axles() {
    let with = |equalised: &str| {
        let text = KILN
            .replace("  coupler_to_axles: 12 ft\n", "")
            .replace("  equalised_axles: yes\n", equalised)
            .replace("{rating: 3,500 lb, braked: yes}, {rating: 3,500 lb, braked: yes}", "{rating: 3,500 lb, braked: yes, position: 10.5 ft}, {rating: 3,500 lb, braked: no, position: 13.5 ft}");
        sound(&text)
    };
    let equal = with("  equalised_axles: yes\n");
    assert_eq!(equal.say("trailer.coupler_to_axles"), "12 ft");
    assert_eq!(
        equal.range("trailer.tongue_weight"),
        sound(KILN).range("trailer.tongue_weight")
    );
    let rigid = with("  equalised_axles: no\n");
    let centre = (10.5 * 10.5 + 13.5 * 13.5) / 24.0;
    close(
        rigid.value("trailer.coupler_to_axles", Unit::Foot),
        centre,
        1e-9,
    );
    let tongue = 165.0 + 3200.0 * (1.0 - 11.0 / centre) + 300.0 * (1.0 - 6.0 / centre);
    close(rigid.value("trailer.tongue_weight", LB), tongue, 1e-6);
    close(
        rigid.value_of(item(Scope::Axle, 0), "axle.weight", LB),
        (5150.0 - tongue) * 10.5 / 24.0,
        1e-6,
    );
    close(
        rigid.value("trailer.braked_weight", LB),
        (5150.0 - tongue) * 10.5 / 24.0,
        1e-6,
    );
    let unknown = with("");
    for name in ["trailer.coupler_to_axles", "trailer.tongue_weight"] {
        for known in [&equal, &rigid] {
            assert!(
                unknown.range(name).contains_interval(known.range(name)),
                "{name}"
            );
        }
    }
    for known in [&equal, &rigid] {
        let axle = item(Scope::Axle, 1);
        assert!(
            unknown
                .range_of(axle, "axle.weight")
                .contains_interval(known.range_of(axle, "axle.weight"))
        );
    }
}

/// A weighed tongue weight stands; the moments are shown beside it and nothing contradicts.
#[test]
fn a_weighed_tongue_stands() {
    let rig = kiln_with(
        "  coupling: ball\n",
        "  coupling: ball\n  tongue_weight: 640 lb\n",
    );
    assert_eq!(rig.say("trailer.tongue_weight"), "640 lb");
    assert_eq!(rig.say("trailer.axle_weight"), "4,510 lb");
    close(
        rig.value("trailer.tongue_weight_by_moments", LB),
        TONGUE,
        1e-5,
    );
    close(
        rig.value("trailer.tongue_share", Unit::Percent),
        640.0 / 51.5,
        1e-9,
    );
}

/// Weighed axles stand before the moments: the tongue carries the rest.
#[rstest]
#[case("  axle_weight: 4,500 lb\n", "650 lb")]
#[case("  axle_weight: 4,500 lb to 4,520 lb\n", "630 lb to 650 lb")]
fn weighed_axles_stand(#[case] line: &str, #[case] tongue: &str) {
    let rig = kiln_with("  coupling: ball\n", &format!("  coupling: ball\n{line}"));
    assert_eq!(rig.say("trailer.tongue_weight"), tongue);
    let each = KILN.replace(
        "braked: yes}, {rating: 3,500 lb",
        "braked: yes, weight: 2,200 lb}, {weight: 2,300 lb, rating: 3,500 lb",
    );
    let rig = sound(&each);
    assert_eq!(rig.say("trailer.axle_weight"), "4,500 lb");
    assert_eq!(rig.say("trailer.tongue_weight"), "650 lb");
    assert_eq!(rig.say_of(item(Scope::Axle, 1), "axle.weight"), "2,300 lb");
}

/// What is one by bookkeeping must agree.
#[rstest]
#[case(
    "trailer: {empty_weight: 1000 lb, gross_weight: 1501 lb, loaded: no}",
    "trailer.gross_weight"
)]
#[case(
    "trailer: {gross_weight: 1500 lb, tongue_weight: 200 lb, axle_weight: 1200 lb}",
    "trailer.axle_weight"
)]
#[case(
    "tow_vehicle: {gross_weight: 5000 lb, axles: [{weight: 2500 lb}, {weight: 2400 lb}]}",
    "tow_vehicle.gross_weight"
)]
fn bookkeeping_contradicts(#[case] yaml: &str, #[case] fact: &str) {
    let rig = rig(yaml);
    assert_eq!(rig.conflicts.len(), 1, "{:?}", rig.conflicts);
    assert_eq!(catalogue().def(rig.conflicts[0].fact).name, fact);
    assert!(rig.conflicts[0].at.is_some());
}

/// Every name of a fact that the mechanics write is in the catalogue.
#[test]
fn names_are_in_the_catalogue() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/mechanics");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("src/mechanics") {
        let text = std::fs::read_to_string(entry.expect("a file").path()).expect("text");
        for literal in text.split('"').skip(1).step_by(2) {
            let word = |w: &str| {
                !w.is_empty()
                    && w.bytes()
                        .all(|b| b.is_ascii_lowercase() || b == b'_' || b.is_ascii_digit())
            };
            let name = literal.contains('.') && literal.split('.').all(word);
            // The suspensions are named without their last word.
            if name && !literal.ends_with("_suspension") {
                assert!(catalogue().find(literal).is_some(), "{literal}");
                seen += 1;
            }
        }
    }
    for end in ["load", "sinks"] {
        for axle in ["front", "rear"] {
            assert!(
                catalogue()
                    .find(&format!("tow_vehicle.{axle}_suspension.{end}"))
                    .is_some()
            );
        }
    }
    assert!(seen > 150, "{seen}");
}
