//! The codes of complaints about the command line.

use crate::source::diagnostic::Codes;

/// Each code with one line on what it means.
pub const CODES: Codes = &[
    ("cli::ask-end", "the answers end before the questions do"),
    ("cli::no-range", "a fact of which there is no range"),
    ("cli::no-such-fact", "a name that is no fact of the rig"),
    ("cli::no-fact", "words that no fact speaks of"),
    ("cli::no-region", "no region to check a rig for"),
    (
        "cli::older-than",
        "a length of time that leads beyond the calendar",
    ),
    ("cli::write", "output that cannot be written"),
];
