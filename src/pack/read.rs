//! Reads a pack file.

use super::condition::read_condition;
use super::model::{
    Adoption, Authority, Case, Definition, LeftOut, Pack, PackNote, Period, Rule, Source, Spanned,
    Standing,
};
use super::regions::{REGIONS, Region};
use super::words::{Reading, Topic};
use crate::facts::{Scope, parse_day};
use crate::rig::{Reader, add_unless_covered};
use crate::source::{Complaints, Entry, Map, Node, SourceText, Span, Value, check_schema, parse};
use sha2::{Digest, Sha256};

/// The format version of packs that this program reads.
pub const PACK_FORMAT: u32 = 1;

/// What stands for the source of a rule that has none.
pub const COMMON_PRACTICE: &str = "common practice, no source";

/// Reads a pack. Whether its references lead anywhere is for the compiler to say.
///
/// # Errors
/// Every complaint about the text, each with its place.
pub fn read_pack(source: &SourceText) -> Result<Pack, Complaints> {
    let root = parse(source)?;
    read_pack_tree(source, &root)
}

/// Reads a pack and holds it against the JSON Schema too, as a pack from outside needs.
///
/// # Errors
/// As [`read_pack`], and what the schema complains of besides.
pub fn read_pack_fully(source: &SourceText) -> Result<Pack, Complaints> {
    let root = parse(source)?;
    let read = read_pack_tree(source, &root);
    let mut complaints = read.as_ref().err().map(|c| c.0.clone()).unwrap_or_default();
    add_unless_covered(&mut complaints, check_schema(source, &root, super::schema::pack_validator()));
    if complaints.is_empty() { read } else { Err(Complaints(complaints)) }
}

/// Reads a pack whose text has already been taken apart.
///
/// # Errors
/// As [`read_pack`].
pub fn read_pack_tree(source: &SourceText, root: &Node) -> Result<Pack, Complaints> {
    let mut r = Reader::new(source);
    let pack = read_root(&mut r, root);
    match pack {
        Some(pack) if r.complaints.is_empty() => Ok(pack),
        _ => Err(Complaints(r.complaints)),
    }
}

/// Complains of keys that do not belong in a mapping.
fn check_keys(r: &mut Reader<'_>, map: &Map, known: &[&str], what: &str) {
    for e in &map.entries {
        if !known.contains(&e.key.text.as_str()) {
            let message = format!("`{}` is not a key of {what}", e.key.text);
            r.unknown_name("pack::unknown-key", message, &e.key.text, e.key.span, known.iter().copied());
        }
    }
}

fn required<'m>(r: &mut Reader<'_>, map: &'m Map, key: &str, what: &str, at: Span) -> Option<&'m Node> {
    let found = map.get(key);
    if found.is_none() {
        let first = map.entries.first().map_or(at, |e| e.key.span);
        r.error("pack::missing-key", format!("{what} has no `{key}`"), first, format!("expected `{key}: …` in this mapping"));
    }
    found
}

fn required_text(r: &mut Reader<'_>, map: &Map, key: &str, what: &str, at: Span) -> Option<String> {
    let node = required(r, map, key, what, at)?;
    r.text(node, &format!("`{key}`"))
}

fn optional_text(r: &mut Reader<'_>, map: &Map, key: &str) -> Option<String> {
    map.get(key).and_then(|n| r.text(n, &format!("`{key}`")))
}

fn spanned(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<Spanned<String>> {
    r.text(node, what).map(|value| Spanned {
        value,
        span: node.span,
    })
}

/// Reads each item of an optional list.
fn each_of<T>(r: &mut Reader<'_>, map: &Map, key: &str, mut read: impl FnMut(&mut Reader<'_>, &Node) -> Option<T>) -> Vec<T> {
    let Some(node) = map.get(key) else {
        return Vec::new();
    };
    let items = r.list(node, &format!("`{key}`")).unwrap_or_default();
    items.iter().filter_map(|n| read(r, n)).collect()
}

const PACK_KEYS: [&str; 13] = [
    "pack", "format", "version", "standing", "region", "within", "title", "authority",
    "definitions", "adopts", "rules", "notes", "left_out",
];

