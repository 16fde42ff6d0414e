//! The committed schemas are those that the program makes.

use rstest::rstest;
use serde_json::Value;
use std::fs;

#[rstest]
#[case("rig", pintle::rig::rig_schema())]
#[case("pack", pintle::pack::pack_schema())]
#[case("report", pintle::report::report_schema())]
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
