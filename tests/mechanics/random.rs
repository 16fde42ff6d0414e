//! Rigs at random: layouts, tie-downs, whole rigs with ranges, and rigs of which anything is said.

use crate::support::{item, state};
use pintle::facts::{FactDef, FactSet, ItemId, Kind, Origin, Scope, Value, catalogue};
use pintle::quantity::{Dimension, Exact, Interval};
use proptest::prelude::*;

/// Thousandths of a base unit.
pub fn milli(n: i64) -> Exact {
    Exact::new(i128::from(n), 1000).expect("a thousandth")
}

pub fn exactly(n: i64) -> Interval {
    Interval::exactly(milli(n))
}

fn between(a: i64, b: i64) -> Interval {
    Interval::new(Some(milli(a.min(b))), Some(milli(a.max(b)))).expect("in order")
}

pub fn number(facts: &FactSet, item: ItemId, name: &str) -> Interval {
    facts
        .value(item, catalogue().find(name).expect(name))
        .interval()
}

/// A trailer's layout, in thousandths of kg and m: empty weight, empty tongue weight, coupler to
/// axles, coupler to deck, and weight and position of each item.
pub type Layout = (i64, i64, i64, i64, Vec<(i64, i64)>);

pub fn layouts(least: usize) -> impl Strategy<Value = Layout> {
    let items = prop::collection::vec((0..4_000_000_i64, -1_000..9_000_i64), least..6);
    (
        100_000..3_000_000_i64,
        1_000..9_000_i64,
        0..3_000_i64,
        items,
    )
        .prop_flat_map(|(empty, axles, deck, items)| {
            (
                Just(empty),
                0..=empty / 4,
                Just(axles),
                Just(deck),
                Just(items),
            )
        })
}

pub fn laid_out((empty, tongue, axles, deck, items): &Layout, datum: Option<usize>) -> FactSet {
    let mut facts = FactSet::new();
    for (name, n) in [
        ("trailer.empty_weight", empty),
        ("trailer.empty_tongue_weight", tongue),
        ("trailer.coupler_to_axles", axles),
        ("trailer.coupler_to_deck", deck),
    ] {
        state(
            &mut facts,
            ItemId::RIG,
            name,
            Value::Number(exactly(*n)),
            None,
        );
    }
    if let Some(bit) = datum {
        state(
            &mut facts,
            ItemId::RIG,
            "loading.positions_from",
            Value::OneOf(1 << bit),
            None,
        );
    }
    facts.note_listed(Scope::Load, ItemId::RIG);
    for (weight, at) in items {
        let load = facts.push(Scope::Load, None, "item".to_owned());
        state(
            &mut facts,
            load,
            "load.weight",
            Value::Number(exactly(*weight)),
            None,
        );
        state(
            &mut facts,
            load,
            "load.position",
            Value::Number(exactly(*at)),
            None,
        );
    }
    facts
}

pub type Strap = (i64, u8, u8, u8, i64, u8);

pub fn straps() -> impl Strategy<Value = Strap> {
    (
        0..5_000_000_i64,
        0..4_u8,
        0..3_u8,
        0..15_u8,
        5..120_i64,
        0..4_u8,
    )
}

pub fn add_strap(facts: &mut FactSet, load: ItemId, s: &Strap) {
    let (limit, path, marked, material, size, count) = *s;
    let t = facts.push(Scope::TieDown, Some(load.index), "strap".to_owned());
    if limit % 3 != 0 {
        state(
            facts,
            t,
            "tie_down.working_load_limit",
            Value::Number(exactly(limit)),
            None,
        );
    }
    if path < 3 {
        state(facts, t, "tie_down.path", Value::OneOf(1 << path), None);
    }
    if marked < 2 {
        state(facts, t, "tie_down.marked", Value::OneOf(1 << marked), None);
    }
    state(
        facts,
        t,
        "tie_down.material",
        Value::OneOf(1 << material),
        None,
    );
    state(
        facts,
        t,
        "tie_down.size",
        Value::Number(exactly(size)),
        None,
    );
    if count > 0 {
        let n = Interval::exactly(Exact::from_int(i64::from(count)));
        state(facts, t, "tie_down.count", Value::Number(n), None);
    }
}

/// A small generator of numbers, so that a rig follows from one seed.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: u64) -> u64 {
        self.next() % n.max(1)
    }

    fn within(&mut self, a: i64, b: i64) -> i64 {
        a + i64::try_from(self.below(u64::try_from(b - a + 1).unwrap_or(1))).unwrap_or(0)
    }
}

