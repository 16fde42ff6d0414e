//! Wheels and axles with brakes, from the axles, the brake type, or what is stated of the whole.

use super::bench::{Bench, whole, zero};
use crate::facts::{ItemId, Scope, Tri};
use crate::quantity::{Exact, Interval, Unit, format_interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    let axles = b.items(Scope::Axle);
    if b.facts.is_complete(Scope::Axle) {
        b.put(
            "trailer.axle_count",
            whole(axles.len()),
            None,
            "the axles listed".to_owned(),
            &["axle.rating", "axle.braked"],
        );
        from_axles(b, &axles);
    }
    let n = b.items(Scope::VehicleAxle).len();
    if b.facts.is_complete(Scope::VehicleAxle) {
        b.put(
            "tow_vehicle.axle_count",
            whole(n),
            None,
            "the axles listed".to_owned(),
            &["vehicle_axle.rating"],
        );
    }
    from_whole(b);
    braked_against_wheels(b);
}

/// Wheels on each axle: as stated, else a pair, or four with duals, as far as the wheels of the
/// whole trailer and the tyres listed leave that open.
pub(super) fn wheels_of_axles(b: &Bench<'_>) -> Vec<Interval> {
    let axles = b.items(Scope::Axle);
    let unstated = wheels_unless_stated(b, axles.len());
    let of = |a: &ItemId| b.known_number(*a, "axle.wheels").unwrap_or(unstated);
    axles.iter().map(of).collect()
}

fn wheels_unless_stated(b: &Bench<'_>, axles: usize) -> Interval {
    let (two, four) = (whole(2), whole(4));
    let mut wheels = two.hull(four);
    if b.is_stated(ItemId::RIG, "trailer.wheels") {
        let others = whole(axles.saturating_sub(1)).mul(wheels);
        let left = b.number("trailer.wheels").sub(others);
        wheels = wheels.intersect(left).unwrap_or(wheels);
    }
    // Each dual pair takes two tyres more; a spare is none.
    let tyres = b.items(Scope::Tyre);
    let counted = tyres
        .iter()
        .map(|t| b.known_number(*t, "tyre.count")?.hi)
        .collect::<Option<Vec<_>>>();
    if let Some(counts) = counted.filter(|c| !c.is_empty() && b.facts.is_complete(Scope::Tyre)) {
        let total = counts
            .into_iter()
            .fold(zero(), |s, n| s.add(Interval::exactly(n)));
        let pairs = whole(axles).mul(two);
        if total.sub(pairs).less_than(two) == crate::quantity::Compared::Always {
            wheels = wheels.intersect(two).unwrap_or(wheels);
        }
    }
    wheels
}

fn from_axles(b: &mut Bench<'_>, axles: &[ItemId]) {
    let mut wheels = zero();
    let mut braked_wheels = zero();
    let mut braked_axles = zero();
    let mut all = Tri::from(!axles.is_empty());
    let mut words = Vec::new();
    for (axle, own) in axles.iter().zip(wheels_of_axles(b)) {
        let braked = b.yes_of(*axle, "axle.braked");
        wheels = wheels.add(own);
        let counted = |n: Interval| match braked {
            Tri::True => n,
            Tri::False => zero(),
            Tri::Unknown => zero().hull(n),
        };
        braked_wheels = braked_wheels.add(counted(own));
        braked_axles = braked_axles.add(counted(whole(1)));
        all = all.and(braked);
        let word = match braked {
            Tri::True => "braked",
            Tri::False => "no brakes",
            Tri::Unknown => "brakes not known",
        };
        words.push(format!("{}: {word}", b.name(*axle)));
    }
    let working = words.join(", ");
    let from = ["axle.braked", "axle.wheels"];
    b.put(
        "trailer.wheels",
        wheels,
        None,
        "the wheels of the axles listed".to_owned(),
        &from,
    );
    b.put(
        "trailer.braked_wheels",
        braked_wheels,
        None,
        working.clone(),
        &from,
    );
    b.put(
        "trailer.braked_axles",
        braked_axles,
        None,
        working.clone(),
        &from,
    );
    b.put_yes("trailer.all_wheels_braked", all, working, &from);
}

