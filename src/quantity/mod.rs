//! Exact quantities and units.
