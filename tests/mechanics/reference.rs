//! The statics as general libraries solve them: `tests/data/mechanics_reference.json`, made by the
//! script beside it, which names the libraries and their versions.

use crate::support::{close, in_unit, item, sound};
use pintle::facts::Scope;
use pintle::quantity::Unit;
use serde_json::Value;
use std::sync::LazyLock;

const LB: Unit = Unit::Pound;

static REFERENCE: LazyLock<Value> = LazyLock::new(|| {
    serde_json::from_str(include_str!("../data/mechanics_reference.json")).expect("the reference")
});

fn cases(name: &str) -> &'static Vec<Value> {
    let list = REFERENCE[name].as_array().expect(name);
    assert!(list.len() >= 10, "{name}");
    list
}

fn number(case: &Value, key: &str) -> f64 {
    case[key].as_f64().expect(key)
}

fn numbers(case: &Value, key: &str) -> Vec<f64> {
    let list = case[key].as_array().expect(key);
    list.iter().map(|v| v.as_f64().expect(key)).collect()
}

/// A fraction such as `8323/18` in pounds, as grams of a millionth, so that nothing is rounded much.
fn fraction(text: &str) -> String {
    let (num, den) = text.split_once('/').unwrap_or((text, "1"));
    let value: f64 = num.parse::<f64>().expect(text) / den.parse::<f64>().expect(text);
    format!("{value:.9} lb")
}

/// SymPy's beam on ball and axle: reactions of the loaded trailer.
#[test]
fn trailers() {
    for case in cases("trailers") {
        let items: Vec<String> = case["items"]
            .as_array()
            .expect("items")
            .iter()
            .map(|i| format!("{{weight: {} lb, position: {} in}}", i[0], i[1]))
            .collect();
        let rig = sound(&format!(
            "trailer: {{empty_weight: {} lb, empty_tongue_weight: {}, coupler_to_axles: {} in}}\nloading: {{positions_from: coupler}}\nload: [{}]",
            case["empty"],
            fraction(case["empty_tongue"].as_str().expect("a fraction")),
            case["to_axles"],
            items.join(", ")
        ));
        let tongue = number(case, "tongue");
        close(
            rig.value("trailer.tongue_weight", LB),
            tongue.max(0.0),
            1e-6,
        );
        close(
            rig.value("trailer.tongue_lift", LB),
            (-tongue).max(0.0),
            1e-6,
        );
        close(
            rig.value("trailer.axle_weight", LB),
            number(case, "axles"),
            1e-6,
        );
    }
}

/// anaStruct's stiff beam on a pin and equal springs; finite elements, to one part in 10,000.
#[test]
fn rigid_axles() {
    for case in cases("rigid_axles") {
        let positions = numbers(case, "positions");
        let axles: Vec<String> = positions
            .iter()
            .map(|p| format!("{{position: {p} in}}"))
            .collect();
        let rig = sound(&format!(
            "tow_vehicle: {{hitch: {{weight_distributing: no}}}}\n\
             trailer: {{empty_weight: 0 lb, empty_tongue_weight: 0 lb, equalised_axles: no, axles: [{}]}}\n\
             loading: {{positions_from: coupler}}\nload: [{{weight: {} lb, position: {} in}}]",
            axles.join(", "),
            case["weight"],
            case["at"],
        ));
        let weight = number(case, "weight");
        let lift = number(case, "tongue").min(0.0);
        if lift == 0.0 {
            close(
                rig.value("trailer.tongue_weight", LB),
                number(case, "tongue"),
                weight * 1e-4,
            );
        }
        for (index, wanted) in numbers(case, "axles").into_iter().enumerate() {
            close(
                rig.value_of(item(Scope::Axle, index), "axle.weight", LB),
                wanted,
                weight * 1e-4,
            );
        }
    }
}

/// SymPy's beam on two axles with the tongue behind or ahead of the rear one.
#[test]
fn vehicles() {
    for case in cases("vehicles") {
        let rig = sound(&format!(
            "tow_vehicle: {{wheelbase: {} in, hitch: {{overhang: {} in, weight_distributing: no}}, axles: [{{weight: {} lb}}, {{weight: {} lb}}]}}\n\
             trailer: {{tongue_weight: {} lb}}",
            case["wheelbase"], case["overhang"], case["front"], case["rear"], case["tongue"]
        ));
        for (index, key) in ["front_hitched", "rear_hitched"].into_iter().enumerate() {
            let axle = item(Scope::VehicleAxle, index);
            close(
                rig.value_of(axle, "vehicle_axle.hitched_weight", LB),
                number(case, key).max(0.0),
                1e-6,
            );
        }
    }
}

