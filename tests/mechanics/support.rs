//! Rigs made from YAML, and their facts read back in a unit.

use pintle::facts::{FactSet, ItemId, Known, Scope, Value, Whence, catalogue, show_value};
use pintle::mechanics::{Conflict, work_out};
use pintle::quantity::{Exact, Interval, Unit};
use pintle::rig::read_rig;
use pintle::source::SourceText;

/// A rig, worked out.
pub struct Rig {
    pub facts: FactSet,
    pub conflicts: Vec<Conflict>,
}

/// Reads the lines of a rig file, without its first, and works it out.
pub fn rig(yaml: &str) -> Rig {
    let text = SourceText::from_str("rig.yaml", &format!("rig: 1\n{yaml}"));
    let mut facts = match read_rig(&text) {
        Ok(rig) => rig.facts,
        Err(complaints) => panic!("{yaml}\n{:?}", complaints.0),
    };
    let conflicts = work_out(&mut facts, None);
    Rig { facts, conflicts }
}

/// The same, for a rig that does not contradict itself.
pub fn sound(yaml: &str) -> Rig {
    let rig = rig(yaml);
    assert!(rig.conflicts.is_empty(), "{:?}", rig.conflicts);
    rig
}

pub fn item(scope: Scope, index: usize) -> ItemId {
    ItemId { scope, index }
}

impl Rig {
    pub fn range_of(&self, item: ItemId, name: &str) -> Interval {
        let id = catalogue().find(name).expect(name);
        self.facts.value(item, id).interval()
    }

    pub fn range(&self, name: &str) -> Interval {
        self.range_of(ItemId::RIG, name)
    }

    /// The one value of a fact of an item, in a unit, as a floating-point number.
    pub fn value_of(&self, item: ItemId, name: &str, unit: Unit) -> f64 {
        let range = self.range_of(item, name);
        let (lo, hi) = (range.lo, range.hi);
        let (Some(lo), Some(hi)) = (lo, hi) else {
            panic!("{name} is open: {}", self.say_of(item, name));
        };
        let (lo, hi) = (in_unit(lo, unit), in_unit(hi, unit));
        assert!(
            hi - lo < 1e-6,
            "{name} is a range: {}",
            self.say_of(item, name)
        );
        (lo + hi) / 2.0
    }

    pub fn value(&self, name: &str, unit: Unit) -> f64 {
        self.value_of(ItemId::RIG, name, unit)
    }

    /// A fact in words.
    pub fn say_of(&self, item: ItemId, name: &str) -> String {
        let id = catalogue().find(name).expect(name);
        let Some(known) = self.facts.known(item, id) else {
            return "no such item".to_owned();
        };
        show_value(&known.value, known.unit, catalogue().def(id))
    }

    pub fn say(&self, name: &str) -> String {
        self.say_of(ItemId::RIG, name)
    }

    /// How a fact of an item was worked out.
    pub fn working_of(&self, item: ItemId, name: &str) -> String {
        let id = catalogue().find(name).expect(name);
        match self.facts.known(item, id).map(|k| &k.whence) {
            Some(Whence::WorkedOut(words)) => words.clone(),
            other => format!("{other:?}"),
        }
    }

    pub fn working(&self, name: &str) -> String {
        self.working_of(ItemId::RIG, name)
    }

    pub fn is_known_of(&self, item: ItemId, name: &str) -> bool {
        let id = catalogue().find(name).expect(name);
        self.facts
            .known(item, id)
            .is_some_and(|k| k.whence != Whence::Missing)
    }

    pub fn is_known(&self, name: &str) -> bool {
        self.is_known_of(ItemId::RIG, name)
    }
}

/// A base-unit number in a unit.
pub fn in_unit(value: Exact, unit: Unit) -> f64 {
    unit.from_base(value).expect("it fits").to_f64()
}

/// An exact amount of a unit, from its decimal text.
pub fn amount(text: &str, unit: Unit) -> Interval {
    let value = Exact::parse_decimal(text).expect(text);
    Interval::exactly(unit.to_base(value).expect(text))
}

/// A plain number.
pub fn plain(text: &str) -> Interval {
    Interval::exactly(Exact::parse_decimal(text).expect(text))
}

/// The middle of a narrow range, in a unit.
pub fn middle(range: Interval, unit: Unit) -> f64 {
    let (lo, hi) = (range.lo.expect("a low end"), range.hi.expect("a high end"));
    let (lo, hi) = (in_unit(lo, unit), in_unit(hi, unit));
    assert!(hi - lo < 1e-6, "{lo} to {hi}");
    (lo + hi) / 2.0
}

#[track_caller]
pub fn close(found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{found} is not {wanted} ± {within}"
    );
}

/// States a fact of an item.
pub fn state(facts: &mut FactSet, item: ItemId, name: &str, value: Value, written: Option<&str>) {
    let id = catalogue().find(name).expect(name);
    let known = Known {
        value,
        whence: Whence::Stated { start: 0, end: 0 },
        unit: None,
        written: written.map(str::to_owned),
    };
    facts.set(item, id, known);
}
