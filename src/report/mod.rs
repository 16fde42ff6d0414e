//! Reports: what the rules say of a rig, gathered and turned into text or JSON.
//!
//! | module | concern |
//! |---|---|
//! | [`Report`] | a check of one rig: findings, worked-out facts, packs, authorities |
//! | `day` | which day a check is made for |
//! | `worked_out` | the facts that were worked out, with their working |
//! | `json`, `schema` | the report for programs, and its JSON Schema |
//! | `text`, `summary`, `finding`, `working`, `closing` | the report for people |
//! | `story` | one rule told in full, alone or for a rig |
//! | `shelf`, `digest`, `packs_text` | what the packs hold |
//! | `sarif`, `junit` | complaints about packs for review tools |
//! | `diff_text` | what changed between two versions of a pack |
//! | `vocabulary` | the facts, searchable |
//! | `kind`, `sheet` | what regions ask of a kind of rig, by topic and by bands of weight |
//! | `compare` | regions side by side on one topic, along the weights and on a map of tiles |
//! | `customer`, `drawing` | a report as a page, with the rig drawn to scale |
//! | `markup`, `markdown` | HTML and Markdown: shell, shades, escaping |
//! | `figures`, `units` | the figures in a sentence, told in other units too |
//! | `range_told`, `margin_told`, `strictest_told` | what the solver finds |
//! | `cited` | rules told with their regions and sources |
//! | `page` | lines that fit a width; the one way by which text reaches a person |

mod cited;
mod closing;
mod codes;
mod compare;
mod customer;
mod day;
mod diff_text;
mod digest;
mod document_schemas;
mod drawing;
mod figures;
mod finding;
mod grouped;
mod json;
mod junit;
mod kind;
mod margin_told;
mod markdown;
mod markup;
mod notice;
mod packs_text;
mod page;
mod range_told;
mod sarif;
mod schema;
mod sheet;
mod shelf;
mod story;
mod story_text;
mod strictest_told;
mod summary;
mod text;
mod units;
mod vocabulary;
mod worked_out;
mod working;

pub use cited::{CitedRule, cited};
pub use codes::CODES;
pub use compare::{
    COMPARISON_FORMAT, Comparison, LackTold, TILES, Threshold, Tile, comparison, comparison_html,
    comparison_json, comparison_markdown, comparison_text,
};
pub use customer::report_html;
pub use day::{CheckDay, DayFrom};
pub use diff_text::{diff_json, diff_text};
pub use digest::{Digest, DigestRule, digests};
pub use document_schemas::{comparison_schema, range_schema, sheet_schema, strictest_schema};
pub use drawing::{AxlePlace, ItemPlace, Lane, Scale, Scene, Stretch};
pub use grouped::{Told, grouped};
pub use json::{print_json, report_json};
pub use junit::junit;
pub use kind::Kind;
pub use margin_told::{MarginTold, margins_told};
pub use markup::{PAIRS, contrast};
pub use notice::{CAUTIONS, NOTICE};
pub use packs_text::{
    checks_json, checks_text, digests_json, digests_text, shelf_json, shelf_text, stale_json,
    stale_text,
};
pub use page::{Page, Style, Tone};
pub use range_told::{RANGE_FORMAT, band_words, range_json, range_text};
pub use sarif::sarif;
pub use schema::report_schema;
pub use sheet::{
    Entry, Ladder, LadderBand, RegionSheet, SHEET_FORMAT, Sheet, TopicSheet, sheet, sheet_html,
    sheet_json, sheet_markdown, sheet_text,
};
pub use shelf::{PackSummary, StaleRule, shelf, stale};
pub use story::{ForRig, Story, Version, find_rules, stories};
pub use story_text::story_text;
pub use strictest_told::{STRICTEST_FORMAT, strictest_json, strictest_text};
pub use text::report_text;
pub use units::{Units, told_in};
pub use vocabulary::{find_facts, vocabulary_json, vocabulary_text};
pub use worked_out::{WorkedOut, worked_out};

use crate::engine::solve::margins;
use crate::engine::{Finding, Outcome, Ruleset};
use crate::facts::FactSet;
use crate::mechanics::work_out;
use crate::pack::{Authority, Topic};
use crate::rig::Rig;
use crate::source::{Complaints, Span};

/// The version of the report's format.
pub const REPORT_FORMAT: u32 = 1;

/// Which findings a report holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// Every rule that binds, those that do not apply too.
    All,
    /// The rules that apply or may apply; the others are only counted, and not explained.
    Applying,
}

impl Detail {
    /// All detail, or what applies.
    #[must_use]
    pub fn of(all: bool) -> Detail {
        match all {
            true => Detail::All,
            false => Detail::Applying,
        }
    }

    /// How many of a list are told of which a few will do.
    fn most(self, few: usize) -> usize {
        match self {
            Detail::All => usize::MAX,
            Detail::Applying => few,
        }
    }
}

/// A pack that a report used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PackUsed {
    /// The pack's id.
    pub id: String,
    /// Its own version.
    pub version: String,
    /// SHA-256 of its text, in hexadecimal.
    pub sha256: String,
}

/// How many rules of a region came out how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tally {
    /// The region's code, or [`crate::engine::PRACTICE`].
    pub region: String,
    counts: [usize; Outcome::ALL.len()],
}

impl Tally {
    /// How many rules came out so.
    #[must_use]
    pub fn count(&self, outcome: Outcome) -> usize {
        self.counts.get(outcome as usize).copied().unwrap_or(0)
    }

