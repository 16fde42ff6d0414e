//! What a sheet says: bands against the figures of statutes, and against the rules themselves.

mod compare;

use pintle::engine::Ruleset;
use pintle::engine::survey::{Asks, Stretch, asks, at_weight};
use pintle::facts::{catalogue, parse_day};
use pintle::pack::{Asked, Library, Topic};
use pintle::quantity::{Dimension, Exact, Interval, Unit, parse_measure};
use pintle::report::{
    CheckDay, Kind, RegionSheet, Sheet, Style, Units, sheet, sheet_html, sheet_json,
    sheet_markdown, sheet_text,
};
use rstest::rstest;
use std::collections::BTreeSet;
use std::sync::OnceLock;

fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in)
}

fn on() -> CheckDay {
    CheckDay::asked(parse_day("2026-12-01").expect("a day"))
}

fn rules(regions: &[&str]) -> Ruleset<'static> {
    let asked: Vec<Asked<'_>> = regions.iter().map(|r| Asked::plain(r)).collect();
    let route = library().route(&asked).expect("regions");
    Ruleset::new(library(), &route, false).expect("packs compile")
}

fn kind(known: &[(&str, &str)]) -> Kind {
    Kind::read(known.iter().copied()).expect("a kind of rig")
}

fn of(region: &str, known: &[(&str, &str)], topics: &[Topic]) -> Sheet {
    sheet(&rules(&[region]), &kind(known), topics, on(), None).expect("a sheet")
}

fn kg(text: &str) -> Exact {
    let read = parse_measure(text, Dimension::Mass).expect("a weight");
    read.interval.is_exact().expect("one weight")
}

/// The rules of a topic that ask something at a weight of an axis, by their short ids.
fn asked_at(region: &RegionSheet, topic: Topic, axis: &str, weight: &str) -> BTreeSet<String> {
    let axis = catalogue().find(axis).expect("a fact");
    let topic = region.topics.iter().find(|t| t.topic == topic);
    let ladders = topic.iter().flat_map(|t| &t.ladders);
    let bands = ladders
        .filter(|l| l.axis == axis)
        .flat_map(|l| &l.bands)
        .filter(|b| b.at.contains(kg(weight)));
    let entries = bands.flat_map(|b| &b.entries);
    entries
        .filter_map(|(at, _)| region.entries.get(*at))
        .flat_map(|e| &e.rules)
        .map(|id| id.rsplit('/').next().unwrap_or(id).to_owned())
        .collect()
}

const BOAT: &[(&str, &str)] = &[("trailer.kind", "boat"), ("use", "private")];

/// Bands turn where the statute's own figure stands, and on the side where the statute puts it.
#[rstest]
// Neb. Rev. Stat. § 60-6,246(2): boat trailers from 3,000 lb on two wheels, from 6,500 lb on all.
#[case("US-NE", BOAT, "2,999.99 lb", &[])]
#[case("US-NE", BOAT, "3,000 lb", &["brakes-recreational-two-wheels", "brakes-from-driving-position"])]
#[case("US-NE", BOAT, "1,360.77711 kg", &["brakes-recreational-two-wheels", "brakes-from-driving-position"])]
#[case("US-NE", BOAT, "6,499.99 lb", &["brakes-recreational-two-wheels", "brakes-from-driving-position"])]
#[case("US-NE", BOAT, "6,500 lb", &["brakes-recreational-all-wheels", "brakes-from-driving-position"])]
fn bands_turn_at_the_statutes_figures(
    #[case] region: &str,
    #[case] known: &[(&str, &str)],
    #[case] weight: &str,
    #[case] expected: &[&str],
) {
    let sheet = of(region, known, &[Topic::Brakes]);
    let found = asked_at(
        &sheet.regions[0],
        Topic::Brakes,
        "trailer.gross_weight",
        weight,
    );
    let expected: BTreeSet<String> = expected.iter().map(|s| (*s).to_owned()).collect();
    assert_eq!(found, expected, "{region} at {weight}");
}

/// Neb. Rev. Stat. § 60-6,246(2): the steps of boat trailers, in words, and no others.
#[test]
fn nebraskas_steps_for_boat_trailers() {
    let sheet = of("US-NE", BOAT, &[Topic::Brakes]);
    let text = sheet_text(&sheet, Style::default());
    for words in [
        "Less than 3,000 lb",
        "3,000 lb or more, but less than 6,500 lb",
        "6,500 lb or more",
    ] {
        assert!(
            text.contains(&format!("\n  {words}\n")),
            "{words} in\n{text}"
        );
    }
    assert_eq!(sheet.regions[0].topics[0].ladders[0].bands.len(), 3);
}

