//! What a comparison says, against the figures of statutes and against the engine; the map of tiles.

use super::{BOAT, kg, kind, on, rules};
use pintle::engine::survey::at_weight;
use pintle::facts::catalogue;
use pintle::pack::Topic;
use pintle::quantity::Interval;
use pintle::report::{
    Style, comparison, comparison_html, comparison_json, comparison_markdown, comparison_text,
};
use rstest::rstest;
use std::collections::BTreeSet;

/// The weight from which a trailer without brakes breaks a rule, read off the comparison.
#[rstest]
// Neb. Rev. Stat. § 60-6,246(2).
#[case("US-NE", "from 3,000 lb")]
// O.C.G.A. § 40-8-50(f), as the pack cites it: 3,000 lb or more.
#[case("US-GA", "from 3,000 lb")]
// 75 Pa. C.S. § 4502, as the pack cites it: above 3,000 lb.
#[case("US-PA", "above 3,000 lb")]
// Ontario, R.R.O. 1990, as the pack cites it: 1,360 kg or more.
#[case("CA-ON", "from 1,360 kg")]
fn comparison_finds_the_threshold(#[case] region: &str, #[case] expected: &str) {
    let rules = rules(&[region, "US-NE"]);
    let found = comparison(&rules, &kind(BOAT), Topic::Brakes, on(), None).expect("a comparison");
    let text = comparison_text(
        &found,
        Style {
            width: 300,
            color: false,
        },
    );
    let name = pintle::pack::Region::name_of(region);
    let line = text
        .lines()
        .find(|l| l.trim_start().starts_with(name) && l.contains("  "))
        .unwrap_or_default();
    assert!(line.contains(expected), "{line}");
    for form in [
        comparison_html(&found).to_lowercase(),
        comparison_markdown(&found).to_lowercase(),
    ] {
        assert!(form.contains(expected), "{expected}");
    }
    let bands = &comparison_json(&found)["without"]["regions"][0]["bands"];
    assert!(bands.as_array().is_some_and(|b| b.len() > 1), "{bands}");
}

/// A comparison never calls a weight free of the need where the engine breaks a rule there.
#[test]
fn comparison_agrees_with_the_engine() {
    use pintle::engine::survey::Lack;
    let rules = rules(&["US", "CA"]);
    let found = comparison(&rules, &kind(BOAT), Topic::Brakes, on(), None).expect("a comparison");
    let lack = found.lack.as_ref().expect("brakes are one thing");
    let bare = kind(
        &[
            BOAT,
            &[
                ("combination.trailers", "1"),
                ("trailer.coupling", "ball"),
                ("trailer.built", "2026"),
                ("trailer.wheels", "4"),
                ("trailer.axle_count", "2"),
                ("trailer.brakes", "none"),
                ("trailer.braked_wheels", "0"),
                ("trailer.braked_axles", "0"),
                ("trailer.all_wheels_braked", "no"),
            ],
        ]
        .concat(),
    );
    let facts = bare.facts(on()).expect("no contradiction");
    let gross = catalogue().find("trailer.gross_weight").expect("a fact");
    let program = rules.program();
    let mut broken = 0;
    for weight in [
        "500 lb",
        "1,500 lb",
        "3,000 lb",
        "3,001 lb",
        "7,000 lb",
        "20,000 lb",
    ] {
        let at = at_weight(&facts, gross, Interval::exactly(kg(weight)), Some(on().day));
        let looks = vec![None; program.looks.len()];
        let outcomes = rules.outcomes(&at, &looks, Some(on().day));
        for (binding, (region, stretches)) in rules.bindings().iter().zip(&lack.regions) {
            assert_eq!(&binding.region, region);
            let told = stretches
                .iter()
                .find(|s| s.at.contains(kg(weight)))
                .expect("every weight is on a stretch");
            for index in &binding.rules {
                let rule = &program.rules[*index];
                let names_brakes = told.rules.contains(index);
                let is_broken = outcomes[*index] == pintle::engine::Outcome::NotMet;
                if told.lack == Lack::Broken && names_brakes {
                    assert!(is_broken, "{} at {weight}", rule.id);
                    broken += 1;
                }
                if rule.topic == Topic::Brakes && is_broken {
                    assert_eq!(told.lack, Lack::Broken, "{} at {weight}", rule.id);
                }
            }
        }
    }
    assert!(broken > 50, "only {broken} broken rules were seen");
}

/// Each region has one tile, and no two share a place.
#[test]
fn every_region_has_a_tile() {
    use pintle::pack::REGIONS;
    use pintle::report::TILES;
    let tiles: BTreeSet<&str> = TILES.iter().map(|t| t.region).collect();
    let regions: BTreeSet<&str> = REGIONS
        .iter()
        .filter(|r| !r.is_country())
        .map(|r| r.code)
        .collect();
    assert_eq!(tiles, regions);
    let places: BTreeSet<(u8, u8)> = TILES.iter().map(|t| (t.column, t.row)).collect();
    assert_eq!(places.len(), TILES.len());
}

/// Neighbours across a border touch on the map, north lies above south, west left of east.
#[rstest]
#[case("US-WA", "US-OR")]
#[case("CA-BC", "US-WA")]
#[case("US-ND", "US-SD")]
#[case("CA-ON", "US-MI")]
#[case("US-NE", "US-KS")]
#[case("US-TN", "US-AL")]
fn north_lies_above_south(#[case] north: &str, #[case] south: &str) {
    let tile = |code: &str| {
        pintle::report::TILES
            .iter()
            .find(|t| t.region == code)
            .copied()
            .expect("a tile")
    };
    let (a, b) = (tile(north), tile(south));
    assert!(a.row < b.row, "{north} and {south}");
    assert!(a.column.abs_diff(b.column) <= 1, "{north} and {south}");
}
