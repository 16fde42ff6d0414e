//! Reads a pack file.

use super::condition::read_condition;
use super::keys::{check_keys, each_of, optional_text, required, required_text, spanned};
use super::model::{Authority, Definition, LeftOut, Pack, PackNote, Spanned, Standing};
use super::read_rule::{find_topic, read_adoption, read_rule};
use super::read_source::read_sources;
use super::regions::{REGIONS, Region};
use super::schema::pack_validator;
use crate::rig::{Reader, add_unless_covered};
use crate::source::{Complaints, Entry, Map, Node, SourceText, Span, check_schema, parse};
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
    add_unless_covered(
        &mut complaints,
        check_schema(source, &root, pack_validator()),
    );
    if complaints.is_empty() {
        read
    } else {
        Err(Complaints(complaints))
    }
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

const PACK_KEYS: [&str; 13] = [
    "pack",
    "format",
    "version",
    "standing",
    "region",
    "within",
    "title",
    "authority",
    "definitions",
    "adopts",
    "rules",
    "notes",
    "left_out",
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
        r.error(
            "pack::missing-key",
            "a pack of law names no `authority` to verify with",
            start_of(root),
            "expected `authority: {name: …, web: …}`",
        );
    }
    let definitions = map
        .get("definitions")
        .map(|n| read_definitions(r, n))
        .unwrap_or_default();
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
            r.error_help(
                "pack::format",
                format!("`{text}` is no format version"),
                node.span,
                "not known",
                format!("write `format: {PACK_FORMAT}`"),
            );
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
            r.unknown_name(
                "pack::standing",
                format!("`{other}` is no standing of a pack"),
                other,
                node.span,
                ["law", "standard", "practice"],
            );
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
            r.unknown_name(
                "pack::region",
                format!("`{text}` is not the ISO 3166 code of a region"),
                named,
                node.span,
                known,
            );
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

pub(super) fn read_definitions(r: &mut Reader<'_>, node: &Node) -> Vec<Definition> {
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

/// The first place of a node, for complaints about what is not there.
fn start_of(node: &Node) -> Span {
    Span {
        start: node.span.start,
        end: node.span.start,
    }
}

fn read_note(r: &mut Reader<'_>, node: &Node) -> Option<PackNote> {
    let map = r.map(node, "a note")?;
    check_keys(r, map, &["topic", "text", "sources"], "a note");
    let topic = required_text(r, map, "topic", "the note", node.span)
        .and_then(|t| find_topic(r, &t, node.span));
    let text = required_text(r, map, "text", "the note", node.span);
    Some(PackNote {
        sources: if map.get("sources").is_some() {
            read_sources(r, map, node.span)
        } else {
            Vec::new()
        },
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
