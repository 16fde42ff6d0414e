//! Pages of HTML: nothing of an input acts on them, they can be read by everybody, and what is drawn
//! is where the facts say.

use pintle::engine::Ruleset;
use pintle::engine::solve::{Standing, find_subject, range};
use pintle::facts::{FactSet, ItemId, Scope, catalogue, parse_day};
use pintle::pack::{Asked, Library, PackText, Topic};
use pintle::report::{
    CheckDay, Detail, Kind, PAIRS, Report, comparison, comparison_html, contrast, facts_on,
    report_html, sheet, sheet_html, sheet_markdown,
};
use pintle::rig::{Rig, read_rig};
use pintle::source::{SourceText, read_path};
use roxmltree::{Document, Node};
use rstest::rstest;
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::OnceLock;

fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in)
}

fn on() -> CheckDay {
    CheckDay::asked(parse_day("2026-12-01").expect("a day"))
}

fn rules(library: &'static Library, regions: &[&str], practice: bool) -> Ruleset<'static> {
    let asked: Vec<Asked<'_>> = regions.iter().map(|r| Asked::plain(r)).collect();
    let route = library.route(&asked).expect("regions");
    Ruleset::new(library, &route, practice).expect("packs compile")
}

fn rig(name: &str) -> Rig {
    let path = format!("tests/rigs/{name}.yaml");
    read_rig(&read_path(Path::new(&path)).expect("the file")).expect("a rig")
}

fn page_of(rig: &Rig, practice: bool) -> String {
    let rules = rules(library(), &["US-NE"], practice);
    let report = Report::new(rig, &rules, on(), Detail::Applying).expect("a report");
    report_html(&report, rig, &rules, None).expect("a page")
}

/// The page of the demo rig, made once.
fn demo() -> &'static str {
    static ONE: OnceLock<String> = OnceLock::new();
    ONE.get_or_init(|| page_of(&rig("kiln-trailer-measured"), true))
}

fn boat() -> Kind {
    Kind::read([("trailer.kind", "boat"), ("use", "private")]).expect("a kind")
}

fn pages() -> &'static [String; 4] {
    static ONE: OnceLock<[String; 4]> = OnceLock::new();
    ONE.get_or_init(|| {
        let two = rules(library(), &["US-NE", "CA-ON"], true);
        let all = rules(library(), &["US", "CA"], false);
        let sheet = sheet(&two, &boat(), &[], on(), None).expect("a sheet");
        let brakes = comparison(&all, &boat(), Topic::Brakes, on(), None).expect("a comparison");
        [
            demo().to_owned(),
            sheet_html(&sheet),
            comparison_html(&brakes),
            page_of(&rig("kiln-trailer"), true),
        ]
    })
}

/// Text of a rig file stays text, whatever it is made of.
#[test]
fn names_from_a_rig_stay_text() {
    let page = page_of(&rig("hostile-names"), false);
    for tag in ["<script", "<img", "<svg onload"] {
        assert!(!page.contains(tag), "{tag} got into the page");
    }
    // Written as text, the handlers are harmless; as attributes they would be.
    let inside_a_tag = page.split('<').skip(1).filter_map(|t| t.split('>').next());
    for tag in inside_a_tag {
        let outside_quotes: String = tag.split('"').step_by(2).collect();
        assert!(!outside_quotes.contains("onerror"), "{tag}");
        assert!(!outside_quotes.contains("onload"), "{tag}");
    }
    assert!(page.contains("&lt;script&gt;alert('rig')&lt;/script&gt;evil"));
    assert!(!page.contains('\u{202E}') && !page.contains('\u{7}'));
    assert_eq!(page.matches("</style>").count(), 1);
    assert_eq!(
        page.matches("@page {").count(),
        1 + page.matches("@page { size: 1cm }").count()
    );
}

