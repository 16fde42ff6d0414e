//! A comparison: what several regions ask on one topic, side by side, along the line of weights, and
//! on a map.

mod html;
mod json;
mod lacks;
mod map;
mod text;
mod tiles;

pub use html::comparison_html;
pub use json::comparison_json;
pub use text::{comparison_markdown, comparison_text};
pub use tiles::{TILES, Tile};

use super::sheet::{RegionSheet, Sheet, sheet};
use super::{CheckDay, Kind, Units};
use crate::engine::Ruleset;
use crate::engine::survey::{Lack, Lacking, lacking};
use crate::facts::{catalogue, format_day};
use crate::pack::Topic;
use crate::quantity::{Exact, Unit};
use crate::source::Complaints;
use lacks::{Lacks, TAKEN, lacks_of, taken};
use map::threshold_words;

/// The version of the comparison's JSON format.
pub const COMPARISON_FORMAT: u32 = 1;

/// What regions ask on one topic.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// The topic.
    pub topic: Topic,
    /// What each region asks.
    pub sheet: Sheet,
    /// From which gross weight a rig breaks a rule of the topic that lacks what the topic is about;
    /// nothing for topics that are not about one thing.
    pub lack: Option<LackTold>,
}

/// What is lacked, and how each region stands to that.
#[derive(Clone, Debug)]
pub struct LackTold {
    /// What the rig lacks: "service brakes".
    pub what: &'static str,
    /// What is taken of the rig besides: "two axles with four wheels".
    pub taken: String,
    /// Each region by code with its stretches of gross weight, from below.
    pub regions: Vec<(String, Vec<Lacking>)>,
    /// The ids of the rules, by their places in the program.
    ids: Vec<String>,
}

/// Where it begins to be asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Threshold {
    /// The lowest weight from which a rule is surely broken, its unit, and whether it belongs to it;
    /// nothing where none is at any weight looked at. The weight is `None` where it is at every one.
    pub surely: Option<(Option<(Exact, Unit)>, bool)>,
    /// The lowest weight from which a rule may be broken, where that lies below.
    pub perhaps: Option<(Option<(Exact, Unit)>, bool)>,
}

impl Threshold {
    /// Reads it off the stretches.
    #[must_use]
    pub fn of(stretches: &[Lacking]) -> Threshold {
        let first = |lack: Lack| stretches.iter().position(|s| s.lack == lack);
        let start = |at: usize| stretches.get(at).map(|s| (s.at.from, s.at.from_included));
        let (surely, perhaps) = (first(Lack::Broken), first(Lack::Open));
        Threshold {
            surely: surely.and_then(start),
            perhaps: perhaps
                .filter(|p| surely.is_none_or(|s| *p < s))
                .and_then(start),
        }
    }
}

/// Compares regions on one topic, for a kind of rig.
///
/// # Errors
/// Every contradiction among what is known of the kind.
pub fn comparison(
    rules: &Ruleset<'_>,
    kind: &Kind,
    topic: Topic,
    on: CheckDay,
    units: Option<Units>,
) -> Result<Comparison, Complaints> {
    let sheet = sheet(rules, kind, &[topic], on, units)?;
    let lack = match lacks_of(topic) {
        Some(lacks) => Some(told(rules, kind, topic, on, lacks)?),
        None => None,
    };
    Ok(Comparison { topic, sheet, lack })
}

fn told(
    rules: &Ruleset<'_>,
    kind: &Kind,
    topic: Topic,
    on: CheckDay,
    lacks: &Lacks,
) -> Result<LackTold, Complaints> {
    let day = format_day(on.day);
    let year = day.split('-').next().unwrap_or_default();
    let common = taken(year);
    let common: Vec<(&str, &str)> = common.iter().map(|(f, v)| (*f, v.as_str())).collect();
    let kind = kind.with(&common)?;
    let without = kind.with(lacks.without)?.facts(on)?;
    let with = kind.with(lacks.with)?.facts(on)?;
    let mut regions = Vec::new();
    if let Some(gross) = catalogue().find("trailer.gross_weight") {
        for binding in rules.bindings() {
            let of_topic = |i: &&usize| {
                let rule = rules.program().rules.get(**i);
                rule.is_some_and(|r| r.topic == topic)
            };
            let which: Vec<usize> = binding.rules.iter().filter(of_topic).copied().collect();
            let found = lacking(rules, &which, &without, &with, gross, Some(on.day));
            regions.push((binding.region.clone(), found));
        }
    }
    Ok(LackTold {
        what: lacks.what,
        taken: match lacks.taken {
            "" => TAKEN.to_owned(),
            more => format!("{TAKEN}; {more}"),
        },
        regions,
        ids: rules.program().rules.iter().map(|r| r.id.clone()).collect(),
    })
}

impl Comparison {
    /// The threshold of a region.
    #[must_use]
    pub fn threshold(&self, region: &str) -> Option<Threshold> {
        let regions = &self.lack.as_ref()?.regions;
        let (_, stretches) = regions.iter().find(|(r, _)| r == region)?;
        Some(Threshold::of(stretches))
    }

    /// Whether no rule of a region's own on the topic is recorded.
    fn is_gap(&self, region: &str) -> bool {
        let found = self.regions().iter().find(|r| r.region == region);
        found.is_some_and(|r| r.not_covered.contains(&self.topic))
    }

    /// A region's threshold in words.
    fn told(&self, region: &str, threshold: &Threshold) -> String {
        if self.is_gap(region) && threshold.surely.is_none() && threshold.perhaps.is_none() {
            "no rule on this is recorded".to_owned()
        } else {
            threshold_words(threshold, self.sheet.units)
        }
    }

    /// The ids of the rules that are broken, or may be, each once.
    #[must_use]
    pub fn ids_of(&self, stretches: &[Lacking]) -> Vec<&str> {
        let mut out: Vec<&str> = Vec::new();
        for at in stretches.iter().flat_map(|s| &s.rules) {
            if let Some(id) = self.lack.as_ref().and_then(|l| l.ids.get(*at))
                && !out.contains(&id.as_str())
            {
                out.push(id);
            }
        }
        out
    }

    /// The regions compared.
    pub(super) fn regions(&self) -> &[RegionSheet] {
        &self.sheet.regions
    }
}
