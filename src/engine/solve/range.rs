//! The values of a fact for which no rule is broken.

use super::cells::{Cells, cells};
use super::conflict::smallest_conflict;
use super::subject::Subject;
use crate::engine::{Outcome, Ruleset};
use crate::facts::{FactSet, Kind, Value, show_value};
use crate::quantity::{Exact, Interval, Rounding, Unit, format_rounded, is_rounded};
use std::collections::BTreeSet;

/// How the rules stand on a band of values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// No rule is broken.
    Allowed,
    /// No rule is broken as far as is known, but one that this fact bears on is open.
    Unknown,
    /// A rule is broken.
    Broken,
}

/// A band of values on which every rule comes out the same way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Band {
    /// The values: an interval of numbers in the base unit, or one member of a choice.
    pub value: Value,
    /// Whether the lower end belongs to it.
    pub from_included: bool,
    /// Whether the upper end belongs to it.
    pub to_included: bool,
    /// How the rules stand on it.
    pub standing: Standing,
    /// The rules that are broken, or open, on it: their places in the program.
    pub rules: BTreeSet<usize>,
    /// The rules that are broken just below it.
    pub below: BTreeSet<usize>,
    /// The rules that are broken just above it.
    pub above: BTreeSet<usize>,
}

/// The line of a fact's values, cut into bands.
#[derive(Clone, Debug)]
pub struct Range {
    /// The fact.
    pub subject: Subject,
    /// The unit to tell numbers in; `None` for years, days and choices.
    pub unit: Option<Unit>,
    /// The bands, from below; like neighbours are joined.
    pub bands: Vec<Band>,
    /// Where no value is allowed: a smallest set of rules of which each value breaks one.
    pub conflict: Vec<usize>,
    /// The rules that are broken whatever the fact is.
    pub anyway: BTreeSet<usize>,
    /// The rules that read the fact, or what is worked out from it, and are open whatever it is.
    pub open: BTreeSet<usize>,
    /// The bands as they would be without what is broken whatever the fact is; the same as `bands` where there are none.
    pub apart: Vec<Band>,
    /// The width, in the base unit, of the widest stretch within which an end could not be placed
    /// exactly; such an end is drawn in to the side that was looked at. `None`: every end is exact.
    pub resolution: Option<Exact>,
}

/// An end of a band in words, with whether it belongs to the band.
pub type End = (String, bool);

impl Range {
    /// The bands of one standing.
    pub fn of(&self, standing: Standing) -> impl Iterator<Item = &Band> {
        self.bands.iter().filter(move |b| b.standing == standing)
    }

    /// The ends of a band in words, each with whether it belongs to the band; `None` for an open
    /// end. Where an end has to be rounded it is rounded inward, and then belongs to the band.
    #[must_use]
    pub fn ends(&self, band: &Band) -> (Option<End>, Option<End>) {
        let def = self.subject.def();
        let Value::Number(i) = band.value else {
            let shown = show_value(&band.value, None, def);
            return (Some((shown.clone(), true)), Some((shown, true)));
        };
        let show = |x: Exact, included: bool, rounding: Rounding| match (self.unit, def.kind) {
            (Some(unit), Kind::Measure(_)) => (
                format_rounded(x, unit, rounding),
                included || is_rounded(x, unit),
            ),
            _ => (
                show_value(&Value::Number(Interval::exactly(x)), None, def),
                included,
            ),
        };
        // Where the line begins by nature, no rule stops the band.
        let first = self.bands.first() == Some(band) || self.apart.first() == Some(band);
        let lo = i.lo.filter(|_| !first);
        // A band narrower than what is shown is not rounded inward past itself.
        let narrow = || {
            let unit = self.unit?;
            let tenth = unit.to_base(Exact::new(1, 10)?)?;
            Some(i.hi?.checked_sub(lo?)? < tenth)
        };
        let (up, down) = if narrow() == Some(true) {
            (Rounding::HalfEven, Rounding::HalfEven)
        } else {
            (Rounding::Up, Rounding::Down)
        };
        (
            lo.map(|x| show(x, band.from_included, up)),
            i.hi.map(|x| show(x, band.to_included, down)),
        )
    }
}

