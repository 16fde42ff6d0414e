//! What can be wrong with a written measure.

use std::error::Error;
use std::fmt;
use std::ops::Range;

/// What kind of fault a text has.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum MeasureErrorKind {
    /// A number stands without its unit.
    MissingUnit,
    /// The unit is one of another dimension.
    WrongUnitKind,
    /// No unit is known by this name.
    UnknownUnit,
    /// There is no number, or something beside it that cannot be read.
    NotANumber,
    /// The value is infinite.
    Infinite,
    /// The value is below zero, and its dimension does not go there.
    Negative,
    /// The first end of a range is above the second.
    RangeReversed,
    /// The text or a number in it has too many characters.
    TooLong,
    /// The text can be understood in more than one way.
    Ambiguous,
    /// A count is not a whole number.
    NotWhole,
    /// Digits are not grouped by threes.
    BadGrouping,
}

/// Why a text could not be read as a measure.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct MeasureError {
    /// The kind of fault.
    pub kind: MeasureErrorKind,
    /// Where the fault is: a range of bytes in the text, on character boundaries.
    pub at: Range<usize>,
    /// What is wrong, in a sentence without a full stop.
    pub message: String,
    /// What is expected here, such as `a mass with its unit, such as 3,000 lb or 1,361 kg`.
    pub expected: String,
    /// A whole text that could be meant; it reads without error.
    pub suggestion: Option<String>,
}

impl fmt::Display for MeasureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}; expected {}", self.message, self.expected)?;
        match &self.suggestion {
            Some(suggestion) => write!(f, "; did you mean `{suggestion}`?"),
            None => Ok(()),
        }
    }
}

impl Error for MeasureError {}
