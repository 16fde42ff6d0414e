//! Worked examples as their sources publish them. Each tolerance is what the source's rounding
//! allows; where a source errs, the test says so.

use crate::support::{Rig, amount, close, item, middle, sound};
use pintle::facts::Scope;
use pintle::mechanics::formulas::stop_deceleration;
use pintle::quantity::Unit;
use rstest::rstest;

const LB: Unit = Unit::Pound;
const KG: Unit = Unit::Kilogram;

fn lever(tongue: &str, overhang: &str, wheelbase: &str) -> Rig {
    sound(&format!(
        "tow_vehicle: {{wheelbase: {wheelbase}, hitch: {{overhang: {overhang}, weight_distributing: no}}}}\n\
         trailer: {{tongue_weight: {tongue}}}"
    ))
}

/// SAAIA (South African association), "Towing a caravan or trailer with your 4x4": 180 kg on a
/// ball 1.2 m behind the rear axle of a vehicle with a wheelbase of 2.9 m. Printed: 74.48 kg by
/// leverage and 254 kg on the rear axle (254.48, cut off).
#[test]
fn lever_on_a_four_by_four() {
    let rig = lever("180 kg", "1.2 m", "2.9 m");
    close(rig.value("tow_vehicle.front_axle_relief", KG), 74.48, 0.005);
    close(rig.value("tow_vehicle.rear_axle_gain", KG), 254.48, 0.005);
    close(
        rig.value("tow_vehicle.rear_axle_gain", KG).floor(),
        254.0,
        0.0,
    );
}

/// What's Up Down Under, "Towball leverage explained": measured, rear axle 1,233 kg before and
/// 1,650 kg after hitching 270 kg, 147 kg of it from the front. Overhang and wheelbase are not
/// printed; their ratio 0.5444 (147 / 270) must give the readings back.
#[test]
fn measured_axles() {
    let rig = sound(
        "tow_vehicle:\n  wheelbase: 10000 mm\n  gvwr: 3000 kg\n  axles: [{weight: 1100 kg}, {weight: 1233 kg}]\n  \
         hitch: {overhang: 5444 mm, weight_distributing: no}\ntrailer: {tongue_weight: 270 kg}",
    );
    close(rig.value("tow_vehicle.front_axle_relief", KG), 147.0, 0.5);
    close(
        rig.value_of(
            item(Scope::VehicleAxle, 1),
            "vehicle_axle.hitched_weight",
            KG,
        ),
        1650.0,
        0.5,
    );
    close(
        rig.value_of(
            item(Scope::VehicleAxle, 0),
            "vehicle_axle.hitched_weight",
            KG,
        ),
        953.0,
        0.5,
    );
}

/// 4WDing Australia, "Tow ball weight; leverage is scary": in a dual cab one and a half times the
/// ball weight reaches the rear axle; 300 kg puts "nearly" 450 kg there and takes 150 kg off the
/// front. A rule of thumb: an overhang of half the wheelbase.
#[test]
fn rule_of_thumb_for_dual_cabs() {
    let rig = lever("300 kg", "1.5 m", "3 m");
    close(rig.value("tow_vehicle.rear_axle_gain", KG), 450.0, 0.0);
    close(rig.value("tow_vehicle.front_axle_relief", KG), 150.0, 0.0);
}

/// Trade press report of a trailer makers' convention talk: ball to suspension 100 in, load centre
/// 88 in behind the ball, 800 lb empty with 80 lb on the tongue, 2,500 lb gross. Printed: 284 lb,
/// which is right, and a share of 11.86 percent, which is a slip: 284 of 2,500 is 11.36 percent.
#[test]
fn tongue_weight_from_the_layout() {
    let rig = sound(
        "trailer: {empty_weight: 800 lb, empty_tongue_weight: 80 lb, coupler_to_axles: 100 in}\n\
         loading: {positions_from: coupler}\nload: [{name: load, weight: 1700 lb, position: 88 in}]",
    );
    assert_eq!(rig.say("trailer.tongue_weight"), "284 lb");
    let share = rig.value("trailer.tongue_share", Unit::Percent);
    close(share, 11.36, 0.0001);
    assert!((share - 11.86).abs() > 0.4, "the printed share is a slip");
    assert_eq!(
        rig.working("trailer.tongue_weight"),
        "empty 80 lb + load 1,700 lb × (100 in − 88 in) ÷ 100 in (204 lb) = 284 lb"
    );
}

/// A trailer whose whole weight lies at one place behind the ball.
fn whole_weight_at(weight: &str, at: &str, axles: &str) -> Rig {
    sound(&format!(
        "trailer: {{empty_weight: 0 lb, empty_tongue_weight: 0 lb, coupler_to_axles: {axles}}}\n\
         loading: {{positions_from: coupler}}\nload: [{{weight: {weight}, position: {at}}}]"
    ))
}

