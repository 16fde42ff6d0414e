//! The proof of packs: slips planted in every built-in pack are noticed by its cases, and what is
//! found is told in forms that review tools read.

use pintle::pack::{Library, skeleton};
use pintle::proof::{Depth, SlipKind, check_packs, prove};
use pintle::report::{junit, sarif};
use pintle::source::{Complaints, SourceText};
use quick_junit::Report;
use rstest::rstest;
use std::collections::BTreeMap;

/// Comparisons, figures, conditions, members, weights and dates: every slip that changes what some
/// rig gets is noticed by a case. The share is printed (`cargo test -- --nocapture`).
#[test]
fn every_seeded_slip_is_noticed() {
    let library = Library::built_in();
    let ids = library.ids();
    let packs = library
        .with_references(&ids)
        .expect("the built-in packs read");
    let compiled = pintle::engine::compile(packs).expect("the built-in packs compile");
    let mut made: BTreeMap<SlipKind, (usize, usize)> = BTreeMap::new();
    let mut equivalent = 0;
    let mut survivors = Vec::new();
    for pack in 0..compiled.packs.len() {
        let proof = prove(&compiled, pack);
        equivalent += proof.equivalent;
        survivors.extend(proof.survivors.into_iter().map(|c| c.message));
        for (kind, (all, noticed)) in proof.made {
            let sum = made.entry(kind).or_default();
            *sum = (sum.0 + all, sum.1 + noticed);
        }
    }
    for (kind, (all, noticed)) in &made {
        println!("{}: {noticed} of {all} noticed", kind.name());
    }
    println!("{equivalent} change no outcome of any rig");
    for kind in SlipKind::ALL {
        assert!(made.contains_key(&kind), "no slip of kind {}", kind.name());
    }
    assert!(survivors.is_empty(), "not noticed: {survivors:#?}");
}

/// A pack with one slip of each kind that its own cases notice, or do not.
const PACK: &str = r#"
pack: us-zz
format: 1
version: 1.0.0
region: US-WY
title: A made-up state
authority: {name: Somebody}
rules:
  - id: brakes
    topic: brakes
    says: Boat and utility trailers of 3,000 lb or more need brakes.
    when: {trailer.kind: {one_of: [boat, utility]}, trailer.gross_weight: {at_least: 3,000 lb}}
    must: {trailer.has_brakes: yes}
    sources: [{cite: made up, read: memory, on: 2026-11-25}]
    cases:
      - {given: {trailer.kind: boat, trailer.gross_weight: 3,000 lb, trailer.has_brakes: no}, expect: not-met}
      - {given: {trailer.kind: boat, trailer.gross_weight: 2,999 lb, trailer.has_brakes: no}, expect: does-not-apply}
      - {given: {trailer.kind: utility, trailer.gross_weight: 3,000 lb, trailer.has_brakes: yes}, expect: met}
      - {given: {trailer.kind: camper, trailer.gross_weight: 3,000 lb, trailer.has_brakes: no}, expect: does-not-apply}
"#;

fn proved(text: &str) -> Complaints {
    let source = SourceText::from_str("zz.yaml", text);
    let checks = check_packs(Library::built_in(), &[source], Depth::Proof);
    checks.into_iter().flat_map(|c| c.complaints).collect()
}

#[test]
fn a_pack_whose_cases_notice_every_slip_is_good() {
    let found = proved(PACK);
    assert!(found.is_empty(), "{found:?}");
}

/// Each case taken away leaves a slip that nobody notices, told at its place with a rig to try.
#[rstest]
#[case("gross_weight: 2,999 lb", "proof::condition")]
#[case("trailer.kind: camper", "proof::condition")]
#[case("trailer.kind: utility, trailer.gross_weight", "proof::member")]
fn a_missing_case_is_found(#[case] without: &str, #[case] code: &str) {
    let kept: Vec<&str> = PACK
        .lines()
        .filter(|l| !(l.contains("given") && l.contains(without)))
        .collect();
    assert!(kept.len() < PACK.lines().count());
    let found = proved(&kept.join("\n"));
    let complaint = found.iter().find(|c| c.code == code);
    let complaint = complaint.unwrap_or_else(|| panic!("{code} among {found:?}"));
    assert!(
        complaint
            .help
            .as_ref()
            .is_some_and(|h| h.contains("given: {")),
        "{complaint:?}"
    );
    assert!(complaint.line_col().is_some());
}

