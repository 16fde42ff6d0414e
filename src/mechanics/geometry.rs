//! Where things lie along the trailer: positions behind the coupler's centre, the axle group.

use super::bench::{Bench, zero};
use super::formulas::{Placed, rigid_axle_centre};
use crate::facts::{ItemId, Scope, Tri};
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// The point from which positions of the load are measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Datum {
    Coupler,
    DeckFront,
    NotStated,
}

/// One item of the load, as stated.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub item: ItemId,
    pub weight: Interval,
    position: Interval,
    pub length: Interval,
}

/// The trailer's geometry as far as it is known.
#[derive(Clone, Debug)]
pub(super) struct Geometry {
    /// Coupler to axle group.
    pub to_axles: Interval,
    /// Coupler to the deck's front edge.
    pub deck: Interval,
    datum: Datum,
    /// All items of the load; `None` when they are not all listed.
    pub load: Option<Vec<Piece>>,
    /// The unit for lengths.
    pub unit: Unit,
}

impl Geometry {
    pub fn read(b: &mut Bench<'_>) -> Geometry {
        axle_centre(b);
        let datum = match b.choice_of(ItemId::RIG, "loading.positions_from") {
            Some("coupler") => Datum::Coupler,
            Some("deck-front") => Datum::DeckFront,
            _ => Datum::NotStated,
        };
        let unit = b.unit(&["trailer.coupler_to_axles"]);
        Geometry {
            to_axles: b.number("trailer.coupler_to_axles"),
            deck: b.number("trailer.coupler_to_deck"),
            datum,
            load: pieces(b),
            unit: unit
                .or_else(|| b.unit_in("load.position"))
                .unwrap_or(Unit::Foot),
        }
    }

    /// Whether the axle group lies behind the coupler at a distance that is known.
    pub fn has_axles(&self) -> bool {
        self.to_axles.lo.is_some_and(|lo| lo > Exact::ZERO) && self.to_axles.hi.is_some()
    }

    /// Where an item lies behind the coupler, for a distance coupler to deck.
    pub fn place(&self, piece: &Piece, deck: Interval) -> Interval {
        match self.datum {
            Datum::Coupler => piece.position,
            Datum::DeckFront => piece.position.add(deck),
            Datum::NotStated => piece.position.hull(piece.position.add(deck)),
        }
    }

    /// The items with their places.
    pub fn placed(&self, deck: Interval) -> Vec<Placed> {
        let load = self.load.as_deref().unwrap_or_default();
        load.iter()
            .map(|p| Placed {
                weight: p.weight,
                at: self.place(p, deck),
            })
            .collect()
    }

    /// A distance in words.
    pub fn show(&self, length: Interval) -> String {
        format_interval(length, self.unit)
    }
}

/// The load's items; none when the trailer carries no load.
fn pieces(b: &Bench<'_>) -> Option<Vec<Piece>> {
    if b.facts.is_complete(Scope::Load) {
        let piece = |item: ItemId| Piece {
            item,
            weight: b.number_of(item, "load.weight"),
            position: b.number_of(item, "load.position"),
            length: b.number_of(item, "load.length"),
        };
        return Some(b.items(Scope::Load).into_iter().map(piece).collect());
    }
    let nothing = b.number("trailer.load_weight") == zero();
    nothing.then(Vec::new)
}

/// Where the axle group's load acts, from the axles' positions.
fn axle_centre(b: &mut Bench<'_>) {
    let axles = b.items(Scope::Axle);
    if !b.facts.is_complete(Scope::Axle)
        || axles.is_empty()
        || b.is_stated(ItemId::RIG, "trailer.coupler_to_axles")
    {
        return;
    }
    let known: Option<Vec<Interval>> = axles
        .iter()
        .map(|a| b.known_number(*a, "axle.position"))
        .collect();
    let Some(positions) = known else { return };
    let sum = positions.iter().fold(zero(), |s, x| s.add(*x));
    let mean = sum.div(super::bench::whole(positions.len()));
    let unit = b.unit_in("axle.position").unwrap_or(Unit::Foot);
    let list: Vec<String> = axles
        .iter()
        .map(|a| b.show(*a, "axle.position", Some(unit)))
        .collect();
    let list = super::bench::joined(&list, ", ");
    let one = positions.len() == 1;
    let (at, how) = match b.yes("trailer.equalised_axles") {
        _ if one => (mean, "the axle's position".to_owned()),
        Tri::True => (mean, format!("the middle of equalised axles at {list}")),
        Tri::False => (
            rigid_axle_centre(&positions),
            format!("rigid axles on equal springs at {list}: sum of squares ÷ sum"),
        ),
        Tri::Unknown => (
            mean.hull(rigid_axle_centre(&positions)),
            format!("axles at {list}, equalised or rigid"),
        ),
    };
    b.put(
        "trailer.coupler_to_axles",
        at,
        Some(unit),
        how,
        &["axle.position"],
    );
}

/// The share of the axle group's load that each axle takes; `None` when it cannot be told.
/// Equalised axles share alike; rigid ones on equal springs in proportion to their distance from
/// the coupler.
pub(super) fn axle_shares(
    b: &Bench<'_>,
    axles: &[ItemId],
) -> Option<Vec<(Interval, &'static str)>> {
    let n = super::bench::whole(axles.len());
    let even = Interval::exactly(Exact::ONE).div(n);
    let alike = |word: &'static str| Some(vec![(even, word); axles.len()]);
    let positions: Option<Vec<Interval>> = axles
        .iter()
        .map(|a| b.known_number(*a, "axle.position"))
        .collect();
    let by_distance = |p: &[Interval]| {
        let sum = p.iter().fold(zero(), |s, x| s.add(*x));
        p.iter().map(|x| x.div(sum)).collect::<Vec<_>>()
    };
    match (b.yes("trailer.equalised_axles"), positions) {
        _ if axles.len() == 1 => alike(""),
        (Tri::True, _) => alike("equalised axles share alike"),
        (Tri::False, Some(p)) => Some(
            by_distance(&p)
                .into_iter()
                .map(|s| {
                    (
                        s,
                        "rigid axles on equal springs, by distance from the coupler",
                    )
                })
                .collect(),
        ),
        (Tri::Unknown, Some(p)) => Some(
            by_distance(&p)
                .into_iter()
                .map(|s| (s.hull(even), "axles equalised or rigid"))
                .collect(),
        ),
        (_, None) => None,
    }
}