/// Cuts the line of a fact's values into bands on which no rule is broken, some rule is, or some
/// is open. `stated` is the rig before anything is worked out; `looks` as [`Ruleset::looks`] gives
/// them.
///
/// ```
/// use pintle::engine::{Ruleset, solve::{Standing, find_subject, range}};
/// use pintle::pack::{Library, Region};
/// use pintle::rig::read_rig;
/// use pintle::source::SourceText;
///
/// let library = Library::built_in();
/// let nebraska = Region::find("US-NE").unwrap();
/// let rules = Ruleset::new(&library, &[nebraska], false).unwrap();
/// let text = "rig: 1\ntrailer: {kind: boat, gross_weight: 2,550 lb, axles: [{braked: no}]}";
/// let rig = read_rig(&SourceText::from_str("rig.yaml", text)).unwrap();
/// let weight = find_subject(&rig.facts, "trailer.gross_weight", None).unwrap();
/// let found = range(&rules, &rig.facts, &rules.looks(&rig.seen), &weight);
/// // From 3,000 lb a boat trailer needs brakes (Neb. Rev. Stat. § 60-6,246(2)).
/// let broken = found.of(Standing::Broken).next().unwrap();
/// assert_eq!(found.ends(broken).0, Some(("3,000 lb".to_owned(), true)));
/// ```
#[must_use]
pub fn range(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    subject: &Subject,
) -> Range {
    banded(&cells(rules, stated, looks, subject), subject)
}

/// The bands of cells.
pub(super) fn banded(found: &Cells, subject: &Subject) -> Range {
    let constant =
        |at: usize, o: Outcome| found.cells.iter().all(|c| c.outcomes.get(at) == Some(&o));
    let always = |o: Outcome| {
        let rules = found.rules.iter().enumerate();
        rules.filter(move |(at, _)| constant(*at, o)).map(|r| *r.1)
    };
    let mut anyway = found.broken_anyway.clone();
    anyway.extend(always(Outcome::NotMet));
    let open = always(Outcome::Unknown).collect();
    let bands = judged(found, &BTreeSet::new(), &anyway);
    let apart = judged(found, &anyway, &BTreeSet::new());
    let conflict = if !bands.is_empty() && bands.iter().all(|b| b.standing == Standing::Broken) {
        smallest_conflict(&bands.iter().map(|b| &b.rules).collect::<Vec<_>>())
    } else {
        Vec::new()
    };
    Range {
        subject: subject.clone(),
        unit: found.unit,
        bands,
        conflict,
        anyway,
        open,
        apart,
        resolution: found.resolution,
    }
}

/// The bands, some rules left out and others added to what is broken everywhere.
fn judged(found: &Cells, without: &BTreeSet<usize>, with: &BTreeSet<usize>) -> Vec<Band> {
    // A rule is open on a cell only if the fact bears on it: if it comes out otherwise elsewhere.
    let bears: Vec<bool> = (0..found.rules.len())
        .map(|r| {
            let first = found.cells.first().and_then(|c| c.outcomes.get(r));
            found.cells.iter().any(|c| c.outcomes.get(r) != first)
        })
        .collect();
    let mut bands: Vec<Band> = Vec::new();
    for cell in &found.cells {
        let mut broken = with.clone();
        let mut open = BTreeSet::new();
        for ((outcome, rule), bears) in cell.outcomes.iter().zip(&found.rules).zip(&bears) {
            match outcome {
                Outcome::NotMet if !without.contains(rule) => {
                    broken.insert(*rule);
                }
                Outcome::Unknown if *bears => {
                    open.insert(*rule);
                }
                _ => {}
            }
        }
        let (standing, rules) = match (broken.is_empty(), open.is_empty()) {
            (false, _) => (Standing::Broken, broken),
            (true, false) => (Standing::Unknown, open),
            (true, true) => (Standing::Allowed, BTreeSet::new()),
        };
        if let Some(last) = bands.last_mut()
            && last.standing == standing
            && last.rules == rules
            && let (Value::Number(a), Value::Number(b)) = (&mut last.value, cell.value)
        {
            a.hi = b.hi;
            last.to_included = cell.to_included;
            continue;
        }
        bands.push(Band {
            value: cell.value,
            from_included: cell.from_included,
            to_included: cell.to_included,
            standing,
            rules,
            below: BTreeSet::new(),
            above: BTreeSet::new(),
        });
    }
    neighbours(&mut bands);
    bands
}

/// For numbers, which rules are broken on either side of each band.
fn neighbours(bands: &mut [Band]) {
    let broken = |b: &Band| match b.standing {
        Standing::Broken => b.rules.clone(),
        _ => BTreeSet::new(),
    };
    let broken: Vec<BTreeSet<usize>> = bands.iter().map(broken).collect();
    for (i, band) in bands.iter_mut().enumerate() {
        if matches!(band.value, Value::Number(_)) {
            let before = i.checked_sub(1).and_then(|j| broken.get(j));
            band.below = before.cloned().unwrap_or_default();
            band.above = broken.get(i + 1).cloned().unwrap_or_default();
        }
    }
}