/// Humphrey's (trailer parts dealer), "How to determine correct axle position": ball to axle 264
/// in. 1,025 lb on the tongue and 7,200 lb on the wheels: forward by 6.5 in for 10 percent. 300 lb
/// and 8,200 lb: back by 17 in. The shop rule is a first-order one; by statics the centre of
/// gravity stays where it is and the axle has to move by about a tenth more (7.22 in, 18.98 in).
#[rstest]
#[case::heavy_tongue("8225 lb", 1025.0, 7200.0, -6.4997, -7.2219)]
#[case::light_tongue("8500 lb", 300.0, 8200.0, 17.082, 18.980)]
fn axle_moved_for_a_tenth_on_the_tongue(
    #[case] total: &str,
    #[case] tongue: f64,
    #[case] wheels: f64,
    #[case] rule: f64,
    #[case] exact: f64,
) {
    let centre = 264.0 * wheels / (tongue + wheels);
    let at = format!("{centre:.9} in");
    let before = whole_weight_at(total, &at, "264 in");
    close(before.value("trailer.tongue_weight", LB), tongue, 1e-3);
    close(before.value("trailer.axle_weight", LB), wheels, 1e-3);
    let share = |moved: f64| {
        let axles = format!("{:.9} in", 264.0 + moved);
        whole_weight_at(total, &at, &axles).value("trailer.tongue_share", Unit::Percent)
    };
    close(share(exact), 10.0, 0.001);
    // The rule lands within half a percent of the load, on the side of the old place.
    let by_rule = share(rule);
    close(by_rule, 10.0, 0.7);
    assert!((by_rule - 10.0) * (before.value("trailer.tongue_share", Unit::Percent) - 10.0) > 0.0);
    // The rule itself: (share - 10%) of the distance.
    close((0.1 - tongue / (tongue + wheels)) * 264.0, rule, 0.001);
}

/// Unsinn (trailer maker), "Axle load of a trailer": 200 kg empty, 20 kg on the coupling, 180 kg on
/// the wheels, 90 kg on each of two (equalised) axles.
#[test]
fn axle_share() {
    let rig = sound(
        "trailer: {empty_weight: 200 kg, tongue_weight: 20 kg, equalised_axles: yes, axles: [{}, {}]}\n\
         tow_vehicle: {hitch: {weight_distributing: no}}\nload: []",
    );
    assert_eq!(rig.say("trailer.axle_weight"), "180 kg");
    assert_eq!(rig.say_of(item(Scope::Axle, 0), "axle.weight"), "90 kg");
    assert_eq!(rig.say_of(item(Scope::Axle, 1), "axle.weight"), "90 kg");
}

/// A truck maker's film (14,000 lb at 10% is 1,400 lb; 10,000 lb fifth wheel at 15% is 1,500 lb)
/// and a trailer maker's manual (12,000 lb gooseneck at 20 to 25% is 2,400 to 3,000 lb).
#[rstest]
#[case("14000 lb", "1400 lb", "10%")]
#[case("10000 lb", "1500 lb", "15%")]
#[case("12000 lb", "2400 lb", "20%")]
#[case("12000 lb", "3000 lb", "25%")]
#[case("12000 lb", "2400 lb to 3000 lb", "20% to 25%")]
fn shares_of_the_gross_weight(#[case] gross: &str, #[case] tongue: &str, #[case] share: &str) {
    let rig = sound(&format!(
        "trailer: {{gross_weight: {gross}, tongue_weight: {tongue}}}"
    ));
    assert_eq!(rig.say("trailer.tongue_share"), share);
}

/// New Jersey Statutes 39:3-68, from 20 mph: 30 ft or 14 ft/s², 45 ft or 9.5 ft/s². The pairs agree
/// within a foot (30.7 and 45.3 ft).
#[rstest]
#[case("30", 14.0)]
#[case("45", 9.5)]
fn new_jersey_stops(#[case] feet: &str, #[case] deceleration: f64) {
    let at = |feet: &str| middle(stop_deceleration(amount(feet, Unit::Foot)), Unit::Foot);
    let next = (feet.parse::<f64>().expect(feet) + 1.0).to_string();
    assert!(at(feet) >= deceleration && deceleration >= at(&next));
}

/// Code of Virginia 46.2-1067: 25 ft and 40 ft from 20 mph, which are 17.21 and 10.76 ft/s² on
/// the whole way. 49 CFR 393.52: 14 ft/s² go with a braking force of 43.5 percent.
#[rstest]
#[case("25 ft", 17.21, 53.5)]
#[case("40 ft", 10.76, 33.4)]
#[case("30.7302 ft", 14.0, 43.5)]
fn stops_from_twenty(#[case] distance: &str, #[case] feet: f64, #[case] percent: f64) {
    let rig = sound(&format!("combination: {{stops_from_20_mph: {distance}}}"));
    close(
        rig.value("combination.braking_force", Unit::Percent),
        percent,
        0.05,
    );
    let gravity = 9.80665 / 0.3048;
    let slowing = rig.value("combination.braking_force", Unit::One) * gravity;
    close(slowing, feet, 0.005);
}

/// Trailer parts dealer's summary of the 2007 surge brake rule: a 6,000 lb vehicle tows up to
/// 10,500 lb (1.75), a 15,000 lb one 18,750 lb (1.25), 11,500 lb needs 6,572 lb (6,571.43, up).
#[rstest]
#[case("6000 lb", "10500 lb", 175.0, 0.0)]
#[case("15000 lb", "18750 lb", 125.0, 0.0)]
#[case("6572 lb", "11500 lb", 175.0, 0.02)]
fn surge_brake_ratios(
    #[case] vehicle: &str,
    #[case] trailer: &str,
    #[case] percent: f64,
    #[case] within: f64,
) {
    let rig = sound(&format!(
        "tow_vehicle: {{gvwr: {vehicle}}}\ntrailer: {{gvwr: {trailer}}}"
    ));
    let share = rig.value("trailer.gvwr_to_vehicle_gvwr", Unit::Percent);
    close(share, percent, within);
    assert!(share <= percent);
}
