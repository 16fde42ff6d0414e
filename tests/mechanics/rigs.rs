//! Whole rigs: geometry, missing facts, weighed against worked out, ratings, couplings, level.

use crate::support::{Rig, close, item, rig, sound};
use pintle::facts::{Scope, catalogue};
use pintle::quantity::{Exact, Unit};
use rstest::rstest;
use std::path::Path;

const LB: Unit = Unit::Pound;

/// The potters' rig: kiln and shelves on a tandem flatbed behind a pickup.
const KILN: &str = "\
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

fn kiln_with(old: &str, new: &str) -> Rig {
    assert!(KILN.contains(old), "{old}");
    sound(&KILN.replace(old, new))
}

/// By hand: 165 + 3,200 × 1/12 + 300 × 6/12 = 581.7 lb, the rest of 5,150 lb on the axles.
#[rstest]
#[case("trailer.tongue_weight", LB, 165.0 + 3200.0 / 12.0 + 150.0)]
#[case("trailer.axle_weight", LB, 5150.0 - 581.666_667)]
#[case("trailer.tongue_share", Unit::Percent, 581.666_667 / 51.5)]
#[case("trailer.tongue_lift", LB, 0.0)]
#[case("trailer.load_centre", Unit::Foot, (3200.0 * 11.0 + 300.0 * 6.0) / 3500.0)]
#[case("trailer.load_ahead_of_axles", Unit::Foot, 12.0 - 37000.0 / 3500.0)]
#[case("tow_vehicle.hitched_weight", LB, 5700.0 + 581.666_667)]
#[case("tow_vehicle.payload_weight", LB, 500.0 + 581.666_667)]
#[case("tow_vehicle.payload_used", Unit::Percent, 1081.666_667 / 17.0)]
#[case("tow_vehicle.front_axle_relief", LB, 581.666_667 * 50.0 / 145.0)]
#[case("tow_vehicle.rear_axle_gain", LB, 581.666_667 * 195.0 / 145.0)]
#[case("tow_vehicle.gcwr_used", Unit::Percent, (5700.0 + 5150.0) / 140.0)]
#[case("tow_vehicle.gvwr_used", Unit::Percent, 6281.666_667 / 71.0)]
#[case("trailer.gvwr_used", Unit::Percent, 5150.0 / 70.0)]
#[case("trailer.axle_ratings_used", Unit::Percent, 4568.333_333 / 70.0)]
#[case("coupling.weakest_rating", LB, 7000.0)]
#[case("coupling.weakest_tongue_rating", LB, 800.0)]
#[case("coupling.tongue_rating_used", Unit::Percent, 581.666_667 / 8.0)]
#[case("trailer.braked_wheel_share", Unit::Percent, 100.0)]
#[case("trailer.braked_weight", LB, 4568.333_333)]
#[case("trailer.braked_weight_share", Unit::Percent, 4568.333_333 / 51.5)]
fn the_kiln_rig(#[case] name: &str, #[case] unit: Unit, #[case] wanted: f64) {
    close(sound(KILN).value(name, unit), wanted, 1e-5);
}

#[rstest]
#[case(Scope::Axle, 0, "axle.weight", LB, 4568.333_333 / 2.0)]
#[case(Scope::Axle, 1, "axle.rating_used", Unit::Percent, 4568.333_333 / 70.0)]
#[case(Scope::VehicleAxle, 0, "vehicle_axle.hitched_weight", LB, 3150.0 - 581.666_667 * 50.0 / 145.0)]
#[case(Scope::VehicleAxle, 1, "vehicle_axle.hitched_weight", LB, 2550.0 + 581.666_667 * 195.0 / 145.0)]
#[case(Scope::VehicleAxle, 1, "vehicle_axle.rating_used", Unit::Percent, (2550.0 + 581.666_667 * 195.0 / 145.0) / 41.0)]
#[case(Scope::Tyre, 0, "tyre.load", LB, 4568.333_333 / 4.0)]
#[case(Scope::Tyre, 0, "tyre.load_used", Unit::Percent, 4568.333_333 / 4.0 / 18.2)]
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
        -581.666_667 * 50.0 / 145.0 / 800.0,
        581.666_667 * 195.0 / 145.0 / 400.0,
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
        581.666_667,
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
        581.666_667 * 141.0 / 145.0,
        1e-5,
    );
    close(
        rig.value_of(
            item(Scope::VehicleAxle, 0),
            "vehicle_axle.hitched_weight",
            LB,
        ),
        3150.0 + 581.666_667 * 4.0 / 145.0,
        1e-5,
    );
    assert_eq!(rig.say("tow_vehicle.hitch.moved_to_trailer"), "0 lb");
    close(
        rig.value_of(item(Scope::Axle, 0), "axle.weight", LB),
        4568.333_333 / 2.0,
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
    close(f, 3150.0 - 581.666_667 * 50.0 / 145.0 + to_front, 1e-5);
    close(f + r, rig.value("tow_vehicle.hitched_weight", LB), 1e-6);
    close(
        rig.value_of(item(Scope::Axle, 0), "axle.weight", LB),
        (4568.333_333 + 60.0) / 2.0,
        1e-5,
    );
    // The law's figure, before the bars.
    close(rig.value("trailer.axle_weight", LB), 4568.333_333, 1e-5);
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
