//! Where things are along the rig, as far as the facts tell: metres behind the coupler's centre.

use super::{known, range_of, told};
use crate::facts::{FactSet, ItemId, Scope, Value, catalogue};
use crate::quantity::{Exact, Interval, Unit};
use crate::report::Units;

/// A stretch of the rig's length, each end a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The front end.
    pub front: Interval,
    /// The rear end.
    pub rear: Interval,
}

/// An axle of the trailer.
#[derive(Clone, Debug, PartialEq)]
pub struct AxlePlace {
    /// What it is called.
    pub name: String,
    /// Where it stands; `None` when that is not stated.
    pub at: Option<Interval>,
}

/// A lane that shows where an item may lie: values of its position, and how the rules stand there.
#[derive(Clone, Debug, PartialEq)]
pub struct Lane {
    /// The places behind the coupler in metres, from and to, open where a number is missing, and how
    /// the rules stand.
    pub bands: Vec<(Option<f64>, Option<f64>, crate::engine::solve::Standing)>,
    /// The allowed places in words.
    pub words: String,
}

/// An item of the load.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemPlace {
    /// What it is called.
    pub name: String,
    /// Where its centre of gravity lies; `None` when that cannot be told.
    pub at: Option<Interval>,
    /// Its length, where stated.
    pub length: Option<Interval>,
    /// Its height, where stated.
    pub height: Option<Interval>,
    /// What is known of it, in words.
    pub words: String,
    /// Where it may lie.
    pub lane: Option<Lane>,
}

/// The rig along its length.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// The deck or body.
    pub deck: Option<Stretch>,
    /// The axles of the trailer; empty when they are not listed.
    pub axles: Vec<AxlePlace>,
    /// The point where the axle group's load acts.
    pub group: Option<Interval>,
    /// The rear axle of the towing vehicle, ahead of the coupler and so below zero.
    pub rear_axle: Option<Interval>,
    /// Its front axle.
    pub front_axle: Option<Interval>,
    /// The load.
    pub load: Vec<ItemPlace>,
    /// What is missing for the drawing, in words.
    pub missing: Vec<String>,
}

impl Scene {
    /// Reads the places off the facts of a rig, worked-out ones among them.
    #[must_use]
    pub fn read(facts: &FactSet, units: Option<Units>) -> Scene {
        let rig = |name| range_of(facts, ItemId::RIG, name);
        let deck_front = rig("trailer.coupler_to_deck");
        let mut scene = Scene {
            deck: deck_front
                .zip(rig("trailer.body_length"))
                .map(|(front, long)| Stretch {
                    front,
                    rear: front.add(long),
                }),
            axles: axles(facts),
            group: rig("trailer.coupler_to_axles"),
            ..Scene::default()
        };
        // A group of one axle stands where its load acts.
        if let ([axle], Some(at)) = (scene.axles.as_mut_slice(), scene.group) {
            axle.at = axle.at.or(Some(at));
        }
        scene.rear_axle = rig("tow_vehicle.hitch.overhang").map(Interval::neg);
        scene.front_axle = scene
            .rear_axle
            .zip(rig("tow_vehicle.wheelbase"))
            .map(|(rear, base)| rear.sub(base));
        let datum = Datum::read(facts, deck_front);
        for index in 0..facts.items(Scope::Load).len() {
            let item = ItemId {
                scope: Scope::Load,
                index,
            };
            scene.load.push(place(facts, item, datum, units));
        }
        scene.name_missing(facts);
        scene
    }

    fn name_missing(&mut self, facts: &FactSet) {
        let mut say = |lacks: bool, words: &str| {
            if lacks {
                self.missing.push(words.to_owned());
            }
        };
        say(
            self.front_axle.is_none() || self.rear_axle.is_none(),
            "wheelbase and hitch overhang of the towing vehicle",
        );
        say(
            self.deck.is_none(),
            "where the deck begins behind the coupler, and its length",
        );
        say(
            self.group.is_none() && !self.axles.iter().any(|a| a.at.is_some()),
            "where the trailer’s axles stand",
        );
        say(!facts.is_complete(Scope::Load), "the load, item by item");
        for (index, item) in self.load.iter().enumerate() {
            let id = ItemId {
                scope: Scope::Load,
                index,
            };
            match (item.at, range_of(facts, id, "load.position")) {
                (None, None) => self.missing.push(format!("where {} lies", item.name)),
                (None, Some(_)) => self.missing.push(format!(
                    "from which point the position of {} is measured",
                    item.name
                )),
                _ => {}
            }
        }
    }

