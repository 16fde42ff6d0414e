//! What the packs of a library hold: rules, topics, grades of reading, and their age.

use crate::facts::Day;
use crate::pack::{Library, Pack, Reading, Source, Standing, Topic};
use crate::source::Complaints;

/// What one pack holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PackSummary {
    /// The pack's id.
    pub id: String,
    /// The region whose law it is, by code.
    pub region: Option<String>,
    /// What it is for.
    pub standing: Standing,
    /// A name for people.
    pub title: String,
    /// Its own version.
    pub version: String,
    /// How many rules it has of its own.
    pub rules: usize,
    /// How many adoptions from other packs.
    pub adoptions: usize,
    /// How many cases.
    pub cases: usize,
    /// The topics on which it has rules of its own.
    pub topics: Vec<Topic>,
    /// How many of its rules' sources were read how, the best grade first; grades without any are
    /// left out.
    pub grades: Vec<(Reading, usize)>,
    /// The day of the oldest reading.
    pub oldest: Option<Day>,
}

/// What each pack holds, in the order of the ids; only packs with rules on `topic`, if one is given.
///
/// # Errors
/// Complaints about a pack that cannot be read.
pub fn shelf(library: &Library, topic: Option<Topic>) -> Result<Vec<PackSummary>, Complaints> {
    let summaries = library.all()?.into_iter().map(summary);
    Ok(summaries
        .filter(|s| topic.is_none_or(|t| s.topics.contains(&t)))
        .collect())
}

fn summary(pack: &Pack) -> PackSummary {
    let sources: Vec<&Source> = sources(pack).collect();
    let of_grade = |g: Reading| (g, sources.iter().filter(|s| s.read == g).count());
    let rule_cases: usize = pack.rules.iter().map(|r| r.cases.len()).sum();
    let adoption_cases: usize = pack.adopts.iter().map(|a| a.cases.len()).sum();
    PackSummary {
        id: pack.id.value.clone(),
        region: pack.region.as_ref().map(|r| r.value.clone()),
        standing: pack.standing,
        title: pack.title.clone(),
        version: pack.version.clone(),
        rules: pack.rules.len(),
        adoptions: pack.adopts.len(),
        cases: rule_cases + adoption_cases,
        topics: Topic::ALL
            .into_iter()
            .filter(|t| pack.rules.iter().any(|r| r.topic == *t))
            .collect(),
        grades: Reading::ALL
            .map(of_grade)
            .into_iter()
            .filter(|(_, n)| *n > 0)
            .collect(),
        oldest: sources.iter().filter_map(|s| s.on).min(),
    }
}

fn sources(pack: &Pack) -> impl Iterator<Item = &Source> {
    let adopted = pack.adopts.iter().flat_map(|a| &a.sources);
    pack.rules.iter().flat_map(|r| &r.sources).chain(adopted)
}

/// A rule, or an adoption, one of whose sources was read long ago.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StaleRule {
    /// The full id of the rule, or the pack's and the adoption's.
    pub id: String,
    /// The day of its oldest reading.
    pub oldest: Day,
    /// The source read on that day.
    pub cite: String,
    /// Where it was read.
    pub at: Option<String>,
}

/// The rules and adoptions whose oldest reading is earlier than a day, the oldest first. Rules of
/// common practice without a source do not age.
///
/// # Errors
/// Complaints about a pack that cannot be read.
pub fn stale(library: &Library, before: Day) -> Result<Vec<StaleRule>, Complaints> {
    let mut out = Vec::new();
    for pack in library.all()? {
        let rules = pack.rules.iter().map(|r| (&r.id.value, &r.sources));
        let adoptions = pack.adopts.iter().map(|a| (&a.id.value, &a.sources));
        for (id, sources) in rules.chain(adoptions) {
            let dated = sources.iter().filter_map(|s| Some((s.on?, s)));
            if let Some((oldest, source)) = dated.min_by_key(|(on, _)| *on)
                && oldest < before
            {
                out.push(StaleRule {
                    id: format!("{}/{id}", pack.id.value),
                    oldest,
                    cite: source.cite.clone(),
                    at: source.at.clone(),
                });
            }
        }
    }
    out.sort_by(|a, b| (a.oldest, &a.id).cmp(&(b.oldest, &b.id)));
    Ok(out)
}