/// A weight asked for leaves out the bands beyond it, and invents no figure of its own.
#[test]
fn weights_asked_for_cut_no_band() {
    let asked = [BOAT, &[("trailer.gross_weight", "0 lb to 5,000 lb")]].concat();
    let sheet = of("US-NE", &asked, &[Topic::Brakes]);
    let bands = &sheet.regions[0].topics[0].ladders[0].bands;
    assert_eq!(bands.len(), 2);
    assert_eq!(bands[1].at.from, Some((kg("3,000 lb"), Unit::Pound)));
    assert_eq!(bands[1].at.to, None);
    assert!(!sheet_text(&sheet, Style::default()).contains("5,000 lb or"));
}

/// What every band says is what the engine says at weights on it: at its ends, and throughout.
#[rstest]
#[case("US-NE", BOAT)]
#[case("US-CA", BOAT)]
#[case("CA-ON", BOAT)]
#[case("US-TX", &[("trailer.kind", "flatbed"), ("use", "private")])]
#[case("US-FL", &[("trailer.kind", "utility"), ("use", "business")])]
#[case("US-PA", &[("trailer.kind", "camper")])]
fn bands_agree_with_the_engine(#[case] region: &str, #[case] known: &[(&str, &str)]) {
    let rules = rules(&[region]);
    let kind = kind(known);
    let sheet = sheet(&rules, &kind, &[], on(), None).expect("a sheet");
    let facts = kind.facts(on()).expect("no contradiction");
    let program = rules.program();
    let part = &sheet.regions[0];
    let mut checked = 0;
    for ladder in part.topics.iter().flat_map(|t| &t.ladders) {
        for band in &ladder.bands {
            for weight in weights_on(&band.at) {
                let facts = at_weight(
                    &facts,
                    ladder.axis,
                    Interval::exactly(weight),
                    Some(on().day),
                );
                for (at, entry) in part.entries.iter().enumerate() {
                    if !ladder
                        .bands
                        .iter()
                        .any(|b| b.entries.iter().any(|(e, _)| *e == at))
                    {
                        continue;
                    }
                    let told = band.entries.iter().find(|(e, _)| *e == at);
                    let told = told.map_or(Asks::Nothing, |(_, asks)| *asks);
                    let codes = program.rules.iter().filter(|r| entry.rules.contains(&r.id));
                    let real = codes
                        .map(|r| asks(program, r, &facts, Some(on().day)))
                        .max()
                        .expect("a rule");
                    // A band may leave open what one weight would settle, never the other way round.
                    let fits = told == real || told == Asks::Perhaps;
                    assert!(
                        fits,
                        "{:?} at {weight}: {told:?}, in truth {real:?}",
                        entry.rules
                    );
                    assert!(told != Asks::Nothing || real == Asks::Nothing);
                    checked += 1;
                }
            }
        }
    }
    assert!(checked > 5, "only {checked} places were looked at");
}

fn weights_on(at: &Stretch) -> Vec<Exact> {
    let mut out: Vec<Exact> = [at.from, at.to]
        .into_iter()
        .flatten()
        .map(|e| e.0)
        .collect();
    let low = at.from.map_or(Exact::ZERO, |e| e.0);
    let high = at
        .to
        .map_or_else(|| low.checked_add(kg("4,000 lb")).expect("fits"), |e| e.0);
    let width = high.checked_sub(low).expect("fits");
    for n in 1..8 {
        let part = width
            .checked_mul(Exact::new(n, 8).expect("a share"))
            .expect("fits");
        out.push(low.checked_add(part).expect("fits"));
    }
    out.retain(|x| at.contains(*x));
    out
}

/// Every rule of a region is told once, or counted as one that cannot bind.
#[rstest]
#[case("US-NE")]
#[case("CA-BC")]
#[case("US-OR")]
fn no_rule_is_lost(#[case] region: &str) {
    let rules = rules(&[region]);
    let sheet = sheet(&rules, &kind(BOAT), &[], on(), None).expect("a sheet");
    let part = &sheet.regions[0];
    let told: Vec<&String> = part.entries.iter().flat_map(|e| &e.rules).collect();
    let distinct: BTreeSet<&&String> = told.iter().collect();
    assert_eq!(told.len(), distinct.len(), "a rule is told twice");
    assert_eq!(told.len() + part.left_out, rules.bindings()[0].rules.len());
    let mut placed: BTreeSet<usize> = BTreeSet::new();
    for topic in &part.topics {
        placed.extend(&topic.always);
        let bands = topic.ladders.iter().flat_map(|l| &l.bands);
        placed.extend(bands.flat_map(|b| &b.entries).map(|(at, _)| *at));
    }
    assert_eq!(placed.len(), part.entries.len());
}

