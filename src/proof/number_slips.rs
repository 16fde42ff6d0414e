//! Slips in numbers: off by the smallest step, or of another weight.

use super::change::Change;
use super::slips::{Slip, SlipKind};
use crate::engine::{Amount, AmountId, Program};
use crate::facts::{FactId, catalogue};
use crate::pack::AmountType;
use crate::quantity::{Exact, Interval, Measure, Unit};
use crate::source::Span;

pub(super) fn amount_slips(
    p: &Program,
    span: Span,
    ids: &[AmountId],
    rules: &[usize],
    out: &mut Vec<Slip>,
) {
    let Some((amount, of, _)) = ids.first().and_then(|id| p.amount(*id)) else {
        return;
    };
    let mut add = |kind, would_be: String, amount| {
        out.push(Slip {
            kind,
            would_be,
            span,
            change: Change::Amounts(ids.to_vec(), amount),
            rules: rules.to_vec(),
        });
    };
    match *amount {
        Amount::Literal(m) => {
            let step = step_of(m.unit);
            for signed in [step, step.neg()] {
                if let Some(interval) = shift(m.interval, signed) {
                    let moved = Measure { interval, ..m };
                    add(SlipKind::Number, moved.show(), Amount::Literal(moved));
                }
            }
        }
        Amount::Number(i) => {
            for signed in [Exact::ONE, Exact::ONE.neg()] {
                if let Some(moved) = shift(i, signed) {
                    add(
                        SlipKind::Number,
                        number_words(moved, *of),
                        Amount::Number(moved),
                    );
                }
            }
        }
        Amount::Fact(fact) => {
            for other in other_bases(fact) {
                add(
                    SlipKind::WeightBasis,
                    format!("`{}`", catalogue().def(other).name),
                    Amount::Fact(other),
                );
            }
        }
        Amount::Times(factor, inner) => {
            let step = Exact::new(1, 100).unwrap_or(Exact::ONE);
            for signed in [step, step.neg()] {
                if let Some(moved) = factor.checked_add(signed) {
                    add(
                        SlipKind::Number,
                        format!("{} times", moved.to_decimal(6)),
                        Amount::Times(moved, inner),
                    );
                }
            }
        }
        Amount::Steps {
            of,
            first,
            up_to,
            then,
            each,
        } => {
            for signed in [Exact::ONE, Exact::ONE.neg()] {
                if let Some(first) = first.checked_add(signed) {
                    let would_be = format!("{} first", first.to_decimal(0));
                    add(
                        SlipKind::Number,
                        would_be,
                        Amount::Steps {
                            of,
                            first,
                            up_to,
                            then,
                            each,
                        },
                    );
                }
            }
        }
        _ => {}
    }
}

fn number_words(i: Interval, of: AmountType) -> String {
    let one = i.lo.or(i.hi).unwrap_or(Exact::ZERO);
    match of {
        AmountType::Day => one
            .to_decimal(0)
            .parse()
            .map_or_else(|_| one.to_string(), crate::facts::format_day),
        _ => one.to_decimal(0),
    }
}

fn shift(i: Interval, by: Exact) -> Option<Interval> {
    let moved = |end: Option<Exact>| match end {
        Some(e) => e.checked_add(by).map(Some),
        None => Some(None),
    };
    Interval::new(moved(i.lo)?, moved(i.hi)?)
}

/// The smallest step that a figure in this unit could be off by, in the base unit.
#[must_use]
pub fn step_of(unit: Unit) -> Exact {
    let step = match unit {
        Unit::Foot | Unit::Yard => Unit::Inch,
        Unit::Meter => Unit::Centimeter,
        Unit::Kilometer => Unit::Kilometer,
        Unit::Tonne => Unit::Kilogram,
        Unit::ShortTon => Unit::Pound,
        other => other,
    };
    step.factor()
}

/// Other weights that one weight is taken for.
fn other_bases(fact: FactId) -> Vec<FactId> {
    const FAMILIES: [&[&str]; 4] = [
        &[
            "trailer.gross_weight",
            "trailer.gvwr",
            "trailer.empty_weight",
            "trailer.registered_weight",
            "trailer.carrying_capacity",
            "trailer.greatest_weight",
        ],
        &[
            "tow_vehicle.gross_weight",
            "tow_vehicle.gvwr",
            "tow_vehicle.curb_weight",
            "tow_vehicle.registered_weight",
        ],
        &[
            "combination.gross_weight",
            "combination.gvwr",
            "combination.registered_weight",
            "combination.greatest_weight",
        ],
        &[
            "trailer.length",
            "trailer.loaded_length",
            "combination.length",
        ],
    ];
    let name = catalogue().def(fact).name;
    let family = FAMILIES.iter().find(|f| f.contains(&name));
    let others = family
        .into_iter()
        .flat_map(|f| f.iter())
        .filter(|n| **n != name);
    others.filter_map(|n| catalogue().find(n)).collect()
}
