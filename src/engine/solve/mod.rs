//! One solver, many answers: which values of one fact leave no rule broken?
//!
//! From that question come where to place the load, how heavy a trailer this vehicle may tow, how
//! many straps, and how far the rig is from the next threshold. The outcome of every rule is a
//! step function of the fact; its steps are found ([`line`]), the outcomes between them computed,
//! and like neighbours joined.

mod line;
mod margin;
mod range;
mod strictest;
mod subject;

pub use margin::{Margin, margins};
pub use range::{Band, Range, Standing, bound, range, range_under};
pub use strictest::{Demand, strictest};
pub use subject::{Subject, find_subject};
