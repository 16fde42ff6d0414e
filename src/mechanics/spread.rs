//! How the load lies about the axles: its centre and its spread, a measure of yaw inertia.

use super::bench::{Bench, joined, zero};
use super::formulas::{over_ends, weighted_mean};
use super::geometry::Geometry;
use super::inexact::{sqrt, square};
use crate::quantity::{Exact, Interval};

/// The load's centre, how far it lies ahead of the axles, and its radius of gyration about them.
pub(super) fn work_out(b: &mut Bench<'_>, g: &Geometry) {
    let Some(load) = g.load.as_ref().filter(|l| !l.is_empty()) else {
        return;
    };
    let nothing = (zero(), zero());
    let centre_for = |deck: Interval| {
        let terms: Vec<_> = g.placed(deck).iter().map(|p| (p.weight, p.at)).collect();
        weighted_mean(nothing, &terms)
    };
    let centre = over_ends(g.deck, centre_for);
    let words: Vec<String> = load
        .iter()
        .map(|p| {
            format!(
                "{} {} at {}",
                b.name(p.item),
                b.show(p.item, "load.weight", None),
                g.show(g.place(p, g.deck))
            )
        })
        .collect();
    let from = ["load.position", "load.weight"];
    let unit = Some(g.unit);
    b.put(
        "trailer.load_centre",
        centre,
        unit,
        format!("the mean, by weight, of {}", joined(&words, ", ")),
        &from,
    );
    if !g.has_axles() {
        return;
    }
    let ahead = over_ends(g.deck, |deck| g.to_axles.sub(centre_for(deck)));
    let working = format!(
        "axles at {} − centre of the load at {}",
        g.show(g.to_axles),
        g.show(centre)
    );
    b.put("trailer.load_ahead_of_axles", ahead, unit, working, &from);
    let twelfth = Interval::exactly(Exact::from_int(12));
    let terms: Vec<_> = load
        .iter()
        .map(|p| {
            let own = square(p.length).div(twelfth);
            (
                p.weight,
                square(g.place(p, g.deck).sub(g.to_axles)).add(own),
            )
        })
        .collect();
    let radius = sqrt(weighted_mean(nothing, &terms));
    let working = "the root of the mean, by weight, of each item's distance from the axles squared and a twelfth of its length squared".to_owned();
    b.put(
        "trailer.load_spread",
        radius,
        unit,
        working,
        &["load.position", "load.length"],
    );
}