/// NumPy's solution of both bodies with the bars' moment between them; from either of the two
/// stated transfers the other follows.
#[test]
fn spring_bars() {
    for case in cases("spring_bars") {
        let (front, trailer) = (number(case, "to_front"), number(case, "to_trailer"));
        for (stated, other, wanted) in [
            (
                format!("moved_to_trailer: {trailer:.9} lb"),
                "tow_vehicle.hitch.moved_to_front",
                front,
            ),
            (
                format!("moved_to_front: {front:.9} lb"),
                "tow_vehicle.hitch.moved_to_trailer",
                trailer,
            ),
        ] {
            let rig = sound(&format!(
                "tow_vehicle: {{wheelbase: {} in, hitch: {{overhang: {} in, weight_distributing: yes, {stated}}}, axles: [{{weight: {} lb}}, {{weight: {} lb}}]}}\n\
                 trailer: {{tongue_weight: {:.9} lb, coupler_to_axles: {} in}}",
                case["wheelbase"],
                case["overhang"],
                case["front"],
                case["rear"],
                number(case, "tongue"),
                case["to_axles"]
            ));
            close(rig.value(other, LB), wanted, 1e-6);
            for (index, key) in ["front_hitched", "rear_hitched"].into_iter().enumerate() {
                let axle = item(Scope::VehicleAxle, index);
                close(
                    rig.value_of(axle, "vehicle_axle.hitched_weight", LB),
                    number(case, key),
                    1e-5,
                );
            }
        }
    }
}

/// SciPy's greatest acceleration that forces and friction stand, against the share held.
#[test]
fn sliding() {
    for case in cases("sliding") {
        let friction = number(case, "friction");
        let percent = (friction * 100.0).round();
        let over = case.get("tension").is_some();
        let tie_downs = if over {
            format!(
                "{{count: {}, path: over, angle: {} deg, pretension: {} N}}",
                case["count"], case["alpha"], case["tension"]
            )
        } else {
            // One to each side, so that nothing pulls sideways.
            let twice = number(case, "count") * 2.0;
            format!(
                "{{count: {twice}, path: direct, angle: {} deg, angle_from_travel: {} deg, holds_against: forward, lashing_capacity: {} N}}",
                case["alpha"], case["beta"], case["capacity"]
            )
        };
        let rig = sound(&format!(
            "load: [{{weight: {} kg, friction: {percent}%, tie_downs: [{tie_downs}]}}]",
            case["mass"]
        ));
        let holds = number(case, "holds");
        let load = item(Scope::Load, 0);
        let ways: &[(&str, f64, f64)] = if over {
            &[
                ("forward", 0.8, 1.25),
                ("rearward", 0.5, 1.1),
                ("sideways", 0.5, 1.1),
            ]
        } else {
            &[("forward", 0.8, 1.0)]
        };
        for (way, c, safety) in ways {
            let eased = if over { friction } else { 0.75 * friction };
            let wanted = (holds - eased) / ((c - eased) * safety);
            let name = format!("load.sliding_held.{way}");
            close(
                rig.value_of(load, &name, Unit::One),
                wanted,
                1e-6 * wanted.max(1.0),
            );
            if over {
                let count = rig.range_of(load, &format!("load.top_over_needed.{way}"));
                let needed = (number(case, "count") / wanted).ceil();
                assert_eq!(
                    count.is_exact().map(|n| in_unit(n, Unit::One)),
                    Some(needed)
                );
            }
        }
    }
}

/// The sideways moment balance about the tipping edge, from the forces' cross products.
#[test]
fn tipping() {
    let mut by_tie_downs = 0;
    for case in cases("tipping") {
        let (width, height) = (number(case, "width"), number(case, "height"));
        let rig = sound(&format!(
            "load: [{{weight: {} kg, width: {width:.9} m, centre_height: {height:.9} m, centre_in_middle: yes, \
             tie_downs: [{{count: {}, path: over, angle: {} deg, pretension: {} N}}]}}]",
            case["mass"], case["count"], case["alpha"], case["tension"]
        ));
        let held = rig.range_of(item(Scope::Load, 0), "load.tipping_held.sideways");
        let need = 0.6 * height - width / 2.0;
        if need <= 0.0 {
            assert_eq!(
                held,
                pintle::quantity::Interval::starting_at(pintle::quantity::Exact::ONE)
            );
            continue;
        }
        by_tie_downs += 1;
        let wanted = (number(case, "holds") * height - width / 2.0) / (need * 1.1);
        let found = in_unit(held.lo.expect("a low end"), Unit::One);
        close(found, wanted, 1e-6 * wanted.max(1.0));
    }
    assert!(by_tie_downs >= 5);
}
