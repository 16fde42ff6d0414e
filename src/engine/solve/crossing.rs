//! Where a condition turns between two places: exactly where its two sides run straight or as a
//! ratio, else between two neighbouring places of a stated resolution, both looked at.

use crate::quantity::{Exact, Unit};

/// What is found at one place: on which side of turning it lies, and how far off, if that is known.
#[derive(Clone, Copy, Debug)]
pub(super) struct Probe {
    pub side: i8,
    pub end: Option<Exact>,
}

/// The resolution to which a turn is placed that cannot be placed exactly: a thousandth of the unit.
pub(super) fn resolution(unit: Unit) -> Option<Exact> {
    unit.to_base(Exact::new(1, 1000)?)
}

/// The places between `a` and `b`, where the probe finds different sides, at which it changes: each
/// as a stretch, both its ends alike where the place is exact.
pub(super) fn crossing(
    probe: &dyn Fn(Exact) -> Probe,
    a: (Exact, Probe),
    b: (Exact, Probe),
    unit: Unit,
) -> Vec<(Exact, Exact)> {
    if a.1.side == b.1.side {
        return Vec::new();
    }
    // At zero itself, and straight on from it.
    for (end, other) in [(a, b), (b, a)] {
        if end.1.end == Some(Exact::ZERO) && jumps_at(probe, end.0, other) {
            return vec![(end.0, end.0)];
        }
    }
    if let (Some(ya), Some(yb)) = (a.1.end, b.1.end)
        && (ya > Exact::ZERO) != (yb > Exact::ZERO)
    {
        let middle = || {
            let m = a.0.checked_add(b.0)?.checked_div(Exact::from_int(2))?;
            ratio((a.0, ya), (b.0, yb), (m, probe(m).end?))
        };
        let found: Vec<Exact> = [straight((a.0, ya), (b.0, yb)), middle()]
            .into_iter()
            .flatten()
            .collect();
        if let Some(x) = found.iter().find(|x| is_zero_at(probe, **x, a, b)) {
            return vec![(*x, *x)];
        }
        // Where figures had to be rounded on the way it may lie just beside.
        if let Some(stretch) = found.iter().find_map(|x| beside(probe, *x, a, b, unit)) {
            return vec![sharpened(probe, stretch)];
        }
    }
    // A step at one of the two places.
    for (end, other) in [(a, b), (b, a)] {
        if jumps_at(probe, end.0, other) {
            return vec![(end.0, end.0)];
        }
    }
    let mut out = Vec::new();
    if let Some(grid) = resolution(unit) {
        halve(probe, a, b, grid, &mut out);
    }
    out.into_iter().map(|s| sharpened(probe, s)).collect()
}

/// Whether the probe finds zero at a place between two others, and beside it what it finds at these: a
/// stretch of zeros is no turn but where it begins and ends.
fn is_zero_at(
    probe: &dyn Fn(Exact) -> Probe,
    x: Exact,
    a: (Exact, Probe),
    b: (Exact, Probe),
) -> bool {
    let reaches = |other: (Exact, Probe)| x == other.0 || jumps_at(probe, x, other);
    a.0 <= x && x <= b.0 && probe(x).end == Some(Exact::ZERO) && reaches(a) && reaches(b)
}

/// The place within a narrow stretch where the line through its ends, or the one that leads up to it on
/// either side, passes zero, if it does so there exactly: what bends elsewhere, as the greater of two
/// weights does, runs on within it.
fn sharpened(probe: &dyn Fn(Exact) -> Probe, stretch: (Exact, Exact)) -> (Exact, Exact) {
    let (a, b) = ((stretch.0, probe(stretch.0)), (stretch.1, probe(stretch.1)));
    let value = |x: Exact| Some((x, probe(x).end?));
    // Straight on, or as a ratio, from three places outside.
    let from = |near: (Exact, Probe), back: Exact| {
        let second = value(near.0.checked_add(back)?)?;
        let third = value(second.0.checked_add(back)?)?;
        let near = (near.0, near.1.end?);
        Some([straight(second, near), ratio(near, third, second)])
    };
    let width = stretch.1.checked_sub(stretch.0);
    let within = || Some([straight((a.0, a.1.end?), (b.0, b.1.end?)), None]);
    let found = [
        within(),
        width.and_then(|w| from(a, w.neg())),
        width.and_then(|w| from(b, w)),
    ];
    let mut found = found.into_iter().flatten().flatten().flatten();
    found
        .find(|x| is_zero_at(probe, *x, a, b))
        .map_or(stretch, |x| (x, x))
}