    fn add(&mut self, outcome: Outcome) {
        if let Some(n) = self.counts.get_mut(outcome as usize) {
            *n += 1;
        }
    }
}

/// What the rules of a route say of one rig on one day.
#[derive(Clone, Debug)]
pub struct Report {
    /// The rig's name; empty when it has none.
    pub rig: String,
    /// The day the check is made for.
    pub on: CheckDay,
    /// The regions checked, by code, in the order asked for.
    pub regions: Vec<String>,
    /// The packs used, by id.
    pub packs: Vec<PackUsed>,
    /// For each region, and for common practice if asked for, how its rules came out.
    pub tallies: Vec<Tally>,
    /// What each rule says, region by region.
    pub findings: Vec<Finding>,
    /// Whether findings that do not apply are among [`Report::findings`].
    pub detail: Detail,
    /// The facts that were worked out.
    pub worked_out: Vec<WorkedOut>,
    /// Topics on which a region has no rule recorded.
    pub not_covered: Vec<(String, Topic)>,
    /// For each region, whom to verify with.
    pub authorities: Vec<(String, Authority)>,
    /// How far the rig is from the values at which rules begin, or cease, to be broken; the nearest
    /// first. Empty until [`Report::with_margins`] finds them.
    pub margins: Vec<MarginTold>,
}

impl Report {
    /// Checks a rig against compiled rules.
    ///
    /// # Errors
    /// Every contradiction among the rig's facts, each with both places.
    pub fn new(
        rig: &Rig,
        rules: &Ruleset<'_>,
        on: CheckDay,
        detail: Detail,
    ) -> Result<Report, Complaints> {
        let facts = facts_on(rig, on)?;
        let looks = rules.looks(&rig.seen);
        let outcomes = rules.outcomes(&facts, &looks, Some(on.day));
        let mut findings = Vec::new();
        let mut tallies = Vec::new();
        for binding in rules.bindings() {
            let mut tally = Tally {
                region: binding.region.clone(),
                counts: [0; Outcome::ALL.len()],
            };
            for at in &binding.rules {
                let (Some(rule), Some(outcome)) =
                    (rules.program().rules.get(*at), outcomes.get(*at))
                else {
                    continue;
                };
                tally.add(*outcome);
                if detail == Detail::All || *outcome != Outcome::DoesNotApply {
                    findings.push(rules.finding(
                        &binding.region,
                        rule,
                        *outcome,
                        &facts,
                        &looks,
                        on.day,
                    ));
                }
            }
            tallies.push(tally);
        }
        let law = |t: &&Tally| t.region != crate::engine::PRACTICE;
        Ok(Report {
            rig: rig.name.clone(),
            on,
            regions: tallies
                .iter()
                .filter(law)
                .map(|t| t.region.clone())
                .collect(),
            packs: packs_used(rules),
            tallies,
            findings,
            detail,
            worked_out: worked_out(&facts),
            not_covered: rules.not_covered(),
            authorities: rules.authorities(),
            margins: Vec::new(),
        })
    }

    /// The same, with how far the rig is from the values at which rules turn. Every number that a
    /// person can change is varied for it, which takes much longer than the check.
    ///
    /// # Errors
    /// As [`Report::new`].
    pub fn with_margins(mut self, rig: &Rig, rules: &Ruleset<'_>) -> Result<Report, Complaints> {
        let facts = facts_on(rig, self.on)?;
        let looks = rules.looks(&rig.seen);
        let stated = stated_on(rig, self.on);
        let near = margins(rules, &stated, &facts, &looks, Some(self.on.day));
        self.margins = margins_told(&near, rules, &facts);
        Ok(self)
    }

    /// How many rules came out so, in all regions together.
    #[must_use]
    pub fn count(&self, outcome: Outcome) -> usize {
        self.tallies.iter().map(|t| t.count(outcome)).sum()
    }

    /// The gravest outcome of any rule; `met` where no rule applies.
    #[must_use]
    pub fn gravest(&self) -> Outcome {
        let found = Outcome::ALL.into_iter().find(|o| self.count(*o) > 0);
        found
            .filter(|o| *o != Outcome::DoesNotApply)
            .unwrap_or(Outcome::Met)
    }
}

/// The facts that a rig states, and the day of the check as the day of the trip; nothing worked out.
#[must_use]
pub fn stated_on(rig: &Rig, on: CheckDay) -> FactSet {
    let mut facts = rig.facts.clone();
    day::set_day(&mut facts, on.day);
    facts
}

/// The facts of a rig on a day, all that can be worked out among them.
///
/// # Errors
/// Every contradiction, with both places.
pub fn facts_on(rig: &Rig, on: CheckDay) -> Result<FactSet, Complaints> {
    let mut facts = stated_on(rig, on);
    let conflicts = work_out(&mut facts, Some(on.day));
    if conflicts.is_empty() {
        return Ok(facts);
    }
    let complaints = conflicts
        .iter()
        .map(|c| c.complaint(&rig.source, Span::point(0)));
    Err(complaints.collect())
}

fn packs_used(rules: &Ruleset<'_>) -> Vec<PackUsed> {
    let used = |p: &&crate::pack::Pack| PackUsed {
        id: p.id.value.clone(),
        version: p.version.clone(),
        sha256: p.sha256.clone(),
    };
    let mut packs: Vec<PackUsed> = rules.packs().iter().map(used).collect();
    packs.sort_by(|a, b| a.id.cmp(&b.id));
    packs
}
