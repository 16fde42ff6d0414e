//! Reports through the library: what they hold, how they are set, and the calendar behind them.

use pintle::engine::{Outcome, PRACTICE, Ruleset};
use pintle::facts::{day_before, format_day, parse_day};
use pintle::pack::{Asked, Library};
use pintle::quantity::{Dimension, parse_measure};
use pintle::report::{CheckDay, DayFrom, Detail, Page, Report, Style, Tone, grouped, worked_out};
use pintle::rig::{Rig, read_rig};
use pintle::source::SourceText;
use pintle::source::clean::is_unsafe;
use proptest::prelude::*;
use rstest::rstest;
use std::path::Path;

fn rig(text: &str) -> Rig {
    read_rig(&SourceText::from_str(
        "rig.yaml",
        &format!("rig: 1\n{text}"),
    ))
    .expect("a rig")
}

fn library() -> Library {
    let mut library = Library::empty();
    library
        .add_path(Path::new("tests/packs"))
        .expect("the packs for the tests");
    library
}

fn day(text: &str) -> CheckDay {
    CheckDay::asked(parse_day(text).expect("a day"))
}

fn report(text: &str, regions: &[&str], on: &str, detail: Detail) -> Report {
    let library = library();
    let asked: Vec<Asked<'_>> = regions.iter().map(|r| Asked::plain(r)).collect();
    let route = library.route(&asked).expect("regions");
    let rules = Ruleset::new(&library, &route, true).expect("rules");
    Report::new(&rig(text), &rules, day(on), detail).expect("a report")
}

const TWO_CHAINS: &str = "trailer: {coupling: ball, safety_chains: {count: 2}}";

#[test]
fn findings_that_do_not_apply_are_counted_and_only_then_told() {
    let some = report(TWO_CHAINS, &["US-NE"], "2026-12-01", Detail::Applying);
    let all = report(TWO_CHAINS, &["US-NE"], "2026-12-01", Detail::All);
    assert_eq!(some.tallies, all.tallies);
    let left_out = all.findings.len() - some.findings.len();
    assert_eq!(left_out, all.count(Outcome::DoesNotApply));
    assert!(
        left_out > 0
            && some
                .findings
                .iter()
                .all(|f| f.outcome != Outcome::DoesNotApply)
    );
    let told: usize = Outcome::ALL.iter().map(|o| all.count(*o)).sum();
    assert_eq!(told, all.findings.len());
}

#[test]
fn a_rule_that_binds_in_two_regions_is_told_once() {
    let r = report(TWO_CHAINS, &["US-NE", "US-CO"], "2026-12-01", Detail::All);
    assert_eq!(r.regions, ["US-NE", "US-CO"]);
    let of_rule = r
        .findings
        .iter()
        .filter(|f| f.rule == "test-federal/chains-two")
        .count();
    assert_eq!(of_rule, 2);
    let met = grouped(&r.findings, Outcome::Met);
    let told: Vec<_> = met
        .iter()
        .filter(|t| t.rules() == ["test-federal/chains-two"])
        .collect();
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].regions(), ["US-NE", "US-CO"]);
    assert_eq!(told[0].sources().len(), 1);
}

#[test]
fn a_rule_that_two_packs_adopt_is_told_once_with_both_laws() {
    let text = "load: [{name: kiln, weight: 100 lb, tie_downs: [{working_load_limit: 90 lb, path: over}]}]";
    let r = report(text, &["US-NE", "US-CO"], "2026-12-01", Detail::All);
    let met = grouped(&r.findings, Outcome::Met);
    let told = met
        .iter()
        .find(|t| t.rules().len() == 2)
        .expect("the adopted rule");
    let cites: Vec<&str> = told.sources().iter().map(|s| s.cite.as_str()).collect();
    assert_eq!(
        cites,
        [
            "Nebraska Test Code § 9",
            "Test Standard, section 4",
            "Colorado Test Statute 8-20"
        ]
    );
}

#[rstest]
#[case::before("1998-06-30", Outcome::DoesNotApply, Outcome::DoesNotApply)]
#[case::first_day("1998-07-01", Outcome::NotMet, Outcome::DoesNotApply)]
#[case::last_day("2021-12-31", Outcome::NotMet, Outcome::DoesNotApply)]
#[case::the_next_day("2022-01-01", Outcome::DoesNotApply, Outcome::Met)]
fn rules_are_those_of_the_day(#[case] on: &str, #[case] old: Outcome, #[case] new: Outcome) {
    let r = report(
        "trip: {speed: 60 mph, on: 2001-01-01}",
        &["US-NE"],
        on,
        Detail::All,
    );
    let of = |id: &str| r.findings.iter().find(|f| f.rule == id).map(|f| f.outcome);
    assert_eq!(of("test-ne/speed-of-1998"), Some(old));
    assert_eq!(of("test-ne/speed"), Some(new));
    let stated = r
        .worked_out
        .iter()
        .find(|w| w.name == "trip.on")
        .map(|w| w.value.clone());
    assert_eq!(
        stated.as_deref(),
        Some(on),
        "the day asked for stands over the rig's"
    );
}