/// The same of packs, which come from others too.
#[test]
fn words_of_a_pack_stay_text() {
    let text = r#"
pack: us-ne
format: 1
version: 1.0.0
region: US-NE
title: "<b>Nebraska</b>"
authority: {name: "<script>alert(1)</script>", web: "javascript:alert(2)"}
rules:
  - id: evil
    topic: brakes
    says: "A trailer of 3,000 lb <img src=x onerror=alert(3)> has brakes. ![x](javascript:alert(4))"
    when: {trailer.gross_weight: {at_least: 3,000 lb}}
    must: {trailer.has_brakes: yes}
    sources: [{cite: "</li><script>alert(5)</script>", at: "javascript:alert(6)", read: memory, on: 2026-11-25}]
    cases:
      - {given: {trailer.gross_weight: 3,000 lb, trailer.has_brakes: no}, expect: not-met}
"#;
    static ONE: OnceLock<Library> = OnceLock::new();
    let library = ONE.get_or_init(|| {
        let mut library = Library::empty();
        library.add(PackText {
            id: "us-ne".to_owned(),
            source: SourceText::from_str("evil.yaml", text),
        });
        library
    });
    let rules = rules(library, &["US-NE"], false);
    let sheet = sheet(&rules, &boat(), &[], on(), None).expect("a sheet");
    let html = sheet_html(&sheet);
    assert!(!html.contains("<script") && !html.contains("<img"));
    assert!(
        !html.contains("href=\"javascript"),
        "only addresses of the web are links"
    );
    let markdown = sheet_markdown(&sheet);
    assert!(!markdown.contains("<script") && !markdown.contains("<img"));
    assert!(!markdown.contains("![x]") && !markdown.contains("<javascript"));
}

/// Text keeps a contrast of 4.5 to 1 at least (WCAG 2.2, 1.4.3).
#[test]
fn shades_keep_their_contrast() {
    for (ink, ground) in PAIRS {
        let found = contrast(ink, ground).expect("two shades");
        assert!(found >= 4.5, "{ink} on {ground}: {found:.2}");
    }
}

/// Contrasts that are known: black on white is 21 to 1, #777777 on white 4.48 to 1 (WebAIM's table).
#[rstest]
#[case("#000000", "#ffffff", 21.0)]
#[case("#777777", "#ffffff", 4.48)]
#[case("#ffffff", "#ffffff", 1.0)]
fn contrast_is_reckoned_as_wcag_does(#[case] a: &str, #[case] b: &str, #[case] expected: f64) {
    let found = contrast(a, b).expect("two shades");
    assert!((found - expected).abs() < 0.005, "{found}");
    assert_eq!(contrast(b, a), Some(found));
}

/// Every shade on a page is one of the palette's pairs, or the thin line that carries no text.
#[test]
fn pages_use_no_other_shades() {
    let mut known: BTreeSet<&str> = PAIRS.iter().flat_map(|(a, b)| [*a, *b]).collect();
    known.insert("#77838f");
    for page in pages() {
        for (at, _) in page.match_indices('#') {
            let shade: String = page[at..].chars().take(7).collect();
            let is_hex = shade.len() == 7 && shade[1..].chars().all(|c| c.is_ascii_hexdigit());
            let ends = page[at..]
                .chars()
                .nth(7)
                .is_none_or(|c| !c.is_ascii_alphanumeric() && c != '-');
            if is_hex && ends {
                assert!(
                    known.contains(shade.as_str()),
                    "{shade} is not of the palette"
                );
            }
        }
    }
}

