//! Drawings of a rig: a side view to scale along its length, and its weights against their ratings.
//!
//! Everything that is drawn solid stands in the rig file or was worked out from it. A range is drawn
//! as a range. What is missing is drawn with broken lines and named; nothing is presumed.

mod bars;
mod coupling;
mod lanes;
mod load;
mod scale;
mod scene;
mod side;

pub use scale::Scale;
pub use scene::{AxlePlace, ItemPlace, Lane, Scene, Stretch};

pub(super) use bars::bars;
pub(super) use coupling::stated;
pub(super) use side::side_view;

use super::units::{Units, turned};
use crate::facts::{FactSet, ItemId, Known, Whence, catalogue, show_value};
use crate::quantity::{Interval, Unit, format_interval};

/// What is known of a fact, where anything is.
pub(super) fn known<'f>(facts: &'f FactSet, item: ItemId, name: &str) -> Option<&'f Known> {
    let known = facts.known(item, catalogue().find(name)?)?;
    (known.whence != Whence::Missing).then_some(known)
}

/// The range of a number, where both ends are known.
pub(super) fn range_of(facts: &FactSet, item: ItemId, name: &str) -> Option<Interval> {
    let i = known(facts, item, name)?.value.interval();
    (i.lo.is_some() && i.hi.is_some()).then_some(i)
}

/// A fact's value in words, in the units asked for too.
pub(super) fn told(
    facts: &FactSet,
    item: ItemId,
    name: &str,
    units: Option<Units>,
) -> Option<String> {
    let fact = catalogue().find(name)?;
    let k = known(facts, item, name)?;
    let own = show_value(&k.value, k.unit, catalogue().def(fact));
    let other = k.unit.and_then(|u| in_units(k.value.interval(), u, units));
    Some(match other {
        Some(other) => format!("{own} ({other})"),
        None => own,
    })
}

/// A range in the units asked for, where these are others than those it is written in.
pub(super) fn in_units(i: Interval, written: Unit, units: Option<Units>) -> Option<String> {
    let end = i.hi.or(i.lo)?;
    let unit = units?.unit_for(end, written);
    if unit == written {
        return None;
    }
    match i.is_exact() {
        Some(x) => turned(x, written, units),
        None => Some(format!("about {}", format_interval(i, unit))),
    }
}
