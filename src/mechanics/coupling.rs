//! Hitch classes of SAE J684 with their balls, tongue weights and safety chains.
//!
//! Class limits, ball diameters: Code of Maryland Regulations 11.13.08.04 and 11.13.08.10, which
//! build on SAE J684. Chain strengths: SAE J684 (2005) as a reference site reports it. Tongue
//! weights: as a newsletter reports the class table; it gives those of classes 3 and 4 for
//! weight-distributing hitches only, as 15% of the gross trailer weight.

use super::bench::Bench;
use super::formulas::ratio;
use crate::facts::{ItemId, Tri, Value};
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// One class; weights in pounds, the ball in sixteenths of an inch.
struct Class {
    name: &'static str,
    up_to: i64,
    ball: Option<i64>,
    chain: Option<i64>,
    /// Tongue weight with a weight-carrying and with a weight-distributing hitch.
    tongue: Option<(i64, i64)>,
}

const CLASSES: [Class; 4] = [
    Class {
        name: "class-1",
        up_to: 2_000,
        ball: Some(30),
        chain: Some(2_000),
        tongue: Some((200, 300)),
    },
    Class {
        name: "class-2",
        up_to: 3_500,
        ball: Some(32),
        chain: Some(3_500),
        tongue: Some((300, 500)),
    },
    Class {
        name: "class-3",
        up_to: 5_000,
        ball: Some(32),
        chain: Some(5_000),
        tongue: None,
    },
    Class {
        name: "class-4",
        up_to: 10_000,
        ball: None,
        chain: None,
        tongue: None,
    },
];

fn pounds(n: i64) -> Interval {
    Interval::exactly(
        Unit::Pound
            .to_base(Exact::from_int(n))
            .unwrap_or(Exact::ZERO),
    )
}

fn sixteenths(n: i64) -> Interval {
    Interval::exactly(Unit::Inch.to_base(ratio(n, 16)).unwrap_or(Exact::ZERO))
}

pub(super) fn work_out(b: &mut Bench<'_>) {
    class_needed(b);
    hitch_class(b);
    chains(b);
}

/// The classes that a weight can fall into, lowest first: bits of the choice, class 5 above all.
fn classes_of(weight: Interval) -> u128 {
    let mut mask = 0;
    let mut over = Exact::ZERO.neg();
    for (i, class) in CLASSES.iter().enumerate() {
        let top = pounds(class.up_to).hi.unwrap_or(Exact::ZERO);
        let above_floor = i == 0 || weight.hi.is_none_or(|hi| hi > over);
        if above_floor && weight.lo.is_none_or(|lo| lo <= top) {
            mask |= 1 << i;
        }
        over = top;
    }
    if weight.hi.is_none_or(|hi| hi > over) {
        mask |= 1 << CLASSES.len();
    }
    mask
}

fn class_needed(b: &mut Bench<'_>) {
    let gross = "trailer.gross_weight";
    let Some(weight) = b.known_number(ItemId::RIG, gross) else {
        return;
    };
    let mask = classes_of(weight);
    let shown = b.show(ItemId::RIG, gross, None);
    let working = format!(
        "gross {shown}; class 1 up to 2,000 lb, 2 up to 3,500 lb, 3 up to 5,000 lb, 4 up to 10,000 lb"
    );
    b.put_of(
        ItemId::RIG,
        "coupling.class_needed",
        Value::OneOf(mask),
        None,
        working,
        &[gross],
    );
    // A class without a figure leaves the diameter open.
    let balls = CLASSES
        .iter()
        .enumerate()
        .filter(|(i, _)| mask >> i & 1 == 1);
    let least: Option<Vec<Interval>> = balls.map(|(_, c)| c.ball.map(sixteenths)).collect();
    let above = mask >> CLASSES.len() & 1 == 1;
    if let (Some(least), false) = (
        least.and_then(|l| l.into_iter().reduce(Interval::hull)),
        above,
    ) {
        let working = format!("for a trailer of {shown}");
        b.put(
            "coupling.class_ball_diameter",
            least,
            Some(Unit::Inch),
            working,
            &[gross],
        );
    }
}

fn hitch_class(b: &mut Bench<'_>) {
    let name = "tow_vehicle.hitch.class";
    let Some(choice) = b.choice_of(ItemId::RIG, name) else {
        return;
    };
    let Some(class) = CLASSES.iter().find(|c| c.name == choice) else {
        return;
    };
    let top = pounds(class.up_to);
    b.put(
        "tow_vehicle.hitch.class_rating",
        top,
        Some(Unit::Pound),
        format!("{choice} goes up to this trailer weight"),
        &[name],
    );
    let bars = b.yes("tow_vehicle.hitch.weight_distributing");
    let tongue = match (class.tongue, bars) {
        (Some((carrying, _)), Tri::False) => pounds(carrying),
        (Some((_, distributing)), Tri::True) => pounds(distributing),
        (Some((carrying, distributing)), Tri::Unknown) => {
            pounds(carrying).hull(pounds(distributing))
        }
        (None, Tri::True) => match b.known_number(ItemId::RIG, "trailer.gross_weight") {
            Some(gross) => gross.min(top).scale(ratio(15, 100)),
            None => return,
        },
        (None, _) => return,
    };
    let working = match class.tongue {
        Some((c, d)) => format!(
            "{choice}: {} carried, {} with a weight-distributing hitch",
            format_interval(pounds(c), Unit::Pound),
            format_interval(pounds(d), Unit::Pound)
        ),
        None => {
            format!("{choice} with a weight-distributing hitch: 15% of the trailer's gross weight")
        }
    };
    b.put(
        "tow_vehicle.hitch.class_tongue_rating",
        tongue,
        Some(Unit::Pound),
        working,
        &[name],
    );
}

fn chains(b: &mut Bench<'_>) {
    let gvwr = "trailer.gvwr";
    let Some(rating) = b.known_number(ItemId::RIG, gvwr) else {
        return;
    };
    let mask = classes_of(rating);
    let beyond = mask >> CLASSES.len() & 1 == 1;
    let of_class = CLASSES
        .iter()
        .enumerate()
        .filter(|(i, _)| mask >> i & 1 == 1);
    // In class 4 each chain is as strong as the GVWR.
    let strengths = of_class.map(|(_, c)| c.chain.map_or(rating, pounds));
    if let (Some(strength), false) = (strengths.reduce(Interval::hull), beyond) {
        let unit = b.unit(&[gvwr]);
        let working = format!(
            "each chain, for a GVWR of {}: 2,000 lb, 3,500 lb, 5,000 lb in classes 1 to 3, the GVWR in class 4",
            b.show(ItemId::RIG, gvwr, unit)
        );
        b.put(
            "trailer.safety_chains.class_strength",
            strength,
            unit,
            working,
            &[gvwr],
        );
    }
}
