//! What each region says on one topic, side by side.

use crate::engine::{RuleFrom, Ruleset};
use crate::pack::{Library, Reading, Topic};
use crate::source::Complaints;

/// What one pack says on a topic.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Digest {
    /// The pack's id.
    pub pack: String,
    /// The pack's title.
    pub title: String,
    /// The region whose law it is, by code.
    pub region: Option<String>,
    /// Its rules on the topic.
    pub rules: Vec<DigestRule>,
    /// Notes of the pack on the topic.
    pub notes: Vec<String>,
}

/// One rule in a digest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DigestRule {
    /// The full id.
    pub id: String,
    /// What it says.
    pub says: String,
    /// The title of the pack that it is adopted from, if it is.
    pub adopted_from: Option<String>,
    /// The citations with their grades.
    pub sources: Vec<(String, Reading)>,
}

/// What each pack says on a topic, in the order of the ids; packs that say nothing are left out.
///
/// # Errors
/// Complaints about the packs.
pub fn digests(library: &Library, topic: Topic) -> Result<Vec<Digest>, Complaints> {
    let rules = Ruleset::of_packs(library, &library.ids())?;
    let mut out: Vec<Digest> = Vec::new();
    for (at, pack) in rules.packs().iter().enumerate() {
        let codes = rules
            .program()
            .rules
            .iter()
            .filter(|r| r.pack == at && r.topic == topic);
        let told = codes.filter_map(|code| {
            Some(DigestRule {
                id: code.id.clone(),
                says: rules.rule_of(code)?.says.clone(),
                adopted_from: match code.from {
                    RuleFrom::Own { .. } => None,
                    RuleFrom::Adopted { pack, .. } => {
                        rules.packs().get(pack).map(|p| p.title.clone())
                    }
                },
                sources: rules
                    .sources_of(code)
                    .into_iter()
                    .map(|s| (s.cite, s.read))
                    .collect(),
            })
        });
        let digest = Digest {
            pack: pack.id.value.clone(),
            title: pack.title.clone(),
            region: pack.region.as_ref().map(|r| r.value.clone()),
            rules: told.collect(),
            notes: pack
                .notes
                .iter()
                .filter(|n| n.topic == topic)
                .map(|n| n.text.clone())
                .collect(),
        };
        if !digest.rules.is_empty() || !digest.notes.is_empty() {
            out.push(digest);
        }
    }
    out.sort_by(|a, b| a.pack.cmp(&b.pack));
    Ok(out)
}
