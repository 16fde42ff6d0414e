//! What people and programs see: snapshots, width, colours, safe characters, the JSON document.

use assert_cmd::Command;
use rstest::rstest;
use serde_json::Value;
use std::fs;

const RIG: &str = "tests/rigs/kiln-trailer.yaml";
const ROUTE: [&str; 7] = [
    "--rules",
    "tests/packs",
    "--only-rules",
    "--in",
    "Nebraska",
    "--in",
    "Colorado",
];

fn command(args: &[&str]) -> Command {
    let mut command = Command::cargo_bin("pintle").expect("the program is built");
    command.args(args).env_remove("NO_COLOR");
    command
}

fn out(args: &[&str]) -> String {
    let output = command(args).output().expect("it runs");
    assert_ne!(
        output.status.code(),
        Some(2),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn on_route<'a>(args: &[&'a str]) -> Vec<&'a str> {
    args.iter().copied().chain(ROUTE).collect()
}

fn document(args: &[&str]) -> Value {
    serde_json::from_str(&out(args)).expect("JSON")
}

/// The report for people of the demo rig, under rules made up for the tests.
#[test]
fn text_report() {
    insta::assert_snapshot!(out(&on_route(&["check", RIG])));
}

#[test]
fn text_report_in_full() {
    insta::assert_snapshot!(out(&on_route(&["check", RIG, "--all"])));
}

#[test]
fn explanation() {
    insta::assert_snapshot!(out(&on_route(&["explain", "overhang-flag", RIG])));
}

#[test]
fn explanation_of_a_rule_with_an_exemption() {
    insta::assert_snapshot!(out(&on_route(&["explain", "brakes-recreational"])));
}

#[test]
fn only_addresses_are_longer_than_the_line() {
    let text = out(&on_route(&["check", RIG, "--all"]));
    let long: Vec<&str> = text
        .lines()
        .filter(|l| l.chars().count() > 80 && !l.trim_start().starts_with("https://"))
        .collect();
    assert!(long.is_empty(), "{long:#?}");
}

/// With the built-in packs the demo rig shows what there is to show.
#[test]
fn the_demo_rig_shows_every_kind_of_finding() {
    let report = document(&["check", RIG, "--format", "json"]);
    let outcomes: Vec<&str> = report["findings"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|f| f["outcome"].as_str())
        .collect();
    for outcome in ["not-met", "unknown", "confirm", "met"] {
        assert!(outcomes.contains(&outcome), "{outcome} in {outcomes:?}");
    }
    assert!(report["regions"].as_array().is_some_and(|r| r.len() > 1));
    command(&["check", RIG]).assert().code(1);
}

const KEYS: [&str; 11] = [
    "report",
    "rig",
    "on",
    "regions",
    "notice",
    "packs",
    "findings",
    "worked_out",
    "not_covered",
    "authorities",
    "margins",
];
const FINDING_KEYS: [&str; 10] = [
    "region", "rule", "topic", "outcome", "says", "because", "missing", "sources", "looks", "note",
];

fn keys(value: &Value) -> Vec<&str> {
    value
        .as_object()
        .map(|o| o.keys().map(String::as_str).collect())
        .unwrap_or_default()
}

#[test]
fn the_document_has_its_fixed_keys_in_order() {
    let report = document(&on_route(&["check", RIG, "--format", "json"]));
    assert_eq!(keys(&report), KEYS);
    assert_eq!(report["report"], 1);
    assert_eq!(report["rig"], "Kiln trailer, spring fair");
    assert_eq!(report["on"], "2026-12-01");
    assert_eq!(report["regions"], serde_json::json!(["US-NE", "US-CO"]));
    assert_eq!(keys(&report["packs"][0]), ["pack", "version", "sha256"]);
    assert_eq!(keys(&report["not_covered"][0]), ["region", "topic"]);
    for finding in report["findings"].as_array().expect("a list") {
        assert_eq!(keys(finding), FINDING_KEYS);
        for source in finding["sources"].as_array().expect("a list") {
            assert_eq!(keys(source), ["cite", "at", "read", "on"]);
        }
    }
    assert_eq!(
        report["worked_out"]["load.kiln.aggregate_limit"]["value"],
        "6,666 lb"
    );
    assert_eq!(
        report["worked_out"]["load.stall-boards.aggregate_limit"]["value"],
        "3,000 lb"
    );
    assert_eq!(
        report["worked_out"]["trailer.gross_weight"]["value"],
        "5,120 lb to 5,420 lb"
    );
}

