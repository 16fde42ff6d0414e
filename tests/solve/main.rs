//! What the solver guarantees: every value inside an allowed band leaves no rule broken, just
//! beyond each end the named rule is broken, and margins agree with ranges.

mod margins;
mod ranges;
mod support;
