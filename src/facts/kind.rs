//! What a fact is: its name, kind, scope and meaning.

use crate::quantity::Dimension;

/// A fact's place in the catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FactId(pub(crate) u16);

impl FactId {
    /// The index of the fact in the catalogue's list.
    #[must_use]
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// What one fact is said of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Scope {
    /// The rig as a whole.
    Rig,
    /// One item of the load.
    Load,
    /// One tie-down of a load item.
    TieDown,
    /// One axle of the trailer.
    Axle,
    /// One axle of the towing vehicle.
    VehicleAxle,
    /// One tyre of the trailer, or a set of alike tyres.
    Tyre,
}

impl Scope {
    /// Every scope, the rig first.
    pub const ALL: [Scope; 6] = [
        Scope::Rig,
        Scope::Load,
        Scope::TieDown,
        Scope::Axle,
        Scope::VehicleAxle,
        Scope::Tyre,
    ];

    /// The scope that an item of this one lies in; `None` for the rig itself.
    #[must_use]
    pub fn parent(self) -> Option<Scope> {
        match self {
            Scope::Rig => None,
            Scope::TieDown => Some(Scope::Load),
            _ => Some(Scope::Rig),
        }
    }

    /// The word that a rule's `each` uses for the items of this scope.
    #[must_use]
    pub fn each_name(self) -> Option<&'static str> {
        Some(match self {
            Scope::Rig => return None,
            Scope::Load => "load",
            Scope::TieDown => "tie_downs",
            Scope::Axle => "axles",
            Scope::VehicleAxle => "vehicle_axles",
            Scope::Tyre => "tyres",
        })
    }

    /// The key under which a rig file lists the items of this scope, seen from the rig, and from
    /// the item that they belong to.
    #[must_use]
    pub fn list_key(self) -> Option<&'static str> {
        Some(match self {
            Scope::Rig => return None,
            Scope::Load => "load",
            Scope::TieDown => "tie_downs",
            Scope::Axle => "trailer.axles",
            Scope::VehicleAxle => "tow_vehicle.axles",
            Scope::Tyre => "trailer.tyres",
        })
    }

    /// The first part of the names of the facts of this scope.
    #[must_use]
    pub fn prefix(self) -> Option<&'static str> {
        Some(match self {
            Scope::Rig => return None,
            Scope::Load => "load",
            Scope::TieDown => "tie_down",
            Scope::Axle => "axle",
            Scope::VehicleAxle => "vehicle_axle",
            Scope::Tyre => "tyre",
        })
    }

    /// What one item of this scope is called in a sentence.
    #[must_use]
    pub fn noun(self) -> &'static str {
        match self {
            Scope::Rig => "rig",
            Scope::Load => "load item",
            Scope::TieDown => "tie-down",
            Scope::Axle => "trailer axle",
            Scope::VehicleAxle => "axle of the towing vehicle",
            Scope::Tyre => "trailer tyre",
        }
    }
}

/// One member of a choice or a set, with what it means.
#[derive(Clone, Copy, Debug)]
pub struct Choice {
    /// The word a rig file and a pack use.
    pub name: &'static str,
    /// What it stands for.
    pub meaning: &'static str,
}

/// What values a fact can have.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A quantity with its unit, or a count.
    Measure(Dimension),
    /// A calendar year, such as a model year.
    Year,
    /// A calendar day, or a year or month that stands for all its days.
    Date,
    /// Yes or no.
    YesNo,
    /// One of a list of words.
    Choice(&'static [Choice]),
    /// Any number of a list of words.
    Set(&'static [Choice]),
    /// Free text that no rule reads.
    Text,
}

impl Kind {
    /// The kind's name in messages and in the printed vocabulary.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Kind::Measure(d) => d.name(),
            Kind::Year => "year",
            Kind::Date => "date",
            Kind::YesNo => "yes/no",
            Kind::Choice(_) => "choice",
            Kind::Set(_) => "set",
            Kind::Text => "text",
        }
    }

    /// The members of a choice or a set; empty for every other kind.
    #[must_use]
    pub fn choices(&self) -> &'static [Choice] {
        match self {
            Kind::Choice(c) | Kind::Set(c) => c,
            _ => &[],
        }
    }

    /// Whether the values are numbers on a line: quantities, years and days.
    #[must_use]
    pub fn is_ordered(&self) -> bool {
        matches!(self, Kind::Measure(_) | Kind::Year | Kind::Date)
    }
}

/// Where a fact's value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Read from the rig file only.
    Stated,
    /// Read from the rig file, or worked out where it is not stated.
    Either,
    /// Worked out only.
    WorkedOut,
}

impl Origin {
    /// The origin in words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Origin::Stated => "stated",
            Origin::Either => "stated or worked out",
            Origin::WorkedOut => "worked out",
        }
    }
}

/// One entry of the catalogue.
#[derive(Clone, Copy, Debug)]
pub struct FactDef {
    /// The dotted name.
    pub name: &'static str,
    /// A short name for sentences: "gross weight of the trailer".
    pub label: &'static str,
    /// What values it can have.
    pub kind: Kind,
    /// Whether it is stated or worked out.
    pub origin: Origin,
    /// What it means, how it is measured.
    pub meaning: &'static str,
    /// What it is said of.
    pub scope: Scope,
    /// Whether it is a length that may lie below zero.
    pub signed: bool,
}
