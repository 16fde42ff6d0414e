//! Proof that packs say what their authors meant.

mod cases;
mod check;

pub use cases::{PreparedCase, check_cases, prepare_cases};
pub use check::{PackCheck, check_library, check_packs};
