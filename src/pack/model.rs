//! What a pack says, read but not yet compiled. Every part remembers where it stands in the text.

use super::words::{Comparison, Reading, Topic};
use crate::facts::{Day, FactId, Scope};
use crate::quantity::{Dimension, Exact, Interval, Measure};
use crate::source::{Node, SourceText, Span};

/// What a pack is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Law of a region.
    Law,
    /// A standard that binds only where a region's pack adopts it.
    Standard,
    /// Habits of the trade.
    Practice,
}

/// One pack file.
#[derive(Clone, Debug)]
pub struct Pack {
    /// The text it was read from.
    pub source: SourceText,
    /// SHA-256 of the file's bytes, in hexadecimal.
    pub sha256: String,
    /// The pack's id, such as `us-ne`.
    pub id: Spanned<String>,
    /// The pack's own version.
    pub version: String,
    /// What it is for.
    pub standing: Standing,
    /// The region whose law it is, as an ISO 3166 code.
    pub region: Option<Spanned<String>>,
    /// The pack of the region that contains this one.
    pub within: Option<Spanned<String>>,
    /// A name for people.
    pub title: String,
    /// Whom to verify with.
    pub authority: Option<Authority>,
    /// Named conditions.
    pub definitions: Vec<Definition>,
    /// Rules taken over from other packs.
    pub adopts: Vec<Adoption>,
    /// The rules.
    pub rules: Vec<Rule>,
    /// What the sources say that is not a duty of a rig, or leave unsettled.
    pub notes: Vec<PackNote>,
    /// Provisions looked at and left out, with the reason.
    pub left_out: Vec<LeftOut>,
}

/// A value with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

/// The office that answers for a region's rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Authority {
    /// Its name.
    pub name: String,
    /// Its address on the web.
    pub web: Option<String>,
}

/// A named condition.
#[derive(Clone, Debug)]
pub struct Definition {
    /// Its name.
    pub name: Spanned<String>,
    /// What it stands for.
    pub condition: Condition,
}

/// Rules of another pack that bind here by reference.
#[derive(Clone, Debug)]
pub struct Adoption {
    /// A name for the adoption within the pack.
    pub id: Spanned<String>,
    /// The pack adopted from.
    pub pack: Spanned<String>,
    /// The rules adopted; all when empty.
    pub rules: Vec<Spanned<String>>,
    /// Only rules of these topics, when not empty.
    pub topics: Vec<Topic>,
    /// Rules left out.
    pub except: Vec<Spanned<String>>,
    /// Where the rules bind here.
    pub when: Option<Condition>,
    /// Where they do not.
    pub unless: Option<Condition>,
    /// Terms of the adopted pack that mean something else here.
    pub redefine: Vec<Definition>,
    /// What the source leaves in doubt.
    pub note: Option<String>,
    /// The law that adopts.
    pub sources: Vec<Source>,
    /// When the adoption is in force.
    pub in_force: Period,
    /// Cases, each naming an adopted rule.
    pub cases: Vec<Case>,
    /// The whole adoption in the text.
    pub span: Span,
}

/// One rule.
#[derive(Clone, Debug)]
pub struct Rule {
    /// Its id within the pack.
    pub id: Spanned<String>,
    /// The topic.
    pub topic: Topic,
    /// The rule in plain words.
    pub says: String,
    /// What reading the sources leaves open; shown with the finding.
    pub note: Option<String>,
    /// Why the rule is too doubtful to call anything broken; a breach is then for somebody to confirm.
    pub doubt: Option<String>,
    /// The items that the rule is run for, one by one.
    pub each: Option<Scope>,
    /// When it applies; always, when absent.
    pub when: Option<Condition>,
    /// When it does not apply after all: the exemptions.
    pub unless: Option<Condition>,
    /// What must hold.
    pub must: Condition,
    /// The sources.
    pub sources: Vec<Source>,
    /// When the rule is in force.
    pub in_force: Period,
    /// The cases.
    pub cases: Vec<Case>,
    /// The whole rule in the text.
    pub span: Span,
}

/// The days on which something is in force; both ends belong to it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Period {
    /// The first day.
    pub from: Option<Day>,
    /// The last day.
    pub until: Option<Day>,
    /// Where it is written.
    pub span: Option<Span>,
}

impl Period {
    /// Whether the day lies in the period.
    #[must_use]
    pub fn contains(&self, day: Day) -> bool {
        self.from.is_none_or(|f| f <= day) && self.until.is_none_or(|u| day <= u)
    }
}

/// Where a rule comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// The citation.
    pub cite: String,
    /// The address at which it was read.
    pub at: Option<String>,
    /// How it was read.
    pub read: Reading,
    /// The day it was read.
    pub on: Option<Day>,
    /// The age or edition of the copy.
    pub as_of: Option<String>,
}

