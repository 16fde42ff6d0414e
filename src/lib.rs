//! Pintle checks a towing rig against the rules of the places it will pass through.

pub mod quantity;
pub mod source;