/// A page needs no script, fetches nothing, says its language, and its headings go down one by one.
#[test]
fn pages_stand_alone_and_in_order() {
    for page in pages() {
        assert!(page.starts_with("<!DOCTYPE html><html lang=\"en\">"));
        assert!(page.contains("default-src 'none'"));
        for fetched in ["<script", "<link", " src=", "@import", "<iframe", "<object"] {
            assert!(!page.contains(fetched), "{fetched}");
        }
        for (at, _) in page.match_indices("url(") {
            assert!(page[at..].starts_with("url(#"), "{}", &page[at..at + 30]);
        }
        let mut last = 0;
        let mut firsts = 0;
        for (at, _) in page.match_indices("<h") {
            let Some(level) = page[at + 2..].chars().next().and_then(|c| c.to_digit(10)) else {
                continue;
            };
            assert!(level <= last + 1, "h{level} after h{last}");
            firsts += u32::from(level == 1);
            last = level;
        }
        assert_eq!(firsts, 1, "one heading of the first order");
        let ids: Vec<&str> = page
            .match_indices(" id=\"")
            .filter_map(|(at, m)| page[at + m.len()..].split('"').next())
            .collect();
        let distinct: BTreeSet<&&str> = ids.iter().collect();
        assert_eq!(ids.len(), distinct.len(), "an id stands twice");
        for (at, m) in page.match_indices("href=\"#") {
            let target = page[at + m.len()..].split('"').next().unwrap_or_default();
            assert!(ids.contains(&target), "#{target} leads nowhere");
        }
    }
}

/// Every picture has words in its place.
#[test]
fn pictures_have_words() {
    for page in pages() {
        for (at, _) in page.match_indices("<svg") {
            let svg = &page[at..];
            let open = &svg[..svg.find('>').expect("an end")];
            if open.contains("aria-hidden") {
                continue;
            }
            let title = svg
                .find("<title")
                .and_then(|t| svg[t..].split(['>', '<']).nth(2));
            assert!(
                open.contains("role=\"img\"") && open.contains("aria-labelledby"),
                "{open}"
            );
            assert!(title.is_some_and(|t| t.len() > 20), "{open}: {title:?}");
        }
    }
}

fn side_view(page: &str) -> &str {
    let start = page.find("<svg class=\"rig\"").expect("a side view");
    let end = start + page[start..].find("</svg>").expect("its end") + "</svg>".len();
    &page[start..end]
}

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name)
        .and_then(|v| v.parse().ok())
        .unwrap_or_else(|| panic!("{name} of {node:?}"))
}

fn of_class<'a, 'i>(doc: &'a Document<'i>, class: &'a str) -> impl Iterator<Item = Node<'a, 'i>> {
    doc.descendants()
        .filter(move |n| n.attribute("class") == Some(class))
}

/// Metres to pixels, read off the marks of the ruler.
fn ruler(doc: &Document<'_>) -> impl Fn(f64) -> f64 + use<> {
    let marks: Vec<(f64, f64)> = of_class(doc, "mark")
        .map(|m| (number(m, "data-metres"), number(m, "x1")))
        .collect();
    let (first, last) = (marks[0], marks[marks.len() - 1]);
    let per_metre = (last.1 - first.1) / (last.0 - first.0);
    move |metres| first.1 + (metres - first.0) * per_metre
}

fn metres(facts: &FactSet, item: ItemId, name: &str) -> f64 {
    let fact = catalogue().find(name).expect("a fact");
    let value = facts.value(item, fact).interval();
    value.is_exact().expect("one value").to_f64()
}

fn near(found: f64, expected: f64, what: &str) {
    assert!(
        (found - expected).abs() <= 1.0,
        "{what}: {found} px, expected {expected} px"
    );
}

