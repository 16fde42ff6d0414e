//! A sheet: what a region asks of a kind of rig, by topic and by bands of weight, for trainers and
//! for the wall.

mod build;
mod html;
mod json;
mod markdown;
mod text;
mod words;

pub use build::sheet;
pub use html::sheet_html;
pub(super) use html::{ladder_row, topic_part};
pub(super) use json::ends;
pub use json::sheet_json;
pub use markdown::sheet_markdown;
pub use text::sheet_text;
pub(super) use words::{axis_words, kind_phrase_of, stretch_words};

use super::{CheckDay, PackUsed, Units};
use crate::engine::survey::{Asks, Stretch};
use crate::facts::{FactId, FactSet};
use crate::pack::{Authority, Source, Topic};

/// The version of the sheet's JSON format.
pub const SHEET_FORMAT: u32 = 1;

/// What regions ask of a kind of rig on a day.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The day it is made for.
    pub on: CheckDay,
    /// The units asked for besides the statutes' own.
    pub units: Option<Units>,
    /// What is known of the kind of rig: each fact with its value in words.
    pub kind: Vec<(FactId, String)>,
    /// The facts of such a rig, with all that follows from what is known.
    pub facts: FactSet,
    /// Region by region, in the order asked for.
    pub regions: Vec<RegionSheet>,
    /// The packs used, by id.
    pub packs: Vec<PackUsed>,
}

/// What one region asks.
#[derive(Clone, Debug)]
pub struct RegionSheet {
    /// The region's code, or [`crate::engine::PRACTICE`].
    pub region: String,
    /// Whom to verify with.
    pub authority: Option<Authority>,
    /// The rules told, numbered from one in this order.
    pub entries: Vec<Entry>,
    /// Topic by topic; topics without a rule are left out.
    pub topics: Vec<TopicSheet>,
    /// The sources, numbered from one in this order.
    pub sources: Vec<Source>,
    /// Topics on which no rule of the region is recorded.
    pub not_covered: Vec<Topic>,
    /// How many rules of the region cannot bind such a rig.
    pub left_out: usize,
}

/// One rule on a sheet; rules that say the same are one entry.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The full ids of the rules.
    pub rules: Vec<String>,
    /// What it says.
    pub says: String,
    /// What it asks at most.
    pub asks: Asks,
    /// The conditions left open, in words, set in by two blanks a level.
    pub when: Vec<String>,
    /// The facts that these conditions read.
    pub depends_on: Vec<FactId>,
    /// What somebody has to look at, other than what the rule says already.
    pub looks: Vec<String>,
    /// What the sources leave open.
    pub notes: Vec<String>,
    /// Whether the rule is too doubtful to call anything broken.
    pub doubt: bool,
    /// Its sources, by their places in the region's list.
    pub sources: Vec<usize>,
}

/// One topic of a region.
#[derive(Clone, Debug)]
pub struct TopicSheet {
    /// The topic.
    pub topic: Topic,
    /// The entries that no weight decides, by their places.
    pub always: Vec<usize>,
    /// The entries that a weight decides, weight by weight.
    pub ladders: Vec<Ladder>,
}

/// A line of weights cut into bands.
#[derive(Clone, Debug)]
pub struct Ladder {
    /// The weight.
    pub axis: FactId,
    /// The bands, from below.
    pub bands: Vec<LadderBand>,
}

/// A band of weights with what is asked on it.
#[derive(Clone, Debug)]
pub struct LadderBand {
    /// The weights.
    pub at: Stretch,
    /// The entries that ask something there, by their places, and what.
    pub entries: Vec<(usize, Asks)>,
}