fn read_root(r: &mut Reader<'_>, root: &Node) -> Option<Pack> {
    let map = r.map(root, "a pack")?;
    if !format_is_readable(r, map, root.span) {
        return None;
    }
    check_keys(r, map, &PACK_KEYS, "a pack");
    let id = required(r, map, "pack", "the pack", root.span).and_then(|n| spanned(r, n, "`pack`"));
    let version = required_text(r, map, "version", "the pack", root.span);
    let title = required_text(r, map, "title", "the pack", root.span);
    let standing = read_standing(r, map);
    let region = map.get("region").and_then(|n| read_region(r, n));
    let within = map.get("within").and_then(|n| spanned(r, n, "`within`"));
    if standing == Standing::Law && map.get("region").is_none() {
        r.error_help("pack::missing-key", "a pack of law has no `region`", start_of(root), "here", "write `region: US-NE`, or `standing: standard` or `standing: practice` for a pack that is no region's law");
    }
    let authority = map.get("authority").and_then(|n| read_authority(r, n));
    if standing == Standing::Law && map.get("authority").is_none() {
        r.error("pack::missing-key", "a pack of law names no `authority` to verify with", start_of(root), "expected `authority: {name: …, web: …}`");
    }
    let definitions = map.get("definitions").map(|n| read_definitions(r, n)).unwrap_or_default();
    let adopts = each_of(r, map, "adopts", read_adoption);
    let rules = each_of(r, map, "rules", read_rule);
    let notes = each_of(r, map, "notes", read_note);
    let left_out = each_of(r, map, "left_out", read_left_out);
    Some(Pack {
        source: r.source.clone(),
        sha256: hex(&Sha256::digest(r.source.text().as_bytes())),
        id: id?,
        version: version?,
        standing,
        region,
        within,
        title: title?,
        authority,
        definitions,
        adopts,
        rules,
        notes,
        left_out,
    })
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}

/// A pack of a newer format is told so, and nothing else is complained of.
fn format_is_readable(r: &mut Reader<'_>, map: &Map, at: Span) -> bool {
    let Some(node) = required(r, map, "format", "the pack", at) else {
        return true;
    };
    let Some(text) = r.text(node, "`format`") else {
        return true;
    };
    match text.parse::<u32>() {
        Ok(PACK_FORMAT) => true,
        Ok(newer) if newer > PACK_FORMAT => {
            r.error_help("pack::newer-format", format!("this pack has format {newer}"), node.span, "newer than this program", format!("this program reads format {PACK_FORMAT}; a version of pintle that reads format {newer} is needed"));
            false
        }
        _ => {
            r.error_help("pack::format", format!("`{text}` is no format version"), node.span, "not known", format!("write `format: {PACK_FORMAT}`"));
            true
        }
    }
}

fn read_standing(r: &mut Reader<'_>, map: &Map) -> Standing {
    let Some(node) = map.get("standing") else {
        return Standing::Law;
    };
    match r.text(node, "`standing`").as_deref() {
        Some("law") | None => Standing::Law,
        Some("standard") => Standing::Standard,
        Some("practice") => Standing::Practice,
        Some(other) => {
            r.unknown_name("pack::standing", format!("`{other}` is no standing of a pack"), other, node.span, ["law", "standard", "practice"]);
            Standing::Law
        }
    }
}

fn read_region(r: &mut Reader<'_>, node: &Node) -> Option<Spanned<String>> {
    let text = r.text(node, "`region`")?;
    match REGIONS.iter().find(|x| x.code == text) {
        Some(x) => Some(Spanned {
            value: x.code.to_owned(),
            span: node.span,
        }),
        None => {
            let known = REGIONS.iter().map(|x| x.code);
            let named = Region::find(&text).map_or(text.as_str(), |x| x.code);
            r.unknown_name("pack::region", format!("`{text}` is not the ISO 3166 code of a region"), named, node.span, known);
            None
        }
    }
}

fn read_authority(r: &mut Reader<'_>, node: &Node) -> Option<Authority> {
    let map = r.map(node, "`authority`")?;
    check_keys(r, map, &["name", "web"], "an authority");
    Some(Authority {
        name: required_text(r, map, "name", "the authority", node.span)?,
        web: optional_text(r, map, "web"),
    })
}

fn read_definitions(r: &mut Reader<'_>, node: &Node) -> Vec<Definition> {
    let Some(map) = r.map(node, "`definitions`") else {
        return Vec::new();
    };
    let read = |e: &Entry| {
        Some(Definition {
            name: Spanned {
                value: e.key.text.clone(),
                span: e.key.span,
            },
            condition: read_condition(r, &e.value, &format!("the definition `{}`", e.key.text))?,
        })
    };
    map.entries.iter().filter_map(read).collect()
}

