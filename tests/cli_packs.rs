//! The command line on packs, rules, facts, schemas and the starter rig.

use assert_cmd::Command;
use rstest::rstest;
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

const PACKS: [&str; 3] = ["--rules", "tests/packs", "--only-rules"];

fn run(args: &[&str], code: i32) -> (String, String) {
    let output = Command::cargo_bin("pintle")
        .expect("the program is built")
        .args(args)
        .output()
        .expect("it runs");
    let (out, err) = (
        String::from_utf8_lossy(&output.stdout).into_owned(),
        on_one_line(&output.stderr),
    );
    assert_eq!(output.status.code(), Some(code), "{args:?}\n{out}\n{err}");
    (out, err)
}

/// Complaints without the line breaks that depend on the length of a path.
fn on_one_line(text: &[u8]) -> String {
    let words = String::from_utf8_lossy(text).replace('│', " ");
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn json(args: &[&str], code: i32) -> Value {
    serde_json::from_str(&run(args, code).0).expect("JSON")
}

fn with_packs<'a>(args: &[&'a str]) -> Vec<&'a str> {
    args.iter().copied().chain(PACKS).collect()
}

fn scratch(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join("cli-packs")
        .join(name);
    fs::create_dir_all(&folder).expect("a scratch folder");
    folder
}

#[test]
fn the_built_in_packs_are_good() {
    let (out, err) = run(&["packs", "check"], 0);
    assert!(
        out.contains("us-ne  good") && out.contains("; 0 wrong.") && err.is_empty(),
        "{out}{err}"
    );
}

#[test]
fn every_complaint_of_every_pack_is_told() {
    let folder = scratch("wrong");
    let federal = fs::read_to_string("tests/packs/federal.yaml").expect("a pack");
    // One whose cases fail, one that leads nowhere, one that cannot be read, one that is good.
    fs::write(
        folder.join("cases.yaml"),
        federal
            .replace("at_least: 2", "at_least: 3")
            .replace("test-federal", "wrong-cases"),
    )
    .expect("written");
    fs::write(
        folder.join("dangling.yaml"),
        federal.replace(
            "pack: test-federal",
            "pack: wrong-within\nwithin: no-such-pack",
        ),
    )
    .expect("written");
    fs::write(
        folder.join("unread.yaml"),
        "pack: wrong-text\nformat: 1\nrules: {}\n",
    )
    .expect("written");
    fs::write(
        folder.join("good.yaml"),
        federal.replace("test-federal", "good"),
    )
    .expect("written");
    let path = folder.to_string_lossy();
    let (out, err) = run(&["packs", "check", &path], 2);
    assert!(
        out.contains("good  good: 1 rule, 3 cases run")
            && out.contains("4 packs")
            && out.contains("3 wrong"),
        "{out}"
    );
    for part in [
        "the case expects `met`, the rule gives `not-met`",
        "there is no pack `no-such-pack`",
        "unread.yaml",
    ] {
        assert!(err.contains(part), "{part} in\n{err}");
    }
    let checks = json(&["packs", "check", &path, "--format", "json"], 2);
    let wrong = checks["packs"]
        .as_array()
        .expect("a list")
        .iter()
        .filter(|p| p["complaints"] != Value::Array(Vec::new()))
        .count();
    assert_eq!(wrong, 3);
}

#[test]
fn below_rules_the_place_of_a_pack_gives_its_id() {
    let folder = scratch("placed").join("rules").join("us");
    fs::create_dir_all(&folder).expect("a folder");
    let federal = fs::read_to_string("tests/packs/federal.yaml").expect("a pack");
    fs::write(folder.join("zz.yaml"), &federal).expect("written");
    let (_, err) = run(&["packs", "check", &folder.to_string_lossy()], 2);
    assert!(
        err.contains("its place below `rules` makes it `us-zz`"),
        "{err}"
    );
    fs::write(
        folder.join("zz.yaml"),
        federal.replace("test-federal", "us-zz"),
    )
    .expect("written");
    run(&["packs", "check", &folder.to_string_lossy()], 0);
}

