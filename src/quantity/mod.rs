//! Exact quantities and units.
//!
//! A threshold must not flip because of the unit it was written in, so every amount is an exact
//! rational number of its dimension's base unit ([`Exact`]), every conversion factor is exact
//! ([`Unit::factor`]), and a value that is only known to lie between two ends is an [`Interval`]
//! whose arithmetic never loses a possible value. [`parse_measure`] reads what people write and
//! the `format_…` functions print it again.

mod error;
mod exact;
mod fraction;
mod interval;
mod number;
mod parse;
mod show;
mod term;
mod text;
mod unit;
mod unit_table;

pub use error::{MeasureError, MeasureErrorKind};
pub use exact::Exact;
pub use interval::{Compared, Interval};
pub use parse::{MAX_TEXT, parse_measure};
pub use show::{
    Measure, Rounding, Shown, format_exact, format_interval, format_rounded, is_rounded, show_both,
};
pub use unit::{Dimension, Unit};
