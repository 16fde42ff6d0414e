//! Ranges solved backward from published rules, and what `range`, `strictest` and the margins of
//! `check` tell of them.

mod published;
mod support;
mod told;
