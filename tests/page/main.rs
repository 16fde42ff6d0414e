//! Pages of HTML: nothing of an input acts on them, they can be read by everybody, and what is drawn
//! is where the facts say.

mod drawing;

use pintle::engine::Ruleset;
use pintle::facts::parse_day;
use pintle::pack::{Asked, Library, PackText, Topic};
use pintle::report::{
    CheckDay, Detail, Kind, PAIRS, Report, comparison, comparison_html, contrast, report_html,
    sheet, sheet_html, sheet_markdown,
};
use pintle::rig::{Rig, read_rig};
use pintle::source::{SourceText, read_path};
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
            page_of(&rig("kiln-trailer-unmeasured"), true),
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