fn read_adoption(r: &mut Reader<'_>, node: &Node) -> Option<Adoption> {
    let map = r.map(node, "an adoption")?;
    check_keys(
        r,
        map,
        &["id", "pack", "rules", "topics", "except", "when", "unless", "redefine", "note", "sources", "in_force", "cases"],
        "an adoption",
    );
    let names = |r: &mut Reader<'_>, key: &str| -> Vec<Spanned<String>> {
        let texts = map.get(key).and_then(|n| r.texts(n, &format!("`{key}`"))).unwrap_or_default();
        texts.into_iter().map(|(value, span)| Spanned { value, span }).collect()
    };
    let topics = names(r, "topics").into_iter().filter_map(|t| find_topic(r, &t.value, t.span)).collect();
    let rules = names(r, "rules");
    let except = names(r, "except");
    let id = required(r, map, "id", "the adoption", node.span).and_then(|n| spanned(r, n, "`id`"));
    let pack = required(r, map, "pack", "the adoption", node.span).and_then(|n| spanned(r, n, "`pack`"));
    Some(Adoption {
        rules,
        topics,
        except,
        when: map.get("when").and_then(|n| read_condition(r, n, "`when`")),
        unless: map.get("unless").and_then(|n| read_condition(r, n, "`unless`")),
        redefine: map.get("redefine").map(|n| read_definitions(r, n)).unwrap_or_default(),
        note: optional_text(r, map, "note"),
        sources: read_sources(r, map, node.span),
        in_force: read_period(r, map),
        cases: each_of(r, map, "cases", |_, n| Some(Case { node: n.clone() })),
        id: id?,
        pack: pack?,
    })
}

const RULE_KEYS: [&str; 12] = [
    "id", "topic", "says", "note", "doubt", "each", "when", "unless", "must", "sources", "in_force",
    "cases",
];

fn read_rule(r: &mut Reader<'_>, node: &Node) -> Option<Rule> {
    let map = r.map(node, "a rule")?;
    check_keys(r, map, &RULE_KEYS, "a rule");
    let id = required(r, map, "id", "the rule", node.span).and_then(|n| spanned(r, n, "`id`"));
    if let Some(id) = &id
        && !is_slug(&id.value)
    {
        r.error("pack::id", format!("`{}` is not an id", id.value), id.span, "expected small letters, digits and hyphens");
    }
    let what = id.as_ref().map_or("the rule".to_owned(), |i| format!("rule `{}`", i.value));
    let topic = required(r, map, "topic", &what, node.span)
        .and_then(|n| r.text(n, "`topic`").and_then(|t| find_topic(r, &t, n.span)));
    let says = required_text(r, map, "says", &what, node.span);
    let must = required(r, map, "must", &what, node.span).and_then(|n| read_condition(r, n, "`must`"));
    let when = map.get("when").map(|n| read_condition(r, n, "`when`"));
    let unless = map.get("unless").map(|n| read_condition(r, n, "`unless`"));
    let sources = read_sources(r, map, node.span);
    let in_force = read_period(r, map);
    let cases = each_of(r, map, "cases", |_, n| Some(Case { node: n.clone() }));
    let each = map.get("each").and_then(|n| read_each(r, n));
    Some(Rule {
        note: optional_text(r, map, "note"),
        doubt: optional_text(r, map, "doubt"),
        each,
        // A condition that could not be read must not make the rule wider.
        when: match when {
            Some(read) => Some(read?),
            None => None,
        },
        unless: match unless {
            Some(read) => Some(read?),
            None => None,
        },
        must: must?,
        sources,
        in_force,
        cases,
        id: id?,
        topic: topic?,
        says: says?,
        span: node.span,
    })
}

/// Small letters, digits and single hyphens.
#[must_use]
pub fn is_slug(text: &str) -> bool {
    !text.is_empty()
        && text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
        && !text.starts_with('-')
        && !text.ends_with('-')
}

fn find_topic(r: &mut Reader<'_>, text: &str, at: Span) -> Option<Topic> {
    let topic = Topic::find(text);
    if topic.is_none() {
        r.unknown_name("pack::topic", format!("`{text}` is no topic"), text, at, Topic::ALL.map(Topic::name));
    }
    topic
}

