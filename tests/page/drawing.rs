//! What is drawn of a rig stands where the facts say, and what is missing is not invented.

use super::{demo, library, on, page_of, pages, rig, rules};
use pintle::engine::solve::{Standing, find_subject, range};
use pintle::facts::{FactSet, ItemId, Scope, catalogue};
use pintle::report::facts_on;
use roxmltree::{Document, Node};
use std::collections::BTreeSet;

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

/// Where only the middle of the axle group is stated, a mark stands there; the wheels, whose spacing is
/// not, are drawn with broken lines.
#[test]
fn a_group_without_spacing_is_a_mark() {
    let rig = rig("kiln-trailer");
    let facts = facts_on(&rig, on()).expect("no contradiction");
    let page = page_of(&rig, false);
    let doc = Document::parse(side_view(&page)).expect("well-formed");
    let at = ruler(&doc);
    let mark = of_class(&doc, "group")
        .next()
        .expect("the mark of the group");
    let place = metres(&facts, ItemId::RIG, "trailer.coupler_to_axles");
    let tip: f64 = mark
        .attribute("d")
        .and_then(|d| d.strip_prefix('M')?.split(' ').next()?.parse().ok())
        .expect("where it begins");
    near(tip, at(place), "middle of the axle group");
    assert_eq!(of_class(&doc, "axle").count(), 0);
    assert_eq!(of_class(&doc, "unknown").count(), 2);
    assert!(page.contains("spacing not stated"));
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