/// The neighbouring places of the grid about `x`, where these are already on different sides.
fn beside(
    probe: &dyn Fn(Exact) -> Probe,
    x: Exact,
    a: (Exact, Probe),
    b: (Exact, Probe),
    unit: Unit,
) -> Option<(Exact, Exact)> {
    let grid = resolution(unit)?;
    let low = x.checked_div(grid)?.floor().checked_mul(grid)?;
    let high = low.checked_add(grid)?;
    let inside = a.0 <= low && high <= b.0;
    (inside && probe(low).side == a.1.side && probe(high).side == b.1.side).then_some((low, high))
}

/// Whether just beside `x` the probe finds already what it finds at the other place.
fn jumps_at(probe: &dyn Fn(Exact) -> Probe, x: Exact, other: (Exact, Probe)) -> bool {
    let beside = || {
        let tiny = other
            .0
            .checked_sub(x)?
            .checked_div(Exact::from_int(1 << 20))?;
        x.checked_add(tiny)
    };
    beside().is_some_and(|y| probe(y).side == other.1.side)
}

/// Where the straight line through two places passes zero.
fn straight(a: (Exact, Exact), b: (Exact, Exact)) -> Option<Exact> {
    let run = b.0.checked_sub(a.0)?;
    let rise = b.1.checked_sub(a.1)?;
    a.0.checked_sub(a.1.checked_mul(run)?.checked_div(rise)?)
}

/// Where the quotient of two straight lines, which three places settle, passes zero: the cross-ratio
/// of four places is that of their values.
fn ratio(a: (Exact, Exact), b: (Exact, Exact), m: (Exact, Exact)) -> Option<Exact> {
    let values = a.1.checked_mul(m.1.checked_sub(b.1)?)?;
    let values = values.checked_div(b.1.checked_mul(m.1.checked_sub(a.1)?)?)?;
    let places = m.0.checked_sub(b.0)?.checked_div(m.0.checked_sub(a.0)?)?;
    // (x − a) / (x − b) = values / places
    let k = values.checked_div(places)?;
    let top = a.0.checked_sub(k.checked_mul(b.0)?)?;
    top.checked_div(Exact::ONE.checked_sub(k)?)
}

/// Narrows down to neighbouring places of the grid wherever the two ends differ: along the straight
/// line between them, and by halves in turn.
fn halve(
    probe: &dyn Fn(Exact) -> Probe,
    a: (Exact, Probe),
    b: (Exact, Probe),
    grid: Exact,
    out: &mut Vec<(Exact, Exact)>,
) {
    let mut open = vec![(a, b)];
    // Each step is counted, so that a condition that flickers cannot hold the solver up.
    for _ in 0..400 {
        let Some((a, b)) = open.pop() else { return };
        if a.1.side == b.1.side {
            continue;
        }
        let (a, b) = aimed(probe, a, b, grid);
        let middle = || {
            let half = a.0.checked_add(b.0)?.checked_div(Exact::from_int(2))?;
            half.checked_div(grid)?.floor().checked_mul(grid)
        };
        match middle().filter(|m| a.0 < *m && *m < b.0) {
            Some(m) => {
                let found = (m, probe(m));
                if is_zero_at(probe, m, a, b) {
                    out.push((m, m));
                } else {
                    open.push((found, b));
                    open.push((a, found));
                }
            }
            None => out.push((a.0, b.0)),
        }
    }
    out.extend(open.into_iter().map(|(a, b)| (a.0, b.0)));
}

/// The stretch drawn in about the place where the straight line between its ends passes zero.
fn aimed(
    probe: &dyn Fn(Exact) -> Probe,
    a: (Exact, Probe),
    b: (Exact, Probe),
    grid: Exact,
) -> ((Exact, Probe), (Exact, Probe)) {
    let aim = || {
        let (ya, yb) = (a.1.end?, b.1.end?);
        if a.1.side == 0 || b.1.side == 0 {
            return None;
        }
        let x = straight((a.0, ya), (b.0, yb))?;
        let low = x.checked_div(grid)?.floor().checked_mul(grid)?;
        let high = low.checked_add(grid)?;
        (a.0 < low && high < b.0).then_some((low, high))
    };
    let Some((low, high)) = aim() else {
        return (a, b);
    };
    let (below, above) = (probe(low), probe(high));
    if below.side == b.1.side {
        (a, (low, below))
    } else if above.side == a.1.side {
        ((high, above), b)
    } else if below.side == a.1.side && above.side == b.1.side {
        ((low, below), (high, above))
    } else {
        (a, b)
    }
}
