//! Proof that packs say what their authors meant: cases, slips that the cases must notice, and the
//! rigs that a rule can tell apart.

mod analysis;
mod cases;
mod change;
mod check;
mod codes;
mod diff;
mod given;
mod number_slips;
mod prove;
mod slips;
mod space;
mod witness;

pub use analysis::analyse;
pub use cases::{PreparedCase, check_cases, prepare_cases};
pub use change::{Change, Undo, apply, revert};
pub use check::{CheckedRule, Depth, PackCheck, check_library, check_packs};
pub use codes::CODES;
pub use diff::{RuleChange, RuleDiff, diff};
pub use given::given;
pub use number_slips::step_of;
pub use prove::{Proof, prove};
pub use slips::{Slip, SlipKind, slips};
pub use space::{Candidate, Space, blank_rig, set};
pub use witness::{Difference, Verdict, find_difference, find_witness};
