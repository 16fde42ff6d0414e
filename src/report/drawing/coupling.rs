//! What joins trailer and towing vehicle: tongue weight, safety chains, breakaway cable.

use super::side::Frame;
use super::{known, range_of, told};
use crate::facts::{FactSet, ItemId, Tri, catalogue};
use crate::quantity::Exact;
use crate::report::Units;
use crate::report::markup::{px, shade};
use maud::{Markup, html};

/// An arrow at the coupler for the tongue weight, upward where the load lifts the hitch.
pub(super) fn tongue(facts: &FactSet, frame: &Frame, units: Option<Units>) -> Markup {
    let x = frame.scale.coupler;
    let y = frame.levels.deck + 4.0;
    let lifts = range_of(facts, ItemId::RIG, "trailer.tongue_lift")
        .is_some_and(|l| l.lo.is_some_and(|lo| lo > Exact::ZERO));
    let words = if lifts {
        told(facts, ItemId::RIG, "trailer.tongue_lift", units)
            .map(|t| format!("the load lifts the hitch by {t}"))
    } else {
        told(facts, ItemId::RIG, "trailer.tongue_weight", units)
            .map(|t| format!("tongue weight {t}"))
    };
    let sure = words.is_some();
    let ink = if sure { shade::INK } else { shade::QUIET };
    let (tip, tail) = if lifts { (y - 44.0, y) } else { (y, y - 44.0) };
    let head = if lifts {
        "l-6 10 h12 z"
    } else {
        "l-6 -10 h12 z"
    };
    html! {
        line x1=(px(x)) y1=(px(tail)) x2=(px(x)) y2=(px(tip)) stroke=(ink) stroke-width="2.5" stroke-dasharray=[(!sure).then_some("4 3")] {}
        path d={ "M" (px(x)) " " (px(tip)) " " (head) } fill=(ink) {}
        text.tongue x=(px(x + 14.0)) y=(px(y - 50.0)) font-size="12" font-weight="700" text-anchor="end" fill=(ink)
            stroke=(shade::PAPER) stroke-width="5" paint-order="stroke" stroke-linejoin="round" {
            (words.unwrap_or_else(|| "tongue weight not known".to_owned()))
        }
    }
}

/// Chains and cable between coupler and vehicle, solid where stated, broken where not.
pub(super) fn chains(facts: &FactSet, frame: &Frame) -> Markup {
    let x = frame.scale.coupler;
    let y = frame.levels.deck + 20.0;
    let count =
        range_of(facts, ItemId::RIG, "trailer.safety_chains.count").and_then(|c| c.is_exact());
    let crossed = truth(facts, "trailer.safety_chains.crossed");
    let fitted = truth(facts, "trailer.breakaway.fitted");
    let some = count.is_some_and(|c| c > Exact::ZERO);
    let dash = |sure: bool| (!sure).then_some("4 3");
    html! {
        @if count != Some(Exact::ZERO) {
            path d={ "M" (px(x - 34.0)) " " (px(y - 6.0)) " q 22 26 56 6" } fill="none" stroke=(if some { shade::INK } else { shade::QUIET }) stroke-width="2" stroke-dasharray=(if some { "3 1.5" } else { "4 5" }) {}
            @if count.is_none_or(|c| c > Exact::ONE) && crossed == Tri::True {
                path d={ "M" (px(x - 34.0)) " " (px(y + 2.0)) " q 30 22 56 -8" } fill="none" stroke=(shade::INK) stroke-width="2" stroke-dasharray="3 1.5" {}
            }
        }
        @if fitted != Tri::False {
            path d={ "M" (px(x - 40.0)) " " (px(y - 12.0)) " q 30 -14 70 0" } fill="none" stroke=(if fitted == Tri::True { shade::BRICK } else { shade::QUIET }) stroke-width="1.5" stroke-dasharray=[dash(fitted == Tri::True)] {}
        }
    }
}

fn truth(facts: &FactSet, name: &str) -> Tri {
    known(facts, ItemId::RIG, name).map_or(Tri::Unknown, |k| k.value.truth())
}

/// Chains and breakaway as stated, in words.
pub(in crate::report) fn stated(facts: &FactSet, units: Option<Units>) -> Vec<(String, String)> {
    let names = [
        "trailer.tongue_weight",
        "trailer.safety_chains.count",
        "trailer.safety_chains.crossed",
        "trailer.safety_chains.strength",
        "trailer.safety_chains.anchored_to",
        "trailer.breakaway.fitted",
        "trailer.breakaway.anchored_to",
        "trailer.breakaway.holds",
    ];
    let row = |name: &&str| {
        let fact = catalogue().find(name)?;
        let value =
            told(facts, ItemId::RIG, name, units).unwrap_or_else(|| "not stated".to_owned());
        Some((catalogue().def(fact).label.to_owned(), value))
    };
    names.iter().filter_map(row).collect()
}
