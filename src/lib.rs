//! Pintle checks a towing rig against the rules of the places it will pass through, tells which
//! rules apply and why, and cites the source of each.
//!
//! The rooms of the house, the lowest first: [`quantity`], [`source`], [`facts`], [`rig`],
//! [`mechanics`], [`pack`], [`engine`], [`proof`], [`report`], [`dialogue`], [`cli`]. Nothing lower knows what is
//! above it.

pub mod cli;
pub mod dialogue;
pub mod engine;
pub mod facts;
pub mod mechanics;
pub mod pack;
pub mod proof;
pub mod quantity;
pub mod report;
pub mod rig;
pub mod source;