/// What CONTRIBUTING.md lets a newcomer write is a pack that passes.
#[test]
fn the_first_pack_of_the_guide_is_good() {
    let guide = fs::read_to_string("CONTRIBUTING.md")
        .expect("the guide")
        .replace("\r\n", "\n");
    let mut pack = String::new();
    for block in guide.split("```yaml\n").skip(1).take(3) {
        let body = block.split("```").next().unwrap_or_default();
        // The blocks stand in a list, set in by three columns.
        for line in body.lines() {
            pack.push_str(line.strip_prefix("   ").unwrap_or(line));
            pack.push('\n');
        }
    }
    let file = scratch("guide").join("wy.yaml");
    fs::write(&file, &pack).expect("written");
    let (out, _) = run(&["packs", "prove", &file.to_string_lossy()], 0);
    assert!(
        out.contains("us-wy  good: 1 rule, 4 cases run"),
        "{pack}\n{out}"
    );
}

#[rstest]
#[case::missing("no-such-folder", "there is no file")]
#[case::empty("src/cli", "no pack in")]
fn paths_without_packs(#[case] path: &str, #[case] says: &str) {
    let (_, err) = run(&["packs", "check", path], 2);
    assert!(err.contains(says), "{err}");
}

#[test]
fn packs_are_listed_with_what_they_hold() {
    let list = json(&with_packs(&["packs", "list", "--format", "json"]), 0);
    let ne = list["packs"]
        .as_array()
        .expect("a list")
        .iter()
        .find(|p| p["pack"] == "test-ne")
        .expect("the pack");
    assert_eq!(ne["region"], "US-NE");
    assert_eq!(ne["rules"], 6);
    assert_eq!(ne["adoptions"], 1);
    assert_eq!(ne["oldest_reading"], "2024-02-29");
    assert_eq!(
        ne["grades"],
        serde_json::json!({"text": 5, "secondary": 1, "memory": 1})
    );
    assert_eq!(
        ne["topics"],
        serde_json::json!(["brakes", "breakaway", "load-securement", "speed", "mirrors"])
    );
}

#[test]
fn a_topic_is_told_region_by_region() {
    let digest = json(
        &with_packs(&[
            "packs",
            "list",
            "--topic",
            "load-securement",
            "--format",
            "json",
        ]),
        0,
    );
    let of = |pack: &str| {
        digest["packs"]
            .as_array()
            .expect("a list")
            .iter()
            .find(|p| p["pack"] == pack)
            .cloned()
            .expect("the pack")
    };
    assert_eq!(
        of("test-co")["rules"][0]["adopted_from"],
        "Test Standard for Tie-downs"
    );
    assert_eq!(of("test-ne")["rules"].as_array().map(Vec::len), Some(2));
    let (text, _) = run(
        &with_packs(&["packs", "list", "--topic", "load-securement"]),
        0,
    );
    assert!(
        text.contains("US-CO  Colorado (made up)")
            && text.contains("(adopted from: Test Standard for Tie-downs)"),
        "{text}"
    );
    let (_, err) = run(&["packs", "list", "--topic", "brake"], 2);
    assert!(err.contains("`brakes`"), "{err}");
}

#[rstest]
// The reading of 2024-02-29 is the oldest, that of 2025-11-25 the next.
#[case::a_year_to_the_day("1 year", "2025-02-28", &[])]
#[case::more_than_a_year("1 year", "2025-03-01", &["test-ne/overhang-flag"])]
#[case::months("12 months", "2025-03-01", &["test-ne/overhang-flag"])]
#[case::one_month("1 month", "2025-12-26", &["test-ne/overhang-flag", "test-standard/half-the-weight"])]
#[case::days("31 days", "2025-12-26", &["test-ne/overhang-flag"])]
#[case::the_same_day("1 day", "2024-03-01", &[])]
#[case::the_day_after("1 day", "2024-03-02", &["test-ne/overhang-flag"])]
fn old_readings(#[case] age: &str, #[case] on: &str, #[case] expected: &[&str]) {
    let stale = json(
        &with_packs(&[
            "packs",
            "stale",
            "--older-than",
            age,
            "--on",
            on,
            "--format",
            "json",
        ]),
        0,
    );
    let rules: Vec<&str> = stale["stale"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|r| r["rule"].as_str())
        .collect();
    assert_eq!(rules, expected);
}

