//! The codes of complaints about what a report is asked for.

use crate::source::diagnostic::Codes;

/// Each code with one line on what it means.
pub const CODES: Codes = &[
    (
        "report::several-days",
        "a trip that leaves the day of the check open",
    ),
    ("report::unknown-rule", "not a rule"),
];
