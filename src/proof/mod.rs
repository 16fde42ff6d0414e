//! Proof that packs say what their authors meant.

mod cases;

pub use cases::{PreparedCase, check_cases, prepare_cases};