/// A rule left out is one that the engine calls not applying for every such rig that is looked at.
#[test]
fn what_is_left_out_cannot_bind() {
    let rules = rules(&["US-NE"]);
    let facts = kind(BOAT).facts(on()).expect("no contradiction");
    let gross = catalogue().find("trailer.gross_weight").expect("a fact");
    let program = rules.program();
    for rule in &program.rules {
        if asks(program, rule, &facts, Some(on().day)) != Asks::Nothing {
            continue;
        }
        for weight in ["1 lb", "2,999 lb", "3,000 lb", "8,000 lb", "40,000 lb"] {
            let at = at_weight(&facts, gross, Interval::exactly(kg(weight)), Some(on().day));
            assert_eq!(
                asks(program, rule, &at, Some(on().day)),
                Asks::Nothing,
                "{}",
                rule.id
            );
        }
    }
}

/// Other units stand beside the statute's own, which is never lost.
#[rstest]
#[case("US-NE", Some(Units::Metric), "about 1,360.8 kg (3,000 lb)")]
#[case("US-NE", Some(Units::Us), "3,000 lb or more")]
#[case("US-NE", None, "3,000 lb or more")]
#[case("CA-ON", Some(Units::Us), "about 2,998.3 lb (1,360 kg)")]
#[case("CA-ON", Some(Units::Metric), "1,360 kg")]
fn units_are_told_beside_the_statutes(
    #[case] region: &str,
    #[case] units: Option<Units>,
    #[case] expected: &str,
) {
    let sheet = sheet(
        &rules(&[region]),
        &kind(BOAT),
        &[Topic::Brakes],
        on(),
        units,
    )
    .expect("a sheet");
    let text = sheet_text(
        &sheet,
        Style {
            width: 200,
            color: false,
        },
    );
    assert!(
        text.to_lowercase().contains(expected),
        "{expected} in\n{text}"
    );
    assert!(sheet_html(&sheet).to_lowercase().contains(expected));
}

/// All forms hold every rule, its sources, the notice and the authority.
#[test]
fn every_form_tells_the_same() {
    let sheet = of("US-NE", BOAT, &[]);
    let json = serde_json::to_string(&sheet_json(&sheet)).expect("JSON");
    let plain = sheet_text(
        &sheet,
        Style {
            width: 4000,
            color: false,
        },
    );
    let html = sheet_html(&sheet)
        .replace("<strong class=\"figure\">", "")
        .replace("</strong>", "");
    let markdown = sheet_markdown(&sheet).replace("**", "").replace('\\', "");
    for form in [&plain, &html, &markdown] {
        for entry in &sheet.regions[0].entries {
            assert!(form.contains(&entry.says), "{} is missing", entry.says);
        }
        assert!(form.contains("Nebraska State Patrol, Carrier Enforcement"));
        assert!(form.contains("certifies nothing"));
        assert!(
            form.contains("second-hand"),
            "the grade of a source is told"
        );
        assert!(form.contains("2026-11-25"), "the day of reading is told");
    }
    for entry in &sheet.regions[0].entries {
        assert!(json.contains(&entry.rules[0]));
    }
    let boxes = html.matches("<input type=\"checkbox\"").count();
    let looks: usize = sheet.regions[0].entries.iter().map(|e| e.looks.len()).sum();
    assert_eq!(boxes, sheet.regions[0].entries.len() + looks);
}

/// The same sheet gives the same bytes.
#[test]
fn sheets_are_reproducible() {
    let (a, b) = (of("CA-ON", BOAT, &[]), of("CA-ON", BOAT, &[]));
    assert_eq!(sheet_html(&a), sheet_html(&b));
    assert_eq!(sheet_markdown(&a), sheet_markdown(&b));
}

/// Nobody is sent to look at what cannot matter: the width of baled forage, or what projects from a
/// camper, when the trailer carries a boat; a farmer's trailer, when the use is private. The reliefs
/// are those of Neb. Rev. Stat. § 60-6,288(2) and § 60-6,246.
#[test]
fn looks_are_those_that_can_still_decide() {
    let looks = |known: &[(&str, &str)]| -> String {
        let sheet = of("US-NE", known, &[]);
        let entries = sheet.regions[0].entries.iter();
        entries
            .flat_map(|e| e.looks.clone())
            .collect::<Vec<_>>()
            .join("; ")
    };
    let boat = looks(BOAT);
    for other in ["forage", "camper", "farmer"] {
        assert!(!boat.contains(other), "{other}: {boat}");
    }
    assert!(looks(&[("trailer.kind", "camper")]).contains("only appurtenances of the camper"));
    let farm = looks(&[("trailer.kind", "flatbed"), ("use", "farm")]);
    assert!(
        farm.contains("baled forage") && farm.contains("farmer"),
        "{farm}"
    );
}

/// A page read for several rules gives its address once.
#[test]
fn a_source_read_for_several_rules_tells_its_address_once() {
    let html = sheet_html(&of("US-NE", BOAT, &[]));
    let address =
        ">https://lawserver.com/law/state/nebraska/ne-statutes/nebraska_statutes_60-6_246<";
    assert_eq!(html.matches(address).count(), 1);
    assert!(html.contains("as source <a href=\"#part-us-ne-source-1\">1</a>"));
}