/// A small rig and what a rule must say of it. Read in full only when the pack is checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The case in the text.
    pub node: Node,
}

/// Something a pack records that is not a rule.
#[derive(Clone, Debug)]
pub struct PackNote {
    /// The topic.
    pub topic: Topic,
    /// The note.
    pub text: String,
    /// The sources.
    pub sources: Vec<Source>,
}

/// A provision left out.
#[derive(Clone, Debug)]
pub struct LeftOut {
    /// What was left out.
    pub provision: String,
    /// Why.
    pub reason: String,
}

/// A condition.
#[derive(Clone, Debug)]
pub struct Condition {
    /// What it says.
    pub kind: ConditionKind,
    /// Where it stands.
    pub span: Span,
}

/// The forms of a condition.
#[derive(Clone, Debug)]
pub enum ConditionKind {
    /// All hold.
    All(Vec<Condition>),
    /// One at least holds.
    Any(Vec<Condition>),
    /// It does not hold.
    Not(Box<Condition>),
    /// The named condition holds.
    Defined(String),
    /// A comparison of numbers, years or days.
    Compare {
        /// The left side.
        left: Box<Amount>,
        /// The comparison.
        by: Comparison,
        /// The right side.
        right: Box<Amount>,
    },
    /// A yes/no or a choice is one of these.
    OneOf {
        /// The fact.
        fact: FactId,
        /// A bit for each member that makes it true.
        members: u128,
        /// Whether it was written as a plain value or as `equals`.
        plain: bool,
    },
    /// A set contains all of these.
    Includes {
        /// The fact.
        fact: FactId,
        /// A bit for each member.
        members: u128,
    },
    /// A set contains at least one of these.
    IncludesAny {
        /// The fact.
        fact: FactId,
        /// A bit for each member.
        members: u128,
    },
    /// Something that only an eye can judge.
    Look(Look),
}

/// Something to look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// A name to answer it by; without one the rule's id answers it.
    pub key: Option<String>,
    /// What to look for.
    pub text: String,
}

/// What the numbers of an amount measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountType {
    /// A quantity.
    Measure(Dimension),
    /// A calendar year.
    Year,
    /// A day.
    Day,
}

/// A number in a rule: written out, or worked out from facts.
#[derive(Clone, Debug)]
pub struct Amount {
    /// How it is got.
    pub kind: AmountKind,
    /// What it measures.
    pub of: AmountType,
    /// Where it stands.
    pub span: Span,
}

/// The forms of an amount.
#[derive(Clone, Debug)]
pub enum AmountKind {
    /// A literal quantity.
    Literal(Measure),
    /// A literal year or day (or all the days of a year or month).
    Number(Interval),
    /// Another fact.
    Fact(FactId),
    /// So many times another amount: 0.4 for "40% of".
    Times(Exact, Box<Amount>),
    /// Amounts added up.
    Sum(Vec<Amount>),
    /// The first less the second.
    Difference(Box<Amount>, Box<Amount>),
    /// The greatest of several.
    Greatest(Vec<Amount>),
    /// The least of several.
    Least(Vec<Amount>),
    /// A count in steps: `first` up to a free amount, then `then` more for each further step or
    /// part of it.
    Steps {
        /// What is counted along.
        of: Box<Amount>,
        /// The count up to `up_to`.
        first: Exact,
        /// The amount that `first` covers.
        up_to: Box<Amount>,
        /// How many more each step asks.
        then: Exact,
        /// The size of a step.
        each: Box<Amount>,
    },
}

impl Pack {
    /// The ids of other packs whose terms this one uses, as in `is: us-federal/commercial`.
    #[must_use]
    pub fn terms_of_others(&self) -> Vec<String> {
        fn visit(c: &Condition, out: &mut Vec<String>) {
            match &c.kind {
                ConditionKind::All(parts) | ConditionKind::Any(parts) => {
                    parts.iter().for_each(|p| visit(p, out));
                }
                ConditionKind::Not(inner) => visit(inner, out),
                ConditionKind::Defined(name) => {
                    out.extend(name.split_once('/').map(|(pack, _)| pack.to_owned()));
                }
                _ => {}
            }
        }
        let mut out = Vec::new();
        let rules = self.rules.iter().flat_map(|r| {
            r.when
                .iter()
                .chain(&r.unless)
                .chain(std::iter::once(&r.must))
        });
        let adopts = self.adopts.iter().flat_map(|a| {
            let terms = a.redefine.iter().map(|d| &d.condition);
            a.when.iter().chain(&a.unless).chain(terms)
        });
        let own = self.definitions.iter().map(|d| &d.condition);
        for c in own.chain(rules).chain(adopts) {
            visit(c, &mut out);
        }
        out
    }
}
