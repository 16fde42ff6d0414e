//! Worked-out facts: weights, balance, ratings, tie-downs, tyres, couplings, brakes, lamps and
//! dates, computed from what is stated.
//!
//! Every result is computed over ranges: an uncertain load gives an uncertain tongue weight, and
//! the range of a result contains the result of every value in the ranges it comes from. What is
//! missing stays missing; nothing is guessed. Fractions are exact; roots and angles are rounded
//! outward, by about one part in 10¹². Each result carries its working in words, in the units
//! that the rig file uses.
//!
//! A fact that is both stated and worked out must agree where the two are one by bookkeeping:
//! gross = empty + load, gross = tongue + axles. Else they are a [`Conflict`]. Where a scale and
//! a model differ (tongue weight, axle loads) the scale stands and there is no conflict; the
//! tongue weight by moments is then shown beside it.
//!
//! # Formulas
//!
//! Masses stand for weights. `L` is the distance from coupler to axle group, `x` an item's
//! distance behind the coupler, `a` the wheelbase, `b` the hitch's overhang behind the rear axle
//! (negative ahead of it), `T` the tongue weight, `W` the gross weight, `A` what the axles carry.
//!
//! | fact | formula | source |
//! |---|---|---|
//! | `trailer.tongue_weight` (mass) | `T = T₀ + Σ w (1 − x / L)`; or `W − A` from weighed axles | statics; a trailer engineer's example in the trade press |
//! | `trailer.tongue_lift` (mass) | `−T` where that is above zero | statics |
//! | `trailer.tongue_share` (share) | `T / W` | makers' manuals name shares of it |
//! | `trailer.axle_weight` (mass) | `A = W − T` | a trailer maker's example (200 − 20 = 180 kg) |
//! | `trailer.coupler_to_axles` (length) | mean of the axles' positions; rigid axles on equal springs `Σ x² / Σ x` | statics; model below |
//! | `axle.weight` (mass) | `(A + moved) / n` equalised; `(A + moved) x / Σ x` rigid | as above |
//! | `tow_vehicle.hitched_weight` (mass) | gross + `T` − moved to the trailer | bookkeeping |
//! | `tow_vehicle.front_axle_relief`, `.rear_axle_gain` (mass) | `T b / a` and `T (1 + b / a)` | lever rule, SAAIA and others |
//! | `tow_vehicle.hitch.moved_to_front` (mass) | moved to the trailer × `(L + b) / a`, or the reverse | statics of the bars' moment |
//! | `tow_vehicle.tail_low`, `.hitch.drop`, `.pitch`, `trailer.nose_low` | axle change × sinking ÷ test load, along a straight line | even springs |
//! | `trailer.load_centre` (length) | `Σ w x / Σ w` | statics |
//! | `trailer.load_spread` (length) | `√(Σ w ((x − L)² + l² / 12) / Σ w)` | radius of gyration; yaw inertia rules stability (University of Bath, 2009) |
//! | `…_used` (share) | load ÷ rating | bookkeeping |
//! | `coupling.weakest_rating` (mass) | the least rating of coupler, ball, ball mount, hitch | habit of the trade |
//! | `coupling.class_needed`, `tow_vehicle.hitch.class_rating` | class limits 2,000, 3,500, 5,000, 10,000 lb | SAE J684 as adopted in COMAR 11.13.08.04 |
//! | `trailer.safety_chains.class_strength` (mass) | 2,000, 3,500, 5,000 lb, the GVWR | SAE J684 (2005) as reported |
//! | `load.aggregate_limit…` (mass) | Σ count × share by path × limit | 49 CFR 393.106(d); 393.108 for unmarked ones |
//! | `load.tie_downs_needed_us` (count) | by length and weight | 49 CFR 393.110 |
//! | `load.sliding_held.…` (share) | `n k μ F_T sin α ÷ ((c − μ) m g f_s)`, `k` = 2; direct `Σ F_R (cos α cos β + 0.75 μ sin α) ÷ ((c − 0.75 μ) m g)` | EN 12195-1 by way of GDV and others; `f_s` by direction and 0.75 from memory |
//! | `load.tipping_held.…` (share) | moments of the tie-downs ÷ `(c h − d) m g` | coefficients 0.8, 0.6, 0.5 as a van fitter's manual gives them; statics |
//! | `tyre.capacity` (mass) | sidewall, else load index; for ST tyres no more than the chart at the pressure stated | load index charts; a tyre maker's ST chart |
//! | `tyre.load` (mass) | axle weight ÷ wheels | bookkeeping |
//! | `tyre.age` (time) | day of the check − week of making | 49 CFR 574.5(b)(3) |
//! | `combination.braking_force` (share) | `v² / (2 d g)`, `v` = 20 mph | 49 CFR 393.52 gives both figures |
//!
//! # Limits of the models
//!
//! - The trailer is a rigid beam on the coupler and the axle group; all loads are at rest. Grades,
//!   wind, liquid that moves and animals that walk are left out.
//! - Rigid axles are taken as equal springs that all touch when the unloaded trailer stands at the
//!   height of its coupler as driven; the coupler does not yield. A coupler set higher or lower
//!   shifts load between such axles by more than this model says.
//! - Both sides of an axle are taken as alike; a load off the middle is not.
//! - A weight-distributing hitch counts only as stated, by weighing. Where it is not said that
//!   there is none, what it may move is open, and axle loads are open with it.
//! - Sway: tongue share and the spread of the load are indicators. Tests and models name them
//!   among what matters, together with speed, axle position, wheelbase, overhang, tyres and the
//!   empty trailer's own inertia, which a rig file does not know. No critical speed is worked out:
//!   no published relation between such figures and a speed was found that could be checked.
//! - EN 12195-1 leaves out vehicles of 3,500 kg or less, which can brake and swerve harder.
//!   Top-over and direct tie-downs are each weighed alone; together, or beside tie-downs by other
//!   paths, they hold at least what the better of the two holds, and the result is open above.
//!   Blocking is not given a strength.
//! - Tipping counts the sideways moment of top-over tie-downs over the item's width and, of direct
//!   ones, only the pull along the deck at the height where they are fixed.
//! - The braking figure restates a stopping distance; it foretells none.

