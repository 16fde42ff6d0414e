//! Ranges against published rules, solved backward.

use crate::support::{item, names, only, range};
use rstest::rstest;
use serde_json::Value;

/// 49 CFR 393.110(b): one tie-down for an article of 5 ft or less that weighs 1,100 lb or less; two
/// for one that is heavier, or longer than 5 ft and no longer than 10 ft; and one more for every
/// 10 ft, or part of 10 ft, beyond that.
#[rstest]
#[case("5 ft", "1,100 lb", None)]
#[case("5 ft", "1,100.1 lb", Some("2"))]
#[case("5.01 ft", "200 lb", Some("2"))]
#[case("10 ft", "4,000 lb", Some("2"))]
#[case("10 ft 1 in", "4,000 lb", Some("3"))]
#[case("20 ft", "4,000 lb", Some("3"))]
#[case("20.01 ft", "4,000 lb", Some("4"))]
#[case("40 ft", "4,000 lb", Some("5"))]
#[case("500 ft", "4,000 lb", Some("51"))]
fn tie_downs_by_length(#[case] length: &str, #[case] weight: &str, #[case] least: Option<&str>) {
    let rig = item(length, weight, "secured: yes");
    let found = range(&rig, "load.box.tie_down_count", &["--no-practice"], 0);
    // Further straps raise no question of their own where their limits are not known.
    let bands = found["allowed"].as_array().expect("a list").iter();
    let all: Vec<&Value> = bands
        .chain(found["unknown"].as_array().expect("a list"))
        .collect();
    let first = all.iter().find_map(|b| b["from"].as_str());
    match least {
        // One is needed, and the least that leaves no rule broken.
        None => assert!(
            all.iter().any(|b| b["to"] == "1" || b["from"] == "1"),
            "{found:#}"
        ),
        Some(_) => assert_eq!(first, least, "{found:#}"),
    }
}

/// The same read the other way: with three tie-downs an article may be 20 ft long.
#[test]
fn length_by_tie_downs() {
    let rig = item("12 ft", "4,000 lb", "secured: yes, tie_down_count: 3");
    let found = range(&rig, "load.box.length", &["--no-practice"], 0);
    let bands = found["allowed"].as_array().expect("a list").iter();
    let last = bands
        .chain(found["unknown"].as_array().expect("a list"))
        .last()
        .expect("a band");
    assert_eq!(
        (&last["to"], &last["to_included"]),
        (&"20 ft".into(), &true.into()),
        "{found:#}"
    );
    assert_eq!(found["resolution"], Value::Null, "{found:#}");
}

/// 49 CFR 393.106(d): the limits add up to half the weight at least; a tie-down counts whole when it
/// goes over to the other side, and for half when it comes back to the same side.
#[rstest]
#[case("over", "2,500 lb")]
#[case("same-side", "5,000 lb")]
fn working_load_limit_by_weight(#[case] path: &str, #[case] least: &str) {
    let straps = format!("tie_downs: [{{count: 2, path: {path}, marked: yes}}]");
    let rig = item("9 ft", "10,000 lb", &straps);
    let fact = "load.box.tie_down.1.working_load_limit";
    let found = range(&rig, fact, &["--no-practice"], 0);
    let (from, to, below, above) = only(&found);
    assert_eq!((from, to), (Some(least), None), "{found:#}");
    assert!(names(below, "aggregate-working-load-limit"), "{found:#}");
    assert_eq!(above, &Value::Array(Vec::new()));
}

/// Moments about the axles: T = T₀ + w (1 − x / L). With T₀ = 150 lb, w = 2,000 lb, L = 12 ft and a
/// gross weight of 3,000 lb, 10 to 15 percent on the tongue are 300 lb to 450 lb, so that
/// x = 12 ft × (1 − 300 / 2,000) = 10.2 ft down to 12 ft × (1 − 150 / 2,000) = 11.1 ft.
#[test]
fn where_to_put_the_load() {
    let rig = "rig: 1
use: private
interstate: no
tow_vehicle:
  kind: pickup
  curb_weight: 5,000 lb
  people_weight: 200 lb
  gear_weight: 0 lb
  gvwr: 7,000 lb
  gcwr: 14,000 lb
  payload: 2,000 lb
  axles: [{weight: 2,600 lb, rating: 4,000 lb}, {weight: 2,600 lb, rating: 4,500 lb}]
  wheelbase: 12 ft
  hitch: {tongue_rating: 1,000 lb, mount_tongue_rating: 1,000 lb, overhang: 4 ft, weight_distributing: no}
trailer:
  kind: flatbed
  coupling: ball
  empty_weight: 1,000 lb
  empty_tongue_weight: 150 lb
  gvwr: 7,000 lb
  coupler_to_axles: 12 ft
  axles: [{rating: 3,500 lb, braked: yes}, {rating: 3,500 lb, braked: yes}]
  equalised_axles: yes
loading: {positions_from: coupler}
load: [{name: kiln, kind: general, weight: 2,000 lb, position: 10.5 ft, length: 4 ft}]
";
    let found = range(rig, "load.kiln.position", &[], 0);
    let bands = found["allowed"].as_array().expect("a list").iter();
    let all: Vec<&Value> = bands
        .chain(found["unknown"].as_array().expect("a list"))
        .collect();
    let ends = |key: &str| -> Vec<&str> { all.iter().filter_map(|b| b[key].as_str()).collect() };
    assert!(
        ends("from").contains(&"10.2 ft") && ends("to").contains(&"11.1 ft"),
        "{found:#}"
    );
    assert_eq!(found["resolution"], Value::Null, "{found:#}");
    let rules = found["rules"].as_object().expect("rules");
    assert!(
        rules
            .keys()
            .any(|r| r.ends_with("tongue-at-least-10-percent")),
        "{found:#}"
    );
}

/// Neb. Rev. Stat. § 60-6,246(2): from 3,000 lb a boat trailer has brakes on two wheels at least,
/// from 6,500 lb on all.
#[test]
fn a_range_for_programs_has_its_keys_and_ends() {
    let rig = "rig: 1\nuse: private\ninterstate: no\ntow_vehicle: {kind: car}\ntrailer: {kind: boat, coupling: ball, axles: [{braked: no}]}\nload: []\n";
    let found = range(rig, "trailer.gross_weight", &["--no-practice"], 0);
    let keys: Vec<&String> = found.as_object().expect("an object").keys().collect();
    assert_eq!(&keys[..4], &["range", "fact", "allowed", "unknown"]);
    assert_eq!(found["range"], 1);
    assert_eq!(found["fact"], "trailer.gross_weight");
    let (from, to, below, above) = only(&found);
    assert_eq!((from, to), (None, Some("3,000 lb")));
    assert_eq!(found["allowed"][0]["to_included"], false);
    assert_eq!(below, &Value::Array(Vec::new()));
    assert!(
        names(above, "us-ne/brakes-recreational-two-wheels"),
        "{found:#}"
    );
    // In kilograms the end is rounded inward, and then belongs to what is allowed.
    let metric = rig.replace("kind: boat", "kind: boat, empty_weight: 900 kg");
    let found = range(&metric, "trailer.gross_weight", &["--no-practice"], 0);
    assert_eq!(only(&found).1, Some("1,360.7 kg"));
    assert_eq!(found["allowed"][0]["to_included"], true);
}