    /// The places that the drawing must hold: the foremost and the rearmost, in metres.
    #[must_use]
    pub fn ends(&self) -> (f64, f64) {
        let mut front = 0.0_f64;
        let mut rear = 0.0_f64;
        let mut hold = |i: &Interval, before: f64, behind: f64| {
            if let Some(lo) = i.lo {
                front = front.min(lo.to_f64() - before);
            }
            if let Some(hi) = i.hi {
                rear = rear.max(hi.to_f64() + behind);
            }
        };
        if let Some(deck) = &self.deck {
            hold(&deck.front, 0.0, 0.0);
            hold(&deck.rear, 0.0, 0.0);
        }
        let axles = self.axles.iter().filter_map(|a| a.at.as_ref());
        for at in axles.chain(&self.group) {
            hold(at, 0.5, 0.5);
        }
        for at in self.rear_axle.iter().chain(&self.front_axle) {
            hold(at, 1.0, 0.5);
        }
        for item in &self.load {
            let half = item
                .length
                .and_then(|l| l.hi)
                .map_or(0.3, |l| l.to_f64() / 2.0);
            if let Some(at) = &item.at {
                hold(at, half, half);
            }
        }
        (front, rear)
    }

    /// Whether anything of the trailer has a known place.
    #[must_use]
    pub fn has_scale(&self) -> bool {
        self.ends().1 > 0.6
    }
}

fn axles(facts: &FactSet) -> Vec<AxlePlace> {
    let items = facts.items(Scope::Axle).iter().enumerate();
    items
        .map(|(index, axle)| AxlePlace {
            name: axle.name.clone(),
            at: range_of(
                facts,
                ItemId {
                    scope: Scope::Axle,
                    index,
                },
                "axle.position",
            ),
        })
        .collect()
}

/// From where the positions of the load are measured.
#[derive(Clone, Copy, Debug)]
pub(super) struct Datum {
    from: Option<&'static str>,
    deck: Option<Interval>,
}

impl Datum {
    /// As the rig states it.
    pub fn read(facts: &FactSet, deck: Option<Interval>) -> Datum {
        let fact = catalogue().find("loading.positions_from");
        let chosen = fact.and_then(|fact| {
            let Value::OneOf(mask) = facts.value(ItemId::RIG, fact) else {
                return None;
            };
            let choices = catalogue().def(fact).kind.choices();
            let one = mask.count_ones() == 1;
            let at = mask.trailing_zeros() as usize;
            choices.get(at).filter(|_| one).map(|c| c.name)
        });
        Datum { from: chosen, deck }
    }

    /// A position as stated, measured from the coupler; nothing where that is not known.
    pub fn behind_coupler(self, position: Interval) -> Option<Interval> {
        match (self.from, self.deck) {
            (Some("coupler"), _) => Some(position),
            (Some(_), Some(deck)) => Some(position.add(deck)),
            // Either may be meant.
            (None, Some(deck)) => Some(position.hull(position.add(deck))),
            (_, None) => None,
        }
    }

    /// By how many metres positions are shifted, where that is one number.
    pub fn shift(self) -> Option<Exact> {
        match (self.from, self.deck) {
            (Some("coupler"), _) => Some(Exact::ZERO),
            (Some(_), Some(deck)) => deck.is_exact(),
            _ => None,
        }
    }
}

fn place(facts: &FactSet, item: ItemId, datum: Datum, units: Option<Units>) -> ItemPlace {
    let name = facts
        .items(Scope::Load)
        .get(item.index)
        .map_or_else(String::new, |i| i.name.clone());
    let length = range_of(facts, item, "load.length");
    let position = range_of(facts, item, "load.position");
    let tell = |fact: &str, before: &str| {
        told(facts, item, fact, units).map_or_else(
            || format!("{before} not stated"),
            |v| format!("{before} {v}"),
        )
    };
    let parts = [
        tell("load.weight", "weight"),
        tell("load.position", "position"),
        tell("load.length", "length"),
    ];
    ItemPlace {
        at: position.and_then(|p| datum.behind_coupler(p)),
        length,
        height: range_of(facts, item, "load.height"),
        words: parts.join(", "),
        lane: None,
        name,
    }
}

/// The unit for lengths: that of the first length stated, or that of the units asked for.
pub(super) fn unit(facts: &FactSet, units: Option<Units>) -> Unit {
    match units {
        Some(Units::Us) => return Unit::Foot,
        Some(Units::Metric) => return Unit::Meter,
        None => {}
    }
    let of_load = (0..facts.items(Scope::Load).len()).map(|index| {
        let item = ItemId {
            scope: Scope::Load,
            index,
        };
        (item, "load.position")
    });
    let of_rig = [
        "trailer.coupler_to_axles",
        "trailer.body_length",
        "tow_vehicle.wheelbase",
    ];
    let stated = of_load
        .chain(of_rig.map(|n| (ItemId::RIG, n)))
        .find_map(|(item, name)| known(facts, item, name)?.unit);
    let metric = stated.is_some_and(|u| Units::Metric.has(u));
    if metric { Unit::Meter } else { Unit::Foot }
}
