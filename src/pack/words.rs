//! The fixed words of packs: topics, grades of reading, comparisons.

/// The topics of rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Topic {
    /// Service brakes and stopping.
    Brakes,
    /// Breakaway brakes.
    Breakaway,
    /// Safety chains and cables.
    SafetyChains,
    /// Hitch, coupler and drawbar.
    Coupling,
    /// Lamps and reflectors.
    LampsReflectors,
    /// Tie-downs, covers, overhanging loads.
    LoadSecurement,
    /// Weights, ratings, tongue weight.
    WeightAndBalance,
    /// Tyres, wheels and bearings.
    TyresAndBearings,
    /// Sizes.
    Dimensions,
    /// Speed.
    Speed,
    /// Driver's licence.
    Licence,
    /// Mirrors and view.
    Mirrors,
    /// People in the trailer.
    Passengers,
    /// Periodic inspection.
    Inspection,
    /// Registration, title, plates, labels.
    Registration,
    /// Anything else.
    Other,
}

impl Topic {
    /// All topics, in the order reports use.
    pub const ALL: [Topic; 16] = [
        Topic::Brakes,
        Topic::Breakaway,
        Topic::SafetyChains,
        Topic::Coupling,
        Topic::LampsReflectors,
        Topic::LoadSecurement,
        Topic::WeightAndBalance,
        Topic::TyresAndBearings,
        Topic::Dimensions,
        Topic::Speed,
        Topic::Licence,
        Topic::Mirrors,
        Topic::Passengers,
        Topic::Inspection,
        Topic::Registration,
        Topic::Other,
    ];

    /// The word in packs and reports.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Topic::Brakes => "brakes",
            Topic::Breakaway => "breakaway",
            Topic::SafetyChains => "safety-chains",
            Topic::Coupling => "coupling",
            Topic::LampsReflectors => "lamps-reflectors",
            Topic::LoadSecurement => "load-securement",
            Topic::WeightAndBalance => "weight-and-balance",
            Topic::TyresAndBearings => "tyres-and-bearings",
            Topic::Dimensions => "dimensions",
            Topic::Speed => "speed",
            Topic::Licence => "licence",
            Topic::Mirrors => "mirrors",
            Topic::Passengers => "passengers",
            Topic::Inspection => "inspection",
            Topic::Registration => "registration",
            Topic::Other => "other",
        }
    }

    /// The topic of that name.
    #[must_use]
    pub fn find(name: &str) -> Option<Topic> {
        Topic::ALL.into_iter().find(|t| t.name() == name)
    }
}

/// How a source was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reading {
    /// The text of the law or standard itself.
    Text,
    /// A part of the text.
    Excerpt,
    /// Somebody's account of it.
    Secondary,
    /// From memory; nothing was read.
    Memory,
    /// Common practice, no source.
    None,
}

impl Reading {
    /// All grades, the best first.
    pub const ALL: [Reading; 5] = [
        Reading::Text,
        Reading::Excerpt,
        Reading::Secondary,
        Reading::Memory,
        Reading::None,
    ];

    /// The word in packs and reports.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Reading::Text => "text",
            Reading::Excerpt => "excerpt",
            Reading::Secondary => "secondary",
            Reading::Memory => "memory",
            Reading::None => "none",
        }
    }

    /// The grade in words.
    #[must_use]
    pub fn says(self) -> &'static str {
        match self {
            Reading::Text => "text read",
            Reading::Excerpt => "excerpt read",
            Reading::Secondary => "second-hand",
            Reading::Memory => "from memory, not read",
            Reading::None => "no source",
        }
    }
}

/// The comparisons.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Comparison {
    /// This or more.
    AtLeast,
    /// More than this.
    MoreThan,
    /// This or less.
    AtMost,
    /// Less than this.
    LessThan,
    /// Just this.
    Equals,
}

impl Comparison {
    /// The word in a pack; days have words of their own.
    #[must_use]
    pub fn word(self, days: bool) -> &'static str {
        match (self, days) {
            (Comparison::AtLeast, false) => "at_least",
            (Comparison::MoreThan, false) => "more_than",
            (Comparison::AtMost, false) => "at_most",
            (Comparison::LessThan, false) => "less_than",
            (Comparison::Equals, _) => "equals",
            (Comparison::AtLeast, true) => "on_or_after",
            (Comparison::MoreThan, true) => "after",
            (Comparison::AtMost, true) => "on_or_before",
            (Comparison::LessThan, true) => "before",
        }
    }

    /// The comparison in a sentence.
    #[must_use]
    pub fn says(self, days: bool) -> &'static str {
        match (self, days) {
            (Comparison::AtLeast, false) => "at least",
            (Comparison::MoreThan, false) => "more than",
            (Comparison::AtMost, false) => "at most",
            (Comparison::LessThan, false) => "less than",
            (Comparison::Equals, _) => "exactly",
            (Comparison::AtLeast, true) => "on or after",
            (Comparison::MoreThan, true) => "after",
            (Comparison::AtMost, true) => "on or before",
            (Comparison::LessThan, true) => "before",
        }
    }
}