#[test]
fn every_region_has_its_authority_and_its_gaps() {
    let r = report(TWO_CHAINS, &["US-NE", "US-CO"], "2026-12-01", Detail::All);
    let names: Vec<&str> = r.authorities.iter().map(|(_, a)| a.name.as_str()).collect();
    assert_eq!(names, ["Nebraska Test Patrol", "Colorado Test Patrol"]);
    let gap = |region: &str, topic: &str| {
        r.not_covered
            .iter()
            .any(|(g, t)| g == region && t.name() == topic)
    };
    assert!(gap("US-CO", "mirrors") && !gap("US-NE", "mirrors"));
    assert!(r.not_covered.iter().all(|(g, _)| g != PRACTICE));
}

#[test]
fn worked_out_facts_of_items_have_names_of_their_own() {
    let strap = "tie_downs: [{working_load_limit: 500 lb, path: over}]";
    let text = format!(
        "load:\n  - {{name: kiln, {strap}}}\n  - {{name: Kiln!, {strap}}}\n  - {{name: Stall boards, {strap}}}\n  - {{{strap}}}\n"
    );
    let facts = pintle::report::facts_on(&rig(&text), day("2026-12-01")).expect("facts");
    let all = worked_out(&facts);
    let names: Vec<&str> = all
        .iter()
        .map(|w| w.name.as_str())
        .filter(|n| n.ends_with(".aggregate_limit"))
        .collect();
    assert_eq!(
        names,
        [
            "load.kiln.aggregate_limit",
            "load.kiln-2.aggregate_limit",
            "load.stall-boards.aggregate_limit",
            "load.4.aggregate_limit"
        ]
    );
}

#[test]
fn the_day_of_a_check() {
    let today = parse_day("2030-01-01").expect("a day");
    let with_day = rig("trip: {on: 2026-12-01}");
    let without = rig("name: x");
    let month = rig("trip: {on: 2026-12}");
    let chosen =
        |asked, rig| CheckDay::choose(asked, Some(rig), today).map(|d| (format_day(d.day), d.from));
    assert_eq!(
        chosen(None, &with_day),
        Ok(("2026-12-01".to_owned(), DayFrom::Trip))
    );
    assert_eq!(
        chosen(Some(today), &with_day),
        Ok(("2030-01-01".to_owned(), DayFrom::Asked))
    );
    assert_eq!(
        chosen(None, &without),
        Ok(("2030-01-01".to_owned(), DayFrom::Today))
    );
    assert!(chosen(None, &month).is_err_and(|c| c.code == "report::several-days"));
    assert!(chosen(Some(today), &month).is_ok());
}

#[rstest]
#[case("1 month", "2026-03-31", Some("2026-02-28"))]
#[case("12 months", "2026-03-31", Some("2025-03-31"))]
#[case("1 year", "2024-02-29", Some("2023-02-28"))]
#[case("30 days", "2026-03-31", Some("2026-03-01"))]
#[case("36 h", "2026-03-31", Some("2026-03-29"))]
#[case("20000 years", "2026-03-31", None)]
fn days_before(#[case] stretch: &str, #[case] from: &str, #[case] expected: Option<&str>) {
    let stretch = parse_measure(stretch, Dimension::Time).expect("a time");
    let before = day_before(parse_day(from).expect("a day"), &stretch);
    assert_eq!(before.map(format_day).as_deref(), expected);
}

proptest! {
    #[test]
    fn a_page_keeps_its_width_and_lets_nothing_unsafe_out(
        // Scripts whose letters join or stack have no width that terminals agree on.
        texts in proptest::collection::vec("([ -~]|[À-ÿ]|[α-ω]|[\\x00-\\x1f\\x7f\u{9b}\u{202e}\n ]){0,60}", 1..6),
        width in 0usize..120,
        indent in 0usize..12,
        color: bool,
    ) {
        let mut page = Page::new(Style { width, color });
        for text in &texts {
            page.item(indent, "Note  ", text);
            page.para(indent, Tone::Strong, text);
            page.heading(Tone::Look, text);
        }
        let set = page.finish();
        let bad = |c: char| c != '\n' && c != '\u{1b}' && is_unsafe(c);
        prop_assert!(!set.chars().any(bad), "{:?}", set);
        if !color {
            prop_assert!(!set.contains('\x1b'));
            // A character two columns wide may stand at the last column.
            let long = set.lines().find(|l| textwrap::core::display_width(l) > width.max(30) + 1);
            prop_assert!(long.is_none(), "{:?}", long);
        }
    }
}
