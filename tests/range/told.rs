//! How ranges, requirements and margins are told.

use crate::support::{DEMO, item, names, range, run};
use rstest::rstest;
use serde_json::Value;

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
    let json = run(&args, rig, 1);
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
    let rig = "rig: 1\nuse: business\ninterstate: yes\ntow_vehicle: {kind: pickup, gvwr: 11,000 lb}\ntrailer: {kind: boat, coupling: ball, width: 2.4 m, tyres: [{tread_depth: 0.2 in}]}\nload: []\n";
    let args = [
        "strictest",
        "-",
        "--in",
        "US-PA",
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

/// A turn is told rounded to the safe side: a mend as what is enough (2/32 in of tread, 49 CFR 393.75(c)),
/// a breach as what still keeps the rule.
#[rstest]
#[case("0.05 in", "more", "mends", "0.013 in", "0.063 in")]
#[case("0.1 in", "less", "breaks", "0.037 in", "0.063 in")]
fn a_margin_is_rounded_to_the_safe_side(
    #[case] tread: &str,
    #[case] direction: &str,
    #[case] what: &str,
    #[case] gap: &str,
    #[case] turn: &str,
) {
    let rig = format!(
        "rig: 1\nuse: business\ninterstate: yes\ntow_vehicle: {{kind: pickup, gvwr: 11,000 lb}}\ntrailer: {{kind: flatbed, coupling: ball, tyres: [{{tread_depth: {tread}}}]}}\nload: []\n"
    );
    let args = [
        "check",
        "-",
        "--in",
        "US-NE",
        "--no-practice",
        "--format",
        "json",
    ];
    let code = i32::from(what == "mends");
    let report: Value = serde_json::from_str(&run(&args, &rig, code)).expect("JSON");
    let margins = report["margins"].as_array().expect("a list").iter();
    let mut of =
        margins.filter(|m| m["fact"] == "tyre.1.tread_depth" && m["direction"] == direction);
    let margin = of.next().expect("a margin of the tread");
    assert!(names(&margin[what], "tyre-tread"), "{margin:#}");
    assert_eq!(
        (&margin["gap"], &margin["turn"]),
        (&gap.into(), &turn.into())
    );
}
