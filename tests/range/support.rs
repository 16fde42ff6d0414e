//! The program run as a user runs it.

use assert_cmd::Command;
use serde_json::Value;

pub const DEMO: &str = "tests/rigs/kiln-trailer.yaml";

pub fn run(args: &[&str], rig: &str, code: i32) -> String {
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

pub fn range(rig: &str, fact: &str, more: &[&str], code: i32) -> Value {
    let mut args = vec!["range", "-", fact, "--in", "US-NE", "--on", "2026-12-01"];
    args.extend(["--format", "json"]);
    args.extend(more);
    serde_json::from_str(&run(&args, rig, code)).expect("JSON")
}

/// The ends of the only band that is allowed, each with the rules that stop there.
pub fn only(range: &Value) -> (Option<&str>, Option<&str>, &Value, &Value) {
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

pub fn names(rules: &Value, id: &str) -> bool {
    let rules = rules.as_array().expect("a list");
    rules
        .iter()
        .any(|r| r.as_str().is_some_and(|r| r.ends_with(id)))
}

/// An item on a commercial trailer; everything that other rules on its tie-downs ask for is said.
pub fn item(length: &str, weight: &str, more: &str) -> String {
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