/// What is drawn stands where the facts say, to a pixel of the ruler on the drawing.
#[test]
fn positions_are_to_scale() {
    let rig = rig("kiln-trailer-measured");
    let facts = facts_on(&rig, on()).expect("no contradiction");
    let doc = Document::parse(side_view(demo())).expect("well-formed");
    let at = ruler(&doc);
    let one = |class: &'static str| of_class(&doc, class).next().expect("one of it");
    near(number(one("coupler"), "cx"), at(0.0), "coupler");
    let deck_front = metres(&facts, ItemId::RIG, "trailer.coupler_to_deck");
    let deck_long = metres(&facts, ItemId::RIG, "trailer.body_length");
    let deck = one("deck");
    near(number(deck, "x"), at(deck_front), "front of the deck");
    near(
        number(deck, "x") + number(deck, "width"),
        at(deck_front + deck_long),
        "rear of the deck",
    );
    let item = |scope, index| ItemId { scope, index };
    for (n, axle) in of_class(&doc, "axle").enumerate() {
        let place = metres(&facts, item(Scope::Axle, n), "axle.position");
        near(number(axle, "cx"), at(place), "axle");
    }
    assert_eq!(of_class(&doc, "axle").count(), 2);
    let overhang = metres(&facts, ItemId::RIG, "tow_vehicle.hitch.overhang");
    let wheelbase = metres(&facts, ItemId::RIG, "tow_vehicle.wheelbase");
    let wheels: Vec<f64> = of_class(&doc, "vehicle-axle")
        .map(|w| number(w, "cx"))
        .collect();
    near(wheels[0], at(-overhang - wheelbase), "front axle");
    near(wheels[1], at(-overhang), "rear axle");
    let items: Vec<Node<'_, '_>> = of_class(&doc, "item").collect();
    assert_eq!(items.len(), 3);
    for (n, drawn) in items.iter().enumerate() {
        let place = metres(&facts, item(Scope::Load, n), "load.position");
        let long = metres(&facts, item(Scope::Load, n), "load.length");
        let part = |class: &str| {
            drawn
                .descendants()
                .find(|d| d.attribute("class") == Some(class))
                .expect("a part")
        };
        near(number(part("centre"), "cx"), at(place), "centre of an item");
        let body = part("body");
        near(
            number(body, "x"),
            at(place - long / 2.0),
            "front of an item",
        );
        near(
            number(body, "x") + number(body, "width"),
            at(place + long / 2.0),
            "rear of an item",
        );
    }
}

/// The strips of allowed places are what the solver answers, to a pixel.
#[test]
fn allowed_places_are_the_solvers() {
    let rig = rig("kiln-trailer-measured");
    let rules = rules(library(), &["US-NE"], true);
    let doc = Document::parse(side_view(demo())).expect("well-formed");
    let at = ruler(&doc);
    let looks = rules.looks(&rig.seen);
    let subject = find_subject(&rig.facts, "load.kiln.position", Some(on().day)).expect("a fact");
    let found = range(&rules, &rig.facts, &looks, &subject);
    let lane = of_class(&doc, "lane").next().expect("a lane");
    let drawn: Vec<Node<'_, '_>> = lane
        .children()
        .filter(|c| matches!(c.attribute("class"), Some("allowed" | "open" | "barred")))
        .collect();
    assert!(drawn.len() > 1, "the kiln's place matters");
    for part in &drawn {
        for (name, edge) in [("data-from", "x"), ("data-to", "end")] {
            let Some(place) = part.attribute(name).and_then(|v| v.parse::<f64>().ok()) else {
                continue;
            };
            let px = if edge == "x" {
                number(*part, "x")
            } else {
                number(*part, "x") + number(*part, "width")
            };
            if place > 0.0 && at(place) < 930.0 {
                near(px, at(place), "end of a strip");
            }
        }
    }
    // Where the drawing says that no rule is broken, the solver finds none that the place could mend.
    let everywhere: BTreeSet<usize> = found
        .bands
        .iter()
        .map(|b| {
            if b.standing == Standing::Broken {
                b.rules.clone()
            } else {
                BTreeSet::new()
            }
        })
        .reduce(|a, b| a.intersection(&b).copied().collect())
        .unwrap_or_default();
    for part in drawn
        .iter()
        .filter(|p| p.attribute("class") != Some("barred"))
    {
        let read = |name: &str| part.attribute(name).and_then(|v| v.parse::<f64>().ok());
        let (Some(from), Some(to)) = (read("data-from"), read("data-to")) else {
            continue;
        };
        let middle = f64::midpoint(from, to);
        let band = found.bands.iter().find(|b| {
            let i = b.value.interval();
            i.lo.is_none_or(|lo| lo.to_f64() <= middle)
                && i.hi.is_none_or(|hi| middle <= hi.to_f64())
        });
        let rules = &band.expect("the line has no gaps").rules;
        let broken = band.is_some_and(|b| b.standing == Standing::Broken);
        assert!(!broken || rules.is_subset(&everywhere), "at {middle} m");
    }
}