#[rstest]
#[case::full(&["explain", "test-ne/speed"], "no more than 65 mph")]
#[case::short(&["explain", "half-the-weight", "--in", "Colorado"], "test-co/test-standard/half-the-weight")]
#[case::adopted(&["explain", "test-ne/test-standard/half-the-weight"], "adopted from: Test Standard for Tie-downs")]
#[case::doubt(&["explain", "test-ne/view-to-the-rear"], "Doubt")]
#[case::versions(&["explain", "test-ne/speed"], "1998-07-01 to 2021-12-31")]
#[case::exemption(&["explain", "brakes-recreational"], "Unless    use: farm")]
fn rules_are_explained(#[case] args: &[&str], #[case] says: &str) {
    let (out, _) = run(&with_packs(args), 0);
    assert!(out.contains(says), "{out}");
}

#[rstest]
#[case::misspelt("test-ne/overhang-flgas", "did you mean `test-ne/overhang-flag`?")]
#[case::short_misspelt("chains-tow", "did you mean `chains-two`?")]
#[case::not_in_the_region("brakes-3000", "there is no rule `brakes-3000`")]
fn rules_that_are_not_there(#[case] rule: &str, #[case] says: &str) {
    let (_, err) = run(&with_packs(&["explain", rule, "--in", "Nebraska"]), 2);
    assert!(err.contains(says), "{err}");
}

#[rstest]
#[case::broken("test-ne/overhang-flag", 1, "This rig  BROKEN")]
#[case::unknown(
    "test-ne/breakaway-holds",
    0,
    "breakaway holding time (trailer.breakaway.holds)"
)]
#[case::met("test-co/brakes-3000", 0, "This rig  MET")]
#[case::not_in_force("test-ne/speed-of-1998", 0, "not in force on that day")]
fn a_rule_is_decided_for_a_rig(#[case] rule: &str, #[case] code: i32, #[case] says: &str) {
    let (out, _) = run(
        &with_packs(&["explain", rule, "tests/rigs/kiln-trailer.yaml"]),
        code,
    );
    assert!(out.contains(says), "{out}");
}

#[test]
fn facts_are_found_by_their_words() {
    let found = json(&["facts", "tongue", "rating", "--format", "json"], 0);
    let names: Vec<&str> = found["facts"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|f| f["name"].as_str())
        .collect();
    assert!(
        names.contains(&"tow_vehicle.hitch.tongue_rating") && !names.contains(&"trailer.length"),
        "{names:?}"
    );
    let (out, _) = run(&["facts", "GOOSENECK"], 0);
    assert!(
        out.contains("trailer.coupling") && out.contains("a gooseneck ball over the rear axle"),
        "{out}"
    );
    let (_, err) = run(&["facts", "tongue_wieght"], 2);
    assert!(err.contains("did you mean `tongue weight`?"), "{err}");
}

#[test]
fn the_starter_rig_passes_its_check() {
    let (rig, _) = run(&["example"], 0);
    let output = Command::cargo_bin("pintle")
        .expect("built")
        .args(["check", "-"])
        .write_stdin(rig)
        .output()
        .expect("it runs");
    assert_eq!(
        output.status.code(),
        Some(0),
        "{}{}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
}

#[test]
fn help_names_the_exit_statuses() {
    for args in [
        &["--help"][..],
        &["check", "--help"],
        &["packs", "check", "--help"],
        &["explain", "--help"],
    ] {
        assert!(run(args, 0).0.contains("Exit status: 0"), "{args:?}");
    }
}
