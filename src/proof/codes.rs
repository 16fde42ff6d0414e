//! The codes of what proving a pack finds.

use crate::source::diagnostic::Codes;

/// Each code with one line on what it means.
pub const CODES: Codes = &[
    (
        "proof::case-fails",
        "a case that comes out otherwise than it expects",
    ),
    (
        "proof::comparison",
        "no case notices if a comparison were weakened or tightened",
    ),
    (
        "proof::condition",
        "no case notices if a condition had no effect",
    ),
    (
        "proof::contradiction",
        "two rules that one rig cannot both keep",
    ),
    ("proof::date", "no case notices if a date were off by a day"),
    ("proof::gap", "a figure that falls between two rules"),
    (
        "proof::member",
        "no case notices if a member of a list were left out",
    ),
    (
        "proof::never-applies",
        "a rule whose conditions shut one another out",
    ),
    (
        "proof::number",
        "no case notices if a figure were off by its smallest step",
    ),
    (
        "proof::repetition",
        "two rules that say the same of every rig",
    ),
    (
        "proof::weight-basis",
        "no case notices if another weight were meant",
    ),
];
