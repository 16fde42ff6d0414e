//! The codes of this layer's complaints.

use crate::source::diagnostic::Codes;

/// Each code with one line on what it means.
pub const CODES: Codes = &[
    (
        "read::date",
        "not a day, month or year, or a range the wrong way round",
    ),
    (
        "read::date-code",
        "not the date code of a tyre, or no such week",
    ),
    ("read::not-a-list", "a list was expected"),
    ("read::not-a-mapping", "a mapping was expected"),
    ("read::not-a-value", "a single value was expected"),
    ("read::not-yes-no", "yes or no was expected"),
    (
        "read::quantity",
        "a quantity that cannot be read: unit missing or of another kind, not a number, negative",
    ),
    ("read::unknown-choice", "a word that is none of the choices"),
    ("read::unknown-key", "a key that is no fact"),
    ("read::worked-out", "a fact that is worked out, not stated"),
    ("read::year", "not a calendar year"),
    (
        "rig::contradiction",
        "two statements about the rig that cannot both be true",
    ),
    ("rig::format", "not a format version"),
    ("rig::newer-format", "a rig file of a newer format"),
    (
        "rig::write",
        "a value that cannot be written into a rig file",
    ),
    ("rig::no-format", "the format version is missing"),
];