fn from_whole(b: &mut Bench<'_>) {
    let at_least_one = Interval::starting_at(Exact::ONE);
    match b.choice_of(ItemId::RIG, "trailer.brakes") {
        Some("none") => {
            b.put_yes(
                "trailer.has_brakes",
                Tri::False,
                "no service brakes".to_owned(),
                &["trailer.brakes"],
            );
        }
        Some(kind) => {
            b.put_yes(
                "trailer.has_brakes",
                Tri::True,
                format!("{kind} brakes"),
                &["trailer.brakes"],
            );
        }
        None => {}
    }
    if b.number("trailer.braked_wheels")
        .lo
        .is_some_and(|n| n > Exact::ZERO)
    {
        b.put_yes(
            "trailer.has_brakes",
            Tri::True,
            "wheels with brakes".to_owned(),
            &["trailer.braked_wheels"],
        );
    }
    if b.number("trailer.braked_wheels").hi == Some(Exact::ZERO) {
        b.put_yes(
            "trailer.has_brakes",
            Tri::False,
            "no wheel with brakes".to_owned(),
            &["trailer.braked_wheels", "axle.braked"],
        );
    }
    if b.yes("trailer.all_wheels_braked") == Tri::True {
        b.put_yes(
            "trailer.has_brakes",
            Tri::True,
            "brakes on all wheels".to_owned(),
            &["trailer.all_wheels_braked"],
        );
    }
    match b.yes("trailer.has_brakes") {
        Tri::False => {
            let no = || "no service brakes".to_owned();
            let from = ["trailer.has_brakes", "trailer.brakes"];
            b.put("trailer.braked_wheels", zero(), None, no(), &from);
            b.put("trailer.braked_axles", zero(), None, no(), &from);
            b.put_yes("trailer.all_wheels_braked", Tri::False, no(), &from);
        }
        Tri::True => {
            let some = || "the trailer has brakes".to_owned();
            b.put(
                "trailer.braked_wheels",
                at_least_one,
                None,
                some(),
                &["trailer.brakes"],
            );
            b.put(
                "trailer.braked_axles",
                at_least_one,
                None,
                some(),
                &["trailer.brakes"],
            );
        }
        Tri::Unknown => {}
    }
}

/// Braked wheels are never more than all wheels; brakes on all wheels means that they are as many.
fn braked_against_wheels(b: &mut Bench<'_>) {
    for (braked, total) in [
        ("trailer.braked_wheels", "trailer.wheels"),
        ("trailer.braked_axles", "trailer.axle_count"),
    ] {
        if !b.is_known(ItemId::RIG, total) {
            continue;
        }
        let most = b.number(total);
        let within = Interval::new(Some(Exact::ZERO), most.hi).unwrap_or(Interval::non_negative());
        b.put(
            braked,
            within,
            None,
            format!(
                "no more than there are ({})",
                format_interval(most, Unit::One)
            ),
            &[total, "axle.wheels"],
        );
    }
    let (braked, wheels) = (
        b.number("trailer.braked_wheels"),
        b.number("trailer.wheels"),
    );
    if b.is_known(ItemId::RIG, "trailer.wheels")
        && b.is_known(ItemId::RIG, "trailer.braked_wheels")
        && !b.facts.is_complete(Scope::Axle)
    {
        let all = match braked.equals(wheels) {
            crate::quantity::Compared::Always => Tri::True,
            crate::quantity::Compared::Never => Tri::False,
            crate::quantity::Compared::Sometimes => Tri::Unknown,
        };
        b.put_yes(
            "trailer.all_wheels_braked",
            all,
            "wheels with brakes against wheels in all".to_owned(),
            &["trailer.braked_wheels"],
        );
    }
    if b.yes("trailer.all_wheels_braked") == Tri::True && b.is_known(ItemId::RIG, "trailer.wheels")
    {
        b.put(
            "trailer.braked_wheels",
            wheels,
            None,
            "brakes on all wheels".to_owned(),
            &["trailer.all_wheels_braked"],
        );
    }
}