#[test]
fn a_rule_without_a_source_says_so() {
    let report = document(&on_route(&["check", RIG, "--format", "json"]));
    let findings = report["findings"].as_array().expect("a list");
    let habit = findings
        .iter()
        .find(|f| f["rule"] == "test-practice/latch-closed")
        .expect("the habit");
    assert_eq!(habit["region"], "practice");
    assert_eq!(
        habit["sources"],
        serde_json::json!([{"cite": "common practice, no source", "at": null, "read": "none", "on": null}])
    );
    assert_eq!(habit["looks"][0]["key"], "test-practice/latch-closed");
}

#[rstest]
#[case::route(&["check", RIG, "--format", "json", "--rules", "tests/packs", "--only-rules", "--in", "US"])]
#[case::built_in(&["check", RIG, "--format", "json"])]
#[case::law_alone(&["check", RIG, "--format", "json", "--no-practice", "--rules", "tests/packs", "--in", "US-CO"])]
fn the_document_is_as_its_schema_says(#[case] args: &[&str]) {
    let schema: Value =
        serde_json::from_str(&fs::read_to_string("schema/report.schema.json").expect("the schema"))
            .expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let report = document(args);
    let errors: Vec<String> = validator
        .iter_errors(&report)
        .map(|e| format!("{}: {e}", e.instance_path()))
        .collect();
    assert!(errors.is_empty(), "{errors:#?}");
    let mut wrong = report.clone();
    wrong["findings"][0]["outcome"] = Value::from("perhaps");
    assert!(!validator.is_valid(&wrong));
}

#[test]
fn the_same_inputs_give_the_same_bytes() {
    let args = on_route(&["check", RIG, "--format", "json"]);
    assert_eq!(out(&args), out(&args));
}

/// A rig whose texts try to colour the screen, ring the bell, and turn the line round.
const HOSTILE: &str = "rig: 1\nname: \"\\e[31mred\\a \\x9b31m \\u202E\"\nload:\n  - {name: \"kiln\\e]0;title\\a\", weight: 10 lb, overhang_rear: 5 ft, tie_downs: []}\ntrip: {lighting_hours: no, on: 2026-12-01}\n";

#[rstest]
#[case::text("text")]
#[case::json("json")]
fn no_escape_sequence_of_a_file_gets_out(#[case] format: &str) {
    let output = command(&on_route(&["check", "-", "--all", "--format", format]))
        .write_stdin(HOSTILE)
        .output()
        .expect("it runs");
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let unsafe_ones: Vec<char> = text
        .chars()
        .filter(|c| (c.is_control() && *c != '\n') || *c == '\u{202e}')
        .collect();
    assert!(
        unsafe_ones.is_empty() && text.contains("red"),
        "{unsafe_ones:?}"
    );
}

#[test]
fn no_escape_sequence_of_an_argument_gets_out() {
    let output = command(&["check", RIG, "--in", "\u{1b}[31mNebraska\u{9b}1m"])
        .output()
        .expect("it runs");
    assert_eq!(output.status.code(), Some(2));
    let text = String::from_utf8(output.stderr).expect("UTF-8");
    assert!(
        !text.chars().any(|c| c.is_control() && c != '\n'),
        "{text:?}"
    );
}

#[rstest]
#[case::no_terminal("auto", false, false)]
#[case::always("always", false, true)]
#[case::never("never", false, false)]
#[case::no_color("auto", true, false)]
#[case::asked_for_all_the_same("always", true, true)]
fn colours(#[case] when: &str, #[case] no_color: bool, #[case] expected: bool) {
    let mut report = command(&on_route(&["check", RIG, "--color", when]));
    let mut wrong = command(&["check", RIG, "--in", "Iova", "--color", when]);
    for run in [&mut report, &mut wrong] {
        if no_color {
            run.env("NO_COLOR", "1");
        }
    }
    let report = report.output().expect("it runs").stdout;
    let wrong = wrong.output().expect("it runs").stderr;
    assert_eq!(
        (report.contains(&0x1b), wrong.contains(&0x1b)),
        (expected, expected)
    );
}

#[test]
fn colour_tells_nothing_by_itself() {
    let plain = out(&on_route(&["check", RIG]));
    let coloured = out(&on_route(&["check", RIG, "--color", "always"]));
    let mut bare = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once('\u{1b}') {
        bare.push_str(before);
        rest = after.split_once('m').map_or("", |(_, after)| after);
    }
    bare.push_str(rest);
    assert_eq!(bare, plain);
}
