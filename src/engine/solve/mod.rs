//! One solver, many answers: which values of one fact leave no rule broken?
//!
//! From that question come where to place the load, how heavy a trailer this vehicle may tow, how
//! many straps, and how far the rig is from the next threshold. The outcome of every rule is a
//! step function of the fact; its steps are found, the outcomes between them computed, and like
//! neighbours joined.
//!
//! | module | concern |
//! |---|---|
//! | `subject` | which fact of which item is varied |
//! | `worlds` | the rig worked out at places along the line |
//! | `turners` | each distinct condition that hangs on the fact |
//! | `samples` | how far the line is looked at, and where |
//! | `line`, `crossing` | where these conditions turn |
//! | `cells` | the outcome of every rule at the turns and between |
//! | `range`, `conflict` | bands of like standing; what cannot be kept together |
//! | `margin` | the nearest turns around what the rig is now |
//! | `strictest` | the one set of requirements that satisfies a whole route |

mod cells;
mod conflict;
mod crossing;
mod line;
mod margin;
mod range;
mod samples;
mod strictest;
mod subject;
mod turners;
mod worlds;

pub use margin::{Margin, distinct, margins};
pub use range::{Band, End, Range, Standing, range};
pub use strictest::{Demand, Requirements, strictest};
pub use subject::{Subject, find_subject};
