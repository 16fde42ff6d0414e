//! Ranges solved backward from published rules, and what `range`, `strictest` and the margins of
//! `check` tell of them.

use assert_cmd::Command;
use rstest::rstest;
use serde_json::Value;

const DEMO: &str = "tests/rigs/kiln-trailer.yaml";

fn run(args: &[&str], rig: &str, code: i32) -> String {
    let mut command = Command::cargo_bin("pintle").expect("the program is built");
    let out = command
        .args(args)
        .write_stdin(rig)
        .output()
        .expect("it runs");
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    let complaints = String::from_utf8_lossy(&out.stderr);
    assert_eq!(
        out.status.code(),
        Some(code),
        "{args:?}\n{text}\n{complaints}"
    );
    format!("{text}{complaints}")
}

fn range(rig: &str, fact: &str, more: &[&str], code: i32) -> Value {
    let mut args = vec!["range", "-", fact, "--in", "US-NE", "--on", "2026-12-01"];
    args.extend(["--format", "json"]);
    args.extend(more);
    serde_json::from_str(&run(&args, rig, code)).expect("JSON")
}

/// The ends of the only band that is allowed, each with the rules that stop there.
fn only(range: &Value) -> (Option<&str>, Option<&str>, &Value, &Value) {
    let allowed = range["allowed"].as_array().expect("a list");
    assert_eq!(allowed.len(), 1, "{range:#}");
    let band = &allowed[0];
    (
        band["from"].as_str(),
        band["to"].as_str(),
        &band["below"],
        &band["above"],
    )
}

fn names(rules: &Value, id: &str) -> bool {
    let rules = rules.as_array().expect("a list");
    rules
        .iter()
        .any(|r| r.as_str().is_some_and(|r| r.ends_with(id)))
}

/// An item on a commercial trailer; everything that other rules on its tie-downs ask for is said.
fn item(length: &str, weight: &str, more: &str) -> String {
    format!(
        "rig: 1
use: business
interstate: yes
tow_vehicle: {{kind: pickup, gvwr: 10,001 lb}}
trailer: {{kind: flatbed, coupling: ball}}
load:
  - {{name: box, kind: general, length: {length}, weight: {weight}, blocked_forward: no, contained: no, {more}}}
"
    )
}

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

/// The demo rig breaks rules that its speed has no part in: they are told apart, and the range
/// without them beside.
#[test]
fn rules_that_are_broken_anyway_are_told_apart() {
    let text = run(&["range", DEMO, "trip.speed", "--no-practice"], "", 1);
    assert!(
        text.contains("BROKEN, WHATEVER THIS IS") && text.contains("NO OTHER RULE IS BROKEN"),
        "{text}"
    );
    assert!(text.contains("49 CFR 393.87"), "{text}");
    let json = run(
        &[
            "range",
            DEMO,
            "trip.speed",
            "--no-practice",
            "--format",
            "json",
        ],
        "",
        1,
    );
    let found: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(found["allowed"], Value::Array(Vec::new()));
    assert!(names(&found["broken_anyway"], "us-ne/overhang-flag"));
    assert_eq!(
        found["conflict"].as_array().map(Vec::len),
        Some(1),
        "the smallest set is one rule"
    );
    assert!(
        !found["allowed_apart_from_these"]
            .as_array()
            .expect("a list")
            .is_empty()
    );
}

/// Choices, yes/no and years have ranges too.
#[rstest]
#[case("trailer.coupling", "trailer.coupling")]
#[case("trailer.breakaway.fitted", "trailer.breakaway.fitted")]
#[case("trailer.model_year", "trailer.model_year")]
#[case("axle.2.braked", "axle.2.braked")]
#[case("load.stall boards.position", "load.stall-boards.position")]
#[case("load.kiln.tie_down.1.count", "load.kiln.tie_down.1.count")]
#[case("tyre.pressure", "tyre.1.pressure")]
fn every_kind_of_fact_has_a_range(#[case] asked: &str, #[case] told: &str) {
    let json = run(&["range", DEMO, asked, "--format", "json"], "", 1);
    let found: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!(found["fact"], told);
    let apart = found["allowed_apart_from_these"]
        .as_array()
        .expect("a list");
    let unknown = json.contains("\"unknown\": [\n");
    assert!(
        !apart.is_empty()
            || unknown
            || !found["broken_anyway"]
                .as_array()
                .expect("a list")
                .is_empty()
    );
}

#[rstest]
#[case("trailer.gros_weight", "did you mean `trailer.gross_weight`")]
#[case("trailer.weight_to_vehicle_weight", "worked out from")]
#[case("trailer.lamps", "set of any of")]
#[case("load.name", "more than one load item")]
#[case("tyre.date_code", "text")]
#[case("trip.on", "--on")]
fn what_has_no_range_says_why(#[case] fact: &str, #[case] why: &str) {
    let text = run(&["range", DEMO, fact], "", 2);
    let words: Vec<&str> = text.split_whitespace().collect();
    let text = words.join(" ").replace("│ ", "");
    assert!(text.contains(why), "{text}");
}