fn read_each(r: &mut Reader<'_>, node: &Node) -> Option<Scope> {
    let text = r.text(node, "`each`")?;
    let scope = Scope::ALL.into_iter().find(|s| s.each_name() == Some(text.as_str()));
    if scope.is_none() {
        let known: Vec<&str> = Scope::ALL.iter().filter_map(|s| s.each_name()).collect();
        r.unknown_name("pack::each", format!("`{text}` is nothing to run a rule for"), &text, node.span, known);
    }
    scope
}

fn read_period(r: &mut Reader<'_>, map: &Map) -> Period {
    let Some(node) = map.get("in_force") else {
        return Period::default();
    };
    let Some(inner) = r.map(node, "`in_force`") else {
        return Period::default();
    };
    check_keys(r, inner, &["from", "until"], "`in_force`");
    let mut day = |key: &str| inner.get(key).and_then(|n| read_one_day(r, n, key));
    let (from, until) = (day("from"), day("until"));
    if let (Some(f), Some(u)) = (from, until)
        && f > u
    {
        r.error("pack::dates-out-of-order", "the rule ends before it begins", node.span, "`until` is earlier than `from`");
    }
    Period {
        from,
        until,
        span: Some(node.span),
    }
}

fn read_one_day(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<i64> {
    let text = r.text(node, what)?;
    let day = parse_day(&text);
    if day.is_none() {
        r.error("read::date", format!("`{text}` is not a day"), node.span, "expected YYYY-MM-DD");
    }
    day
}

fn read_sources(r: &mut Reader<'_>, map: &Map, at: Span) -> Vec<Source> {
    let Some(node) = required(r, map, "sources", "the rule", at) else {
        return Vec::new();
    };
    let Some(items) = r.list(node, "`sources`") else {
        return Vec::new();
    };
    if items.is_empty() {
        r.error("pack::no-source", "the rule cites nothing", node.span, format!("expected a source, or `{COMMON_PRACTICE}`"));
    }
    items.iter().filter_map(|n| read_source(r, n)).collect()
}

fn read_source(r: &mut Reader<'_>, node: &Node) -> Option<Source> {
    if let Value::Scalar(s) = &node.value {
        if s.text.trim() == COMMON_PRACTICE {
            return Some(Source {
                cite: COMMON_PRACTICE.to_owned(),
                at: None,
                read: Reading::None,
                on: None,
                as_of: None,
            });
        }
        r.error("pack::source", "not a source", node.span, format!("expected `cite`, `read` and `on`, or the words `{COMMON_PRACTICE}`"));
        return None;
    }
    let map = r.map(node, "a source")?;
    check_keys(r, map, &["cite", "at", "read", "on", "as_of"], "a source");
    let cite = required_text(r, map, "cite", "the source", node.span);
    let grade = required(r, map, "read", "the source", node.span).and_then(|n| {
        let text = r.text(n, "`read`")?;
        let found = Reading::ALL.into_iter().find(|g| g.name() == text && *g != Reading::None);
        if found.is_none() {
            r.unknown_name("pack::reading", format!("`{text}` is no grade of reading"), &text, n.span, ["text", "excerpt", "secondary", "memory"]);
        }
        found
    });
    let on = required(r, map, "on", "the source", node.span).and_then(|n| read_one_day(r, n, "`on`"));
    Some(Source {
        cite: cite?,
        at: optional_text(r, map, "at"),
        read: grade?,
        on: Some(on?),
        as_of: optional_text(r, map, "as_of"),
    })
}

fn read_note(r: &mut Reader<'_>, node: &Node) -> Option<PackNote> {
    let map = r.map(node, "a note")?;
    check_keys(r, map, &["topic", "text", "sources"], "a note");
    let topic = required_text(r, map, "topic", "the note", node.span).and_then(|t| find_topic(r, &t, node.span));
    let text = required_text(r, map, "text", "the note", node.span);
    Some(PackNote {
        sources: if map.get("sources").is_some() { read_sources(r, map, node.span) } else { Vec::new() },
        topic: topic?,
        text: text?,
    })
}

fn read_left_out(r: &mut Reader<'_>, node: &Node) -> Option<LeftOut> {
    let map = r.map(node, "a provision left out")?;
    check_keys(r, map, &["provision", "reason"], "a provision left out");
    let provision = required_text(r, map, "provision", "the entry", node.span);
    let reason = required_text(r, map, "reason", "the entry", node.span);
    Some(LeftOut {
        provision: provision?,
        reason: reason?,
    })
}

/// The first place of a node, for complaints about what is not there.
fn start_of(node: &Node) -> Span {
    Span {
        start: node.span.start,
        end: node.span.start,
    }
}
