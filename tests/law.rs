//! Rigs made from the texts of the law, not from the packs, checked as a user's rig is.
//!
//! Each file of `tests/law/` is one region. A rig names the statute that it was made from, the topic,
//! and what the text says of it. Only the region's own rules count; federal rules and habits of the
//! trade have files of their own. In metric and in pounds: every weight that a rig states is also
//! tried in the other unit, written out exactly.

use pintle::engine::{Outcome, Ruleset};
use pintle::facts::parse_day;
use pintle::mechanics::work_out;
use pintle::pack::{Library, Region};
use pintle::quantity::{Dimension, Unit, parse_measure};
use pintle::rig::read_rig;
use pintle::source::{Map, Node, SourceText, Value, parse, read_path};
use rstest::rstest;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::PathBuf;
use std::sync::OnceLock;

fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in)
}

fn text(map: &Map, key: &str) -> Option<String> {
    map.get(key).and_then(Node::as_str).map(str::to_owned)
}

/// Writes a tree as YAML flow text; `weights` rewrites each scalar that is a weight.
fn write_node(node: &Node, weights: &dyn Fn(&str) -> Option<String>, out: &mut String) {
    match &node.value {
        Value::Null => out.push_str("null"),
        Value::Scalar(s) => {
            let shown = weights(&s.text).unwrap_or_else(|| s.text.clone());
            let _ = write!(out, "{shown:?}");
        }
        Value::Seq(items) => {
            out.push('[');
            for item in items {
                write_node(item, weights, out);
                out.push_str(", ");
            }
            out.push(']');
        }
        Value::Map(map) => {
            out.push('{');
            for e in map {
                let _ = write!(out, "{:?}: ", e.key.text);
                write_node(&e.value, weights, out);
                out.push_str(", ");
            }
            out.push('}');
        }
    }
}

/// The weight in the other of pound and kilogram, exactly.
fn other_unit(text: &str) -> Option<String> {
    let m = parse_measure(text, Dimension::Mass).ok()?;
    let unit = match m.unit {
        Unit::Pound | Unit::ShortTon | Unit::Ounce => Unit::Kilogram,
        // A kilogram is no whole number of decimals of a pound, so grams stand for it.
        _ => Unit::Gram,
    };
    let exact = unit.from_base(m.interval.is_exact()?)?;
    let shown = format!("{} {}", exact.to_decimal(12), unit.symbol());
    (parse_measure(&shown, Dimension::Mass).ok()?.interval == m.interval).then_some(shown)
}

struct Outcomes {
    broken: Vec<String>,
    by: BTreeMap<Outcome, usize>,
}

fn judge(region: &Region, pack: &str, rig: &str, topic: &str, on: i64) -> Outcomes {
    let source = SourceText::from_str("rig", rig);
    let read = read_rig(&source).unwrap_or_else(|c| panic!("{rig}\n{c:?}"));
    let mut facts = read.facts.clone();
    let conflicts = work_out(&mut facts, Some(on));
    assert!(conflicts.is_empty(), "{rig}\n{conflicts:?}");
    let rules = Ruleset::new(library(), &[region], false).unwrap_or_else(|c| panic!("{c:?}"));
    let mut out = Outcomes {
        broken: Vec::new(),
        by: BTreeMap::new(),
    };
    let own = format!("{pack}/");
    for f in rules.check(&facts, &read.seen, on) {
        let counts = f.rule.starts_with(&own) && f.topic.name() == topic;
        if counts {
            *out.by.entry(f.outcome).or_default() += 1;
            if f.outcome == Outcome::NotMet {
                out.broken
                    .push(format!("{}: {}", f.rule, f.because.join("; ")));
            }
        }
    }
    out
}

/// Whether the outcomes are what the text says.
fn agrees(o: &Outcomes, expect: &str) -> bool {
    let has = |x| o.by.contains_key(&x);
    let broken = has(Outcome::NotMet);
    match expect {
        "broken" => broken,
        "not-broken" => !broken,
        "kept" => !broken && has(Outcome::Met),
        "unknown" => !broken && has(Outcome::Unknown),
        "confirm" => !broken && has(Outcome::Confirm),
        "silent" => o.by.keys().all(|x| *x == Outcome::DoesNotApply),
        other => panic!("`{other}` is nothing to expect"),
    }
}

#[rstest]
fn the_packs_say_what_the_texts_say(#[files("tests/law/*.yaml")] path: PathBuf) {
    let source = read_path(&path).unwrap_or_else(|c| panic!("{c:?}"));
    let root = parse(&source).unwrap_or_else(|c| panic!("{c:?}"));
    let map = root.as_map().expect("a mapping");
    let code = text(map, "region").expect("a region");
    let region = Region::find(&code).expect("a region of the list");
    let pack = pintle::pack::pack_id(region);
    let mut wrong = String::new();
    let rigs = map.get("rigs").and_then(Node::as_seq).expect("rigs");
    assert!(!rigs.is_empty());
    for entry in rigs {
        let e = entry.as_map().expect("a rig is a mapping");
        let known = ["cite", "says", "rig", "topic", "expect", "on"];
        assert!(
            e.keys().all(|k| known.contains(&k)),
            "{:?}",
            e.keys().collect::<Vec<_>>()
        );
        let cite = text(e, "cite").expect("each rig names its source");
        let topic = text(e, "topic").expect("a topic");
        assert!(pintle::pack::Topic::find(&topic).is_some(), "{topic}");
        let expect = text(e, "expect").expect("what is expected");
        let on = text(e, "on")
            .and_then(|d| parse_day(&d))
            .or(parse_day("2026-12-01"))
            .expect("a day");
        let line = source.line_col(entry.span.start).0;
        for (unit, rewrite) in [
            ("as written", None),
            (
                "in the other unit",
                Some(other_unit as fn(&str) -> Option<String>),
            ),
        ] {
            let mut rig = String::from("{\"rig\": 1, ");
            let body = e.get("rig").and_then(Node::as_map).expect("a rig");
            for part in body {
                let _ = write!(rig, "{:?}: ", part.key.text);
                write_node(&part.value, &|t| rewrite.and_then(|f| f(t)), &mut rig);
                rig.push_str(", ");
            }
            rig.push('}');
            let o = judge(region, &pack, &rig, &topic, on);
            if !agrees(&o, &expect) {
                let _ = writeln!(
                    wrong,
                    "line {line} ({cite}, {unit}): expected {expect}, got {:?} {:?}\n    {}",
                    o.by,
                    o.broken,
                    text(e, "says").unwrap_or_default()
                );
            }
        }
    }
    assert!(wrong.is_empty(), "{}\n{wrong}", path.display());
}