#[rstest]
#[case("at_least", "more_than")]
#[case("3,000 lb}}", "3,001 lb}}")]
#[case("one_of: [boat, utility]", "one_of: [boat]")]
#[case("trailer.gross_weight: {at_least", "trailer.gvwr: {at_least")]
fn a_slip_in_the_rule_makes_a_case_fail(#[case] right: &str, #[case] wrong: &str) {
    let slipped = PACK.replacen(right, wrong, 1);
    assert_ne!(slipped, PACK);
    let found = proved(&slipped);
    assert!(
        found.iter().any(|c| c.code == "proof::case-fails"),
        "{found:?}"
    );
}

/// Rules of one pack set against one another.
#[rstest]
#[case(
    "proof::gap",
    "when: {trailer.gross_weight: {less_than: 3,000 lb}}\n    must: {trailer.braked_wheels: {at_least: 2}}",
    "when: {trailer.gross_weight: {more_than: 3,000 lb}}\n    must: {trailer.braked_wheels: {at_least: 4}}"
)]
#[case(
    "proof::contradiction",
    "when: {use: private}\n    must: {trip.speed: {at_most: 45 mph}}",
    "when: {trailer.kind: boat}\n    must: {trip.speed: {at_least: 50 mph}}"
)]
#[case(
    "proof::repetition",
    "when: {use: private}\n    must: {trip.speed: {at_most: 45 mph}}",
    "when: {use: {equals: private}}\n    must: {trip.speed: {at_most: 45 mph}}"
)]
fn rules_that_do_not_fit_together_are_found(
    #[case] code: &str,
    #[case] one: &str,
    #[case] other: &str,
) {
    let head = PACK.split("rules:").next().unwrap_or_default();
    let rule = |id: &str, body: &str| {
        format!(
            "  - id: {id}\n    topic: speed\n    says: Made up.\n    {body}\n    sources: [{{cite: made up, read: memory, on: 2026-11-25}}]\n"
        )
    };
    let text = format!("{head}rules:\n{}{}", rule("one", one), rule("other", other));
    let found = proved(&text);
    assert!(
        found.iter().any(|c| c.code == code),
        "{code} among {found:?}"
    );
}

#[test]
fn the_pack_to_begin_from_is_proved() {
    for region in pintle::pack::REGIONS {
        let text = skeleton(region, "2026-11-25");
        let found = proved(&text);
        assert!(found.is_empty(), "{}: {found:?}", region.code);
    }
}

/// The schema is that of the OASIS standard, SARIF 2.1.0.
#[test]
fn sarif_is_valid_and_points_at_the_line() {
    // One pattern of the published schema has a stray bracket that not every engine takes.
    let schema = include_str!("data/sarif-2.1.0.schema.json").replace("{2}]?$", "{2}\\\\]?$");
    let schema: serde_json::Value = serde_json::from_str(&schema).expect("the schema is JSON");
    let validator = jsonschema::validator_for(&schema).expect("the schema is a schema");
    for text in [
        PACK.to_owned(),
        PACK.replacen("at_least", "more_than", 1),
        PACK.replacen("boat", "bote", 1),
    ] {
        let found = proved(&text);
        let log = sarif(&found);
        let errors: Vec<String> = validator.iter_errors(&log).map(|e| e.to_string()).collect();
        assert!(errors.is_empty(), "{errors:?}");
        let results = log["runs"][0]["results"].as_array().expect("results");
        assert_eq!(results.len(), found.len());
        for (result, complaint) in results.iter().zip(found.iter()) {
            let region = &result["locations"][0]["physicalLocation"]["region"];
            assert_eq!(
                region["startLine"].as_u64(),
                complaint.line_col().map(|(l, _)| l as u64)
            );
        }
    }
}

#[test]
fn junit_counts_a_test_for_each_rule() {
    let slipped = PACK.replacen("at_least", "more_than", 1);
    for (text, failures) in [(PACK, 0), (slipped.as_str(), 1)] {
        let checks = check_packs(
            Library::built_in(),
            &[SourceText::from_str("zz.yaml", text)],
            Depth::Proof,
        );
        let report = Report::deserialize_from_str(&junit(&checks)).expect("JUnit XML");
        assert_eq!(report.tests, 2, "the pack as a whole, and its one rule");
        assert_eq!(report.failures, failures);
    }
}
