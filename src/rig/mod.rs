//! A rig file: read, checked, and turned into facts.

mod answer;
mod codes;
mod facts_reader;
mod literal;
mod meant;
mod reader;
mod schema;
mod write;

pub use answer::read_answer;
pub use codes::CODES;
pub use facts_reader::read_facts;
pub use literal::{YEARS, members, read_days, read_known, read_year};
pub use meant::meant;
pub use reader::{Reader, add_unless_covered};
pub use schema::{rig_schema, rig_validator};
pub use write::{Step, Written, write_value};

use crate::facts::{FactSet, ItemId, Known, Scope, Value, Whence, catalogue};
use crate::quantity::{Exact, Interval};
use crate::source::{self, Complaints, Node, SourceText, Span, check_schema};
use std::collections::BTreeMap;

/// The format version that this program reads.
pub const RIG_FORMAT: u32 = 1;

/// A rig file to start from, with comments that say what goes where.
pub const EXAMPLE: &str = include_str!("example.yaml");

/// What somebody has looked at: the id of a rule (or of one of its looks) and whether it is right.
pub type Seen = BTreeMap<String, bool>;

/// A rig as its file describes it.
#[derive(Clone, Debug)]
pub struct Rig {
    /// The file.
    pub source: SourceText,
    /// Its name.
    pub name: String,
    /// The facts stated.
    pub facts: FactSet,
    /// The regions of the trip, each with its place in the file.
    pub regions: Vec<(String, Span)>,
    /// What was looked at.
    pub seen: Seen,
}

/// Reads a rig file's text.
///
/// # Errors
/// Every complaint about the text, each with its place.
pub fn read_rig(text: &SourceText) -> Result<Rig, Complaints> {
    let root = source::parse(text)?;
    let mut r = Reader::new(text);
    let rig = read_root(&mut r, &root);
    let mut complaints = r.complaints;
    add_unless_covered(&mut complaints, check_schema(text, &root, rig_validator()));
    match rig {
        Some(rig) if complaints.is_empty() => Ok(rig),
        _ => Err(Complaints(complaints)),
    }
}

fn read_root(r: &mut Reader<'_>, root: &Node) -> Option<Rig> {
    let map = r.map(root, "a rig file")?;
    match map.get("rig") {
        Some(node) => read_format(r, node),
        None => r.error_help(
            "rig::no-format",
            "the format version is missing",
            Span::point(root.span.start),
            "here",
            "begin the file with `rig: 1`",
        ),
    }
    let mut name = String::new();
    let mut regions = Vec::new();
    let mut seen = Seen::new();
    let mut facts = read_facts(r, map, &mut |r, path, entry| {
        match path {
            "rig" => {}
            "name" => name = r.text(&entry.value, "the rig's name").unwrap_or_default(),
            "trip.regions" => regions = r.texts(&entry.value, "trip.regions").unwrap_or_default(),
            "seen" => seen = read_seen(r, &entry.value),
            _ => return false,
        }
        true
    });
    count_trailers(&mut facts);
    check_trailers(r, &facts);
    Some(Rig {
        source: r.source.clone(),
        name,
        facts,
        regions,
        seen,
    })
}

/// What is known of the first fact of which anything is, of those whose names begin so.
fn said(facts: &FactSet, prefix: &str) -> Option<Known> {
    let rig = catalogue().of_scope(Scope::Rig).iter();
    let of_prefix = rig.filter(|f| catalogue().def(**f).name.starts_with(prefix));
    let mut known = of_prefix.filter_map(|f| facts.known(ItemId::RIG, *f));
    known.find(|k| k.whence != Whence::Missing).cloned()
}

/// Counts the trailers where nobody states how many there are. A rig file describes the whole rig:
/// where it speaks of a trailer and of no second one, there is one trailer, and where it speaks of a
/// second one there are two at least.
pub fn count_trailers(facts: &mut FactSet) {
    let Some(count) = catalogue().find("combination.trailers") else {
        return;
    };
    let stated = facts.known(ItemId::RIG, count);
    if stated.is_some_and(|k| k.whence.place().is_some()) {
        return;
    }
    let first = || said(facts, "trailer.").is_some() || !facts.items(Scope::Axle).is_empty();
    let (value, told) = if said(facts, "second_trailer.").is_some() {
        (
            Interval::starting_at(Exact::from_int(2)),
            "a second trailer is described",
        )
    } else if first() {
        (Interval::exactly(Exact::ONE), "one trailer is described")
    } else {
        return;
    };
    let known = Known {
        value: Value::Number(value),
        whence: Whence::WorkedOut(told.to_owned()),
        unit: None,
        written: None,
    };
    facts.set(ItemId::RIG, count, known);
}

/// Complains of a second trailer that is described where fewer are counted.
fn check_trailers(r: &mut Reader<'_>, facts: &FactSet) {
    let count = catalogue().find("combination.trailers");
    let most = count.and_then(|c| facts.value(ItemId::RIG, c).interval().hi);
    let second = said(facts, "second_trailer.").and_then(|s| s.whence.place());
    let (Some(most), Some((start, end))) = (most, second) else {
        return;
    };
    if most < Exact::from_int(2) {
        r.error_help(
            "rig::contradiction",
            "a second trailer is described, but `combination.trailers` is less than 2",
            Span { start, end },
            "a second trailer",
            "state `combination: {trailers: 2}`, or leave the second trailer out",
        );
    }
}

fn read_format(r: &mut Reader<'_>, node: &Node) {
    let Some(text) = r.text(node, "the format version") else {
        return;
    };
    match text.parse::<u32>() {
        Ok(RIG_FORMAT) => {}
        Ok(newer) if newer > RIG_FORMAT => r.error_help("rig::newer-format", format!("this rig file has format {newer}"), node.span, "newer than this program", format!("this program reads format {RIG_FORMAT}; a version that reads format {newer} is needed")),
        _ => r.error_help("rig::format", format!("`{text}` is no format version"), node.span, "not known", format!("write `rig: {RIG_FORMAT}`")),
    }
}

/// Reads `seen`: rule ids with yes or no.
pub fn read_seen(r: &mut Reader<'_>, node: &Node) -> Seen {
    let mut seen = Seen::new();
    if let Some(map) = r.map(node, "`seen`") {
        for e in &map.entries {
            if let Some(b) = r.yes_no(&e.value, &e.key.text) {
                seen.insert(e.key.text.clone(), b);
            }
        }
    }
    seen
}