/// Nebraska asks 200 ft of view behind, and so on: for each region the bound, and the strictest kept.
#[test]
fn the_strictest_of_a_route_says_where_each_requirement_comes_from() {
    let args = [
        "strictest",
        DEMO,
        "--in",
        "US-NE,US-CO",
        "--no-practice",
        "--format",
        "json",
    ];
    let found: Value = serde_json::from_str(&run(&args, "", 0)).expect("JSON");
    let of = |fact: &str| -> &Value {
        let all = found["requirements"].as_array().expect("a list").iter();
        all.clone()
            .find(|r| r["fact"] == fact)
            .unwrap_or(&Value::Null)
    };
    // Neb. Rev. Stat. § 60-6,290: 65 ft; C.R.S. § 42-4-504(4): 70 ft.
    let length = of("combination.length");
    assert_eq!(length["at_most"]["value"], "65 ft", "{found:#}");
    assert_eq!(
        length["at_most"]["rules"],
        serde_json::json!(["us-ne/length-combination"])
    );
    assert_eq!(
        found["rules"]["us-ne/length-combination"]["regions"],
        serde_json::json!(["US-NE"])
    );
    let text = run(
        &["strictest", DEMO, "--in", "US-NE,US-CO", "--no-practice"],
        "",
        0,
    );
    assert!(
        text.contains("at most 65 ft") && text.contains("§ 60-6,290"),
        "{text}"
    );
    assert!(
        !text.contains("at most 70 ft"),
        "the laxer bound is not told"
    );
}

/// Margins stand behind the authorities in a report, the nearest first, and in words for people.
#[test]
fn a_check_tells_its_margins() {
    let json = run(&["check", DEMO, "--no-practice", "--format", "json"], "", 1);
    let report: Value = serde_json::from_str(&json).expect("JSON");
    let keys: Vec<&String> = report.as_object().expect("an object").keys().collect();
    let at = |key: &str| keys.iter().position(|k| *k == key);
    assert!(at("margins") > at("authorities") && at("authorities") > at("not_covered"));
    let margins = report["margins"].as_array().expect("a list");
    // Neb. Rev. Stat. § 60-6,288: 8 ft 6 in; the trailer is 8 ft wide.
    let width = margins
        .iter()
        .find(|m| m["fact"] == "trailer.width" && m["direction"] == "more");
    let width = width.expect("a margin of width");
    assert_eq!(
        (&width["gap"], &width["turn"], &width["at_turn"]),
        (&"0.5 ft".into(), &"8.5 ft".into(), &false.into())
    );
    assert!(names(&width["breaks"], "us-ne/width"), "{width:#}");
    let text = run(&["check", DEMO, "--no-practice"], "", 1);
    assert!(
        text.contains("MARGINS, WHAT MENDS FIRST") && text.contains("flag size: 2 in more"),
        "{text}"
    );
    let few = text.matches("then ").count();
    let all = run(&["check", DEMO, "--no-practice", "--all"], "", 1);
    assert!(
        all.contains("MARGINS, THE NEAREST FIRST") && all.contains("0.5 ft more"),
        "{all}"
    );
    assert!(all.matches("then ").count() > few);
}

/// What is worked out from the rig says so, and what is open tells what stops it.
#[test]
fn a_range_of_what_is_worked_out_says_so() {
    let rig = item("9 ft", "6,000 lb", "secured: yes")
        .replace("coupling: ball", "coupling: ball, empty_weight: 1,000 lb");
    let found = range(&rig, "trailer.gross_weight", &["--no-practice"], 0);
    let working = found["worked_out"].as_str().expect("a working");
    assert!(working.contains("empty 1,000 lb"), "{working}");
    let found = range(&rig, "load.box.weight", &["--no-practice"], 0);
    assert_eq!(found["worked_out"], Value::Null);
}

/// 75 Pa.C.S. § 4904(a): one trailer only; a second one that is described is there.
#[test]
fn a_second_trailer_is_there_when_something_is_said_of_it() {
    let rig = "rig: 1\nuse: private\ninterstate: no\ntow_vehicle: {kind: suv}\ntrailer: {kind: utility, coupling: ball}\nload: []\n";
    let args = [
        "range",
        "-",
        "second_trailer.kind",
        "--in",
        "US-PA",
        "--no-practice",
        "--format",
        "json",
    ];
    let json = run(&args, rig, 0);
    let found: Value = serde_json::from_str(&json).expect("JSON");
    let of = |key: &str| -> Vec<&str> {
        let bands = found[key].as_array().expect("a list").iter();
        bands.filter_map(|b| b["from"].as_str()).collect()
    };
    assert!(
        !of("allowed").contains(&"utility") && !of("unknown").contains(&"utility"),
        "{found:#}"
    );
}

/// A bound that has to be rounded is rounded to the side that keeps the rule: 2/32 in of tread (49 CFR
/// 393.75(c)) up, 102 in of width (here in metres) down.
#[test]
fn the_strictest_is_rounded_to_the_safe_side() {
    let rig = "rig: 1\nuse: business\ninterstate: yes\ntow_vehicle: {kind: pickup, gvwr: 11,000 lb}\ntrailer: {kind: flatbed, coupling: ball, width: 2.4 m, tyres: [{tread_depth: 0.2 in}]}\nload: []\n";
    let args = [
        "strictest",
        "-",
        "--in",
        "US-NE",
        "--no-practice",
        "--format",
        "json",
    ];
    let found: Value = serde_json::from_str(&run(&args, rig, 0)).expect("JSON");
    let all = found["requirements"].as_array().expect("a list");
    let of = |name: &str| {
        all.iter()
            .find(|r| r["fact"] == name)
            .unwrap_or_else(|| panic!("{name} in {found:#}"))
    };
    assert_eq!(of("tyre.1.tread_depth")["at_least"]["value"], "0.063 in");
    assert_eq!(of("trailer.width")["at_most"]["value"], "2.59 m");
}
