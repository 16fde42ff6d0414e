//! The command line: exit statuses, inputs of every kind, regions, folders of packs.

use assert_cmd::Command;
use rstest::rstest;
use std::fs;
use std::path::PathBuf;

const RIG: &str = "tests/rigs/kiln-trailer.yaml";
const PACKS: [&str; 3] = ["--rules", "tests/packs", "--only-rules"];

/// A run of the program, its exit status checked.
struct Run {
    out: String,
    err: String,
}

/// Complaints without the line breaks that depend on the length of a path.
fn on_one_line(text: &[u8]) -> String {
    let words = String::from_utf8_lossy(text).replace('│', " ");
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn run_with(args: &[&str], stdin: &[u8], code: i32) -> Run {
    let mut command = Command::cargo_bin("pintle").expect("the program is built");
    command.args(args).env_remove("NO_COLOR").write_stdin(stdin);
    let output = command.output().expect("the program runs");
    let run = Run {
        out: String::from_utf8_lossy(&output.stdout).into_owned(),
        err: on_one_line(&output.stderr),
    };
    assert_eq!(
        output.status.code(),
        Some(code),
        "{args:?}\n{}\n{}",
        run.out,
        run.err
    );
    run
}

fn run(args: &[&str], code: i32) -> Run {
    run_with(args, b"", code)
}

fn scratch(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join("cli")
        .join(name);
    fs::create_dir_all(&folder).expect("a scratch folder");
    folder
}

fn checked(rig: &str, more: &[&str], code: i32) -> Run {
    let mut args = vec!["check", "-"];
    args.extend(PACKS);
    args.extend(more);
    run_with(&args, rig.as_bytes(), code)
}

const CHAINS: &str = "rig: 1\ntrailer: {coupling: ball, safety_chains: {count: 2}}\nload: []\ntrip: {speed: 50 mph}\n";

#[rstest]
#[case::nothing_broken("trailer: {coupling: ball, safety_chains: {count: 2}}", &["--no-practice"], 0)]
#[case::broken("trailer: {coupling: ball, safety_chains: {count: 1}}", &["--no-practice"], 1)]
#[case::broken_and_strict("trailer: {coupling: ball, safety_chains: {count: 1}}", &["--strict"], 1)]
#[case::unknown("trailer: {coupling: ball}", &["--no-practice"], 0)]
#[case::unknown_and_strict("trailer: {coupling: ball}", &["--no-practice", "--strict"], 3)]
#[case::nothing_open_and_strict("trailer: {coupling: gooseneck}", &["--no-practice", "--strict"], 0)]
#[case::look_and_strict("trailer: {coupling: gooseneck, coupler: {ball_size: 2 in}}\ntow_vehicle: {hitch: {ball_diameter: 2 in}}", &["--strict"], 3)]
#[case::looked_at("trailer: {coupling: gooseneck, coupler: {ball_size: 2 in}}\ntow_vehicle: {hitch: {ball_diameter: 2 in}}\nseen: {test-practice/latch-closed: yes}", &["--strict"], 0)]
#[case::seen_to_be_wrong("trailer: {coupling: gooseneck}\nseen: {test-practice/latch-closed: no}", &[], 1)]
#[case::habit_broken("trailer: {coupling: gooseneck, coupler: {ball_size: 2 in}}\ntow_vehicle: {hitch: {ball_diameter: 50 mm}}", &[], 1)]
#[case::bad_rig("trailer: {coupling: bell}", &[], 2)]
fn exit_status(#[case] facts: &str, #[case] more: &[&str], #[case] code: i32) {
    // A country that no pack divides stands for itself.
    let mut args = vec![
        "check",
        "-",
        "--rules",
        "tests/packs/federal.yaml",
        "--rules",
        "tests/packs/practice.yaml",
        "--only-rules",
        "--in",
        "US",
    ];
    args.extend(more);
    run_with(&args, format!("rig: 1\n{facts}\n").as_bytes(), code);
}

#[rstest]
#[case::no_command(&[])]
#[case::no_rig(&["check"])]
#[case::unknown_flag(&["check", RIG, "--fast"])]
#[case::bad_day(&["check", RIG, "--on", "2026-02-30"])]
#[case::bad_format(&["check", RIG, "--format", "xml"])]
#[case::only_rules_alone(&["check", RIG, "--only-rules"])]
#[case::bad_topic(&["packs", "list", "--topic", "brake"])]
#[case::bad_time(&["packs", "stale", "--older-than", "12 lb"])]
#[case::bad_schema(&["schema", "trailer"])]
fn a_wrong_command_line_is_status_2(#[case] args: &[&str]) {
    let run = run(args, 2);
    assert!(
        run.out.is_empty() && !run.err.is_empty(),
        "{}{}",
        run.out,
        run.err
    );
}

#[rstest]
#[case::misspelt("Nebrasca", "did you mean `Nebraska` (US-NE)?")]
#[case::swapped("Colroado", "did you mean `Colorado` (US-CO)?")]
#[case::no_region("Atlantis", "ISO 3166-2")]
#[case::not_covered("Ontario", "no pack covers Ontario (CA-ON)")]
#[case::country_not_covered("CA", "no pack covers Canada (CA)")]
fn regions_that_cannot_be_checked(#[case] region: &str, #[case] says: &str) {
    let run = checked(CHAINS, &["--in", region], 2);
    assert!(run.err.contains(says) && run.out.is_empty(), "{}", run.err);
}

#[rstest]
#[case::code(&["--in", "US-NE"], &["Nebraska"])]
#[case::small(&["--in", "us-ne"], &["Nebraska"])]
#[case::name(&["--in", "nebraska"], &["Nebraska"])]
#[case::twice(&["--in", "US-NE", "--in", "Nebraska"], &["Nebraska"])]
#[case::route(&["--in", "Colorado", "--in", "US-NE"], &["Colorado", "Nebraska"])]
#[case::list(&["--in", "Colorado,US-NE"], &["Colorado", "Nebraska"])]
#[case::country(&["--in", "us"], &["Colorado", "Nebraska"])]
#[case::country_by_name(&["--in", "United States"], &["Colorado", "Nebraska"])]
fn regions_by_code_or_name(#[case] asked: &[&str], #[case] regions: &[&str]) {
    let mut more = vec!["--no-practice"];
    more.extend(asked);
    let run = checked(CHAINS, &more, 0);
    let table = run
        .out
        .lines()
        .skip_while(|l| !l.contains("broken  unknown"));
    let summary: Vec<&str> = table
        .skip(1)
        .take_while(|l| !l.is_empty())
        .filter_map(|l| l.split_whitespace().next())
        .collect();
    assert_eq!(summary, regions, "{}", run.out);
}

#[test]
fn the_rig_names_the_regions_when_the_command_line_does_not() {
    let rig = CHAINS.replace("trip: {", "trip: {regions: [Nebraska, US-CO], ");
    assert!(
        checked(&rig, &["--no-practice"], 0)
            .out
            .contains("Nebraska  ")
    );
    let wrong = checked(
        &CHAINS.replace("trip: {", "trip: {regions: [Nebraska, Iova], "),
        &[],
        2,
    );
    assert!(
        wrong.err.contains("standard input:4:") && wrong.err.contains("`Iowa`"),
        "{}",
        wrong.err
    );
    let none = checked(CHAINS, &[], 2);
    assert!(none.err.contains("no region to check"), "{}", none.err);
}

#[rstest]
#[case::asked(&["--on", "2020-05-01"], "2020-05-01 (the day asked for)", "55 mph")]
#[case::trip(&[], "2023-07-09 (the day of the trip)", "65 mph")]
fn the_day(#[case] more: &[&str], #[case] says: &str, #[case] limit: &str) {
    let rig = CHAINS.replace("trip: {", "trip: {on: 2023-07-09, ");
    let mut args = vec!["--in", "US-NE", "--no-practice"];
    args.extend(more);
    let run = checked(&rig, &args, 0);
    assert!(
        run.out.contains(says) && run.out.contains(&format!("no more than {limit}")),
        "{}",
        run.out
    );
}

#[test]
fn a_month_is_not_a_day_to_check_for() {
    let rig = CHAINS.replace("trip: {", "trip: {on: 2023-07, ");
    let run = checked(&rig, &["--in", "US-NE"], 2);
    assert!(
        run.err.contains("made for one day") && run.err.contains("--on"),
        "{}",
        run.err
    );
    checked(&rig, &["--in", "US-NE", "--on", "2023-07-09"], 0);
}

#[test]
fn without_a_day_it_is_today() {
    let run = checked(CHAINS, &["--in", "US-NE"], 0);
    assert!(
        run.out.contains("(today; the rig names no day)"),
        "{}",
        run.out
    );
}

#[rstest]
#[case::missing("tests/rigs/no-such-rig.yaml", "there is no file")]
#[case::folder("tests/rigs", "folder")]
fn files_that_cannot_be_read(#[case] path: &str, #[case] says: &str) {
    let run = run(&["check", path, "--in", "US-NE"], 2);
    assert!(run.err.contains(says), "{}", run.err);
}

#[rstest]
#[case::empty(b"" as &[u8], "source::empty")]
#[case::nul(b"rig: 1\0" as &[u8], "NUL")]
#[case::latin(b"rig: 1\nname: caf\xe9\n" as &[u8], "source::not-utf8")]
#[case::newer(b"rig: 2\n" as &[u8], "a version that reads format 2 is needed")]
#[case::key(b"rig: 1\nwieght: 1 lb\n" as &[u8], "`wieght` is not a key")]
#[case::unit(b"rig: 1\ntrailer: {gvwr: 7000}\n" as &[u8], "expected")]
fn bad_texts(#[case] text: &[u8], #[case] says: &str) {
    let run = run_with(&["check", "-", "--in", "US-NE"], text, 2);
    assert!(run.err.contains(says), "{}", run.err);
}

#[test]
fn everything_that_is_wrong_is_told_in_one_run() {
    let bad = scratch("bad-packs");
    fs::write(bad.join("a.yaml"), "pack: a\nformat: 9\n").expect("a pack");
    fs::write(
        bad.join("b.yaml"),
        "pack: b\nformat: 1\nversion: 1.0.0\ntitel: B\n",
    )
    .expect("a pack");
    let folder = bad.to_string_lossy();
    let rig = "rig: 1\ntrailer: {gvwr: 7000, colour: red}\ntow_vehicle: {kind: pickap}\n";
    let run = run_with(
        &["check", "-", "--in", "US-NE", "--rules", &folder],
        rig.as_bytes(),
        2,
    );
    for part in [
        "gvwr", "`colour`", "`pickup`", "a.yaml", "format 9", "b.yaml", "titel",
    ] {
        assert!(run.err.contains(part), "{part} in\n{}", run.err);
    }
}

#[test]
fn a_contradiction_is_told_with_both_places() {
    let rig = "rig: 1\ntrailer:\n  empty_weight: 1,000 lb\n  gross_weight: 5,000 lb\nload:\n  - {name: kiln, weight: 500 lb}\n";
    let run = checked(rig, &["--in", "US-NE", "--in", "Iova"], 2);
    for part in [
        "`trailer.gross_weight` is stated as 5,000 lb",
        "1,500 lb",
        "does not agree with this",
        "`Iowa`",
    ] {
        assert!(run.err.contains(part), "{part} in\n{}", run.err);
    }
}

/// What cannot be so is told at its place.
#[rstest]
#[case("trailer: {width: -3 ft}", "trailer.width: a length below zero")]
#[case(
    "trailer: {kind: flatbed}\nload: [{name: kiln, length: -1 ft}]",
    "load.length: a length below zero"
)]
#[case(
    "trailer: {width: 96 in}\nload: [{name: kiln, width: 126 in}]",
    "kiln is 126 in"
)]
#[case(
    "combination: {trailers: 1}\nsecond_trailer: {gross_weight: 2,000 lb}",
    "`combination.trailers` is less than 2"
)]
fn what_cannot_be_is_told(#[case] rig: &str, #[case] told: &str) {
    let run = checked(&format!("rig: 1\n{rig}\n"), &["--in", "US-NE"], 2);
    let words: Vec<&str> = run.err.split_whitespace().filter(|w| *w != "│").collect();
    assert!(words.join(" ").contains(told), "{}", run.err);
}

