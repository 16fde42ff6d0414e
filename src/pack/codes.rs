//! The codes of complaints about packs, from this layer and from the compiler.

use crate::source::diagnostic::Codes;

/// Each code with one line on what it means.
pub const CODES: Codes = &[
    ("pack::adopts-nothing", "an adoption that leaves no rule"),
    ("pack::amount", "not an amount"),
    ("pack::amount-kind", "amounts of different kinds compared"),
    ("pack::circular", "a definition that refers to itself"),
    (
        "pack::comparison",
        "a comparison that the kind does not have, or none at all",
    ),
    ("pack::dangling", "a reference that leads nowhere"),
    (
        "pack::dates-out-of-order",
        "in force until a day before the first",
    ),
    ("pack::duplicate-id", "the same name twice"),
    (
        "pack::duplicate-pack",
        "the same pack in two files that are checked together",
    ),
    ("pack::each", "nothing to run a rule for"),
    ("pack::empty-condition", "a condition without lines"),
    ("pack::folder", "a folder that cannot be read"),
    ("pack::format", "not a format version"),
    ("pack::id", "not an id"),
    ("pack::impossible", "a condition that no rig can meet"),
    ("pack::look", "a look without its text"),
    ("pack::missing-key", "a key that is needed"),
    ("pack::newer-format", "a pack of a newer format"),
    ("pack::no-pack", "no such pack, or none in a folder"),
    ("pack::no-region", "a region that no pack covers"),
    ("pack::no-source", "a rule that cites nothing"),
    ("pack::outcome", "not an outcome"),
    (
        "pack::place",
        "an id that is not the one the file's place gives",
    ),
    ("pack::reading", "not a grade of reading"),
    (
        "pack::reference-unreadable",
        "a pack referred to that cannot be read",
    ),
    ("pack::region", "not the code of a region"),
    (
        "pack::scope",
        "a fact of an item in a rule that is not run for items",
    ),
    ("pack::source", "not a source"),
    ("pack::standing", "not a standing of a pack"),
    ("pack::text-fact", "a condition on free text"),
    ("pack::topic", "not a topic"),
    ("pack::unknown-fact", "not a fact"),
    ("pack::unknown-region", "not the name or code of a region"),
    ("pack::unknown-key", "a key that does not belong here"),
];