/// Bars are as long as the share of the rating, a range from its least to its greatest.
#[test]
fn bars_show_the_share_of_the_rating() {
    let rig = rig("kiln-trailer-measured");
    let facts = facts_on(&rig, on()).expect("no contradiction");
    let page = demo();
    let start = page.find("Weights against ratings. ").expect("bars");
    let start = page[..start].rfind("<svg").expect("a drawing");
    let end = start + page[start..].find("</svg>").expect("its end") + 6;
    let doc = Document::parse(&page[start..end]).expect("well-formed");
    let rating = doc
        .descendants()
        .filter(|n| n.has_tag_name("line") && n.attribute("stroke-width") == Some("2.5"))
        .map(|n| number(n, "x1"))
        .next()
        .expect("the line of the ratings");
    let bar = of_class(&doc, "bar").next().expect("the first bar");
    let spread = of_class(&doc, "spread").next().expect("its range");
    let zero = number(bar, "x");
    let value = |name: &str| {
        let fact = catalogue().find(name).expect("a fact");
        facts.value(ItemId::RIG, fact).interval()
    };
    let (gross, gvwr) = (value("trailer.gross_weight"), value("trailer.gvwr"));
    let share = gross.div(gvwr);
    let least = share.lo.expect("known").to_f64();
    let most = share.hi.expect("known").to_f64();
    assert!(least < most, "the kiln's weight is a range");
    near(number(bar, "width"), (rating - zero) * least, "sure part");
    near(
        number(spread, "x") + number(spread, "width"),
        zero + (rating - zero) * most,
        "range",
    );
    // 5,120 lb to 5,420 lb of 7,000 lb: empty 1,650 + kiln 3,100 to 3,400 + wheel 130 + boards 240.
    assert!(page.contains("5,120 lb to 5,420 lb of 7,000 lb: 73.1% to 77.4%"));
}

/// What is not stated is drawn with broken lines and named, and gets no place on the ruler.
#[test]
fn what_is_missing_is_not_invented() {
    let page = &pages()[3];
    let doc = Document::parse(side_view(page)).expect("well-formed");
    for class in ["deck", "axle", "vehicle-axle", "item", "mark", "lane"] {
        assert_eq!(of_class(&doc, class).count(), 0, "{class} is drawn");
    }
    assert!(of_class(&doc, "unknown").count() >= 5);
    for node in of_class(&doc, "unknown") {
        let mut shapes = node
            .descendants()
            .filter(|d| d.has_tag_name("rect") || d.has_tag_name("circle"));
        assert!(shapes.all(|s| s.attribute("stroke-dasharray").is_some()));
    }
    for words in [
        "towing vehicle: sizes not stated, not to scale",
        "deck: place or length not stated",
        "axles: place not stated",
        "tongue weight not known",
        "Not to scale.",
    ] {
        assert!(page.contains(words), "{words}");
    }
}

/// The page of a rig tells its findings with their grades, the notice and the authority.
#[test]
fn the_customers_page_tells_all() {
    let page = demo();
    for words in [
        "Kiln trailer, spring fair",
        "Broken (",
        "certifies nothing",
        "Nebraska State Patrol, Carrier Enforcement",
        "text read, 2026-11-25",
        "OVER: ",
        "Breakaway anchor",
    ] {
        assert!(page.contains(words), "{words}");
    }
    assert_eq!(
        page,
        page_of(&rig("kiln-trailer-measured"), true),
        "the same bytes again"
    );
}