/// Positions and overhangs may lie on the other side of the point that they are measured from.
#[test]
fn a_position_may_be_negative() {
    let rig = "rig: 1\ntow_vehicle: {hitch: {overhang: -2 ft}}\ntrailer: {coupler_to_deck: -1 ft}\nloading: {positions_from: deck-front}\nload: [{name: kiln, position: -1 ft}]\n";
    checked(rig, &["--in", "US-NE"], 0);
}

#[test]
fn packs_of_a_folder_stand_on_top_of_the_built_in_ones() {
    let run = run(
        &[
            "packs",
            "list",
            "--rules",
            "tests/packs",
            "--format",
            "json",
        ],
        0,
    );
    assert!(
        run.out.contains("\"us-ne\"") && run.out.contains("\"test-ne\""),
        "{}",
        run.out
    );
    let alone = self::run(
        &[
            "packs", "list", PACKS[0], PACKS[1], PACKS[2], "--format", "json",
        ],
        0,
    );
    assert!(
        !alone.out.contains("\"us-ne\"") && alone.out.contains("\"test-ne\""),
        "{}",
        alone.out
    );
}

#[test]
fn habits_can_be_left_out() {
    assert!(
        checked(CHAINS, &["--in", "US-NE"], 0)
            .out
            .contains("Common practice")
    );
    assert!(
        !checked(CHAINS, &["--in", "US-NE", "--no-practice"], 0)
            .out
            .contains("Common practice")
    );
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    use std::process::{Command, Stdio};
    let mut child = Command::new(env!("CARGO_BIN_EXE_pintle"))
        .arg("facts")
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert!(
        output.stderr.is_empty(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert_eq!(output.status.code(), Some(0));
}
