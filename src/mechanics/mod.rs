//! Worked-out facts: weights, brakes, tie-downs, lamps and dates, computed from what is stated.
//!
//! Every result is computed over ranges: an uncertain load gives an uncertain gross weight. What is
//! missing stays missing. Where a fact is both stated and computed, the two must agree.

mod bench;
mod brakes;
mod complain;
mod dates;
mod inputs;
mod lamps;
mod purpose;
mod tie_downs;
mod weights;

pub use bench::Conflict;
pub use inputs::{INPUTS, inputs};

use crate::facts::{Day, FactSet};
use bench::Bench;

/// Works out all that can be worked out, and returns what contradicts itself.
///
/// `on` is the day of the check; facts that depend on it are missing without one.
pub fn work_out(facts: &mut FactSet, on: Option<Day>) -> Vec<Conflict> {
    let mut b = Bench::new(facts);
    dates::work_out(&mut b, on);
    brakes::work_out(&mut b);
    tie_downs::work_out(&mut b);
    weights::work_out(&mut b);
    lamps::work_out(&mut b);
    purpose::work_out(&mut b);
    b.conflicts
}