/// Facts that say in other words what the lists say; stated together they mostly contradict.
const RESTATED: [&str; 4] = [
    "trailer.loaded",
    "trailer.brakes",
    "trip.on",
    "trailer.lamps",
];
/// Facts that may be stated or worked out and are stated here.
const STATED_TOO: [&str; 3] = [
    "trailer.coupler_to_axles",
    "tow_vehicle.hitch.moved_to_trailer",
    "tyre.max_pressure",
];

fn plausible(def: &FactDef, dice: &mut Dice) -> (i64, i64) {
    let (a, b) = match (def.name, &def.kind) {
        ("tyre.load_index" | "tyre.load_index_dual", _) => (60_000, 130_000),
        ("trailer.coupler_to_axles" | "tow_vehicle.wheelbase", _) => (2_000, 6_000),
        ("axle.position", _) => (2_000, 7_000),
        ("axle.wheels", _) => (2_000, 4_000),
        ("tyre.pressure", _) => (100_000_000, 700_000_000),
        ("tie_down.size", _) => (5, 110),
        ("trailer.empty_weight", _) => (300_000, 2_000_000),
        ("trailer.empty_tongue_weight", _) => (20_000, 300_000),
        (_, Kind::Measure(Dimension::Mass)) => (1_000, 4_000_000),
        (_, Kind::Measure(Dimension::Length)) => (50, 8_000),
        (_, Kind::Measure(Dimension::Share)) => (50, 1_000),
        (_, Kind::Measure(Dimension::Angle)) => (0, 90_000),
        (_, Kind::Measure(Dimension::Force)) => (100_000, 20_000_000),
        (_, Kind::Measure(Dimension::Count)) => (1_000, 5_000),
        (_, Kind::Year) => (2_000_000, 2_026_000),
        (_, Kind::Date) => (17_000_000, 20_000_000),
        _ => (1_000, 100_000),
    };
    let whole = matches!(
        def.kind,
        Kind::Measure(Dimension::Count) | Kind::Year | Kind::Date
    );
    let step = if whole { 1_000 } else { 1 };
    let low = dice.within(a / step, b / step) * step;
    let high = if dice.below(3) == 0 {
        low
    } else {
        dice.within(low / step, b / step) * step
    };
    (low, high)
}

/// Two rigs: in the first, facts are ranges and some choices are open; the second takes one value
/// out of each.
pub fn pair(seed: u64, open: u8, with_tongue: bool) -> (FactSet, FactSet) {
    let mut dice = Dice(seed);
    let (mut wide, mut narrow) = (FactSet::new(), FactSet::new());
    let counts = [
        (Scope::Load, 3),
        (Scope::Axle, 3),
        (Scope::VehicleAxle, 3),
        (Scope::Tyre, 2),
    ];
    for (scope, most) in counts {
        for _ in 0..dice.below(most + 1) {
            let tie_downs = if scope == Scope::Load {
                dice.below(4)
            } else {
                0
            };
            for facts in [&mut wide, &mut narrow] {
                let parent = facts.push(scope, None, "one".to_owned());
                if scope == Scope::Load {
                    facts.note_listed(Scope::TieDown, parent);
                }
                for _ in 0..tie_downs {
                    facts.push(Scope::TieDown, Some(parent.index), "strap".to_owned());
                }
            }
        }
    }
    for (_, def) in catalogue().all() {
        let stated = def.origin == Origin::Stated || STATED_TOO.contains(&def.name);
        let tongue = with_tongue && def.name == "trailer.tongue_weight";
        if (!stated && !tongue) || RESTATED.contains(&def.name) {
            continue;
        }
        for index in 0..wide.items(def.scope).len() {
            if dice.below(8) == 0 {
                continue;
            }
            let at = item(def.scope, index);
            let (w, n, written) = values(def, &mut dice, open);
            state(&mut wide, at, def.name, w, written);
            state(&mut narrow, at, def.name, n, written);
        }
    }
    (wide, narrow)
}

