//! The committed schemas are those that the program makes.

use rstest::rstest;
use serde_json::Value;
use std::fs;

#[rstest]
#[case("rig", pintle::rig::rig_schema())]
#[case("pack", pintle::pack::pack_schema())]
#[case("report", pintle::report::report_schema())]
#[case("range", pintle::report::range_schema())]
#[case("strictest", pintle::report::strictest_schema())]
#[case("ask", pintle::dialogue::questions_schema())]
#[case("sheet", pintle::report::sheet_schema())]
#[case("compare", pintle::report::comparison_schema())]
fn a_committed_schema_is_not_stale(#[case] which: &str, #[case] made: Value) {
    let path = format!("schema/{which}.schema.json");
    let committed = fs::read_to_string(&path)
        .unwrap_or_default()
        .replace("\r\n", "\n");
    assert!(
        committed == pintle::report::print_json(&made),
        "{path} is stale; renew it with\n\n    cargo run -- schema {which} > {path}\n"
    );
    assert!(
        jsonschema::meta::is_valid(&made),
        "{which} is no valid schema"
    );
}

#[test]
fn the_demo_rig_and_the_starter_rig_are_as_the_schema_says() {
    let validator = jsonschema::validator_for(&pintle::rig::rig_schema()).expect("a schema");
    let demo = fs::read_to_string("tests/rigs/kiln-trailer.yaml").expect("the demo rig");
    for text in [demo.as_str(), pintle::rig::EXAMPLE] {
        let source = pintle::source::SourceText::from_str("rig.yaml", text);
        let rig = pintle::source::parse(&source).expect("YAML").to_json();
        let errors: Vec<String> = validator
            .iter_errors(&rig)
            .map(|e| format!("{}: {e}", e.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{errors:#?}");
    }
}

const DEMO: &str = "tests/rigs/kiln-trailer.yaml";

/// What the commands print is as the committed schemas say.
#[rstest]
#[case::range("range", &["range", DEMO, "trailer.gross_weight", "--format", "json"])]
#[case::position("range", &["range", DEMO, "load.kiln.position", "--in", "US-NE", "--format", "json"])]
#[case::choice("range", &["range", DEMO, "trailer.coupling", "--format", "json", "--no-practice"])]
#[case::strictest("strictest", &["strictest", DEMO, "--format", "json"])]
#[case::law("strictest", &["strictest", DEMO, "--in", "CA-ON", "--in", "US-NY", "--no-practice", "--format", "json"])]
#[case::next("ask", &["ask", DEMO, "--next", "3"])]
#[case::empty("ask", &["ask", "--in", "CA-QC", "--next", "40"])]
#[case::sheet("sheet", &["sheet", "Nebraska", "CA-ON", "--format", "json"])]
#[case::kind("sheet", &["sheet", "Texas", "--kind", "boat", "--format", "json"])]
#[case::brakes("compare", &["compare", "Nebraska", "CA-ON", "--topic", "brakes", "--format", "json"])]
#[case::mirrors("compare", &["compare", "Iowa", "US-NY", "--topic", "mirrors", "--format", "json"])]
fn a_document_is_as_its_schema_says(#[case] which: &str, #[case] args: &[&str]) {
    let schema = fs::read_to_string(format!("schema/{which}.schema.json")).expect("a schema");
    let schema: Value = serde_json::from_str(&schema).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let mut command = assert_cmd::Command::new(assert_cmd::cargo::cargo_bin!("pintle"));
    let out = command.args(args).output().expect("it runs");
    let told = String::from_utf8_lossy(&out.stdout);
    let complaints = String::from_utf8_lossy(&out.stderr);
    let document: Value =
        serde_json::from_str(&told).unwrap_or_else(|e| panic!("{e}\n{complaints}"));
    let errors: Vec<String> = validator
        .iter_errors(&document)
        .map(|e| format!("{}: {e}", e.instance_path()))
        .collect();
    assert!(errors.is_empty(), "{errors:#?}");
}
