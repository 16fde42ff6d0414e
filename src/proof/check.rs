//! Checks packs whole: text, schema, references, and every case, each pack's complaints apart.

use super::analysis::analyse;
use super::cases::check_cases;
use super::prove::prove;
use crate::engine::{Compiled, compile};
use crate::pack::{Library, Pack, id_of_path, read_pack_fully};
use crate::source::{Complaint, Complaints, Severity, SourceText, Span, quote};

/// What checking one pack came to.
#[derive(Clone, Debug)]
pub struct PackCheck {
    /// The file.
    pub file: String,
    /// The pack's id, if it could be read.
    pub id: Option<String>,
    /// How many rules it has.
    pub rules: usize,
    /// Its rules and adoptions.
    pub each: Vec<CheckedRule>,
    /// How many of its cases could be run; none where the pack could not be compiled.
    pub cases: usize,
    /// How many slips were made in it to prove it: made and noticed, and those that change nothing.
    /// `None` when it was only checked, or is wrong already.
    pub slips: Option<(usize, usize)>,
    /// What is wrong with it.
    pub complaints: Complaints,
}

impl PackCheck {
    /// How many complaints are errors; the others are hints.
    #[must_use]
    pub fn errors(&self) -> usize {
        let errors = self
            .complaints
            .iter()
            .filter(|c| c.severity == Severity::Error);
        errors.count()
    }
}

/// A rule or an adoption of a pack that was checked.
#[derive(Clone, Debug)]
pub struct CheckedRule {
    /// Its id within the pack.
    pub id: String,
    /// Where it stands in the text.
    pub span: Span,
}

/// How far packs are checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// Text, schema, references, and every case.
    Cases,
    /// And proof: every slip must be noticed by a case, and the rules must not contradict, repeat or
    /// shut out one another.
    Proof,
}

/// Checks the packs in these texts. What they refer to is looked for among them first and then in
/// `library`. The answers come in the order of the texts; complaints about a pack that is only
/// referred to stand with the first that leads to it.
#[must_use]
pub fn check_packs(mut library: Library, texts: &[SourceText], depth: Depth) -> Vec<PackCheck> {
    let mut checks: Vec<PackCheck> = Vec::with_capacity(texts.len());
    for text in texts {
        let mut check = PackCheck {
            file: text.name().to_owned(),
            id: None,
            rules: 0,
            each: Vec::new(),
            cases: 0,
            slips: None,
            complaints: Complaints::new(),
        };
        match read_pack_fully(text) {
            Ok(pack) => {
                check.rules = pack.rules.len();
                let rules = pack.rules.iter().map(|r| (&r.id.value, r.span));
                let adopts = pack.adopts.iter().map(|a| (&a.id.value, a.span));
                let each = rules.chain(adopts).map(|(id, span)| CheckedRule {
                    id: id.clone(),
                    span,
                });
                check.each = each.collect();
                check.complaints.extend(misplaced(&pack));
                check.complaints.extend(twice(&pack, &checks));
                check.id = Some(pack.id.value.clone());
                library.add_read(pack);
            }
            Err(complaints) => check.complaints = complaints,
        }
        checks.push(check);
    }
    run(&library, &mut checks, depth);
    checks
}

/// Checks every pack of a library.
#[must_use]
pub fn check_library(library: Library, depth: Depth) -> Vec<PackCheck> {
    let texts: Vec<SourceText> = library
        .ids()
        .into_iter()
        .filter_map(|id| library.source(id).cloned())
        .collect();
    check_packs(library, &texts, depth)
}

/// Below a folder `rules`, a pack's place gives its id.
fn misplaced(pack: &Pack) -> Option<Complaint> {
    let name = pack.source.name().replace('\\', "/");
    let place = match name.rsplit_once("/rules/") {
        Some((_, place)) => place,
        None => name.strip_prefix("rules/")?,
    };
    let expected = id_of_path(place);
    (expected != pack.id.value).then(|| {
        Complaint::error(
            "pack::place",
            format!(
                "the pack calls itself {}, but its place below `rules` makes it {}",
                quote(&pack.id.value),
                quote(&expected)
            ),
        )
        .at(
            &pack.source,
            pack.id.span,
            "not the id that its place gives",
        )
        .help("change the id, or move the file: `us-ne` is `rules/us/ne.yaml`")
    })
}