mod balance;
mod bench;
mod brakes;
mod braking;
mod complain;
mod coupling;
mod dates;
mod default_limits;
mod extent;
pub mod formulas;
mod geometry;
mod inexact;
mod inputs;
mod lamps;
mod lashing;
mod purpose;
mod ratings;
mod spread;
mod tie_downs;
mod transfer;
mod tyre_tables;
mod tyres;
mod vehicle;
mod weights;

pub use bench::Conflict;
pub use inputs::{INPUTS, inputs};

use crate::facts::{Day, FactSet};
use bench::Bench;
use geometry::Geometry;
use transfer::Transfer;

/// Works out all that can be worked out, and returns what contradicts itself.
///
/// `on` is the day of the check; facts that depend on it are missing without one.
pub fn work_out(facts: &mut FactSet, on: Option<Day>) -> Vec<Conflict> {
    let mut b = Bench::new(facts);
    dates::work_out(&mut b, on);
    brakes::work_out(&mut b);
    tie_downs::work_out(&mut b);
    weights::work_out(&mut b);
    let geometry = Geometry::read(&mut b);
    let tongue = balance::work_out(&mut b, &geometry);
    spread::work_out(&mut b, &geometry);
    let transfer = Transfer::read(&mut b, &geometry);
    balance::each_axle(&mut b, &transfer);
    vehicle::work_out(&mut b, tongue, &transfer);
    ratings::work_out(&mut b);
    coupling::work_out(&mut b);
    braking::work_out(&mut b);
    lashing::work_out(&mut b);
    tyres::work_out(&mut b);
    lamps::work_out(&mut b);
    purpose::work_out(&mut b);
    extent::work_out(&mut b);
    b.conflicts
}