fn values(def: &FactDef, dice: &mut Dice, open: u8) -> (Value, Value, Option<&'static str>) {
    let choices = u32::try_from(def.kind.choices().len()).unwrap_or(0);
    let leave_open = dice.below(4) < u64::from(open) && dice.below(2) == 0;
    match def.kind {
        Kind::Text => {
            let written = match def.name {
                "tyre.date_code" => "2319",
                "tyre.size" => "ST205/75R15",
                _ => "kiln",
            };
            (Value::OneOf(1), Value::OneOf(1), Some(written))
        }
        Kind::YesNo => {
            let one = 1 << dice.below(2);
            let wide = if leave_open { 3 } else { one };
            (Value::OneOf(wide), Value::OneOf(one), None)
        }
        Kind::Choice(_) => {
            let one = 1_u128 << dice.below(u64::from(choices));
            let other = 1_u128 << dice.below(u64::from(choices));
            let wide = if leave_open { one | other } else { one };
            (Value::OneOf(wide), Value::OneOf(one), None)
        }
        Kind::Set(_) => {
            let all = (1_u128 << choices) - 1;
            let has = u128::from(dice.next()) & all;
            let (surely, perhaps) = (u128::from(dice.next()), u128::from(dice.next()));
            let wide = if leave_open {
                Value::Set {
                    has: has & surely,
                    may: (has | perhaps) & all,
                }
            } else {
                Value::Set { has, may: has }
            };
            (wide, Value::Set { has, may: has }, None)
        }
        _ => {
            let (low, high) = plausible(def, dice);
            let whole = matches!(
                def.kind,
                Kind::Measure(Dimension::Count) | Kind::Year | Kind::Date
            );
            let step = if whole { 1_000 } else { 1 };
            let pick = match dice.below(4) {
                0 => low,
                1 => high,
                _ => dice.within(low / step, high / step) * step,
            };
            (
                Value::Number(between(low, high)),
                Value::Number(exactly(pick)),
                None,
            )
        }
    }
}

/// A rig of which anything at all is said.
pub fn absurd(seed: u64, said: usize) -> FactSet {
    let mut dice = Dice(seed);
    let mut facts = FactSet::new();
    for scope in [Scope::Load, Scope::Axle, Scope::VehicleAxle, Scope::Tyre] {
        if dice.below(2) == 0 {
            facts.note_listed(scope, ItemId::RIG);
        }
        for _ in 0..dice.below(5) {
            facts.push(scope, None, String::new());
        }
    }
    for _ in 0..dice.below(6) {
        let parent = usize::try_from(dice.below(6)).ok().filter(|p| *p < 5);
        facts.push(Scope::TieDown, parent, "\u{fffd}".to_owned());
    }
    let all: Vec<&FactDef> = catalogue().all().map(|(_, d)| d).collect();
    let texts = [
        "",
        "2319",
        "0000",
        "99",
        "ST225/75R15",
        "½/\u{0}-R",
        "DOT",
        "dot 5319",
    ];
    for _ in 0..said {
        let def = all[usize::try_from(dice.below(all.len() as u64)).unwrap_or(0)];
        let items = facts.items(def.scope).len() as u64;
        let at = item(
            def.scope,
            usize::try_from(dice.below(items + 1)).unwrap_or(0),
        );
        let value = match def.kind {
            Kind::YesNo | Kind::Choice(_) | Kind::Text => {
                Value::OneOf(u128::from(dice.next()) << dice.below(65))
            }
            Kind::Set(_) => Value::Set {
                has: u128::from(dice.next()),
                may: u128::from(dice.next()) << dice.below(65),
            },
            _ => Value::Number(absurd_range(&mut dice)),
        };
        let written = texts[usize::try_from(dice.below(texts.len() as u64)).unwrap_or(0)];
        state(&mut facts, at, def.name, value, Some(written));
    }
    facts
}

fn absurd_range(dice: &mut Dice) -> Interval {
    let mut end = || -> Option<Exact> {
        let small = i128::from(dice.within(-3, 3));
        match dice.below(8) {
            0 => None,
            1 => Some(Exact::ZERO),
            2 => Exact::new(small * 10_i128.pow(37), 1),
            3 => Exact::new(small, 10_i128.pow(37)),
            4 => Exact::new(i128::MAX - 7, i128::from(dice.next()) + 1),
            5 => Exact::new(small, 1),
            6 => Exact::new(i128::from(dice.next()), i128::from(dice.next()) + 1),
            _ => Exact::new(i128::from(dice.within(-20_000_000, 20_000_000)), 997),
        }
    };
    let (a, b) = (end(), end());
    Interval::new(a, b)
        .or_else(|| Interval::new(b, a))
        .unwrap_or(Interval::everything())
}