fn twice(pack: &Pack, before: &[PackCheck]) -> Option<Complaint> {
    let first = before
        .iter()
        .find(|c| c.id.as_ref() == Some(&pack.id.value))?;
    Some(
        Complaint::error(
            "pack::duplicate-pack",
            format!("{} is the id of another pack too", quote(&pack.id.value)),
        )
        .at(
            &pack.source,
            pack.id.span,
            format!("also in {}", first.file),
        )
        .help("give each pack an id of its own"),
    )
}

/// Compiles all packs that can be read and runs their cases. Where some do not compile, the others
/// are compiled without them, so that nothing is left unchecked for a neighbour's sake.
fn run(library: &Library, checks: &mut [PackCheck], depth: Depth) {
    let mut roots: Vec<usize> = Vec::new();
    for (at, check) in checks.iter_mut().enumerate() {
        let Some(id) = check.id.as_deref() else {
            continue;
        };
        match library.with_references(&[id]) {
            Ok(_) => roots.push(at),
            Err(_) => check.complaints.push(
                Complaint::error(
                    "pack::reference-unreadable",
                    format!(
                        "a pack that {} refers to cannot be read, so it was not compiled",
                        quote(id)
                    ),
                )
                .help("put the other pack right first"),
            ),
        }
    }
    while !roots.is_empty() {
        let ids: Vec<&str> = roots
            .iter()
            .filter_map(|r| checks.get(*r)?.id.as_deref())
            .collect();
        let Ok(packs) = library.with_references(&ids) else {
            return;
        };
        let wrong = match compile(packs) {
            Ok(compiled) => return run_cases(&compiled, checks, depth),
            Err(complaints) => complaints,
        };
        let at_fault: Vec<String> = wrong.iter().map(file_of).collect();
        let leads_to_fault = |at: &usize| {
            let id = checks.get(*at).and_then(|c| c.id.as_deref());
            let packs = id
                .and_then(|id| library.with_references(&[id]).ok())
                .unwrap_or_default();
            packs
                .iter()
                .any(|p| at_fault.iter().any(|f| f == p.source.name()))
        };
        let (out, rest): (Vec<usize>, Vec<usize>) = roots.iter().partition(|r| leads_to_fault(r));
        let first = out.first().or(roots.first()).copied();
        for complaint in wrong {
            let file = file_of(&complaint);
            let own = checks.iter().position(|c| c.file == file).or(first);
            if let Some(check) = own.and_then(|at| checks.get_mut(at)) {
                check.complaints.push(complaint);
            }
        }
        // A complaint without a file would come back for ever.
        roots = if out.is_empty() { Vec::new() } else { rest };
    }
}

fn file_of(complaint: &Complaint) -> String {
    complaint
        .source
        .as_ref()
        .map_or_else(String::new, |s| s.name().to_owned())
}

fn run_cases(compiled: &Compiled<'_>, checks: &mut [PackCheck], depth: Depth) {
    for (at, pack) in compiled.packs.iter().enumerate() {
        let named = |c: &&mut PackCheck| {
            c.id.as_ref() == Some(&pack.id.value) && c.file == pack.source.name()
        };
        if let Some(check) = checks.iter_mut().find(named) {
            let (cases, complaints) = check_cases(compiled, at);
            check.cases = cases;
            check.complaints.extend(complaints);
            if depth == Depth::Proof && check.complaints.is_empty() {
                let proof = prove(compiled, at);
                check.slips = Some((proof.slips(), proof.equivalent));
                check.complaints.extend(proof.survivors);
                check.complaints.extend(analyse(compiled, at));
            }
        }
    }
}
